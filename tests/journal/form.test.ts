// Parts of another form: the app was updated, the server was, or an older server was put back. Nothing written is lost.
import { afterEach, describe, expect, it, vi } from "vitest";
import { items, Phone, type Page } from "./phone";
import { lostCall, MODULE, type FakeServer } from "./server";

const FORM_FILE = "../../server/rules/data/form.json";
const DEFECT = { defect: "nick", room: "kitchen", surface: "A", words: { across: "left", height: "eye" }, light: "raking" } as const;

afterEach(() => {
  vi.unstubAllGlobals();
  vi.doUnmock(FORM_FILE);
});

/** A page of an app whose rules make parts of this form. */
async function pageOf(phone: Phone, form: number): Promise<Page> {
  vi.doMock(FORM_FILE, () => ({ form, made: [] }));
  return phone.page();
}

/** A phone of form 1 that has pulled two items, with `unsent` more on it. */
async function before(unsent: number): Promise<{ phone: Phone; server: FakeServer; page: Page }> {
  const phone = new Phone();
  phone.server.form = 1;
  const page = await pageOf(phone, 1);
  await page.people.signIn("Ines", "Ines-pass");
  for (let count = 0; count < 2; count += 1) await page.logged();
  await page.journal.syncNow();
  const drafts = Array.from({ length: unsent }, () => ({ kind: "item.logged", module: MODULE, about: page.clock.newId(), body: DEFECT }) as const);
  if (unsent > 0) await page.journal.write(drafts);
  return { phone, server: phone.server, page };
}

const mine = (server: FakeServer) => server.entries.filter(({ device }) => device === "phone1").map(({ n }) => n);
const upTo = (last: number) => Array.from({ length: last }, (_, at) => at + 1);
const settledOf = (page: Page) => page.db.reading(["meta"], (tx) => page.db.fact(tx, "settled"));
const unsentOf = (page: Page) => page.db.reading(["entries"], (tx) => tx.objectStore("entries").index("state").getAll("unsent"));

/** Parts as an older version kept them, with what every rule reads gone. */
async function spoil(page: Page): Promise<void> {
  await page.db.saving(["parts"], async (tx) => {
    for (const part of await tx.objectStore("parts").getAll()) {
      const { part: kind, id, module, seq } = part;
      await tx.objectStore("parts").put({ part: kind, id, module, seq } as typeof part);
    }
  });
}

describe("an app that was updated", () => {
  it("shows nothing of the parts it cannot read, says so, and keeps what is unsent", async () => {
    const { phone, server, page: old } = await before(2);
    await spoil(old);
    const page = await pageOf(phone, 2);
    expect(items(page)).toEqual([]);
    expect(page.journal.settledAt.value.cursor).toBe(0);
    expect(page.journal.state.value).toMatchObject({ unsent: 2, problem: "sync.anew" });
    server.faults.push(lostCall);
    await page.journal.syncNow();
    expect(page.journal.state.value).toMatchObject({ unsent: 2, problem: "sync.anew" });
    await page.logged();
    expect((await unsentOf(page)).map(({ entry }) => entry.seen)).toEqual([5, 5, 0]);
  });

  it("sends what is unsent once, from where its author stood, and then fetches everything anew", async () => {
    const { phone, server, page: old } = await before(700);
    await spoil(old);
    server.form = 2;
    const calls = server.calls.length;
    const page = await pageOf(phone, 2);
    expect(await page.journal.syncNow()).toBeNull();
    expect(mine(server)).toEqual(upTo(702));
    const told = server.calls.slice(calls).map(({ cursor, form, entries }) => [cursor, form, entries.length]);
    expect(told).toEqual([[5, 0, 500], [5, 0, 200], [0, 2, 0]]);
    expect(items(page)).toHaveLength(702);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
    expect(await settledOf(page)).toMatchObject({ cursor: 705, form: 2 });
  });

  it("goes on with what it had fetched when it is killed between two pages", async () => {
    const { phone, server, page: old } = await before(3);
    await spoil(old);
    server.form = 2;
    server.page = 2;
    server.faults.push((answer) => answer(), (answer) => answer(), lostCall);
    const first = await pageOf(phone, 2);
    expect(await first.journal.syncNow()).toMatchObject({ key: "sync.no_answer" });
    expect(items(first)).toEqual([]);
    const page = await pageOf(phone, 2);
    const calls = server.calls.length;
    expect(await page.journal.syncNow()).toBeNull();
    expect(server.calls[calls]?.cursor).toBeGreaterThan(0);
    expect(items(page)).toHaveLength(5);
    expect(mine(server)).toEqual(upTo(5));
  });

  it("takes parts from before forms were told for old ones", async () => {
    const { phone, page: old } = await before(1);
    await old.db.saving(["meta"], async (tx) => {
      const { form: _none, ...settled } = (await old.db.fact(tx, "settled")) ?? { epoch: "", cursor: 0, chain: null };
      await old.db.setFact(tx, "settled", settled);
    });
    await spoil(old);
    const page = await pageOf(phone, 1);
    expect(page.journal.state.value.problem).toBe("sync.anew");
    expect(await page.journal.syncNow()).toBeNull();
    expect(items(page)).toHaveLength(3);
  });
});

