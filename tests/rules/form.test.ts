// The phone's fold makes the parts of the form that it says, as the server's does: see test_form.py.
import { expect, it } from "vitest";
import { made, form } from "../../server/rules/data/form.json";
import { type Entry, FORM, Workspace, canonical, fold, sha256 } from "../../webclient/src/rules";
import journals from "./frozen.json?raw";

const digest = (entries: Entry[]): Promise<string> => {
  const work = new Workspace(() => null);
  fold(work, entries);
  return sha256(canonical(Object.fromEntries(work.changed)));
};

it("makes the parts of this form of the frozen entries", async () => {
  const frozen = JSON.parse(journals) as Entry[][];
  expect(await Promise.all(frozen.map(digest)), "python3 -m tests.rules.record_form").toEqual(made);
  expect(FORM).toBe(form);
});
