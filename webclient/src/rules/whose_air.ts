/**
 * Whose air a coat dries in: the room's or the module's, else the yard's, turned into room air where the heat is on.
 *
 * The air in a closed, heated module is not the yard's. Outside air is taken only where nobody has read the inside, and
 * said so. From outside air to a heated room the *moisture* stays, not the relative humidity.
 */

import { roomRh, whole } from "./climate";
import { rate } from "./drying";
import { seconds } from "./instants";
import type { Place, Row } from "./place";
import type { AirFlag, AirPart, HeatPart } from "./types";
import { CURRENT, tables } from "./vocabulary";

export type Whose = Row["whose"] | "heated";
/** `time`: from when it counts; `read`: when it was read. */
export interface AirStep { time: number; temp: number; rh: number; rate: number; whose: Whose; read: number }
export interface Air { rows: AirStep[]; whose: Whose | null; flags: AirFlag[] }

/**
 * The air that a coat laid at `start` dries in, seen at `until`.
 *
 * Only rows that hold at some time from `start` on, read up to `until` (if there are none: later ones). `whose`: of the
 * latest. Flags: `outside` (not heated), `heated`.
 */
export function airFor(place: Place, room: string, start: number, until: number): Air {
  let inside = known(insideRows(place, room), until);
  let outside = known(outsideRows(place), until);
  if (inside.length === 0 && outside.length === 0) {
    inside = insideRows(place, room);
    outside = outsideRows(place);
  }
  const gap = tables(CURRENT).drying.limits.gap_minutes * 60;
  inside = ofTheLaying(inside, outside, start, gap);
  const first = inside[0]?.time;
  if (first !== undefined) outside = first <= start + gap ? [] : outside.filter((row) => row.time < first);
  const elsewhere = heated(place, inForce(outside, start), start, until);
  const rows = from([...elsewhere, ...inForce(inside, start).map((row) => step(row, row.time))], start);
  const told = new Set<string>(rows.map(({ whose }) => whose));
  const flags = (["outside", "heated"] as const).filter((flag) => told.has(flag));
  return { rows, whose: rows.at(-1)?.whose ?? null, flags };
}

/** Without what was read inside more than a gap before, where the yard has been read since: it is not that air. */
function ofTheLaying(inside: Row[], outside: readonly Row[], start: number, gap: number): Row[] {
  const after = countBy(inside, start);
  const last = inside[after - 1]?.time;
  const there = outside[countBy(outside, start) - 1]?.time;
  return last !== undefined && there !== undefined && last < start - gap && there > last ? inside.slice(after) : inside;
}

/** Of the room and of its module, in order; of one time the slowest. */
export function insideRows(place: Place, room: string): Row[] {
  return cached(place, `room ${room}`, () => [
    ...place.airs.filter((part) => part.where === "room" && part.room === room),
    ...place.airs.filter((part) => part.where === "module"),
  ]);
}

/** The same of the yard. */
export function outsideRows(place: Place): Row[] {
  return cached(place, "yard", () => place.outside);
}

function cached(place: Place, key: string, airs: () => AirPart[]): Row[] {
  let found = place.rows.get(key);
  if (found === undefined) {
    found = sorted(airs());
    place.rows.set(key, found);
  }
  return found;
}

function sorted(airs: AirPart[]): Row[] {
  const found = airs.flatMap((air) => {
    const whose = air.where === "yard" ? "outside" : air.where;
    return air.rows.map(([time, temp, rh, speed]): Row => ({ time, rate: speed, temp, rh, whose }));
  });
  found.sort((one, other) =>
    one.time - other.time || one.rate - other.rate || one.temp - other.temp || one.rh - other.rh ||
    (one.whose < other.whose ? -1 : one.whose > other.whose ? 1 : 0));
  return found.filter((row, at) => found[at - 1]?.time !== row.time);
}

/** How many rows were read by an instant. */
function countBy(rows: readonly Row[], instant: number): number {
  let low = 0;
  let high = rows.length;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if ((rows[middle]?.time ?? Number.NaN) <= instant) low = middle + 1;
    else high = middle;
  }
  return low;
}

function known(rows: Row[], until: number): Row[] {
  return rows.slice(0, countBy(rows, until));
}

/** From the last one on that was read by `start`. */
function inForce(rows: Row[], start: number): Row[] {
  return rows.slice(Math.max(0, countBy(rows, start) - 1));
}

function step({ time, temp, rh, rate: speed, whose }: Row, counts: number): AirStep {
  return { time: counts, temp, rh, rate: speed, whose, read: time };
}

/** Without what ended by `start`: the inside may have been read since the last reading outside. */
function from(rows: AirStep[], start: number): AirStep[] {
  const last = Math.max(...rows.map(({ time }) => (time <= start ? time : Number.NEGATIVE_INFINITY)));
  return rows.filter(({ time }) => time >= last);
}

/** Outside rows as they count: as room air while the heat is on, a row in force then split there. */
function heated(place: Place, rows: Row[], start: number, until: number): AirStep[] {
  const spans = heatSpans(place.heat).filter(({ from: begins }) => begins <= until);
  return rows.flatMap((row, at) => {
    let counts = at === 0 ? Math.min(row.time, start) : row.time;
    const after = rows[at + 1]?.time ?? Number.POSITIVE_INFINITY;
    const found: AirStep[] = [];
    for (const { from: begins, until: ends, to } of spans) {
      const [first, last] = [Math.max(counts, begins), Math.min(after, ends)];
      if (first >= last || row.temp >= to) continue;
      if (first > counts) found.push(step(row, counts));
      found.push(warmed(row, first, to));
      counts = last;
    }
    if (counts < after) found.push(step(row, counts));
    return found;
  });
}

interface HeatSpan { from: number; until: number; to: number }

/**
 * The hours in which the heat is known to be on, in order.
 *
 * Each word counts from its own hour on, also over what was said before of later hours. Until infinity: still on.
 */
export function heatSpans(heat: HeatPart | null): HeatSpan[] {
  let spans: HeatSpan[] = [];
  for (const { on, since, to, time } of heat === null ? [] : heat.words ?? [heat]) {
    const begins = seconds(since ?? time);
    spans = spans.filter((span) => span.from < begins).map((span) => ({ ...span, until: Math.min(span.until, begins) }));
    if (on && to !== null) spans.push({ from: begins, until: Number.POSITIVE_INFINITY, to });
  }
  return spans;
}

function warmed({ time, temp, rh }: Row, counts: number, to: number): AirStep {
  const inside = roomRh(temp, rh, to, CURRENT);
  return { time: counts, temp: to, rh: whole(inside), rate: rate(to, inside, CURRENT), whose: "heated", read: time };
}
