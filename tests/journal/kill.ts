/** Ends a page at its k-th touch of the database or the network: that and everything after it fails, what is under way is
 * rolled back, as when a browser drops the page. */
import "fake-indexeddb/auto";
import { vi } from "vitest";

export class Killed extends Error {}

const TOUCHES: [object, string[]][] = [
  [IDBDatabase.prototype, ["transaction"]],
  [IDBObjectStore.prototype, ["get", "getAll", "put", "add", "delete", "clear", "count"]],
  [IDBIndex.prototype, ["get", "getAll", "getAllKeys", "count"]],
];
type Method = (this: unknown, ...args: unknown[]) => unknown;

/** Runs `work` with the page ending at touch `at`; true when it was over before that. */
export async function killedAt(at: number, work: () => Promise<unknown>): Promise<boolean> {
  let touched = 0;
  const touch = (running?: IDBTransaction): void => {
    touched += 1;
    if (touched < at) return;
    if (touched === at) running?.abort();
    throw new Killed();
  };
  const restore = TOUCHES.flatMap(([type, names]) => names.map((name) => wrap(type, name, touch)));
  const reach = globalThis.fetch;
  vi.stubGlobal("fetch", async (...args: Parameters<typeof fetch>) => {
    touch();
    const answer = await reach(...args);
    touch();
    return answer;
  });
  try {
    await work();
    return true;
  } catch (error) {
    if (touched < at) throw error;
    return false;
  } finally {
    for (const each of restore) each();
  }
}

function wrap(type: object, name: string, touch: (running?: IDBTransaction) => void): () => void {
  const table = type as Record<string, Method>;
  const before = table[name] as Method;
  table[name] = function (...args) {
    touch(runningOf(this));
    return before.apply(this, args);
  };
  return () => {
    table[name] = before;
  };
}

function runningOf(self: unknown): IDBTransaction | undefined {
  if (self instanceof IDBObjectStore) return self.transaction;
  return self instanceof IDBIndex ? self.objectStore.transaction : undefined;
}
