/** The life of a punch item. Each step changes parts and returns null, or the reason why it had no effect. */

import * as field from "./heads";
import { own, picked } from "./own";
import { line, type Workspace } from "./parts";
import { hasSeen, note, refOf, seenAll } from "./seen";
import { spoil } from "./sheets";
import type { Entry, EntryOf, Fresh, ItemFields, ItemPart, ItemState, Line, Spot, Step } from "./types";
import { tables } from "./vocabulary";

const SPOT = ["room", "surface", "along", "up", "words"] as const;
type ItemEntry = Extract<Entry, { kind: `item.${string}` }>;

/** A new item; it takes the module's next number. */
export function logged(work: Workspace, entry: EntryOf<"item.logged">): Step {
  if (work.part("item", entry.about) !== null) return "exists_already";
  const module = work.edit("module", entry.module, entry);
  if (module === null) return "no_such_thing";
  module.last_number += 1;
  const { body } = entry;
  const item = work.make("item", entry.about, entry, fresh(entry, module.last_number));
  field.put(item.heads, "defect", body.defect, entry);
  field.put(item.heads, "spot", spotOf(body), entry);
  write(item, picked(body, ["wish", "crew", "charge"]), entry);
  line(item, entry);
  return null;
}

/** Another defect or wish: an objection. */
export function amended(work: Workspace, entry: EntryOf<"item.amended">): Step {
  return written(work, entry, picked(entry.body, ["defect", "wish"]));
}

/** Another spot: an objection. */
export function placed(work: Workspace, entry: EntryOf<"item.placed">): Step {
  return written(work, entry, { spot: spotOf(entry.body) });
}

/** Another crew or charge: no objection, what is wanted on the wall stays the same. */
export function given(work: Workspace, entry: EntryOf<"item.given">): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  write(item, picked(entry.body, ["crew", "charge"]), entry);
  line(item, entry, null, { body: entry.body });
  return null;
}

/** Rework steps done. Hands count with or without effect. */
export function ticked(work: Workspace, entry: EntryOf<"item.ticked">): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  const ended = laidHands(item, entry);
  const whyNot = notWorkable(item, entry);
  if (whyNot === null) {
    const done = new Set([...item.ticks, ...entry.body.steps]);
    item.ticks = steps(item, entry.rules).filter((step) => done.has(step));
  }
  finish(work, item, entry, whyNot, ended);
  return whyNot;
}

/** The crew says it is fixed: an approval. */
export function cleared(work: Workspace, entry: EntryOf<"item.cleared">): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  const ended = laidHands(item, entry);
  let whyNot = notWorkable(item, entry);
  if (whyNot === null && needsAfterPhoto(item, entry.rules) && !entry.body.after?.length) whyNot = "needs_after_photo";
  if (whyNot === null) {
    item.clears.push({ ref: refOf(entry), by: entry.by, time: entry.time });
    item.sent_back = null;
    item.ticks = steps(item, entry.rules);
  }
  finish(work, item, entry, whyNot, ended);
  return whyNot;
}

/** An inspector whose hands were not on it found the wall right: an approval on a clear that was seen. */
export function closed(work: Workspace, entry: EntryOf<"item.closed">): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  const whyNot = notClosable(item, entry);
  if (whyNot === null) item.close = { ref: refOf(entry), by: entry.by, time: entry.time };
  finish(work, item, entry, whyNot, []);
  return whyNot;
}

/** Not right yet: an objection, and the rework begins again. */
export function sentBack(work: Workspace, entry: EntryOf<"item.sent_back">): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  const ended = objected(item, entry);
  item.sent_backs += 1;
  item.ticks = [];
  item.sent_back = { ...entry.body, by: entry.by, time: entry.time };
  finish(work, item, entry, null, ended);
  return null;
}

/** It was no defect: an approval. */
export function voided(work: Workspace, entry: EntryOf<"item.voided">): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  let whyNot: Step = null;
  if (!seenAll(entry, item.objections)) whyNot = "unseen_objection";
  else if (item.void) whyNot = "no_change";
  else item.void = { ref: refOf(entry), by: entry.by, time: entry.time, reason: entry.body.reason };
  finish(work, item, entry, whyNot, []);
  return whyNot;
}

