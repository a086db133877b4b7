/** The gate: everything that stops a module from going to staging, each with who can lift it and the entry behind it. */

import { coatHolds } from "./coat_holds";
import * as field from "./heads";
import { seconds } from "./instants";
import { own } from "./own";
import { sheetId } from "./parts";
import { placeOf, roomsSince } from "./place";
import { openCells, roomsOf } from "./sheets";
import type {
  CoatPart, DevicePart, Hold, ItemPart, Lifts, ModulePart, Part, PhotoPart, PlanPart, SetAsidePart, SheetPart,
} from "./types";
import { CURRENT, type SheetRow, tables } from "./vocabulary";

export const LIFTS: readonly Lifts[] = ["crew_lead", "inspector", "shipping", "manager", "waiting"];

/**
 * Every hold of a module, always all of them, in a fixed order.
 *
 * `parts`: the module's own and what is the yard's: phones, plans, the yard, its air, what its coats taught. `now`: RFC
 * 3339 UTC, for what waits on time.
 * Each hold: key, lifts, seq (of the entry behind it), and what its sentence needs. An empty list: nothing stops it.
 */
export function holds(moduleId: string, parts: Iterable<Part>, now: string): Hold[] {
  const all = [...parts];
  const mine = sorted(moduleId, all);
  const { module } = mine;
  if (module === null) return [{ key: "no_such_module", lifts: "manager", seq: 0 }];
  const found = [
    ...ofItems(mine.items),
    ...ofUndecided(module, mine.items),
    ...ofUndecidedPlan(module, mine.plans),
    ...ofSheets(module, mine.sheets, mine.plans),
    ...ofPhotos(mine.photos, mine.devices),
    ...ofPhones(module, mine.devices),
    ...ofSetAside(mine.asides),
    ...coatHolds(placeOf(moduleId, all), mine.coats, seconds(now)),
  ];
  return found.sort(inOrder);
}

/** The holds of a released module that no answer covers: what questions its release. */
export function questions(module: ModulePart, found: readonly Hold[]): Hold[] {
  const { release } = module;
  if (release === null) return [];
  const answers = module.answers.filter((answer) => answer.release === release.id);
  const covered = Math.max(0, ...answers.map((answer) => answer.up_to));
  return found.filter((hold) => hold.seq > covered);
}

interface Mine {
  module: ModulePart | null;
  items: ItemPart[];
  sheets: Map<string, SheetPart>;
  photos: PhotoPart[];
  asides: SetAsidePart[];
  coats: CoatPart[];
  devices: Map<string, DevicePart>;
  plans: Map<string, PlanPart>;
}

function sorted(moduleId: string, parts: Iterable<Part>): Mine {
  const mine: Mine = {
    module: null, items: [], sheets: new Map(), photos: [], asides: [], coats: [], devices: new Map(), plans: new Map(),
  };
  for (const part of parts) {
    if (part.part === "device") mine.devices.set(part.id, part);
    else if (part.part === "plan") mine.plans.set(part.id, part);
    else if (part.module === moduleId) keep(mine, part, moduleId);
  }
  return mine;
}

function keep(mine: Mine, part: Part, moduleId: string): void {
  if (part.part === "module" && part.id === moduleId) mine.module = part;
  else if (part.part === "item") mine.items.push(part);
  else if (part.part === "sheet") mine.sheets.set(part.id, part);
  else if (part.part === "photo") mine.photos.push(part);
  else if (part.part === "set_aside") mine.asides.push(part);
  else if (part.part === "coat") mine.coats.push(part);
}

function inOrder(one: Hold, other: Hold): number {
  return (
    LIFTS.indexOf(one.lifts) - LIFTS.indexOf(other.lifts) ||
    byText(one.key, other.key) ||
    byText(roomIn(one), roomIn(other)) ||
    one.seq - other.seq
  );
}

function byText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

function roomIn(hold: Hold): string {
  return "room" in hold ? hold.room : "";
}

/** One hold for each state, room and (to fix) crew, so that each reads as one sentence. */
function ofItems(items: ItemPart[]): Hold[] {
  const groups = new Map<string, ItemPart[]>();
  for (const item of items) {
    if (item.state !== "open" && item.state !== "cleared") continue;
    const key = JSON.stringify([item.state, roomOf(item), crewOf(item)]);
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()].map(ofGroup);
}

function ofGroup(group: ItemPart[]): Hold {
  const members = group.sort((one, other) => one.number - other.number);
  const first = members[0] as ItemPart;
  const numbers = members.map((item) => item.number);
  const seq = Math.max(...members.map((item) => item.since));
  const room = roomOf(first);
  if (first.state !== "open") return { key: "items_cleared", lifts: "inspector", seq, room, numbers };
  const back = members.filter((item) => item.sent_back).map((item) => item.number);
  return { key: "items_open", lifts: "crew_lead", seq, room, numbers, crew: crewOf(first), sent_back: back };
}

