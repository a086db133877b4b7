import { describe, expect, it } from "vitest";
import { doseTo, lane, placeEvery, placeTags, strip, type StripIn } from "../../webclient/src/parts/strip";

const HOUR = 3600;
const DAWN = 1_764_655_200; // 2025-12-02T06:00:00Z
/** Laid at midnight in a yard six hours behind; steady air, dry by the table after twelve hours. */
const coat: StripIn = {
  laid: DAWN,
  now: DAWN + 6 * HOUR,
  likely: DAWN + 10 * HOUR,
  by_table: DAWN + 12 * HOUR,
  set: null,
  dried: 500,
  wet: null,
  dry: null,
  air: [{ time: DAWN - HOUR, temp: 211, rh: 45, rate: 1000 }],
  offset: -6 * HOUR,
};

describe("a drying strip", () => {
  it("begins at the laying and ends a sixth past the table's time", () => {
    const shape = strip(coat);
    expect([shape.from, shape.until]).toEqual([DAWN, DAWN + 14 * HOUR]);
    expect(shape.marks).toEqual([
      { key: "laid", at: DAWN, x: 0 },
      { key: "likely", at: DAWN + 10 * HOUR, x: 714 },
      { key: "by_table", at: DAWN + 12 * HOUR, x: 857 },
    ]);
    expect(shape.now).toBe(428);
  });

  it("is wet at first, damp half way and dry from the table's time on", () => {
    const { shades } = strip(coat);
    expect([shades[0], shades.at(-1), shades.length]).toEqual([0, 1000, 21]);
    expect(shades[9]).toBe(525); // 45 % of fourteen hours are 6.3 of twelve
    expect(shades).toEqual([...shades].sort((a, b) => a - b));
  });

  it("goes lighter fast in dry air and slowly in damp air", () => {
    const heated = { ...coat, air: [{ time: DAWN, temp: 80, rh: 80, rate: 100 }, { time: DAWN + 6 * HOUR, temp: 211, rh: 30, rate: 900 }] };
    const { shades } = strip(heated);
    expect(shades[8]).toBeLessThan(100);
    expect(shades[17]).toBeGreaterThan(950);
  });

  it("adds rate times seconds, the first reading also backwards", () => {
    const air = [{ time: 50, temp: 0, rh: 0, rate: 2 }, { time: 100, temp: 0, rh: 0, rate: 5 }];
    expect(doseTo(air, 0, 100)).toBe(200);
    expect(doseTo(air, 0, 110)).toBe(250);
    expect(doseTo(air, 60, 100)).toBe(80);
    expect(doseTo([], 0, 100)).toBe(0);
  });

  it("is never lighter than damp where somebody found it wet, and dry from a look that counts", () => {
    expect(Math.max(...strip({ ...coat, wet: DAWN + 11 * HOUR }).shades)).toBe(500);
    const looked = strip({ ...coat, dry: DAWN + 7 * HOUR });
    expect(looked.shades[10]).toBe(1000);
    expect(looked.shades[9]).toBe(525);
    expect(looked.marks.map(({ key }) => key)).toEqual(["laid", "dry", "likely", "by_table"]);
  });

  it("stays wet, and a day long, where nobody has read the air", () => {
    const shape = strip({ ...coat, air: [], likely: null, by_table: null, dried: 0 });
    expect(new Set(shape.shades)).toEqual(new Set([0]));
    expect(shape.until).toBe(DAWN + 28 * HOUR);
    expect(shape.air).toEqual([]);
  });

  it("is shaded by what dried until now where it never dries in this air", () => {
    const shape = strip({ ...coat, likely: null, by_table: null, dried: 300, now: DAWN + 24 * HOUR });
    expect(shape.shades.at(-3)).toBeGreaterThan(290);
    expect(shape.shades.at(-1)).toBeLessThan(500);
  });

  it("goes on to the moment now while that is near, and leaves it out of an old coat", () => {
    expect(strip({ ...coat, now: DAWN + 20 * HOUR }).now).toBe(952);
    const old = strip({ ...coat, now: DAWN + 60 * HOUR });
    expect([old.now, old.until]).toEqual([null, DAWN + 14 * HOUR]);
  });

  it("writes full hours of the yard's own clock, few enough to read", () => {
    const { hours } = strip(coat);
    expect(hours.map(({ at }) => ((at - DAWN) / HOUR) % 24)).toEqual([3, 6, 9, 12]);
    for (const days of [1, 2, 5, 20]) expect(strip({ ...coat, by_table: DAWN + days * 24 * HOUR }).hours.length).toBeLessThanOrEqual(6);
  });

  it("joins equal neighbours of the air, and of thousands shows only what can be seen, the last always", () => {
    const read = (n: number, temp: number) => ({ time: DAWN + n * 60, temp, rh: 45, rate: 1000 });
    const same = strip({ ...coat, air: [read(-90, 100), read(-30, 200), read(30, 200), read(60, 210)] });
    expect(same.air.map(({ x, temp }) => [x, temp])).toEqual([[0, 200], [71, 210]]);
    expect(same.air.at(-1)?.to).toBe(same.now);
    const many = strip({ ...coat, air: Array.from({ length: 360 }, (_, n) => read(n, 200 + (n % 7))) });
    expect(many.air.length).toBeLessThanOrEqual(41);
    expect(many.air.at(-1)?.temp).toBe(200 + (359 % 7));
  });

  it("writes every number whole, so that paper draws the same", () => {
    const odd = strip({ ...coat, laid: DAWN + 7, by_table: DAWN + 44_447, air: [{ time: DAWN + 11, temp: 199, rh: 51, rate: 977 }] });
    const numbers = JSON.stringify(odd).match(/-?\d+(\.\d+)?/g) ?? [];
    expect(numbers.filter((number) => number.includes("."))).toEqual([]);
  });
});

