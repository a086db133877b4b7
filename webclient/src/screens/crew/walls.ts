/** Ticks and clears as work on walls: which coat one press lays on each, and whether the wall is ready for it. Pure. */

import { beside, clock, CURRENT, family, readiness, tables, tops, value, type Clock, type CoatKey, type CoatPart, type CoatSurface, type Family, type ItemPart, type Paint, type Place } from "../../rules";
import { batchBefore, paintsUsed } from "../coats/paints";
import { covers } from "../coats/under";

export type Press = "tick" | "clear";
/** A coat that lies on a wall; `stops`: what is done there waits for it. */
export interface Lie {
  coat: CoatPart;
  clock: Clock;
  stops: boolean;
}
/** What one press does on one wall. */
export interface OnWall {
  module: string;
  room: string;
  surface: CoatSurface;
  items: ItemPart[];
  /** The coat that it lays, and of which items; none where nothing of it is a coat. */
  coat: CoatKey | null;
  of: string[];
  /** The paint used last in the room, where the coat is paint; and the batch that is on the wall, empty where nobody said. */
  paint: Paint | null;
  before: string;
  /** What lies on the wall now, the latest first. */
  lies: Lie[];
  /** Whether the wall is ready for it. */
  ready: boolean;
  /** Whether something is sanded on it that can be sanded wet. */
  sands: boolean;
}
/** A step, with the coat that it lays or, while it lays none, the one that comes after it. */
interface Asked {
  item: ItemPart;
  step: string;
  coat: CoatKey | null;
  next: CoatKey | null;
}

/** Of a touch-up the can is asked. */
export const isPaint = (coat: CoatKey | null): boolean => coat !== null && family(coat) === "paint";
/** From the slowest to dry to the quickest, as they go on. */
const STAGES: readonly Family[] = ["joint", "texture", "primer", "paint"];
const SAND = "sand";
/** What says of a wall that it is dry, or needs it so. */
export const needsDry = (step: string): boolean => step === SAND || /^dry(_\d)?$/.test(step);

/** The coat that a rework step lays; null for all others. */
export const coatOfStep = (step: string): CoatKey | null => tables(CURRENT).schedule.steps[step] ?? null;

/** Where the item is, as coats name it: trim, floor and unknown places have no coats of their own. */
export function wallOf(item: ItemPart): { room: string; surface: CoatSurface } | null {
  const spot = value(item.heads, "spot");
  if (!spot || spot.surface === "floor" || spot.surface === "trim") return null;
  return { room: spot.room, surface: spot.surface };
}

/** The walls that a press is on. `place`: a module's place, null where it is not here. */
export function wallsOf(press: Press, items: readonly ItemPart[], place: (module: string) => Place | null, at: number): OnWall[] {
  const groups = new Map<string, ItemPart[]>();
  for (const item of items) {
    const wall = wallOf(item);
    if (!wall || !item.module || asked(press, item).length === 0) continue;
    const key = [item.module, wall.room, wall.surface].join(" ");
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()].flatMap((group) => onWall(press, group, place, at) ?? []);
}

/** What lies on a wall: its own rework, the latest first, else the room's coats. */
export function liesOn(place: Place, room: string, surface: CoatSurface): CoatPart[] {
  const layers = tops(place, room);
  const own = layers.filter(([wall]) => wall === surface);
  return (own.length > 0 ? own : layers.filter(([wall]) => wall === null)).map(([, coat]) => coat);
}

function onWall(press: Press, items: ItemPart[], placeOf: (module: string) => Place | null, at: number): OnWall | null {
  const [first] = items;
  const wall = first && wallOf(first);
  const place = first?.module ? placeOf(first.module) : null;
  if (!first?.module || !wall || !place) return null;
  const steps = items.flatMap((item) => asked(press, item));
  const lasts = press === "clear" ? items.flatMap((item) => steps.findLast((one) => one.item === item && one.coat !== null) ?? []) : steps.filter(({ coat }) => coat !== null);
  const { coat, of } = slowest(lasts);
  const asks = needs(press, steps, lasts);
  const lies = withHidden(place, wall, asks, liesOn(place, wall.room, wall.surface), at).map((one): Lie => {
    const found = clock(place, one, wall.room, at);
    return { coat: one, clock: found, stops: !asks.every((ask) => may(ask, one, found, { of, surface: wall.surface }, at)) };
  });
  const sands = press === "tick" && steps.some(({ step }) => step === SAND) && lies.some(sandsWet);
  const painted = coat !== null && isPaint(coat);
  const paint = painted ? (paintsUsed(place, coat, [wall.room])[0] ?? null) : null;
  const before = painted ? batchBefore(place, wall.room, wall.surface) : "";
  return { module: first.module, ...wall, items, coat, of, paint, before, lies, ready: !lies.some(({ stops }) => stops), sands };
}

/** Of a tick the next step, of a clear all that are left. */
function asked(press: Press, item: ItemPart): Asked[] {
  const all = tables(CURRENT).defects[value(item.heads, "defect") ?? ""]?.steps ?? [];
  const left = all.filter((step) => !item.ticks.includes(step));
  return left.slice(0, press === "tick" ? 1 : left.length).map((step) => ({
    item,
    step,
    coat: coatOfStep(step),
    next: all.slice(all.indexOf(step) + 1).flatMap((one) => coatOfStep(one) ?? [])[0] ?? null,
  }));
}

/** One coat of a wall at a time, and so one clock: of several sorts put on together the one that dries last. */
function slowest(laid: readonly Asked[]): { coat: CoatKey | null; of: string[] } {
  const { coats } = tables(CURRENT).schedule;
  const stage = STAGES.find((one) => laid.some(({ coat }) => coat && family(coat) === one));
  const same = laid.filter(({ coat }) => coat && family(coat) === stage);
  const thick = same.find(({ coat }) => coat && coats[coat].thickness !== "thin") ?? same[0];
  return { coat: thick?.coat ?? null, of: same.map(({ item }) => item.id) };
}

/** What has to be dry: under each coat that is laid, and for each step that says so. A clear's last coat stands for all. */
function needs(press: Press, steps: readonly Asked[], lasts: readonly Asked[]): readonly Asked[] {
  if (press === "tick") return steps.filter(({ step, coat }) => coat !== null || needsDry(step));
  return [...lasts, ...steps.filter(({ item, step }) => needsDry(step) && !lasts.some((one) => one.item === item))];
}

/** Only compound and texture take up the water of a wet sanding. */
export const sandsWet = ({ coat: { coat } }: Pick<Lie, "coat">): boolean => ["joint", "texture"].includes(family(coat));

/** With what still dries under the wall's own coats: compound of the room that had only set when they went on. */
function withHidden(place: Place, { room, surface }: { room: string; surface: CoatSurface }, asks: readonly Asked[], lies: CoatPart[], at: number): CoatPart[] {
  const under = asks.flatMap(({ coat, next }) => readiness(place, room, family(coat ?? next ?? "touch_up"), at, surface).under ?? []);
  return [...new Set([...lies, ...under])];
}

function may({ coat, next, item }: Asked, below: CoatPart, found: Clock, { of, surface }: { of: string[]; surface: CoatSurface }, at: number): boolean {
  if (found.state === "ready" || found.state === "dry") return true;
  if (coat !== null && beside(below, { coat, surface, items: of.includes(item.id) ? of : [item.id] })) return true;
  const over = coat ?? next;
  return over !== null && covers(found, below, over, at);
}
