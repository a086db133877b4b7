/** What a press may rest on: one press is one save, and an approval stands on what was on the screen. */

import { useEffect, useRef, useState } from "preact/hooks";
import { drawnFrom, NotWritten, partNow, partsOf, type Drawn, type Thing } from "../../journal";
import { NoPhoto } from "../../photos";
import { canonicalText, type Part, type PartKind } from "../../rules";
import { say } from "../../words";
import { me } from "./yard";

export interface Saving {
  problem: string | null;
  tell: (problem: string | null) => void;
  /** Runs one save, true when it is kept; what was not written is told in words. The same press again while it runs does
   * nothing; another one (`key`) waits for its turn. */
  saving: (does: () => Promise<unknown>, key?: string) => Promise<boolean>;
}

export function useSaving(): Saving {
  const [problem, tell] = useState<string | null>(null);
  const running = useRef(new Map<string, Promise<unknown>>());
  const saving = (does: () => Promise<unknown>, key = ""): Promise<boolean> => {
    if (running.current.has(key)) return Promise.resolve(false);
    const turn = Promise.allSettled([...running.current.values()]).then(() => save(does, key));
    running.current.set(key, turn);
    return turn;
  };
  const save = async (does: () => Promise<unknown>, key: string): Promise<boolean> => {
    try {
      await does();
      tell(null);
      return true;
    } catch (error) {
      if (!(error instanceof NotWritten) && !(error instanceof NoPhoto)) throw error;
      tell(say(error.key));
      return false;
    } finally {
      running.current.delete(key);
    }
  };
  return { problem, tell, saving };
}

/** Nobody reads faster than this: what came to the screen later than that before a press was not seen. */
const READ = 400;
/** What others have written of a thing, what the screen was drawn from, and since when that has stood there (ms). */
interface Shown {
  others: string;
  drawn: Drawn;
  since: number;
}

/** What this drawing of the screen stands on. It has changed for a press when anything came after the drawing, or so
 * shortly before the press that the eye cannot have had it. One's own entries are no news. */
export function useDrawn(...things: Thing[]): Drawn {
  const known = useRef(new Map<string, Shown>());
  const shown = things.map((thing) => look(known.current, thing));
  useEffect(() => {
    const painted = performance.now();
    for (const one of shown) if (one.since === Infinity) one.since = painted;
  });
  return { things, changed: () => shown.some(({ since, drawn }) => performance.now() - since < READ || drawn.changed()) };
}

function look(known: Map<string, Shown>, thing: Thing): Shown {
  const key = JSON.stringify(thing);
  const before = known.get(key);
  const others = partsOfThing(thing).map(byOthers).filter(Boolean).join("\n");
  const news = before !== undefined && before.others !== others;
  const shown = { others, drawn: drawnFrom(thing), since: news ? Infinity : (before?.since ?? -Infinity) };
  known.set(key, shown);
  return shown;
}

function partsOfThing(thing: Thing): Part[] {
  if ("module" in thing) return [...partsOf(thing.module).value];
  const part = partNow(thing.part as PartKind, thing.id);
  return part ? [part] : [];
}

/** What others wrote, as text; nothing where only one's own hand was at work. Without the times: the server's may differ
 * by a second from those reckoned here. */
function byOthers(part: Part): string {
  const mine = ({ by }: { by?: string }): boolean => by === me();
  if (part.part === "plan") return canonicalText((part.heads.rooms ?? []).filter(([, , by]) => !mine({ by })).map(([rooms]) => rooms));
  if (!("lines" in part)) return mine(part as { by?: string }) ? "" : canonicalText({ ...part, seq: 0 });
  const lines = part.lines.filter((line) => !mine(line)).map(({ time: _, ...line }) => line);
  return lines.length > 0 ? `${part.id} ${canonicalText(lines)}` : "";
}
