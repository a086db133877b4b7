/** What a crew lead has picked and half said, and how it becomes ticks and clears. */

import { write, type Draft } from "../../journal";
import { NoPhoto, take, type Taken } from "../../photos";
import { CURRENT, needsAfterPhoto, nextStep, undecided, type ItemPart } from "../../rules";
import { say as sentence, t } from "../../words";
import { me, numbers, placeOfModule, told, useDrawn, useKept, useSaving, useSeconds } from "../common";
import { clears, ticks } from "./clearEntries";
import { doneByOf, type Done } from "./DoneBy";
import { anotherCan, goesOn, NOTHING_SAID, wallDrafts, whyNotOn, type Said, type WhyNotWall } from "./rework";
import { wallsOf, type OnWall, type Press } from "./walls";

/** Kept on the phone, as some reload the page while the camera is open. */
interface Half {
  picked: string[];
  done: Done;
  after: Taken[];
  /** Absent in what was kept before walls had coats. */
  said?: Said;
}
const NOTHING: Half = { picked: [], done: { who: "", name: "", minutes: "" }, after: [], said: NOTHING_SAID };

/** One of the two presses: what it is for, on which walls, and what is missing. */
export interface Pressed {
  items: ItemPart[];
  walls: OnWall[];
  /** Also those that are left out. */
  all: OnWall[];
  why: WhyNotWall | null;
}

export interface Clearing {
  picked: ReadonlySet<string>;
  /** What is picked and still there, as the screen shows it. */
  chosen: ItemPart[];
  /** Of those, what may not be cleared without a photo after, and there is none. */
  lacking: ItemPart[];
  done: Done;
  after: Taken[];
  said: Said;
  now: number;
  ticking: Pressed;
  clearingOf: Pressed;
  say: (part: Partial<Said>) => void;
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

function pressed(press: Press, chosen: readonly ItemPart[], said: Said, now: number): Pressed {
  const items = press === "clear" ? [...chosen] : chosen.filter((item) => nextStep(item, CURRENT) !== null);
  const all = wallsOf(press, items, placeOfModule, now);
  return { ...goesOn(items, all, said), all, why: whyNotOn(items, all, said, now) };
}

/** `all`: the items on the screen. */
export function useClearing(all: readonly ItemPart[]): Clearing {
  const slot = `work ${me()}`;
  const half = useKept<Half>(slot, NOTHING);
  const now = useSeconds();
  const { done, after } = half.value;
  // What was kept by an older version lacks what is asked since.
  const said = { ...NOTHING_SAID, ...half.value.said };
  const { problem, tell, saving } = useSaving();
  const picked = new Set(half.value.picked);
  const chosen = all.filter((item) => picked.has(item.id) && decided(item));
  const [ticking, clearingOf] = [pressed("tick", chosen, said, now), pressed("clear", chosen, said, now)];
  const tops = new Set([...ticking.all, ...clearingOf.all].flatMap(({ lies }) => lies.map(({ coat }) => coat.id)));
  const shown = useDrawn(...chosen.map(({ id }) => ({ part: "item" as const, id })), ...[...tops].map((id) => ({ part: "coat" as const, id })));
  const walls = [...ticking.walls, ...clearingOf.walls];
  // As the screen shows it, also where only one of the two presses is made.
  const meant = { ...said, can: anotherCan(walls, said) };
  const writing = (make: (doneBy: string[]) => Draft[], words: string, photos: Taken[] = []): Promise<boolean> =>
    saving(async () => {
      const { doneBy, named } = doneByOf(done);
      await write([...named, ...make(doneBy)], photos, { drawn: shown, draft: slot });
      // A photo taken for the clear waits for it while only a step is ticked.
      if (photos.length < after.length) await half.keep((before) => ({ ...before, done: NOTHING.done, said: NOTHING_SAID }));
      else half.drop();
      told.value = words;
    });
  const clear = (): void => {
    const minutes = done.minutes.trim() ? Number(done.minutes) : null;
    if (minutes !== null && (!Number.isInteger(minutes) || minutes < 0 || minutes > 10000)) return tell(t("work.minutes_bad"));
    const { items, walls: on } = clearingOf;
    void writing((doneBy) => [...wallDrafts(on, { ...meant, wet: false }, now, doneBy), ...clears(items, after, doneBy, minutes)], t("work.cleared", { numbers: numbersOf(items) }), after);
  };
  const tick = (): void => {
    const { items, walls: on } = ticking;
    void writing((doneBy) => [...wallDrafts(on, meant, now, doneBy), ...ticks(items, doneBy)], t("work.ticked", { numbers: numbersOf(items) }));
  };
  const pick = (ids: string[], on: boolean): void => {
    told.value = null;
    void half.keep((before) => ({ ...before, picked: [...before.picked.filter((id) => !ids.includes(id)), ...(on ? ids : [])] }));
  };
  const setDone = (next: Done): void => void half.keep((before) => ({ ...before, done: next }));
  const say = (part: Partial<Said>): void => void half.keep((before) => ({ ...before, said: { ...NOTHING_SAID, ...before.said, ...part } }));
  const takeAfter = (input: HTMLInputElement): Promise<void> => taken(input, (photo) => void half.keep((before) => ({ ...before, after: [...before.after, photo] })), tell);
  const lacking = clearingOf.items.filter((item) => needsAfterPhoto(item, CURRENT) && after.length === 0);
  return { picked, chosen, lacking, done, after, said, now, ticking, clearingOf, say, problem, pick, setDone, takeAfter, clear, tick };
}

async function taken(input: HTMLInputElement, keep: (photo: Taken) => void, tell: (problem: string | null) => void): Promise<void> {
  const file = input.files?.[0];
  if (!file) return;
  try {
    keep(await take(file));
    tell(null);
  } catch (error) {
    if (!(error instanceof NoPhoto)) throw error;
    tell(sentence(error.key));
  } finally {
    input.value = "";
  }
}
