import { afterEach, describe, expect, it, vi } from "vitest";
import { items, Phone, type Page } from "./phone";
import { changed, FakeServer, lostCall, lostReply } from "./server";

afterEach(() => vi.unstubAllGlobals());

const numbers = (server: FakeServer): number[] =>
  server.entries.filter(({ device }) => device === "phone1").map(({ n }) => n);
const reasons = (server: FakeServer): string[] => [...server.aside.values()].map(({ reason }) => reason);
const entriesOf = (page: Page) => page.db.reading(["entries"], (tx) => tx.objectStore("entries").getAll());
const SERVERS = ["server 1", "server 2", "server 3"];

describe("an older backup comes back", () => {
  it("offers again what was taken after it, in order, before anything new", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    for (let count = 0; count < 4; count += 1) await page.logged();
    await page.journal.syncNow();
    const shown = items(page);
    phone.server.restore(4, "e2");
    const late = await page.logged();
    expect(await page.journal.syncNow()).toBeNull();
    expect(numbers(phone.server)).toEqual([1, 2, 3, 4, 5]);
    expect(items(page)).toEqual([...shown, late].sort());
    expect(page.parts.settledAt.value).toMatchObject({ epoch: "e2", cursor: 8 });
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
  });

  it("drops what the older journal does not have", async () => {
    const phone = new Phone();
    const other = new Phone(phone.server);
    const theirs = await other.ready();
    await theirs.logged();
    await theirs.journal.syncNow();
    const page = await phone.ready();
    expect(items(page)).toHaveLength(1);
    phone.server.restore(3, "e2");
    await page.journal.syncNow();
    expect(items(page)).toEqual([]);
  });

  it("goes on from its place where the journal still has it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.restore(3, "e2");
    await page.journal.syncNow();
    expect(page.parts.settledAt.value).toMatchObject({ epoch: "e2", cursor: 3, chain: "e1-3" });
    expect(page.journal.all("person").value).toHaveLength(2);
  });

  it("asks again from 0 when the answer does not say where it goes on from", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    await page.journal.syncNow();
    phone.server.restore(3, "e2");
    phone.server.faults.push(changed(({ from: _from, ...body }) => body));
    expect(await page.journal.syncNow()).toBeNull();
    expect(phone.server.calls.at(-1)).toMatchObject({ cursor: 0, epoch: "e2" });
    expect(items(page)).toHaveLength(1);
    expect(numbers(phone.server)).toEqual([1]);
  });

  it("is offered what was set aside once more", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.refuse.set("item.logged", "not_signed_in");
    await page.logged();
    await page.journal.syncNow();
    phone.server.restore(3, "e2");
    await page.journal.syncNow();
    expect(reasons(phone.server)).toEqual(["not_signed_in"]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, setAside: 1 });
  });

  it("says what was set aside once, so that it is not taken in its place", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.refuse.set("item.logged", "not_signed_in");
    await page.logged();
    await page.journal.syncNow();
    phone.server.refuse.clear();
    await page.logged();
    await page.journal.syncNow();
    phone.server.restore(3, "e2");
    expect(await page.journal.syncNow()).toBeNull();
    expect(reasons(phone.server)).toEqual(["set_aside_before"]);
    expect(numbers(phone.server)).toEqual([2]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, setAside: 1, problem: null });
  });

  it.each(["e1", "e2"])("keeps the count whole where something in it was set aside (%s)", async (epoch) => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    await page.journal.syncNow();
    phone.server.refuse.set("item.logged", "not_your_role");
    await page.logged();
    await page.journal.syncNow();
    phone.server.refuse.clear();
    await page.logged();
    await page.journal.syncNow();
    const refused = phone.server.aside.keys().next().value ?? "";
    phone.server.restore(4, epoch);
    const before = phone.server.calls.length;
    phone.server.refuse.set("item.logged", "not_your_role");
    expect(await page.journal.syncNow()).toBeNull();
    expect([...phone.server.aside.keys()]).toContain(refused);
    expect(reasons(phone.server)).toEqual(["not_your_role", "not_your_role"]);
    expect(numbers(phone.server)).toEqual([1]);
    expect(phone.server.calls.length - before).toBeLessThan(5);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, setAside: 2, problem: null });
  });

  it("sets aside again what used no number, though the backup has heard of later ones", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    const [taken] = await entriesOf(page);
    // A copy of this phone came first, with the same number.
    phone.server.take({ ...taken!.entry, id: "00000000-0000-7000-8000-000000000999", about: "00000000-0000-7000-8000-000000000998" });
    await page.journal.syncNow();
    expect(reasons(phone.server)).toEqual(["used_number"]);
    phone.server.restore(4, "e2");
    expect(reasons(phone.server)).toEqual([]);
    await page.journal.syncNow();
    expect(reasons(phone.server)).toEqual(["used_number"]);
    expect((await entriesOf(page)).map(({ state, reason }) => [state, reason])).toEqual([["aside", "used_number"]]);
  });

  it("offers what was let in beside the count once, and again only when a backup comes back", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    const [first] = await entriesOf(page);
    await page.logged();
    // A copy of this phone came first, with the same number; and no answer tells this one that it was set aside.
    phone.server.take({ ...first!.entry, id: "00000000-0000-7000-8000-000000000999", about: "00000000-0000-7000-8000-000000000998" });
    phone.server.faults.push(lostReply);
    await page.journal.syncNow();
    expect(reasons(phone.server)).toEqual(["used_number", "broken_sequence"]);
    for (const id of [...phone.server.aside.keys()]) phone.server.admit(id);
    const before = phone.server.calls.length;
    // A phone that offers it for ever is cut off.
    phone.server.faults = Array.from({ length: 20 }, (_, call) => (call < 5 ? (answer) => answer() : lostCall));
    expect(await page.journal.syncNow()).toBeNull();
    expect(await page.journal.syncNow()).toBeNull();
    phone.server.faults = [];
    expect(phone.server.calls.slice(before).flatMap(({ entries }) => entries)).toHaveLength(2);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
    phone.server.restore(4, "e2");
    expect(await page.journal.syncNow()).toBeNull();
    expect(reasons(phone.server).sort()).toEqual(["broken_sequence", "used_number"]);
  });

  it("keeps taken entries 30 days for that, and no longer", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    await page.journal.syncNow();
    const kept = async (): Promise<number> => page.db.reading(["entries"], (tx) => tx.objectStore("entries").count());
    phone.millis += 29 * 86_400_000;
    await page.keep.dropOld();
    expect(await kept()).toBe(1);
    phone.millis += 2 * 86_400_000;
    await page.keep.dropOld();
    expect(await kept()).toBe(0);
    const unsent = await page.logged();
    phone.millis += 90 * 86_400_000;
    await page.keep.dropOld();
    expect(await kept()).toBe(1);
    expect(items(page)).toContain(unsent);
  });
});

