/** An item as the drawings take it, and how a surface and a spot are said. */
import { language, t } from "../words";
import { roughly, type Face, type Point, type Spot, type Surface, type WordSpot } from "./geometry";
import { feetInches } from "./lengths";
import { MARK_RANK, type ItemState } from "./marks";
import { countsInWords, type Counts } from "./StateWord";
import type { Labelled } from "./labels";

export interface Marked {
  id: string;
  number: number | string;
  state: ItemState;
  surface: Surface;
  spot?: Spot | undefined;
  words?: WordSpot | undefined;
}

/** *Wall B, mirror*, *Ceiling*. */
export function surfaceInWords(surface: Surface, sight = ""): string {
  if (surface === "ceiling" || surface === "floor" || surface === "trim") return t(`frame.${surface}`);
  return sight ? t("frame.wall_sight", { letter: surface, sight }) : t("frame.wall", { letter: surface });
}

/** *4 ft 6 in along, 5 ft up*; on ceiling and floor the distance from wall A. */
export function spotInWords(spot: Spot, surface?: Surface): string {
  const key = surface === "ceiling" || surface === "floor" ? "frame.spot_flat" : "frame.spot";
  return t(key, { along: feetInches(spot.along, language.value), up: feetInches(spot.up, language.value) });
}

/** *left, eye*. */
export function wordSpotInWords(words: WordSpot): string {
  return t("frame.words_spot", { across: t(`frame.${words.across}`), height: t(`frame.${words.height}`) });
}

/** Wherever it is, in words. */
export function placeInWords(item: Marked): string {
  if (item.spot) return spotInWords(item.spot, item.surface);
  return item.words ? wordSpotInWords(item.words) : t("frame.no_spot");
}

/** How many of each state are among these. */
export function countOf(items: readonly Marked[]): Counts {
  const counts: Record<ItemState, number> = { open: 0, sent_back: 0, cleared: 0, closed: 0, void: 0 };
  for (const item of items) counts[item.state] += 1;
  return counts;
}

/** *Wall B, mirror. 2 open, 1 closed*: what a screen reader says of a surface. */
export function surfaceAndCounts(surface: Surface, sight: string, items: readonly Marked[]): string {
  const what = countsInWords(countOf(items.filter((item) => item.surface === surface)));
  return t("frame.face_it", { surface: surfaceInWords(surface, sight), what: what || t("frame.nothing_here") });
}

/** The items of a face that can be drawn, with their points. A closed one is a small dot: its number may stand closer. */
export function drawn(items: readonly Marked[], face: Face, at: (spot: Spot) => Point, side: number): (Labelled & { state: ItemState })[] {
  return items.flatMap((item) => {
    if (item.surface !== face.surface) return [];
    const spot = item.spot ?? (item.words ? roughly(face, item.words) : null);
    if (!spot) return [];
    const quiet = item.state === "closed" ? side * 0.55 : side;
    return [{ id: item.id, text: String(item.number), rank: MARK_RANK[item.state], state: item.state, side: quiet, ...at(spot) }];
  });
}
