/** The numbers under which this phone wrote items up. Another item may have come first, and the number may stand in pencil on the wall by then. */

import { deviceMillis } from "../clock";
import { fact, saving, setFact, type Expected, type Saving } from "../db";
import type { PhoneEntry } from "../rules";
import { expected, peekPart } from "./parts";

/** The number that an item had here when it was saved; undefined once it has just that for good, or was written elsewhere. */
export const expectedNumber = (item: string): number | undefined => expected.value[item]?.number;

/** Keeps them in the transaction of the entries; memory must be level with what is kept. */
export async function expectNumbers(tx: Saving<"meta" | "entries" | "shelf" | "drafts">, entries: PhoneEntry[]): Promise<void> {
  const logged = entries.filter(({ kind }) => kind === "item.logged");
  if (logged.length === 0) return;
  const last = new Map<string, number>();
  const kept = deviceMillis();
  const found = logged.map(({ about, module }): [string, Expected[string]] => {
    const number = (last.get(module ?? "") ?? peekPart("module", module ?? "")?.last_number ?? 0) + 1;
    last.set(module ?? "", number);
    return [about, { number, kept }];
  });
  await setFact(tx, "expected", { ...(await fact(tx, "expected")), ...Object.fromEntries(found) });
}

/** What the settled parts number as expected is no news and goes. */
export async function forgetMet(tx: Saving<"meta" | "entries" | "parts" | "staging" | "shelf">): Promise<void> {
  const now = await fact(tx, "expected");
  if (!now || Object.keys(now).length === 0) return;
  const left: Expected = {};
  for (const [item, one] of Object.entries(now)) {
    const part = await tx.objectStore("parts").get(["item", item]);
    if (part?.part !== "item" || part.number !== one.number) left[item] = one;
  }
  await setFact(tx, "expected", left);
}

/** What was written before this moment is known by its new number long since. */
export async function dropOldNumbers(before: number): Promise<void> {
  await saving(["meta"], async (tx) => {
    const now = Object.entries((await fact(tx, "expected")) ?? {});
    await setFact(tx, "expected", Object.fromEntries(now.filter(([, { kept }]) => kept >= before)));
  });
}
