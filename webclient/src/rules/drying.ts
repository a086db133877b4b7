/**
 * When a coat is dry: the law fitted to the handbook's table, summed over changing air. Always an estimate.
 *
 * hours = K / (saturation pressure * (1 - RH)^0.9), K = 22.5 kPa·h *likely*, 26.6 *by the table* (never shorter than it).
 *
 * A reading {time, temp, rh} (whole seconds since 1970 UTC, tenths °C, per cent) **holds** until the next one, the latest
 * for ever, the first also backwards to the laying. Not a straight line between two readings: the clock on the screen
 * carries the latest reading forward, and with a line each new reading would take back what the yard was told about hours
 * that are over. A long hold is called a gap, and not relied on.
 *
 * A rate is a whole number, 1/10000 Pa, and a dose is rate times seconds, whole too: sums are exact in both languages, so
 * that splitting an interval or another order of arrival changes nothing, to the second.
 */

import { read, saturation, whole } from "./climate";
import { type Material, type Thickness, tables } from "./vocabulary";

export interface AirReading { time: number; temp: number; rh: number; rate?: number; read?: number }
export interface CoatLaid {
  laid: number;
  material: Material;
  thickness?: Thickness;
  set_minutes?: number;
  label_minutes?: number;
  percent?: number;
}
export type Flag = "no_readings" | "below_limits" | "above_limits" | "damp" | "bone_dry" | "gap" | "dry_out";
export interface Ends<T> { likely: T; by_table: T }
export interface Dryness extends Ends<number | null> { set: number | null; flags: Flag[] }
export interface Step { from: number; to: number | null; read: number; temp: number; rh: number; rate: number }

/** How fast a coat dries: saturation pressure * (1 - RH)^0.9 in ten-thousandths of a pascal; 0 in saturated air. */
export function rate(temp: number, rh: number, version: number): number {
  return whole((saturation(temp, version) * read(tables(version).drying.thirst, rh)) / 10000);
}

/**
 * The dose at which a coat is dry, `likely` and `by_table`.
 *
 * Compound takes K. Latex has no published law: its label's least time at the label's air, stretched by this one.
 * `percent`: what this yard's own looks say of the material: above 100 it lengthens both ends, below only *likely*.
 */
export function doses(coat: Omit<CoatLaid, "laid">, version: number): Ends<number> {
  const { law, materials, thickness } = tables(version).drying;
  const material = materials[coat.material];
  const factor = thickness[coat.thickness ?? "normal"];
  let base = { likely: law.k_likely * 3600 * 1000000, by_table: law.k_by_table * 3600 * 1000000 };
  if (material.clock === "label" && "minutes" in material) {
    const least = (coat.label_minutes || material.minutes) * 60 * rate(material.temp, material.rh, version);
    base = { likely: least, by_table: ceiling(least * law.k_by_table, law.k_likely) };
  }
  const percent = coat.percent ?? 100;
  return {
    likely: ceiling(ceiling(base.likely * factor.likely, 1000) * percent, 100),
    by_table: ceiling(ceiling(base.by_table * factor.by_table, 1000) * Math.max(100, percent), 100),
  };
}

/**
 * The air from the laying on, in order; `read` when it was read, `to` of the last null.
 *
 * Of two readings of one time the slower air counts, so that the order of arrival does not. A reading may bring its
 * `rate`, and `read` where it was read at another time than it counts from.
 */
export function held(laid: number, readings: readonly AirReading[], version: number): Step[] {
  const told = readings.map((one) => ({
    time: one.time, temp: one.temp, rh: one.rh, rate: one.rate ?? rate(one.temp, one.rh, version), read: one.read ?? one.time,
  }));
  told.sort((one, other) =>
    one.time - other.time || one.rate - other.rate || one.temp - other.temp || one.rh - other.rh || one.read - other.read);
  const kept = told.filter((one, place) => told[place - 1]?.time !== one.time);
  const steps: Step[] = [];
  kept.forEach((one, place) => {
    const to = kept[place + 1]?.time ?? null;
    if (to !== null && to <= laid) return;
    const from = steps.length === 0 ? laid : one.time;
    steps.push({ from, to, read: one.read, temp: one.temp, rh: one.rh, rate: one.rate });
  });
  return steps;
}

/** The second at which the air has dried that much, rounded up to the minute; null when it never does. */
export function reached(steps: readonly Step[], dose: number): number | null {
  let left = dose;
  for (const step of steps) {
    if (step.rate > 0 && (step.to === null || step.rate * (step.to - step.from) >= left)) {
      return ceiling(step.from + ceiling(left, step.rate), 60) * 60;
    }
    if (step.to !== null) left -= step.rate * (step.to - step.from);
  }
  return null;
}

