/** Which coats a room is to get, in which order. */

import * as field from "./heads";
import { own } from "./own";
import type { Place } from "./place";
import type { Finish } from "./types";
import { type CoatKey, CURRENT, type Family, tables } from "./vocabulary";

/** What only rework lays; no schedule asks for it. */
const REWORK: readonly CoatKey[] = ["fill", "touch_up"];

/** What a coat is: joint, texture, primer or paint; a coat that this program does not know counts as paint. */
export function family(coat: CoatKey): Family {
  return own(tables(CURRENT).schedule.coats, coat)?.family ?? "paint";
}

/**
 * The coats of a room in order; none while nobody has told its finish.
 *
 * The module's own list for the room or for all rooms, else by level, texture and paint of its finish, in the plant's
 * order of coats.
 */
export function coatsOf(place: Place, room: string): CoatKey[] {
  const { heads } = place.module;
  const told = ofRoom(field.value(heads, "coats") ?? {}, room);
  if (told !== undefined) return told.filter((coat) => !REWORK.includes(coat));
  const finish = ofRoom(field.value(heads, "finish") ?? {}, room);
  return finish === undefined ? [] : order(place).filter((coat) => !REWORK.includes(coat) && wanted(coat, finish));
}

/** The first coat of the schedule that nobody has laid there; rework on one wall does not count for the room. */
export function nextCoat(place: Place, room: string): CoatKey | null {
  const laid = laidIn(place, room);
  return coatsOf(place, room).find((coat) => !laid.has(coat)) ?? null;
}

/** The coats that stand on a whole room. */
export function laidIn(place: Place, room: string): Set<CoatKey> {
  const whole = place.coats.filter((coat) => coat.surface === null && coat.rooms.includes(room));
  return new Set(whole.map(({ coat }) => coat));
}

function ofRoom<V>(rows: Record<string, V>, room: string): V | undefined {
  return own(rows, room) ?? own(rows, "*");
}

function order(place: Place): CoatKey[] {
  const own = place.yard?.coats?.order ?? [];
  return own.length > 0 ? own : tables(CURRENT).schedule.order;
}

function wanted(coat: CoatKey, finish: Partial<Finish>): boolean {
  const table = tables(CURRENT).schedule;
  const kind = family(coat);
  if (kind === "joint") return (own(table.levels, String(finish.level ?? 0)) ?? []).includes(coat);
  if (kind === "texture") return !table.smooth.includes(bare(finish.texture).toLowerCase());
  return bare(finish.paint) !== "";
}

/** Without blanks at its ends; nothing else, as both languages call different signs blank. */
function bare(text = ""): string {
  return text.replace(/^ +| +$/g, "");
}
