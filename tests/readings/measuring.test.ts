/** Air as people type it in °F and °C, what is told of a slip of the thumb, and the entries that one press makes. */
import { describe, expect, it } from "vitest";
import { streamId, type AirPart, type AirRow } from "../../webclient/src/rules";
import { t } from "../../webclient/src/words";
import {
  asTyped, inOther, lastOf, measuredOf, nightOf, nightsAhead, NOT_TYPED, numberOf, readingDraft, rhDoubt, rowsOf, stepped, strikeDraft, strikeTimes, tenthsOf, typedTemp, wrongIn, inUnit, type Typed, type Unit,
} from "../../webclient/src/screens/readings/measuring";

const YARD = "0190a000-0000-7000-8000-000000000001";
const MODULE = "0190a000-0000-7000-8000-000000000002";
const typed = (temp: string, rh: string, surface = "", unit: Unit = "F"): Typed => ({ temp, rh, surface, unit });

describe("a figure", () => {
  it("is read with point or comma, and nothing else is one", () => {
    expect(["70", " 70.5 ", "70,5", "-5", "−5", "+3"].map(numberOf)).toEqual([70, 70.5, 70.5, -5, -5, 3]);
    expect(["", "warm", "1e1", "7 0", "0x10", "70.5.5", "NaN"].map(numberOf)).toEqual(Array(7).fill(null));
  });

  it("goes one up or down on whole numbers, and from a start where nothing is", () => {
    expect([stepped("70", 1, 60), stepped("70.4", 1, 60), stepped("70.4", -1, 60), stepped("-1", 1, 60), stepped("", -1, 60)]).toEqual(["71", "71", "70", "0", "60"]);
  });

  it("comes back as the same tenth of a degree, whatever was stored and in both units", () => {
    for (let tenths = -300; tenths <= 600; tenths += 1) {
      for (const unit of ["F", "C"] as const) expect(tenthsOf(typedTemp(tenths, unit), unit)).toBe(tenths);
    }
  });

  it("is said back as it was typed, every whole °F", () => {
    for (let degrees = -22; degrees <= 140; degrees += 1) expect(typedTemp(tenthsOf(String(degrees), "F") ?? NaN, "F")).toBe(String(degrees));
  });

  it("means the same air when the unit is changed while typing; words stay as they are", () => {
    expect(inOther("70", "F", "C")).toBe("21.1");
    expect(inOther("21.1", "C", "F")).toBe("70");
    expect(inOther("warm", "F", "C")).toBe("warm");
    expect(measuredOf(inUnit(typed("20", "45", "18", "C"), "F"))).toEqual({ temp: 200, rh: 45, surface: 180 });
  });
});

