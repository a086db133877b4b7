/** What is half said on the coats' screen, and what its three faces share. */

import type { Draft } from "../../journal";
import { CURRENT, tables, type CoatKey, type Place } from "../../rules";
import type { ModuleView } from "../common";
import type { Done } from "../crew/DoneBy";
import { NO_PAINT, type Laying } from "./laying";
import { NO_LOOK, type Looking } from "./looking";
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

/** The coat that most rooms wait for, and the rooms that do: what is offered first. */
export function offered(stands: readonly Standing[]): Laying {
  const rooms = new Map<CoatKey, string[]>();
  for (const { next, rooms: alike } of stands) if (next) rooms.set(next, [...(rooms.get(next) ?? []), ...alike]);
  const [most] = [...rooms].sort(([, one], [, other]) => other.length - one.length);
  return most ? blank(...most) : blank("touch_up", []);
}

/** The same form for another coat: the rooms that wait for it are ticked. */
export function changedTo(coat: CoatKey, stands: readonly Standing[]): Laying {
  return blank(coat, stands.filter(({ next }) => next === coat).flatMap(({ rooms }) => rooms));
}
