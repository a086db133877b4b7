/** What the office types, and what an entry says of it: the yard's clock, a tape measure's lengths, only what changed. */
import { describe, expect, it } from "vitest";
import type { PlanPart } from "../../webclient/src/rules";
import { changes, formOf, problems } from "../../webclient/src/screens/manage/facts";
import { emptyOpening, formOfPlan, roomsOf, typed, wrongIn } from "../../webclient/src/screens/manage/planForm";
import { fromWall, toWall } from "../../webclient/src/screens/manage/zoned";
import { parseLength } from "../../webclient/src/parts";

describe("the yard's clock", () => {
  const zone = "America/Boise";

  it("is seven hours behind in winter and six in summer", () => {
    expect(fromWall("2026-12-03T07:00", zone)).toBe("2026-12-03T14:00:00Z");
    expect(fromWall("2026-07-03T07:00", zone)).toBe("2026-07-03T13:00:00Z");
  });

  it("comes back as it was typed, on the days that the clocks change too", () => {
    for (const wall of ["2026-03-08T01:30", "2026-03-08T03:30", "2026-11-01T00:30", "2026-11-01T02:30"]) {
      expect(toWall(fromWall(wall, zone) ?? "", zone)).toBe(wall);
    }
  });

  it("says nothing of what is no time", () => expect(fromWall("soon", zone)).toBeNull());
});

describe("lengths", () => {
  it("are written so that they can be read again, to the quarter inch", () => {
    expect(typed(2438)).toBe("8'");
    expect(typed(2908)).toBe(`9' 6.5"`);
    expect(typed(0)).toBe(`0"`);
    for (let mm = 0; mm < 8000; mm += 37) expect(Math.abs((parseLength(typed(mm)) ?? 1e9) - mm)).toBeLessThanOrEqual(4);
  });
});

const wall = { openings: [], things: [] };
const plan: PlanPart = {
  part: "plan", id: "p", module: null, seq: 7, name: "Heron", from: null, heads: {},
  rooms: [{ id: "den", name: "Den", l: 2741, w: 2133, h: 2439, walls: { A: { sight: "window", openings: [{ kind: "window", along: 951, up: 1371, w: 611, h: 613 }], things: [] }, B: wall, C: wall, D: wall } }],
};

describe("a plan's form", () => {
  it("gives the same millimetres back where nobody typed", () => expect(roomsOf(formOfPlan(plan, ""))).toEqual(plan.rooms));

  it("takes what was typed, and only that", () => {
    const form = formOfPlan(plan, "");
    const [room] = form.rooms;
    if (!room) throw new Error("no room");
    room.l = "9-6";
    expect(roomsOf(form)[0]).toMatchObject({ l: 2896, w: 2133, h: 2439 });
  });

  it("says what does not fit, what cannot be read and what is missing", () => {
    const form = formOfPlan(plan, "");
    const [room] = form.rooms;
    if (!room) throw new Error("no room");
    room.walls.A.openings.push({ ...emptyOpening("door"), along: "8 ft" });
    room.walls.B.things.push({ name: "", along: "0", up: "a bit", w: "1", h: "1" });
    expect(wrongIn(form)).toEqual({
      "den A opening 1 along": "manager.past_end",
      "den B thing 0 up": "manager.length_needed",
      "den B thing 0 name": "manager.thing_name_needed",
    });
  });
});

describe("a module's facts", () => {
  const before = { ...formOf(null, "UTC"), serial: "HM-1-A", home: "HM-1", pickup: "2026-12-03T07:00" };

  it("say only what changed", () => {
    expect(changes(before, before, "UTC")).toEqual({});
    expect(changes({ ...before, label: " NW 12 ", mirrored: true }, before, "UTC")).toEqual({ label: "NW 12", mirrored: true });
  });

  it("keep a pickup once it is set, and want a level with a finish", () => {
    const form = { ...before, pickup: "", finish: { "*": { level: "", texture: "smooth", paint: "", sheen: "" } } };
    expect(problems(form, before, "UTC")).toEqual({ pickup: "manager.pickup_stays", "finish *": "manager.level_needed" });
  });
});
