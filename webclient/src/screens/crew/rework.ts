/** What is said beside ticks and clears about the walls they are on, and the entries of coats that it makes. Pure. */

import { newId } from "../../clock";
import type { Draft } from "../../journal";
import { CURRENT, family, tables, type ItemPart, type Paint } from "../../rules";
import { looksAt, minutesOf, type Laying, type Under } from "../coats/laying";
import { NO_PAINT, paintOf, type Painted } from "../coats/paints";
import { isPaint, sandsWet, type Lie, type OnWall } from "./walls";

export interface Said extends Pick<Laying, "way" | "tried" | "reason"> {
  /** Setting-type instead of what the coat is usually of, and its minutes as typed. */
  setting: boolean;
  set: string;
  /** Sanded wet: the joint there begins to dry again. */
  wet: boolean;
  /** It was the paint used last in the room. */
  same: boolean;
  /** It was another can, or nobody knew the one before: what was typed of it. */
  another: boolean;
  can: Paint;
}
export const NOTHING_SAID: Said = { way: null, tried: [], reason: "", setting: false, set: "", wet: false, same: false, another: false, can: {} };

/** Walls that are not ready for what is done there; wet sanding needs no dry joint. */
export const stopped = (walls: readonly OnWall[], { wet }: Said): OnWall[] => walls.filter(({ ready, sands, coat }) => !ready && !(wet && sands && coat === null));

/** What a press is for once walls are left out that are not ready. */
export function goesOn(items: readonly ItemPart[], walls: readonly OnWall[], said: Said): { items: ItemPart[]; walls: OnWall[] } {
  const left = said.way === "leave" ? stopped(walls, said) : [];
  return { items: items.filter((item) => !left.some((wall) => wall.items.includes(item))), walls: walls.filter((wall) => !left.includes(wall)) };
}

/** Whether compound goes on somewhere: then its kind is asked. */
export const takesCompound = (walls: readonly OnWall[]): boolean => walls.some(({ coat }) => coat !== null && family(coat) === "joint");

/** Whether a look at it is before the table's time. */
const tooSoon = ({ clock }: Lie, at: number): boolean => clock.by_table === null || at < clock.by_table;
export const anyTooSoon = (walls: readonly OnWall[], at: number): boolean => walls.some(({ lies }) => lies.some((lie) => lie.stops && tooSoon(lie, at)));

/** The paint that goes on a wall, as far as anybody said; null for what is no paint. */
function paintSaid({ coat, paint }: Pick<OnWall, "coat" | "paint">, { same, another, can }: Said): Paint | null {
  if (!isPaint(coat)) return null;
  if (another) return paintOf({ ...NO_PAINT, ...can });
  return same ? paint : null;
}

/** Each wall that is painted, with the batch at hand and the one before. */
export const paintedOn = (walls: readonly OnWall[], said: Said): Painted[] =>
  walls.filter(({ coat }) => isPaint(coat)).map((wall) => ({ module: wall.module, room: wall.room, batch: paintSaid(wall, said)?.batch ?? "", before: wall.before }));

/** What was typed of another can. Mostly it is of the same product and colour: those stand there, where all walls have one, until somebody types others. */
export function anotherCan(walls: readonly OnWall[], { can }: Said): Required<Paint> {
  const painted = walls.filter(({ coat }) => isPaint(coat));
  const used = (field: "product" | "colour"): string => {
    const [one = "", ...others] = new Set(painted.map(({ paint }) => paint?.[field]?.trim() ?? ""));
    return others.length === 0 ? one : "";
  };
  return { ...NO_PAINT, product: used("product"), colour: used("colour"), ...can };
}

export type WhyNotWall = "under" | "walls_left" | "no_cover" | "tried" | "reason" | "set";

/** What is missing before a press; null when nothing is. */
export function whyNotOn(items: readonly ItemPart[], walls: readonly OnWall[], said: Said, at: number): WhyNotWall | null {
  const on = goesOn(items, walls, said);
  if (said.setting && takesCompound(on.walls) && minutesOf(said.set) === null) return "set";
  const wet = stopped(walls, said);
  if (wet.length === 0) return null;
  if (said.way === null) return "under";
  if (said.way === "leave") return on.items.length === 0 ? "walls_left" : null;
  if (said.way === "early" && wet.some(({ coat }) => coat === null)) return "no_cover";
  if (said.way === "looked" && !anyTooSoon(wet, at)) return null;
  if (said.way === "looked" && said.tried.length === 0) return "tried";
  return said.reason.trim() ? null : "reason";
}

/** The looks, the wet sandings and the coats of walls that go on; one coat of a wall, however many items. */
export function wallDrafts(walls: readonly OnWall[], said: Said, at: number, doneBy: string[]): Draft[] {
  const wet = stopped(walls, said);
  return [...(said.way === "looked" ? looks(wet, said, at) : []), ...(said.wet ? sandings(walls, doneBy) : []), ...walls.flatMap((wall) => laid(wall, wet.includes(wall), said, doneBy))];
}

function laid({ module, room, surface, coat, of, lies, ...wall }: OnWall, wet: boolean, said: Said, doneBy: string[]): Draft[] {
  if (coat === null) return [];
  const { material } = tables(CURRENT).schedule.coats[coat];
  const minutes = said.setting && family(coat) === "joint" ? minutesOf(said.set) : null;
  const paint = paintSaid({ coat, paint: wall.paint }, said);
  const body = {
    coat,
    rooms: [room],
    surface,
    items: of,
    ...(minutes === null ? { material } : { material: "setting_type" as const, set_minutes: minutes }),
    ...(paint ? { paint } : {}),
    ...(lies.length > 0 ? { over: lies.map((lie) => lie.coat.id) } : {}),
    ...(doneBy.length > 0 ? { done_by: doneBy } : {}),
    ...(wet && said.way === "early" ? { early: said.reason.trim() } : {}),
  };
  return [{ kind: "coat.laid", module, about: newId(), body }];
}

/** One look for each coat, also where it lies on several walls. */
function looks(wet: readonly OnWall[], said: Said, at: number): Draft[] {
  return [...byModule(wet)].flatMap(([module, walls]) => {
    const rooms = [...new Set(walls.map(({ room }) => room))];
    const unders = rooms.map((room): Under => {
      const here = walls.filter((wall) => wall.room === room).flatMap(({ lies }) => lies.filter(({ stops }) => stops));
      const ids = [...new Set(here.map(({ coat }) => coat.id))];
      const waits = ids.map((id) => ({ id, before: here.some((lie) => lie.coat.id === id && tooSoon(lie, at)) }));
      return { room, ready: false, waits, over: ids };
    });
    return looksAt(said, unders, { module, laidAt: null });
  });
}

/** Worked wet, the coat there starts again; once for each, however many walls of a room. */
function sandings(walls: readonly OnWall[], doneBy: string[]): Draft[] {
  const found = new Map<string, Draft>();
  for (const { module, room, lies, sands } of walls) {
    for (const { coat } of sands ? lies.filter(sandsWet) : []) {
      found.set(`${coat.id} ${room}`, { kind: "coat.wet_sanded", module, about: coat.id, body: { rooms: [room], ...(doneBy.length > 0 ? { done_by: doneBy } : {}) } });
    }
  }
  return [...found.values()];
}

function byModule(walls: readonly OnWall[]): Map<string, OnWall[]> {
  const found = new Map<string, OnWall[]>();
  for (const wall of walls) found.set(wall.module, [...(found.get(wall.module) ?? []), wall]);
  return found;
}
