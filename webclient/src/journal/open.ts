/** Which modules this phone works on: told to the server, so that what has not arrived holds just those. */

import { fact, saving, setFact } from "../db";
import { ifRoom } from "./full";

let last: string | null = null;
const told = new Set<string>();

/** A screen shows this module now. */
export function drawn(module: string): void {
  last = module;
  if (told.has(module)) return;
  told.add(module);
  void remembered(module);
}

async function remembered(module: string): Promise<void> {
  const kept = await ifRoom(
    saving(["meta"], async (tx) => {
      const before = (await fact(tx, "drawn")) ?? [];
      if (!before.includes(module)) await setFact(tx, "drawn", [...before, module]);
    }),
  );
  // The next drawing tries again; until then what is unsent tells the server which modules these are.
  if (!kept) told.delete(module);
}

/** The module drawn last; it stays open after a complete sync. */
export function onScreen(): string | null {
  told.clear();
  return last;
}
