/** Coats, readings, heat, forecast and what was learned, as parts, and the holds of coats. Instants are UTC whole seconds with Z. */

import type { AirSource, CoatSurface, Factors, Meter, Night, Paint, Unvented } from "./coat_entries";
import type { Flag } from "./drying";
import type { Approval, Envelope, Held, Line, Objections, Ref } from "./envelope";
import type { CoatKey, Material, Thickness } from "./vocabulary";

/** The look that says wet and governs; `time` is when somebody looked. */
export interface WetLook {
  by: string;
  time: string;
  text?: string;
  meter?: Meter;
}
/** `told`: when it was written, where that is later than the time of looking. */
export interface DryLook extends Approval {
  told?: string;
  tried: string[];
  reason: string | null;
  meter?: Meter;
}
/** One room of a coat. `restart`: when it was last sanded wet. */
export interface CoatCell {
  objections: Objections;
  wet: WetLook | null;
  dry: DryLook | null;
  restart: string | null;
}
export interface CoatPart extends Envelope<"coat"> {
  /** Of its laying. */
  ref: Ref;
  coat: CoatKey;
  rooms: string[];
  surface: CoatSurface | null;
  material: Material;
  thickness: Thickness;
  set_minutes: number | null;
  label_minutes: number | null;
  paint: Paint | null;
  laid: string;
  by: string;
  done_by: string[];
  time: string;
  /** 1 where the phone's clock was far off, or the entry was let in; of a wet sanding too. */
  unsure: 0 | 1;
  early: string | null;
  over: string[];
  items: string[];
  covered_by: string[];
  cells: Record<string, CoatCell>;
  objections: Objections;
  /** `seen`: up to where its author had seen. */
  answer: (Approval & { reason: string; seen: number }) | null;
  void: (Approval & { reason: string }) | null;
  since: number;
  lines: Line[];
}
/** Seconds since 1970, tenths °C, per cent, drying.rate, tenths °C. */
export type AirRow = [
  time: number, temp: number, rh: number, rate: number, surface: number | null, source: AirSource, by: string,
  name: string | null,
];
export type Struck = [time: number, temp: number, rh: number, surface: number | null];
/** One day (UTC) of one stream of readings. */
export interface AirPart extends Envelope<"air"> {
  stream: string;
  where: "room" | "module" | "yard";
  room: string | null;
  day: string;
  rows: AirRow[];
  /** What was taken back: no logger and no sensor says it again. */
  struck?: Struck[];
}
export interface HeatWord {
  on: boolean;
  since: string | null;
  to: number | null;
  time: string;
}
export interface HeatPart extends Envelope<"heat"> {
  on: boolean;
  since: string | null;
  to: number | null;
  /** Each that was said, by when it was said: the latest is the part's own. */
  words?: HeatWord[];
  unvented: Unvented | null;
  by: string;
  time: string;
}
export interface ForecastPart extends Envelope<"forecast"> {
  nights: (Night & { by: string; time: string; source: "typed" | "hourly" })[];
}
export interface LearnedPart extends Envelope<"learned"> {
  factors: Factors;
  time: string;
  /** By material each change of its percent, by when it was said. */
  was?: Record<string, [time: string, percent: number, looks: number][]>;
}

// Holds --------------------------------------------------------------------------------------------------------------

/** What speaks about whose air it is; and all that a clock may have to say of its times. */
export type AirFlag = "outside" | "heated";
export type ClockFlag = Flag | AirFlag | "stale" | "clock_unsure";
type OfCoat = { id: string; coat: CoatKey; rooms: string[] };
/** `likely` and `by_table`: instants, null when not in this air. `under`: the coats that were not ready. */
export type CoatHold =
  | (Held<"coat_missing"> & { coat: CoatKey; rooms: string[] })
  | (Held<"coat_wet"> & OfCoat & { surface?: CoatSurface; likely: string | null; by_table: string | null; flags: ClockFlag[] })
  | (Held<"coat_look"> & OfCoat & { surface?: CoatSurface; why: "not_dry" | "unsure"; flags: ClockFlag[] })
  | (Held<"coat_early"> & OfCoat & { under: string[]; reason: string | null; by: string });
