/** The rules tables: data in one place, versioned; a version is added, never edited. And the form of parts. */

import defects from "../../../server/rules/data/1/defects.json";
import drying from "../../../server/rules/data/1/drying.json";
import helps from "../../../server/rules/data/1/helps.json";
import kinds from "../../../server/rules/data/1/kinds.json";
import learned from "../../../server/rules/data/1/learned.json";
import marks from "../../../server/rules/data/1/marks.json";
import reasons from "../../../server/rules/data/1/reasons.json";
import roles from "../../../server/rules/data/1/roles.json";
import schedule from "../../../server/rules/data/1/schedule.json";
import sheets from "../../../server/rules/data/1/sheets.json";
import { form } from "../../../server/rules/data/form.json";

export type Kind = keyof typeof kinds;
/** The surfaces of a room that something may be written up on. */
export type Surface = "A" | "B" | "C" | "D" | "E" | "F" | "ceiling" | "floor" | "trim";
export type DefectKey = keyof typeof defects;
export type SheetKey = keyof typeof sheets;
export type Material = keyof typeof drying.materials;
export type Thickness = keyof typeof drying.thickness;
export type CoatKey = keyof typeof schedule.coats;
export type Family = "joint" | "texture" | "primer" | "paint";
export type Role = keyof typeof roles;

export interface KindRow {
  who: string[];
  part: string;
  body: Record<string, string>;
  says?: "approval" | "objection";
  server?: boolean;
}
export interface DefectRow {
  steps: string[];
  photo_after?: boolean;
}
export interface SheetRow {
  sign: string[];
  answer: string[];
  lines: Record<string, { by_room: boolean; defect: string }>;
  stale_by: Record<string, { defects?: string[] }>;
}
export interface CoatRow {
  family: Family;
  material: Material;
  thickness?: Thickness;
}
export interface Schedule {
  coats: Record<CoatKey, CoatRow>;
  order: CoatKey[];
  levels: Record<string, CoatKey[]>;
  smooth: string[];
  steps: Record<string, CoatKey>;
  after_set: Family[];
  cover_early: Role[];
  tries: string[];
}
export interface Tables {
  defects: Record<string, DefectRow>;
  drying: typeof drying;
  helps: typeof helps;
  kinds: Record<string, KindRow>;
  learned: typeof learned;
  marks: typeof marks;
  reasons: Record<string, string[]>;
  roles: Record<string, object>;
  schedule: Schedule;
  sheets: Record<string, SheetRow>;
}

export const CURRENT = 1;
/** The form of the parts that this program folds: raised whenever what the fold makes of the same entries changes, so that
 * servers fold anew and phones fetch anew what they keep. `python3 -m tests.rules.record_form` does it. */
export const FORM: number = form;
const VERSIONS = new Map<number, Tables>([
  [1, {
    defects, drying, helps, kinds: kinds as Record<string, KindRow>, learned, marks, reasons, roles,
    schedule: schedule as Schedule, sheets,
  }],
]);

/** All tables of one version by file name; RangeError when this program does not know the version. */
export function tables(version: number): Tables {
  const found = VERSIONS.get(version);
  if (found === undefined) throw new RangeError(`rules version ${version}`);
  return found;
}
