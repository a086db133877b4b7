/** A table of kinds and steps, and a short loop. The fold is total: no entry makes it fail. */

import * as air from "./air";
import * as coats from "./coats";
import * as items from "./items";
import * as modules from "./modules";
import { own } from "./own";
import type { Workspace } from "./parts";
import * as photos from "./photos";
import * as sheets from "./sheets";
import type { Entry, EntryOf, Step } from "./types";
import type { Kind } from "./vocabulary";
import * as yards from "./yards";

/** A kind of kinds.json without its step does not compile. */
export const STEPS: { readonly [K in Kind]: (work: Workspace, entry: EntryOf<K>) => Step } = {
  "yard.opened": yards.opened,
  "yard.amended": yards.amended,
  "person.named": yards.personNamed,
  "plan.drawn": yards.planDrawn,
  "room.added": modules.roomAdded,
  "module.added": modules.added,
  "module.amended": modules.amended,
  "module.moved": modules.moved,
  "module.left": modules.left,
  "item.logged": items.logged,
  "item.amended": items.amended,
  "item.placed": items.placed,
  "item.given": items.given,
  "item.ticked": items.ticked,
  "item.cleared": items.cleared,
  "item.closed": items.closed,
  "item.sent_back": items.sentBack,
  "item.voided": items.voided,
  "coat.laid": coats.laid,
  "coat.found_wet": coats.foundWet,
  "coat.found_dry": coats.foundDry,
  "coat.wet_sanded": coats.wetSanded,
  "coat.answered": coats.answered,
  "coat.voided": coats.voided,
  "reading.taken": air.taken,
  "reading.struck": air.struck,
  "heat.told": air.heatTold,
  "forecast.told": air.forecastTold,
  "drying.learned": air.learned,
  "photo.added": photos.added,
  "photo.marked": photos.marked,
  "photo.arrived": photos.arrived,
  "sheet.answered": sheets.answered,
  "sheet.signed": sheets.signed,
  "release.given": modules.releaseGiven,
  "release.pulled_back": modules.pulledBack,
  "release.answered": modules.releaseAnswered,
  "phone.answered": modules.phoneAnswered,
  "device.enrolled": yards.deviceEnrolled,
  "device.behind": yards.deviceBehind,
  "device.written_off": yards.deviceWrittenOff,
  "entry.set_aside": yards.setAside,
  "entry.let_in": yards.letIn,
  "entry.kept_out": yards.keptOut,
  "journal.restored": yards.restored,
};

/** Folds entries, in journal order, into the parts of `work`; for each the reason why it had no effect, or null. */
export function fold(work: Workspace, entries: Iterable<Entry>): Step[] {
  return Array.from(entries, (entry) => step(work, entry));
}

/** Folds one entry. A kind that this program does not know changes nothing. */
export function step(work: Workspace, entry: Entry): Step {
  const known = own<(work: Workspace, entry: never) => Step>(STEPS, entry.kind);
  return known ? known(work, entry as never) : "unknown_kind";
}
