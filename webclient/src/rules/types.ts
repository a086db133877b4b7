/** Entries, parts and holds as both sides write them. Instants are UTC whole seconds with Z, lengths whole mm. */

import type { Kind, Role } from "./vocabulary";

export type Step = string | null;

// Places -------------------------------------------------------------------------------------------------------------

export type Surface = "A" | "B" | "C" | "D" | "E" | "F" | "ceiling" | "floor" | "trim";
export interface SpotWords {
  across: "left" | "middle" | "right";
  height: "low" | "eye" | "high";
}
export interface Spot {
  room: string;
  surface: Surface;
  along?: number;
  up?: number;
  words?: SpotWords;
}
export interface Opening {
  kind: "door" | "window" | "open";
  along: number;
  up: number;
  w: number;
  h: number;
}
export interface Thing {
  name: string;
  along: number;
  up: number;
  w: number;
  h: number;
}
export interface Wall {
  sight?: string;
  openings: Opening[];
  things: Thing[];
}
export interface PlanRoom {
  id: string;
  name: string;
  l: number;
  w: number;
  h: number;
  walls: Record<string, Wall>;
}
export interface Crew {
  id: string;
  name: string;
}
export interface Finish {
  level: number;
  texture: string;
  paint: string;
  sheen: string;
}

// Photos -------------------------------------------------------------------------------------------------------------

export type PhotoMark =
  | { kind: "arrow"; from: [number, number]; to: [number, number] }
  | { kind: "ring"; at: [number, number]; r: number }
  | { kind: "text"; at: [number, number]; text: string };
export interface Marked {
  items: [item: string, x: number, y: number][];
  marks: PhotoMark[];
}
export type Shows = "before" | "after" | "wall" | "sheet" | "other";

// Sheets -------------------------------------------------------------------------------------------------------------

export type AnswerValue = "yes" | "no" | "na";
export interface Answer {
  value: AnswerValue;
  reason?: string;
  item?: string;
}

// Entries ------------------------------------------------------------------------------------------------------------

export interface ModuleFacts {
  serial: string;
  home: string;
  order: string;
  model: string;
  programme: "modular" | "hud";
  label: string;
  pickup: string;
  plan: string;
  mirrored: boolean;
  finish: Record<string, Finish>;
}
export interface YardFacts {
  name: string;
  zone: string;
  bays: string[];
  crews: Crew[];
}

/** The body of each kind; a kind that kinds.json has and this has not is a compile error. */
export interface Bodies {
  "yard.opened": YardFacts;
  "yard.amended": Partial<YardFacts>;
  "person.named": { name: string; crew?: string; roles: Role[] };
  "plan.drawn": { name: string; from?: string; rooms: PlanRoom[] };
  "room.added": { room: string; name: string };
  "module.added": Partial<ModuleFacts> & Pick<ModuleFacts, "serial" | "home">;
  "module.amended": Partial<ModuleFacts>;
  "module.moved": { bay: string };
  "module.left": { why: string };
  "item.logged": Spot & {
    defect: string;
    light: "normal" | "raking";
    wish?: string;
    crew?: string;
    charge?: string;
  };
  "item.amended": { defect?: string; wish?: string };
  "item.placed": Spot;
  "item.given": { crew?: string; charge?: string };
  "item.ticked": { steps: string[]; done_by?: string[] };
  "item.cleared": { done_by?: string[]; after?: string[]; minutes?: number };
  "item.closed": Record<string, never>;
  "item.sent_back": { reason: string; text?: string; photos?: string[] };
  "item.voided": { reason: string };
  "photo.added": Marked & {
    sha256: string;
    bytes: number;
    px: [number, number];
    shows: Shows;
    room?: string;
    surface?: Surface;
  };
  "photo.marked": Marked;
  "sheet.answered": {
    sheet: string;
    line: string;
    rooms: string[];
    rest: AnswerValue;
    reason?: string;
    except: ({ room: string } & Answer)[];
  };
  "sheet.signed": { sheet: string };
  "release.pulled_back": { release: string; reason: string };
  "release.answered": { release: string; up_to: number; reason: string };
  "phone.answered": { device: string; up_to: number; reason: string };
  "release.given": { release: string; holds_answered: unknown[]; by: string };
  "photo.arrived": { sha256: string };
  "device.enrolled": { person: string };
  "device.behind": { last_n: number; modules: string[] };
  "device.written_off": { reason: string; by: string };
  "entry.set_aside": {
    entry: string;
    sha256: string;
    reason: string;
    kind: string;
    by: string;
    device: string;
    n: number;
  };
  "entry.let_in": { entry: string; sha256: string; by: string };
  "entry.kept_out": { entry: string; sha256: string; by: string; reason: string };
  "journal.restored": { old: string; cut: number; chain: string; by: string };
}

