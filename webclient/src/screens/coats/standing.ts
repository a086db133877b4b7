/** How a module's rooms stand, those that stand alike together: one coat on twelve rooms is one strip, not twelve. */

import type { StripIn } from "../../parts";
import {
  airFor, clock, coatsOf, family, nextCoat, readiness, seconds, tops, type AirStep, type Clock, type CoatCell, type CoatKey, type CoatPart, type CoatSurface, type Place, type Readiness,
} from "../../rules";

export interface TopCoat {
  surface: CoatSurface | null;
  coat: CoatPart;
  clock: Clock;
  air: AirStep[];
}
export interface Standing {
  rooms: string[];
  tops: TopCoat[];
  /** What they lie on, the latest first. */
  older: CoatPart[];
  next: CoatKey | null;
  /** Whether its schedule is known. */
  known: boolean;
  /** Whether the next coat may go on now; null when there is none. */
  ready: Readiness | null;
}

/** Rooms in the module's order; a room joins the first that stands as it does. */
export function standings(place: Place, at: number): Standing[] {
  const found = new Map<string, Standing>();
  for (const room of place.rooms) {
    const one = standing(place, room, at);
    const key = alike(one, room);
    const same = found.get(key);
    if (same) same.rooms.push(room);
    else found.set(key, one);
  }
  return [...found.values()];
}

export function standing(place: Place, room: string, at: number): Standing {
  const layers = tops(place, room);
  const next = nextCoat(place, room);
  return {
    rooms: [room],
    tops: layers.map(([surface, coat]) => topCoat(place, room, surface, coat, at)),
    older: place.coats.filter((coat) => coat.rooms.includes(room) && !layers.some(([, top]) => top.id === coat.id)).reverse(),
    next,
    known: coatsOf(place, room).length > 0,
    ready: next === null ? null : readiness(place, room, family(next), at),
  };
}

/** What people did and found in one room of a coat; a room that is not its own has nothing. */
export const cellOf = (coat: CoatPart, room: string): Pick<CoatCell, "wet" | "dry" | "restart"> => coat.cells[room] ?? { wet: null, dry: null, restart: null };

export function topCoat(place: Place, room: string, surface: CoatSurface | null, coat: CoatPart, at: number): TopCoat {
  const found = clock(place, coat, room, at);
  return { surface, coat, clock: found, air: airFor(place, room, found.laid, at).rows };
}

/** What differs is drawn apart; a wall's coat is its room's own. */
function alike({ tops: found, older, next, known }: Standing, room: string): string {
  const own = found.some(({ surface }) => surface !== null) ? room : "";
  const drawn = found.map(({ coat, clock: { latest: _, ...rest } }) => [coat.id, rest, lookOf(coat, room)]);
  return JSON.stringify([own, drawn, older.map(({ id }) => id), next, known]);
}

function lookOf(coat: CoatPart, room: string): (string | undefined)[] {
  const { wet, dry } = cellOf(coat, room);
  return [wet?.time, dry?.time];
}

/** A coat as its strip is drawn. */
export function stripOf({ coat, clock: found, air }: TopCoat, room: string, at: number, offset: number): StripIn {
  const { wet, dry } = cellOf(coat, room);
  return {
    laid: found.laid,
    now: at,
    likely: found.likely,
    by_table: found.by_table,
    set: found.set,
    dried: found.dried.by_table,
    wet: found.state === "not_dry" && wet ? seconds(wet.time) : null,
    dry: found.state === "dry" && dry ? seconds(dry.time) : null,
    air,
    offset,
  };
}
