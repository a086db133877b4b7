/**
 * What the air was and is said to become: readings by stream and day, heat, tonight's low, the yard's own factor.
 *
 * A stream is one place's readings: a room, a module, or the yard outside. Its days are kept in 64 parts, one a UTC day;
 * a later day takes the place of the one 64 days before it.
 */

import { canonicalText } from "./canonical";
import { rate } from "./drying";
import { DAY, day, seconds } from "./instants";
import { own } from "./own";
import { childId, type Workspace } from "./parts";
import type { Struck } from "./coat_parts";
import type { AirRow, Entry, EntryOf, ForecastPart, Fresh, PartKind, ReadingRow, Step } from "./types";

const SLOTS = 64;
/** A phone's clock may be a little ahead; what is further ahead was not read. */
const AHEAD = 600;
const NIGHTS = 14;
/** Of heat: on and off each day for three weeks; of a factor as many changes. */
const WORDS = 40;
const NIGHTS_AHEAD = 21 * DAY;
type Night = ForecastPart["nights"][number];

/** The readings of a module or of the yard outside (`owner`), or of a room of a module. */
export const streamId = (owner: string, room: string | null = null): string => childId(owner, `air ${room ?? ""}`);

/** The part that keeps a stream's readings of the day of an instant (seconds since 1970). */
export const airId = (stream: string, time: number): string => childId(stream, String(Math.floor(time / DAY) % SLOTS));

/** The heat of a module. */
export const heatId = (module: string): string => childId(module, "heat");

/** The yard's nights to come. */
export const forecastId = (yard: string): string => childId(yard, "forecast");

/** How fast the yard's own coats dry. */
export const learnedId = (yard: string): string => childId(yard, "learned");

/**
 * Readings of one place, of any days, in any order. A row without an instant was read as the entry was written.
 *
 * A phone reckons that instant by the clock error of its last call; the entry's own time is put right at the push.
 */
export function taken(work: Workspace, entry: EntryOf<"reading.taken">): Step {
  if (noModule(work, entry)) return "no_such_thing";
  const latest = seconds(entry.time) + AHEAD;
  const days = new Map<number, AirRow[]>();
  for (const told of entry.body.rows) {
    const row = rowOf(entry, told);
    if (row[0] > latest) continue;
    const number = Math.floor(row[0] / DAY);
    days.set(number, [...(days.get(number) ?? []), row]);
  }
  const inOrder = [...days].sort(([one], [other]) => one - other);
  const found = inOrder.map(([number, rows]) => keep(work, entry, number * DAY, rows));
  if (found.length === 0) return "in_the_future";
  if (found.includes(null)) return null;
  return found.includes("too_old") ? "too_old" : "no_change";
}

/**
 * Readings of these instants were wrong and are taken back.
 *
 * They are remembered: the logger's file may be brought in again, and its sensor may send them again.
 */
export function struck(work: Workspace, entry: EntryOf<"reading.struck">): Step {
  if (noModule(work, entry)) return "no_such_thing";
  const wrong = new Set(entry.body.at.map(seconds));
  const numbers = [...new Set([...wrong].map((time) => Math.floor(time / DAY)))].sort((one, other) => one - other);
  let whyNot: Step = "no_change";
  for (const number of numbers) {
    const id = airId(entry.about, number * DAY);
    const air = work.part("air", id);
    const rows = air ? air.rows.filter((row) => !wrong.has(row[0])) : [];
    if (air === null || rows.length === air.rows.length) continue;
    work.edit("air", id, entry);
    const gone = air.rows.filter((row) => wrong.has(row[0])).map(readOf);
    const before = air.struck ?? [];
    air.struck = [...before, ...gone.filter((one) => !includes(before, one))];
    air.rows = rows;
    whyNot = null;
  }
  return whyNot;
}

/** Heat on or off, since when and to what; the latest word counts, the others for the hours before it. */
export function heatTold(work: Workspace, entry: EntryOf<"heat.told">): Step {
  if (noModule(work, entry)) return "no_such_thing";
  const heat = work.part("heat", entry.about);
  const { on, since, to, unvented } = entry.body;
  const begun = since !== undefined && since > entry.time ? entry.time : (since ?? null);
  const told = { on, since: begun, to: to ?? null };
  const words = [...(heat?.words ?? []), { ...told, time: entry.time }]
    .sort((one, other) => (one.time < other.time ? -1 : one.time > other.time ? 1 : 0)).slice(-WORDS);
  if (heat !== null && heat.time > entry.time) {
    work.edit("heat", entry.about, entry);
    heat.words = words;
    return "overtaken";
  }
  replace(work, "heat", entry.about, entry, { ...told, unvented: unvented ?? null, by: entry.by, time: entry.time, words });
  return null;
}

