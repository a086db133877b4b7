import { afterEach, describe, expect, it, vi } from "vitest";
import { items, Phone } from "./phone";
import { changed, cutShort, FakeServer, lostCall, lostReply, MODULE, portal, status } from "./server";

afterEach(() => vi.unstubAllGlobals());

const onServer = (server: FakeServer): string[] =>
  server.entries.filter(({ kind }) => kind === "item.logged").map(({ about }) => about).sort();

describe("a round trip", () => {
  it("shows an item at once, sends it, and shows the same afterwards", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    expect(page.journal.partNow("item", item)).toMatchObject({ number: 1, state: "open" });
    await page.counts.readState();
    expect(page.journal.state.value).toMatchObject({ unsent: 1, problem: null });
    expect(await page.journal.syncNow()).toBeNull();
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null, lastSent: "2026-12-02T14:00:00.000Z" });
    expect(page.journal.partNow("item", item)?.seq).toBe(4);
    expect(page.parts.pending.value).toEqual([]);
  });

  it("gives each entry its count, its forerunner and what its author had seen", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await page.logged();
    await page.logged();
    await page.journal.syncNow();
    const [first, second] = phone.server.entries.slice(-2);
    expect(first).toMatchObject({ n: 1, prev: null, seen: 3, epoch: "e1", device: "phone1", rules: 1 });
    expect(second).toMatchObject({ n: 2, prev: first?.id, seen: 3 });
    expect(first?.at).toMatch(/^2026-12-0[123]T\d\d:59:00[+-]\d\d:\d\d$/);
  });

  it("pushes in order, at most 500 at a time", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const draft = () => ({
      kind: "item.logged" as const,
      module: MODULE,
      about: page.clock.newId(),
      body: { defect: "nick", room: "hall", surface: "B" as const, light: "normal" as const },
    });
    await page.journal.write(Array.from({ length: 501 }, draft));
    await page.journal.syncNow();
    expect(phone.server.calls.slice(1).map(({ entries }) => entries.length)).toEqual([500, 1]);
    expect(onServer(phone.server)).toHaveLength(501);
  });

  it("tells which modules it works on", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    page.journal.drawn(MODULE);
    await page.logged();
    await page.journal.syncNow();
    expect(phone.server.calls.at(-1)).toMatchObject({ open: [MODULE], last_n: 1 });
  });

  it("reckons its own now by the clock error last measured", async () => {
    const phone = new Phone();
    phone.millis -= 3 * 86_400_000;
    const page = await phone.ready();
    expect(page.clock.nowStamp().slice(0, 16)).toBe("2026-12-02T14:00");
    expect(page.clock.localTime().slice(0, 10)).toBe("2026-11-29");
  });
});

describe("what goes wrong keeps everything", () => {
  const cases: [string, FakeServer["faults"][number], string][] = [
    ["the reply is lost", lostReply, "sync.no_answer"],
    ["the call is lost", lostCall, "sync.no_answer"],
    ["a captive portal says 200", portal, "sync.not_ours"],
    ["JSON of somebody else", changed(() => ({ ok: true })), "sync.not_ours"],
    ["our shape without the marker", changed((body) => ({ ...body, rakelight: 2 })), "sync.not_ours"],
    ["the reply breaks off", cutShort, "sync.cut_short"],
    ["the session has run out", status(401), "sync.sign_in_again"],
    ["too many calls", status(429, { "Retry-After": "7" }), "sync.busy"],
    ["the server breaks", status(500), "sync.server_trouble"],
    ["the server's disk is full", status(507), "sync.server_full"],
    ["one entry is too big", status(413), "sync.too_big"],
    ["a verdict with another hash", changed(otherHash), "sync.wrong_hash"],
    ["a verdict about nothing that was sent", changed(otherId), "sync.wrong_hash"],
  ];
  it.each(cases)("%s", async (_name, fault, problem) => {
    const phone = new Phone();
    const page = await phone.ready();
    const item = await page.logged();
    phone.server.faults.push(fault);
    const trouble = await page.journal.syncNow();
    expect(trouble?.key).toBe(problem);
    expect(page.journal.state.value).toMatchObject({ unsent: 1, problem });
    expect(items(page)).toEqual([item]);
    if (problem === "sync.busy") expect(trouble?.waitSeconds).toBe(7);
    expect(await page.journal.syncNow()).toBeNull();
    expect(onServer(phone.server)).toEqual([item]);
    expect(items(page)).toEqual([item]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
  });

  it("a 401 in the middle of pages: work goes on, and signing in sends it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.page = 1;
    await page.logged();
    phone.server.faults.push((answer) => answer(), status(401));
    await page.logged();
    await page.journal.syncNow();
    expect(page.journal.state.value).toMatchObject({ signedIn: false, problem: "sync.sign_in_again" });
    await page.logged();
    expect(await page.people.signIn("Ines", "Ines-pass")).toEqual({ ok: true });
    await page.journal.syncNow();
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null, signedIn: true });
    expect(onServer(phone.server)).toEqual(items(page));
    expect(items(page)).toHaveLength(3);
  });

  it("a body that is too big goes in halves", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    for (let count = 0; count < 4; count += 1) await page.logged();
    phone.server.faults.push(status(413), status(413));
    expect(await page.journal.syncNow()).toBeNull();
    expect(phone.server.calls.slice(1).map(({ entries }) => entries.length)).toEqual([1, 1, 1, 1]);
  });
});

