/** Which rooms of a module are drawn as one, and what their strip is drawn from. */
import { describe, expect, it } from "vitest";
import { placeOf, seconds, type AirPart, type CoatPart, type ModulePart, type Part } from "../../webclient/src/rules";
import { offered } from "../../webclient/src/screens/coats/working";
import { inTurn, sortedCoats } from "../../webclient/src/screens/coats/sorted";
import { standings, stripOf } from "../../webclient/src/screens/coats/standing";
import { stopsOf, undersOf } from "../../webclient/src/screens/coats/under";

const ROOMS = ["hall", "bath", "bed"];
const LAID = "2026-12-01T14:00:00Z";
const HOUR = 3600;
const at = (hours: number): number => seconds(LAID) + hours * HOUR;

const module: ModulePart = {
  part: "module", id: "m", module: "m", seq: 1, last_number: 0, left: null, release: null, releases: [], answers: [], phone_answers: {}, lines: [],
  rooms: ROOMS.map((room) => ({ room, name: room, seq: 1 })),
  heads: { coats: [[{ "*": ["tape", "first"] }, [1, "d", 1, 0], "p"]] },
};
const cell = { objections: {}, wet: null, dry: null, restart: null };
const coat = (id: string, told: Partial<CoatPart>): CoatPart => ({
  part: "coat", id, module: "m", seq: 2, ref: [2, "d", 1, 0], coat: "tape", rooms: ROOMS, surface: null, material: "drying_type", thickness: "normal", set_minutes: null, label_minutes: null,
  paint: null, laid: LAID, by: "p", done_by: [], time: LAID, unsure: 0, early: null, over: [], items: [], covered_by: [], objections: {}, answer: null, void: null, since: 2, lines: [],
  cells: Object.fromEntries((told.rooms ?? ROOMS).map((room) => [room, cell])),
  ...told,
});
/** 70 °F, 50 %: about 17 and 20 hours. */
const air: AirPart = { part: "air", id: "a", module: "m", seq: 3, stream: "s", where: "module", room: null, day: "2026-12-01", rows: [0, 3, 6, 9, 12, 15, 18, 21].map((hour) => [at(hour), 211, 50, 13_411_000, null, "hand", "p", null]) };
const place = (...parts: Part[]) => placeOf("m", [module, air, ...parts]);

describe("rooms that stand alike", () => {
  it("are drawn once", () => {
    expect(standings(place(), at(1)).map(({ rooms }) => rooms)).toEqual([ROOMS]);
    expect(standings(place(coat("tape", {})), at(1)).map(({ rooms }) => rooms)).toEqual([ROOMS]);
  });

  it("and apart as soon as one was left out, looked at or has a wall of its own", () => {
    const apart = (...coats: CoatPart[]) => standings(place(...coats), at(1)).map(({ rooms }) => rooms);
    expect(apart(coat("tape", { rooms: ["hall", "bed"] }))).toEqual([["hall", "bed"], ["bath"]]);
    const wet = { ...cell, wet: { by: "p", time: "2026-12-01T14:30:00Z" } };
    expect(apart(coat("tape", { cells: { hall: cell, bath: wet, bed: cell } }))).toEqual([["hall", "bed"], ["bath"]]);
    const fill = coat("fill", { coat: "fill", rooms: ["bed"], surface: "B", laid: "2026-12-01T14:10:00Z" });
    expect(apart(coat("tape", {}), fill)).toEqual([["hall", "bath"], ["bed"]]);
  });

  it("keep what is on top apart from what it lies on", () => {
    const first = coat("first", { coat: "first", laid: "2026-12-03T14:00:00Z" });
    const [stand] = standings(place(coat("tape", {}), first), at(49));
    expect([stand?.tops.map((top) => top.coat.id), stand?.older.map(({ id }) => id), stand?.next]).toEqual([["first"], ["tape"], null]);
  });
});

