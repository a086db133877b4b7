/** Every module's place and gate, made once and kept while none of its parts changed: lists across the yard stand on them. */

import { nowStamp } from "../../clock";
import { all, partsOf } from "../../journal";
import { holds, placeOf, questions, type Part, type Place } from "../../rules";
import { devices, dryingParts, plans, type ModuleView } from "./yard";

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

let stood: Place[] = [];

/** The places of all modules that stand, the same array while nothing in them changed. */
export function standingPlaces(): Place[] {
  const modules = all("module").value;
  const found = modules.filter(({ left }) => left === null).flatMap(({ id }) => placeOfModule(id) ?? []);
  if (found.length !== stood.length || found.some((place, at) => place !== stood[at])) stood = found;
  return stood;
}

export interface Gate {
  holds: ReturnType<typeof holds>;
  questions: ReturnType<typeof questions>;
}
const gates = new Map<string, { stands: readonly unknown[]; gate: Gate }>();

/** The gate as this phone reckons it. Time alone changes it by the minute: what waits may have become dry. */
export function gateOf(view: ModuleView): Gate {
  const now = nowStamp();
  const stands = [view.parts, sharedParts(), all("device").value, now.slice(0, 16)];
  const known = gates.get(view.id);
  if (known && stands.every((one, at) => one === known.stands[at])) return known.gate;
  const found = holds(view.id, [...view.parts, ...devices(), ...sharedParts()], now);
  const gate = { holds: found, questions: questions(view.module, found) };
  gates.set(view.id, { stands, gate });
  return gate;
}
