/** What coats hold a module for: not laid, not dry, to be looked at, covered early. */

import { type Clock, clock, isDry } from "./clocks";
import { earlies, tops } from "./covers";
import * as field from "./heads";
import { instant } from "./instants";
import { type Place, roomsSince } from "./place";
import { coatsOf, laidIn } from "./schedule";
import type { ClockFlag, CoatHold, CoatPart } from "./types";
import type { CoatKey } from "./vocabulary";

const LAST_INSTANT = 253402300799;
type Member = { coat: CoatPart; room: string; found: Clock };

/**
 * The holds of a module's coats at `at`, one for each coat and what is the matter with it.
 *
 * `coats`: those that were voided too. A module of which nobody has told a finish is not missing any.
 */
export function coatHolds(place: Place, coats: readonly CoatPart[], at: number): CoatHold[] {
  const since = new Map(coats.map((coat) => [coat.id, coat.since]));
  return [...missing(place, coats), ...notReady(place, at), ...early(place, since)];
}

function missing(place: Place, coats: readonly CoatPart[]): CoatHold[] {
  const rooms = new Map<CoatKey, string[]>();
  for (const room of place.rooms) {
    const laid = laidIn(place, room);
    for (const coat of new Set(coatsOf(place, room))) {
      if (!laid.has(coat)) rooms.set(coat, [...(rooms.get(coat) ?? []), room]);
    }
  }
  const bareIn = inTurn(place).map((coat) => [coat, rooms.get(coat) ?? []] as const).filter(([, bare]) => bare.length > 0);
  return bareIn.map(([coat, bare]) => ({
    key: "coat_missing", lifts: "crew_lead",
    seq: Math.max(toldSince(place), ...coats.map((one) => voidSince(one, coat, bare)), 0), coat, rooms: bare,
  }));
}

/** The coats of all rooms, each after what goes on before it. */
function inTurn(place: Place): CoatKey[] {
  const order: CoatKey[] = [];
  for (const room of place.rooms) {
    let after = 0;
    for (const coat of coatsOf(place, room)) {
      if (!order.includes(coat)) order.splice(after, 0, coat);
      after = order.indexOf(coat) + 1;
    }
  }
  return order;
}

/** The seq of the entry that last changed which coats a room of the module is to get. */
function toldSince({ module, plan }: Place): number {
  const told = (["finish", "coats"] as const).filter((name) => module.heads[name]);
  return Math.max(...told.map((name) => field.latestSeq(module.heads, name)), roomsSince(module, plan), 0);
}

function voidSince(coat: CoatPart, key: CoatKey, rooms: readonly string[]): number {
  const here = coat.coat === key && coat.rooms.some((room) => rooms.includes(room));
  return here && coat.void !== null ? coat.void.ref[0] : 0;
}

/** What lies on top and is not dry, rooms that stand alike together. */
function notReady(place: Place, at: number): CoatHold[] {
  const groups = new Map<string, { why: string; members: Member[] }>();
  for (const room of place.rooms) {
    for (const [, coat] of tops(place, room)) {
      const found = clock(place, coat, room, at);
      if (isDry(found.state)) continue;
      const why = found.state === "wet" || found.state === "likely" ? "" : found.state;
      const key = JSON.stringify([coat.id, why]);
      groups.set(key, { why, members: [...(groups.get(key)?.members ?? []), { coat, room, found }] });
    }
  }
  return [...groups.values()].map(({ why, members }) =>
    why === "not_dry" || why === "unsure" ? look(members, why) : wet(members));
}

/** Time lifts it; both ends of the room that is the last, and what they cannot be relied on for. */
function wet(members: readonly Member[]): CoatHold {
  const [likely, by_table] = (["likely", "by_table"] as const).map((end) => latest(members.map(({ found }) => found[end])));
  return { key: "coat_wet", lifts: "waiting", ...of(members), likely: likely ?? null, by_table: by_table ?? null, flags: flagsOf(members) };
}

/** Somebody has to look: a person found it not dry, or its time cannot be relied on. */
function look(members: readonly Member[], why: "not_dry" | "unsure"): CoatHold {
  return { key: "coat_look", lifts: "crew_lead", ...of(members), why, flags: flagsOf(members) };
}

const flagsOf = (members: readonly Member[]): ClockFlag[] => [...new Set(members.flatMap(({ found }) => found.flags))].sort();

function of(members: readonly Member[]) {
  const { coat } = members[0] as Member;
  const rooms = members.map(({ room }) => room);
  const surface = coat.surface === null ? {} : { surface: coat.surface };
  return { seq: coat.since, id: coat.id, coat: coat.coat, rooms, ...surface };
}

/** Null where one of them is: in this air it never dries, or after more years than an instant can name. */
function latest(told: readonly (number | null)[]): string | null {
  const known = told.filter((one): one is number => one !== null && one <= LAST_INSTANT);
  return known.length === told.length ? instant(Math.max(...known)) : null;
}

/** As new as what was last said of any of them: a coat that is told late comes in under others. */
function early(place: Place, since: ReadonlyMap<string, number>): CoatHold[] {
  return earlies(place).map(({ coat, rooms, under }) => ({
    key: "coat_early", lifts: "inspector", seq: Math.max(...[coat.id, ...under].map((id) => since.get(id) ?? 0)), id: coat.id, coat: coat.coat, rooms, under,
    reason: coat.early, by: coat.by,
  }));
}
