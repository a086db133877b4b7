/** Across the yard: what can be taped, floated, sanded, textured, primed or painted, and from when. */

import { bareWalls, readiness, tops } from "./covers";
import { value } from "./heads";
import type { Place } from "./place";
import { family, nextCoat } from "./schedule";
import type { CoatSurface, ModulePart } from "./types";
import { CURRENT, type CoatKey, type Family, tables } from "./vocabulary";

export type Do = "tape" | "float" | "sand" | "texture" | "prime" | "paint";
export interface ReadyRow {
  module: string;
  serial: string | null;
  pickup: string | null;
  room: string;
  surface: CoatSurface | null;
  coat: CoatKey | null;
  do: Do;
  family: Family;
  crew: string | null;
  ready: 0 | 1;
  at: number | null;
  state: string;
  under: string | null;
  bare: CoatSurface[];
}
type Task = Pick<ReadyRow, "surface" | "coat" | "do" | "family">;
const NEVER = 2 ** 52;

/**
 * What comes next on every room, and on every wall with rework of its own, by when it can be done, then by pickup.
 *
 * `coat`: the key to lay next, null where that is not told. `do`: tape, float, sand, texture, prime or
 * paint; `sand` with a coat: sand, then lay it. `at`: seconds, null on bare board and where only a look can say. `under`:
 * id of the coat that it waits for. `bare`: walls to be primed before paint goes on the room. What has left or is released is
 * not on it, nor a room with nothing more to lay.
 */
export function readyList(places: Iterable<Place>, now: number): ReadyRow[] {
  return [...places].filter(({ module }) => stands(module)).flatMap((place) => of(place, now)).sort(order);
}

const stands = (module: ModulePart): boolean => module.left === null && module.release === null;

function of(place: Place, now: number): ReadyRow[] {
  const { heads, id } = place.module;
  const whose = { module: id, serial: value(heads, "serial"), pickup: value(heads, "pickup") };
  const crews = place.yard?.coats?.crews ?? {};
  return place.rooms.flatMap((room) => tasks(place, room).map((task): ReadyRow => {
    // Compound may go on what has only set; sanding it may not.
    const over = readiness(place, room, task.do === "sand" ? "texture" : task.family, now, task.surface);
    const crew = crews[task.do === "sand" ? "joint" : task.family] ?? null;
    const when = { ready: over.ready ? 1 as const : 0 as const, at: over.at, state: over.state };
    const bare = task.surface === null ? bareWalls(place, room, task.family) : [];
    return { ...whose, room, ...task, crew, ...when, under: over.under?.id ?? null, bare };
  }));
}

/** What comes next on the room and on its walls with rework. */
function tasks(place: Place, room: string): Task[] {
  const table = tables(CURRENT).helps;
  // Of each surface the latest, which comes first: what to do next is about that.
  const layers = tops(place, room).filter(([surface], at, all) => all.findIndex(([wall]) => wall === surface) === at);
  const top = layers.find(([surface]) => surface === null)?.[1];
  const coat = nextCoat(place, room);
  const found: Task[] = [];
  if (coat !== null) {
    const kind = family(coat);
    const sand = top !== undefined && family(top.coat) === "joint" && kind !== "joint";
    found.push({ surface: null, coat, do: sand ? "sand" : (table.do[coat] as Do | undefined) ?? "paint", family: kind });
  }
  for (const [surface, { coat: laid }] of layers) {
    const next = (table.after as { [kind in Family]?: Do })[family(laid)];
    if (next !== undefined && (surface !== null || (coat === null && next === "sand"))) {
      found.push({ surface, coat: null, do: next, family: next === "sand" ? "joint" : next === "prime" ? "primer" : "paint" });
    }
  }
  return found;
}

function order(one: ReadyRow, other: ReadyRow): number {
  const [mine, others] = [keys(one), keys(other)];
  for (const [place, key] of mine.entries()) {
    const against = others[place];
    if (against !== undefined && key !== against) return key < against ? -1 : 1;
  }
  return 0;
}

const keys = (row: ReadyRow): (number | string)[] => [
  row.at ?? (row.ready === 1 ? 0 : NEVER), row.pickup ?? "9", row.serial ?? "", row.module, row.room, row.surface ?? "",
];
