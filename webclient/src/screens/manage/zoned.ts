/** A pickup is typed as the clock on the yard's wall shows it; entries keep it in UTC. */

import { readInstant, stamp } from "../../clock";

/** Milliseconds that a zone's clocks are ahead of UTC at an instant. */
function ahead(millis: number, zone: string): number {
  const two = "2-digit";
  const format = new Intl.DateTimeFormat("en-US", { timeZone: zone, hourCycle: "h23", year: "numeric", month: two, day: two, hour: two, minute: two, second: two });
  const found = Object.fromEntries(format.formatToParts(new Date(millis)).map((part) => [part.type, Number(part.value)]));
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = found;
  return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(millis / 1000) * 1000;
}

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
