/** What of a module's coats asks for somebody, and what is finished: dry or covered, with no doubt, and nothing to answer. Pure. */

import { earlies, type CoatKey, type CoatPart, type Early, type Place } from "../../rules";
import { topCoat, type Standing, type TopCoat } from "./standing";

export interface Sorted {
  /** On top, and not dry, to be looked at, or gone on too early. */
  asks: TopCoat[];
  /** Covered, and still drying or not answered yet. */
  under: CoatPart[];
  done: { tops: TopCoat[]; older: CoatPart[]; count: number; last: CoatKey };
  /** What says it all where nothing asks for anybody: the room's own coat, or its walls where only those are known. Else empty. */
  leads: TopCoat[];
  /** Nothing is to come either. */
  finished: boolean;
}

export const isDry = ({ clock: { state } }: TopCoat): boolean => state === "ready" || state === "dry";

/** Its air is of use: it is not dry yet, as far as anybody knows. Once its time is over only a look says more. */
export const isDrying = ({ clock: { state, flags } }: TopCoat): boolean => state === "wet" || state === "likely" || state === "not_dry" || flags.includes("no_readings");

/** One group's coats, apart by whether they ask for somebody. */
export function sortedCoats(place: Place, { rooms, tops, older, next, known }: Standing, at: number, early: readonly Early[] = earlies(place)): Sorted {
  const [room = ""] = rooms;
  const open = early.filter((one) => one.rooms.includes(room)).flatMap(({ coat, under }) => [coat.id, ...under]);
  const asking = (one: TopCoat): boolean => !isDry(one) || open.includes(one.coat.id);
  const drying = (coat: CoatPart): boolean => ["wet", "likely"].includes(topCoat(place, room, coat.surface, coat, at).clock.state);
  const asks = tops.filter(asking);
  const under = older.filter((coat) => drying(coat) || open.includes(coat.id));
  const dry = tops.filter((one) => !asking(one));
  const covered = older.filter((coat) => !under.includes(coat));
  const whole = dry.filter(({ surface }) => surface === null);
  const last = whole[0]?.coat ?? covered[0] ?? dry[0]?.coat;
  const calm = tops.length > 0 && asks.length + under.length === 0;
  const leads = !calm ? [] : whole.length > 0 ? whole : dry;
  return { asks, under, done: { tops: dry, older: covered, count: dry.length + covered.length, last: last?.coat ?? "touch_up" }, leads, finished: calm && known && next === null };
}

/** First what somebody has to do or answer, then what dries, then where something can go on, then what is finished; else in the module's order. */
export function inTurn(place: Place, stands: readonly Standing[], at: number): Standing[] {
  const early = earlies(place);
  const turn = (stand: Standing): number => {
    const { asks, leads, finished } = sortedCoats(place, stand, at, early);
    const late = asks.some(({ clock: { state, by_table } }) => state === "not_dry" || state === "unsure" || by_table === null);
    const open = early.some(({ rooms }) => rooms.some((room) => stand.rooms.includes(room)));
    if (late || open) return 0;
    if (leads.length === 0 && stand.tops.length > 0) return 1;
    return finished ? 3 : 2;
  };
  return stands.map((stand): [number, Standing] => [turn(stand), stand]).sort(([one], [other]) => one - other).map(([, stand]) => stand);
}