/** What a phone writes, all keys always present. */
export interface PhoneEntry<K extends Kind = Kind> {
  id: string;
  device: string;
  n: number;
  prev: string | null;
  epoch: string;
  seen: number;
  at: string;
  by: string;
  module: string | null;
  about: string;
  kind: K;
  body: Bodies[K];
  rules: number;
}

/** What the fold needs besides: given by the server, reckoned by a phone for its pending entries. */
export interface Taken {
  seq: number;
  time: string;
  let_in: 0 | 1;
  seen_to: number;
  received_at?: string;
}
export type EntryOf<K extends Kind> = PhoneEntry<K> & Taken;
export type Entry = { [K in Kind]: EntryOf<K> }[Kind];

// Parts --------------------------------------------------------------------------------------------------------------

/** A reference to an entry; aside is 1 once it was set aside. */
export type Ref = [seq: number, device: string, n: number, aside: 0 | 1];
export type Head<V> = [value: V, ref: Ref, by: string];
/** Field -> its heads: one is decided, two with different values are not. */
export type Heads<F> = { [K in keyof F & string]?: Head<F[K]>[] };
/** Device -> [seq, n] of its latest objection; "*" -> seq of the latest that was let in. */
export type Objections = Record<string, [seq: number, n: number] | number>;

export interface Line {
  kind: string;
  by: string;
  time: string;
  no?: string;
  let_in?: 1;
  body?: object;
  ended?: string[];
  line?: string;
}
export interface Approval {
  ref: Ref;
  by: string;
  time: string;
}
export interface ItemFields {
  defect: string;
  wish: string;
  spot: Spot;
  crew: string;
  charge: string;
}
export type ItemState = "open" | "cleared" | "closed" | "void";

interface Envelope<K extends string> {
  part: K;
  id: string;
  module: string | null;
  seq: number;
}
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
  rooms: { room: string; name: string }[];
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
}
export interface YardPart extends Envelope<"yard">, YardFacts {
  epochs: { epoch: string; cut: number; time: string }[];
}
export interface DevicePart extends Envelope<"device"> {
  person: string;
  since: string;
  behind: { last_n: number; modules: string[]; seq: number; time: string } | null;
  written_off: { reason: string; by: string; time: string } | null;
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
  | SetAsidePart;
export type PartKind = Part["part"];
export type PartOf<K extends PartKind> = Extract<Part, { part: K }>;
/** The fields of a new part; the envelope comes from the entry. */
export type Fresh<K extends PartKind> = Omit<PartOf<K>, "part" | "id" | "seq" | "module"> & { module?: string | null };

// Holds --------------------------------------------------------------------------------------------------------------

export type Lifts = "crew_lead" | "inspector" | "shipping" | "manager" | "waiting";
interface Held<K extends string> {
  key: K;
  lifts: Lifts;
  seq: number;
}
/** One thing that stops release, with what its sentence needs; the sentence is `holds.<key>`. */
export type Hold =
  | Held<"no_such_module">
  | (Held<"items_open"> & { room: string; numbers: number[]; crew: string; sent_back: number[] })
  | (Held<"items_cleared"> & { room: string; numbers: number[] })
  | (Held<"fact_undecided"> & { field: string })
  | (Held<"item_undecided"> & { field: string; numbers: number[]; room: string })
  | (Held<"sheet_stale"> & { sheet: string; stale: Stale })
  | (Held<"sheet_unsigned"> & { sheet: string; unanswered: number })
  | (Held<"sheet_undecided"> & { sheet: string; cells: [line: string, room: string][] })
  | (Held<"photos_missing"> & { device: string; by: string; count: number })
  | (Held<"phone_behind"> & { device: string; by: string; since: string })
  | (Held<"entry_set_aside"> & { by: string; kind: string; reason: string; entry: string });
export type HoldKey = Hold["key"];
