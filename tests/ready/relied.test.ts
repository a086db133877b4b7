/** How far a row of the ready list can be relied on: a day is planned by it, so no time stands there without its doubts. */
import { expect, it } from "vitest";
import { placeOf, readyList, seconds, type AirPart, type Place } from "../../webclient/src/rules";
import { speak } from "../../webclient/src/words";
import { reliedWords } from "../../webclient/src/screens/ready/relied";
import { air, LAID, module, tape } from "../coats/taped";

const NOW = seconds(LAID) + 6 * 3600;
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
