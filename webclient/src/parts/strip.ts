/**
 * Where things stand on a drying strip: plain data in, plain data out, so that the PDF can draw the same.
 *
 * Places are whole thousandths of the strip's width, shades whole thousandths from wet (0) over damp (500) to dry
 * (1000), instants whole seconds since 1970.
 */

/** One reading as it holds from `time` to the next; `rate` is how fast it dries (rules/drying). */
export interface StripAir {
  time: number;
  temp: number;
  rh: number;
  rate: number;
}
export interface StripIn {
  laid: number;
  now: number;
  likely: number | null;
  by_table: number | null;
  /** When setting-type compound has set. */
  set: number | null;
  /** How much was dry by the table at `now`, in thousandths. */
  dried: number;
  /** A look that governs: not dry, or dry. */
  wet: number | null;
  dry: number | null;
  /** In order of time; the first also holds backwards to the laying, the last for ever. */
  air: readonly StripAir[];
  /** Seconds that the yard's clock is ahead of UTC, so that the hours below are its own. */
  offset: number;
}
export type MarkKey = "laid" | "set" | "likely" | "by_table" | "wet" | "dry";
export interface StripMark {
  key: MarkKey;
  at: number;
  x: number;
}
export interface StripStep {
  x: number;
  to: number;
  temp: number;
  rh: number;
}
export interface StripShape {
  from: number;
  until: number;
  /** Null when it lies beyond the end: an old coat. */
  now: number | null;
  /** The shade at 0, 50, 100 … 1000. */
  shades: number[];
  marks: StripMark[];
  hours: { at: number; x: number }[];
  air: StripStep[];
}

const HOUR = 3600;
const DAY = 24 * HOUR;
const STEPS = [1, 2, 3, 6, 12, 24, 48, 96, 168].map((hours) => hours * HOUR);
const MOST_HOURS = 5;
const SHADES = 20;
/** More steps of air than this cannot be told apart on a phone. */
const MOST_STEPS = 40;
const DAMP = 500;

const part = (number: number, by: number): number => Math.floor(number / by);

/** The whole strip. */
export function strip(of: StripIn): StripShape {
  const until = endOf(of);
  const x = (at: number): number => Math.min(1000, Math.max(0, part((at - of.laid) * 1000, until - of.laid)));
  const shade = shader(of);
  const told: [MarkKey, number | null][] = [["laid", of.laid], ["set", of.set], ["wet", of.wet], ["dry", of.dry], ["likely", of.likely], ["by_table", of.by_table]];
  return {
    from: of.laid,
    until,
    now: of.now > until ? null : x(of.now),
    shades: Array.from({ length: SHADES + 1 }, (_, n) => shade(of.laid + part((until - of.laid) * n, SHADES))),
    marks: told.flatMap(([key, at]) => (at === null || at > until ? [] : [{ key, at, x: x(at) }])),
    hours: hoursOf(of.laid, until, of.offset).map((at) => ({ at, x: x(at) })),
    air: stepsOf(of, until, x),
  };
}

/** A sixth past the table's time; up to the moment now where that is not far behind. Without a time, a day or until now. */
function endOf({ laid, now, likely, by_table, set }: StripIn): number {
  const end = by_table ?? Math.max(likely ?? 0, set ?? 0, laid + DAY, now);
  const span = Math.max(HOUR, end - laid);
  const past = laid + span + part(span, 6);
  return now > past && now <= laid + 2 * span ? now + part(span, 12) : past;
}

/** How much the air had dried from the laying to an instant: rate times seconds. */
export function doseTo(air: readonly StripAir[], laid: number, until: number): number {
  return air.reduce((sum, one, place) => {
    const from = place === 0 ? laid : Math.max(laid, one.time);
    const to = Math.min(until, air[place + 1]?.time ?? until);
    return sum + one.rate * Math.max(0, to - from);
  }, 0);
}

/** The shade at an instant. A look governs: what somebody found wet is never drawn lighter than damp. */
function shader(of: StripIn): (at: number) => number {
  const { air, laid } = of;
  const whole = of.by_table !== null ? part(doseTo(air, laid, of.by_table), 1000) : of.dried > 0 ? part(doseTo(air, laid, of.now), of.dried) : 0;
  return (at) => {
    if (of.dry !== null && at >= of.dry) return 1000;
    const dried = of.by_table !== null && at >= of.by_table ? 1000 : whole > 0 ? Math.min(1000, part(doseTo(air, laid, at), whole)) : 0;
    return of.wet === null ? dried : Math.min(DAMP, dried);
  };
}