describe("a reading", () => {
  it("is told what is wrong with it, field by field and in words", () => {
    const words = (one: Typed): string[] => wrongIn(one).map(({ key, values }) => t(key, values));
    expect(words(typed("70", "130"))).toEqual(["A relative humidity of 130 % cannot be: it goes from 0 to 100 %."]);
    expect(words(typed("70", "-5"))).toEqual(["A relative humidity of -5 % cannot be: it goes from 0 to 100 %."]);
    expect(["0.5", "0,99", "1"].map((rh) => wrongIn(typed("70", rh)).map(({ key }) => key))).toEqual([["loggers.rh_fraction"], ["loggers.rh_fraction"], []]);
    expect(words(typed("700", "45"))).toEqual(["700 °F is not the air of a yard: -22 to 140 °F (-30 to 60 °C) can be reckoned."]);
    expect(words(typed("70", "45", "", "C"))).toEqual(["70 °C is not the air of a yard: -22 to 140 °F (-30 to 60 °C) can be reckoned."]);
    expect(words(typed("warm", "45"))).toEqual(["“warm” is no number."]);
    expect(wrongIn(typed("", "45")).map(({ field, key }) => [field, key])).toEqual([["temp", "air.missing"]]);
    expect(wrongIn(typed("70", "45", "cold")).map(({ field }) => field)).toEqual(["surface"]);
  });

  it("may be fog or bone dry air, and the coldest and hottest that can be reckoned", () => {
    expect([typed("-22", "0"), typed("140", "100")].map((one) => measuredOf(one))).toEqual([
      { temp: -300, rh: 0, surface: null },
      { temp: 600, rh: 100, surface: null },
    ]);
    expect(measuredOf(typed("-23", "50"))).toBeNull();
  });

  it("is kept with a word to look at the meter where no air is like that", () => {
    const words = (rh: string): string | null => { const key = rhDoubt(rh); return key && t(key); };
    expect(["0", "100", "99.6"].map(words)).toEqual([
      "No air is at 0 %: look at the meter.",
      "100 % is fog, or a wet meter: nothing dries in it.", "100 % is fog, or a wet meter: nothing dries in it.",
    ]);
    expect(["", "1", "50", "99", "130", "-5", "damp"].map(words)).toEqual(Array(7).fill(null));
  });

  it("is one entry of its place's stream, with the wall's temperature where somebody measured it", () => {
    const measured = measuredOf(typed("70", "45.4", "63"));
    if (!measured) throw new Error("nothing measured");
    expect(readingDraft({ module: MODULE, room: "bath" }, YARD, measured)).toEqual({
      kind: "reading.taken", module: MODULE, about: streamId(MODULE, "bath"), body: { where: "room", room: "bath", source: "hand", rows: [[null, 211, 45, 172]] },
    });
    expect(readingDraft({ module: MODULE, room: null }, YARD, measured)).toMatchObject({ about: streamId(MODULE), body: { where: "module" } });
    expect(readingDraft({ module: null, room: null }, YARD, measured)).toMatchObject({ module: null, about: streamId(YARD), body: { where: "yard" } });
  });

  it("is taken back by its instant", () => {
    expect(strikeDraft({ module: null, room: null }, YARD, [1_764_684_000])).toEqual({
      kind: "reading.struck", module: null, about: streamId(YARD), body: { where: "yard", at: ["2025-12-02T14:00:00Z"] },
    });
  });

  it("that is not sent is taken back about its second, which the office is yet to say, and nothing else with it", () => {
    expect(strikeTimes(1000, [1000, 1002, 400], false)).toEqual([1000]);
    expect(strikeTimes(1000, [1000, 1002, 400], true)).toEqual([997, 998, 999, 1000, 1001, 1003]);
  });

  it("offers again what was stored: the same tenths, not a rounding of them", () => {
    const last = { temp: 215, rh: 47 };
    expect(measuredOf(asTyped(last, "F"))).toEqual({ ...last, surface: null });
    expect(measuredOf(NOT_TYPED)).toBeNull();
  });
});

describe("what is known of a place", () => {
  const row = (time: number): AirRow => [time, 211, 45, 1, null, "hand", "p", null];
  const part = (stream: string, day: string, ...rows: AirRow[]): AirPart => ({ part: "air", id: `${stream} ${day}`, module: null, seq: 1, stream, where: "yard", room: null, day, rows });
  const airs = [part("a", "2026-12-02", row(20), row(30)), part("b", "2026-12-03", row(99)), part("a", "2026-12-01", row(10)), part("a", "2026-12-03")];

  it("is its latest reading, and all of them the latest first; a day of which all was taken back is none", () => {
    expect(lastOf(airs, "a")?.[0]).toBe(30);
    expect(lastOf(airs, "c")).toBeNull();
    expect(rowsOf(airs, "a").map(([time]) => time)).toEqual([30, 20, 10]);
  });
});

describe("tonight", () => {
  const at = (text: string): number => Date.parse(text) / 1000;
  const behind = -6 * 3600;

  it("is the night to come by day, and the one that goes on until ten in the morning", () => {
    const tonight = { from: "2026-12-03T00:00:00Z", to: "2026-12-03T16:00:00Z" };
    expect(nightOf(at("2026-12-02T20:00:00Z"), behind)).toEqual(tonight);
    expect(nightOf(at("2026-12-03T05:00:00Z"), behind)).toEqual(tonight);
    expect(nightOf(at("2026-12-03T15:59:59Z"), behind)).toEqual(tonight);
    expect(nightOf(at("2026-12-03T16:00:00Z"), behind).from).toBe("2026-12-04T00:00:00Z");
  });

  it("is over at its end", () => {
    const nights = [{ to: "2026-12-02T16:00:00Z" }, { to: "2026-12-03T16:00:00Z" }];
    expect(nightsAhead(nights, at("2026-12-02T16:00:00Z"))).toEqual(nights.slice(1));
  });
});
