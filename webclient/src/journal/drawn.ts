/** Seen means the screen, not the cursor: what a screen was drawn from, and whether that still stands. */

import { peekParts } from "./parts";
import type { Part } from "./shapes";

/** A module (for release, answer, pull back) or the single things that an approval is about. */
export type Thing = { module: string } | { part: string; id: string };
/** Taken while drawing; `changed()` says whether anybody's line has come to these things since. */
export type Drawn = { things: Thing[]; changed(): boolean };

/** What happened to a part, as text that differs as soon as one more line is in it. */
export function linesOf(part: Part): string {
  return `${part.part} ${part.id} ${JSON.stringify(part["lines"] ?? part)}`;
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
