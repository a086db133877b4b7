/** Which paint is at hand, what was used before, and where another batch would show. Pure. */

import { family, type CoatKey, type CoatSurface, type Paint, type Place } from "../../rules";

export const NO_PAINT: Required<Paint> = { product: "", colour: "", batch: "", can: "" };
export const PAINT_FIELDS = ["product", "colour", "batch", "can"] as const;

/** Where a paint goes on: its batch, and the one that is there already; empty where nobody said. */
export interface Painted {
  module: string;
  room: string;
  batch: string;
  before: string;
}
/** Rooms of one module that have another batch than the one at hand. */
export interface Others {
  module: string;
  rooms: string[];
  before: string;
}

/** The fields that somebody filled in; null when none is. */
export function paintOf(paint: Required<Paint>): Paint | null {
  const told = Object.entries(paint).flatMap(([key, text]) => (text.trim() ? [[key, text.trim()] as const] : []));
  return told.length > 0 ? (Object.fromEntries(told) as Paint) : null;
}

/** The paints that somebody named, of what the coat is, the one laid last first. */
export function paintsUsed(place: Place, coat: CoatKey, rooms: readonly string[]): Paint[] {
  const same = place.coats.filter((one) => family(one.coat) === family(coat) && one.rooms.some((room) => rooms.includes(room)));
  return same.flatMap(({ paint }) => (paint && paintOf({ ...NO_PAINT, ...paint }) ? [paint] : [])).reverse();
}

/** The batch laid last on that wall, or on the whole room: another one shows beside it. Empty where nobody said. */
export function batchBefore(place: Place, room: string, surface: CoatSurface | null): string {
  const there = place.coats.filter((one) => family(one.coat) === "paint" && one.rooms.includes(room) && (surface === null || one.surface === null || one.surface === surface));
  return there.findLast(({ paint }) => paint?.batch?.trim())?.paint?.batch?.trim() ?? "";
}

/** Where touch-up would show, those of one batch together. */
export function otherBatches(painted: readonly Painted[]): Others[] {
  const found = new Map<string, Others>();
  for (const { module, room, batch, before } of painted) {
    if (!before || !batch.trim() || batch.trim().toLowerCase() === before.toLowerCase()) continue;
    const key = `${module} ${before}`;
    const same = found.get(key);
    found.set(key, { module, before, rooms: [...new Set([...(same?.rooms ?? []), room])] });
  }
  return [...found.values()];
}
