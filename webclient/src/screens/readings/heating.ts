/** What is said of a module's heat, and when somebody has to say it. Pure. */

import type { Draft } from "../../journal";
import { CURRENT, freshRows, heatId, seconds, tables, type AirRow, type Family, type HeatPart, type Place, type Unvented } from "../../rules";
import { tenthsOf, type Figure } from "./measuring";

export interface Heating {
  on: boolean;
  /** The yard's wall clock since when; empty for now. */
  since: string;
  /** As typed; may be empty: nobody knows to what. */
  to: Figure;
  fuel: "vented" | Unvented;
}

/** The entry of one press; `since` as an instant, null for now. */
export function heatDraft(module: string, { on, to, fuel }: Heating, since: string | null): Draft {
  const about = heatId(module);
  if (!on) return { kind: "heat.told", module, about, body: { on } };
  const tenths = to.text.trim() === "" ? null : tenthsOf(to.text, to.unit);
  const body = { on, ...(since === null ? {} : { since }), ...(tenths === null ? {} : { to: tenths }), ...(fuel === "vented" ? {} : { unvented: fuel }) };
  return { kind: "heat.told", module, about, body };
}

export const heatedSince = (heat: HeatPart): number => seconds(heat.since ?? heat.time);

/**
 * Whether somebody has to say since when the heat is on: it is cold outside, the 48 hours before `at` are not read
 * inside, and nobody has said of the heat that it has been on all that time.
 */
export function heatUnknown(place: Place, room: string, at: number): boolean {
  const { coldest, heat_hours: hours, gap_minutes: gap } = tables(CURRENT).drying.limits;
  const from = at - hours * 3600;
  if (place.heat?.on && heatedSince(place.heat) <= from) return false;
  if (!coldOutside(place, from, at, coldest)) return false;
  const inside = insideOf(place, room).map(([time]) => time);
  const read = [from, ...inside.filter((time) => from < time && time < at).sort((one, other) => one - other), at];
  const before = inside.some((time) => from - gap * 60 <= time && time <= from);
  const holes = read.some((time, step) => step > 0 && time - (read[step - 1] ?? time) > gap * 60);
  return holes || !before;
}

const insideOf = (place: Place, room: string): AirRow[] => place.airs.filter((air) => air.where === "module" || air.room === room).flatMap(({ rows }) => rows);

/** The coldest row inside any of the rooms in the 48 hours before `at`, where it is below what joint work needs; else null. */
export function tooColdInside(place: Place, rooms: readonly string[], at: number): AirRow | null {
  const { coldest, heat_hours: hours } = tables(CURRENT).drying.limits;
  const read = rooms.flatMap((room) => insideOf(place, room)).filter(([time, temp]) => at - hours * 3600 <= time && time <= at && temp < coldest);
  return read.reduce<AirRow | null>((least, row) => (least === null || row[1] < least[1] ? row : least), null);
}

/** What the air inside forbids a coat of compound or texture: it is too hot, or was too cold for it. */
export interface Forbids {
  why: "was_cold" | "too_cold" | "too_hot";
  row: AirRow;
}

/**
 * Joints need their least warmth for 48 hours before; texture, whose maker asks for it only while it dries, now. Heaters
 * must not drive either above the most. Of several rooms the worst; null where nothing that was read forbids it.
 */
export function airForbids(place: Place, rooms: readonly string[], kind: Family, at: number): Forbids | null {
  if (kind !== "joint" && kind !== "texture") return null;
  const { coldest, hottest } = tables(CURRENT).drying.limits;
  const cold = kind === "joint" ? tooColdInside(place, rooms, at) : null;
  if (cold) return { why: "was_cold", row: cold };
  const now = rooms.flatMap((room) => freshRows(place, room, at).slice(-1));
  const byWarmth = now.sort((one, other) => one[1] - other[1]);
  const [low, high] = [byWarmth.at(0), byWarmth.at(-1)];
  if (low && low[1] < coldest) return { why: "too_cold", row: low };
  return high && high[1] > hottest ? { why: "too_hot", row: high } : null;
}

/** What was read outside in that time, or a night's low in it, is below what joint work needs. */
function coldOutside(place: Place, from: number, at: number, coldest: number): boolean {
  const read = place.outside.flatMap(({ rows }) => rows).filter(([time]) => from <= time && time <= at);
  const nights = (place.forecast?.nights ?? []).filter((night) => seconds(night.to) >= from && seconds(night.from) <= at);
  return read.some(([, temp]) => temp < coldest) || nights.some(({ low }) => low < coldest);
}
