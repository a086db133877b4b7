import { afterEach, describe, expect, it, vi } from "vitest";
import { Phone } from "./phone";
import { json, MODULE } from "./server";
import { uuid } from "./ids";

afterEach(() => vi.unstubAllGlobals());

type Reply = (ask: Record<string, unknown>) => Response;

/** Answers releases one after the other; what was asked. */
function releases(phone: Phone, ...replies: Reply[]): Record<string, unknown>[] {
  const asked: Record<string, unknown>[] = [];
  vi.stubGlobal("fetch", async (path: string, init: RequestInit) => {
    if (path !== "/api/release") return phone.server.fetch(path, init);
    const ask = JSON.parse(String(init.body)) as Record<string, unknown>;
    asked.push(ask);
    const reply = replies.shift();
    if (!reply) throw new Error("no reply left");
    return reply(ask);
  });
  return asked;
}

const lost: Reply = () => {
  throw new TypeError("fetch failed");
};
const given: Reply = ({ id }) => {
  const fields = { id: uuid(50), device: "server", n: 40, prev: null, epoch: "e1", seen: 3, at: "2026-12-02T14:00:00Z" };
  const body = { release: id, holds_answered: [], by: uuid(1) };
  const rest = { by: "server", module: MODULE, about: MODULE, kind: "release.given", body, rules: 1 };
  return json({ entry: { ...fields, ...rest, seq: 9, time: "2026-12-02T14:00:00Z", let_in: 0, seen_to: 3, chain: "c" } });
};
const refused: Reply = () =>
  json({ type: "urn:x:held", status: 409, holds: [{ key: "items_open", lifts: "crew_lead", seq: 4 }], reason: "held" }, 409);
const behind: Reply = () => json({ type: "urn:x:behind", status: 409, holds: [] }, 409);

describe("asking for a release", () => {
  it("asks the same again after a lost answer, and anew after an answer", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const asked = releases(phone, lost, refused, behind);
    await expect(page.journal.askRelease(MODULE)).rejects.toMatchObject({ key: "sync.no_answer" });
    const after = await phone.page();
    const again = releases(phone, refused, behind);
    expect(await after.journal.askRelease(MODULE)).toMatchObject({ holds: [{ key: "items_open" }], behind: false });
    expect(await after.journal.askRelease(MODULE)).toMatchObject({ holds: [], behind: true });
    expect(again[0]?.["id"]).toBe(asked[0]?.["id"]);
    expect(again[1]?.["id"]).not.toBe(asked[0]?.["id"]);
    expect(asked[0]).toMatchObject({ module: MODULE, device: "phone1", epoch: "e1", seen: 3, chain: "e1-3" });
  });

  it("keeps the release whole, and offers it again to a server that has come back older", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    releases(phone, given);
    expect(await page.journal.askRelease(MODULE)).toMatchObject({ given: { id: uuid(50), kind: "release.given" } });
    await page.journal.syncNow();
    expect(offered(phone)).toEqual([]);
    phone.server.restore(3, "e2");
    phone.server.refuse.set("release.given", "release_offered");
    expect(await page.journal.syncNow()).toBeNull();
    expect(offered(phone)).toEqual([uuid(50)]);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
  });

  it("is not asked from a screen that shows less than has come in", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const drawn = page.journal.drawnFrom({ module: MODULE });
    await page.logged();
    await expect(page.journal.askRelease(MODULE, drawn)).rejects.toMatchObject({ key: "sync.redraw" });
  });
});

function offered({ server }: Phone): string[] {
  return server.calls.flatMap(({ entries }) => entries.filter(({ kind }) => kind === "release.given").map(({ id }) => id));
}
