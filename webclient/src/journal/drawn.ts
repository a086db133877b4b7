/** Seen means the screen, not the cursor: what a screen was drawn from, and whether that still stands. */

import { canonicalText, STEPS, type Part } from "../rules";
import { peekParts } from "./parts";

/** False when a later version has written a line here that this one does not know: it must not judge what it cannot read. */
export function understood(part: Part | null): boolean {
  return !part || !("lines" in part) || part.lines.every(({ kind }) => Object.hasOwn(STEPS, kind));
}

/** A module (for release, answer, pull back) or the single things that an approval is about. */
export type Thing = { module: string } | { part: string; id: string };
/** Taken while drawing; `changed()` says whether anybody's line has come to these things since. */
export type Drawn = { things: Thing[]; changed(): boolean };

/** What happened to a part, as text that differs as soon as one more line is in it. Nobody has to look again because
 * this phone's own entries settle: the server corrects their instants and sorts their fields. */
export function linesOf(part: Part): string {
  if ("lines" in part) return `${part.part} ${part.id} ${canonicalText(part.lines.map(({ time: _, ...line }) => line))}`;
  if (part.part === "plan") return `plan ${part.id} ${canonicalText([part.name, ...(part.heads.rooms ?? []).map(([rooms, , by]) => [rooms, by])])}`;
  return `${part.part} ${part.id} ${part.part === "set_aside" ? part.state : ""}`;
}

export function drawnFrom(...things: Thing[]): Drawn {
  const before = things.map(linesOfThing);
  return { things, changed: () => things.some((thing, at) => linesOfThing(thing) !== before[at]) };
}

function linesOfThing(thing: Thing): string {
  const parts = [...peekParts().values()];
  const wanted = (part: Part): boolean =>
    "module" in thing ? part.module === thing.module : part.part === thing.part && part.id === thing.id;
  return parts.filter(wanted).map(linesOf).sort().join("\n");
}
