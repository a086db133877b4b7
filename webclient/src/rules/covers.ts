/** What lies on top, whether another coat may go on, and what was covered before it was ready. */

import { type Clock, type CoatState, clock, dryingOf, factorOf, isDry } from "./clocks";
import { cellOf } from "./coat_looks";
import { doses } from "./drying";
import { seconds } from "./instants";
import { own } from "./own";
import { type Place, inOrder } from "./place";
import { family as familyOf } from "./schedule";
import { hasSeen, seenAll } from "./seen";
import type { CoatPart, CoatSurface } from "./types";
import { CURRENT, type Family, tables } from "./vocabulary";

export type Top = [surface: CoatSurface | null, coat: CoatPart];
export interface Readiness { ready: boolean; state: CoatState; at: number | null; under: CoatPart | null }
type Rework = Pick<CoatPart, "coat" | "surface" | "items">;
export interface Early { coat: CoatPart; rooms: string[]; under: string[] }
/** A coat, and the items of which it is rework; those of the coats whose clock it has taken over too. */
interface Layer { coat: CoatPart; items: readonly string[] }
type Rows = Map<CoatPart, { rooms: Set<string>; under: Set<string> }>;
type Layers = Map<CoatSurface | null, readonly Layer[]>;

/**
 * What lies on top: null for the room, then each wall with rework of its own since.
 *
 * Of one surface the latest first. An earlier one is there only where it may be wet for longer than that: thick compound
 * that has only set under thin, or a nick filled beside it.
 */
export function tops(place: Place, room: string): Top[] {
  const layers = [...layersIn(place, room)].sort(([one], [other]) => ((one ?? "") < (other ?? "") ? -1 : 1));
  return layers.flatMap(([surface, mine]) =>
    mine.filter(({ coat }) => surface === null || coat.surface !== null).map(({ coat }): Top => [surface, coat]));
}

/** Walls on which rework has left compound or texture that no primer covers: paint of the room goes over none. */
export function bareWalls(place: Place, room: string, family: Family): CoatSurface[] {
  if (family !== "paint") return [];
  return [...new Set(tops(place, room).flatMap(([surface, { coat }]) => (surface !== null && ["joint", "texture"].includes(familyOf(coat)) ? [surface] : [])))];
}

/**
 * Whether a coat of that family may go on that wall, or on all of the room.
 *
 * `under`: the coat that it waits longest for, null on bare board. `at`: from when, null where nobody can say.
 * Compound may go on setting-type compound as soon as that has set; primer and paint wait until it is dry.
 */
export function readiness(
  place: Place, room: string, family: Family, at: number, surface: CoatSurface | null = null,
): Readiness {
  const bare: Readiness = { ready: true, state: "ready", at: null, under: null };
  const found = under(layersIn(place, room), surface).map(({ coat }) => over(clock(place, coat, room, at), coat, family, at));
  return found.reduce((worst, one) => (worst.under === null || waitsLonger(one, worst) ? one : worst), bare);
}

/**
 * The coats laid over one that was not ready then, and for which no inspector has answered.
 *
 * Whoever gave a reason said that it was early: no reading that is told later answers for that, only an inspector.
 * Nor does a coat that is told later, for an hour in between, or one below that the own hands took back.
 */
export function earlies(place: Place): Early[] {
  const found: Rows = new Map();
  const owned: Rows = new Map();
  for (const room of place.rooms) {
    const layers: Layers = new Map();
    for (const coat of inRoom(place, room)) {
      for (const one of covered(place, room, layers, coat)) {
        if (!isAnswered(coat, one.coat, room) && tooSoon(place, room, one, coat)) add(found, coat, room, one);
        else if (coat.early !== null && coat.answer === null && !nextTo(one, coat)) add(owned, coat, room, one);
      }
      lay(place, room, layers, coat);
    }
  }
  return place.coats.flatMap((coat) => {
    const row = found.get(coat) ?? owned.get(coat);
    return row === undefined ? [] : [{ coat, rooms: [...row.rooms], under: [...row.under] }];
  });
}

/** What it lies on, and what it lay on when it was told. */
function covered(place: Place, room: string, layers: Layers, coat: CoatPart): Layer[] {
  const [seq] = coat.ref;
  const told = [...place.coats, ...place.taken_back].filter((one) => one.rooms.includes(room) && one.ref[0] < seq);
  const there = told.filter((one) => inOrder(one, coat) < 0 && (one.void === null || one.void.ref[0] > seq));
  const then: Layers = new Map();
  for (const one of there.sort(inOrder)) lay(place, room, then, one);
  const found = under(layers, coat.surface);
  const known = new Set(found.map((one) => one.coat.id));
  return [...found, ...under(then, coat.surface).filter((one) => !known.has(one.coat.id))];
}

