/** The clock of one coat in one room: when it is likely dry and when by the table, and what people found by looking. */

import { cellThen } from "./coat_looks";
import { type CoatLaid, type Dryness, type Ends, driedBy, held, readyBy } from "./drying";
import { seconds } from "./instants";
import { own } from "./own";
import type { Place } from "./place";
import type { ClockFlag, CoatCell, CoatPart, DryLook } from "./types";
import { CURRENT, tables } from "./vocabulary";
import { type Air, airFor, type Whose } from "./whose_air";

type Cell = Pick<CoatCell, "wet" | "dry" | "restart">;
export type CoatState = "wet" | "likely" | "ready" | "dry" | "not_dry" | "unsure";
export interface LearnedFactor { percent: number; looks: number }
export interface Clock extends Ends<number | null> {
  laid: number;
  set: number | null;
  dried: Ends<number>;
  whose: Whose | null;
  flags: ClockFlag[];
  state: CoatState;
  ready_at: number | null;
  latest: { time: number; temp: number; rh: number } | null;
  factor: LearnedFactor | null;
}

/** What makes a time one that nobody may rely on: then only a look says that a coat is ready. */
export const UNRELIABLE: readonly ClockFlag[] = [
  "no_readings", "below_limits", "above_limits", "damp", "bone_dry", "gap", "stale", "outside", "clock_unsure",
];
export const isDry = (state: CoatState): boolean => state === "ready" || state === "dry";

/**
 * A coat's clock in one of its rooms, as it stands at `at` (seconds since 1970), by looks told by then or `toldBy`.
 *
 * `laid` is its last wet sanding, if there was one. States: `wet`; `likely` dry; `ready` by the table; `dry` by a look;
 * `not_dry` by a look; `unsure`: by the table, by a time that nobody may rely on. `ready_at`: when it may be covered,
 * null where only a look can say so.
 */
export function clock(place: Place, coat: CoatPart, room: string, at: number, toldBy = at): Clock {
  const cell = cellThen(coat, room, at, toldBy);
  const laid = laidAt(coat, cell);
  const air = airFor(place, room, laid, at);
  const factor = factorOf(place, coat.material, at);
  const dries = dryingOf(coat, laid, factor);
  const steps = held(laid, air.rows, CURRENT);
  const found = readyBy(dries, steps, CURRENT);
  const flags: ClockFlag[] = [...found.flags, ...doubts(coat, air, found.by_table, at)];
  const state = stateOf(cell, found, flags, at);
  return {
    laid, likely: found.likely, by_table: found.by_table, set: found.set, dried: driedBy(dries, steps, at, CURRENT),
    whose: air.whose, flags, state, ready_at: readyAt(state, cell, found), latest: latest(air), factor,
  };
}

/**
 * What the yard's own looks say of a material; null while they are too few, or the office has switched it off.
 *
 * At an hour that is over what they said then: a look of today makes no cover of last week early.
 */
export function factorOf(place: Place, material: string, at: number | null = null): LearnedFactor | null {
  if (place.yard?.coats?.learned === false || place.learned === null) return null;
  let found = own(place.learned.factors as Record<string, LearnedFactor>, material);
  if (at !== null && at < seconds(place.learned.time)) {
    const told = (own(place.learned.was ?? {}, material) ?? []).filter(([time]) => seconds(time) <= at).at(-1);
    found = told && { percent: told[1], looks: told[2] };
  }
  return found !== undefined && found.looks >= tables(CURRENT).drying.limits.learned_least ? found : null;
}

/** From when it dries: a joint that was worked wet starts again. */
function laidAt(coat: CoatPart, cell: Cell): number {
  return Math.max(seconds(coat.laid), seconds(cell.restart ?? coat.laid));
}

/** A coat part as `drying` takes it, laid at `laid`. */
export function dryingOf(coat: CoatPart, laid: number, factor: LearnedFactor | null): CoatLaid {
  const table = tables(CURRENT).drying;
  const found: CoatLaid = {
    laid,
    material: Object.hasOwn(table.materials, coat.material) ? coat.material : "drying_type",
    thickness: Object.hasOwn(table.thickness, coat.thickness) ? coat.thickness : "normal",
    percent: factor?.percent ?? 100,
  };
  if (coat.set_minutes !== null) found.set_minutes = coat.set_minutes;
  if (coat.label_minutes !== null) found.label_minutes = coat.label_minutes;
  return found;
}

/** What the drying law cannot see: readings too old to carry forward, whose air it was, a phone's wrong clock. */
function doubts(coat: CoatPart, air: Air, byTable: number | null, at: number): ClockFlag[] {
  const stale = tables(CURRENT).drying.limits.stale_minutes * 60;
  const last = air.rows.at(-1)?.read ?? at;
  const found: ClockFlag[] = at - last > stale && (byTable === null || byTable > last + stale) ? ["stale"] : [];
  // Whose air it was once it was dry is no doubt about that.
  const whose = new Set<string>(air.rows.filter(({ time }) => byTable === null || time < byTable).map((row) => row.whose));
  return [...found, ...air.flags.filter((flag) => whose.has(flag)), ...(coat.unsure ? (["clock_unsure"] as const) : [])];
}

function stateOf(cell: Cell, found: Dryness, flags: readonly ClockFlag[], at: number): CoatState {
  if (cell.wet !== null) return "not_dry";
  if (lookCounts(cell.dry, found.by_table)) return "dry";
  if (found.likely === null) return flags.includes("no_readings") ? "unsure" : "wet";
  if (at < found.likely) return "wet";
  if (found.by_table === null || at < found.by_table) return "likely";
  return flags.some((flag) => UNRELIABLE.includes(flag)) ? "unsure" : "ready";
}

/** *Dry* before the table's time needs a reason and what was tried: neither the eye nor a meter ends it early. */
function lookCounts(look: DryLook | null, byTable: number | null): boolean {
  if (look === null) return false;
  return (look.tried.length > 0 && Boolean(look.reason)) || (byTable !== null && seconds(look.time) >= byTable);
}

function readyAt(state: CoatState, cell: Cell, found: Dryness): number | null {
  if (state === "dry" && cell.dry !== null) return seconds(cell.dry.time);
  return state === "not_dry" || state === "unsure" ? null : found.by_table;
}

function latest(air: Air): Clock["latest"] {
  const last = air.rows.at(-1);
  return last === undefined ? null : { time: last.read, temp: last.temp, rh: last.rh };
}
