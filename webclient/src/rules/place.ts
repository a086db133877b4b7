/** One module's coats and air together, as everything derived from them reads them. */

import * as field from "./heads";
import { roomsOf } from "./sheets";
import type {
  AirPart, CoatPart, ForecastPart, HeatPart, LearnedPart, ModulePart, Part, PlanPart, YardPart,
} from "./types";

/** A reading as clocks take it; of one time the slowest. */
export interface Row { time: number; rate: number; temp: number; rh: number; whose: "room" | "module" | "outside" }
export interface Place {
  module: ModulePart;
  plan: PlanPart | null;
  rooms: string[];
  yard: YardPart | null;
  /** Not void, in the order laid. */
  coats: CoatPart[];
  /** Void by the hands that laid them. */
  taken_back: CoatPart[];
  airs: AirPart[];
  outside: AirPart[];
  heat: HeatPart | null;
  forecast: ForecastPart | null;
  learned: LearnedPart | null;
  /** Room -> its readings, put in order once for all coats by `whose_air`. */
  rows: Map<string, Row[]>;
}
type Found = Omit<Place, "module"> & { module: ModulePart | null };

/** A module's place, from its own parts and those of the yard; RangeError when the module is not among them. */
export function placeOf(moduleId: string, parts: Iterable<Part>): Place {
  const found: Found = {
    module: null, plan: null, rooms: [], yard: null, coats: [], taken_back: [], airs: [], outside: [], heat: null, forecast: null,
    learned: null, rows: new Map(),
  };
  const plans = new Map<string, PlanPart>();
  for (const part of parts) {
    if (part.part === "plan") plans.set(part.id, part);
    else keep(found, part, moduleId);
  }
  const { module } = found;
  if (module === null) throw new RangeError(`module ${moduleId}`);
  const plan = plans.get(field.value(module.heads, "plan") ?? "") ?? null;
  const coats = found.coats.sort(inOrder);
  return { ...found, module, plan, coats, rooms: rooms(module, plan, coats) };
}

/** When it was laid; of one second when it was told. */
export function inOrder(one: CoatPart, other: CoatPart): number {
  return byText(one.laid, other.laid) || one.ref[0] - other.ref[0] || byText(one.id, other.id);
}

/** The seq of the entry that last gave the module a room: what a line without an answer is as new as. */
export function roomsSince(module: ModulePart, plan: PlanPart | null): number {
  const planned = plan ? [field.latestSeq(module.heads, "plan"), plan.seq] : [0];
  return Math.max(...planned, ...module.rooms.map((room) => room.seq), 0);
}

function keep(found: Found, part: Part, moduleId: string): void {
  const mine = part.module === moduleId;
  if (part.part === "module" && part.id === moduleId) found.module = part;
  else if (part.part === "coat" && mine && part.void === null) found.coats.push(part);
  else if (part.part === "coat" && mine && part.void !== null && [part.by, ...part.done_by].includes(part.void.by)) found.taken_back.push(part);
  else if (part.part === "air" && mine) found.airs.push(part);
  else if (part.part === "air" && part.module === null) found.outside.push(part);
  else if (part.part === "heat" && mine) found.heat = part;
  else if (part.part === "yard") found.yard = part;
  else if (part.part === "forecast") found.forecast = part;
  else if (part.part === "learned") found.learned = part;
}

/** The module's rooms, and any that a coat names and nobody has added. */
function rooms(module: ModulePart, plan: PlanPart | null, coats: readonly CoatPart[]): string[] {
  return [...new Set([...roomsOf(module, plan), ...coats.flatMap((coat) => coat.rooms)])];
}

function byText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