function otherHash(body: Record<string, unknown>): Record<string, unknown> {
  const verdicts = (body["verdicts"] as object[]).map((verdict) => ({ ...verdict, sha256: "0".repeat(64) }));
  return { ...body, verdicts };
}

function otherId(body: Record<string, unknown>): Record<string, unknown> {
  const verdicts = (body["verdicts"] as object[]).map((verdict) => ({ ...verdict, id: MODULE }));
  return { ...body, verdicts };
}

describe("pages", () => {
  it("screens read nothing of an answer until its last page, and one that was killed goes on", async () => {
    const phone = new Phone();
    const other = new Phone(phone.server);
    const page = await other.ready();
    for (let count = 0; count < 5; count += 1) await page.logged();
    await page.journal.syncNow();
    phone.server.page = 2;
    const first = await phone.page();
    await first.people.signIn("Ines", "Ines-pass");
    phone.server.faults.push((answer) => answer(), (answer) => answer(), lostCall);
    await first.journal.syncNow();
    expect(first.journal.all("item").value).toEqual([]);
    const second = await phone.page();
    expect(second.journal.all("item").value).toEqual([]);
    await second.journal.syncNow();
    expect(items(second)).toEqual(onServer(phone.server));
    expect(phone.server.calls.at(-1)?.cursor).toBeGreaterThan(0);
  });

  it("`seen` stays where the screens are while pages come in", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    for (let count = 0; count < 4; count += 1) phone.server.say("person.named", null, `p${count}`, { name: "P", roles: [] });
    phone.server.page = 1;
    phone.server.faults.push((answer) => answer(), lostCall);
    await page.journal.syncNow();
    await page.logged();
    await page.journal.syncNow();
    expect(phone.server.entries.at(-1)).toMatchObject({ kind: "item.logged", seen: 3 });
  });
});

describe("set aside", () => {
  it("leaves pending, stays here with its reason, and holds up nothing behind it", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.refuse.set("item.logged", "not_signed_in");
    await page.logged();
    await page.journal.syncNow();
    await page.read();
    expect(page.journal.state.value).toMatchObject({ unsent: 0, setAside: 1, problem: null });
    expect(items(page)).toEqual([]);
  });

  it("a broken count asks for a new enrolment as soon as everything is heard", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.refuse.set("item.logged", "broken_sequence");
    await page.logged();
    await page.journal.syncNow();
    expect(page.journal.state.value.problem).toBe("sync.enrol_anew");
    phone.server.refuse.clear();
    await page.people.signIn("Ines", "Ines-pass");
    const item = await page.logged();
    await page.journal.syncNow();
    expect(phone.server.entries.at(-1)).toMatchObject({ about: item, device: "phone2", n: 1, prev: null });
    expect(page.journal.state.value.problem).toBeNull();
  });
});
