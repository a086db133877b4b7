/** A plan on its way to the office and back: what is told, what is guessed anew, what still has to be said. */
import { describe, expect, it } from "vitest";
import { chosenAfter, corrected, planQuery, unsaid, type FilePlan } from "../../webclient/src/screens/readings/filePlan";

const plan: FilePlan = { delimiter: ";", decimal: ",", head: 1, times: [0, 1], form: "dmy", temp: 2, unit: "C", rh: 3, surface: null, zone: "America/Denver" };

describe("a file's plan", () => {
  it("is a query: columns of days and hours in one word, and a column taken away is told", () => {
    expect(Object.fromEntries(planQuery(plan))).toEqual({ delimiter: ";", decimal: ",", head: "1", times: "0,1", form: "dmy", temp: "2", unit: "C", rh: "3", surface: "none", zone: "America/Denver" });
    expect(planQuery({ zone: null, unit: "F" }).toString()).toBe("unit=F");
  });

  it("keeps what stands after a correction, but not what hung on other lines or columns", () => {
    expect(corrected(plan, { unit: "F" })).toEqual({ ...plan, unit: "F" });
    const { unit, decimal: _, ...others } = plan;
    expect(corrected(plan, { temp: 4 })).toEqual({ ...others, temp: 4 });
    expect(corrected(plan, { temp: 4, unit: "F" })).toEqual({ ...others, temp: 4, unit: "F" });
    // Whole per cent with a point beside 21,4: the mark is read from the columns that were chosen.
    expect(corrected(plan, { rh: 4 })).toEqual({ ...others, unit, rh: 4 });
    expect(corrected(plan, { delimiter: "," })).toEqual({ delimiter: "," });
    expect(corrected(plan, { head: 3 })).toEqual({ delimiter: ";", head: 3 });
    expect("form" in corrected(plan, { times: [4] })).toBe(false);
  });

  it("asks again for what was chosen of another column", () => {
    expect(chosenAfter(plan, ["unit", "zone"], { temp: 4 })).toEqual(["zone", "temp"]);
    expect(chosenAfter(plan, ["form", "unit"], { times: [4] })).toEqual(["unit", "times"]);
    expect(chosenAfter(plan, ["decimal", "unit"], { rh: 4 })).toEqual(["unit", "rh"]);
    expect(chosenAfter(plan, ["surface"], { unit: "F" })).toEqual(["surface", "unit"]);
    expect(chosenAfter(plan, ["unit", "zone"], { delimiter: "," })).toEqual(["delimiter"]);
  });

  it("waits until everything that was asked has been chosen", () => {
    expect(unsaid(["form", "zone"], ["zone", "unit"])).toEqual(["form"]);
    expect(unsaid([], [])).toEqual([]);
  });
});
