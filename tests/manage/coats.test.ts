/** The plant's own coats as the office types them. */
import { describe, expect, it } from "vitest";
import { changes, formOf, problems } from "../../webclient/src/screens/manage/facts";
import { coatsOfForm, formOfCoats, sameCoats } from "../../webclient/src/screens/manage/yardCoats";

describe("the plant's coats", () => {
  it("say nothing while nothing differs from the table", () => expect(coatsOfForm(formOfCoats({}), {})).toEqual({}));

  it("are an order, names, crews, and whether the yard's own looks count", () => {
    const form = { ...formOfCoats({}), middle: "prime texture prime_2" as const, paints: 1 as const, names: { first: " First float ", second: " " }, crews: { paint: "crew-2", joint: "" }, learned: false };
    const coats = coatsOfForm(form, {});
    expect(coats).toEqual({ order: ["tape", "first", "second", "skim", "prime", "texture", "prime_2", "paint_1"], names: { first: "First float" }, crews: { paint: "crew-2" }, learned: false });
    expect(sameCoats(coatsOfForm(formOfCoats(coats), coats), coats)).toBe(true);
  });

  it("leave an order that the form cannot show as it is", () => {
    const own = { order: ["tape", "prime", "first", "texture", "paint_1"] as ("tape" | "prime" | "first" | "texture" | "paint_1")[] };
    const form = formOfCoats({ order: ["texture", "prime", "texture"] });
    expect(form.middle).toBeNull();
    expect(coatsOfForm({ ...form, names: { tape: "Bed" } }, own)).toEqual({ ...own, names: { tape: "Bed" } });
  });
});

describe("a module's own coats", () => {
  const before = { ...formOf(null, "UTC"), serial: "HM-1-A", home: "HM-1" };

  it("are told where they differ, also that there are none, and not otherwise", () => {
    expect(changes({ ...before, coats: { hall: ["tape", "first"], "*": [] } }, before, "UTC")).toEqual({ coats: { hall: ["tape", "first"], "*": [] } });
    expect(changes(before, before, "UTC")).toEqual({});
    expect(problems({ ...before, coats: { "*": [] } }, before, "UTC")).toEqual({});
  });
});