/** The lows of nights to come; of each night the latest word counts, the last fourteen are kept. */
export function forecastTold(work: Workspace, entry: EntryOf<"forecast.told">): Step {
  const before = work.part("forecast", entry.about)?.nights ?? [];
  const nights = new Map(before.map((night) => [night.from, night]));
  const latest = seconds(entry.time) + NIGHTS_AHEAD;
  const ahead = entry.body.nights.filter((night) => seconds(night.from) <= latest);
  if (ahead.length === 0) return "in_the_future";
  for (const { from, to, low } of ahead) {
    const known = nights.get(from);
    if (known && known.time > entry.time) continue;
    nights.set(from, { from, to, low, by: entry.by, time: entry.time, source: entry.body.source });
  }
  const kept = [...nights.values()].sort((one, other) => (one.from < other.from ? -1 : 1)).slice(-NIGHTS);
  if (same(kept, before)) return "overtaken";
  replace(work, "forecast", entry.about, entry, { nights: kept });
  return null;
}

/** How fast the yard's own coats dry, by material, and what was said of that before. The server alone says this. */
export function learned(work: Workspace, entry: EntryOf<"drying.learned">): Step {
  const factors = entry.body.factors as Record<string, { percent: number; looks: number }>;
  const was = { ...work.part("learned", entry.about)?.was };
  for (const material of Object.keys({ ...was, ...factors })) {
    const { percent, looks } = own(factors, material) ?? { percent: 100, looks: 0 };
    const rows = own(was, material) ?? [];
    if (rows.at(-1)?.[1] !== percent) was[material] = [...rows, [entry.time, percent, looks] as [string, number, number]].slice(-WORDS);
  }
  replace(work, "learned", entry.about, entry, { factors: entry.body.factors, time: entry.time, was });
  return null;
}

const noModule = (work: Workspace, entry: Entry): boolean =>
  entry.module !== null && work.part("module", entry.module) === null;

function rowOf(entry: EntryOf<"reading.taken">, [at, temp, rh, surface]: ReadingRow): AirRow {
  const { source, name } = entry.body;
  return [seconds(at ?? entry.time), temp, rh, rate(temp, rh, entry.rules), surface, source, entry.by, name ?? null];
}

function keep(work: Workspace, entry: EntryOf<"reading.taken">, midnight: number, rows: AirRow[]): Step {
  const id = airId(entry.about, midnight);
  const date = day(midnight);
  const air = work.part("air", id);
  if (air !== null && air.day > date) return "too_old";
  const same = air !== null && air.day === date ? air : null;
  const known = same?.rows ?? [];
  const wrong = same?.struck ?? [];
  // What was taken back only a person says again.
  const said = rows.filter((row) => row[5] === "hand" || !includes(wrong, readOf(row)));
  // Read once is read, however often a file is brought in.
  const different = new Map<string, AirRow>();
  for (const row of [...known, ...said]) {
    const key = keyOf(row).join(" ");
    if (!different.has(key)) different.set(key, row);
  }
  if (different.size === known.length) return "no_change";
  const { where, room } = entry.body;
  if (air !== null && wrong.length === 0) delete air.struck;
  replace(work, "air", id, entry, {
    stream: entry.about, where, room: room ?? null, day: date, rows: [...different.values()].sort(inOrder),
  });
  return null;
}

/** What a row says was read, whoever brought it. */
const readOf = ([time, temp, rh, , surface]: AirRow): Struck => [time, temp, rh, surface];

const includes = (known: readonly Struck[], one: Struck): boolean =>
  known.some((other) => other.every((value, place) => value === one[place]));

const keyOf = ([time, temp, rh, , surface]: AirRow): number[] => [time, temp, rh, surface === null ? 0 : 1, surface ?? 0];

function inOrder(one: AirRow, other: AirRow): number {
  const [ours, theirs] = [keyOf(one), keyOf(other)];
  const at = ours.findIndex((value, place) => value !== theirs[place]);
  return at < 0 ? 0 : (ours[at] ?? 0) - (theirs[at] ?? 0);
}

const same = (one: Night[], other: Night[]): boolean => canonicalText(one) === canonicalText(other);

function replace<K extends PartKind>(work: Workspace, kind: K, id: string, entry: Entry, fields: Fresh<K>): void {
  const part = work.edit(kind, id, entry);
  if (part === null) work.make(kind, id, entry, fields);
  else Object.assign(part, fields);
}
