/** Sheets: lines answered by room, signed by a person of the right role, spoilt by what their data names. */

import * as field from "./heads";
import { own, put } from "./own";
import { line, sheetId, type Workspace } from "./parts";
import { hasSeen, note, refOf, seenAll } from "./seen";
import type {
  Answer, Cells, Entry, EntryOf, Fresh, Head, Heads, ItemPart, ModulePart, PlanPart, SheetPart, Stale, Step,
} from "./types";
import { tables } from "./vocabulary";

const WHOLE_MODULE = "module";
type Answering = EntryOf<"sheet.answered">["body"];

/**
 * Answers one line for several rooms.
 *
 * An objection to the sheet: a *no*, another answer than before, and the first answer for a room that a standing
 * signature cannot have meant, because it came later.
 */
export function answered(work: Workspace, entry: EntryOf<"sheet.answered">): Step {
  const { body } = entry;
  if (!own(tables(entry.rules).sheets, body.sheet)) return "no_such_thing";
  const module = work.part("module", entry.module);
  if (module === null) return "no_such_thing";
  const sheet = sheetOf(work, module.id, body.sheet, entry);
  const cells = lineCells(sheet, body.line);
  const excepted = new Map(body.except.map((row) => [row.room, row]));
  let objects = false;
  for (const room of new Set([...body.rooms, ...excepted.keys()])) {
    const answer = answerOf(excepted.get(room), body);
    const askedBefore = Object.hasOwn(cells, room);
    const changed = field.put(cells, room, answer, entry);
    objects = objects || answer.value === "no" || (changed && (askedBefore || sheet.sign !== null));
  }
  if (objects) object(sheet, entry, { line: body.line });
  line(sheet, entry, null, { line: body.line });
  return null;
}

/** A signature under every answer: an approval; with a line unanswered it has no effect. */
export function signed(work: Workspace, entry: EntryOf<"sheet.signed">): Step {
  const key = entry.body.sheet;
  if (!own(tables(entry.rules).sheets, key)) return "no_such_thing";
  const module = work.part("module", entry.module);
  if (module === null) return "no_such_thing";
  const sheet = sheetOf(work, module.id, key, entry);
  const plan = work.part("plan", field.value(module.heads, "plan") ?? "");
  let whyNot: Step = null;
  if (!seenAll(entry, sheet.objections)) whyNot = "unseen_objection";
  else if (openCells(key, sheet.cells, roomsOf(module, plan), entry.rules).length > 0) whyNot = "unanswered_lines";
  else if (!seenAnswers(sheet, entry)) whyNot = "unseen_work";
  else {
    sheet.sign = { ref: refOf(entry), by: entry.by, time: entry.time };
    sheet.stale = null;
  }
  line(sheet, entry, whyNot);
  return whyNot;
}

/** Lets the sheets hear of work on an item: what their `stale_by` names ends a signature that had not seen it. */
export function spoil(work: Workspace, item: ItemPart, entry: Entry): void {
  for (const [key, row] of Object.entries(tables(entry.rules).sheets)) {
    const by = own(row.stale_by, entry.kind);
    if (by === undefined) continue;
    const { defects } = by;
    if (defects && !field.values(item.heads, "defect").some((key) => defects.includes(key))) continue;
    const room = field.value(item.heads, "spot")?.room ?? "";
    object(sheetOf(work, item.module as string, key, entry), entry, { room, number: item.number });
  }
}

/** The room keys of a module: its plan's, then those added. */
export function roomsOf(module: ModulePart | null, plan: PlanPart | null): string[] {
  const planned = plan ? plan.rooms.map((room) => room.id) : [];
  const added = module ? module.rooms.map((room) => room.room) : [];
  return [...planned, ...added.filter((room) => !planned.includes(room))];
}

/**
 * [line, room] of every cell of a sheet without an answer.
 *
 * A *no* is one with its item only: the item is what holds the module, and without it nothing would.
 */
export function openCells(key: string, cells: Cells, rooms: string[], version: number): [string, string][] {
  const missing: [string, string][] = [];
  for (const [name, row] of Object.entries(own(tables(version).sheets, key)?.lines ?? {})) {
    const answers = own(cells, name) ?? {};
    for (const room of row.by_room ? rooms : [WHOLE_MODULE]) {
      if (!stands(own(answers, room) ?? [])) missing.push([name, room]);
    }
  }
  return missing;
}

function stands(cell: readonly Head<Answer>[]): boolean {
  return cell.length > 0 && cell.every(([answer]) => answer.value !== "no" || answer.item !== undefined);
}

function sheetOf(work: Workspace, module: string, key: string, entry: Entry): SheetPart {
  const found = work.edit("sheet", sheetId(module, key), entry);
  if (found !== null) return found;
  const fresh: Fresh<"sheet"> = {
    module, sheet: key, cells: {}, objections: {}, sign: null, stale: null, since: 0, lines: [],
  };
  return work.make("sheet", sheetId(module, key), entry, fresh);
}

function lineCells(sheet: SheetPart, name: string): Heads<Record<string, Answer>> {
  const found = own(sheet.cells, name);
  if (found !== undefined) return found;
  put(sheet.cells, name, {});
  return sheet.cells[name] as Heads<Record<string, Answer>>;
}

function seenAnswers(sheet: SheetPart, entry: Entry): boolean {
  return Object.values(sheet.cells).every((cells) =>
    Object.values(cells).every((cell) => (cell ?? []).every((head) => hasSeen(entry, head[1]))),
  );
}

/** Notes an objection; the hold of the sheet is as new as its latest, so that no older answer covers it. */
function object(sheet: SheetPart, entry: Entry, what: Partial<Stale>): void {
  note(sheet.objections, entry);
  sheet.since = entry.seq;
  if (sheet.sign) {
    sheet.stale = { kind: entry.kind, by: entry.by, time: entry.time, ...what };
    sheet.sign = null;
  }
}

function answerOf(exception: Answer | undefined, body: Answering): Answer {
  if (exception !== undefined) {
    const answer: Answer = { value: exception.value };
    if (exception.reason !== undefined) answer.reason = exception.reason;
    if (exception.item !== undefined) answer.item = exception.item;
    return answer;
  }
  return body.reason === undefined ? { value: body.rest } : { value: body.rest, reason: body.reason };
}
