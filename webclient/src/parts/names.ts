/** Where the name of a surface stands in its box: in the corner where it hides least, its own corner when all are free. Pure. */
import type { Box, Laid, Point, Surface } from "./geometry";
import { overlap } from "./labels";

export type Corner = "top left" | "top right" | "bottom left" | "bottom right";
export interface Named {
  corner: Corner;
  box: Box;
  /** What stands there: the letter alone where its name by sight does not fit. */
  sight: string;
}

const LINE = 19;
/** Less than this of a mark may lie under a name, in square pixels: the letters stand inside their line. */
const LITTLE = 60;
const ORDER: Record<string, readonly Corner[]> = {
  B: ["top right", "bottom right", "top left", "bottom left"],
  C: ["bottom left", "bottom right", "top left", "top right"],
};
const USUAL: readonly Corner[] = ["top left", "bottom left", "top right", "bottom right"];

/** Roughly the room that a name needs: letter and sight, wrapped where the box is narrow. */
function sizeOf(surface: Surface, sight: string, box: Box): { w: number; h: number } {
  const words = surface.length === 1 ? `${surface} ${sight}` : surface;
  const long = words.length * 8 + 10;
  const lines = Math.min(3, Math.ceil(long / Math.max(40, box.w - 8)));
  return { w: Math.min(long, box.w), h: Math.min(lines * LINE, box.h) };
}

function inCorner(corner: Corner, box: Box, size: { w: number; h: number }): Box {
  const x = corner.endsWith("right") ? box.x + box.w - size.w : box.x;
  const y = corner.startsWith("bottom") ? box.y + box.h - size.h : box.y;
  return { x, y, ...size };
}

interface Tried extends Named {
  /** How much of a mark it would hide, and that and how much it lies on lines. */
  hides: number;
  cost: number;
}

function best(face: Laid, box: Box, sight: string, lines: readonly Box[], marks: readonly Box[]): Tried {
  const size = sizeOf(face.surface, sight, box);
  const tried = (ORDER[face.surface] ?? USUAL).map((corner): Tried => {
    const at = inCorner(corner, box, size);
    const hides = marks.reduce((sum, one) => sum + overlap(one, at), 0);
    return { corner, box: at, sight, hides, cost: 2 * hides + lines.reduce((sum, one) => sum + overlap(one, at) / 2, 0) };
  });
  return tried.reduce((kept, one) => (one.cost < kept.cost - 1 ? one : kept));
}

/** `box`, `lines` (openings, things) and marks in the same pixels. The name by sight goes only where it hides no mark. */
export function placeName(face: Laid, box: Box, lines: readonly Box[], marks: readonly Point[], mark: number): Named {
  const taken = marks.map((at) => ({ x: at.x - mark / 2, y: at.y - mark / 2, w: mark, h: mark }));
  const whole = best(face, box, face.sight, lines, taken);
  const fits = whole.box.h <= LINE || box.h >= 3 * LINE;
  if (fits && whole.hides < LITTLE) return whole;
  const short = best(face, box, "", lines, taken);
  return fits && short.hides >= whole.hides ? whole : short;
}
