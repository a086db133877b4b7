/** In which unit a person types temperatures; what is shown has the other one beside it. */

import { signal } from "@preact/signals";
import type { Unit } from "./measuring";

const REMEMBERED = "rakelight.unit";

function remembered(): Unit {
  try {
    return localStorage.getItem(REMEMBERED) === "C" ? "C" : "F";
  } catch {
    // A browser that keeps nothing for this site: the yard's own unit is the US one.
    return "F";
  }
}

/** The person's unit. Set it with `measureIn`. */
export const unit = signal<Unit>(remembered());

export function measureIn(chosen: Unit): void {
  unit.value = chosen;
  try {
    localStorage.setItem(REMEMBERED, chosen);
  } catch {
    // Kept for this visit only.
    return;
  }
}
