/** What a crew lead has picked and half said, and how it becomes ticks and clears. */

import { write, type Draft } from "../../journal";
import { NoPhoto, take, type Taken } from "../../photos";
import { CURRENT, needsAfterPhoto, undecided, type ItemPart } from "../../rules";
import { say, t } from "../../words";
import { me, numbers, told, useDrawn, useKept, useSaving } from "../common";
import { clears, ticks } from "./clearEntries";
import { doneByOf, type Done } from "./DoneBy";

/** Kept on the phone, as some reload the page while the camera is open. */
interface Half {
  picked: string[];
  done: Done;
  after: Taken[];
}
const NOTHING: Half = { picked: [], done: { who: "", name: "", minutes: "" }, after: [] };

export interface Clearing {
  picked: ReadonlySet<string>;
  /** What is picked and still there, as the screen shows it. */
  chosen: ItemPart[];
  /** Of those, what may not be cleared without a photo after, and there is none. */
  lacking: ItemPart[];
  done: Done;
  after: Taken[];
  problem: string | null;
  pick: (ids: string[], on: boolean) => void;
  setDone: (done: Done) => void;
  takeAfter: (input: HTMLInputElement) => Promise<void>;
  clear: () => void;
  tick: () => void;
}

/** Nobody clears what two people say differently. */
export const decided = (item: ItemPart): boolean => undecided(item.heads).length === 0;
export const numbersOf = (items: readonly ItemPart[]): string => numbers(items.map(({ number }) => number));

/** `all`: the items on the screen. */
export function useClearing(all: readonly ItemPart[]): Clearing {
  const slot = `work ${me()}`;
  const half = useKept<Half>(slot, NOTHING);
  const { done, after } = half.value;
  const { problem, tell, saving } = useSaving();
  const picked = new Set(half.value.picked);
  const chosen = all.filter((item) => picked.has(item.id) && decided(item));
  const shown = useDrawn(...chosen.map((item) => ({ part: "item", id: item.id })));
  const writing = (make: (doneBy: string[]) => Draft[], said: string, photos: Taken[] = []): Promise<boolean> =>
    saving(async () => {
      const { doneBy, named } = doneByOf(done);
      await write([...named, ...make(doneBy)], photos, { drawn: shown, draft: slot });
      // A photo taken for the clear waits for it while only a step is ticked.
      if (photos.length < after.length) await half.keep((now) => ({ ...now, done: NOTHING.done }));
      else half.drop();
      told.value = said;
    });
  const clear = (): void => {
    const minutes = done.minutes.trim() ? Number(done.minutes) : null;
    if (minutes !== null && (!Number.isInteger(minutes) || minutes < 0 || minutes > 10000)) return tell(t("work.minutes_bad"));
    void writing((doneBy) => clears(chosen, after, doneBy, minutes), t("work.cleared", { numbers: numbersOf(chosen) }), after);
  };
  const tick = (): void => void writing((doneBy) => ticks(chosen, doneBy), t("work.ticked", { numbers: numbersOf(chosen) }));
  const pick = (ids: string[], on: boolean): void => {
    told.value = null;
    void half.keep((now) => ({ ...now, picked: [...now.picked.filter((id) => !ids.includes(id)), ...(on ? ids : [])] }));
  };
  const setDone = (next: Done): void => void half.keep((now) => ({ ...now, done: next }));
  const takeAfter = (input: HTMLInputElement): Promise<void> => taken(input, (photo) => void half.keep((now) => ({ ...now, after: [...now.after, photo] })), tell);
  const lacking = chosen.filter((item) => needsAfterPhoto(item, CURRENT) && after.length === 0);
  return { picked, chosen, lacking, done, after, problem, pick, setDone, takeAfter, clear, tick };
}

async function taken(input: HTMLInputElement, keep: (photo: Taken) => void, tell: (problem: string | null) => void): Promise<void> {
  const file = input.files?.[0];
  if (!file) return;
  try {
    keep(await take(file));
    tell(null);
  } catch (error) {
    if (!(error instanceof NoPhoto)) throw error;
    tell(say(error.key));
  } finally {
    input.value = "";
  }
}
