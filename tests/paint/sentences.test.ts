/** Before paint and what would help, as one reads them on the phone: every check with its figure and its limit. */
import { beforeEach, describe, expect, it } from "vitest";
import { setDevice } from "../../webclient/src/clock";
import type { BeforePaint, Check, Help } from "../../webclient/src/rules";
import { airWords, apart, checkWords, helpTimes, helpWords, savedWords, verdictWords, waterWords } from "../../webclient/src/screens/paint/sentences";

/** 2 pm, in UTC as no yard is here. */
const NOW = Date.parse("2026-12-02T14:00:00Z") / 1000;
const HOUR = 3600;
/** Without the spaces that keep a figure and its unit on one line. */
const plain = (text: string): string => text.replaceAll("\u00a0", " ");
const check = (key: Check["key"], state: Check["state"], value: number | null, limit: number | null = null): string => plain(checkWords({ key, state, value, limit }, NOW, false));

beforeEach(() => setDevice({ millis: () => NOW * 1000, bytes: (count) => new Uint8Array(count) }));

describe("a check", () => {
  it("says its figure and its limit, a difference without the offset of a scale", () => {
    expect(plain(apart(28))).toBe("5 °F (2.8 °C)");
    expect(check("surface_over_dew", "stop", 10, 28)).toBe("Wall only 2 °F (1 °C) above the dew point, 5 °F (2.8 °C) is the least: warm the wall or dry the air");
    expect(check("surface_over_dew", "stop", -10, 28)).toContain("Wall only −2 °F (1 °C) above");
    expect(check("air_least", "stop", 50, 100)).toBe("Air 41 °F (5 °C): too cold, 50 °F (10 °C) is the least");
    expect(check("air_rh", "met", 45, 85)).toBe("45 % RH, under 85 %");
    expect(check("no_surface", "stop", 90, 84)).toBe("90 % RH: without the wall’s temperature it must be under 84 %");
    expect(check("dew_rising", "caution", -8)).toBe("Getting damper: 1 °F (0.8 °C) closer to the dew point. Read again soon");
    expect(check("low", "wait", -10, 44)).toBe("Low 30 °F (-1 °C) before it is dry, 40 °F (4 °C) is the least");
  });

  it("says what nobody knows", () => {
    expect(check("reading", "wait", null)).toBe("Nobody has read the air inside");
    expect(check("reading", "wait", 300)).toBe("Air inside last read 9 am: too old");
    expect(check("low", "caution", null)).toBe("Nobody has said tonight’s low");
    expect(checkWords({ key: "low", state: "met", value: null, limit: 44 }, NOW, true)).toBe("The heat is on: keep it on until it is dry");
    expect(check("joint_dry", "wait", null)).toBe("What is under it: only a look can say whether it is dry");
    expect(check("joint_dry", "wait", NOW - HOUR)).toBe("What is under it: only a look can say whether it is dry");
    expect(check("joint_dry", "wait", NOW + HOUR)).toBe("What is under it is not dry: by the table 3 pm");
  });
});

describe("the air, said where paint is about to go on", () => {
  const cold: Check = { key: "air_least", state: "stop", value: 50, limit: 100 };
  const unread: Check = { key: "reading", state: "wait", value: null, limit: null };
  const words = (verdict: BeforePaint["verdict"], ...checks: Check[]): string => plain(airWords({ verdict, until: null, checks }, "paint_1", NOW, false, true));

  it("is the verdict with each figure that speaks against it", () => {
    expect(words("stop", cold, { key: "air_rh", state: "stop", value: 88, limit: 85 }, unread)).toBe(
      "Stop: not in this air. Air 41 °F (5 °C): too cold, 50 °F (10 °C) is the least. 88 % RH: too damp, it must be under 85 %",
    );
    expect(words("wait", unread)).toBe("Wait: take a reading. Nobody has read the air inside");
  });
});

describe("the verdict", () => {
  const found = (verdict: BeforePaint["verdict"], until: number | null, ...checks: Check[]): string => plain(verdictWords({ verdict, until, checks }, "paint_1", NOW));
  const reading: Check = { key: "reading", state: "wait", value: null, limit: 240 };

  it("is a clear go, wait or stop, with the time where it is known", () => {
    expect(found("go", null)).toBe("Go: first paint can go on now");
    expect(found("stop", null)).toBe("Stop: not in this air");
    expect(found("wait", NOW + HOUR)).toBe("Wait until about 3 pm");
    expect(found("wait", null, reading)).toBe("Wait: take a reading");
    expect(found("wait", null, reading, { key: "joint_dry", state: "wait", value: null, limit: null })).toBe("Wait");
  });
});

describe("a help", () => {
  const help = (told: Partial<Help>): Help => ({ key: "heat", to: 211, likely: NOW, by_table: NOW + HOUR, saved_minutes: 725, room_rh: 30, water_per_lb: null, ...told });

  it("says to what, when it is dry that way, and the hours saved", () => {
    expect(plain(helpWords(help({})))).toBe("Heat this room to 70 °F (21 °C)");
    expect(helpWords(help({ key: "dry_air", to: 40 }))).toBe("Dry the air to 40 % RH");
    expect(plain(helpTimes(help({}), true))).toBe("2 pm likely, 3 pm by the table");
    expect([725, 61, 20, null].map((saved_minutes) => savedWords(help({ saved_minutes })))).toEqual(["about 12 hours sooner", "about 1 hour sooner", "less than an hour sooner", "in the air as it is it never dries"]);
    expect(savedWords(help({ key: "wait" }))).toBe("");
  });

  it("says of waiting that it never dries, or that nobody knows the air", () => {
    const wait = help({ key: "wait", to: null, likely: null, by_table: null, saved_minutes: null });
    expect([helpTimes(wait, true), helpTimes(wait, false)]).toEqual(["In this air it does not dry", "Take a reading first: nobody knows this air"]);
  });

  it("says of a coat whose time is over to look at it, not to wait until a day that has been", () => {
    const look = help({ key: "look", to: null, likely: NOW - 2 * HOUR, by_table: NOW, saved_minutes: 0 });
    expect([helpWords(look), helpTimes(look, true), savedWords(look)]).toEqual(["Look at it", "Its time is over: only a look says whether it is dry", ""]);
  });

  it("says the water of a heater without a vent, and when it is more than the air can hold", () => {
    const water = (rh_points: number, measured: 0 | 1): string => waterWords(help({ water_per_lb: { fuel: "propane", lb_hundredths: 163, rh_points, measured } }));
    expect(water(57, 1)).toContain("1.63 lb for each pound of propane, about 57 points of RH in this room");
    expect(water(282, 1)).toContain("more than the air of this room can hold");
    expect(water(141, 0)).toContain("for every 1000 cubic feet that are shut");
    expect(waterWords(help({}))).toBe("");
  });
});
