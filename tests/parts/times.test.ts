import { describe, expect, it } from "vitest";
import { hourMark, shortTime } from "../../webclient/src/parts/times";

const ZONE = "America/Chicago";
const NOW = "2026-11-25T14:39:00Z"; // a Wednesday morning
const short = (at: string): string => shortTime(at, NOW, ZONE, "en");

describe("a time where there is little room", () => {
  it("is the clock today and has its day otherwise", () => {
    expect([short("2026-11-25T16:00:00Z"), short("2026-11-26T16:00:00Z")]).toEqual(["10 am", "Thu 10 am"]);
  });

  it("never calls two days by one name: Monday past and Monday to come", () => {
    expect([short("2026-11-23T17:39:00Z"), short("2026-11-30T22:19:00Z")]).toEqual(["Mon 11:39 am", "Nov 30, 4:19 pm"]);
    const names = [...Array(13).keys()].map((day) => short(new Date(Date.parse(NOW) + (day - 6) * 86_400_000).toISOString()));
    expect(new Set(names).size).toBe(13);
  });
});

describe("an hour along an axis", () => {
  it("is the clock, and the day where one begins", () => {
    const mark = (at: string, language: "en" | "es" = "en"): string => hourMark(at, NOW, ZONE, language);
    expect([mark("2026-11-25T18:00:00Z"), mark("2026-11-26T06:00:00Z"), mark("2026-12-01T06:00:00Z")]).toEqual(["12 pm", "Thu", "Dec 1"]);
    expect(mark("2026-11-26T06:00:00Z", "es")).toBe("jue");
  });
});
