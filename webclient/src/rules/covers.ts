/** What lies on top, whether another coat may go on, and what was covered before it was ready. */

import { type Clock, type CoatState, clock, isDry } from "./clocks";
import { seconds } from "./instants";
import type { Place } from "./place";
import { family as familyOf } from "./schedule";
import type { CoatPart, CoatSurface } from "./types";
import { CURRENT, type Family, tables } from "./vocabulary";

export type Top = [surface: CoatSurface | null, coat: CoatPart];
export interface Readiness { ready: boolean; state: CoatState; at: number | null; under: CoatPart | null }
type Rework = Pick<CoatPart, "coat" | "surface" | "items">;
export interface Early { coat: CoatPart; rooms: string[]; under: string[] }

/** What lies on top: null for the room, then each wall with rework of its own since. */
export function tops(place: Place, room: string): Top[] {
  const layers = inRoom(place, room).reduce<Top[]>(laidOn, []);
  return [...layers].sort(([one], [other]) => ((one ?? "") < (other ?? "") ? -1 : 1));
}

/**
 * Whether a coat of that family may go on that wall, or on all of the room.
 *
 * `under`: the coat that it waits longest for, null on bare board. `at`: from when, null where nobody can say.
 * Compound may go on setting-type compound as soon as that has set; primer and paint wait until it is dry.
 */
export function readiness(
  place: Place, room: string, family: Family, at: number, surface: CoatSurface | null = null,
): Readiness {
  const bare: Readiness = { ready: true, state: "ready", at: null, under: null };
  const found = under(tops(place, room), surface).map((coat) => over(clock(place, coat, room, at), coat, family, at));
  return found.reduce((worst, one) => (worst.under === null || waitsLonger(one, worst) ? one : worst), bare);
}

/** The coats laid over one that was not ready then, and that no inspector has answered. */
export function earlies(place: Place): Early[] {
  const found = new Map<CoatPart, { rooms: Set<string>; under: Set<string> }>();
  for (const room of place.rooms) {
    let layers: Top[] = [];
    for (const coat of inRoom(place, room)) {
      const soon = coat.answer === null ? under(layers, coat.surface).filter((one) => tooSoon(place, room, one, coat)) : [];
      for (const { id } of soon) {
        const row = found.get(coat) ?? { rooms: new Set(), under: new Set() };
        found.set(coat, { rooms: row.rooms.add(room), under: row.under.add(id) });
      }
      layers = laidOn(layers, coat);
    }
  }
  return place.coats.flatMap((coat) => {
    const row = found.get(coat);
    return row === undefined ? [] : [{ coat, rooms: [...row.rooms], under: [...row.under] }];
  });
}

function inRoom(place: Place, room: string): CoatPart[] {
  return place.coats.filter((coat) => coat.rooms.includes(room));
}

/** A coat of the room covers all of it; one on a wall covers that wall. */
function laidOn(layers: Top[], coat: CoatPart): Top[] {
  const { surface } = coat;
  if (surface === null) return [[null, coat]];
  const known = layers.some(([wall]) => wall === surface);
  return known ? layers.map(([wall, one]) => [wall, wall === surface ? coat : one]) : [...layers, [surface, coat]];
}

/** What a coat goes over: of a wall its own top, else the room's; of a room everything that is on top in it. */
function under(layers: readonly Top[], surface: CoatSurface | null): CoatPart[] {
  if (surface === null) return layers.map(([, coat]) => coat);
  const below = layers.find(([wall]) => wall === surface) ?? layers.find(([wall]) => wall === null);
  return below === undefined ? [] : [below[1]];
}

function over(found: Clock, below: CoatPart, family: Family, at: number): Readiness {
  const row = { ready: isDry(found.state), state: found.state, at: found.ready_at, under: below };
  if (row.ready || found.set === null || found.state === "not_dry" || below.unsure) return row;
  if (!tables(CURRENT).schedule.after_set.includes(family)) return row;
  const hasSet = at >= found.set;
  return { ...row, ready: hasSet, at: found.set, state: hasSet ? "ready" : found.state };
}

function waitsLonger(one: Readiness, other: Readiness): boolean {
  if (one.ready !== other.ready) return other.ready;
  if (one.at === null || other.at === null) return one.at === null && other.at !== null;
  return one.at > other.at;
}

function tooSoon(place: Place, room: string, below: CoatPart, coat: CoatPart): boolean {
  if (beside(below, coat)) return false;
  const laid = seconds(coat.laid);
  return !over(clock(place, below, room, laid), below, familyOf(coat.coat), laid).ready;
}

/** Rework of one sort at other items of a wall goes on beside the coat there, not over it: nick after nick. */
export function beside(below: Rework, coat: Rework): boolean {
  if (below.surface === null || coat.surface === null || below.items.length === 0 || coat.items.length === 0) return false;
  return familyOf(below.coat) === familyOf(coat.coat) && !coat.items.some((id) => below.items.includes(id));
}
