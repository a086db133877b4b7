/** Records of photos; the bytes travel apart. */

import * as field from "./heads";
import { picked } from "./own";
import type { Workspace } from "./parts";
import type { EntryOf, Step } from "./types";

/** A photo taken; one may serve several items. */
export function added(work: Workspace, entry: EntryOf<"photo.added">): Step {
  if (work.part("photo", entry.about) !== null) return "exists_already";
  const { body } = entry;
  const kept = picked(body, ["sha256", "bytes", "px", "shows", "room", "surface"]);
  const fields = { ...kept, heads: {}, device: entry.device, by: entry.by, time: entry.time, since: entry.seq };
  const photo = work.make("photo", entry.about, entry, { ...fields, arrived: false });
  field.put(photo.heads, "marked", { items: body.items, marks: body.marks }, entry);
  return null;
}

/** Other marks; they are data, never pixels. */
export function marked(work: Workspace, entry: EntryOf<"photo.marked">): Step {
  const photo = work.edit("photo", entry.about, entry);
  if (photo === null) return "no_such_thing";
  field.put(photo.heads, "marked", picked(entry.body, ["items", "marks"]), entry);
  return null;
}

/** The server holds the bytes under their hash. */
export function arrived(work: Workspace, entry: EntryOf<"photo.arrived">): Step {
  const photo = work.edit("photo", entry.about, entry);
  if (photo === null) return "no_such_thing";
  photo.arrived = true;
  return null;
}
