/** What is half said on the coats' screen, and what its three faces share. */

import type { Draft } from "../../journal";
import { CURRENT, tables, type CoatKey, type Place } from "../../rules";
import type { ModuleView } from "../common";
import type { Done } from "../crew/DoneBy";
import type { Laying } from "./laying";
import { NO_LOOK, type Looking } from "./looking";
import { NO_PAINT } from "./paints";
import type { Standing } from "./standing";

/** What is half said: kept on the phone, so that a reload loses nothing. */
export interface Half {
  doing: "lay" | "look" | null;
  laying: Laying;
  looking: Looking;
  done: Done;
}
export interface Working {
  view: ModuleView;
  place: Place;
  now: number;
  stands: Standing[];
  half: Half;
  change: (part: Partial<Half>) => void;
  /** Back to the coats, keeping nothing of it. */
  leave: () => void;
  /** One save; true when it is kept. */
  save: (drafts: Draft[], said: string) => Promise<boolean>;
  problem: string | null;
}

const blank = (coat: CoatKey, rooms: string[]): Laying => {
  const row = tables(CURRENT).schedule.coats[coat];
  return { coat, rooms, material: row.material, thickness: row.thickness ?? "normal", set: "", label: "", earlier: "", paint: NO_PAINT, way: null, tried: [], reason: "" };
};
export const NOBODY: Done = { who: "", name: "", minutes: "" };
export const NOTHING: Half = { doing: null, laying: blank("tape", []), looking: NO_LOOK, done: NOBODY };

/** The coat that may go on in most rooms, else the one that most wait for; with the rooms that do. */
export function offered(stands: readonly Standing[]): Laying {
  const found = new Map<CoatKey, { rooms: string[]; ready: number }>();
  for (const { next, rooms, ready } of stands) {
    if (next === null) continue;
    const before = found.get(next) ?? { rooms: [], ready: 0 };
    found.set(next, { rooms: [...before.rooms, ...rooms], ready: before.ready + (ready?.ready ? rooms.length : 0) });
  }
  const [most] = [...found].sort(([, one], [, other]) => other.ready - one.ready || other.rooms.length - one.rooms.length);
  return most ? blank(most[0], most[1].rooms) : blank("touch_up", []);
}

/** The same form for another coat: the rooms that wait for it are ticked. */
export function changedTo(coat: CoatKey, stands: readonly Standing[]): Laying {
  return blank(coat, stands.filter(({ next }) => next === coat).flatMap(({ rooms }) => rooms));
}
