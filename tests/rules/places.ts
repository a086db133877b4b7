// How a case about a module's coats is run; places.py does the same.
import {
  clock, coatsOf, type CoatSurface, earlies, type Family, instant, nextCoat, type Part, type Place, placeOf, readiness,
  seconds, tops,
} from "../../webclient/src/rules";
import { expandPart, fullId, NOW, type Row } from "./expand";

/** The clock of a coat in a room at an hour, what lies on top there, whether another may go on, what was early. */
export function runClocks(given: Row): unknown {
  const [place, room, at] = [placeIn(given), String(given.room ?? "bath"), seconds(String(given.at ?? NOW))];
  const coat = place.coats.find(({ id }) => id === (given.of ?? "c1"));
  const found: { [key: string]: unknown } = {
    tops: tops(place, room).map(([surface, one]) => [surface, one.id]),
    earlies: earlies(place).map((one) => ({ ...one, coat: one.coat.id })),
  };
  if (coat) found.clock = inWords(clock(place, coat, room, at));
  if ("family" in given) {
    const told = readiness(place, room, given.family as Family, at, (given.surface ?? null) as CoatSurface | null);
    found.readiness = { ...told, at: said(told.at), under: told.under && told.under.id };
  }
  return found;
}

/** Which coats a room is to get. */
export function runSchedule(given: Row): unknown {
  const [place, room] = [placeIn(given), String(given.room ?? "bath")];
  return { coats_of: coatsOf(place, room), next_coat: nextCoat(place, room) };
}

/** The place of the case's parts. */
export function placeIn(given: Row): Place {
  return placeOf(String(fullId("m")), (given.parts as Row[]).map(expandPart) as unknown as Part[]);
}

/** Instants as they are written in cases. */
function inWords(told: ReturnType<typeof clock>): unknown {
  const { laid, likely, by_table, set, ready_at, latest } = told;
  return {
    ...told, laid: said(laid), likely: said(likely), by_table: said(by_table), set: said(set), ready_at: said(ready_at),
    latest: latest && { ...latest, time: said(latest.time) },
  };
}

/** An instant as cases write it. */
export const said = (since1970: number | null): string | null => (since1970 === null ? null : instant(since1970));
