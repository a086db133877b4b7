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

interface Place {
  box: Box;
  far: boolean;
}

/** Places to try, nearest first: right, left, above, below, close corners; then the same further away. */
function places(at: Point, w: number, h: number, mark: number, far: boolean): Place[] {
  const tried: Place[] = [];
  for (const [ring, reach] of [mark / 2 + 2, ...(far ? [mark + 8, mark * 1.8 + 12] : [])].entries()) {
    const corner = ring === 0 ? reach * 0.6 : reach;
    const beside = { right: at.x + reach, left: at.x - reach - w, above: at.y - reach - h, below: at.y + reach };
    const round = { right: at.x + corner, left: at.x - corner - w, above: at.y - corner - h, below: at.y + corner };
    const middle = at.y - h / 2;
    const centre = at.x - w / 2;
    const found = [
      [beside.right, middle], [beside.left, middle], [centre, beside.above], [centre, beside.below],
      [round.right, round.above], [round.right, round.below], [round.left, round.above], [round.left, round.below],
    ];
    for (const [x, y] of found) tried.push({ box: { x: x ?? 0, y: y ?? 0, w, h }, far: ring > 0 });
  }
  return tried;
}

/** How often the line from a mark to a far number runs over what is in the way. */
function crossed(from: Point, to: Box, inTheWay: readonly Box[]): number {
  const steps = [0.25, 0.4, 0.55, 0.7];
  const end = { x: to.x + to.w / 2, y: to.y + to.h / 2 };
  const dots = steps.map((share) => ({ x: from.x + (end.x - from.x) * share - 1, y: from.y + (end.y - from.y) * share - 1, w: 2, h: 2 }));
  return dots.filter((dot) => inTheWay.some((box) => overlap(dot, box) > 0)).length;
}

const SWEEPS = 3;

/** Gives each mark's number a box. Same input, same answer; the order of the answer is that of the input. */
export function placeLabels(marks: readonly Labelled[], space: Space): Placed[] {
  const side = (mark: Labelled): number => mark.side ?? space.mark;
  const spots = marks.map((mark) => ({ x: mark.x - side(mark) / 2, y: mark.y - side(mark) / 2, w: side(mark), h: side(mark) }));
  const chosen = new Map<number, Place & { cost: number }>();
  const order = marks.map((mark, index) => ({ mark, index })).sort((a, b) => a.mark.rank - b.mark.rank || a.index - b.index);

  const choose = (mark: Labelled, index: number): void => {
    const numbers = [...chosen].flatMap(([other, place]) => (other === index || hidden(place, space) ? [] : [place.box]));
    const inTheWay = [...spots.filter((_, other) => other !== index), ...numbers, ...(space.taken ?? [])];
    const tried = places(mark, mark.text.length * space.figure + 2, space.line, side(mark), !space.mayLeaveOut);
    const priced = tried.map((place, nth) => {
      const covers = inTheWay.reduce((sum, other) => sum + overlap(place.box, other), 0) + 4 * outside(place.box, space.bounds);
      const line = place.far ? 20 + 60 * crossed(mark, place.box, inTheWay) : 0;
      return { ...place, cost: covers + line, rank: covers + line + nth * 0.05 };
    });
    const best = priced.reduce((kept, place) => (place.rank < kept.rank ? place : kept));
    chosen.set(index, best);
  };
  // A number placed early may take the only place of a later one: go round again with all of them known.
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) for (const { mark, index } of order) choose(mark, index);

  return marks.map((mark, index) => {
    const place = chosen.get(index);
    const label = place && !hidden(place, space) ? place.box : null;
    return { ...mark, label, far: label !== null && (place?.far ?? false) };
  });
}

/** In a small drawing a number that would cover something is left out. */
function hidden(place: { cost: number }, space: Space): boolean {
  return Boolean(space.mayLeaveOut) && place.cost >= 0.5;
}
