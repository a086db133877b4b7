import { describe, expect, it } from "vitest";
import { unfold, type Laid } from "../../webclient/src/parts/geometry";
import { overlap, placeLabels, type Labelled } from "../../webclient/src/parts/labels";
import { placeName } from "../../webclient/src/parts/names";
import type { Wall } from "../../webclient/src/rules";

const blank = (sight: string): Wall => ({ sight, openings: [], things: [] });
const space = { bounds: { x: 0, y: 0, w: 358, h: 300 }, mark: 24, figure: 10.5, line: 20 };

function nicks(count: number, across: number, step: number): Labelled[] {
  return Array.from({ length: count }, (_, n) => ({
    id: `n${n}`,
    text: String(20 + n),
    rank: 1,
    x: 60 + (n % across) * step,
    y: 60 + Math.floor(n / across) * step,
  }));
}

it("stands right of a mark that has room", () => {
  const [only] = placeLabels(nicks(1, 1, 0), space);
  expect(only?.far).toBe(false);
  expect(only?.label?.x).toBeGreaterThan(60);
});

it("puts no number on another, nor on a mark, for twelve nicks a thumb apart", () => {
  const placed = placeLabels(nicks(12, 4, 48), space);
  const boxes = placed.map((mark) => mark.label);
  boxes.forEach((box, n) => {
    if (!box) throw new Error("a number is missing");
    boxes.slice(n + 1).forEach((other) => other && expect(overlap(box, other)).toBe(0));
    placed.forEach((mark) => expect(overlap(box, { x: mark.x - 12, y: mark.y - 12, w: 24, h: 24 })).toBeLessThan(1));
  });
});

it("keeps numbers on the wall at its edges", () => {
  const corners = [[12, 12], [346, 12], [12, 288], [346, 288]];
  const marks = corners.map(([x, y], n) => ({ id: `${n}`, text: "104", rank: 1, x: x ?? 0, y: y ?? 0 }));
  for (const { label } of placeLabels(marks, space)) {
    expect(label && overlap(label, space.bounds)).toBeCloseTo((label?.w ?? 0) * (label?.h ?? 0), 3);
  }
});

it("leaves quiet numbers out before those that must be read", () => {
  const crowd = nicks(9, 3, 18).map((mark, n) => ({ ...mark, rank: n < 3 ? 0 : 3 }));
  const placed = placeLabels(crowd, { ...space, mayLeaveOut: true });
  const shown = (some: typeof placed): number => some.filter((mark) => mark.label).length;
  expect(shown(placed.slice(0, 3))).toBeGreaterThanOrEqual(shown(placed.slice(3)) / 2);
  expect(placed.map((mark) => mark.id)).toEqual(crowd.map((mark) => mark.id));
});

it("gives the same answer for the same input", () => {
  expect(placeLabels(nicks(12, 4, 30), space)).toEqual(placeLabels(nicks(12, 4, 30), space));
});

describe("names of walls", () => {
  const room = { l: 100, w: 100, h: 100, walls: { A: blank("window"), B: blank("mirror"), C: blank("door"), D: blank("tub") } };
  const face = (surface: string): Laid => {
    const found = unfold(room).faces.find((one) => one.surface === surface);
    if (!found) throw new Error(surface);
    return found;
  };
  const box = { x: 0, y: 0, w: 120, h: 100 };

  it("stand in their own corner, and move to another where a mark or a window is", () => {
    expect(placeName(face("A"), box, [], [], 17)).toMatchObject({ corner: "top left", sight: "window" });
    expect(placeName(face("A"), box, [], [{ x: 20, y: 10 }], 17).corner).toBe("bottom left");
    expect(placeName(face("A"), box, [{ x: 30, y: 10, w: 40, h: 40 }], [], 17).corner).toBe("bottom left");
  });

  it("shrink to the letter rather than hide a mark", () => {
    const everywhere = [15, 60, 105].flatMap((x) => [10, 90].map((y) => ({ x: x - 4, y })));
    expect(placeName(face("B"), box, [], everywhere, 17).sight).toBe("");
  });
});
