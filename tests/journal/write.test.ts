import { afterEach, describe, expect, it, vi } from "vitest";
import { Phone } from "./phone";
import { CREW, INSPECTOR, MODULE } from "./server";

afterEach(() => vi.unstubAllGlobals());

describe("seen means the screen", () => {
  const close = (about: string) => ({ kind: "item.closed" as const, module: MODULE, about, body: {} });

  it("an approval is not written when a line has come that the screen did not show", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    await page.journal.syncNow();
    const drawn = page.journal.drawnFrom({ part: "item", id: item });
    phone.server.say("item.amended", MODULE, item, { wish: "paint it" });
    await page.journal.syncNow();
    await expect(page.journal.write([close(item)], [], { drawn })).rejects.toMatchObject({ key: "sync.redraw" });
    const anew = page.journal.drawnFrom({ part: "item", id: item });
    expect(await page.journal.write([close(item)], [], { drawn: anew })).toHaveLength(1);
  });

  it("one's own entry that settles is no reason to ask again", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    const amended = { kind: "item.amended" as const, module: MODULE, about: item, body: { wish: "sand it" } };
    await page.journal.write([amended]);
    const drawn = page.journal.drawnFrom({ part: "item", id: item }, { module: MODULE });
    await page.journal.syncNow();
    expect(page.journal.drawnFrom({ part: "item", id: item }).changed()).toBe(false);
    expect(drawn.changed()).toBe(false);
  });

  it("what came in through another page counts as well", async () => {
    const phone = new Phone();
    const one = await phone.ready();
    const item = await one.logged();
    await one.journal.syncNow();
    const two = await phone.page();
    const drawn = two.journal.drawnFrom({ part: "item", id: item });
    phone.server.say("item.amended", MODULE, item, { wish: "paint it" });
    await one.journal.syncNow();
    await expect(two.journal.write([close(item)], [], { drawn })).rejects.toMatchObject({ key: "sync.redraw" });
  });

  it("a line about another thing is no reason to ask again; about the module it is for a module", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const [item, other] = [await page.logged(), await page.logged()];
    await page.journal.syncNow();
    const ofItem = page.journal.drawnFrom({ part: "item", id: item });
    const ofModule = page.journal.drawnFrom({ module: MODULE });
    phone.server.say("item.amended", MODULE, other, { wish: "paint it" });
    await page.journal.syncNow();
    expect([ofItem.changed(), ofModule.changed()]).toEqual([false, true]);
  });

  it("`seen` is no more than what this page has read, even while another page syncs", async () => {
    const phone = new Phone();
    const one = await phone.ready();
    const two = await phone.page();
    phone.server.say("person.named", null, "p1", { name: "P", roles: [] });
    await one.journal.syncNow();
    const [entry] = await two.journal.write([
      { kind: "room.added", module: MODULE, about: MODULE, body: { room: "den", name: "Den" } },
    ]);
    expect(entry?.seen).toBe(4);
    expect(two.parts.settledAt.value.cursor).toBe(4);
  });
});

describe("what is not written", () => {
  it("nothing without anybody signed in", async () => {
    const page = await new Phone().page();
    await expect(page.logged()).rejects.toMatchObject({ key: "sync.nobody" });
  });

  it("nothing that this person's roles do not cover, and none of the drafts beside it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const named = { kind: "module.moved" as const, module: MODULE, about: MODULE, body: { bay: "3" } };
    const room = { kind: "room.added" as const, module: MODULE, about: MODULE, body: { room: "den", name: "Den" } };
    await expect(page.journal.write([room, named])).rejects.toMatchObject({ key: "sync.not_your_role" });
    await page.journal.syncNow();
    expect(phone.server.calls.at(-1)?.entries).toEqual([]);
  });

  it("no approval of a thing on which a later version has written", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    await page.journal.syncNow();
    const part = phone.server.part("item", item) as unknown as { lines: object[]; seq: number };
    part.lines.push({ kind: "item.polished", by: CREW, time: "2026-12-02T14:00:00Z" });
    part.seq = 5;
    phone.server.say("person.named", null, "p1", { name: "P", roles: [] });
    await page.journal.syncNow();
    const close = { kind: "item.closed" as const, module: MODULE, about: item, body: {} };
    await expect(page.journal.write([close])).rejects.toMatchObject({ key: "sync.not_understood" });
  });
});

