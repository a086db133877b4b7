import { afterEach, describe, expect, it, vi } from "vitest";
import { Phone } from "./phone";
import { CREW, INSPECTOR, lostCall, MODULE } from "./server";

afterEach(() => vi.unstubAllGlobals());

const noSignal = (): void => {
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("fetch failed")));
};

describe("who holds the phone", () => {
  it("is still known after the page was closed, with no signal", async () => {
    const phone = new Phone();
    await phone.ready();
    const after = await phone.page();
    noSignal();
    expect(after.people.session.value.holder).toMatchObject({ id: INSPECTOR, name: "Ines", roles: ["inspector"] });
    expect(await after.logged()).toBeTruthy();
  });

  it("changes offline with the passcode of somebody who has signed in here; each signs their own entries", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.people.signIn("Cruz", "Cruz-pass");
    noSignal();
    expect(await page.people.switchTo(INSPECTOR, "wrong")).toEqual({ ok: false, key: "signin.wrong", seconds: 0 });
    expect(page.people.session.value.holder?.id).toBe(CREW);
    await page.logged("by Cruz");
    expect(await page.people.switchTo(INSPECTOR, "Ines-pass")).toEqual({ ok: true });
    await page.logged("by Ines");
    vi.stubGlobal("fetch", phone.server.fetch);
    await page.journal.syncNow();
    expect(phone.server.entries.slice(-2).map(({ by, n, device }) => [by, n, device])).toEqual([
      [CREW, 1, "phone1"],
      [INSPECTOR, 2, "phone1"],
    ]);
    expect(phone.server.devices).toBe(1);
  });

  it("names one secret of the phone's own, whoever signs in and however often the page was closed", async () => {
    const phone = new Phone();
    await phone.ready();
    const page = await phone.page();
    await page.people.signIn("Cruz", "Cruz-pass");
    expect([...phone.server.keys]).toEqual([expect.stringMatching(/^[0-9a-f]{64}$/)]);
  });

  it("has to wait after five wrong passcodes, longer each time", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    for (let tries = 0; tries < 5; tries += 1) await page.people.switchTo(INSPECTOR, "no");
    expect(await page.people.switchTo(INSPECTOR, "Ines-pass")).toMatchObject({ key: "signin.wait", seconds: 30 });
    phone.millis += 31_000;
    await page.people.switchTo(INSPECTOR, "no");
    expect(await page.people.switchTo(INSPECTOR, "Ines-pass")).toMatchObject({ key: "signin.wait", seconds: 60 });
    phone.millis += 61_000;
    expect(await page.people.switchTo(INSPECTOR, "Ines-pass")).toEqual({ ok: true });
  });

  it("signing out keeps unsent work and forgets the yard; the next person's sign-in sends it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    phone.server.faults.push(lostCall);
    await page.people.signOut();
    await page.read();
    expect(page.people.session.value).toMatchObject({ holder: null, people: [] });
    expect(page.journal.all("module").value).toEqual([]);
    expect(page.journal.state.value.unsent).toBe(1);
    await page.people.signIn("Cruz", "Cruz-pass");
    await page.journal.syncNow();
    await page.journal.syncNow();
    expect(phone.server.entries.at(-1)).toMatchObject({ about: item, by: INSPECTOR, n: 1 });
    expect(page.journal.partNow("module", MODULE)).toBeDefined();
  });

  it("an enrolment that the server ends with work unsent leaves that work here, counted, said and in the file", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    await page.db.saving(["meta"], async (tx) => {
      const told = await page.db.fact(tx, "enrolment");
      if (told) await page.db.setFact(tx, "enrolment", { ...told, yard: "an older yard" });
    });
    await page.people.signIn("Ines", "Ines-pass");
    const next = await page.logged();
    await page.journal.syncNow();
    expect(phone.server.entries.at(-1)).toMatchObject({ about: next, n: 1, prev: null });
    expect(page.journal.state.value).toMatchObject({ unsent: 1, stranded: 1, problem: "sync.stranded" });
    const file = JSON.parse(await (await page.journal.exportUnsent()).text());
    expect(file.entries).toMatchObject([{ about: item }]);
  });

  it("no passcode is kept as it is", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const kept = await page.db.reading(["people"], (tx) => tx.objectStore("people").getAll());
    expect(JSON.stringify(kept)).not.toContain("Ines-pass");
    expect(kept[0]?.rounds).toBeGreaterThan(100_000);
  });

  it("a wrong passcode at the server, and no signal, say so and change nothing", async () => {
    const phone = new Phone();
    const page = await phone.page();
    expect(await page.people.signIn("Ines", "no")).toMatchObject({ ok: false, key: "signin.wrong" });
    noSignal();
    expect(await page.people.signIn("Ines", "Ines-pass")).toMatchObject({ ok: false, key: "signin.no_signal" });
    expect(page.people.session.value.holder).toBeNull();
  });

  it("an address without https says that the phone cannot work there, before the server has made an enrolment", async () => {
    const phone = new Phone();
    const page = await phone.page();
    const asked = vi.fn(phone.server.fetch);
    vi.stubGlobal("fetch", asked);
    vi.stubGlobal("crypto", { getRandomValues: crypto.getRandomValues.bind(crypto) });
    expect(await page.people.signIn("Ines", "Ines-pass")).toEqual({ ok: false, key: "signin.insecure", seconds: 0 });
    expect(asked).not.toHaveBeenCalled();
  });
});
