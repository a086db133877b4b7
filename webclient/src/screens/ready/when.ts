/** The ready list as a crew reads it: by when, by module, rooms that stand alike together. Pure. */

import { DAY, type ReadyRow } from "../../rules";

export const WHENS = ["now", "hours", "tomorrow", "later", "look"] as const;
export type When = (typeof WHENS)[number];
/** Rooms of one module where the same is to be done, from the same time on. */
export interface Alike {
  row: ReadyRow;
  rooms: string[];
}
export interface OfModule {
  module: string;
  alike: Alike[];
}

/** As far ahead as a crew plans without a night in between. */
const HOURS = 8 * 3600;

/** `ahead`: seconds that the yard's clock is ahead of UTC. */
export function whenOf(row: Pick<ReadyRow, "ready" | "at" | "state">, now: number, ahead: number): When {
  if (row.ready === 1) return "now";
  if (row.at === null || row.at <= now || row.state === "not_dry" || row.state === "unsure") return "look";
  const day = (time: number): number => Math.floor((time + ahead) / DAY);
  if (row.at <= now + HOURS || day(row.at) === day(now)) return "hours";
  return day(row.at) <= day(now) + 1 ? "tomorrow" : "later";
}

/** One crew's rows; what no crew is told for is everybody's. */
export const forCrew = (rows: readonly ReadyRow[], crew: string): ReadyRow[] => (crew ? rows.filter((row) => row.crew === crew || row.crew === null) : [...rows]);

/** Bucket -> its modules, soonest pickup first, with what stands alike together. */
export function grouped(rows: readonly ReadyRow[], now: number, ahead: number): Map<When, OfModule[]> {
  const found = new Map<When, Map<string, Map<string, Alike>>>();
  for (const row of rows) {
    const modules = into(found, whenOf(row, now, ahead), () => new Map<string, Map<string, Alike>>());
    const alike = into(modules, row.module, () => new Map<string, Alike>());
    const key = [row.do, row.coat, row.surface ? `${row.room} ${row.surface}` : "", row.at, row.state, row.under, row.bare.length > 0 ? row.room : ""].join(" ");
    into(alike, key, () => ({ row, rooms: [] })).rooms.push(row.room);
  }
  return new Map(WHENS.flatMap((when) => {
    const modules = found.get(when);
    return modules ? [[when, [...modules].map(([module, alike]) => ({ module, alike: [...alike.values()] })).sort(byPickup)] as const] : [];
  }));
}

function into<K, V>(map: Map<K, V>, key: K, made: () => V): V {
  const found = map.get(key) ?? made();
  map.set(key, found);
  return found;
}

function byPickup(one: OfModule, other: OfModule): number {
  const due = ({ alike }: OfModule): string => alike[0]?.row.pickup ?? "9";
  return due(one) < due(other) ? -1 : due(one) > due(other) ? 1 : 0;
}