function add(found: Rows, coat: CoatPart, room: string, { coat: { id } }: Layer): void {
  const row = found.get(coat) ?? { rooms: new Set(), under: new Set() };
  found.set(coat, { rooms: row.rooms.add(room), under: row.under.add(id) });
}

/** Rework of one sort at other items of a wall goes on beside the coat there, not over it: nick after nick. */
export function beside(below: Rework, coat: Rework): boolean {
  if (below.surface === null || coat.surface === null || below.items.length === 0 || coat.items.length === 0) return false;
  return familyOf(below.coat) === familyOf(coat.coat) && !coat.items.some((id) => below.items.includes(id));
}

function inRoom(place: Place, room: string): CoatPart[] {
  return place.coats.filter((coat) => coat.rooms.includes(room));
}

function layersIn(place: Place, room: string): Layers {
  const layers: Layers = new Map();
  for (const coat of inRoom(place, room)) lay(place, room, layers, coat);
  return layers;
}

/** A coat of the room covers all of it; one on a wall covers that wall. */
function lay(place: Place, room: string, layers: Layers, coat: CoatPart): void {
  const below = under(layers, coat.surface);
  const stay = below.filter((one) => stays(place, room, one, coat));
  const gone = below.filter((one) => !stay.includes(one) && nextTo(one, coat)).flatMap(({ items }) => items);
  if (coat.surface === null) layers.clear();
  layers.set(coat.surface, [{ coat, items: [...coat.items, ...gone] }, ...stay]);
}

/** What a coat goes over: of a wall what is its own, else the room's; of a room everything that is on top in it. */
function under(layers: Layers, surface: CoatSurface | null): readonly Layer[] {
  if (surface !== null) return layers.get(surface) ?? layers.get(null) ?? [];
  return [...new Map([...layers.values()].flat().map((one) => [one.coat.id, one])).values()];
}

function over(found: Clock, below: CoatPart, family: Family, at: number): Readiness {
  const row = { ready: isDry(found.state), state: found.state, at: found.ready_at, under: below };
  if (row.ready || found.set === null || found.state === "not_dry" || below.unsure) return row;
  if (!tables(CURRENT).schedule.after_set.includes(family)) return row;
  const hasSet = at >= found.set;
  return { ...row, ready: hasSet, at: found.set, state: hasSet ? "ready" : found.state };
}

function waitsLonger(one: Readiness, other: Readiness): boolean {
  if (one.ready !== other.ready) return other.ready;
  if (one.at === null || other.at === null) return one.at === null && other.at !== null;
  return one.at > other.at;
}

function tooSoon(place: Place, room: string, below: Layer, coat: CoatPart): boolean {
  if (nextTo(below, coat)) return false;
  const laid = seconds(coat.laid);
  return !over(clock(place, below.coat, room, laid, seconds(coat.time)), below.coat, familyOf(coat.coat), laid).ready;
}

/** Whether the author of the answer knew of the coat below, and of every look that said it was not dry. */
function isAnswered({ answer }: CoatPart, below: CoatPart, room: string): boolean {
  if (answer === null) return false;
  const [, device, n, aside] = answer.ref;
  const author = { seen_to: answer.seen, device, n, let_in: aside };
  return hasSeen(author, below.ref) && seenAll(author, cellOf(below, room).objections);
}

const nextTo = ({ coat: { coat, surface }, items }: Layer, other: CoatPart): boolean =>
  beside({ coat, surface, items: [...items] }, other);

/** Whether what was beside it, or has only set under it, may be wet for longer than the coat itself. */
function stays(place: Place, room: string, below: Layer, coat: CoatPart): boolean {
  const { wet, restart } = cellOf(below.coat, room);
  const longer = (): boolean => byTable(place, below.coat) > byTable(place, coat);
  if (nextTo(below, coat)) return wet !== null || (restart ?? "") > coat.laid || setsLater(below.coat, coat) || longer();
  return sets(below.coat) !== null && tables(CURRENT).schedule.after_set.includes(familyOf(coat.coat)) && longer();
}

/** The minutes in which it sets; null of what only dries, or whose bag nobody read. */
function sets({ material, set_minutes }: CoatPart): number | null {
  const row = own<{ clock: string }>(tables(CURRENT).drying.materials, material);
  return row?.clock === "set" && set_minutes ? set_minutes : null;
}

/** Whether compound could go on a coat before it could go on the one beside it. */
function setsLater(below: CoatPart, coat: CoatPart): boolean {
  const [first, other] = [sets(below), sets(coat)];
  return other !== null && (first === null || first > other);
}

function byTable(place: Place, coat: CoatPart): number {
  return doses(dryingOf(coat, 0, factorOf(place, coat.material)), CURRENT).by_table;
}
