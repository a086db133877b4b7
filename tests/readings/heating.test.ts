/** Who has to say since when the heat is on, and the entry of it. */
import { describe, expect, it } from "vitest";
import { heatId, type AirPart, type AirRow, type Family, type Place } from "../../webclient/src/rules";
import { airForbids, heatDraft, heatUnknown, tooColdInside } from "../../webclient/src/screens/readings/heating";

const MODULE = "0190a000-0000-7000-8000-000000000002";
const HOUR = 3600;
const NOW = 1_764_684_000;

const air = (where: "module" | "yard", temp: number, hours: number[]): AirPart => ({
  part: "air", id: where, module: null, seq: 1, stream: where, where, room: null, day: "", rows: hours.map((ago): AirRow => [NOW - ago * HOUR, temp, 50, 1, null, "hand", "p", null]),
});
const hours = (from: number, to: number, every: number): number[] => Array.from({ length: Math.floor((from - to) / every) + 1 }, (_, at) => from - at * every);
const place = (told: Partial<Place>): Place => ({ airs: [], outside: [air("yard", 50, [20, 3])], heat: null, forecast: null, coats: [], rooms: [], rows: new Map(), plan: null, yard: null, learned: null, ...told }) as unknown as Place;
const heat = (since: string | null) => ({ part: "heat" as const, id: "h", module: MODULE, seq: 1, on: true, since, to: 211, unvented: null, by: "p", time: "2025-12-02T13:00:00Z" });

describe("the 48 hours before joint work", () => {
  it("are asked for in the cold where nobody has read the inside all that time", () => {
    expect(heatUnknown(place({}), "bath", NOW)).toBe(true);
    expect(heatUnknown(place({ airs: [air("module", 210, hours(30, 0, 3))] }), "bath", NOW)).toBe(true);
    expect(["2025-12-01T14:00:00Z", "2025-11-30T14:00:01Z"].map((since) => heatUnknown(place({ heat: heat(since) }), "bath", NOW))).toEqual([true, true]);
  });

  it("are not where a logger knows them, the heat has been on, or it is warm outside", () => {
    expect(heatUnknown(place({ airs: [air("module", 210, hours(51, 0, 3))] }), "bath", NOW)).toBe(false);
    expect(heatUnknown(place({ heat: heat("2025-11-30T14:00:00Z") }), "bath", NOW)).toBe(false);
    expect(heatUnknown(place({ outside: [air("yard", 180, [20, 3])] }), "bath", NOW)).toBe(false);
  });

  it("are said to have been too cold where the inside was read so", () => {
    const cold = air("module", 82, [60, 40, 20]);
    expect(tooColdInside(place({ airs: [cold] }), ["bath"], NOW)?.slice(0, 2)).toEqual([NOW - 40 * HOUR, 82]);
    expect(tooColdInside(place({ airs: [air("module", 100, [40, 20])] }), ["bath"], NOW)).toBeNull();
    expect(tooColdInside(place({ airs: [air("module", 82, [60]), air("module", 210, [2])] }), ["bath"], NOW)).toBeNull();
    const other: AirPart = { ...air("module", 82, [3]), where: "room", room: "hall" };
    expect([["bath"], ["bath", "hall"]].map((rooms) => tooColdInside(place({ airs: [other] }), rooms, NOW) !== null)).toEqual([false, true]);
  });

  it("forbid joints, and cold or heat of now forbids texture too", () => {
    const why = (rows: [number, number[]][], kind: Family, rooms = ["bath"]) => airForbids(place({ airs: rows.map(([temp, ago]) => air("module", temp, ago)) }), rooms, kind, NOW)?.why ?? null;
    const coldOnce: [number, number[]][] = [[82, [40]], [210, [2]]];
    expect([why(coldOnce, "joint"), why(coldOnce, "texture"), why(coldOnce, "paint")]).toEqual(["was_cold", null, null]);
    const coldNow: [number, number[]][] = [[82, [1]]];
    expect([why(coldNow, "joint"), why(coldNow, "texture"), why(coldNow, "primer")]).toEqual(["was_cold", "too_cold", null]);
    expect([why([[351, [1]]], "joint"), why([[351, [1]]], "texture"), why([[350, [1]]], "joint"), why([[351, [5]]], "joint")]).toEqual(["too_hot", "too_hot", null, null]);
    expect([why([[351, [3]], [300, [1]]], "joint"), why([], "joint")]).toEqual([null, null]);
    const hot: AirPart = { ...air("module", 360, [1]), where: "room", room: "hall" };
    expect([["bath"], ["bath", "hall"]].map((rooms) => airForbids(place({ airs: [hot] }), rooms, "joint", NOW)?.why ?? null)).toEqual([null, "too_hot"]);
  });

  it("count a night's low as cold", () => {
    const nights = [{ from: "2025-12-01T00:00:00Z", to: "2025-12-01T16:00:00Z", low: -20, by: "p", time: "", source: "typed" as const }];
    const cold = place({ outside: [], forecast: { part: "forecast", id: "f", module: null, seq: 1, nights } });
    expect(heatUnknown(cold, "bath", NOW)).toBe(true);
  });
});

describe("what is told of the heat", () => {
  const on = { on: true, since: "", to: { text: "70", unit: "F" as const }, fuel: "propane" as const };
  it("is on, since when, to what and by which fuel; off is off alone", () => {
    expect(heatDraft(MODULE, on, "2025-12-01T14:00:00Z")).toEqual({ kind: "heat.told", module: MODULE, about: heatId(MODULE), body: { on: true, since: "2025-12-01T14:00:00Z", to: 211, unvented: "propane" } });
    expect(heatDraft(MODULE, { ...on, to: { text: "", unit: "F" }, fuel: "vented" }, null).body).toEqual({ on: true });
    expect(heatDraft(MODULE, { ...on, on: false }, null).body).toEqual({ on: false });
  });
});
