/** No time stands anywhere without its doubts, and none without its day. */
import { beforeEach, describe, expect, it } from "vitest";
import { setDevice } from "../../webclient/src/clock";
import { placeOf, seconds, type Clock, type ClockFlag, type CoatPart, type Hold, type ItemPart } from "../../webclient/src/rules";
import { ends, holdWords, whenAfter, type Group, type ModuleView } from "../../webclient/src/screens/common";
import { stripWords, withDoubts } from "../../webclient/src/screens/coats/sentences";
import { topCoat } from "../../webclient/src/screens/coats/standing";
import { wallWords } from "../../webclient/src/screens/crew/wallWords";
import { underDoubts } from "../../webclient/src/screens/paint/sentences";
import { speak } from "../../webclient/src/words";
import { air, module, tape } from "./taped";

/** 2 pm, in UTC as no yard is here. */
const NOW = seconds("2026-12-02T14:00:00Z");
const plain = (text: string | null): string => (text ?? "").replaceAll("\u00a0", " ");
const view = { id: "m", module, rooms: [{ key: "bath", name: "Bath", plan: null }] } as unknown as ModuleView;
const OLD = "Cannot be relied on: The last reading is old: read the air again.";

beforeEach(() => setDevice({ millis: () => NOW * 1000, bytes: (count) => new Uint8Array(count) }));

describe("a hold", () => {
  const line = (told: Partial<Hold>, ...flags: ClockFlag[]): string => plain(holdWords(view, { lifts: "waiting", seq: 2, id: "c", coat: "tape", rooms: ["bath"], likely: "2026-12-03T00:49:00Z", by_table: "2026-12-03T03:53:00Z", flags, ...told } as Hold).line);

  it("of time says why that time cannot be relied on, and nothing where it can", () => {
    expect(line({ key: "coat_wet" })).toBe("tomorrow 12:49 am likely, 3:53 am by the table");
    expect(line({ key: "coat_wet" }, "heated")).toBe("tomorrow 12:49 am likely, 3:53 am by the table");
    expect(line({ key: "coat_wet" }, "stale")).toBe(`tomorrow 12:49 am likely, 3:53 am by the table. ${OLD}`);
  });
  it("of a look says what of", () => expect(line({ key: "coat_look", why: "unsure" }, "gap")).toBe("Cannot be relied on: More than 4 hours without a reading."));
});

describe("before paint", () => {
  it("says of what lies under why its time cannot be relied on", () => {
    expect(underDoubts(placeOf("m", [module, tape, air("module", 0)]), "bath", NOW)).toEqual(["The last reading is old: read the air again."]);
    expect(underDoubts(placeOf("m", [module, tape, air("module", 0, 3, 6)]), "bath", NOW)).toEqual([]);
    expect(underDoubts(placeOf("m", [module]), "bath", NOW)).toEqual([]);
    // Also of what is dry sooner than the tape.
    const prime: CoatPart = { ...tape, id: "c2", seq: 4, ref: [4, "d", 2, 0], coat: "prime", material: "primer", surface: "B", laid: "2026-12-02T13:00:00Z", unsure: 1 };
    expect(underDoubts(placeOf("m", [module, tape, prime, air("module", 0, 3, 6)]), "bath", NOW)).toEqual(["The clock of the phone that wrote it was off."]);
  });
});

describe("a wall's line, and a strip for ears", () => {
  const found = (flags: ClockFlag[], state: Clock["state"]): Clock => ({ flags, state }) as unknown as Clock;

  it("name the doubts beside the line of a wall that dries, and none where it was looked at", () => {
    const item = { part: "item", id: "i1", heads: { defect: [["nick", [2, "d", 1, 0], "p"]], spot: [[{ room: "bath", surface: "B" }, [2, "d", 1, 0], "p"]] }, ticks: ["fill"] } as unknown as ItemPart;
    const fill: CoatPart = { ...tape, coat: "fill", surface: "B", items: ["i1"] };
    const dry: CoatPart = { ...fill, cells: { bath: { objections: {}, wet: null, restart: null, dry: { by: "p", time: "2026-12-02T13:00:00Z", tried: ["cut"], reason: "white" } } } } as unknown as CoatPart;
    const line = (coat: CoatPart, ...hours: number[]) => wallWords(placeOf("m", [module, coat, air("module", ...hours)]), { items: [item] } as unknown as Group, NOW);
    expect(line(fill, 0)?.doubts).toBe(OLD);
    expect(line(fill, 0, 3, 6)?.doubts).toBe("");
    expect(line(dry, 0)?.doubts).toBe("");
  });
  it("say why as eyes read it", () => {
    expect(withDoubts("10 am likely", found(["stale"], "wet"))).toBe(`10 am likely. ${OLD}`);
    expect(withDoubts("10 am likely", found(["heated"], "wet"))).toBe("10 am likely");
    const place = placeOf("m", [module, tape, air("module", 0)]);
    expect(plain(stripWords(topCoat(place, "bath", null, tape, NOW), "bath", null, null))).toContain(OLD);
  });
  it("end *10 p. m.* with one full stop", () => {
    speak("es");
    try {
      const place = placeOf("m", [module, tape, air("module", 0)]);
      expect(plain(stripWords(topCoat(place, "bath", null, tape, NOW), "bath", null, null))).not.toContain("..");
    } finally {
      speak("en");
    }
  });
});

describe("two times", () => {
  it("say today after another day's, since the second without a day is of the first one's", () => {
    expect(plain(ends({ likely: "2026-12-01T23:00:00Z", by_table: "2026-12-02T16:00:00Z" }).by_table)).toBe("today 4 pm");
    expect(plain(ends({ likely: "2026-12-01T20:00:00Z", by_table: "2026-12-01T23:00:00Z" }).by_table)).toBe("11 pm");
    expect(plain(ends({ likely: "2026-12-02T20:00:00Z", by_table: "2026-12-02T23:00:00Z" }).by_table)).toBe("11 pm");
    expect(plain(whenAfter("2026-11-26T06:00:00Z", "2026-12-02T11:00:00Z"))).toBe("today 11 am");
    expect(plain(whenAfter("2026-11-26T06:00:00Z", "2026-12-01T11:00:00Z"))).toBe("yesterday 11 am");
  });
});
