import { post, Trouble } from "../../ask";
import { state, syncNow, write, type Draft, type Options } from "../../journal";
import { say } from "../../words";
import { told, useSaving as usePress } from "../common";

export interface Saving {
  /** Why the last try did nothing, as a sentence. */
  problem: string | null;
  setProblem: (problem: string | null) => void;
  /** True when the drafts are kept on this phone; `said` then stands on the screen. */
  save: (drafts: Draft[], said: string, options?: Options) => Promise<boolean>;
}

/** Writing for the office's screens: all drafts or none, and a sentence either way. */
export function useSaving(): Saving {
  const { problem, tell, saving } = usePress();
  const save = (drafts: Draft[], said: string, options?: Options): Promise<boolean> =>
    saving(async () => {
      told.value = null;
      await write(drafts, [], options);
      told.value = said;
    });
  return { problem, setProblem: tell, save };
}

/** Status of a refusal -> the key of its sentence, where a plain one would say too little. */
export type OwnWords = Readonly<Record<number, string>>;

/** Asks the office for what only it can do; null when it is done, else why not, as a sentence. */
export async function askOffice(path: string, body: object, own: OwnWords): Promise<string | null> {
  told.value = null;
  try {
    // What this phone has written so far goes first: the office cannot act on what it does not know.
    if (state.peek().unsent > 0) await syncNow();
    await post(path, body);
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    return inWords(error, own);
  }
  await syncNow();
  return null;
}

function inWords({ key, status, body }: Trouble, own: OwnWords): string {
  if (status === 403) return say("manager.not_yours");
  const reason = typeof body?.["reason"] === "string" ? say(`reasons.${body["reason"]}`) : "";
  const found = own[status];
  return found ? say(found, { reason }) : say(key);
}
