import { describe, expect, it } from "vitest";
import { feet, kept, stand, stretches, stretchWith, toScreen, toSpot } from "../../webclient/src/parts/facing";
import { faceOf, mirror, onSheet, roughly, unfold, wayIn, type Laid, type RoomPlan, type Surface } from "../../webclient/src/parts/geometry";

const blank = { openings: [], things: [] };
const room: RoomPlan = {
  l: 2743,
  w: 2134,
  h: 2438,
  walls: {
    A: { sight: "window", openings: [{ kind: "window", along: 300, up: 900, w: 900, h: 1000 }], things: [] },
    B: { sight: "mirror", openings: [], things: [{ name: "mirror", along: 500, up: 1000, w: 900, h: 900 }] },
    C: { sight: "door", openings: [{ kind: "door", along: 200, up: 0, w: 800, h: 2032 }], things: [] },
    D: { ...blank, sight: "tub" },
  },
};
const laid = (surface: Surface, of = unfold(room)): Laid => {
  const found = of.faces.find((face) => face.surface === surface);
  if (!found) throw new Error(`no ${surface}`);
  return found;
};

describe("the unfolded room", () => {
  it("folds every wall out from its own side of the floor, and hangs the ceiling on A", () => {
    const floor = laid("floor").box;
    expect(laid("A").box).toEqual({ x: floor.x, y: floor.y - room.h, w: room.l, h: room.h });
    expect(laid("B").box).toEqual({ x: floor.x + room.l, y: floor.y, w: room.h, h: room.w });
    expect(laid("C").box).toEqual({ x: floor.x, y: floor.y + room.w, w: room.l, h: room.h });
    expect(laid("D").box).toEqual({ x: 0, y: floor.y, w: room.h, h: room.w });
    expect(laid("ceiling").box).toEqual({ x: floor.x, y: 0, w: room.l, h: room.w });
  });

  it("makes the foot of each wall its fold line, so that neighbours meet at the corners of the floor", () => {
    const at = (surface: Surface, along: number): unknown => onSheet(laid(surface).box, surface, { along, up: 0 });
    expect(at("A", room.l)).toEqual(at("B", 0));
    expect(at("B", room.w)).toEqual(at("C", 0));
    expect(at("C", room.l)).toEqual(at("D", 0));
    expect(at("D", room.w)).toEqual(at("A", 0));
  });

  it("joins the top of A with the ceiling's edge at A", () => {
    const top = onSheet(laid("A").box, "A", { along: 700, up: room.h });
    expect(onSheet(laid("ceiling").box, "ceiling", { along: 700, up: 0 })).toEqual(top);
    const foot = onSheet(laid("A").box, "A", { along: 700, up: 0 });
    expect(onSheet(laid("floor").box, "floor", { along: 700, up: 0 })).toEqual(foot);
  });

  it("keeps openings inside their walls", () => {
    for (const face of unfold(room).faces) {
      for (const box of [...face.openingBoxes, ...face.thingBoxes]) {
        expect(box.x).toBeGreaterThanOrEqual(face.box.x);
        expect(box.y).toBeGreaterThanOrEqual(face.box.y);
        expect(box.x + box.w).toBeLessThanOrEqual(face.box.x + face.box.w);
        expect(box.y + box.h).toBeLessThanOrEqual(face.box.y + face.box.h);
      }
    }
  });

  it("mirrors by swapping B and D and turning along into length - along - width", () => {
    const seen = mirror(room);
    expect(seen.walls.D?.sight).toBe("mirror");
    expect(seen.walls.D?.things[0]?.along).toBe(room.w - 500 - 900);
    expect(seen.walls.B?.sight).toBe("tub");
    expect(seen.walls.A?.openings[0]?.along).toBe(room.l - 300 - 900);
    expect(mirror(seen)).toEqual(room);
    expect(faceOf(room, "C", true)?.openings[0]?.along).toBe(room.l - 200 - 800);
  });

  it("draws a mirrored room as the drawing seen in a mirror", () => {
    const plain = unfold(room);
    const turned = unfold(room, true);
    const door = laid("C", plain).openingBoxes[0];
    const other = laid("C", turned).openingBoxes[0];
    expect(other?.x).toBe(plain.width - (door?.x ?? 0) - (door?.w ?? 0));
  });

  it("draws no wall that the plan leaves out, and the others all the same", () => {
    const { A, C, D } = room.walls;
    const open = { ...room, walls: { ...(A && { A }), ...(C && { C }), ...(D && { D }) } };
    expect(unfold(open).faces.map(({ surface }) => surface)).toEqual(["ceiling", "A", "C", "D", "floor"]);
    expect(unfold(open, true).faces.map(({ surface }) => surface)).toEqual(["ceiling", "A", "B", "C", "floor"]);
    expect(faceOf(open, "B")).toBeNull();
    expect(faceOf(open, "D", true)).toBeNull();
  });

  it("finds the way in", () => {
    expect(wayIn(unfold(room))?.surface).toBe("C");
    expect(wayIn(unfold({ ...room, walls: { A: blank, B: blank, C: blank, D: blank } }))).toBeNull();
  });
});