/** How much of a coat is dry at an instant, in whole thousandths, by each end; 1000 only when it is dry. */
export function dried(coat: CoatLaid, readings: readonly AirReading[], until: number, version: number): Ends<number> {
  return driedBy(coat, held(coat.laid, readings, version), until, version);
}

/** The same over air that is in order already. */
export function driedBy(
  coat: Omit<CoatLaid, "laid">, steps: readonly Step[], until: number, version: number,
): Ends<number> {
  const share = (dose: number): number => {
    let left = dose;
    for (const step of steps) {
      const last = step.to === null ? until : Math.min(step.to, until);
      left = Math.max(0, left - step.rate * Math.max(0, last - step.from));
    }
    return thousandths(dose - left, dose);
  };
  const { likely, by_table } = doses(coat, version);
  return { likely: share(likely), by_table: share(by_table) };
}

/** A share in thousandths, rounded down, digit by digit: a thousand doses may be more than a number holds exactly. */
function thousandths(part: number, dose: number): number {
  let [left, found] = [part, 0];
  for (const scale of [1, 10, 10, 10]) {
    left *= scale;
    const digit = (left - (left % dose)) / dose;
    left -= digit * dose;
    found = found * scale + digit;
  }
  return found;
}

/**
 * When a coat is dry: {likely, by_table, set, flags}.
 *
 * Whole minutes in seconds since 1970, null when not in this air. `set`: a setting-type coat can take the next coat
 * from then on, but primer and paint wait for `likely` and `by_table`. No minutes, or 0 of them, are none told: a bag
 * that nobody read has no set time, a can its material's. Flags: see `flagsOf`.
 */
export function ready(coat: CoatLaid, readings: readonly AirReading[], version: number): Dryness {
  return readyBy(coat, held(coat.laid, readings, version), version);
}

/** The same over air that is in order already. */
export function readyBy(coat: CoatLaid, steps: readonly Step[], version: number): Dryness {
  const needed = doses(coat, version);
  const clock = tables(version).drying.materials[coat.material];
  const label = clock.clock === "label" && "minutes" in clock ? (coat.label_minutes || clock.minutes) : 0;
  const least = ceiling(coat.laid + label * 60, 60) * 60;
  const end = (dose: number): number | null => {
    const instant = reached(steps, dose);
    return instant === null ? null : Math.max(instant, least);
  };
  const found = { likely: end(needed.likely), by_table: end(needed.by_table) };
  const set = clock.clock === "set" && coat.set_minutes ? coat.laid + coat.set_minutes * 60 : null;
  return { ...found, set, flags: flagsOf(steps, found, set, version) };
}

/**
 * Why the answer is not to be relied on, while the coat is not yet dry by the table.
 *
 * `no_readings`; `below_limits`, `above_limits`: out of limits, not merely slow; `damp`: above 90 % RH a 3-point error
 * multiplies the time by 1.4 to 2.3; `bone_dry`: no air is at 0 %, so a dead sensor said it; `gap`: a wet coat's
 * reading held for more than 4 hours before another came, or before the first; `dry_out`: dry before it had set is weak.
 */
function flagsOf(steps: readonly Step[], found: Ends<number | null>, set: number | null, version: number): Flag[] {
  const { limits } = tables(version).drying;
  const long = limits.gap_minutes * 60;
  const end = found.by_table;
  const wet = steps.filter((step) => end === null || step.from < end);
  const told: [Flag, boolean][] = [
    ["no_readings", steps.length === 0],
    ["below_limits", wet.some((step) => step.temp < limits.coldest)],
    ["above_limits", wet.some((step) => step.temp > limits.hottest)],
    ["damp", wet.some((step) => step.rh > limits.reliable_rh)],
    ["bone_dry", wet.some((step) => step.rh === 0)],
    ["gap", wet.some((step) => step.read - step.from > long || until(step, end) - step.read > long)],
    ["dry_out", set !== null && found.likely !== null && found.likely < set],
  ];
  return told.flatMap(([flag, isSo]) => (isSo ? [flag] : []));
}

/** Until when a step's reading held before another came, while the coat was wet. */
function until(step: Step, end: number | null): number {
  const last = step.to ?? step.read;
  return end === null ? last : Math.min(last, end);
}

/** A quotient of whole numbers, rounded up. */
function ceiling(number: number, by: number): number {
  return (number - (number % by)) / by + (number % by > 0 ? 1 : 0);
}
