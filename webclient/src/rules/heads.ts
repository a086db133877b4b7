/** Fields that two people may write without knowing of each other: every value nobody has overruled stays a head. */

import { canonicalText } from "./canonical";
import { own, put as putOwn } from "./own";
import { hasSeen, refOf } from "./seen";
import type { Entry, Head, Heads } from "./types";

/** Writes a value: heads its author had seen go, others stay beside it. True when the shown value changed. */
export function put<F, K extends keyof F & string>(heads: Heads<F>, field: K, value: F[K], entry: Entry): boolean {
  const before = headsOf(heads, field);
  const kept = before.filter((head) => !hasSeen(entry, head[1]));
  const text = canonicalText(value);
  putOwn(heads as Record<string, Head<unknown>[]>, field, [...kept, [value, refOf(entry), entry.by]]);
  return before.length === 0 || before.some((head) => canonicalText(head[0]) !== text);
}

/** The latest value of a field, null when nobody wrote it. */
export function value<F, K extends keyof F & string>(heads: Heads<F>, field: K): F[K] | null {
  const last = headsOf(heads, field).at(-1);
  return last === undefined ? null : last[0];
}

/** The different values of a field, in journal order. */
export function values<F, K extends keyof F & string>(heads: Heads<F>, field: K): F[K][] {
  const different = new Map<string, F[K]>();
  for (const [one] of headsOf(heads, field)) {
    const text = canonicalText(one);
    if (!different.has(text)) different.set(text, one);
  }
  return [...different.values()];
}

/** The fields with two values that nobody has decided between, sorted. */
export function undecided<F>(heads: Heads<F>): (keyof F & string)[] {
  const fields = Object.keys(heads) as (keyof F & string)[];
  return fields.filter((field) => headsOf(heads, field).length > 1 && values(heads, field).length > 1).sort();
}

/** The seq of the latest head of a field. */
export function latestSeq<F>(heads: Heads<F>, field: keyof F & string): number {
  return Math.max(...headsOf(heads, field).map((head) => head[1][0]));
}

function headsOf<F, K extends keyof F & string>(heads: Heads<F>, field: K): Head<F[K]>[] {
  return own(heads as unknown as Record<string, Head<F[K]>[]>, field) ?? [];
}
