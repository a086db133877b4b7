/** What a tick and a clear mean for the walls they are on: which coat is laid, what stops it, which entries one press makes. */
import { describe, expect, it } from "vitest";
import { placeOf, seconds, type AirPart, type CoatPart, type DefectKey, type ItemPart, type ModulePart, type Part, type Place } from "../../webclient/src/rules";
import { otherBatches } from "../../webclient/src/screens/coats/paints";
import { anotherCan, goesOn, NOTHING_SAID, paintedOn, wallDrafts, whyNotOn, type Said } from "../../webclient/src/screens/crew/rework";
import { wallsOf, type OnWall, type Press } from "../../webclient/src/screens/crew/walls";

const LAID = "2026-12-01T14:00:00Z";
const at = (hours: number): number => seconds(LAID) + hours * 3600;
const module: ModulePart = {
  part: "module", id: "m", module: "m", seq: 1, last_number: 0, left: null, release: null, releases: [], answers: [], phone_answers: {}, lines: [],
  rooms: ["hall", "bath"].map((room) => ({ room, name: room, seq: 1 })), heads: {},
};
const item = (id: string, surface: string, ticks: string[], told: { defect?: DefectKey; room?: string } = {}): ItemPart =>
  ({
    part: "item", id, module: "m", seq: 2, number: 1, state: "open", ticks,
    heads: { defect: [[told.defect ?? "nick", [2, "d", 1, 0], "p"]], spot: [[{ room: told.room ?? "bath", surface }, [2, "d", 1, 0], "p"]] },
  }) as unknown as ItemPart;
const cell = { objections: {}, wet: null, dry: null, restart: null };
const coat = (id: string, told: Partial<CoatPart>): CoatPart => ({
  part: "coat", id, module: "m", seq: 2, ref: [2, "d", 1, 0], coat: "fill", rooms: ["bath"], surface: "B", material: "drying_type", thickness: "normal", set_minutes: null, label_minutes: null,
  paint: null, laid: LAID, by: "p", done_by: [], time: LAID, unsure: 0, early: null, over: [], items: ["i1"], covered_by: [], objections: {}, answer: null, void: null, since: 2, lines: [],
  cells: Object.fromEntries((told.rooms ?? ["bath"]).map((room) => [room, cell])),
  ...told,
});
/** 70 °F, 50 %: about 17 and 20 hours. */
const air: AirPart = { part: "air", id: "a", module: "m", seq: 3, stream: "s", where: "module", room: null, day: "2026-12-01", rows: [0, 3, 6, 9, 12, 15, 18, 21].map((hour) => [at(hour), 211, 50, 13_411_000, null, "hand", "p", null]) };
const yard = (...parts: Part[]): Place => placeOf("m", [module, air, ...parts]);
const on = (press: Press, items: ItemPart[], place: Place, hour: number): OnWall[] => wallsOf(press, items, () => place, at(hour));
const entries = (walls: OnWall[], said: Partial<Said> = {}, hour = 1) =>
  wallDrafts(walls, { ...NOTHING_SAID, ...said }, at(hour), []).map(({ kind, about, body }) => [kind, kind === "coat.laid" ? null : about, body]);
const FILLED = ["fill"];
const SANDED = ["fill", "dry", "sand"];
const done = { rooms: ["bath"], surface: "B" };

