/** Dry under it is not enough: what the ready list says of the air before primer or paint. */
import { describe, expect, it } from "vitest";
import { placeOf, type AirPart, type AirRow, type ModulePart, type Part } from "../../webclient/src/rules";
import { airVerdict, heldBack } from "../../webclient/src/screens/ready/painting";

const NOW = Date.parse("2026-12-02T20:00:00Z") / 1000;
const module: ModulePart = {
  part: "module", id: "m", module: "m", seq: 1, last_number: 0, left: null, release: null, releases: [], answers: [], phone_answers: {}, lines: [],
  rooms: ["hall", "bath"].map((room) => ({ room, name: room, seq: 1 })),
  heads: { coats: [[{ "*": ["paint_1"] }, [1, "d", 1, 0], "p"]] },
};
const air = (room: string, temp: number, rh: number): AirPart => {
  const row: AirRow = [NOW - 600, temp, rh, 10_000_000, null, "hand", "p", null];
  return { part: "air", id: room, module: "m", seq: 2, stream: room, where: "room", room, day: "2026-12-02", rows: [row] };
};
const heat: Part = { part: "heat", id: "h", module: "m", seq: 3, on: true, since: null, to: null, unvented: null, by: "p", time: "2026-12-01T00:00:00Z", words: [] };
const verdict = (parts: Part[], rooms = ["hall", "bath"], label = {}): string => airVerdict(placeOf("m", [module, heat, ...parts]), rooms, NOW, label).verdict;

describe("the air before paint on the ready list", () => {
  it("lets it go on in dry warm air", () => expect(verdict([air("hall", 211, 45), air("bath", 211, 45)])).toBe("go"));
  it("wants a reading where nobody has read the inside", () => expect(verdict([])).toBe("wait"));
  it("stops in damp or cold air", () => {
    expect(verdict([air("hall", 211, 86)], ["hall"])).toBe("stop");
    expect(verdict([air("hall", 70, 45)], ["hall"])).toBe("stop");
    expect(verdict([air("hall", 70, 45)], ["hall"], { least_temp: 17 })).toBe("go");
  });
  it("is the worst of the rooms", () => {
    expect(verdict([air("hall", 211, 45)])).toBe("wait");
    expect(verdict([air("bath", 211, 90)])).toBe("stop");
  });
  it("leaves what lies under to the list", () => {
    const found = airVerdict(placeOf("m", [module, heat, air("hall", 211, 45)]), ["hall"], NOW, {});
    expect(found.checks.map(({ key }) => key)).not.toContain("joint_dry");
  });
});

type Line = Parameters<typeof heldBack>[0];

describe("a line that cannot be begun", () => {
  const paint: Line = { coat: "paint_1", family: "paint", bare: [] };
  const held = (row: Line, ...parts: Part[]): boolean => heldBack(row, ["hall"], placeOf("m", [module, ...parts]), NOW, {});
  const cold: Part = { ...air("hall", 50, 70), id: "yard", module: null, where: "yard", room: null };

  it("is paint in air that says no, or over a wall that lies bare", () => {
    expect(held(paint, air("hall", 211, 45))).toBe(false);
    expect(held(paint)).toBe(true);
    expect(held({ ...paint, bare: ["B"] }, air("hall", 211, 45))).toBe(true);
  });
  it("is joint work where it is cold, or was as far as anybody knows; sanding is not", () => {
    const tape: Line = { coat: "tape", family: "joint", bare: [] };
    expect(held(tape, air("hall", 211, 45))).toBe(false);
    expect(held(tape, air("hall", 70, 45))).toBe(true);
    expect(held(tape, cold)).toBe(true);
    expect(held({ ...tape, coat: null }, cold)).toBe(false);
  });
});