describe("half-written items", () => {
  it("outlive the page, and go in the save that makes them whole", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.journal.draft.keep("wall", { defect: "nick", spots: [[1, 2]], photo: new Uint8Array([1]).buffer });
    const after = await phone.page();
    expect(await after.journal.draft.get("wall")).toMatchObject({ spots: [[1, 2]] });
    const room = { kind: "room.added" as const, module: MODULE, about: MODULE, body: { room: "den", name: "Den" } };
    await after.journal.write([room], [], { draft: "wall" });
    expect(await after.journal.draft.get("wall")).toBeUndefined();
  });
});

describe("ways out", () => {
  it("unsent work as a file, photos with it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged("first");
    const file = JSON.parse(await (await page.journal.exportUnsent()).text());
    expect(file).toMatchObject({ rakelight_unsent: 1, yard: "y1", device: "phone1", entries: [{ n: 1, by: INSPECTOR }], photos: [] });
  });

  it("says that the browser has cleared its storage, and how much was lost with it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    await page.counts.readState();
    const emptied = new Phone(phone.server);
    for (const [key, value] of phone.notes) emptied.notes.set(key, value);
    const after = await emptied.page();
    expect(after.journal.state.value).toMatchObject({ problem: "sync.evicted", lost: 1 });
    await after.people.signIn("Ines", "Ines-pass");
    await after.journal.syncNow();
    expect(after.journal.state.value).toMatchObject({ problem: null, lost: 0 });
  });

  it("a full phone keeps none of a save and says so", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const full = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementationOnce(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    await expect(page.logged()).rejects.toMatchObject({ key: "sync.no_room" });
    full.mockRestore();
    await page.logged();
    await page.journal.syncNow();
    expect(phone.server.entries.at(-1)?.n).toBe(1);
  });

  it("a full phone says that what is half written is only on the screen", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const full = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementationOnce(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    await expect(page.journal.draft.keep("half", { rh: 51 })).rejects.toMatchObject({ key: "sync.no_room" });
    expect(page.journal.state.value.problem).toBe("sync.no_room_half");
    full.mockRestore();
    await page.journal.syncNow();
    expect(page.journal.state.value.problem, "all was sent, but this is still on the screen only").toBe("sync.no_room_half");
    await page.journal.draft.keep("half", { rh: 52 });
    expect(page.journal.state.value.problem).toBeNull();
    expect(await page.journal.draft.get("half")).toEqual({ rh: 52 });
  });

  it("a full phone that cannot note which module is on the screen goes on, and notes it later", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const full = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    page.journal.drawn(MODULE);
    await page.journal.draft.get("after it");
    full.mockRestore();
    page.journal.drawn(MODULE);
    await page.journal.syncNow();
    expect(phone.server.calls.at(-1)?.open).toContain(MODULE);
  });

  it("a full phone asks again for what it could not take in, and says that it is full", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    const full = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    expect(await page.journal.syncNow()).toMatchObject({ key: "sync.no_room_half" });
    expect(page.journal.state.value).toMatchObject({ problem: "sync.no_room_half", unsent: 1 });
    full.mockRestore();
    expect(await page.journal.syncNow()).toBeNull();
    expect(page.journal.state.value).toMatchObject({ problem: null, unsent: 0 });
    expect(phone.server.entries.filter(({ about }) => about === item)).toHaveLength(1);
  });

  it("a connection that was lost is opened again and the save is tried once more", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const lost = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementationOnce(() => {
      throw new DOMException("closing", "InvalidStateError");
    });
    await page.logged();
    lost.mockRestore();
    await page.journal.syncNow();
    expect(phone.server.entries.filter(({ kind }) => kind === "item.logged")).toHaveLength(1);
  });
});
