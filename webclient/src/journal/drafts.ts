/** Half-written items, kept before the camera opens: some phones reload the page while it is open. */

import { deviceMillis } from "../clock";
import { reading, saving } from "../db";

export const draft = {
  /** Kept when this resolves. The value is anything that structured cloning takes; no Blobs. */
  async keep(key: string, value: unknown): Promise<void> {
    await saving(["drafts"], async (tx) => {
      await tx.objectStore("drafts").put({ value, kept: deviceMillis() }, key);
    });
  },

  async get<T>(key: string): Promise<T | undefined> {
    const row = await reading(["drafts"], (tx) => tx.objectStore("drafts").get(key));
    return row?.value as T | undefined;
  },

  async drop(key: string): Promise<void> {
    await saving(["drafts"], (tx) => tx.objectStore("drafts").delete(key));
  },
};
