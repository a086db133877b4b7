/** What the server has taken stays here 30 days, to be offered again should it be restored from an old backup. */

import { deviceMillis } from "../clock";
import { saving } from "../db";
import { dropOldNumbers } from "./expected";
import { clearPictures, clearShelf } from "../photos";

const KEPT = 30 * 86_400_000;

export async function dropOld(): Promise<void> {
  const before = deviceMillis() - KEPT;
  await saving(["entries"], async (tx) => {
    const entries = tx.objectStore("entries");
    for (const state of ["settled", "aside"]) {
      for (const row of await entries.index("state").getAll(state)) {
        if ((row.kept ?? before) < before) await entries.delete(row.id);
      }
    }
  });
  await dropOldNumbers(before);
  await clearShelf(before);
  await clearPictures(before);
}
