/** Air as people type it, and the entries that one press makes of it. Pure. */

import type { Draft } from "../../journal";
import { celsius, DAY, fahrenheit, seconds, streamId, instant, whole, type AirPart, type AirRow, type Night, type ReadingRow } from "../../rules";

export type Unit = "F" | "C";
/** As typed. */
export interface Typed {
  temp: string;
  rh: string;
  surface: string;
  /** In which the temperatures were typed: it may be changed before they are saved. */
  unit: Unit;
}
/** One temperature as typed. */
export interface Figure {
  text: string;
  unit: Unit;
}
export interface Measured {
  temp: number;
  rh: number;
  surface: number | null;
}
/** Whose air it is: of a room, of a module inside, of the yard outside. */
export interface Where {
  module: string | null;
  room: string | null;
}
export type Field = "temp" | "rh" | "surface";
/** What is wrong with a field: the key of its sentence and what fills it. */
export interface Wrong {
  field: Field;
  key: "loggers.no_number" | "loggers.temp_beyond" | "loggers.rh_beyond" | "loggers.rh_fraction" | "air.missing";
  values: Record<string, string>;
}

export const NOT_TYPED: Typed = { temp: "", rh: "", surface: "", unit: "F" };
export const NO_FIGURE: Figure = { text: "", unit: "F" };
/** Tenths °C between which air can be reckoned: -22 to 140 °F. */
const [COLDEST, HOTTEST] = [-300, 600];
const NUMBER = /^[-−+]?\d{1,4}([.,]\d{1,2})?$/;

/** A number as people type it, with a decimal comma too; null when it is none. */
export function numberOf(text: string): number | null {
  const typed = text.trim();
  return NUMBER.test(typed) ? Number(typed.replace("−", "-").replace(",", ".")) : null;
}

/** Whole tenths °C of what was typed; null when it is no number. */
export function tenthsOf(text: string, unit: Unit): number | null {
  const number = numberOf(text);
  if (number === null) return null;
  return whole(unit === "F" ? celsius(number * 10) : number * 10);
}

/** Tenths °C as one types them: comes back as the same tenths. A whole °F is said as it was (47 is kept as 46.94). */
export function typedTemp(tenths: number, unit: Unit): string {
  if (unit === "C") return String(tenths / 10);
  const degrees = whole(fahrenheit(tenths) / 10);
  return String(whole(celsius(degrees * 10)) === tenths ? degrees : whole(fahrenheit(tenths)) / 10);
}

/** What was typed in one unit, in the other. */
export function inOther(text: string, from: Unit, to: Unit): string {
  const tenths = from === to ? null : tenthsOf(text, from);
  return tenths === null ? text : typedTemp(tenths, to);
}

/** The same air, typed in that unit. */
export const inUnit = (typed: Typed, unit: Unit): Typed => ({ ...typed, temp: inOther(typed.temp, typed.unit, unit), surface: inOther(typed.surface, typed.unit, unit), unit });
export const figureIn = (figure: Figure, unit: Unit): Figure => ({ text: inOther(figure.text, figure.unit, unit), unit });

/** One up or down from what is there, on whole numbers; from `start` where nothing is. */
export function stepped(text: string, by: 1 | -1, start: number): string {
  const number = numberOf(text);
  if (number === null) return String(start);
  return String(by > 0 ? Math.floor(number) + 1 : Math.ceil(number) - 1);
}

export const asTyped = ({ temp, rh }: Pick<Measured, "temp" | "rh">, unit: Unit): Typed => ({ temp: typedTemp(temp, unit), rh: String(rh), surface: "", unit });
export const anyTyped = (typed: Typed | undefined): typed is Typed => typed !== undefined && [typed.temp, typed.rh, typed.surface].some((text) => text.trim() !== "");

/** What is wrong with what was typed, in the order of the fields; nothing when it can be kept. */
export function wrongIn(typed: Typed): Wrong[] {
  const temps = (["temp", "surface"] as const).flatMap((field) => wrongTemp(field, typed[field], typed.unit));
  return [...temps.filter(({ field }) => field === "temp"), ...wrongRh(typed.rh), ...temps.filter(({ field }) => field === "surface")];
}

/** What is wrong with one temperature; null when nothing is, or nothing is typed. */
export const wrongFigure = ({ text, unit }: Figure): Wrong | null => wrongTemp("surface", text, unit)[0] ?? null;

function wrongTemp(field: "temp" | "surface", text: string, unit: Unit): Wrong[] {
  const value = text.trim();
  if (value === "") return field === "temp" ? [{ field, key: "air.missing", values: {} }] : [];
  const tenths = tenthsOf(value, unit);
  if (tenths === null) return [{ field, key: "loggers.no_number", values: { value } }];
  return tenths < COLDEST || tenths > HOTTEST ? [{ field, key: "loggers.temp_beyond", values: { value, unit } }] : [];
}

