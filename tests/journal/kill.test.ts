import { afterEach, expect, it, vi } from "vitest";
import { sha256 } from "../../webclient/src/rules";
import { killedAt } from "./kill";
import { items, Phone, type Page } from "./phone";
import { MODULE } from "./server";

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

/** Two items with a photo of both in one save, sent; then one more, sent. Notes what was shown as saved. */
async function morning(page: Page, saved: string[][]): Promise<void> {
  const pair = [page.clock.newId(), page.clock.newId()];
  const body = { defect: "nick", room: "hall", surface: "B", light: "normal" } as const;
  const bytes = new Uint8Array([1, 2, 3, pair.length]);
  const hash = await sha256(bytes);
  const photo = { sha256: hash, bytes: 4, px: [2, 2] as [number, number], shows: "before" as const, items: [], marks: [] };
  await page.journal.write(
    [
      ...pair.map((about) => ({ kind: "item.logged" as const, module: MODULE, about, body })),
      { kind: "photo.added", module: MODULE, about: page.clock.newId(), body: photo },
    ],
    [{ sha256: hash, bytes: bytes.buffer, media: "image/jpeg" }],
  );
  saved.push(pair);
  await page.journal.syncNow();
  saved.push([await page.logged()]);
  await page.journal.syncNow();
}

it("a page killed at any touch of database or network loses nothing saved, keeps no half save and doubles nothing", async () => {
  vi.spyOn(crypto.subtle, "deriveBits").mockResolvedValue(new ArrayBuffer(32));
  let at = 0;
  for (let over = false; !over; ) {
    at += 1;
    const phone = new Phone();
    const before = await phone.ready();
    const saved: string[][] = [];
    over = await killedAt(at, () => morning(before, saved));
    const after = await phone.page();
    const shown = items(after);
    expect(saved.flat().filter((id) => !shown.includes(id)), `killed at ${at}`).toEqual([]);
    expect([0, 2, 3], `killed at ${at}`).toContain(shown.length);
    const photos = await after.photos.unsentPhotos("waiting");
    expect(photos.length + (await after.photos.unsentPhotos("ready")).length <= 1).toBe(true);
    expect(await after.journal.syncNow(), `killed at ${at}`).toBeNull();
    expect(items(after), `killed at ${at}`).toEqual(shown);
    const logged = phone.server.entries.filter(({ kind }) => kind === "item.logged");
    expect(logged.map(({ about }) => about).sort(), `killed at ${at}`).toEqual(shown);
    expect(phone.server.photos.size, `killed at ${at}`).toBe(shown.length >= 2 ? 1 : 0);
    expect(after.journal.state.value).toMatchObject({ unsent: 0, photosUnsent: 0, problem: null });
    await after.db.closeDb();
  }
  // Every await of writing and sending was tried.
  expect(at).toBeGreaterThan(80);
}, 60_000);
