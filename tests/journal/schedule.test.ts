import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Phone } from "./phone";
import { lostCall, status } from "./server";

let stop: () => void = () => undefined;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
});
afterEach(() => {
  stop();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** An attempt has ended when the next one has been put off to some time. */
async function putOff(): Promise<void> {
  while (vi.getTimerCount() === 0) await new Promise<void>((done) => setImmediate(done));
}

it("tries again for ever, at most a quarter of an hour apart, and sends as soon as it can", async () => {
  const phone = new Phone();
  await phone.ready();
  const page = await phone.page();
  phone.server.faults = Array.from({ length: 30 }, () => lostCall);
  stop = await page.journal.openJournal();
  await page.logged();
  for (let left = 30; left > 0; left = phone.server.faults.length) {
    await putOff();
    expect(page.journal.state.value).toMatchObject({ unsent: 1, problem: "sync.no_answer" });
    vi.advanceTimersByTime(900_000);
  }
  await putOff();
  vi.advanceTimersByTime(900_000);
  await putOff();
  expect(page.journal.state.value).toMatchObject({ unsent: 0, problem: null });
});

it("waits at least as long as a busy server asks, and then tries", async () => {
  const phone = new Phone();
  await phone.ready();
  const page = await phone.page();
  phone.server.faults.push(status(429, { "Retry-After": "600" }));
  const before = phone.server.calls.length;
  stop = await page.journal.openJournal();
  await putOff();
  vi.advanceTimersByTime(599_000);
  expect(vi.getTimerCount()).toBe(1);
  vi.advanceTimersByTime(2_000);
  await putOff();
  expect(phone.server.calls.length).toBe(before + 1);
});

it("a write goes at once, without waiting for the next time", async () => {
  const phone = new Phone();
  await phone.ready();
  const page = await phone.page();
  stop = await page.journal.openJournal();
  await putOff();
  await page.logged();
  await putOff();
  expect(phone.server.entries.at(-1)?.kind).toBe("item.logged");
});
