/** What screens read of coats: their names, a module's place, and the moment that goes on. */

import { useEffect, useState } from "preact/hooks";
import { now } from "../../clock";
import { placeOf, type CoatKey, type Place } from "../../rules";
import { language, say } from "../../words";
import { placeOfModule } from "./places";
import { roomName, yard, type ModuleView } from "./yard";

const MINUTE = 60_000;

/** A coat in the plant's own words, else in ours. */
export const coatName = (coat: CoatKey): string => yard()?.coats?.names?.[coat] ?? say(`coats.name.${coat}`);
/** The same inside a sentence. */
export const coatInside = (coat: CoatKey): string => coatName(coat).replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLocaleLowerCase(language.value));

/** Now in whole seconds since 1970. */
export const nowSeconds = (): number => Math.floor(now().getTime() / 1000);

/** The same for a screen that shows what time does: drawn anew each minute. */
export function useSeconds(): number {
  const [, draw] = useState(0);
  useEffect(() => {
    const ticking = setInterval(() => draw((times) => times + 1), MINUTE);
    return () => clearInterval(ticking);
  }, []);
  return nowSeconds();
}

/** A module with its coats and whatever air is known of it, as the rules read them. */
export function placeOfView(view: ModuleView): Place {
  return placeOfModule(view.id) ?? placeOf(view.id, view.parts);
}

/** *Kitchen, Hall and Bath 2*; the whole module where it is all of its rooms. */
export function roomsInWords(view: ModuleView, rooms: readonly string[]): string {
  return new Intl.ListFormat(language.value, { type: "conjunction" }).format(rooms.map((room) => roomName(view, room)));
}
