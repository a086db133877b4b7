/**
 * How much slower or faster this yard's coats dry than the law says, per material, from what people found by looking.
 *
 * A look only bounds the time: *not dry* says that the coat needs more than the dose it had by then, *dry* that it needed
 * no more. So an observation is an interval {low, high} in thousandths of the *likely* dose, each end null when nobody
 * looked. The factor is the most plausible whole per cent, by a log-normal share about it and a prior about 100 (see
 * `learned.json`). One look in fifty is taken to be simply wrong: no single look, however wild, can weigh more than that.
 *
 * A *dry* that nobody tried (a cut through the joint, sands to powder) is no bound: nothing is shortened by the eye alone.
 */

import { read, whole } from "./climate";
import { UNRELIABLE, clock, dryingOf } from "./clocks";
import { doses, held } from "./drying";
import { seconds } from "./instants";
import type { Place } from "./place";
import type { CoatPart, Line } from "./types";
import { CURRENT, type Material, tables } from "./vocabulary";
import { airFor } from "./whose_air";

export interface Observation { low: number | null; high: number | null }
export interface Learned { percent: number; looks: number }
const SHOWN = 3;
type Observations = { [K in Material]?: Observation[] };

/**
 * What the yard's looks say, by material: of each coat the last *not dry*, and the first tried *dry* after it.
 *
 * Rooms that somebody looked at in one go are one observation, the weakest that they allow: a glance through a module
 * is one look, not ten. A look at a coat whose air nobody can rely on says nothing.
 */
export function observations(places: Iterable<Place>): Observations {
  const found: Observations = {};
  for (const place of places) {
    for (const coat of place.coats) {
      for (const ends of byLook(place, coat).values()) {
        const lows = ends.flatMap(({ low }) => (low === null ? [] : [low]));
        const highs = ends.flatMap(({ high }) => (high === null ? [] : [high]));
        if (lows.length === 0 && highs.length === 0) continue;
        const one = { low: lows.length === 0 ? null : Math.min(...lows), high: highs.length === 0 ? null : Math.max(...highs) };
        found[coat.material] = [...(found[coat.material] ?? []), one];
      }
    }
  }
  return found;
}

/** The factor in per cent of *likely*, and from how many looks; 100 as long as these are too few to speak. */
export function learn(observations: readonly Observation[], version: number): Learned {
  const table = tables(version).learned;
  const told = { percent: 100, looks: observations.length };
  if (observations.length < tables(version).drying.limits.learned_least) return told;
  let least = Number.POSITIVE_INFINITY;
  for (let percent = table.percent.from; percent <= table.percent.to; percent += 1) {
    const cost = (table.prior[percent - table.percent.from] ?? 0) + surprise(observations, percent, version);
    const [apart, before] = [Math.abs(percent - 100), Math.abs(told.percent - 100)];
    // Of two equally plausible ones the nearer to the law, then the slower.
    if (cost < least || (cost === least && apart <= before)) {
      least = cost;
      told.percent = percent;
    }
  }
  told.percent = Math.max(told.percent, shown(observations));
  return told;
}

/**
 * The least per cent that tried looks have shown, 100 at most: the third quickest, so that one bad look shows nothing.
 *
 * Looks that all came late fit any quick yard. What nobody has found dry by then is not taken to be dry sooner.
 */
export function shown(observations: readonly Observation[]): number {
  const highs = observations.flatMap(({ high }) => (high === null ? [] : [high])).sort((a, b) => a - b);
  const third = highs[SHOWN - 1];
  return third === undefined ? 100 : Math.min(100, (third + 9 - ((third + 9) % 10)) / 10);
}

/** How little one would expect these looks in a yard of that factor: -1000 ln of the likelihood, whole. */
export function surprise(observations: readonly Observation[], percent: number, version: number): number {
  const table = tables(version).learned;
  return observations.reduce((found, { low, high }) => {
    const share = (high === null ? 1000000 : dryShare(high, percent, version)) - (low === null ? 0 : dryShare(low, percent, version));
    const chance = table.doubt / 2 + ((1000000 - table.doubt) * Math.max(0, share)) / 1000000;
    return found + whole(read(table.surprise, chance / 1000));
  }, 0);
}

/** The share of coats, in millionths, that are dry after so many thousandths of the dose at that factor. */
export function dryShare(dose: number, percent: number, version: number): number {
  const table = tables(version).learned.dry_share;
  return read(table.millionths, (dose * 10) / percent - table.from);
}

/** (time of the last *not dry*, of the first tried *dry*): the doses by then, of each room that was looked at so. */
function byLook(place: Place, coat: CoatPart): Map<string, Observation[]> {
  const found = new Map<string, Observation[]>();
  for (const room of coat.rooms) {
    const { wet, dry } = looks(coat, room);
    if (wet === null && dry === null) continue;
    const ends = { low: dose(place, coat, room, wet), high: dose(place, coat, room, dry) };
    found.set(`${wet} ${dry}`, [...(found.get(`${wet} ${dry}`) ?? []), ends]);
  }
  return found;
}

interface LookBody { rooms?: string[]; tried?: string[]; reason?: string; looked_at?: string; sanded_at?: string }

/** When a room of a coat was last found wet since it was sanded, and first found dry after that by trying. */
function looks(coat: CoatPart, room: string): { wet: number | null; dry: number | null } {
  const told = coat.lines.filter((line) => line.no === undefined && bodyOf(line).rooms?.includes(room));
  const times = (kind: string, key: "looked_at" | "sanded_at", lines: Line[] = told): number[] =>
    lines.filter((line) => line.kind === kind).map((line) => timeOf(line, key));
  const start = Math.max(seconds(coat.laid), ...times("coat.wet_sanded", "sanded_at"));
  const last = Math.max(...times("coat.found_wet", "looked_at").filter((time) => time > start));
  const tried = told.filter((line) => (bodyOf(line).tried?.length ?? 0) > 0 && Boolean(bodyOf(line).reason));
  const first = Math.min(...times("coat.found_dry", "looked_at", tried).filter((time) => time > Math.max(start, last)));
  return { wet: Number.isFinite(last) ? last : null, dry: Number.isFinite(first) ? first : null };
}

const bodyOf = (line: Line): LookBody => line.body ?? {};

/** When it was, never after it was written. */
function timeOf(line: Line, key: "looked_at" | "sanded_at"): number {
  const told = bodyOf(line)[key];
  return told === undefined ? seconds(line.time) : Math.min(seconds(told), seconds(line.time));
}

/** Thousandths of the *likely* dose, by the law alone, that a coat had by a look; null where nobody knows. */
function dose(place: Place, coat: CoatPart, room: string, look: number | null): number | null {
  if (look === null) return null;
  const told = clock(place, coat, room, look);
  const steps = held(told.laid, airFor(place, room, told.laid, look).rows, CURRENT);
  const long = tables(CURRENT).drying.limits.gap_minutes * 60;
  const end = (to: number | null): number => (to === null ? look : Math.min(to, look));
  const unwatched = steps.some((step) => end(step.to) - step.read > long);
  if (unwatched || told.flags.some((flag) => UNRELIABLE.includes(flag))) return null;
  const got = steps.reduce((sum, step) => sum + step.rate * Math.max(0, end(step.to) - step.from), 0);
  const needed = doses(dryingOf(coat, told.laid, null), CURRENT).likely;
  // In two steps: a thousand times the dose of weeks is no whole number here any more.
  const rest = (got % needed) * 1000;
  return ((got - (got % needed)) / needed) * 1000 + (rest - (rest % needed)) / needed;
}
