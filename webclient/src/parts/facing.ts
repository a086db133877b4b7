/** Facing a surface: which length of it is on the screen, and spot to screen and back. Pure; the screen side is in pixels. */
import type { Face, Point, Spot } from "./geometry";
import { FOOT } from "./lengths";

/** A wall longer than this is faced in lengths. */
export const WHOLE = Math.round(12 * FOOT);
export const LENGTH = Math.round(8 * FOOT);

/** What of a face is shown: from `from` to `to` along it, in millimetres. */
export interface Stretch {
  from: number;
  to: number;
}

/** The lengths in which a face is walked, left to right; the last one ends at the end of the wall. */
export function stretches(length: number): Stretch[] {
  if (length <= WHOLE) return [{ from: 0, to: length }];
  const walked: Stretch[] = [];
  for (let from = 0; from + LENGTH < length; from += LENGTH) walked.push({ from, to: from + LENGTH });
  walked.push({ from: length - LENGTH, to: length });
  return walked;
}

/** The stretch to show for a spot: the first that holds it. */
export function stretchWith(walked: readonly Stretch[], along: number): number {
  const found = walked.findIndex((stretch) => along >= stretch.from && along <= stretch.to);
  return found < 0 ? 0 : found;
}

/** How the shown stretch stands on the screen. */
export interface Standing {
  scale: number;
  width: number;
  height: number;
  from: number;
  /** The floor is drawn as it lies on the sheet: wall A at the top, `up` goes down. */
  down: boolean;
}

export function stand(face: Face, stretch: Stretch, wide: number, high: number): Standing {
  const long = Math.max(1, stretch.to - stretch.from);
  const scale = Math.min(wide / long, high / Math.max(1, face.height));
  return { scale, width: long * scale, height: face.height * scale, from: stretch.from, down: face.surface === "floor" };
}

export function toScreen(standing: Standing, spot: Spot): Point {
  const up = spot.up * standing.scale;
  return { x: (spot.along - standing.from) * standing.scale, y: standing.down ? up : standing.height - up };
}

/** A point of the screen to whole millimetres, kept on the face. */
export function toSpot(standing: Standing, face: Face, at: Point): Spot {
  const up = (standing.down ? at.y : standing.height - at.y) / standing.scale;
  return kept(face, { along: standing.from + at.x / standing.scale, up });
}

/** Whole millimetres, never off the face. */
export function kept(face: Face, spot: Spot): Spot {
  const within = (value: number, most: number): number => Math.round(Math.min(Math.max(value, 0), most));
  return { along: within(spot.along, face.length), up: within(spot.up, face.height) };
}

/** The feet to write along the foot: every foot, or every second one where they would stand too close. */
export function feet(standing: Standing, stretch: Stretch): { foot: number; x: number }[] {
  const every = standing.scale * FOOT >= 26 ? 1 : standing.scale * FOOT >= 13 ? 2 : 5;
  const marks: { foot: number; x: number }[] = [];
  for (let foot = Math.floor(stretch.from / FOOT) + 1; foot * FOOT < stretch.to - 60; foot += 1) {
    if (foot % every === 0) marks.push({ foot, x: (foot * FOOT - stretch.from) * standing.scale });
  }
  return marks;
}
