/** What people found and did in one room of a coat, and how that stood at an hour that is over. */

import { seconds } from "./instants";
import { own } from "./own";
import type { CoatCell, CoatPart, Line } from "./types";

interface LookBody { rooms?: string[]; looked_at?: string; sanded_at?: string }

/** When a room of a coat was found wet, or sanded wet: every time of it that the coat's history knows. */
export function looksIn(coat: Pick<CoatPart, "laid" | "lines">, room: string, kind: "coat.found_wet" | "coat.wet_sanded"): string[] {
  return toldIn(coat, room, kind).map(([time]) => time);
}

/** [when it was, when it was told] */
function toldIn(coat: Pick<CoatPart, "laid" | "lines">, room: string, kind: "coat.found_wet" | "coat.wet_sanded"): [string, string][] {
  const given = kind === "coat.wet_sanded" ? "sanded_at" : "looked_at";
  return coat.lines.flatMap((line): [string, string][] => {
    const body = bodyOf(line);
    if (line.kind !== kind || line.no !== undefined || !body.rooms?.includes(room)) return [];
    const told = body[given];
    const time = told !== undefined && told < line.time ? told : line.time;
    return [[time > coat.laid ? time : coat.laid, line.time]];
  });
}

const bodyOf = (line: Line): LookBody => line.body ?? {};

/** What people did and found in one room of a coat. */
export function cellOf(coat: CoatPart, room: string): CoatCell {
  return own(coat.cells, room) ?? { objections: {}, wet: null, dry: null, restart: null };
}

/**
 * The same as it stood at `at`, by what had been told by `toldBy`; *not dry* governs at any hour.
 *
 * What was said later takes nothing back: the coat was wet until the look that ended that, and before too, for nothing
 * gets wet by itself. A look or a sanding that is told when another coat has been told of already, for whatever hour
 * before it, does not end that it was wet when that went on.
 */
export function cellThen(coat: CoatPart, room: string, at: number, toldBy: number): Pick<CoatCell, "wet" | "dry" | "restart"> {
  const cell = cellOf(coat, room);
  const counts = cell.dry !== null && seconds(cell.dry.time) <= at && seconds(cell.dry.told ?? cell.dry.time) <= toldBy;
  const dry = counts ? cell.dry : null;
  const told = toldIn(coat, room, "coat.wet_sanded");
  const sanded = [...told.map(([time]) => time), ...(cell.restart === null ? [] : [cell.restart])];
  const restart = latest(sanded.filter((time) => seconds(time) <= at));
  if (cell.wet !== null) return { wet: cell.wet, dry, restart };
  const known = told.filter(([, when]) => seconds(when) <= toldBy).map(([time]) => time);
  const again = known.filter((time) => seconds(time) > at);
  const last = latest(looksIn(coat, room, "coat.found_wet").filter((time) => again.every((sanding) => time < sanding)));
  const ended = last === null || known.some((time) => seconds(time) <= at && time > last) || (dry !== null && dry.time >= last);
  return { wet: ended ? null : { by: "", time: last }, dry, restart };
}

function latest(times: readonly string[]): string | null {
  return times.reduce<string | null>((last, time) => (last === null || time > last ? time : last), null);
}
