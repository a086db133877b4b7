/** Every module's place, made once and kept while none of its parts changed: lists across the yard stand on it. */

import { all, partsOf } from "../../journal";
import { placeOf, type ModulePart, type Part, type Place } from "../../rules";
import { dryingParts, plans } from "./yard";

let shared: Part[] = [];
const places = new Map<string, { own: readonly Part[]; shared: readonly Part[]; place: Place }>();

/** What all modules share, the same array while it is the same parts. */
function sharedParts(): Part[] {
  const found: Part[] = [...dryingParts(), ...plans()];
  if (found.length !== shared.length || found.some((part, at) => part !== shared[at])) shared = found;
  return shared;
}

/** A module's place; null when the module is not here. */
export function placeOfModule(id: string): Place | null {
  const own = partsOf(id).value;
  const yards = sharedParts();
  const known = places.get(id);
  if (known && known.own === own && known.shared === yards) return known.place;
  if (!own.some((part) => part.part === "module" && part.id === id)) return null;
  const place = placeOf(id, [...own, ...yards]);
  places.set(id, { own, shared: yards, place });
  return place;
}

/** The places of all modules that stand. */
export function standingPlaces(): Place[] {
  const modules = all("module").value as unknown as ModulePart[];
  return modules.filter(({ left }) => left === null).flatMap(({ id }) => placeOfModule(id) ?? []);
}
