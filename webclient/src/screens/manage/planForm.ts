/** A plan as a form holds it: lengths as typed, so that nothing half-typed is lost; and back into whole millimetres. */

import { newId } from "../../clock";
import { LETTERS, parseLength, type Letter, type RoomPlan } from "../../parts";
import type { Opening, PlanPart, PlanRoom, Thing, Wall } from "../../rules";

export interface BoxForm {
  along: string;
  up: string;
  w: string;
  h: string;
  was?: Was;
}
export interface OpeningForm extends BoxForm {
  kind: Opening["kind"];
}
export interface ThingForm extends BoxForm {
  name: string;
}
export interface WallForm {
  sight: string;
  openings: OpeningForm[];
  things: ThingForm[];
}
export interface RoomForm {
  id: string;
  name: string;
  l: string;
  w: string;
  h: string;
  was?: Was;
  walls: Record<Letter, WallForm>;
}
export interface PlanForm {
  /** The seq of the plan that this was begun from; 0 for a new one. */
  base: number;
  name: string;
  rooms: RoomForm[];
}
/** Path of a field -> key of what is wrong with it. */
export type Wrong = Readonly<Record<string, string>>;

const INCH = 25.4;
const LONGEST = 100_000;
export const BOX = ["along", "up", "w", "h"] as const;
const SIDES = ["l", "w", "h"] as const;

/** Millimetres as one writes them on a plan, to the quarter inch, the same in both languages: `2' 9.75"`. */
export function typed(mm: number): string {
  const quarters = Math.round((mm / INCH) * 4);
  const [feet, inches] = [Math.floor(quarters / 48), (quarters % 48) / 4];
  return [...(feet > 0 ? [`${feet}'`] : []), ...(inches > 0 || feet === 0 ? [`${inches}"`] : [])].join(" ");
}

/** A measure that was there before, as it is shown and as it truly is: untouched, it stays to the millimetre. */
type Was = Readonly<Record<string, readonly [text: string, mm: number]>>;

const textsOf = <K extends string>(sides: readonly K[], of: Readonly<Record<K, number>>): Record<K, string> & { was: Was } => {
  const texts = Object.fromEntries(sides.map((side) => [side, typed(of[side])])) as Record<K, string>;
  return { ...texts, was: Object.fromEntries(sides.map((side) => [side, [texts[side], of[side]] as const])) };
};

const emptyWall = (): WallForm => ({ sight: "", openings: [], things: [] });

export function emptyRoom(like?: RoomForm): RoomForm {
  const walls = { A: emptyWall(), B: emptyWall(), C: emptyWall(), D: emptyWall() };
  return { id: `room-${newId().slice(-8)}`, name: "", l: "", w: "", h: like?.h || typed(2438), walls };
}

/** Sizes that most doors and windows have, to be changed where they differ. */
export function emptyOpening(kind: Opening["kind"]): OpeningForm {
  const size = kind === "window" ? { up: 914, w: 914, h: 1219 } : { up: 0, w: 813, h: 2032 };
  return { kind, along: "", up: typed(size.up), w: typed(size.w), h: typed(size.h) };
}

export const emptyThing = (): ThingForm => ({ name: "", along: "", up: typed(0), w: "", h: "" });

export function formOfPlan(plan: PlanPart | null, name: string): PlanForm {
  return { base: plan?.seq ?? 0, name: plan?.name ?? name, rooms: plan?.rooms.map(roomForm) ?? [] };
}

function roomForm(room: PlanRoom): RoomForm {
  const walls = Object.fromEntries(LETTERS.map((letter) => [letter, wallForm(room.walls[letter])])) as Record<Letter, WallForm>;
  return { id: room.id, name: room.name, ...textsOf(SIDES, room), walls };
}

