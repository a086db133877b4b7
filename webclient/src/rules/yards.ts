/** The yard itself, its people, plans and phones, and what was set aside. */

import { put } from "./heads";
import type { Workspace } from "./parts";
import type { EntryOf, SetAsidePart, Step } from "./types";

/** The first entry of a journal. */
export function opened(work: Workspace, entry: EntryOf<"yard.opened">): Step {
  if (work.part("yard", entry.about) !== null) return "exists_already";
  work.make("yard", entry.about, entry, { ...entry.body, epochs: [] });
  return null;
}

/** Other name, zone, bays or crews. */
export function amended(work: Workspace, entry: EntryOf<"yard.amended">): Step {
  const yard = work.edit("yard", entry.about, entry);
  if (yard === null) return "no_such_thing";
  Object.assign(yard, entry.body);
  return null;
}

/** A new epoch after an old backup: what was seen of the old one counts up to the cut. */
export function restored(work: Workspace, entry: EntryOf<"journal.restored">): Step {
  const yard = work.edit("yard", entry.about, entry);
  if (yard === null) return "no_such_thing";
  yard.epochs.push({ epoch: entry.body.old, cut: entry.body.cut, time: entry.time });
  return null;
}

/** A person; an account given later keeps the id. */
export function personNamed(work: Workspace, entry: EntryOf<"person.named">): Step {
  const { body } = entry;
  const fields = { name: body.name, crew: body.crew ?? null, roles: [...body.roles].sort() };
  const person = work.edit("person", entry.about, entry);
  if (person === null) work.make("person", entry.about, entry, { ...fields, module: null });
  else Object.assign(person, fields);
  return null;
}

/** A plan; drawn again under the same id it replaces the former. Its rooms are what sheets and coats are asked for: two drawings
 * of which neither had seen the other both stay. */
export function planDrawn(work: Workspace, entry: EntryOf<"plan.drawn">): Step {
  const { body } = entry;
  const fields = { name: body.name, rooms: body.rooms, from: body.from ?? null };
  let plan = work.edit("plan", entry.about, entry);
  if (plan === null) plan = work.make("plan", entry.about, entry, { ...fields, heads: {}, module: null });
  else Object.assign(plan, fields);
  put(plan.heads, "rooms", body.rooms, entry);
  return null;
}

/** A new enrolment of a phone. */
export function deviceEnrolled(work: Workspace, entry: EntryOf<"device.enrolled">): Step {
  if (work.part("device", entry.about) !== null) return "exists_already";
  const fields = { person: entry.body.person, since: entry.time };
  work.make("device", entry.about, entry, { ...fields, behind: null, written_off: null, written_off_to: 0 });
  return null;
}

/** A tail or a gap opens (modules named) or ends (none): word from this phone, so it has not gone for good. Whoever wrote it
 * off knew nothing of what comes from now on; what had come until then stays written off. */
export function deviceBehind(work: Workspace, entry: EntryOf<"device.behind">): Step {
  const device = work.edit("device", entry.about, entry);
  if (device === null) return "no_such_thing";
  const { body } = entry;
  const opens = { last_n: body.last_n, modules: body.modules, seq: entry.seq, time: entry.time };
  device.behind = body.modules.length > 0 ? opens : null;
  if (device.written_off) [device.written_off, device.written_off_to] = [null, device.written_off.seq];
  return null;
}

/** A phone that will not come back; its missing photos are lost, unless it is heard from again. */
export function deviceWrittenOff(work: Workspace, entry: EntryOf<"device.written_off">): Step {
  const device = work.edit("device", entry.about, entry);
  if (device === null) return "no_such_thing";
  device.written_off = { ...entry.body, time: entry.time, seq: entry.seq };
  return null;
}

/** An entry that was not taken, kept whole, with the reason. */
export function setAside(work: Workspace, entry: EntryOf<"entry.set_aside">): Step {
  const { kind, by, device, n, reason, sha256 } = entry.body;
  const fields = { kind, by, device, n, reason, sha256, time: entry.time, state: "waiting" as const };
  work.make("set_aside", sha256, entry, fields);
  return null;
}

/** It counts after all; the entry itself follows under its own author. */
export function letIn(work: Workspace, entry: EntryOf<"entry.let_in">): Step {
  return decided(work, entry, "let_in");
}

/** A manager decided that it stays out. */
export function keptOut(work: Workspace, entry: EntryOf<"entry.kept_out">): Step {
  return decided(work, entry, "kept_out");
}

function decided(
  work: Workspace,
  entry: EntryOf<"entry.let_in"> | EntryOf<"entry.kept_out">,
  state: SetAsidePart["state"],
): Step {
  const found = work.edit("set_aside", entry.body.sha256, entry);
  if (found === null) return "no_such_thing";
  found.state = state;
  return null;
}
