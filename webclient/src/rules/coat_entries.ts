/** What the kinds about coats and air say. Temperatures are whole tenths of a degree Celsius, RH whole per cent. */

import type { CoatKey, Family, Material, Surface, Thickness } from "./vocabulary";

export type CoatSurface = Exclude<Surface, "floor" | "trim">;
/** What can be read off its can, and where the can for touch-up is. */
export interface Paint {
  product?: string;
  colour?: string;
  batch?: string;
  can?: string;
}
/** Tenths of a per cent on its own scale. */
export interface Meter {
  scale: "gypsum" | "wood";
  value: number;
}
/** The plant's own words and order for its coats, which crew does which, and whether its own factor counts. */
export interface YardCoats {
  order?: CoatKey[];
  names?: { [K in CoatKey]?: string };
  crews?: { [K in Family]?: string };
  learned?: boolean;
}
export interface Aired {
  where: "room" | "module" | "yard";
  room?: string;
}
export type AirSource = "hand" | "logger" | "sensor";
/** Air and surface in tenths of a degree Celsius, RH in per cent. */
export type ReadingRow = [at: string | null, temp: number, rh: number, surface: number | null];
export type Unvented = "propane" | "natural_gas";
/** The lowest air between two instants. */
export interface Night {
  from: string;
  to: string;
  low: number;
}
export type Factors = { [K in Material]?: { percent: number; looks: number } };

export interface CoatBodies {
  "coat.laid": {
    coat: CoatKey;
    rooms: string[];
    surface?: CoatSurface;
    material: Material;
    thickness?: Thickness;
    set_minutes?: number;
    label_minutes?: number;
    paint?: Paint;
    laid_at?: string;
    done_by?: string[];
    over?: string[];
    items?: string[];
    early?: string;
  };
  "coat.found_wet": { rooms: string[]; text?: string; meter?: Meter; looked_at?: string };
  "coat.found_dry": { rooms: string[]; tried?: string[]; reason?: string; meter?: Meter; looked_at?: string };
  "coat.wet_sanded": { rooms: string[]; done_by?: string[]; sanded_at?: string };
  "coat.answered": { reason: string };
  "coat.voided": { reason: string };
  "reading.taken": Aired & { source: AirSource; name?: string; rows: ReadingRow[] };
  "reading.struck": Aired & { at: string[] };
  "heat.told": { on: boolean; since?: string; to?: number; unvented?: Unvented };
  "forecast.told": { nights: Night[]; source: "typed" | "hourly" };
  "drying.learned": { factors: Factors };
}
