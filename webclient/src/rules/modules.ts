/** A module's facts, where it stands, and its release. */

import * as field from "./heads";
import { own, put } from "./own";
import { line, type Workspace } from "./parts";
import type { EntryOf, ModuleFacts, ModulePart, Step } from "./types";

const FACTS = [
  "serial", "home", "order", "model", "programme", "label", "pickup", "plan", "mirrored", "finish", "coats",
] as const;

/** A new module in the yard. */
export function added(work: Workspace, entry: EntryOf<"module.added">): Step {
  if (work.part("module", entry.about) !== null) return "exists_already";
  const module = work.make("module", entry.about, entry, {
    module: entry.about, heads: {}, rooms: [], last_number: 0, left: null, release: null,
    releases: [], answers: [], phone_answers: {}, lines: [],
  });
  writeFacts(module, entry);
  line(module, entry);
  return null;
}

/** Other facts; what two people wrote unseen of each other stays beside each other. */
export function amended(work: Workspace, entry: EntryOf<"module.amended">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  writeFacts(module, entry);
  line(module, entry, null, { body: entry.body });
  return null;
}

/** Into another bay. */
export function moved(work: Workspace, entry: EntryOf<"module.moved">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  field.put(module.heads, "bay", entry.body.bay, entry);
  line(module, entry, null, { body: entry.body });
  return null;
}

/** Out of the yard: phones drop it. */
export function left(work: Workspace, entry: EntryOf<"module.left">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  module.left = { seq: entry.seq, why: entry.body.why, time: entry.time };
  line(module, entry, null, { body: entry.body });
  return null;
}

/** A room that is in no plan; it works without measures. */
export function roomAdded(work: Workspace, entry: EntryOf<"room.added">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  let whyNot: Step = null;
  if (module.rooms.some((room) => room.room === entry.body.room)) whyNot = "exists_already";
  else module.rooms.push({ room: entry.body.room, name: entry.body.name, seq: entry.seq });
  line(module, entry, whyNot, { body: entry.body });
  return whyNot;
}

/** To staging. The server alone writes this, in the transaction that found no hold. */
export function releaseGiven(work: Workspace, entry: EntryOf<"release.given">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  const { body } = entry;
  let whyNot: Step = null;
  if (module.release) whyNot = "exists_already";
  else {
    module.release = {
      id: body.release, by: body.by, time: entry.time, seq: entry.seq, holds_answered: body.holds_answered,
    };
  }
  line(module, entry, whyNot, { by: body.by });
  return whyNot;
}

/** Back from staging; only the release it names. */
export function pulledBack(work: Workspace, entry: EntryOf<"release.pulled_back">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  const whyNot = notThisRelease(module, entry);
  if (whyNot === null && module.release) {
    const back = { by: entry.by, time: entry.time, reason: entry.body.reason };
    module.releases.push({ ...module.release, pulled_back: back });
    module.release = null;
  }
  line(module, entry, whyNot, { body: entry.body });
  return whyNot;
}

/** What came in after the release changes nothing, with a reason; covers only what its author had seen. */
export function releaseAnswered(work: Workspace, entry: EntryOf<"release.answered">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  const whyNot = notThisRelease(module, entry);
  if (whyNot === null) {
    const { body } = entry;
    module.answers.push({
      release: body.release, up_to: Math.min(body.up_to, entry.seen_to), reason: body.reason,
      by: entry.by, time: entry.time,
    });
  }
  line(module, entry, whyNot, { body: entry.body });
  return whyNot;
}

/** A phone's unsent tail does not matter to this module, with a reason. */
export function phoneAnswered(work: Workspace, entry: EntryOf<"phone.answered">): Step {
  const module = work.edit("module", entry.about, entry);
  if (module === null) return "no_such_thing";
  const { body } = entry;
  const upTo = Math.min(body.up_to, entry.seen_to);
  const before = own(module.phone_answers, body.device);
  // One answer ends no other: a late one that covers less takes nothing away.
  if (before === undefined || before.up_to <= upTo) {
    put(module.phone_answers, body.device, { up_to: upTo, reason: body.reason, by: entry.by, time: entry.time });
  }
  line(module, entry, null, { body: entry.body });
  return null;
}

function notThisRelease(
  module: ModulePart,
  entry: EntryOf<"release.pulled_back"> | EntryOf<"release.answered">,
): Step {
  if (module.release === null) return "not_released";
  return module.release.id === entry.body.release ? null : "another_release";
}

function writeFacts(module: ModulePart, entry: EntryOf<"module.added"> | EntryOf<"module.amended">): void {
  const body: Partial<ModuleFacts> = entry.body;
  for (const name of FACTS) {
    if (Object.hasOwn(body, name)) field.put(module.heads, name, body[name] as ModuleFacts[typeof name], entry);
  }
}