describe("facing a wall", () => {
  it("shows a wall up to 12 ft whole, a longer one in lengths of 8 ft that reach its end", () => {
    expect(stretches(3658)).toEqual([{ from: 0, to: 3658 }]);
    const walked = stretches(8534);
    expect(walked[0]).toEqual({ from: 0, to: 2438 });
    expect(walked.at(-1)).toEqual({ from: 8534 - 2438, to: 8534 });
    for (let along = 0; along <= 8534; along += 7) {
      const stretch = walked[stretchWith(walked, along)];
      expect(along >= (stretch?.from ?? Infinity) && along <= (stretch?.to ?? -1)).toBe(true);
    }
  });

  it("gives back the spot that was tapped, to the millimetre a pixel can tell", () => {
    for (const surface of ["A", "B", "C", "D", "ceiling", "floor"] as const) {
      const face = faceOf(room, surface);
      if (!face) throw new Error(surface);
      const standing = stand(face, { from: 0, to: face.length }, 358, 400);
      for (const spot of [{ along: 0, up: 0 }, { along: 1371, up: 1524 }, { along: face.length, up: face.height }]) {
        expect(toSpot(standing, face, toScreen(standing, spot))).toEqual(spot);
      }
    }
  });

  it("never gives a spot off the wall, nor a fraction of a millimetre", () => {
    const face = faceOf(room, "B");
    if (!face) throw new Error("B");
    const standing = stand(face, { from: 0, to: face.length }, 358, 400);
    expect(toSpot(standing, face, { x: -20, y: 9999 })).toEqual({ along: 0, up: 0 });
    expect(kept(face, { along: 99999, up: 10.4 })).toEqual({ along: room.w, up: 10 });
  });

  it("stands to scale and writes the feet of the stretch it shows", () => {
    const long = { ...(faceOf(room, "A") ?? { surface: "A" as const, sight: "", openings: [], things: [] }), length: 8534, height: 2438 };
    const stretch = { from: 2438, to: 4876 };
    const standing = stand(long, stretch, 358, 400);
    expect(standing.width / standing.height).toBeCloseTo(2438 / 2438, 5);
    expect(feet(standing, stretch).map((mark) => mark.foot)).toEqual([8, 9, 10, 11, 12, 13, 14, 15].filter((foot) => foot * 304.8 > 2438));
  });

  it("draws words as a rough place on the face", () => {
    const face = faceOf(room, "A");
    if (!face) throw new Error("A");
    expect(roughly(face, { across: "left", height: "low" }).along).toBeLessThan(face.length / 3);
    expect(roughly(face, { across: "right", height: "high" }).up).toBeGreaterThan((face.height * 2) / 3);
  });
});
