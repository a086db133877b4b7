/** Which entries one press makes: laying over what is not ready, and looking. */
import { describe, expect, it } from "vitest";
import { laidDrafts, roomsLaid, whyNot, type Asks, type Laying, type Press, type Under } from "../../webclient/src/screens/coats/laying";
import { lookDrafts, meterOf, NO_LOOK, whyNotLook, type Looking, type Seen } from "../../webclient/src/screens/coats/looking";
import { NO_PAINT, otherBatches, type Painted } from "../../webclient/src/screens/coats/paints";

const asks: Asks = { set: false, label: false, paint: false };
const laying: Laying = { coat: "texture", rooms: ["hall", "bath"], material: "texture", thickness: "normal", set: "", label: "", earlier: "", paint: NO_PAINT, way: null, tried: [], reason: "" };
const hall: Under = { room: "hall", ready: true, waits: [], over: ["second"] };
const bath: Under = { room: "bath", ready: false, waits: [{ id: "second", before: true }], over: ["second", "fill"] };
const bed: Under = { room: "bed", ready: false, waits: [{ id: "second", before: true }], over: ["second"] };
const press: Press = { module: "m", id: "new", unders: [hall, bath, bed], laidAt: null, doneBy: [] };
const plain = { coat: "texture", material: "texture", thickness: "normal" };

describe("a coat goes on", () => {
  it("over dry coats, which it names", () => {
    const dry = { ...laying, rooms: ["hall"] };
    expect(whyNot(dry, press.unders, asks, null)).toBeNull();
    expect(laidDrafts(dry, asks, press)).toEqual([{ kind: "coat.laid", module: "m", about: "new", body: { ...plain, rooms: ["hall"], over: ["second"] } }]);
  });

  it("is stopped where what is under it is not ready, until somebody says what now", () => {
    expect(whyNot(laying, press.unders, asks, null)).toBe("under");
    expect(whyNot({ ...laying, rooms: [] }, press.unders, asks, null)).toBe("rooms");
  });

  it("leaves those rooms out", () => {
    const left = { ...laying, way: "leave" as const };
    expect(roomsLaid(left, press.unders)).toEqual(["hall"]);
    expect(laidDrafts(left, asks, press).map(({ body }) => body)).toEqual([{ ...plain, rooms: ["hall"], over: ["second"] }]);
    expect(whyNot({ ...left, rooms: ["bath"] }, press.unders, asks, null)).toBe("rooms_left");
  });

  it("after a tried look at every coat that it waits for, all in one save", () => {
    const walls = { ...bath, waits: [...bath.waits, { id: "fill", before: false }] };
    const looked = { ...laying, rooms: ["hall", "bath", "bed"], way: "looked" as const, tried: ["cut"], reason: "cut it, white through" };
    const drafts = laidDrafts(looked, asks, { ...press, unders: [hall, walls, bed], laidAt: "2026-12-02T14:00:00Z" });
    expect(drafts.map(({ kind, about, body }) => [kind, about, body])).toEqual([
      ["coat.found_dry", "second", { rooms: ["bath", "bed"], tried: ["cut"], reason: "cut it, white through", looked_at: "2026-12-02T14:00:00Z" }],
      ["coat.found_dry", "fill", { rooms: ["bath"], looked_at: "2026-12-02T14:00:00Z" }],
      ["coat.laid", "new", { ...plain, rooms: ["hall", "bath", "bed"], laid_at: "2026-12-02T14:00:00Z", over: ["second", "fill"] }],
    ]);
    expect(whyNot({ ...looked, tried: [] }, press.unders, asks, null)).toBe("tried");
    expect(whyNot({ ...looked, reason: " " }, press.unders, asks, null)).toBe("reason");
  });

  it("asks no reason for a look after the table's time", () => {
    const late = [{ ...bath, waits: [{ id: "second", before: false }] }];
    expect(whyNot({ ...laying, rooms: ["bath"], way: "looked" }, late, asks, null)).toBeNull();
  });

  it("anyway, with the reason", () => {
    const early = { ...laying, way: "early" as const, reason: " truck at 7 " };
    expect(whyNot({ ...early, reason: "" }, press.unders, asks, null)).toBe("reason");
    expect(laidDrafts(early, asks, press).map(({ kind, body }) => [kind, body])).toEqual([
      ["coat.laid", { ...plain, rooms: ["hall", "bath"], over: ["second", "fill"], early: "truck at 7" }],
    ]);
  });

  it("keeps no reason where nothing was covered early after all", () => {
    const body = laidDrafts({ ...laying, rooms: ["hall"], way: "early", reason: "truck" }, asks, press)[0]?.body;
    expect(body).not.toHaveProperty("early");
  });

  it("says what the bag and the can say", () => {
    const setting = { ...laying, rooms: ["hall"], material: "setting_type" as const, set: "45" };
    expect(laidDrafts(setting, { ...asks, set: true }, press)[0]?.body).toMatchObject({ material: "setting_type", set_minutes: 45 });
    for (const set of ["", "0", "4.5", "soon", "99999"]) expect(whyNot({ ...setting, set }, press.unders, { ...asks, set: true }, null), set).toBe("set");
    const paint = { ...laying, rooms: ["hall"], coat: "paint_1" as const, material: "latex" as const, label: "240", paint: { ...NO_PAINT, batch: " L22 ", can: "shed 2" } };
    const body = laidDrafts(paint, { set: false, label: true, paint: true }, { ...press, doneBy: ["p"] })[0]?.body;
    expect(body).toMatchObject({ label_minutes: 240, paint: { batch: "L22", can: "shed 2" }, done_by: ["p"] });
    expect(whyNot({ ...paint, label: "4 h" }, press.unders, { set: false, label: true, paint: true }, null)).toBe("label");
  });

  it("not later than now", () => {
    expect(whyNot({ ...laying, rooms: ["hall"], earlier: "2030-01-01T07:00" }, press.unders, asks, null)).toBe("earlier");
  });

  it("warns of another batch, where one is known", () => {
    const on = (batch: string, room: string, before: string, module = "m"): Painted => ({ module, room, batch, before });
    expect(otherBatches([on("l22 ", "hall", "L22"), on("l22 ", "bath", "L23"), on("l22 ", "bed", "")])).toEqual([{ module: "m", rooms: ["bath"], before: "L23" }]);
    expect(otherBatches([on(" ", "bath", "L23")])).toEqual([]);
  });

  it("warns room by room and module by module, those of one batch together and each once", () => {
    const on = (module: string, room: string, before: string): Painted => ({ module, room, batch: "L9", before });
    expect(otherBatches([on("m", "hall", "L22"), on("m", "bath", "L23"), on("m", "bed", "L22"), on("m", "hall", "L22"), on("n", "hall", "L22")])).toEqual([
      { module: "m", rooms: ["hall", "bed"], before: "L22" },
      { module: "m", rooms: ["bath"], before: "L23" },
      { module: "n", rooms: ["hall"], before: "L22" },
    ]);
  });
});

