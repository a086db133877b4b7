/** A phone whose pages can be opened, killed and opened again over one database. */
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { vi } from "vitest";
import { FakeServer, MODULE } from "./server";

const load = async () => ({
  journal: await import("../../webclient/src/journal"),
  sync: await import("../../webclient/src/journal/sync"),
  parts: await import("../../webclient/src/journal/parts"),
  counts: await import("../../webclient/src/journal/state"),
  keep: await import("../../webclient/src/journal/keep"),
  people: await import("../../webclient/src/people"),
  photos: await import("../../webclient/src/photos"),
  db: await import("../../webclient/src/db"),
  clock: await import("../../webclient/src/clock"),
});
export type Page = Awaited<ReturnType<typeof load>> & { read(): Promise<void>; logged(words?: string): Promise<string> };

export class Phone {
  millis = Date.parse("2026-12-02T13:59:00Z");
  readonly notes = new Map<string, string>();
  #ids = 0;

  constructor(
    readonly server = new FakeServer(),
    readonly idb = new IDBFactory(),
  ) {}

  /** A fresh page: no memory but what is in the database. */
  async page(): Promise<Page> {
    vi.resetModules();
    vi.stubGlobal("indexedDB", this.idb);
    vi.stubGlobal("fetch", this.server.fetch);
    vi.stubGlobal("localStorage", {
      getItem: (key: string) => this.notes.get(key) ?? null,
      setItem: (key: string, value: string) => this.notes.set(key, value),
    });
    const rooms = await load();
    rooms.clock.setDevice({ millis: () => (this.millis += 1), bytes: (count) => this.#bytes(count) });
    const read = async (): Promise<void> => {
      await Promise.all([rooms.people.readSession(), rooms.parts.load(), rooms.counts.readState()]);
    };
    await read();
    return { ...rooms, read, logged: (words = "nick") => logged(rooms, words) };
  }

  /** A page on which the inspector has signed in and everything is pulled. */
  async ready(): Promise<Page> {
    const page = await this.page();
    await page.people.signIn("Ines", "Ines-pass");
    await page.journal.syncNow();
    return page;
  }

  #bytes(count: number): Uint8Array<ArrayBuffer> {
    this.#ids += 1;
    return Uint8Array.from({ length: count }, (_, at) => (at > 11 ? this.#ids >> ((15 - at) * 8) : at * 7) & 255);
  }
}

/** Writes up one item; its id. */
async function logged({ journal, clock }: Awaited<ReturnType<typeof load>>, wish: string): Promise<string> {
  const about = clock.newId();
  const words = { across: "left", height: "eye" } as const;
  const body = { defect: "nick", room: "kitchen", surface: "A", words, light: "raking", wish } as const;
  await journal.write([{ kind: "item.logged", module: MODULE, about, body }]);
  return about;
}

export const items = (page: Page): string[] => page.journal.all("item").value.map(({ id }) => id).sort();
