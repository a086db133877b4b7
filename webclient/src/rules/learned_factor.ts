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
import { tables } from "./vocabulary";

export interface Observation { low: number | null; high: number | null }
export interface Learned { percent: number; looks: number }

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
  return told;
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
