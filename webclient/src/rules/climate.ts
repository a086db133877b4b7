/**
 * The air of rooms: moisture, dew point, and outside air that is heated. Temperatures are tenths of a degree Celsius.
 *
 * No `log` and no `exp`: their last bits differ between machines. Saturation vapour pressure is a table by tenths of a
 * degree over water (0.61094 kPa * exp(17.625 t / (t + 243.04)), Alduchov and Eskridge 1996, within 0.24 % of ASHRAE from
 * 32 to 100 °F), read with + - * / alone, which both languages do alike. What a part keeps goes through `whole`.
 */

import { tables } from "./vocabulary";

/** The nearest whole number, halves upwards in both languages. */
export function whole(number: number): number {
  return Math.floor(number + 0.5);
}

/** Tenths °C of tenths °F, not rounded. A whole °F kept as whole tenths °C comes back as the same whole °F. */
export function celsius(fahrenheitTenths: number): number {
  return ((fahrenheitTenths - 320) * 5) / 9;
}

/** Tenths °F of tenths °C, not rounded. */
export function fahrenheit(celsiusTenths: number): number {
  return (celsiusTenths * 9) / 5 + 320;
}

/** A difference has no offset: 5 °F apart are 2.8 °C apart. */
export function celsiusDifference(fahrenheitTenths: number): number {
  return (fahrenheitTenths * 5) / 9;
}

/** A difference has no offset: 3 °C apart are 5.4 °F apart. */
export function fahrenheitDifference(celsiusTenths: number): number {
  return (celsiusTenths * 9) / 5;
}

/** Saturation vapour pressure over water in hundredths of a pascal; beyond -60 and 60 °C that of the end. */
export function saturation(temp: number, version: number): number {
  const table = tables(version).drying.saturation;
  return read(table.centipascals, temp - table.from);
}

/** Vapour pressure of air at `rh` per cent, in hundredths of a pascal. */
export function vapour(temp: number, rh: number, version: number): number {
  return (saturation(temp, version) * rh) / 100;
}

/** Tenths °C at which this air would be saturated; -60 °C for all that is drier still. */
export function dewPoint(temp: number, rh: number, version: number): number {
  return saturatedAt(vapour(temp, rh, version), version);
}

/** Tenths °C at which air of this vapour pressure (hundredths of a pascal) is saturated: `saturation` backwards. */
export function saturatedAt(pressure: number, version: number): number {
  const table = tables(version).drying.saturation;
  const values = table.centipascals;
  let low = 0;
  let high = values.length - 1;
  if (pressure <= at(values, low)) return table.from;
  if (pressure >= at(values, high)) return table.from + high;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (at(values, middle) <= pressure) low = middle;
    else high = middle;
  }
  return table.from + low + (pressure - at(values, low)) / (at(values, high) - at(values, low));
}

/**
 * Relative humidity in per cent of outside air once it is heated to `inside`.
 *
 * The moisture stays, not the relative humidity: constant vapour pressure. Cooled below its dew point it is 100.
 */
export function roomRh(outside: number, rh: number, inside: number, version: number): number {
  return Math.min(100, (vapour(outside, rh, version) / saturation(inside, version)) * 100);
}

/** A table between its whole places, straight from one to the next; beyond an end the value at that end. */
export function read(values: readonly number[], place: number): number {
  const last = values.length - 1;
  if (place <= 0) return at(values, 0);
  if (place >= last) return at(values, last);
  const low = Math.floor(place);
  return at(values, low) + (at(values, low + 1) - at(values, low)) * (place - low);
}

/** A value of a table; the place is known to be inside. */
function at(values: readonly number[], place: number): number {
  return values[place] ?? Number.NaN;
}
