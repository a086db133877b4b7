/** A pickup is typed as the clock on the yard's wall shows it; entries keep it in UTC. */

import { readInstant, stamp } from "../../clock";
import { offsetOf } from "../../parts";

/** Milliseconds that a zone's clocks are ahead of UTC at an instant. */
const ahead = (millis: number, zone: string): number => offsetOf(stamp(new Date(millis)), zone) * 1000;

/** `2026-12-03T07:00`, as a field for date and time takes it. */
export function toWall(instant: string, zone: string): string {
  const millis = readInstant(instant);
  return new Date(millis + ahead(millis, zone)).toISOString().slice(0, 16);
}

/** The instant of a wall clock's time; null when it is none. An hour that the clocks skip is the hour after. */
export function fromWall(wall: string, zone: string): string | null {
  const asUtc = /^\d{4}-\d\d-\d\dT\d\d:\d\d/.test(wall) ? Date.parse(`${wall.slice(0, 16)}:00Z`) : NaN;
  if (Number.isNaN(asUtc)) return null;
  const near = asUtc - ahead(asUtc, zone);
  return stamp(new Date(asUtc - ahead(near, zone)));
}