describe("words at the marks", () => {
  const tag = (key: string, x: number, width: number, by: "start" | "end" = "end", rows = [0, 1, 2]) => ({ key, x, width, by, rows });

  it("stand in the first row that is free, inside the strip", () => {
    expect(placeTags([tag("a", 700, 300), tag("b", 857, 450)])).toEqual([
      { key: "a", x: 700, width: 300, by: "end", left: 400, row: 0 },
      { key: "b", x: 857, width: 450, by: "end", left: 407, row: 1 },
    ]);
    expect(placeTags([tag("a", 100, 300)])[0]?.left).toBe(0);
    expect(placeTags([tag("a", 900, 300, "start")])[0]?.left).toBe(700);
  });

  it("are not run through by the line of another mark", () => {
    const rows = placeTags([tag("set", 20, 300, "start"), tag("likely", 250, 200), tag("table", 280, 200)]).map(({ row }) => row);
    expect(rows).toEqual([0, 1, 2].slice(0, rows.length));
    expect(placeTags([tag("set", 20, 300, "start", [0]), tag("likely", 250, 240, "end", [1])])).toHaveLength(1);
  });

  it("are left out where no row is free", () => {
    expect(placeTags([tag("a", 500, 300, "end", [0]), tag("b", 520, 300, "end", [0])]).map(({ key }) => key)).toEqual(["a"]);
  });

  it("are all there on a narrow phone, without a line where one would run through others", () => {
    const narrow = [tag("likely", 370, 550), tag("table", 430, 820)];
    expect(placeTags(narrow).map(({ key }) => key)).toEqual(["likely"]);
    expect(placeEvery(narrow).map(({ key, left, row, led }) => [key, left, row, led])).toEqual([
      ["likely", 0, 0, true],
      ["table", 0, 1, false],
    ]);
  });
});

describe("a lane of the climate", () => {
  it("spreads what changes much over its height, and leaves what hardly changes in its middle", () => {
    expect(lane([100, 200], 60)).toEqual([0, 1000]);
    expect(lane([200], 60)).toEqual([500]);
  });
});