/** Full hours of the yard's clock, at most six of them. */
function hoursOf(from: number, until: number, offset: number): number[] {
  const step = STEPS.find((one) => part(until - from, one) <= MOST_HOURS) ?? part(until - from, MOST_HOURS);
  const first = (part(from + offset, step) + 1) * step - offset;
  const found: number[] = [];
  for (let at = first; at < until; at += step) found.push(at);
  return found;
}

/** The air along the strip; equal neighbours are one, and of very many only as many as can be seen. */
function stepsOf({ air, laid, now }: StripIn, until: number, x: (at: number) => number): StripStep[] {
  const read = air.filter(({ time }) => time < until);
  const start = read.findLastIndex(({ time }) => time <= laid);
  const within = read.slice(Math.max(0, start));
  const every = Math.max(1, Math.ceil(within.length / MOST_STEPS));
  const seen = within.filter((_, place) => place % every === 0 || place === within.length - 1);
  const last = x(Math.min(now, until));
  const steps = seen.map(({ time, temp, rh }, place): StripStep => {
    const after = seen[place + 1];
    return { x: place === 0 ? 0 : x(time), to: after ? x(after.time) : Math.max(last, x(time)), temp, rh };
  });
  return steps.reduce<StripStep[]>((kept, one) => {
    const before = kept.at(-1);
    if (before && before.temp === one.temp && before.rh === one.rh) before.to = one.to;
    else kept.push({ ...one });
    return kept;
  }, []);
}

// Words at the marks -------------------------------------------------------------------------------------------------

export interface Tag<K extends string = string> {
  key: K;
  /** The place of its mark, and how wide its words are, in thousandths. */
  x: number;
  width: number;
  /** Which end of the words stands at the mark, as far as the strip's ends let it. */
  by: "start" | "middle" | "end";
  /** Rows that it may take, the first that is free; left out where none is. */
  rows: readonly number[];
}
export interface PlacedTag<K extends string = string> extends Omit<Tag<K>, "rows"> {
  left: number;
  row: number;
}
/** Words nearer than this to each other read as one. */
const APART = 30;

/** Where the words begin, as near to their mark as the strip's ends let them. */
function wished({ x, width, by }: Pick<Tag, "x" | "width" | "by">): number {
  const left = by === "start" ? x : by === "end" ? x - width : x - part(width, 2);
  return Math.max(0, Math.min(1000 - width, left));
}

/**
 * Each tag in the first of its rows where it touches no other; what comes first has the choice. Below the strip (rows
 * from 0) a line leads from each mark to its words: none of them may run through the words of another.
 */
export function placeTags<K extends string>(tags: readonly Tag<K>[]): PlacedTag<K>[] {
  const placed: PlacedTag<K>[] = [];
  for (const { rows, ...tag } of tags) {
    const left = wished(tag);
    const free = rows.find((row) => placed.every((one) => apart({ ...tag, left, row }, one)));
    if (free !== undefined) placed.push({ ...tag, left, row: free });
  }
  return placed;
}

/** The same, and none is left out: what finds no row stands by itself under all others, and no line leads to it. */
export function placeEvery<K extends string>(tags: readonly Tag<K>[]): (PlacedTag<K> & { led: boolean })[] {
  const placed = placeTags(tags).map((tag) => ({ ...tag, led: true }));
  for (const { rows, ...tag } of tags) {
    if (placed.some(({ key }) => key === tag.key) || rows.some((row) => row < 0)) continue;
    const row = Math.max(-1, ...placed.map((one) => one.row)) + 1;
    placed.push({ ...tag, left: wished(tag), row, led: false });
  }
  return placed;
}

type Wide = Pick<PlacedTag, "x" | "left" | "row" | "width">;

function apart(one: Wide, other: Wide): boolean {
  if (one.row === other.row) return one.left >= other.left + other.width + APART || other.left >= one.left + one.width + APART;
  const [upper, lower] = one.row < other.row ? [one, other] : [other, one];
  return upper.row < 0 || lower.x < upper.left || lower.x > upper.left + upper.width;
}

/** A step line through a lane: heights in thousandths from its foot, the range never narrower than `least`. */
export function lane(values: readonly number[], least: number): number[] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const range = Math.max(least, high - low);
  const foot = low - part(range - (high - low), 2);
  return values.map((value) => part((value - foot) * 1000, range));
}