function roomOf(item: ItemPart): string {
  return field.value(item.heads, "spot")?.room ?? "";
}

function crewOf(item: ItemPart): string {
  return item.state === "open" ? (field.value(item.heads, "crew") ?? "") : "";
}

function ofUndecided(module: ModulePart, items: ItemPart[]): Hold[] {
  const found: Hold[] = field.undecided(module.heads).map((name) => ({
    key: "fact_undecided", lifts: "manager", seq: field.latestSeq(module.heads, name), field: name,
  }));
  for (const item of items) {
    if (item.state === "void") continue;
    for (const name of field.undecided(item.heads)) {
      found.push({
        key: "item_undecided", lifts: "inspector", seq: field.latestSeq(item.heads, name), field: name,
        numbers: [item.number], room: roomOf(item),
      });
    }
  }
  return found;
}

/** A room that only one of two drawings has would be asked of nobody. */
function ofUndecidedPlan(module: ModulePart, plans: Map<string, PlanPart>): Hold[] {
  const plan = plans.get(field.value(module.heads, "plan") ?? "");
  if (!plan || field.undecided(plan.heads).length === 0) return [];
  return [{ key: "plan_undecided", lifts: "manager", seq: field.latestSeq(plan.heads, "rooms"), plan: plan.id }];
}

function ofSheets(module: ModulePart, sheets: Map<string, SheetPart>, plans: Map<string, PlanPart>): Hold[] {
  const plan = plans.get(field.value(module.heads, "plan") ?? "") ?? null;
  const rooms = { keys: roomsOf(module, plan), since: roomsSince(module, plan) };
  return Object.entries(tables(CURRENT).sheets).flatMap(([key, row]) =>
    ofSheet(key, row, sheets.get(sheetId(module.id, key)) ?? null, rooms),
  );
}

function ofSheet(
  key: string,
  row: SheetRow,
  sheet: SheetPart | null,
  rooms: { keys: string[]; since: number },
): Hold[] {
  const found: Hold[] = [];
  const cells = sheet?.cells ?? {};
  const unanswered = openCells(key, cells, rooms.keys, CURRENT).length;
  const seq = Math.max(sheet?.since ?? 0, unanswered > 0 ? rooms.since : 0);
  const hold = { lifts: row.sign[0] as Lifts, sheet: key, seq };
  if (sheet?.stale) found.push({ key: "sheet_stale", ...hold, stale: sheet.stale });
  else if (unanswered > 0 || !sheet?.sign) found.push({ key: "sheet_unsigned", ...hold, unanswered });
  const undecided = Object.keys(cells).sort().flatMap((name) =>
    field.undecided(own(cells, name) ?? {}).map((room): [string, string] => [name, room]),
  );
  if (undecided.length > 0) {
    const latest = Math.max(...undecided.map(([name, room]) => field.latestSeq(own(cells, name) ?? {}, room)));
    found.push({ ...hold, key: "sheet_undecided", seq: latest, cells: undecided });
  }
  return found;
}

/** Photos that have not come, by the phone that has them; but for those that were written off with their phone. */
function ofPhotos(photos: PhotoPart[], devices: Map<string, DevicePart>): Hold[] {
  const groups = new Map<string, PhotoPart[]>();
  for (const photo of photos) {
    const phone = devices.get(photo.device);
    if (photo.arrived || phone?.written_off || photo.since <= (phone?.written_off_to ?? 0)) continue;
    groups.set(photo.device, [...(groups.get(photo.device) ?? []), photo]);
  }
  return [...groups].map(([device, members]) => {
    const latest = members.reduce((one, other) => (other.seq > one.seq ? other : one));
    return { key: "photos_missing", lifts: "waiting", seq: latest.seq, device, by: latest.by, count: members.length };
  });
}

function ofPhones(module: ModulePart, devices: Map<string, DevicePart>): Hold[] {
  const found: Hold[] = [];
  for (const device of devices.values()) {
    const { behind } = device;
    if (behind === null || device.written_off || !behind.modules.includes(module.id)) continue;
    const answer = own(module.phone_answers, device.id);
    if (answer !== undefined && answer.up_to >= behind.seq) continue;
    found.push({
      key: "phone_behind", lifts: "shipping", seq: behind.seq, device: device.id,
      by: device.person, since: behind.time,
    });
  }
  return found;
}

function ofSetAside(asides: SetAsidePart[]): Hold[] {
  return asides
    .filter((aside) => aside.state === "waiting")
    .map((aside) => ({
      key: "entry_set_aside", lifts: "manager", seq: aside.seq, by: aside.by, kind: aside.kind,
      reason: aside.reason, entry: aside.id,
    }));
}
