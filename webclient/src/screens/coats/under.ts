/** What is under a coat that is to go on, room by room: the figures that stop a press, and the ways out. */

import { clock, CURRENT, family, tables, tops, type Clock, type CoatKey, type CoatPart, type Place } from "../../rules";
import type { Under } from "./laying";

/** A coat that is not ready to be covered, in the rooms where it is so alike. */
export interface Stop {
  coat: CoatPart;
  clock: Clock;
  rooms: string[];
}

/** Each room as it stands at the instant when the coat goes on. */
export function undersOf(place: Place, coat: CoatKey, at: number): Under[] {
  return place.rooms.map((room) => {
    const layers = tops(place, room).map(([, top]) => top);
    const waits = layers.flatMap((top) => {
      const found = clock(place, top, room, at);
      return covers(found, top, coat, at) ? [] : [{ id: top.id, before: found.by_table === null || at < found.by_table }];
    });
    return { room, ready: waits.length === 0, waits, over: layers.map(({ id }) => id) };
  });
}

/** Whether that coat may go on: dry, or compound on setting-type compound that has set. */
export function covers(found: Clock, under: CoatPart, coat: CoatKey, at: number): boolean {
  if (found.state === "ready" || found.state === "dry") return true;
  if (found.set === null || found.state === "not_dry" || under.unsure === 1) return false;
  return tables(CURRENT).schedule.after_set.includes(family(coat)) && at >= found.set;
}

/** The coats that stop it, those of one time together. */
export function stopsOf(place: Place, wet: readonly Under[], at: number): Stop[] {
  const found = new Map<string, Stop>();
  for (const { room, waits } of wet) {
    for (const { id } of waits) {
      const coat = place.coats.find((one) => one.id === id);
      if (!coat) continue;
      const own = clock(place, coat, room, at);
      const key = [id, own.state, own.likely, own.by_table].join(" ");
      const same = found.get(key);
      if (same) same.rooms.push(room);
      else found.set(key, { coat, clock: own, rooms: [room] });
    }
  }
  return [...found.values()];
}
