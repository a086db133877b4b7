/**
 * Whether a room can be primed or painted now: go, wait (until about when), or stop, with each figure.
 *
 * The label on the can comes first. What nobody has measured is never *go*: without a fresh reading inside it is *wait,
 * take a reading*. The yard's air and a forecast are not the room's air.
 */

import { dewPoint, whole } from "./climate";
import { clock, isDry, UNRELIABLE } from "./clocks";
import { readiness, tops } from "./covers";
import { ready } from "./drying";
import { DAY, seconds } from "./instants";
import { own } from "./own";
import type { Place } from "./place";
import { family, nextCoat } from "./schedule";
import type { AirRow } from "./types";
import { CURRENT, type CoatKey, type CoatRow, tables } from "./vocabulary";

export type Verdict = "go" | "wait" | "stop";
export type CheckKey =
  | "reading" | "surface_over_dew" | "no_surface" | "dew_rising" | "air_least" | "air_rh" | "low" | "joint_dry";
export type CheckState = "met" | "caution" | "wait" | "stop";
export interface Check { key: CheckKey; state: CheckState; value: number | null; limit: number | null }
export interface BeforePaint { verdict: Verdict; until: number | null; checks: Check[] }
export interface Label { least_temp?: number }
/** A night ends at ten; at six its low is over. */
const MORNING = 4 * 3600;
/** A check, and until when it waits where it is known. */
interface Timed { check: Check; until: number | null }

/**
 * What the room's air, its surface, tonight's low and the joints under it say.
 *
 * `label`: {least_temp?} tenths °C, what the can says. Values are tenths °C (apart, for `surface_over_dew` and
 * `dew_rising`), per cent (`no_surface`, `air_rh`), minutes (`reading`: its age) or an instant (`joint_dry`); null
 * where nobody knows. `until` is null when a check that waits has no time of its own, or none to rely on.
 */
export function beforePaint(place: Place, room: string, now: number, label: Label): BeforePaint {
  const rows = freshRows(place, room, now);
  const alone = [reading(place, room, now), ...air(rows, label)].map((check) => ({ check, until: null }));
  const timed: Timed[] = [...alone, low(place, room, now, rows), joint(place, room, now)];
  const states = new Set(timed.map(({ check }) => check.state));
  const verdict = states.has("stop") ? "stop" : states.has("wait") ? "wait" : "go";
  const times = timed.flatMap(({ check, until }) => (check.state === "wait" ? [until] : []));
  const known = times.filter((time) => time !== null);
  const until = verdict === "wait" && known.length === times.length ? Math.max(...known) : null;
  return { verdict, until, checks: timed.map(({ check }) => check) };
}

/** Readings inside, of the room or its module, not yet stale, in the order of their times. */
export function freshRows(place: Place, room: string, now: number): AirRow[] {
  const oldest = now - limits().stale_minutes * 60;
  return inside(place, room).filter(([time]) => oldest <= time && time <= now);
}

/** The primer or paint that is next there; the first paint when another coat comes before, or none. */
export function coatToCome(place: Place, room: string): CoatKey {
  const coat = nextCoat(place, room);
  return coat !== null && ["primer", "paint"].includes(family(coat)) ? coat : "paint_1";
}

const limits = (): ReturnType<typeof tables>["drying"]["limits"] => tables(CURRENT).drying.limits;

/** Without air of 0 %: a dead sensor has read nothing. */
function inside(place: Place, room: string): AirRow[] {
  const airs = place.airs.filter((one) => one.where === "module" || one.room === room);
  return airs.flatMap(({ rows }) => rows).filter(([, , rh]) => rh > 0).sort(worstLast);
}

/** By time; of one time the slowest air last, of that the coldest surface. */
function worstLast(one: AirRow, other: AirRow): number {
  const [ours, theirs] = [one, other].map(([time, temp, rh, speed, surface]) =>
    [time, -speed, surface === null ? 0 : 1, -(surface ?? 0), temp, rh]) as [number[], number[]];
  const at = ours.findIndex((value, place) => value !== theirs[place]);
  return at < 0 ? 0 : (ours[at] ?? 0) - (theirs[at] ?? 0);
}

/** When the air inside was last read. */
function reading(place: Place, room: string, now: number): Check {
  const limit = limits().stale_minutes;
  const last = inside(place, room).filter(([time]) => time <= now).at(-1)?.[0];
  const age = last === undefined ? null : Math.floor((now - last) / 60);
  const fresh = last !== undefined && now - last <= limit * 60;
  return { key: "reading", state: fresh ? "met" : "wait", value: age, limit };
}

