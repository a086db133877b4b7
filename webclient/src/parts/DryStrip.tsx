import { instant } from "../rules";
import { language, t } from "../words";
import { useWidth } from "./size";
import { lane, placeEvery, placeTags, strip, type MarkKey, type PlacedTag, type StripIn, type StripShape, type StripStep, type Tag } from "./strip";
import { degrees } from "./temperatures";
import { hourMark, shortTime } from "./times";
import "./strip.css";

export interface DryStripProps {
  strip: StripIn;
  zone: string;
  /** The whole strip as sentences: it is all that a screen reader is given. */
  said: string;
  /** An older coat: a low strip without words. */
  short?: boolean | undefined;
  /** Temperature and humidity under it, on the same axis. */
  climate?: boolean | undefined;
}

const ABOVE = 21;
const HEIGHT = 26;
const SHORT = 14;
const ROW = 20;
const LANE = 36;
/** About how wide a letter of the second size is, in pixels. */
const LETTER = 7.9;

/** A coat from dark (wet) to light (dry): the times at its marks, the moment now, and the air that dries it. */
export function DryStrip({ strip: given, zone, said, short, climate }: DryStripProps) {
  const { ref, width } = useWidth(358);
  const shape = strip(given);
  const px = (x: number): number => (x * width) / 1000;
  const tags = short ? [] : tagsOf(shape, given, zone, width);
  const top = short ? 2 : ABOVE;
  const foot = top + (short ? SHORT : HEIGHT);
  const rows = Math.max(0, ...tags.map(({ row }) => row + 1));
  const lanes = foot + 6 + rows * ROW + 6;
  const air = climate && !short && shape.air.length > 0;
  const height = air ? lanes + 2 * LANE + ROW : rows > 0 ? lanes - 4 : foot + 2;
  return (
    <div class="dry-strip" ref={ref}>
      <svg role="img" aria-label={said} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
        <Ribbon shape={shape} id={`${given.laid} ${given.by_table} ${said.length}`} width={width} top={top} height={foot - top} />
        {!short && shape.marks.map((mark) => <Mark key={mark.key} kind={mark.key} x={px(mark.x)} top={top} foot={foot} to={tags.find(({ key, led }) => led && key === mark.key)?.row ?? null} />)}
        {!short && shape.now !== null && <circle class="strip-now" cx={Math.min(width - 11, Math.max(11, px(shape.now)))} cy={(top + foot) / 2} r={9} />}
        {tags.map((tag) => (
          <text key={tag.key} class={tag.key === "laid" || tag.key === "now" ? "strip-quiet" : undefined} {...anchored(tag, width)} y={tag.row < 0 ? 14 : foot + 6 + tag.row * ROW + 15}>
            {tag.words}
          </text>
        ))}
        {air && <Climate shape={shape} now={given.now} zone={zone} width={width} top={lanes} />}
      </svg>
    </div>
  );
}

/** Its width is reckoned, not measured: the end of the words that belongs to the mark stands exactly there. */
function anchored({ left, width: wide, by }: PlacedTag, width: number) {
  const at = by === "start" ? left : by === "end" ? left + wide : left + wide / 2;
  return { x: (at * width) / 1000, "text-anchor": by };
}

type Named = PlacedTag<MarkKey | "now"> & { words: string; led: boolean };

/** The times at the marks; where two would touch, one goes a row down. */
function tagsOf(shape: StripShape, { now }: StripIn, zone: string, width: number): Named[] {
  const time = (at: number): string => shortTime(instant(at), instant(now), zone, language.value);
  const words = new Map<MarkKey | "now", string>(shape.marks.map(({ key, at }) => [key, t(`coats.mark.${key}`, { time: time(at) })]));
  words.set("now", t("coats.mark.now", { time: time(now) }));
  const tag = (key: MarkKey | "now", x: number, by: Tag["by"], rows: readonly number[]): Tag<MarkKey | "now"> => ({ key, x, by, rows, width: Math.min(1000, Math.ceil(((words.get(key) ?? "").length * LETTER * 1000) / width)) });
  // Of a label's least time both are one: it is said once.
  const at = new Map(shape.marks.map((mark) => [mark.key, mark.at]));
  const once = at.get("likely") === at.get("by_table");
  const under = [...shape.marks].sort((a, b) => a.x - b.x).flatMap(({ key, x }) => (key === "laid" || (once && key === "likely") ? [] : [tag(key, x, x < 350 ? "start" : "end", [0, 1, 2, 3, 4])]));
  const above = [tag("laid", 0, "start", [-1]), ...(shape.now === null ? [] : [tag("now", shape.now, "middle" as const, [-1])])];
  return placeEvery([...under, ...above]).map((one) => ({ ...one, words: words.get(one.key) ?? "" }));
}

