/**
 * The life of a coat: laid on rooms (or one wall), looked at room by room, sanded wet, covered early and answered.
 *
 * When it is dry is no part of the fold; `clocks` reckons that from what is kept here and from the air.
 */

import { looksIn } from "./coat_looks";
import { seconds } from "./instants";
import { own, picked, put } from "./own";
import { line, type Workspace } from "./parts";
import { hear, note, refOf, seenAll } from "./seen";
import type { CoatCell, CoatPart, DryLook, Entry, EntryOf, Fresh, Line, Step } from "./types";
import { tables } from "./vocabulary";

const WHY_NOT = ["unseen_objection", "overtaken", "no_change"];
type Objection = EntryOf<"coat.found_wet"> | EntryOf<"coat.wet_sanded">;

/** A new coat. It makes itself known to the coats that it covers, and has heard what was objected to these. */
export function laid(work: Workspace, entry: EntryOf<"coat.laid">): Step {
  if (work.part("coat", entry.about) !== null) return "exists_already";
  if (work.part("module", entry.module) === null) return "no_such_thing";
  if (entry.body.surface !== undefined && entry.body.rooms.length > 1) return "malformed";
  const coat = work.make("coat", entry.about, entry, fresh(entry));
  for (const below of coatsOf(work, coat.over, coat)) {
    work.edit("coat", below.id, entry);
    below.covered_by.push(coat.id);
    // Laid over it, it was not there before it, whatever hour is given.
    coat.laid = later(coat.laid, below.laid);
    for (const [, cell] of shared(below, coat.rooms)) hear(coat.objections, cell.objections);
  }
  line(coat, entry);
  return null;
}

/** A look that says not dry: an objection, and it governs until somebody looks again. */
export function foundWet(work: Workspace, entry: EntryOf<"coat.found_wet">): Step {
  const coat = work.edit("coat", entry.about, entry);
  if (coat === null) return "no_such_thing";
  const time = later(when(entry, entry.body.looked_at), coat.laid);
  for (const [, cell] of shared(coat, entry.body.rooms)) {
    const sandedSince = cell.restart !== null && cell.restart > time;
    if (!sandedSince && (cell.wet === null || cell.wet.time <= time)) {
      cell.wet = { by: entry.by, time, ...picked(entry.body, ["text", "meter"]) };
    }
  }
  return objected(work, coat, entry);
}

/** Worked wet: an objection, and the clock of these rooms starts again. */
export function wetSanded(work: Workspace, entry: EntryOf<"coat.wet_sanded">): Step {
  const coat = work.edit("coat", entry.about, entry);
  if (coat === null) return "no_such_thing";
  const time = later(when(entry, entry.body.sanded_at), coat.laid);
  if (unsure(entry) && shared(coat, entry.body.rooms).length > 0) coat.unsure = 1;
  for (const [, cell] of shared(coat, entry.body.rooms)) {
    cell.restart = later(cell.restart ?? time, time);
    if (cell.wet && cell.wet.time < time) cell.wet = null;
  }
  return objected(work, coat, entry);
}

/** A look that says dry: an approval, in each room where its author knew of every look that said otherwise. */
export function foundDry(work: Workspace, entry: EntryOf<"coat.found_dry">): Step {
  const coat = work.edit("coat", entry.about, entry);
  if (coat === null) return "no_such_thing";
  const cells = shared(coat, entry.body.rooms);
  let whyNot: Step = "no_such_thing";
  if (coat.void) whyNot = "void_coat";
  else if (cells.length > 0) {
    const found = cells.map(([room, cell]) => dry(coat, room, cell, entry));
    whyNot = found.includes(null) ? null : (WHY_NOT.find((reason) => found.includes(reason)) ?? null);
  }
  line(coat, entry, whyNot, { body: entry.body });
  return whyNot;
}

/**
 * It covers what was not ready, and may stay: an approval by somebody whose hands were not on it.
 *
 * It keeps up to where its author had seen: for what was laid or found under it unseen somebody answers again.
 */
export function answered(work: Workspace, entry: EntryOf<"coat.answered">): Step {
  const coat = work.edit("coat", entry.about, entry);
  if (coat === null) return "no_such_thing";
  let whyNot: Step = null;
  if (coat.void) whyNot = "void_coat";
  else if (!seenAll(entry, coat.objections)) whyNot = "unseen_objection";
  else if (entry.by === coat.by || coat.done_by.includes(entry.by)) whyNot = "hands_on_it";
  else if (coat.answer && entry.seen_to <= coat.answer.seen) whyNot = "no_change";
  else coat.answer = { ...approval(entry), seen: entry.seen_to };
  line(coat, entry, whyNot, { body: entry.body });
  return whyNot;
}

/**
 * It was never laid like this: an approval.
 *
 * What an inspector is to answer is not taken away by the hands that laid it: a cover that says itself that it was
 * early, or what still lies under another coat.
 */
export function voided(work: Workspace, entry: EntryOf<"coat.voided">): Step {
  const coat = work.edit("coat", entry.about, entry);
  if (coat === null) return "no_such_thing";
  let whyNot: Step = null;
  if (!shared(coat, coat.rooms).every(([, cell]) => seenAll(entry, cell.objections))) whyNot = "unseen_objection";
  else if (coat.void) whyNot = "no_change";
  else if ((entry.by === coat.by || coat.done_by.includes(entry.by)) && weighs(work, coat)) whyNot = "hands_on_it";
  else coat.void = approval(entry);
  line(coat, entry, whyNot, { body: entry.body });
  return whyNot;
}