describe("a tick that puts something on", () => {
  it("is one coat of its wall, however many nicks, in the same save", () => {
    const walls = on("tick", [item("i1", "B", []), item("i2", "B", []), item("i3", "D", [])], yard(), 0);
    expect(entries(walls)).toEqual([
      ["coat.laid", null, { coat: "fill", ...done, items: ["i1", "i2"], material: "drying_type" }],
      ["coat.laid", null, { coat: "fill", rooms: ["bath"], surface: "D", items: ["i3"], material: "drying_type" }],
    ]);
  });

  it("takes what the bag says, for compound alone", () => {
    const said = { setting: true, set: "45" };
    expect(entries(on("tick", [item("i1", "B", [])], yard(), 0), said)[0]?.[2]).toMatchObject({ material: "setting_type", set_minutes: 45 });
    expect(entries(on("tick", [item("i1", "B", SANDED)], yard(), 0), said)[0]?.[2]).toMatchObject({ coat: "prime", material: "primer" });
    const walls = on("tick", [item("i1", "B", [])], yard(), 0);
    expect(whyNotOn(walls[0]?.items ?? [], walls, { ...NOTHING_SAID, setting: true, set: "soon" }, at(0))).toBe("set");
  });

  it("makes none where it is no coat, and none on trim and floor", () => {
    const place = yard();
    expect(entries(on("tick", [item("i1", "B", [], { defect: "gouge" }), item("i2", "B", [], { defect: "dirt" })], place, 0))).toEqual([]);
    expect(on("tick", [item("i1", "trim", []), item("i2", "floor", [])], place, 0)).toEqual([]);
  });

  it("is the paint that is on the room, where somebody says so", () => {
    const paint = { product: "Eggshell 40", batch: "L2231", can: "shed 2" };
    const place = yard(coat("p2", { coat: "paint_2", material: "latex", surface: null, items: [], paint }));
    const walls = on("tick", [item("i1", "B", [...SANDED, "prime"])], place, 21);
    expect(entries(walls, { same: true })[0]?.[2]).toMatchObject({ coat: "touch_up", paint });
    expect(entries(walls)[0]?.[2]).not.toHaveProperty("paint");
    expect(entries(on("tick", [item("i1", "B", SANDED)], place, 21), { same: true })[0]?.[2]).not.toHaveProperty("paint");
  });

  it("is of another can where somebody says so, whatever was used before", () => {
    const place = yard(coat("p2", { coat: "paint_2", material: "latex", surface: null, items: [], paint: { product: "Eggshell 40", batch: "L2231" } }));
    const walls = on("tick", [item("i1", "B", [...SANDED, "prime"])], place, 21);
    expect(entries(walls, { another: true, same: true, can: { batch: " L-9 " } })[0]?.[2]).toMatchObject({ coat: "touch_up", paint: { batch: "L-9" } });
    expect(entries(walls, { another: true, same: true, can: { batch: " " } })[0]?.[2]).not.toHaveProperty("paint");
    expect(entries(on("tick", [item("i1", "B", SANDED)], place, 21), { another: true, can: { batch: "L-9" } })[0]?.[2]).not.toHaveProperty("paint");
    const unknown = on("clear", [item("i1", "B", SANDED)], yard(), 21);
    expect(unknown[0]?.paint).toBeNull();
    expect(entries(unknown, { another: true, can: { product: "Flat 10" } })[0]?.[2]).toMatchObject({ coat: "touch_up", paint: { product: "Flat 10" } });
  });

  it("is mostly of the same product and colour, where all walls have one", () => {
    const painted = (id: string, room: string, paint: CoatPart["paint"]) => coat(id, { coat: "paint_2", material: "latex", surface: null, items: [], rooms: [room], paint });
    const ready = (room: string) => item(room, "B", [...SANDED, "prime"], { room });
    const place = yard(painted("p1", "bath", { product: "Eggshell 40", colour: "oat", batch: "L1" }), painted("p2", "hall", { product: "Eggshell 40", colour: "bone", batch: "L2" }));
    const can = { batch: "L9" };
    expect(anotherCan(on("tick", [ready("bath")], place, 21), { ...NOTHING_SAID, can })).toEqual({ product: "Eggshell 40", colour: "oat", batch: "L9", can: "" });
    expect(anotherCan(on("tick", [ready("bath"), ready("hall")], place, 21), { ...NOTHING_SAID, can })).toMatchObject({ product: "Eggshell 40", colour: "" });
    expect(anotherCan(on("tick", [ready("bath")], place, 21), { ...NOTHING_SAID, can: { ...can, colour: "" } })).toMatchObject({ product: "Eggshell 40", colour: "" });
    const half = yard(painted("p1", "bath", { product: "Eggshell 40" }));
    expect(anotherCan(on("tick", [ready("bath"), ready("hall")], half, 21), NOTHING_SAID)).toMatchObject({ product: "" });
  });

  it("of another batch than the wall has is said before the press, and is what is offered next", () => {
    const whole = coat("p2", { coat: "paint_2", material: "latex", surface: null, items: [], rooms: ["bath", "hall"], paint: { product: "Eggshell 40", batch: "L1" } });
    const ready = (id: string, surface: string, room = "bath") => item(id, surface, [...SANDED, "prime"], { room });
    const another: Said = { ...NOTHING_SAID, another: true, can: { batch: "L9" } };
    const both = on("tick", [ready("i1", "B"), ready("i2", "B", "hall")], yard(whole), 21);
    expect(otherBatches(paintedOn(both, another))).toEqual([{ module: "m", rooms: ["bath", "hall"], before: "L1" }]);
    expect(otherBatches(paintedOn(both, { ...NOTHING_SAID, same: true }))).toEqual([]);
    const touched = yard(whole, coat("t", { coat: "touch_up", material: "latex", laid: "2026-12-01T15:00:00Z", items: ["i0"], paint: { batch: "L9" } }));
    const same: Said = { ...NOTHING_SAID, same: true };
    const [wall] = on("tick", [ready("i1", "B")], touched, 21);
    expect([wall?.paint, wall?.before]).toEqual([{ batch: "L9" }, "L9"]);
    // The last can is offered on the next wall too, which still has the batch of the room.
    const next = on("tick", [ready("i3", "D")], touched, 21);
    expect(next[0]?.paint).toEqual({ batch: "L9" });
    expect(otherBatches(paintedOn(next, same))).toEqual([{ module: "m", rooms: ["bath"], before: "L1" }]);
    // The first can once more: what was used last counts, not what came last for the first time.
    const back = yard(...[whole, coat("t", { coat: "touch_up", laid: "2026-12-01T15:00:00Z", paint: { batch: "L9" } }), coat("u", { coat: "touch_up", laid: "2026-12-01T16:00:00Z", paint: { product: "Eggshell 40", batch: "L1" } })]);
    expect(on("tick", [ready("i1", "B")], back, 21)[0]?.paint?.batch).toBe("L1");
  });

  it("of several sorts at once on a wall is the one that dries last", () => {
    const [wall] = on("tick", [item("i1", "B", SANDED), item("i2", "B", [])], yard(), 0);
    expect([wall?.coat, wall?.of]).toEqual(["fill", ["i2"]]);
  });

  it("beside a wet nick of the same wall needs no word; over it, it does", () => {
    const place = yard(coat("c1", {}));
    const [other] = on("tick", [item("i2", "B", [])], place, 1);
    expect(other?.ready).toBe(true);
    expect(entries(other ? [other] : [])[0]?.[2]).toMatchObject({ over: ["c1"], items: ["i2"] });
    expect(on("tick", [item("i1", "B", SANDED)], place, 1)[0]?.ready).toBe(false);
    expect(on("tick", [item("i3", "B", SANDED)], place, 1)[0]?.ready).toBe(false);
    expect(on("tick", [item("i4", "D", SANDED)], place, 1)[0]?.ready).toBe(true);
  });
});