/** Wet, damp and dry over each other, each as clear as the shade asks: the mixture of two neighbours everywhere. */
function Ribbon({ shape, id, width, top, height }: { shape: StripShape; id: string; width: number; top: number; height: number }) {
  const box = { x: 0, y: top, width, height };
  const last = shape.shades.length - 1;
  const layer = (name: "damp" | "dry", clear: (shade: number) => number) => (
    <>
      <linearGradient id={`${name} ${id}`.replaceAll(" ", "-")}>
        {shape.shades.map((shade, n) => (
          <stop key={n} class={`strip-${name}`} offset={n / last} stop-opacity={clear(shade)} />
        ))}
      </linearGradient>
      <rect {...box} fill={`url(#${`${name} ${id}`.replaceAll(" ", "-")})`} />
    </>
  );
  return (
    <>
      <rect {...box} class="strip-wet" />
      {layer("damp", (shade) => Math.min(1, shade / 500))}
      {layer("dry", (shade) => Math.max(0, shade / 500 - 1))}
      <rect x={1} y={top + 1} width={width - 2} height={height - 2} class="strip-edge" />
    </>
  );
}

/** A line through the strip and down to its words: dashed for *likely*, whole *by the table*; a look is a notch. */
function Mark({ kind, x, top, foot, to }: { kind: MarkKey; x: number; top: number; foot: number; to: number | null }) {
  if (kind === "laid") return null;
  const at = Math.max(2, x);
  const end = foot + 4 + (to ?? 0) * ROW;
  const look = kind === "wet" || kind === "dry" || kind === "set";
  return (
    <g class={`strip-mark strip-mark-${look ? "look" : kind}`}>
      <path class="strip-halo" d={`M${at} ${look ? foot - 11 : top + 2}V${foot - 2}`} />
      <path class="strip-inside" d={`M${at} ${look ? foot - 11 : top}V${foot}`} />
      <path class="strip-leader" d={`M${at} ${foot}V${end}${look ? "" : ` M${at} ${top}V${top - 3}`}`} />
    </g>
  );
}

/** Two step lines under the strip: temperature, and relative humidity; each value stands where it begins. */
function Climate({ shape, now, zone, width, top }: { shape: StripShape; now: number; zone: string; width: number; top: number }) {
  const px = (x: number): number => (x * width) / 1000;
  const letters = (words: string): number => Math.ceil((words.length * LETTER * 1000) / width);
  const clock = (at: number): string => hourMark(instant(at), instant(now), zone, language.value);
  const hours = placeTags(shape.hours.map(({ at, x }, n): Tag => ({ key: String(n), x, by: "middle", width: letters(clock(at)), rows: [0] })));
  return (
    <g>
      {shape.hours.map(({ at, x }) => (
        <path key={at} class="strip-hour" d={`M${px(x)} ${top}V${top + 2 * LANE + 3}`} />
      ))}
      <Lane steps={shape.air} values={shape.air.map(({ temp }) => temp)} least={60} words={degrees} px={px} letters={letters} top={top} width={width} />
      <Lane steps={shape.air} values={shape.air.map(({ rh }) => rh)} least={25} words={(rh, first) => t(first ? "coats.rh" : "coats.percent", { rh })} px={px} letters={letters} top={top + LANE} width={width} />
      {hours.map((tag) => (
        <text key={tag.key} class="strip-quiet" {...anchored(tag, width)} y={top + 2 * LANE + 17}>
          {clock(shape.hours[Number(tag.key)]?.at ?? 0)}
        </text>
      ))}
    </g>
  );
}

interface LaneProps {
  steps: readonly StripStep[];
  values: readonly number[];
  least: number;
  words: (value: number, first: boolean) => string;
  px: (x: number) => number;
  letters: (words: string) => number;
  top: number;
  width: number;
}

/** The latest reading goes on as dots: nobody has read it there yet. A value stands where it begins, where it has room. */
function Lane({ steps, values, least, words, px, letters, top, width }: LaneProps) {
  const y = lane(values, least).map((height) => top + LANE - 4 - (height * 11) / 1000);
  const line = steps.map(({ x, to }, n) => `${n === 0 ? "M" : "L"}${px(x)} ${y[n]}H${px(to)}`).join("");
  const last = steps.at(-1);
  const said = (n: number): string => words(values[n] ?? 0, n === 0);
  const figure = (n: number): string => words(values[n] ?? 0, false);
  const changes = values.flatMap((_, n) => (n > 0 && figure(n) === figure(n - 1) ? [] : [n]));
  const tags = placeTags(changes.map((n): Tag => ({ key: String(n), x: steps[n]?.x ?? 0, by: "start", width: letters(said(n)), rows: [0] })));
  return (
    <g>
      <path class="strip-air" d={line} />
      {last && last.to < 1000 && <path class="strip-air strip-on" d={`M${px(last.to)} ${y.at(-1)}H${width}`} />}
      {tags.map(({ key, left }) => (
        <text key={key} x={px(left)} y={top + 14}>
          {said(Number(key))}
        </text>
      ))}
    </g>
  );
}