function fresh(entry: EntryOf<"coat.laid">): Fresh<"coat"> {
  const { body } = entry;
  const { schedule } = tables(entry.rules);
  const rooms = [...new Set(body.rooms)];
  const cells: Record<string, CoatCell> = {};
  for (const room of rooms) put(cells, room, { objections: {}, wet: null, dry: null, restart: null });
  return {
    ref: refOf(entry), coat: body.coat, rooms, surface: body.surface ?? null, material: body.material,
    thickness: body.thickness ?? own(schedule.coats, body.coat)?.thickness ?? "normal",
    set_minutes: body.set_minutes ?? null, label_minutes: body.label_minutes ?? null, paint: body.paint ?? null,
    laid: when(entry, body.laid_at), by: entry.by, done_by: body.done_by ?? [], time: entry.time,
    unsure: unsure(entry), early: body.early ?? null,
    over: [...new Set(body.over ?? [])], items: [...new Set(body.items ?? [])], covered_by: [], cells,
    objections: {}, answer: null, void: null, since: entry.seq, lines: [],
  };
}

/** 1 where nobody may rely on the hour: the phone's clock was far off, or the entry came in late. */
function unsure(entry: Entry): 0 | 1 {
  const off = Math.abs(seconds(entry.time) - seconds(entry.at));
  return entry.let_in || off > tables(entry.rules).drying.limits.unsure_seconds ? 1 : 0;
}

/** Whether an inspector is to be asked: it was laid early, or another coat lies on it. */
function weighs(work: Workspace, coat: CoatPart): boolean {
  const early = coat.early !== null && coat.answer === null;
  return early || coatsOf(work, coat.covered_by, coat).some((above) => above.void === null);
}

/** The other coats of the same module with these ids. */
function coatsOf(work: Workspace, ids: readonly string[], coat: CoatPart): CoatPart[] {
  const found = ids.filter((id) => id !== coat.id).map((id) => work.part("coat", id));
  return found.filter((one): one is CoatPart => one !== null && one.module === coat.module);
}

/** Those of the rooms that the coat is in, with its cell there. */
function shared(coat: CoatPart, rooms: readonly string[]): [string, CoatCell][] {
  return [...new Set(rooms)].flatMap((room): [string, CoatCell][] => {
    const cell = own(coat.cells, room);
    return cell ? [[room, cell]] : [];
  });
}

/** The instant that the author gave; never after the entry's own. */
const when = (entry: Entry, given: string | undefined): string =>
  given !== undefined && given < entry.time ? given : entry.time;

const later = (one: string, other: string): string => (one > other ? one : other);

function approval(entry: EntryOf<"coat.answered"> | EntryOf<"coat.voided">): NonNullable<CoatPart["void"]> {
  return { ref: refOf(entry), by: entry.by, time: entry.time, reason: entry.body.reason };
}

function dry(coat: CoatPart, room: string, cell: CoatCell, entry: EntryOf<"coat.found_dry">): Step {
  if (!seenAll(entry, cell.objections)) return "unseen_objection";
  const time = when(entry, entry.body.looked_at);
  // Looked before the coat was laid, sanded wet or ever found wet, it says nothing of the coat as it is.
  if ([coat.laid, cell.restart ?? "", ...looksIn(coat, room, "coat.found_wet")].some((since) => time < since)) return "overtaken";
  const { body } = entry;
  const look: DryLook = {
    ref: refOf(entry), by: entry.by, time, tried: body.tried ?? [], reason: body.reason ?? null, ...picked(body, ["meter"]),
  };
  if (time !== entry.time) look.told = entry.time;
  if (cell.dry && !saysMore(look, cell.dry)) return "no_change";
  cell.wet = null;
  cell.dry = look;
  return null;
}

/** A tried look before any other, of two tried ones the earlier, of two others the later. */
function saysMore(look: DryLook, known: DryLook): boolean {
  const tried = (one: DryLook): boolean => one.tried.length > 0 && Boolean(one.reason);
  if (tried(look) !== tried(known)) return tried(look);
  return tried(look) ? look.time < known.time : look.time > known.time;
}

/** Notes an objection in rooms and on what covers them; what stands there cannot have seen it, so it ends. */
function objected(work: Workspace, coat: CoatPart, entry: Objection): Step {
  const cells = shared(coat, entry.body.rooms);
  if (cells.length === 0) {
    line(coat, entry, "no_such_thing", { body: entry.body });
    return "no_such_thing";
  }
  const ended = cells.some(([, cell]) => cell.dry) ? ["dry"] : [];
  for (const [, cell] of cells) {
    note(cell.objections, entry);
    cell.dry = null;
  }
  if (coat.void) ended.push("void");
  coat.void = null;
  coat.since = entry.seq;
  lineOf(coat, entry, ended, { body: entry.body });
  for (const above of coatsOf(work, coat.covered_by, coat)) {
    if (shared(above, entry.body.rooms).some(([room]) => own(coat.cells, room))) uncovered(work, above, coat, entry);
  }
  return null;
}

function uncovered(work: Workspace, above: CoatPart, coat: CoatPart, entry: Objection): void {
  work.edit("coat", above.id, entry);
  note(above.objections, entry);
  lineOf(above, entry, above.answer ? ["answer"] : [], { under: coat.id });
  above.answer = null;
  above.since = entry.seq;
}

function lineOf(coat: CoatPart, entry: Entry, ended: string[], extra: Partial<Line>): void {
  line(coat, entry, null, ended.length > 0 ? { ...extra, ended } : extra);
}
