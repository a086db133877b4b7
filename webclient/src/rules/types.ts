/** Parts and holds as both sides write them. Instants are UTC whole seconds with Z. */

import type { AirPart, CoatHold, CoatPart, ForecastPart, HeatPart, LearnedPart } from "./coat_parts";
import type { Answer, Bodies, Marked, ModuleFacts, PlanRoom, Shows, Spot, Surface, YardFacts } from "./entries";
import type { Approval, Envelope, Heads, Held, Line, Objections } from "./envelope";
import type { Role } from "./vocabulary";

export type * from "./coat_parts";
export type * from "./entries";
export type * from "./envelope";

// Parts --------------------------------------------------------------------------------------------------------------

export interface ItemFields {
  defect: string;
  wish: string;
  spot: Spot;
  crew: string;
  charge: string;
}
export type ItemState = "open" | "cleared" | "closed" | "void";

export interface ItemPart extends Envelope<"item"> {
  number: number;
  state: ItemState;
  heads: Heads<ItemFields>;
  light: "normal" | "raking";
  by: string;
  time: string;
  ticks: string[];
  sent_backs: number;
  sent_back: (Bodies["item.sent_back"] & { by: string; time: string }) | null;
  objections: Objections;
  clears: Approval[];
  close: Approval | null;
  void: (Approval & { reason: string }) | null;
  hands: string[];
  since: number;
  lines: Line[];
}
export interface PhotoPart extends Envelope<"photo"> {
  sha256: string;
  bytes: number;
  px: [number, number];
  shows: Shows;
  room?: string;
  surface?: Surface;
  heads: Heads<{ marked: Marked }>;
  device: string;
  by: string;
  time: string;
  arrived: boolean;
  since: number;
}
export interface Release {
  id: string;
  by: string;
  time: string;
  seq: number;
  holds_answered: unknown[];
}
export interface Answered {
  up_to: number;
  reason: string;
  by: string;
  time: string;
}
export interface ModulePart extends Envelope<"module"> {
  heads: Heads<ModuleFacts & { bay: string }>;
  rooms: { room: string; name: string; seq: number }[];
  last_number: number;
  left: { seq: number; why: string; time: string } | null;
  release: Release | null;
  releases: (Release & { pulled_back: { by: string; time: string; reason: string } })[];
  answers: (Answered & { release: string })[];
  phone_answers: Record<string, Answered>;
  lines: Line[];
}
/** Line -> room -> its answers. */
export type Cells = Record<string, Heads<Record<string, Answer>>>;
export interface Stale {
  kind: string;
  by: string;
  time: string;
  line?: string;
  room?: string;
  number?: number;
}
export interface SheetPart extends Envelope<"sheet"> {
  sheet: string;
  cells: Cells;
  objections: Objections;
  sign: Approval | null;
  stale: Stale | null;
  since: number;
  lines: Line[];
}
export interface PersonPart extends Envelope<"person"> {
  name: string;
  crew: string | null;
  roles: Role[];
}
export interface PlanPart extends Envelope<"plan"> {
  name: string;
  rooms: PlanRoom[];
  from: string | null;
  heads: Heads<{ rooms: PlanRoom[] }>;
}
export interface YardPart extends Envelope<"yard">, YardFacts {
  epochs: { epoch: string; cut: number; time: string }[];
}
export interface DevicePart extends Envelope<"device"> {
  person: string;
  since: string;
  behind: { last_n: number; modules: string[]; seq: number; time: string } | null;
  written_off: { reason: string; by: string; time: string; seq: number } | null;
  /** Up to which entry its photos were written off before it was heard from again; 0 when it never was. */
  written_off_to: number;
}
export interface SetAsidePart extends Envelope<"set_aside"> {
  kind: string;
  by: string;
  device: string;
  n: number;
  reason: string;
  sha256: string;
  time: string;
  state: "waiting" | "let_in" | "kept_out";
}
export type Part =
  | ItemPart
  | PhotoPart
  | ModulePart
  | SheetPart
  | PersonPart
  | PlanPart
  | YardPart
  | DevicePart
  | SetAsidePart
  | CoatPart
  | AirPart
  | HeatPart
  | ForecastPart
  | LearnedPart;
export type PartKind = Part["part"];
export type PartOf<K extends PartKind> = Extract<Part, { part: K }>;
/** The fields of a new part; the envelope comes from the entry. */
export type Fresh<K extends PartKind> = Omit<PartOf<K>, "part" | "id" | "seq" | "module"> & { module?: string | null };

// Holds --------------------------------------------------------------------------------------------------------------

/** One thing that stops release, with what its sentence needs; the sentence is `holds.<key>`. */
export type Hold =
  | Held<"no_such_module">
  | (Held<"items_open"> & { room: string; numbers: number[]; crew: string; sent_back: number[] })
  | (Held<"items_cleared"> & { room: string; numbers: number[] })
  | (Held<"fact_undecided"> & { field: string })
  | (Held<"plan_undecided"> & { plan: string })
  | (Held<"item_undecided"> & { field: string; numbers: number[]; room: string })
  | (Held<"sheet_stale"> & { sheet: string; stale: Stale })
  | (Held<"sheet_unsigned"> & { sheet: string; unanswered: number })
  | (Held<"sheet_undecided"> & { sheet: string; cells: [line: string, room: string][] })
  | (Held<"photos_missing"> & { device: string; by: string; count: number })
  | (Held<"phone_behind"> & { device: string; by: string; since: string })
  | CoatHold
  | (Held<"entry_set_aside"> & { by: string; kind: string; reason: string; entry: string });