describe("what asks for somebody", () => {
  const first = (told: Partial<CoatPart> = {}) => coat("first", { coat: "first", laid: "2026-12-03T14:00:00Z", ...told });
  const dry = { ...cell, dry: { ref: [4, "d", 2, 0] as [number, string, number, 0], by: "p", time: "2026-12-04T16:00:00Z", tried: ["cut"], reason: "white" } };
  const sorted = (hour: number, ...coats: CoatPart[]) => {
    const here = place(...coats);
    const [stand] = standings(here, at(hour));
    return stand ? sortedCoats(here, stand, at(hour)) : null;
  };

  it("is a coat that is not dry; what it lies on is finished", () => {
    const found = sorted(49, coat("tape", {}), first());
    expect(found?.asks.map((one) => one.coat.id)).toEqual(["first"]);
    expect(found?.done).toMatchObject({ tops: [], count: 1, last: "tape" });
    expect([found?.leads, found?.finished]).toEqual([[], false]);
  });

  it("is nothing once the last one is dry", () => {
    const found = sorted(80, coat("tape", {}), first({ cells: { hall: dry, bath: dry, bed: dry } }));
    expect([found?.asks, found?.under, found?.done.count, found?.done.last]).toEqual([[], [], 2, "first"]);
    expect([found?.leads.map((one) => one.coat.id), found?.finished]).toEqual([["first"], true]);
    expect(sorted(21, coat("tape", {}))).toMatchObject({ leads: [{ coat: { id: "tape" } }], finished: false });
    // A room of which only walls are known says each of them.
    const walls = [coat("b", { coat: "fill", surface: "B" }), coat("d", { coat: "fill", surface: "D" })];
    expect(sorted(21, ...walls)?.leads.map(({ surface }) => surface)).toEqual(["B", "D"]);
  });

  it("is a look that found it wet, and nobody has said more", () => {
    const wet = { ...cell, wet: { by: "p", time: "2026-12-02T15:00:00Z" } };
    expect(sorted(30, coat("tape", { cells: { hall: wet, bath: wet, bed: wet } }))?.asks.map((one) => one.clock.state)).toEqual(["not_dry"]);
  });

  it("is also what was covered too early, until somebody answers", () => {
    const early = first({ laid: "2026-12-01T15:00:00Z", early: "truck at 7", over: ["tape"] });
    const found = sorted(60, coat("tape", {}), early);
    expect([found?.asks.map((one) => one.coat.id), found?.under.map(({ id }) => id), found?.leads]).toEqual([["first"], ["tape"], []]);
  });

  it("is compound that had only set when it was covered, and still dries", () => {
    const setting = coat("tape", { material: "setting_type", set_minutes: 45 });
    const over = first({ laid: "2026-12-01T15:00:00Z", over: ["tape"] });
    expect(sorted(2, setting, over)?.under.map(({ id }) => id)).toEqual(["tape"]);
    expect(sorted(60, setting, over)).toMatchObject({ under: [], finished: true });
  });

  it("comes first, then what dries, then where something can go on, then what is finished", () => {
    const wet = { ...cell, wet: { by: "p", time: "2026-12-03T15:00:00Z" } };
    const here = place(
      coat("tape", {}), first({ rooms: ["hall"], laid: "2026-12-02T14:00:00Z", cells: { hall: dry } }), coat("late", { coat: "first", rooms: ["bed"], laid: "2026-12-03T14:00:00Z", cells: { bed: wet } }),
    );
    expect(standings(here, at(76)).map(({ rooms: [room] }) => room)).toEqual(ROOMS);
    expect(inTurn(here, standings(here, at(76)), at(76)).map(({ rooms: [room] }) => room)).toEqual(["bed", "bath", "hall"]);
    expect(inTurn(place(), standings(place(), at(1)), at(1)).map(({ rooms }) => rooms)).toEqual([ROOMS]);
  });
});

describe("what is offered", () => {
  it("is the coat that may go on now, before the one that more rooms wait for", () => {
    expect(offered(standings(place(coat("tape", {})), at(1)))).toMatchObject({ coat: "first", rooms: ROOMS });
    const some = standings(place(coat("tape", { rooms: ["bed", "bath"] })), at(1));
    expect(offered(some)).toMatchObject({ coat: "tape", rooms: ["hall"] });
  });
});

describe("what stops a coat", () => {
  const tape = coat("tape", {});

  it("is every coat under it that is not ready, with the rooms where it is so alike", () => {
    const unders = undersOf(place(tape), "first", at(1));
    expect(unders).toEqual(ROOMS.map((room) => ({ room, ready: false, waits: [{ id: "tape", before: true }], over: ["tape"] })));
    expect(stopsOf(place(tape), unders, at(1)).map(({ rooms, clock }) => [rooms, clock.state])).toEqual([[ROOMS, "wet"]]);
    expect(undersOf(place(tape), "first", at(21)).every(({ ready }) => ready)).toBe(true);
  });

  it("is not setting-type compound that has set, for compound; for primer it is", () => {
    const setting = place(coat("tape", { material: "setting_type", set_minutes: 45 }));
    expect(undersOf(setting, "first", at(1)).every(({ ready }) => ready)).toBe(true);
    expect(undersOf(setting, "prime", at(1)).some(({ ready }) => ready)).toBe(false);
  });
});

describe("a strip", () => {
  it("draws a look only while it governs", () => {
    const wet = { ...cell, wet: { by: "p", time: "2026-12-01T15:00:00Z" } };
    const cells = { hall: wet, bath: { ...cell, dry: { ref: [4, "d", 2, 0] as [number, string, number, 0], by: "p", time: "2026-12-01T16:00:00Z", tried: ["cut"], reason: "white" } }, bed: cell };
    const stands = standings(place(coat("tape", { cells })), at(3));
    const strips = stands.map(({ tops: [top], rooms: [room = ""] }) => top && stripOf(top, room, at(3), 0));
    expect(strips.map((strip) => [strip?.wet ?? null, strip?.dry ?? null])).toEqual([[at(1), null], [null, at(2)], [null, null]]);
    expect(strips[2]?.dried).toBeGreaterThan(100);
  });
});
