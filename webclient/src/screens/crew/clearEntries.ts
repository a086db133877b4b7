/** The entries of ticks and clears. Pure but for the ids of photos. */

import { newId } from "../../clock";
import type { Draft } from "../../journal";
import type { Taken } from "../../photos";
import { CURRENT, nextStep, type ItemPart } from "../../rules";
import { spotOf } from "../common";
import { spread } from "../wall/WriteUp";

/** The next step of each item that has one. */
export function ticks(chosen: ItemPart[], doneBy: string[]): Draft[] {
  return chosen.flatMap((item): Draft[] => {
    const step = nextStep(item, CURRENT);
    return step && item.module ? [{ kind: "item.ticked", module: item.module, about: item.id, body: { steps: [step], ...(doneBy.length > 0 ? { done_by: doneBy } : {}) } }] : [];
  });
}

/** A clear for each item, then the photos after, one entry a photo and module. */
export function clears(chosen: ItemPart[], after: Taken[], doneBy: string[], minutes: number | null): Draft[] {
  const photos = photosAfter(chosen, after);
  const cleared = chosen.flatMap((item): Draft[] => {
    const mine = photos.filter((photo) => photo.module === item.module).map((photo) => photo.about);
    const body = { ...(doneBy.length > 0 ? { done_by: doneBy } : {}), ...(mine.length > 0 ? { after: mine } : {}), ...(minutes !== null ? { minutes } : {}) };
    return item.module ? [{ kind: "item.cleared", module: item.module, about: item.id, body }] : [];
  });
  return [...photos, ...cleared];
}

function photosAfter(chosen: ItemPart[], after: Taken[]): Draft[] {
  const modules = [...new Set(chosen.map((item) => item.module))].filter((module) => module !== null);
  return modules.flatMap((module) =>
    after.map((photo): Draft => {
      const here = chosen.filter((item) => item.module === module);
      const items = here.map((item, index): [string, number, number] => [item.id, ...spread(photo.px, index, here.length)]);
      const spot = here[0] && spotOf(here[0]);
      const where = spot ? { room: spot.room, surface: spot.surface } : {};
      return { kind: "photo.added", module, about: newId(), body: { sha256: photo.sha256, bytes: photo.bytes.byteLength, px: photo.px, shows: "after", ...where, items, marks: [] } };
    }),
  );
}