/** What the latest air and surface say; nothing when nobody has read them. */
function air(rows: readonly AirRow[], label: Label): Check[] {
  const latest = rows.at(-1);
  if (latest === undefined) return [];
  const [, temp, rh] = latest;
  const { paint_coldest: coldest, paint_rh: limit } = limits();
  const least = label.least_temp ?? coldest;
  return [
    ...dew(rows, latest),
    { key: "air_least", state: temp < least ? "stop" : "met", value: temp, limit: least },
    { key: "air_rh", state: rh >= limit ? "stop" : "met", value: rh, limit },
  ];
}

/** The surface over the dew point of the latest air; of a surface that nobody measured only the air's RH speaks. */
function dew(rows: readonly AirRow[], [, temp, rh]: AirRow): Check[] {
  const { dew_margin: margin, paint_rh_no_surface: limit } = limits();
  const measured = rows.filter((row) => row[4] !== null);
  const surface = measured.at(-1)?.[4] ?? null;
  const found: Check[] = [];
  if (surface === null) {
    found.push({ key: "no_surface", state: rh >= limit ? "stop" : "met", value: rh, limit });
  } else {
    const apart = whole(surface - dewPoint(temp, rh, CURRENT));
    found.push({ key: "surface_over_dew", state: apart < margin ? "stop" : "met", value: apart, limit: margin });
  }
  const compared = measured.length > 1 ? measured : rows;
  const [first, last] = [compared[0], compared.at(-1)];
  if (first !== undefined && last !== undefined && first !== last) {
    const rise = whole(overDew(last, compared === measured) - overDew(first, compared === measured));
    found.push({ key: "dew_rising", state: rise < 0 ? "caution" : "met", value: rise, limit: 0 });
  }
  return found;
}

function overDew([, temp, rh, , surface]: AirRow, measured: boolean): number {
  return (measured && surface !== null ? surface : temp) - dewPoint(temp, rh, CURRENT);
}

/** No low below the limit before the paint is dry by the table; where the heat is on only a caution. */
function low(place: Place, room: string, now: number, rows: readonly AirRow[]): Timed {
  const limit = limits().paint_low;
  const nights = (place.forecast?.nights ?? []).filter((night) => seconds(night.to) > now);
  const end = dryBy(place, room, now, rows);
  const before = nights.filter((night) => end === null || seconds(night.from) < end);
  const cold = before.filter((night) => night.low < limit);
  const heated = place.heat?.on === true;
  const told = (state: CheckState, value: number | null): Check => ({ key: "low", state, value, limit });
  if (nights.length === 0) return { check: told(heated ? "met" : "caution", null), until: null };
  if (cold.length === 0 && untold(nights, now, end)) return { check: told(heated ? "met" : "caution", null), until: null };
  const value = Math.min(...(before.length > 0 ? before : nights.slice(0, 1)).map((night) => night.low));
  if (cold.length === 0) return { check: told("met", value), until: null };
  return { check: told(heated ? "caution" : "wait", value), until: Math.max(...cold.map(({ to }) => seconds(to))) };
}

/** Whether a night comes before the first that is told, and before the paint is dry; its last hours are no night. */
function untold(nights: readonly { from: string; to: string }[], now: number, end: number | null): boolean {
  const first = nights.reduce((one, other) => (other.from < one.from ? other : one));
  let [start, stop] = [seconds(first.from) - DAY, seconds(first.to) - DAY];
  while (stop - MORNING > now) {
    if (end === null || start < end) return true;
    [start, stop] = [start - DAY, stop - DAY];
  }
  return false;
}

/** When paint laid now is dry by the table in the air as it is; null when nobody knows, or never. */
function dryBy(place: Place, room: string, now: number, rows: readonly AirRow[]): number | null {
  const latest = rows.at(-1);
  if (latest === undefined) return null;
  const { coats } = tables(CURRENT).schedule;
  const { material, thickness } = own<CoatRow>(coats, coatToCome(place, room)) ?? coats.paint_1;
  const [time, temp, rh] = latest;
  return ready({ laid: now, material, thickness: thickness ?? "normal" }, [{ time, temp, rh }], CURRENT).by_table;
}

/** Whether what lies on the walls may be painted over. */
function joint(place: Place, room: string, now: number): Timed {
  const found = readiness(place, room, family(coatToCome(place, room)), now);
  const check: Check = { key: "joint_dry", state: found.ready ? "met" : "wait", value: found.at, limit: null };
  return { check, until: doubted(place, room, now) ? null : found.at };
}

/** Whether the time of anything that is not dry there cannot be relied on, also of what is to be dry sooner. */
function doubted(place: Place, room: string, now: number): boolean {
  const found = tops(place, room).map(([, coat]) => clock(place, coat, room, now));
  return found.some(({ state, flags }) => !isDry(state) && flags.some((flag) => UNRELIABLE.includes(flag)));
}
