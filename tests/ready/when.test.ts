/** The ready list as a crew reads it: by when, and what stands alike together. */
import { describe, expect, it } from "vitest";
import type { ReadyRow } from "../../webclient/src/rules";
import { forCrew, grouped, whenOf } from "../../webclient/src/screens/ready/when";

const HOUR = 3600;
/** 2 pm in the yard, six hours behind UTC. */
const NOW = Date.parse("2026-12-02T20:00:00Z") / 1000;
const AHEAD = -6 * HOUR;
const row = (told: Partial<ReadyRow>): ReadyRow => ({
  module: "a", serial: "2416-A", pickup: "2026-12-05T13:00:00Z", room: "bath", surface: null, coat: "second", do: "float", family: "joint", crew: null, ready: 0, at: NOW + HOUR, state: "wet", under: "first", bare: [], ...told,
});

describe("when", () => {
  it.each([
    ["now", { ready: 1 as const, at: NOW - HOUR, state: "ready" }],
    ["now", { ready: 1 as const, at: null, under: null }],
    ["hours", { at: NOW + HOUR }],
    ["hours", { at: NOW + 9.9 * HOUR }],
    ["tomorrow", { at: NOW + 10.1 * HOUR }],
    ["later", { at: NOW + 35 * HOUR }],
    ["look", { at: null, state: "wet" }],
    ["look", { at: NOW - HOUR, state: "unsure" }],
    ["look", { at: NOW + HOUR, state: "not_dry" }],
  ] as const)("%s: %o", (when, told) => expect(whenOf(row(told), NOW, AHEAD)).toBe(when));

  it("is in the next hours also past midnight, when one works then", () => {
    const late = NOW + 8 * HOUR;
    expect(whenOf(row({ at: late + 5 * HOUR }), late, AHEAD)).toBe("hours");
  });
});

describe("the list", () => {
  const rows = [row({}), row({ room: "hall" }), row({ room: "bed", at: NOW + 2 * HOUR }), row({ room: "hall", surface: "B", do: "sand", coat: null }), row({ module: "b", pickup: "2026-12-03T13:00:00Z" })];

  it("puts rooms that stand alike together, walls apart, and the soonest pickup first", () => {
    const [[when, modules] = [null, []]] = [...grouped(rows, NOW, AHEAD)];
    expect(when).toBe("hours");
    expect(modules.map(({ module, alike }) => [module, alike.map(({ rooms }) => rooms)])).toEqual([
      ["b", [["bath"]]],
      ["a", [["bath", "hall"], ["bed"], ["hall"]]],
    ]);
  });

  it("is one crew's, with what nobody is told to do", () => {
    const some = [row({ crew: "patch" }), row({ crew: "paint" }), row({})];
    expect(forCrew(some, "patch").map(({ crew }) => crew)).toEqual(["patch", null]);
    expect(forCrew(some, "")).toHaveLength(3);
  });
});
