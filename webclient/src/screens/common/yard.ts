/** What screens read of the yard, in the shapes they draw. */

import { nowStamp } from "../../clock";
import { all, expectedNumber, partsOf } from "../../journal";
import { clockTime, feetInches, itemMark, sameDay, sayTime, type Marked } from "../../parts";
import { session } from "../../people";
import type { DevicePart, ItemPart, ModulePart, Part, PersonPart, PhotoPart, PlanPart, PlanRoom, SetAsidePart, SheetPart, YardPart } from "../../rules";
import { CURRENT, may, tables, value, values, type Kind } from "../../rules";
import { language, say, t } from "../../words";

/** Above this a seq is a pending entry of this phone. */
export const PENDING = 1e15;

export const yard = (): YardPart | undefined => all("yard").value[0];
export const zone = (): string => yard()?.zone ?? "UTC";
export const people = (): PersonPart[] => all("person").value;
export const plans = (): PlanPart[] => all("plan").value;
export const devices = (): DevicePart[] => all("device").value;
export const setAsides = (): SetAsidePart[] => all("set_aside").value;

export function nameOf(person: string): string {
  if (person === "server") return t("yard.server");
  return people().find(({ id }) => id === person)?.name ?? t("yard.somebody");
}

export const crewName = (crew: string | undefined | null): string =>
  (crew && yard()?.crews.find(({ id }) => id === crew)?.name) || crew || t("writeup.nobody");

/** An instant as people in the yard say it; *7 a. m.* stays on one line. */
export const when = (instant: string): string => together(sayTime(instant, nowStamp(), zone(), language.value));
const together = (time: string): string => time.replace(/ ([ap])(m|\. m\.)$/, (half) => half.replaceAll(" ", "\u00a0"));

/** After another day's time one of today says so: *yesterday 11 pm*, then *today 4 pm*. */
export function whenAfter(before: string, instant: string): string {
  const time = when(instant);
  const apart = !sameDay(before, instant, zone()) && sameDay(instant, nowStamp(), zone());
  return apart ? together(t("frame.today_at", { time: clockTime(instant, zone(), language.value) })) : time;
}

/** With its full stop; *10 p. m.* has it already. */
export const ended = (sentence: string): string => (sentence.endsWith(".") ? sentence : `${sentence}.`);

/** The two ends of a sentence, the day said once: *Wed, Dec 2, 12:46 am likely, 11 pm by the table*. Empty where never. */
export function ends({ likely, by_table }: { likely: string | null; by_table: string | null }): { likely: string; by_table: string } {
  const once = likely !== null && by_table !== null && sameDay(likely, by_table, zone());
  const later = once ? together(clockTime(by_table, zone(), language.value)) : by_table && (likely ? whenAfter(likely, by_table) : when(by_table));
  return { likely: likely ? when(likely) : "", by_table: later ?? "" };
}

export const has = (role: string): boolean => session.value.holder?.roles.includes(role) ?? false;
/** Whether the rules let the holder write this kind; `body` where it depends on what is said, such as on the sheet. */
export const mayWrite = (kind: Kind, body: object = {}): boolean => may(session.value.holder, kind, body, null, CURRENT) === null;
export const me = (): string => session.value.holder?.id ?? "";

export interface RoomView {
  key: string;
  name: string;
  plan: PlanRoom | null;
}
export interface ModuleView {
  id: string;
  module: ModulePart;
  serial: string;
  bay: string | null;
  pickup: string | null;
  mirrored: boolean;
  plan: PlanPart | null;
  rooms: RoomView[];
  items: ItemPart[];
  photos: PhotoPart[];
  sheets: SheetPart[];
  parts: Part[];
}

/** A module with everything of it that this phone has; null when it is not here. */
export function moduleView(id: string): ModuleView | null {
  const parts = partsOf(id).value;
  const module = parts.find((part): part is ModulePart => part.part === "module");
  if (!module) return null;
  const planId = value(module.heads, "plan");
  const plan = plans().find((one) => one.id === planId) ?? null;
  const items = parts.filter((part): part is ItemPart => part.part === "item").sort((a, b) => a.number - b.number);
  return {
    id,
    module,
    serial: value(module.heads, "serial") ?? "",
    bay: value(module.heads, "bay") ?? null,
    pickup: value(module.heads, "pickup") ?? null,
    mirrored: value(module.heads, "mirrored") ?? false,
    plan,
    rooms: roomViews(module, plan, items),
    items,
    photos: parts.filter((part): part is PhotoPart => part.part === "photo"),
    sheets: parts.filter((part): part is SheetPart => part.part === "sheet"),
    parts,
  };
}

