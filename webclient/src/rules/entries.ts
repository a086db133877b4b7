/** Entries as both sides write them: what each kind says. Lengths are whole mm, pixels those of the stored photo. */

import type { CoatBodies, YardCoats } from "./coat_entries";
import type { CoatKey, Kind, Role, Surface } from "./vocabulary";

export type * from "./coat_entries";
export type { Surface } from "./vocabulary";

// Places -------------------------------------------------------------------------------------------------------------

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
  /** Room, or "*" for the rest -> its coats in order, instead of what its finish asks for. */
  coats: Record<string, CoatKey[]>;
}
export interface YardFacts {
  name: string;
  zone: string;
  bays: string[];
  crews: Crew[];
  coats?: YardCoats;
}

/** The body of each kind; a kind that kinds.json has and this has not is a compile error. */
export interface Bodies extends CoatBodies {
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