describe("a wall that is not dry", () => {
  const place = yard(coat("c1", {}));
  const dry = item("i1", "B", FILLED);
  const sand = item("i1", "B", ["fill", "dry"]);

  it("stops what says that it is, or needs it so, until the table's time", () => {
    for (const one of [dry, sand]) {
      const walls = on("tick", [one], place, 1);
      expect(walls.map(({ ready, coat: laid }) => [ready, laid])).toEqual([[false, null]]);
      expect(whyNotOn([one], walls, NOTHING_SAID, at(1))).toBe("under");
      expect(on("tick", [one], place, 21)[0]?.ready).toBe(true);
    }
    expect(entries(on("tick", [dry], place, 21))).toEqual([]);
  });

  it("is left out, with its items", () => {
    const other = item("i9", "D", FILLED);
    const walls = on("tick", [dry, other], place, 1);
    const said: Said = { ...NOTHING_SAID, way: "leave" };
    expect(goesOn([dry, other], walls, said).items).toEqual([other]);
    expect(whyNotOn([dry, other], walls, said, at(1))).toBeNull();
    expect(whyNotOn([dry], on("tick", [dry], place, 1), said, at(1))).toBe("walls_left");
  });

  it("was looked at: before the table's time with a reason and what was tried, one look for a coat on two walls", () => {
    const room = yard(coat("c1", { surface: null, coat: "texture", material: "texture", items: [] }));
    const items = [item("i1", "A", SANDED), item("i2", "B", SANDED)];
    const walls = on("tick", items, room, 1);
    const said: Partial<Said> = { way: "looked", tried: ["powder"], reason: "fan all night" };
    expect(whyNotOn(items, walls, { ...NOTHING_SAID, way: "looked" }, at(1))).toBe("tried");
    expect(whyNotOn(items, walls, { ...NOTHING_SAID, ...said, reason: "" }, at(1))).toBe("reason");
    expect(entries(walls, said).map(([kind, about]) => [kind, about])).toEqual([["coat.found_dry", "c1"], ["coat.laid", null], ["coat.laid", null]]);
    expect(entries(walls, said)[0]?.[2]).toEqual({ rooms: ["bath"], tried: ["powder"], reason: "fan all night" });
  });

  it("is covered anyway with the reason, by what covers", () => {
    const prime = item("i1", "B", SANDED);
    const said: Partial<Said> = { way: "early", reason: " truck at 7 " };
    expect(entries(on("tick", [prime], place, 1), said)[0]?.[2]).toMatchObject({ coat: "prime", over: ["c1"], early: "truck at 7" });
    expect(whyNotOn([sand], on("tick", [sand], place, 1), { ...NOTHING_SAID, ...said }, at(1))).toBe("no_cover");
  });

  it("that is sanded wet begins to dry again, and needs no dry joint for it", () => {
    const walls = on("tick", [sand], place, 1);
    expect(whyNotOn([sand], walls, { ...NOTHING_SAID, wet: true }, at(1))).toBeNull();
    expect(entries(walls, { wet: true })).toEqual([["coat.wet_sanded", "c1", { rooms: ["bath"] }]]);
    const paint = yard(coat("c2", { coat: "paint_2", material: "latex", surface: null }));
    expect(entries(on("tick", [sand], paint, 30), { wet: true })).toEqual([]);
  });

  it("takes compound over setting-type compound that has set, and is then as good as dry for it alone", () => {
    const set = yard(coat("c1", { material: "setting_type", set_minutes: 45 }));
    const dent = item("i1", "B", FILLED, { defect: "dent" });
    expect(on("tick", [dent], set, 1)[0]?.ready).toBe(true);
    expect(on("tick", [item("i1", "B", ["fill", "dry"], { defect: "dent" })], set, 1)[0]?.ready).toBe(true);
    expect(on("tick", [dry], set, 1)[0]?.ready).toBe(false);
  });
});

describe("a clear", () => {
  it("lays the last coat of what was never ticked, so that the gate waits for it", () => {
    const walls = on("clear", [item("i1", "B", []), item("i2", "B", SANDED)], yard(), 0);
    expect(entries(walls)).toEqual([["coat.laid", null, { coat: "touch_up", ...done, items: ["i1", "i2"], material: "latex" }]]);
  });

  it("lays none where the last was ticked, and asks nothing while that dries", () => {
    const place = yard(coat("c1", { coat: "touch_up", material: "latex" }));
    expect(on("clear", [item("i1", "B", [...SANDED, "prime", "paint"])], place, 1)).toEqual([]);
  });

  it("is stopped over fresh fill, and not beside another nick's fresh paint", () => {
    expect(on("clear", [item("i2", "B", [])], yard(coat("c1", {})), 1)[0]?.ready).toBe(false);
    const painted = yard(coat("c1", { coat: "touch_up", material: "latex" }));
    expect(on("clear", [item("i2", "B", [])], painted, 1)[0]?.ready).toBe(true);
    expect(on("clear", [item("i1", "B", [])], painted, 1)[0]?.ready).toBe(false);
  });
});