/** The plan's rooms, those added, and any that an item names and nobody has added. */
function roomViews(module: ModulePart, plan: PlanPart | null, items: ItemPart[]): RoomView[] {
  const rooms: RoomView[] = (plan?.rooms ?? []).map((room) => ({ key: room.id, name: room.name, plan: room }));
  const add = (key: string, name: string): void => {
    if (!rooms.some((room) => room.key === key)) rooms.push({ key, name, plan: null });
  };
  for (const room of module.rooms) add(room.room, room.name);
  for (const item of items) {
    const spot = spotOf(item);
    if (spot) add(spot.room, spot.room);
  }
  return rooms;
}

export const spotOf = (item: ItemPart) => value(item.heads, "spot");
/** What it is; two words where two people say different things of it. */
export const defectOf = (item: ItemPart): string => values(item.heads, "defect").map((defect) => say(`defects.${defect}`)).join(" / ");
export const roomName = (view: ModuleView, key: string): string => view.rooms.find((room) => room.key === key)?.name ?? key;
/** Phrases that say why an item goes back, in the reader's words. */
export const sendBackReasons = () => (tables(CURRENT).reasons["send_back"] ?? []).map((key) => ({ key, label: say(`reasons.${key}`) }));
/** Whether this crew fixes it: what nobody has been given is for whoever looks; no crew has all. */
export const isOf = (crew: string | null, item: ItemPart): boolean => crew === null || (value(item.heads, "crew") ?? crew) === crew;
/** Written here and not yet sent. */
export const onlyHere = (item: ItemPart): boolean => item.seq >= PENDING;
/** *24 became 27*: an item that had another number when it was saved on this phone; else nothing. */
export function renumbered(item: ItemPart): string {
  const old = expectedNumber(item.id);
  return old === undefined || old === item.number ? "" : t("writeup.renumbered", { old, new: item.number });
}

/** An item as the drawings take it. */
export function marked(item: ItemPart): Marked {
  const spot = spotOf(item);
  const at = spot && spot.along !== undefined && spot.up !== undefined ? { along: spot.along, up: spot.up } : undefined;
  return { id: item.id, number: item.number, state: itemMark(item), surface: spot?.surface ?? "floor", spot: at, words: spot?.words };
}

export const inRoom = (view: ModuleView, room: string): ItemPart[] => view.items.filter((item) => spotOf(item)?.room === room);

/** Every module that stands, earliest pickup first. */
export function standing(): ModuleView[] {
  const found = all("module").value.flatMap((module) => (module.left ? [] : (moduleView(module.id) ?? [])));
  const due = (view: ModuleView): string => view.pickup ?? "9999";
  return found.sort((a, b) => (due(a) === due(b) ? compare(a.serial, b.serial) : compare(due(a), due(b))));
}
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What coats of every module dry by: the yard, its air, its nights, what its coats taught. */
export function dryingParts(): Part[] {
  const kinds = ["yard", "air", "forecast", "learned"] as const;
  return kinds.flatMap((kind): Part[] => [...all(kind).value]).filter(({ module }) => module === null);
}

/** *bay 9*; a bay that has a name of its own is said by it. */
export function bayOf({ bay }: ModuleView): string {
  if (!bay) return t("yard.no_bay");
  return /^\d/.test(bay) ? t("yard.bay", { bay }) : bay;
}

/** *2416-A · bay 9 · pickup tomorrow 7 am*. */
export function placeLine(view: ModuleView, withSerial = true): string {
  const words = withSerial ? [view.serial] : [];
  words.push(bayOf(view));
  words.push(view.pickup ? t("yard.pickup", { time: when(view.pickup) }) : t("yard.no_pickup"));
  return words.join(" · ");
}

export const length = (mm: number): string => feetInches(mm, language.value);
