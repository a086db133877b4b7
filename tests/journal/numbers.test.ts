import { afterEach, describe, expect, it, vi } from "vitest";
import { uuid } from "./ids";
import { Phone, type Page } from "./phone";
import { MODULE, type FakeServer } from "./server";

afterEach(() => vi.unstubAllGlobals());

const NICK = { defect: "nick", room: "kitchen", surface: "A", light: "raking" } as const;
const theirs = (server: FakeServer, item: string): void => server.say("item.logged", MODULE, item, NICK);
/** An item's number as the screens draw it, and the one that it was saved under while that is another. */
const shown = (page: Page, item: string): (number | undefined)[] => [page.journal.partNow("item", item)?.number, page.journal.expectedNumber(item)];

describe("the number that an item had when it was saved", () => {
  it("is kept where another phone's item came first, and forgotten where nothing came between", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const met = await page.logged();
    expect(shown(page, met)).toEqual([1, 1]);
    await page.journal.syncNow();
    expect(shown(page, met)).toEqual([1, undefined]);
    const [second, third] = [await page.logged(), await page.logged()];
    expect([shown(page, second), shown(page, third)]).toEqual([[2, 2], [3, 3]]);
    theirs(phone.server, uuid(50));
    await page.journal.syncNow();
    expect([shown(page, uuid(50)), shown(page, second), shown(page, third)]).toEqual([[2, undefined], [3, 2], [4, 3]]);
    expect(shown(page, met)).toEqual([1, undefined]);
  });

  it("counts on within one save, outlives the page, and goes after 30 days", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const ids = [page.clock.newId(), page.clock.newId()];
    await page.journal.write(ids.map((about) => ({ kind: "item.logged", module: MODULE, about, body: NICK })));
    theirs(phone.server, uuid(50));
    const after = await phone.page();
    await after.journal.syncNow();
    expect(ids.map((id) => shown(after, id))).toEqual([[2, 1], [3, 2]]);
    phone.millis += 29 * 86_400_000;
    await after.keep.dropOld();
    await after.read();
    expect(ids.map((id) => shown(after, id))).toEqual([[2, 1], [3, 2]]);
    phone.millis += 2 * 86_400_000;
    await after.keep.dropOld();
    await after.read();
    expect(ids.map((id) => shown(after, id))).toEqual([[2, undefined], [3, undefined]]);
  });
});