function wallForm(wall: Wall | undefined): WallForm {
  if (!wall) return emptyWall();
  const box = <T extends Opening | Thing>(one: T) => ({ ...one, ...textsOf(BOX, one) });
  return { sight: wall.sight ?? "", openings: wall.openings.map(box), things: wall.things.map(box) };
}

/** The room as far as it can be drawn now: what cannot be read yet is left out. Null without its three measures. */
export function drawable(room: RoomForm): RoomPlan | null {
  const [l, w, h] = SIDES.map((side) => measure(room, side));
  if (!l || !w || !h) return null;
  return { l, w, h, walls: Object.fromEntries(LETTERS.map((letter) => [letter, wallOf(room.walls[letter])])) };
}

function measure<K extends string>(form: Readonly<Record<K, string>> & { was?: Was }, side: K): number | null {
  const was = form.was?.[side];
  const mm = was?.[0] === form[side] ? was[1] : parseLength(form[side]);
  return mm !== null && mm <= LONGEST ? mm : null;
}

function wallOf({ sight, openings, things }: WallForm): Wall {
  const wall: Wall = {
    openings: openings.flatMap((one) => withBox(one, { kind: one.kind })),
    things: things.flatMap((one) => withBox(one, { name: one.name.trim() })),
  };
  return sight.trim() ? { sight: sight.trim(), ...wall } : wall;
}

type Box = Record<(typeof BOX)[number], number>;

/** Nothing while one of the four measures cannot be read. */
function withBox<T extends object>(form: BoxForm, rest: T): (T & Box)[] {
  const box = boxOf(form);
  return box ? [{ ...rest, ...box }] : [];
}

function boxOf(form: BoxForm): Box | null {
  const [along, up, w, h] = BOX.map((side) => measure<(typeof BOX)[number]>(form, side));
  return along == null || up == null || !w || !h ? null : { along, up, w, h };
}

/** The rooms as an entry says them; only of a form in which nothing is wrong. */
export function roomsOf(form: PlanForm): PlanRoom[] {
  return form.rooms.flatMap((room) => {
    const plan = drawable(room);
    return plan ? [{ id: room.id, name: room.name.trim(), ...plan }] : [];
  });
}

/** What is wrong with a form, by the path of the field. */
export function wrongIn(form: PlanForm): Wrong {
  const found: Record<string, string> = {};
  if (!form.name.trim()) found["name"] = "manager.plan_name_needed";
  if (form.rooms.length === 0) found["rooms"] = "manager.rooms_needed";
  for (const room of form.rooms) {
    if (!room.name.trim()) found[`${room.id} name`] = "manager.room_name_needed";
    for (const side of SIDES) if (!measure(room, side)) found[`${room.id} ${side}`] = "manager.length_needed";
    for (const letter of LETTERS) Object.assign(found, wrongOn(room, letter));
  }
  return found;
}

function wrongOn(room: RoomForm, letter: Letter): Record<string, string> {
  const found: Record<string, string> = {};
  const wide = measure(room, letter === "A" || letter === "C" ? "l" : "w");
  const high = measure(room, "h");
  const look = (one: BoxForm, path: string): void => {
    for (const side of BOX) if (measure(one, side) === null || (side.length === 1 && measure(one, side) === 0)) found[`${path} ${side}`] = "manager.length_needed";
    const box = boxOf(one);
    if (box && wide && box.along + box.w > wide) found[`${path} along`] = "manager.past_end";
    if (box && high && box.up + box.h > high) found[`${path} up`] = "manager.past_top";
  };
  room.walls[letter].openings.forEach((one, at) => look(one, pathOf(room.id, letter, "opening", at)));
  room.walls[letter].things.forEach((one, at) => {
    const path = pathOf(room.id, letter, "thing", at);
    look(one, path);
    if (!one.name.trim()) found[`${path} name`] = "manager.thing_name_needed";
  });
  return found;
}

export const pathOf = (room: string, letter: Letter, kind: "opening" | "thing", at: number): string => `${room} ${letter} ${kind} ${at}`;
