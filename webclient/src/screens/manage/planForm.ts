/** A plan as a form holds it: lengths as typed, so that nothing half-typed is lost; and back into whole millimetres. */

import { newId } from "../../clock";
import { LETTERS, parseLength, feetInches, type Letter } from "../../parts";
import type { Opening, PlanPart, PlanRoom, Thing, Wall } from "../../rules";
import { language } from "../../words";

export interface BoxForm {
  along: string;
  up: string;
  w: string;
  h: string;
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
  walls: Record<Letter, WallForm>;
}
export interface PlanForm {
  /** The seq of the plan that this was begun from; 0 for a new one. */
  base: number;
  name: string;
  rooms: RoomForm[];
}
/** A room without its key and name, as the drawing and the entry both take it. */
export interface Measured {
  l: number;
  w: number;
  h: number;
  walls: Record<Letter, Wall>;
}
/** Path of a field -> key of what is wrong with it. */
export type Wrong = Readonly<Record<string, string>>;

const INCH = 25.4;
const LONGEST = 100_000;
export const BOX = ["along", "up", "w", "h"] as const;

/** Millimetres as one would type them, such that reading them again gives the same millimetres. */
export function typed(mm: number): string {
  const plain = feetInches(mm, language.value);
  if (parseLength(plain) === mm) return plain;
  const feet = Math.floor(mm / INCH / 12);
  const [foot, inch] = language.value === "es" ? ["pies", "pulg"] : ["ft", "in"];
  const close = [1, 2].map((digits) => `${feet} ${foot} ${Number((mm / INCH - feet * 12).toFixed(digits))} ${inch}`);
  return close.find((text) => parseLength(text) === mm) ?? `${mm} mm`;
}

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
  return { id: room.id, name: room.name, l: typed(room.l), w: typed(room.w), h: typed(room.h), walls };
}

function wallForm(wall: Wall | undefined): WallForm {
  if (!wall) return emptyWall();
  const box = <T extends Opening | Thing>(one: T) => ({ ...one, along: typed(one.along), up: typed(one.up), w: typed(one.w), h: typed(one.h) });
  return { sight: wall.sight ?? "", openings: wall.openings.map(box), things: wall.things.map(box) };
}

/** The room as far as it can be drawn now: what cannot be read yet is left out. Null without its three measures. */
export function drawable(room: RoomForm): Measured | null {
  const [l, w, h] = [room.l, room.w, room.h].map(measure);
  if (!l || !w || !h) return null;
  return { l, w, h, walls: Object.fromEntries(LETTERS.map((letter) => [letter, wallOf(room.walls[letter])])) as Record<Letter, Wall> };
}

function measure(text: string): number | null {
  const mm = parseLength(text);
  return mm !== null && mm <= LONGEST ? mm : null;
}

function wallOf({ sight, openings, things }: WallForm): Wall {
  const wall: Wall = { openings: openings.flatMap((one) => boxOf(one) ?? []), things: things.flatMap((one) => boxOf({ ...one, name: one.name.trim() }) ?? []) };
  return sight.trim() ? { sight: sight.trim(), ...wall } : wall;
}

function boxOf<T extends BoxForm>(form: T): (Omit<T, keyof BoxForm> & Record<keyof BoxForm, number>) | null {
  const [along, up, w, h] = BOX.map((side) => measure(form[side]));
  if (along == null || up == null || !w || !h) return null;
  return { ...form, along, up, w, h };
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
    for (const side of ["l", "w", "h"] as const) if (!measure(room[side])) found[`${room.id} ${side}`] = "manager.length_needed";
    for (const letter of LETTERS) Object.assign(found, wrongOn(room, letter));
  }
  return found;
}

function wrongOn(room: RoomForm, letter: Letter): Record<string, string> {
  const found: Record<string, string> = {};
  const wide = measure(letter === "A" || letter === "C" ? room.l : room.w);
  const high = measure(room.h);
  const look = (one: BoxForm, path: string): void => {
    for (const side of BOX) if (measure(one[side]) === null || (side.length === 1 && measure(one[side]) === 0)) found[`${path} ${side}`] = "manager.length_needed";
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
