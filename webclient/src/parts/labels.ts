/** Numbers beside marks, placed so that none lies on another: a number nobody can read is worse than one a little further off. */
import type { Box, Point } from "./geometry";

export interface Labelled extends Point {
  id: string;
  text: string;
  /** Placed first when smaller: what must be read comes before what is quiet. */
  rank: number;
  /** Side of this mark where it is smaller than the others. */
  side?: number;
}
export interface Placed extends Labelled {
  /** Where the number stands; null where no free place was found and it may be left out. */
  label: Box | null;
  /** The number stands away from its mark: draw a line to it. */
  far: boolean;
}
export interface Space {
  bounds: Box;
  /** Side of a mark, in the same pixels. */
  mark: number;
  /** Width of one figure and height of a line. */
  figure: number;
  line: number;
  /** What the numbers must keep off: names of walls, for instance. */
  taken?: readonly Box[];
  /** Leave a number out rather than put it far off or on top of another. */
  mayLeaveOut?: boolean;
}

export function overlap(a: Box, b: Box): number {
  const wide = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const high = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return wide > 0 && high > 0 ? wide * high : 0;
}

function outside(box: Box, bounds: Box): number {
  return box.w * box.h - overlap(box, bounds);
}

/** Places to try, nearest first: right, left, above, below, the corners, then the same further away. */
function places(at: Point, w: number, h: number, mark: number, far: boolean): { box: Box; far: boolean }[] {
  const tried: { box: Box; far: boolean }[] = [];
  for (const [ring, reach] of [mark / 2 + 2, ...(far ? [mark + 8, mark * 1.8 + 12] : [])].entries()) {
    const right = at.x + reach;
    const left = at.x - reach - w;
    const middle = at.y - h / 2;
    const above = at.y - reach - h;
    const below = at.y + reach;
    const centre = at.x - w / 2;
    const corners = ring === 0 ? [] : [[right, above], [right, below], [left, above], [left, below]];
    for (const [x, y] of [[right, middle], [left, middle], [centre, above], [centre, below], ...corners]) {
      tried.push({ box: { x: x ?? 0, y: y ?? 0, w, h }, far: ring > 0 });
    }
  }
  return tried;
}

/** Gives each mark's number a box. Same input, same answer; the order of the answer is that of the input. */
export function placeLabels(marks: readonly Labelled[], space: Space): Placed[] {
  const side = (mark: Labelled): number => mark.side ?? space.mark;
  const spots = marks.map((mark) => ({ x: mark.x - side(mark) / 2, y: mark.y - side(mark) / 2, w: side(mark), h: side(mark) }));
  const used: Box[] = [...(space.taken ?? [])];
  const found = new Map<string, { label: Box | null; far: boolean }>();
  const order = marks.map((mark, index) => ({ mark, index })).sort((a, b) => a.mark.rank - b.mark.rank || a.index - b.index);
  for (const { mark, index } of order) {
    const others = spots.filter((_, other) => other !== index);
    const cost = (box: Box): number =>
      [...others, ...used].reduce((sum, other) => sum + overlap(box, other), 0) + 4 * outside(box, space.bounds);
    const tried = places(mark, mark.text.length * space.figure + 2, space.line, side(mark), !space.mayLeaveOut);
    const best = tried.reduce<{ place: (typeof tried)[number]; cost: number } | null>((kept, place) => {
      const price = cost(place.box);
      return kept === null || price < kept.cost - 0.01 ? { place, cost: price } : kept;
    }, null);
    const label = best && (best.cost < 0.5 || !space.mayLeaveOut) ? best.place.box : null;
    if (label) used.push(label);
    found.set(mark.id, { label, far: label !== null && (best?.place.far ?? false) });
  }
  return marks.map((mark) => ({ ...mark, ...(found.get(mark.id) ?? { label: null, far: false }) }));
}
