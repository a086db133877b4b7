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

const LINE = 20;
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
  return { w: Math.min(long, box.w), h: Math.min(lines * LINE + 2, box.h) };
}

function inCorner(corner: Corner, box: Box, size: { w: number; h: number }): Box {
  const x = corner.endsWith("right") ? box.x + box.w - size.w : box.x;
  const y = corner.startsWith("bottom") ? box.y + box.h - size.h : box.y;
  return { x, y, ...size };
}

/** Both `box` and `drawnBoxes` (openings, things) and the marks in the same pixels. */
export function placeName(face: Laid, box: Box, drawnBoxes: readonly Box[], marks: readonly Point[], mark: number): Named {
  const whole = sizeOf(face.surface, face.sight, box);
  const fits = whole.h <= LINE + 2 || box.h >= 3 * LINE;
  const sight = fits ? face.sight : "";
  const size = fits ? whole : sizeOf(face.surface, "", box);
  const taken = marks.map((at) => ({ x: at.x - mark / 2, y: at.y - mark / 2, w: mark * 2, h: mark }));
  let best: (Named & { cost: number }) | null = null;
  for (const corner of ORDER[face.surface] ?? USUAL) {
    const at = inCorner(corner, box, size);
    const cost = taken.reduce((sum, one) => sum + 2 * overlap(one, at), 0) + drawnBoxes.reduce((sum, one) => sum + overlap(one, at) / 2, 0);
    if (best === null || cost < best.cost - 1) best = { corner, box: at, sight, cost };
  }
  return best ?? { corner: "top left", box: inCorner("top left", box, size), sight };
}
