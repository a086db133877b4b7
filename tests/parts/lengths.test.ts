import { expect, it } from "vitest";
import { feetInches, parseLength } from "../../webclient/src/parts/lengths";

it.each([
  [1372, "4 ft 6 in", "4 pies 6 pulg"],
  [1524, "5 ft", "5 pies"],
  [305, "1 ft", "1 pie"],
  [0, "0 in", "0 pulg"],
  [152, "6 in", "6 pulg"],
  [300, "1 ft", "1 pie"], // 11.8 in is a foot, never 12 in
  [-152, "-6 in", "-6 pulg"],
])("says %i mm as people do", (mm, english, spanish) => {
  expect(feetInches(mm)).toBe(english);
  expect(feetInches(mm, "es")).toBe(spanish);
});

it.each([
  ["9", 2743],
  ["9 ft", 2743],
  ["9.5", 2896],
  ["9' 6\"", 2896],
  ["9’6”", 2896],
  ["9 ft 6 in", 2896],
  ["9-6", 2896],
  ["9 pies 6 pulg", 2896],
  ["114 in", 2896],
  ["2.9 m", 2900],
  ["2,9 m", 2900],
  ["290 cm", 2900],
])("reads %s", (typed, mm) => {
  expect(parseLength(typed)).toBe(mm);
});

it.each(["", "about nine", "9 yards", "-3", "9 ft 6 in 2"])("does not guess at %s", (typed) => {
  expect(parseLength(typed)).toBeNull();
});

it("reads back what it says, to the inch", () => {
  for (let inches = 0; inches < 400; inches += 1) {
    const mm = Math.round(inches * 25.4);
    expect(parseLength(feetInches(mm))).toBe(mm);
    expect(parseLength(feetInches(mm, "es"))).toBe(mm);
  }
});