describe("an app that is older than the server", () => {
  it("sends, keeps what it shows, and is told that a newer one is ready; that one fetches everything", async () => {
    const { phone, server, page } = await before(2);
    const settled = await settledOf(page);
    server.form = 2;
    server.say("person.named", null, "late", { name: "Late", roles: [] });
    expect(await page.journal.syncNow()).toMatchObject({ key: "sync.app_older" });
    expect(mine(server)).toEqual([1, 2, 3, 4]);
    expect(items(page)).toHaveLength(4);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: "sync.app_older" });
    expect(await settledOf(page)).toEqual(settled);
    expect(page.journal.all("person").value).toHaveLength(2);
    const next = await pageOf(phone, 2);
    expect(await next.journal.syncNow()).toBeNull();
    expect(items(next)).toHaveLength(4);
    expect(next.journal.all("person").value).toHaveLength(3);
    expect(mine(server)).toEqual([1, 2, 3, 4]);
    // The window that still runs the older app reads nothing of this, and spoils nothing.
    await page.journal.syncNow();
    expect(items(page)).toEqual([]);
    expect(page.journal.state.value.problem).toBe("sync.app_older");
    expect(await settledOf(next)).toMatchObject({ form: 2 });
  });

  it.each(["e1", "e2"])("offers again what a backup of that server lost, once (%s)", async (epoch) => {
    const { phone, server, page } = await before(2);
    server.form = 2;
    server.restore(4, epoch);
    const calls = server.calls.length;
    expect(await page.journal.syncNow()).toMatchObject({ key: "sync.app_older" });
    expect(mine(server)).toEqual([1, 2, 3, 4]);
    expect(server.calls.length - calls).toBeLessThan(5);
    expect(page.journal.state.value.unsent).toBe(0);
    expect(items(page)).toHaveLength(4);
    const next = await pageOf(phone, 2);
    expect(await next.journal.syncNow()).toBeNull();
    expect(items(next)).toHaveLength(4);
    expect(mine(server)).toEqual([1, 2, 3, 4]);
  });
});

describe("an app that is newer than the server", () => {
  it("sends, waits in plain words, and fetches everything when the server has followed", async () => {
    const { phone, server } = await before(2);
    const page = await pageOf(phone, 2);
    expect(await page.journal.syncNow()).toMatchObject({ key: "sync.app_newer" });
    expect(mine(server)).toEqual([1, 2, 3, 4]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: "sync.app_newer" });
    server.form = 2;
    expect(await page.journal.syncNow()).toBeNull();
    expect(items(page)).toHaveLength(4);
  });

  it("put back with its server it says that it fetches everything, not that a newer one is ready", async () => {
    const { phone, server } = await before(0);
    server.form = 2;
    await (await pageOf(phone, 2)).journal.syncNow();
    server.form = 1;
    const page = await pageOf(phone, 1);
    expect(page.journal.state.value.problem).toBe("sync.anew");
    server.faults.push(lostCall);
    await page.journal.syncNow();
    expect(page.journal.state.value.problem).toBe("sync.anew");
    expect(await page.journal.syncNow()).toBeNull();
    expect(items(page)).toHaveLength(2);
  });

  it("keeps what it shows when an older server is put back in its own past", async () => {
    const { phone, server } = await before(0);
    server.form = 2;
    const page = await pageOf(phone, 2);
    await page.journal.syncNow();
    server.form = 1;
    await page.logged();
    expect(await page.journal.syncNow()).toMatchObject({ key: "sync.app_newer" });
    expect(items(page)).toHaveLength(3);
    expect(mine(server)).toEqual([1, 2, 3]);
  });
});

it("asks once after signing in where the forms are the same", async () => {
  const { server } = await before(0);
  expect(server.calls.map(({ cursor, form }) => [cursor, form])).toEqual([[0, 1]]);
});

it("an older server of before forms gives no parts that this app would read wrongly", async () => {
  const { phone, server } = await before(1);
  server.form = 0;
  const page = await pageOf(phone, 2);
  expect(await page.journal.syncNow()).toMatchObject({ key: "sync.app_newer" });
  expect(mine(server)).toEqual([1, 2, 3]);
});