function wrongRh(text: string): Wrong[] {
  const [field, value] = ["rh" as const, text.trim()];
  if (value === "") return [{ field, key: "air.missing", values: {} }];
  const number = numberOf(value);
  if (number === null) return [{ field, key: "loggers.no_number", values: { value } }];
  // Half of 1 % for half of all: a coat would be dry in half its time.
  if (number > 0 && number < 1) return [{ field, key: "loggers.rh_fraction", values: { value } }];
  return number < 0 || number > 100 ? [{ field, key: "loggers.rh_beyond", values: { value } }] : [];
}

/** What to look at though it can be kept: an RH that a meter says when it is wet or broken; the key of its sentence. */
export function rhDoubt(text: string): "air.rh_bone_dry" | "air.rh_saturated" | null {
  const number = numberOf(text);
  if (number === null || number < 0 || number > 100) return null;
  const kept = whole(number);
  return kept === 0 ? "air.rh_bone_dry" : kept === 100 ? "air.rh_saturated" : null;
}

/** As entries keep it; null while something is wrong. */
export function measuredOf(typed: Typed): Measured | null {
  const { unit } = typed;
  if (wrongIn(typed).length > 0) return null;
  const surface = typed.surface.trim() === "" ? null : tenthsOf(typed.surface, unit);
  return { temp: tenthsOf(typed.temp, unit) ?? 0, rh: whole(numberOf(typed.rh) ?? 0), surface };
}

export const whereKind = ({ module, room }: Where): "room" | "module" | "yard" => (module === null ? "yard" : room === null ? "module" : "room");
/** The stream of a place's readings. */
export const streamOf = ({ module, room }: Where, yard: string): string => streamId(module ?? yard, room);

const placed = (where: Where) => ({ where: whereKind(where), ...(where.room === null ? {} : { room: where.room }) });

/** One reading by hand, of now. */
export function readingDraft(where: Where, yard: string, { temp, rh, surface }: Measured): Draft {
  const rows: ReadingRow[] = [[null, temp, rh, surface]];
  return { kind: "reading.taken", module: where.module, about: streamOf(where, yard), body: { ...placed(where), source: "hand", rows } };
}

/** As far as the second of a reading may move when it is sent: the phone knows the office's clock to about one. */
const MOVES = [-3, -2, -1, 0, 1, 2, 3];

/**
 * The instants that take a row back. Of a reading by hand that is not sent the office is yet to say the second: those
 * about it too, but none at which something else was read.
 */
export function strikeTimes(time: number, others: readonly number[], unsent: boolean): number[] {
  return unsent ? MOVES.map((by) => time + by).filter((one) => one === time || !others.includes(one)) : [time];
}

/** A wrong one is taken back. */
export function strikeDraft(where: Where, yard: string, times: readonly number[]): Draft {
  return { kind: "reading.struck", module: where.module, about: streamOf(where, yard), body: { ...placed(where), at: times.map(instant) } };
}

/** All readings of one place, the latest first. */
export function rowsOf(airs: readonly AirPart[], stream: string): AirRow[] {
  return airs.filter((air) => air.stream === stream).flatMap(({ rows }) => rows).sort((one, other) => other[0] - one[0]);
}

/** The latest reading of one place; null when nobody has read it. */
export function lastOf(airs: readonly AirPart[], stream: string): AirRow | null {
  const days = airs.filter((air) => air.stream === stream && air.rows.length > 0);
  const latest = days.reduce<AirPart | null>((one, other) => (one === null || other.day > one.day ? other : one), null);
  return latest?.rows.at(-1) ?? null;
}

const HOUR = 3600;
/** A night goes from six in the evening to ten in the morning of the yard's clock. */
const [EVENING, MORNING] = [18 * HOUR, 10 * HOUR];

/** The night that goes on or comes next; `ahead`: seconds that the yard's clock is ahead of UTC. */
export function nightOf(now: number, ahead: number): Pick<Night, "from" | "to"> {
  const local = now + ahead;
  const midnight = Math.floor(local / DAY) * DAY - ahead;
  const begun = local - Math.floor(local / DAY) * DAY < MORNING ? midnight - DAY : midnight;
  return { from: instant(begun + EVENING), to: instant(begun + DAY + MORNING) };
}

/** The lows of nights that are not over. */
export const nightsAhead = <N extends Pick<Night, "to">>(nights: readonly N[], now: number): N[] => nights.filter(({ to }) => seconds(to) > now);
