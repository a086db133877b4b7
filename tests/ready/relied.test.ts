/** How far a row of the ready list can be relied on: a day is planned by it, so no time stands there without its doubts. */
import { expect, it } from "vitest";
import { placeOf, readyList, seconds, type AirPart, type AirRow, type CoatPart, type ModulePart, type Place } from "../../webclient/src/rules";
import { speak } from "../../webclient/src/words";
import { reliedWords } from "../../webclient/src/screens/ready/relied";

const LAID = "2026-12-02T08:00:00Z";
const NOW = seconds(LAID) + 6 * 3600;
const module = {
  part: "module", id: "m", module: "m", seq: 1, last_number: 0, left: null, release: null, releases: [], answers: [], phone_answers: {}, lines: [],
  rooms: [{ room: "bath", name: "Bath", seq: 1 }], heads: { coats: [[{ "*": ["tape", "first"] }, [1, "d", 1, 0], "p"]] },
} as unknown as ModulePart;
const tape: CoatPart = {
  part: "coat", id: "c", module: "m", seq: 2, ref: [2, "d", 1, 0], coat: "tape", rooms: ["bath"], surface: null, material: "drying_type", thickness: "normal", set_minutes: null, label_minutes: null,
  paint: null, laid: LAID, by: "p", done_by: [], time: LAID, unsure: 0, early: null, over: [], items: [], covered_by: [], objections: {}, answer: null, void: null, since: 2, lines: [],
  cells: { bath: { objections: {}, wet: null, dry: null, restart: null } },
};
const air = (where: "module" | "yard", ...hours: number[]): AirPart => ({
  part: "air", id: where, module: where === "yard" ? null : "m", seq: 3, stream: where, where, room: null, day: "2026-12-02",
  rows: hours.map((hour): AirRow => [seconds(LAID) + hour * 3600, 211, 50, 13_411_000, null, "hand", "p", null]),
});
const said = (of: AirPart, now = NOW): string => {
  const place: Place = placeOf("m", [module, tape, of]);
  const [row] = readyList([place], now);
  if (!row) throw new Error("nothing to do");
  return reliedWords(row, place, now).replaceAll("\u00a0", " ");
};

it("gives a time alone where the air was read in the room all along", () => {
  expect(said(air("module", 0, 3, 6))).toMatch(/^Tape: .* likely, .* by the table$/);
});
it("says beside a time to come why it cannot be relied on", () => {
  expect(said(air("module", 0))).toMatch(/ by the table\. Cannot be relied on: The last reading is old: read the air again\.$/);
  expect(said(air("yard", 0, 3, 6))).toContain("Cannot be relied on: Reckoned with outside air: nobody has read it inside.");
});
it("says it too of what is likely dry", () => {
  expect(said(air("module", 0), NOW + 12 * 3600)).toMatch(/^Tape likely dry since .* Cannot be relied on: The last reading is old/);
});
it("ends *10 p. m.* with one full stop in Spanish", () => {
  speak("es");
  try {
    expect(said(air("module", 0))).toMatch(/[ap]\. m\. No es confiable: /);
  } finally {
    speak("en");
  }
});
