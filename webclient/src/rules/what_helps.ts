/**
 * What would make a coat dry sooner: heat the room, dry its air, or wait; each from now on, with the hours saved.
 *
 * Once its time by the table is over nothing of this helps: somebody looks.
 *
 * Heating leaves the moisture where it is (constant vapour pressure), so the air gets drier; an unvented heater adds the
 * water that its fuel burns to: C3H8 + 5 O2 -> 4 H2O, 1.63 lb a pound of propane; CH4 + 2 O2 -> 2 H2O, 2.25 lb a pound of
 * natural gas. In a shut room that is many points of RH, and it takes back a part of what the heat gains.
 */

import { roomRh, saturation, whole } from "./climate";
import { type Clock, clock, dryingOf } from "./clocks";
import { type AirReading, type Dryness, type Ends, ready } from "./drying";
import type { Place } from "./place";
import type { CoatPart, Unvented } from "./types";
import { CURRENT, tables } from "./vocabulary";
import { airFor } from "./whose_air";

export interface Water { fuel: Unvented; lb_hundredths: number; rh_points: number; measured: 0 | 1 }
export interface Help extends Ends<number | null> {
  key: "heat" | "dry_air" | "wait" | "look";
  to: number | null;
  saved_minutes: number | null;
  room_rh: number | null;
  water_per_lb: Water | null;
}
/** A pound. */
const KILOGRAMS = 0.45359237;
/** J/(kg K), of water. */
const VAPOUR_CONSTANT = 461.5;
/** Tenths of a kelvin. */
const FREEZING = 2731.5;

/**
 * What saves most first, and waiting always last.
 *
 * `to`: tenths °C, or per cent; null for waiting. `saved_minutes`: by the table, against waiting; null where waiting
 * dries nothing. Only what saves something, and waiting always. Nothing but waiting while nobody has read the air, and
 * nothing but `look`, with the ends that have been, once it is over by the table.
 */
export function whatHelps(place: Place, room: string, coat: CoatPart, now: number): Help[] {
  const told = clock(place, coat, room, now);
  const rows = airFor(place, room, told.laid, now).rows.filter(({ time }) => time <= now);
  if (told.by_table !== null && told.by_table <= now) return [help("look", null, told, told, told.latest?.rh ?? null)];
  const wait = help("wait", null, told, told, told.latest?.rh ?? null);
  const latest = rows.at(-1);
  if (latest === undefined) return [wait];
  const { heat_to: heatTo, dry_to: dryTo } = tables(CURRENT).helps;
  const found: Help[] = [];
  if (latest.temp < heatTo) {
    const inside = roomRh(latest.temp, latest.rh, heatTo, CURRENT);
    const heat = help("heat", heatTo, fromNow(coat, told, rows, now, heatTo, inside), told, whole(inside));
    found.push({ ...heat, water_per_lb: waterPerLb(place, room, heatTo) });
  }
  if (latest.rh > dryTo) {
    found.push(help("dry_air", dryTo, fromNow(coat, told, rows, now, latest.temp, dryTo), told, dryTo));
  }
  const saving = found.filter((one) => one.by_table !== null && one.saved_minutes !== 0);
  return [...saving.sort((one, other) => (one.by_table ?? 0) - (other.by_table ?? 0)), wait];
}

/**
 * The water of a pound of fuel, as points of RH in the shut room.
 *
 * The fuel that was told, else propane. `measured` 0: nobody has measured the room, the points are for 1000 ft³.
 */
export function waterPerLb(place: Place, room: string, temp: number): Water {
  const { water, volume } = tables(CURRENT).helps;
  const fuel = place.heat?.unvented ?? "propane";
  const size = place.plan?.rooms.find(({ id }) => id === room);
  const cubicMetres = (size ? size.l * size.w * size.h : volume) / 1000000000;
  const kilograms = (water[fuel] * KILOGRAMS) / 100;
  const pascals = (kilograms * VAPOUR_CONSTANT * (temp + FREEZING)) / 10 / cubicMetres;
  const points = whole((pascals * 10000) / saturation(temp, CURRENT));
  return { fuel, lb_hundredths: water[fuel], rh_points: points, measured: size ? 1 : 0 };
}

/** When it is dry if the air is like that from now on. */
function fromNow(coat: CoatPart, told: Clock, rows: readonly AirReading[], now: number, temp: number, rh: number): Dryness {
  const before = rows.map((row) => ({ ...row, time: Math.min(row.time, now - 1) }));
  return ready(dryingOf(coat, told.laid, told.factor), [...before, { time: now, temp, rh }], CURRENT);
}

function help(key: Help["key"], to: number | null, then: Ends<number | null>, told: Clock, rh: number | null): Help {
  const saved = then.by_table === null || told.by_table === null ? null : Math.floor((told.by_table - then.by_table) / 60);
  return { key, to, likely: then.likely, by_table: then.by_table, saved_minutes: saved, room_rh: rh, water_per_lb: null };
}
