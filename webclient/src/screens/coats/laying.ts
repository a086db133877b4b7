/** What is said when a coat goes on, and the entries that one press makes of it. Pure. */

import type { Draft } from "../../journal";
import type { CoatKey, CoatSurface, Material, Paint, Thickness } from "../../rules";
import { paintOf } from "./paints";

/** What to do about rooms where the coat under it is not ready. */
export type Way = "leave" | "looked" | "early";
export interface Laying {
  coat: CoatKey;
  rooms: string[];
  material: Material;
  thickness: Thickness;
  /** As typed. */
  set: string;
  label: string;
  /** The yard's wall clock when it went on, `2026-12-02T09:30`; empty for now. */
  earlier: string;
  paint: Required<Paint>;
  way: Way | null;
  tried: string[];
  reason: string;
}
/** How one room stands for the coat that is to go on it. */
export interface Under {
  room: string;
  ready: boolean;
  /** The coats that it waits for, and whether a look at each needs a reason and what was tried: before the table's time. */
  waits: { id: string; before: boolean }[];
  /** What lies on top there, all of it. */
  over: string[];
}
export interface Press {
  module: string;
  /** Of the new coat. */
  id: string;
  unders: readonly Under[];
  /** `earlier` as an instant; null for now. */
  laidAt: string | null;
  doneBy: string[];
  surface?: CoatSurface;
}
/** What the form asks for, by the clock and family of what goes on. */
export interface Asks {
  set: boolean;
  label: boolean;
  paint: boolean;
}

const LONGEST = 10_000;

/** Rooms that are ticked and whose coat under it is not ready. */
export const unready = (laying: Laying, unders: readonly Under[]): Under[] => unders.filter(({ room, ready }) => !ready && laying.rooms.includes(room));

/** The rooms that the coat goes on, as the way out says. */
export function roomsLaid(laying: Laying, unders: readonly Under[]): string[] {
  const left = laying.way === "leave" ? unready(laying, unders).map(({ room }) => room) : [];
  return laying.rooms.filter((room) => !left.includes(room));
}

/** Whole minutes as typed; null when they are none. */
export function minutesOf(text: string): number | null {
  const typed = text.trim();
  return /^\d+$/.test(typed) && Number(typed) > 0 && Number(typed) <= LONGEST ? Number(typed) : null;
}

export type WhyNot = "rooms" | "set" | "label" | "earlier" | "under" | "rooms_left" | "tried" | "reason";

/** What is missing before it can be pressed, first things first; null when nothing is. */
export function whyNot(laying: Laying, unders: readonly Under[], asks: Asks, laidAt: string | null): WhyNot | null {
  if (laying.rooms.length === 0) return "rooms";
  if (asks.set && minutesOf(laying.set) === null) return "set";
  if (asks.label && laying.label.trim() && minutesOf(laying.label) === null) return "label";
  if (laying.earlier && laidAt === null) return "earlier";
  const wet = unready(laying, unders);
  if (wet.length === 0) return null;
  if (laying.way === null) return "under";
  if (laying.way === "leave") return roomsLaid(laying, unders).length === 0 ? "rooms_left" : null;
  if (laying.way === "looked" && !wet.some(({ waits }) => waits.some(({ before }) => before))) return null;
  if (laying.way === "looked" && laying.tried.length === 0) return "tried";
  return laying.reason.trim() ? null : "reason";
}

/** The looks that make what is under it dry, then the coat: one save. */
export function laidDrafts(laying: Laying, asks: Asks, press: Press): Draft[] {
  const rooms = roomsLaid(laying, press.unders);
  const wet = unready(laying, press.unders);
  const covered = press.unders.filter(({ room }) => rooms.includes(room));
  const looks = laying.way === "looked" ? looksAt(laying, wet, press) : [];
  const set = asks.set ? minutesOf(laying.set) : null;
  const label = asks.label ? minutesOf(laying.label) : null;
  const paint = asks.paint ? paintOf(laying.paint) : null;
  const early = laying.way === "early" && wet.length > 0 ? laying.reason.trim() : null;
  const over = [...new Set(covered.flatMap((one) => one.over))];
  const body = {
    coat: laying.coat,
    rooms,
    material: laying.material,
    thickness: laying.thickness,
    ...(press.surface ? { surface: press.surface } : {}),
    ...(set === null ? {} : { set_minutes: set }),
    ...(label === null ? {} : { label_minutes: label }),
    ...(paint ? { paint } : {}),
    ...(press.laidAt ? { laid_at: press.laidAt } : {}),
    ...(press.doneBy.length > 0 ? { done_by: press.doneBy } : {}),
    ...(over.length > 0 ? { over } : {}),
    ...(early ? { early } : {}),
  };
  return [...looks, { kind: "coat.laid", module: press.module, about: press.id, body }];
}

/** One look for each coat under it, at the time when the new one went on. */
export function looksAt(laying: Pick<Laying, "tried" | "reason">, wet: readonly Under[], press: Pick<Press, "module" | "laidAt">): Draft[] {
  const ids = [...new Set(wet.flatMap(({ waits }) => waits.map(({ id }) => id)))];
  return ids.map((about): Draft => {
    const of = wet.flatMap(({ room, waits }) => waits.filter(({ id }) => id === about).map(({ before }) => ({ room, before })));
    const said = of.some(({ before }) => before) ? { tried: laying.tried, reason: laying.reason.trim() } : {};
    const at = press.laidAt ? { looked_at: press.laidAt } : {};
    return { kind: "coat.found_dry", module: press.module, about, body: { rooms: of.map(({ room }) => room), ...said, ...at } };
  });
}
