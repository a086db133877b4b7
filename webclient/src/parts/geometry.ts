/**
 * Where things are, as pure arithmetic in millimetres: a room unfolded round its floor, and a spot on a surface.
 *
 * A spot is `along` from the left as one faces the surface and `up` from its foot. Ceiling and floor: `along` as wall A,
 * `up` is the distance from wall A. A mirrored plan swaps B and D and turns every wall round; spots stay as they were measured.
 */

import type { Opening, PlanRoom, Surface, Thing, Wall } from "../rules";

export type { Opening, Surface, Thing };
export type Letter = "A" | "B" | "C" | "D";
/** A room of a plan: `l` along walls A and C, `w` along B and D, `h` high. A plan from a script may leave walls out. */
export type RoomPlan = Pick<PlanRoom, "l" | "w" | "h" | "walls">;
export const LETTERS: readonly Letter[] = ["A", "B", "C", "D"];
/** The surfaces that one comes to, walking a room; and all that something may be written up on. */
export const WALK: readonly Surface[] = [...LETTERS, "ceiling", "floor", "trim"];
export const SURFACES: readonly Surface[] = [...LETTERS, "E", "F", "ceiling", "floor", "trim"];

export interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}
export interface Point {
  x: number;
  y: number;
}
export interface Spot {
  along: number;
  up: number;
}
/** One surface as one faces it. */
export interface Face {
  surface: Surface;
  sight: string;
  length: number;
  height: number;
  openings: readonly Opening[];
  things: readonly Thing[];
}
/** One surface laid out on the sheet: its box, and what is on it as boxes of the same sheet. */
export interface Laid extends Face {
  box: Box;
  openingBoxes: readonly (Box & { kind: Opening["kind"] })[];
  thingBoxes: readonly (Box & { name: string })[];
}
export interface Unfolded {
  width: number;
  height: number;
  faces: readonly Laid[];
}

const SWAPPED: Record<Letter, Letter> = { A: "A", B: "D", C: "C", D: "B" };

function lengthOf(room: RoomPlan, letter: Letter): number {
  return letter === "A" || letter === "C" ? room.l : room.w;
}

function turnedRound(wall: Wall, length: number): Wall {
  const turn = <T extends Spot & { w: number }>(thing: T): T => ({ ...thing, along: length - thing.along - thing.w });
  return { ...wall, openings: wall.openings.map(turn), things: wall.things.map(turn) };
}

/** The same room seen in a mirror. Mirrored twice it is the room again. */
export function mirror(room: RoomPlan): RoomPlan {
  const walls = LETTERS.flatMap((letter): [Letter, Wall][] => {
    const wall = room.walls[SWAPPED[letter]];
    return wall ? [[letter, turnedRound(wall, lengthOf(room, letter))]] : [];
  });
  return { ...room, walls: Object.fromEntries(walls) };
}

/** One surface of a room as one faces it; null where the plan has no such surface to draw. */
export function faceOf(room: RoomPlan, surface: Surface, mirrored = false): Face | null {
  const seen = mirrored ? mirror(room) : room;
  if (surface === "ceiling" || surface === "floor") {
    return { surface, sight: "", length: room.l, height: room.w, openings: [], things: [] };
  }
  if (surface === "E" || surface === "F" || surface === "trim") return null;
  const wall = seen.walls[surface];
  if (!wall) return null;
  return {
    surface,
    sight: wall.sight ?? "",
    length: lengthOf(room, surface),
    height: room.h,
    openings: wall.openings,
    things: wall.things,
  };
}

/** Where each surface lies on the sheet: the floor in the middle, A above it, B right, C below, D left, the ceiling on A. */
function boxOf(room: RoomPlan, surface: Surface): Box {
  const left = room.h;
  const top = room.w + room.h;
  switch (surface) {
    case "ceiling":
      return { x: left, y: 0, w: room.l, h: room.w };
    case "A":
      return { x: left, y: room.w, w: room.l, h: room.h };
    case "B":
      return { x: left + room.l, y: top, w: room.h, h: room.w };
    case "C":
      return { x: left, y: top + room.w, w: room.l, h: room.h };
    case "D":
      return { x: 0, y: top, w: room.h, h: room.w };
    default:
      return { x: left, y: top, w: room.l, h: room.w };
  }
}

/** Spot on a surface to a point of the sheet. The fold line of every wall is its foot. */
export function onSheet(box: Box, surface: Surface, spot: Spot): Point {
  switch (surface) {
    case "B":
      return { x: box.x + spot.up, y: box.y + spot.along };
    case "C":
      return { x: box.x + box.w - spot.along, y: box.y + spot.up };
    case "D":
      return { x: box.x + box.w - spot.up, y: box.y + box.h - spot.along };
    case "floor":
      return { x: box.x + spot.along, y: box.y + spot.up };
    default:
      return { x: box.x + spot.along, y: box.y + box.h - spot.up };
  }
}

function between(a: Point, b: Point): Box {
  return { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y), w: Math.abs(a.x - b.x), h: Math.abs(a.y - b.y) };
}

function lay(room: RoomPlan, face: Face): Laid {
  const box = boxOf(room, face.surface);
  const laid = (thing: Spot & { w: number; h: number }): Box =>
    between(
      onSheet(box, face.surface, thing),
      onSheet(box, face.surface, { along: thing.along + thing.w, up: thing.up + thing.h }),
    );
  return {
    ...face,
    box,
    openingBoxes: face.openings.map((opening) => ({ ...laid(opening), kind: opening.kind })),
    thingBoxes: face.things.map((thing) => ({ ...laid(thing), name: thing.name })),
  };
}

/** A room laid out flat, in millimetres of one sheet. Order: ceiling, A, B, C, D, floor. */
export function unfold(room: RoomPlan, mirrored = false): Unfolded {
  const order: Surface[] = ["ceiling", ...LETTERS, "floor"];
  const faces = order.flatMap((surface) => {
    const face = faceOf(room, surface, mirrored);
    return face ? [lay(room, face)] : [];
  });
  return { width: room.l + 2 * room.h, height: 2 * room.w + 2 * room.h, faces };
}

/** Where one comes in: the middle of the first door or open side, on wall C if it has one. Null where no door is drawn. */
export function wayIn(sheet: Unfolded): { surface: Letter; at: Point } | null {
  for (const letter of ["C", "B", "D", "A"] as const) {
    const face = sheet.faces.find((one) => one.surface === letter);
    const door = face?.openings.find((opening) => opening.kind !== "window" && opening.up === 0);
    if (!face || !door) continue;
    return { surface: letter, at: onSheet(face.box, letter, { along: door.along + door.w / 2, up: face.height }) };
  }
  return null;
}

export type Across = "left" | "middle" | "right";
export type Height = "low" | "eye" | "high";
/** A spot in words, where nobody has measured. */
export interface WordSpot {
  across: Across;
  height: Height;
}

const ACROSS: Record<Across, number> = { left: 1 / 6, middle: 1 / 2, right: 5 / 6 };
const HEIGHT: Record<Height, number> = { low: 1 / 6, eye: 5 / 8, high: 7 / 8 };

/** Where to draw a spot that was given in words, on a face that has since been measured. */
export function roughly(face: Face, words: WordSpot): Spot {
  return { along: Math.round(face.length * ACROSS[words.across]), up: Math.round(face.height * HEIGHT[words.height]) };
}
