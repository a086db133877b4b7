import { afterEach, describe, expect, it, vi } from "vitest";
import { sha256 } from "../../webclient/src/rules";
import { Phone, type Page } from "./phone";
import { changed, lostReply, MODULE, portal, status } from "./server";

afterEach(() => vi.unstubAllGlobals());

async function photographed(page: Page, ...bytes: number[]): Promise<string> {
  const data = new Uint8Array(bytes);
  const hash = await sha256(data);
  const body = { sha256: hash, bytes: data.length, px: [2, 2] as [number, number], shows: "wall" as const, items: [], marks: [] };
  const draft = { kind: "photo.added" as const, module: MODULE, about: page.clock.newId(), body };
  await page.journal.write([draft], [{ sha256: hash, bytes: data.buffer, media: "image/jpeg" }]);
  return hash;
}

describe("the shelf", () => {
  it("sends a photo after its entry, and keeps the bytes 30 days after the server has confirmed them", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const hash = await photographed(page, 1, 2, 3);
    expect(await page.photos.unsentPhotos("waiting")).toEqual([hash]);
    expect(await page.journal.syncNow()).toBeNull();
    expect([...(phone.server.photos.get(hash) ?? [])]).toEqual([1, 2, 3]);
    expect(page.journal.state.value.photosUnsent).toBe(0);
    expect((await page.photos.onShelf(hash))?.state).toBe("sent");
    phone.millis += 31 * 86_400_000;
    await page.keep.dropOld();
    expect(await page.photos.onShelf(hash)).toBeUndefined();
  });

  it.each([
    ["the reply is lost", lostReply, "sync.no_answer"],
    ["a captive portal says 200", portal, "sync.not_ours"],
    ["the server names another hash", changed(() => ({ sha256: "0".repeat(64) })), "sync.wrong_hash"],
    ["the server's disk is full", status(507), "sync.server_full"],
    ["the photo is refused", status(415), "sync.refused"],
  ])("keeps it when %s", async (_name, fault, problem) => {
    const phone = new Phone();
    const page = await phone.ready();
    const hash = await photographed(page, 1, 2, 3);
    phone.server.photoFaults.push(fault);
    expect((await page.journal.syncNow())?.key).toBe(problem);
    expect(page.journal.state.value).toMatchObject({ unsent: 0, photosUnsent: 1, problem });
    expect((await page.photos.onShelf(hash))?.bytes.byteLength).toBe(3);
    expect(await page.journal.syncNow()).toBeNull();
    expect(phone.server.photos.has(hash)).toBe(true);
    expect(page.journal.state.value).toMatchObject({ photosUnsent: 0, problem: null });
  });

  it("one refused photo does not hold up the others", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await photographed(page, 1);
    await photographed(page, 2);
    phone.server.photoFaults.push(status(415));
    await page.journal.syncNow();
    expect(phone.server.photos.size).toBe(1);
    expect(page.journal.state.value.photosUnsent).toBe(1);
  });

  it("one photo of two entries is kept once and goes once", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    await photographed(page, 5);
    await photographed(page, 5);
    await page.journal.syncNow();
    expect(phone.server.photos.size).toBe(1);
    expect(phone.server.entries.filter(({ kind }) => kind === "photo.added")).toHaveLength(2);
  });

  it("goes again after an older backup came back without its entry", async () => {
    const phone = new Phone();
    const page = await phone.ready();
    const hash = await photographed(page, 1, 2, 3);
    await page.journal.syncNow();
    phone.server.restore(3, "e2");
    phone.server.photos.clear();
    expect(await page.journal.syncNow()).toBeNull();
    expect(phone.server.photos.has(hash)).toBe(true);
  });

  it("shrinks to 2048 on the long side and never enlarges", async () => {
    const { shrunk } = (await new Phone().page()).photos;
    expect(shrunk(4096, 3000)).toEqual([2048, 1500]);
    expect(shrunk(3000, 4096)).toEqual([1500, 2048]);
    expect(shrunk(800, 600)).toEqual([800, 600]);
    expect(shrunk(10_000, 1)).toEqual([2048, 1]);
  });
});

describe("pictures", () => {
  const address = (): void => {
    vi.stubGlobal("URL", class extends URL {
      static override createObjectURL = (blob: Blob): string => `blob:${blob.size}`;
    });
  };
  const noSignal = (): void => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("fetch failed")));
  };

  it("of this phone and those that were looked at are there with no signal, others are the server's address", async () => {
    address();
    const phone = new Phone();
    const page = await phone.ready();
    const own = await photographed(page, 1, 2, 3);
    const theirs = "a".repeat(64);
    phone.server.photos.set(theirs, new Uint8Array(5));
    expect(await page.photos.pictureOf(theirs, "thumb")).toBe("blob:5");
    noSignal();
    const after = await phone.page();
    noSignal();
    expect(await after.photos.pictureOf(own, "screen")).toBe("blob:3");
    expect(await after.photos.pictureOf(theirs, "screen")).toBe("blob:5");
    expect(await after.photos.pictureOf("b".repeat(64), "thumb")).toBe(`/api/photos/${"b".repeat(64)}/thumb.jpg`);
  });

  it("of unfinished items are fetched ahead", async () => {
    address();
    const phone = new Phone();
    const page = await phone.ready();
    const hashes = ["a", "b", "c"].map((letter) => letter.repeat(64));
    for (const hash of hashes) phone.server.photos.set(hash, new Uint8Array(4));
    await page.photos.bringPictures(hashes.slice(0, 2), "screen");
    noSignal();
    expect(await page.photos.pictureOf(hashes[1] ?? "", "screen")).toBe("blob:4");
    expect(await page.photos.pictureOf(hashes[2] ?? "", "screen")).toContain("/api/");
  });

  it("are not taken from a captive portal", async () => {
    address();
    const phone = new Phone();
    const page = await phone.ready();
    phone.server.photoFaults.push(portal);
    expect(await page.photos.pictureOf("a".repeat(64), "thumb")).toContain("/api/");
  });
});