describe("an older backup comes back to a phone that has enrolled anew", () => {
  /** One entry taken and one set aside under the first enrolment, one taken under the second. */
  async function anew(phone: Phone, between: (page: Page) => Promise<void> = async () => undefined): Promise<Page> {
    const page = await phone.ready();
    await page.logged();
    await page.journal.syncNow();
    phone.server.refuse.set("item.logged", "broken_sequence");
    await page.logged();
    await page.journal.syncNow();
    phone.server.refuse.clear();
    await between(page);
    await page.people.signIn("Ines", "Ines-pass");
    await page.logged();
    await page.journal.syncNow();
    expect(phone.server.entries.map(({ device, n }) => `${device} ${n}`)).toEqual([...SERVERS, "phone1 1", "phone2 1"]);
    return page;
  }

  it("which offers what the ended enrolment wrote too: it is set aside, and breaks no count", async () => {
    const phone = new Phone();
    const page = await anew(phone);
    phone.server.restore(3, "e2");
    expect(await page.journal.syncNow()).toBeNull();
    expect(phone.server.entries.map(({ device, n }) => `${device} ${n}`)).toEqual([...SERVERS, "phone2 1"]);
    expect(reasons(phone.server)).toEqual(["wrong_device", "wrong_device"]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, setAside: 2, problem: null });
  });

  it("which leaves alone what the backup still has", async () => {
    const phone = new Phone();
    const page = await anew(phone);
    phone.server.restore(5, "e2");
    expect(await page.journal.syncNow()).toBeNull();
    expect(reasons(phone.server)).toEqual(["broken_sequence"]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, setAside: 1, problem: null });
  });

  it("which tells one yard nothing that was written in another", async () => {
    const phone = new Phone();
    const page = await anew(phone, (there) =>
      there.db.saving(["meta"], async (tx) => {
        const told = await there.db.fact(tx, "enrolment");
        if (told) await there.db.setFact(tx, "enrolment", { ...told, yard: "another yard" });
      }),
    );
    phone.server.restore(3, "e2");
    const before = phone.server.calls.length;
    await page.journal.syncNow();
    const offered = phone.server.calls.slice(before).flatMap(({ entries }) => entries.map(({ device }) => device));
    expect(new Set(offered)).toEqual(new Set(["phone2"]));
    expect(reasons(phone.server)).toEqual([]);
  });
});

describe("two pages of one browser", () => {
  it("count on from one another and see each other's entries", async () => {
    const phone = new Phone();
    const one = await phone.ready();
    const two = await phone.page();
    const items1 = [await one.logged(), await two.logged(), await one.logged()];
    expect(items(one)).toEqual(items1.sort());
    await two.journal.syncNow();
    expect(numbers(phone.server)).toEqual([1, 2, 3]);
  });

  it("syncing at once double nothing, and the slower one does not take the faster one back", async () => {
    const phone = new Phone();
    const one = await phone.ready();
    const two = await phone.page();
    for (let count = 0; count < 3; count += 1) await one.logged();
    expect(await Promise.all([one.journal.syncNow(), two.journal.syncNow()])).toEqual([null, null]);
    expect(numbers(phone.server)).toEqual([1, 2, 3]);
    await one.read();
    expect(one.parts.settledAt.value.cursor).toBe(6);
    expect(items(one)).toEqual(items(two));
  });
});

it("an older backup that nobody has confirmed yet: the place is unknown, nothing is lost when it is found out", async () => {
  const phone = new Phone();
  const page = await phone.ready();
  for (let count = 0; count < 3; count += 1) await page.logged();
  await page.journal.syncNow();
  phone.server.restore(4, "e1");
  const late = await page.logged();
  expect(await page.journal.syncNow()).toBeNull();
  expect(numbers(phone.server)).toEqual([1, 2, 3, 4]);
  expect(items(page)).toContain(late);
  expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
});