/** A hole, a tape repair, or a second send-back asks for a photo of the repair. */
export function needsAfterPhoto(item: ItemPart, version: number): boolean {
  const { defects } = tables(version);
  const wanted = field.values(item.heads, "defect").some((key) => own(defects, key)?.photo_after);
  return wanted || item.sent_backs >= 2;
}

/** The next rework step of an open item; null when all are ticked. */
export function nextStep(item: ItemPart, version: number): string | null {
  return steps(item, version).find((step) => !item.ticks.includes(step)) ?? null;
}

function fresh(entry: EntryOf<"item.logged">, number: number): Fresh<"item"> {
  return {
    number, state: "open", heads: {}, light: entry.body.light, by: entry.by,
    time: entry.time, ticks: [], sent_backs: 0, sent_back: null, objections: {}, clears: [],
    close: null, void: null, hands: [], since: entry.seq, lines: [],
  };
}

function spotOf(body: Spot): Spot {
  return picked(body, SPOT);
}

function steps(item: ItemPart, version: number): string[] {
  const row = own(tables(version).defects, field.value(item.heads, "defect") ?? "");
  return [...(row?.steps ?? [])];
}

/** Writes fields and tells which of them changed. */
function write(item: ItemPart, fields: Partial<ItemFields>, entry: Entry): string[] {
  const names = Object.keys(fields) as (keyof ItemFields)[];
  return names.filter((name) => field.put(item.heads, name, fields[name] as ItemFields[typeof name], entry));
}

function written(work: Workspace, entry: ItemEntry, fields: Partial<ItemFields>): Step {
  const item = work.edit("item", entry.about, entry);
  if (item === null) return "no_such_thing";
  const ended = objected(item, entry);
  const changed = write(item, fields, entry);
  if (changed.includes("defect")) item.ticks = [];
  finish(work, item, entry, null, ended);
  return null;
}

/**
 * Notes an objection; nothing that stands can have seen it, so all of it ends.
 *
 * The hold of the item is as new as its latest objection, so that no older answer covers it.
 */
function objected(item: ItemPart, entry: Entry): string[] {
  note(item.objections, entry);
  item.since = entry.seq;
  const ended: string[] = [];
  if (item.clears.length > 0) ended.push("clear");
  if (item.close) ended.push("close");
  if (item.void) ended.push("void");
  item.clears = [];
  item.close = null;
  item.void = null;
  return ended;
}

/** Adds whose hands were on it; a close by one of them ends. */
function laidHands(item: ItemPart, entry: EntryOf<"item.ticked"> | EntryOf<"item.cleared">): string[] {
  const hands = new Set([entry.by, ...(entry.body.done_by ?? [])]);
  item.hands = [...new Set([...item.hands, ...hands])].sort();
  if (item.close && hands.has(item.close.by)) {
    item.close = null;
    return ["close"];
  }
  return [];
}

function notWorkable(item: ItemPart, entry: Entry): Step {
  if (!seenAll(entry, item.objections)) return "unseen_objection";
  return item.void ? "void_item" : null;
}

function notClosable(item: ItemPart, entry: Entry): Step {
  if (!seenAll(entry, item.objections)) return "unseen_objection";
  if (item.void) return "void_item";
  if (item.clears.length === 0) return "not_cleared";
  if (!item.clears.some((clear) => hasSeen(entry, clear.ref))) return "unseen_work";
  if (item.hands.includes(entry.by)) return "hands_on_it";
  return item.close ? "no_change" : null;
}

function stateOf(item: ItemPart): ItemState {
  if (item.void) return "void";
  if (item.close) return "closed";
  return item.clears.length > 0 ? "cleared" : "open";
}

/** Derives the state, writes the history line and lets signed sheets hear of it. */
function finish(work: Workspace, item: ItemPart, entry: ItemEntry, whyNot: Step, ended: string[]): void {
  const before = item.state;
  item.state = stateOf(item);
  if (before !== item.state) item.since = entry.seq;
  const extra: Partial<Line> = Object.keys(entry.body).length > 0 ? { body: entry.body } : {};
  if (ended.length > 0) extra.ended = ended;
  line(item, entry, whyNot, extra);
  spoil(work, item, entry);
}
