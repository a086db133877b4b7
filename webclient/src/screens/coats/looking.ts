/** What somebody found on looking at coats, and the entries that one press makes of it. Pure. */

import type { Draft } from "../../journal";
import type { Meter } from "../../rules";

export type Found = "wet" | "dry" | "sanded";
export interface Looking {
  found: Found;
  /** Coat id -> the rooms that were looked at. */
  picked: Record<string, string[]>;
  tried: string[];
  reason: string;
  scale: "" | Meter["scale"];
  /** As typed, in per cent. */
  value: string;
}
/** A coat in a room that can be looked at. */
export interface Seen {
  id: string;
  room: string;
  /** Before the table's time: *dry* needs a reason and what was tried. */
  before: boolean;
}

export const NO_LOOK: Looking = { found: "wet", picked: {}, tried: [], reason: "", scale: "", value: "" };
/** Tenths of a per cent: no scale goes further. */
const MOST = 1000;

/** What is picked and still there, as [coat, rooms]. */
export function pickedOf({ picked }: Looking, seen: readonly Seen[]): [string, string[]][] {
  const there = (id: string, room: string): boolean => seen.some((one) => one.id === id && one.room === room);
  return Object.entries(picked).flatMap(([id, rooms]): [string, string[]][] => {
    const left = rooms.filter((room) => there(id, room));
    return left.length > 0 ? [[id, left]] : [];
  });
}

/** `0.8` as tenths of a per cent on its scale; null when nothing was read, undefined when it cannot be read. */
export function meterOf({ scale, value, found }: Looking): Meter | null | undefined {
  if (!scale || found === "sanded") return null;
  const typed = /^(\d{1,3})(?:[.,](\d))?$/.exec(value.trim());
  if (!typed) return undefined;
  const tenths = Number(typed[1]) * 10 + Number(typed[2] ?? 0);
  return tenths <= MOST ? { scale, value: tenths } : undefined;
}

/** Whether any of what is picked is looked at before the table's time. */
export const tooSoon = (looking: Looking, seen: readonly Seen[]): boolean =>
  pickedOf(looking, seen).some(([id, rooms]) => seen.some((one) => one.before && one.id === id && rooms.includes(one.room)));

export type WhyNotLook = "pick" | "meter" | "tried" | "reason";

/** What is missing before it can be pressed; null when nothing is. */
export function whyNotLook(looking: Looking, seen: readonly Seen[]): WhyNotLook | null {
  if (pickedOf(looking, seen).length === 0) return "pick";
  if (meterOf(looking) === undefined) return "meter";
  if (looking.found !== "dry" || !tooSoon(looking, seen)) return null;
  if (looking.tried.length === 0) return "tried";
  return looking.reason.trim() ? null : "reason";
}

/** One entry for each coat that was looked at. */
export function lookDrafts(looking: Looking, seen: readonly Seen[], module: string, doneBy: string[]): Draft[] {
  const meter = meterOf(looking);
  const reason = looking.reason.trim();
  const read = meter ? { meter } : {};
  return pickedOf(looking, seen).map(([about, rooms]): Draft => {
    if (looking.found === "sanded") return { kind: "coat.wet_sanded", module, about, body: { rooms, ...(doneBy.length > 0 ? { done_by: doneBy } : {}) } };
    if (looking.found === "wet") return { kind: "coat.found_wet", module, about, body: { rooms, ...(reason ? { text: reason } : {}), ...read } };
    const tried = looking.tried.length > 0 ? { tried: looking.tried } : {};
    return { kind: "coat.found_dry", module, about, body: { rooms, ...tried, ...(reason ? { reason } : {}), ...read } };
  });
}