describe("a look", () => {
  const seen: Seen[] = [{ id: "tex", room: "hall", before: false }, { id: "tex", room: "bath", before: true }, { id: "fill", room: "bath", before: true }];
  const picked: Looking = { ...NO_LOOK, picked: { tex: ["hall", "bath", "gone"], fill: ["bath"], old: ["hall"] } };

  it("is one entry for each coat, of what still lies on top", () => {
    expect(lookDrafts({ ...picked, reason: "dark at the joint" }, seen, "m", ["p"])).toEqual([
      { kind: "coat.found_wet", module: "m", about: "tex", body: { rooms: ["hall", "bath"], text: "dark at the joint" } },
      { kind: "coat.found_wet", module: "m", about: "fill", body: { rooms: ["bath"], text: "dark at the joint" } },
    ]);
    expect(whyNotLook(NO_LOOK, seen)).toBe("pick");
  });

  it("that says dry before the table's time says why and what was tried", () => {
    const dry: Looking = { ...picked, found: "dry" };
    expect(whyNotLook(dry, seen)).toBe("tried");
    expect(whyNotLook({ ...dry, tried: ["powder"] }, seen)).toBe("reason");
    expect(whyNotLook({ ...dry, picked: { tex: ["hall"] } }, seen)).toBeNull();
    expect(lookDrafts({ ...dry, picked: { fill: ["bath"] }, tried: ["powder"], reason: "fan all night" }, seen, "m", [])).toEqual([
      { kind: "coat.found_dry", module: "m", about: "fill", body: { rooms: ["bath"], tried: ["powder"], reason: "fan all night" } },
    ]);
  });

  it("after wet sanding says who, and no meter", () => {
    expect(lookDrafts({ ...picked, found: "sanded", picked: { tex: ["bath"] }, scale: "wood", value: "12" }, seen, "m", ["p"])).toEqual([
      { kind: "coat.wet_sanded", module: "m", about: "tex", body: { rooms: ["bath"], done_by: ["p"] } },
    ]);
  });

  it("keeps a meter's reading with its scale, in tenths of a per cent", () => {
    const read = (value: string) => meterOf({ ...NO_LOOK, scale: "gypsum", value });
    expect(read("0.8")).toEqual({ scale: "gypsum", value: 8 });
    expect(read("12,5")).toEqual({ scale: "gypsum", value: 125 });
    for (const value of ["", "dry", "1.25", "101", "-1"]) expect(read(value), value).toBeUndefined();
    expect(meterOf(NO_LOOK)).toBeNull();
    expect(whyNotLook({ ...picked, scale: "wood", value: "x" }, seen)).toBe("meter");
  });
});
