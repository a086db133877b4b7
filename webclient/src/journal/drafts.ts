/** Half-written items, kept before the camera opens: some phones reload the page while it is open. */

import { deviceMillis } from "../clock";
import { reading, saving } from "../db";
import { isFull } from "./full";
import { halfKept } from "./state";
import { NotWritten } from "./write";

export const draft = {
  /** Kept when this resolves; NotWritten on a full phone, which the line that is never hidden says then. The value is
   * anything that structured cloning takes; no Blobs. */
  async keep(key: string, value: unknown): Promise<void> {
    try {
      await saving(["drafts"], async (tx) => {
        await tx.objectStore("drafts").put({ value, kept: deviceMillis() }, key);
      });
      halfKept(true);
    } catch (error) {
      if (!isFull(error)) throw error;
      halfKept(false);
      throw new NotWritten("sync.no_room");
    }
  },

  async get<T>(key: string): Promise<T | undefined> {
    const row = await reading(["drafts"], (tx) => tx.objectStore("drafts").get(key));
    return row?.value as T | undefined;
  },

  async drop(key: string): Promise<void> {
    await saving(["drafts"], (tx) => tx.objectStore("drafts").delete(key));
  },
};
