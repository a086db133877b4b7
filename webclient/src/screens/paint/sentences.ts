/** The figures before paint and what would help, in a crew's own words. */

import { degreesBoth } from "../../parts";
import { clock, fahrenheitDifference, instant, tops, whole, type BeforePaint, type Check, type CoatKey, type Help, type Place } from "../../rules";
import { say, t, tn } from "../../words";
import { flagWords } from "../coats/sentences";
import { coatInside, ended, ends, when } from "../common";

/** A difference of temperature: it has no offset. *5 °F (3 °C)*. */
export const apart = (tenths: number): string => t("drying.apart", { f: whole(fahrenheitDifference(Math.abs(tenths)) / 10), c: Math.abs(tenths) % 10 === 0 ? Math.abs(tenths) / 10 : (Math.abs(tenths) / 10).toFixed(1) });
const at = (seconds: number): string => when(instant(seconds));

/** The verdict as one says it across the yard. */
export function verdictWords({ verdict, until, checks }: BeforePaint, coat: CoatKey, now: number): string {
  if (verdict === "go") return t("drying.paint.go", { coat: coatInside(coat) });
  if (verdict === "stop") return t("drying.paint.stop");
  const waits = checks.filter(({ state }) => state === "wait");
  if (waits.length === 1 && waits[0]?.key === "reading") return t("drying.paint.wait_reading");
  return until === null || until <= now ? t("drying.paint.wait") : t("drying.paint.wait_until", { time: at(until) });
}

/** The verdict and, where they are asked for, the figures that speak against it. */
export function airWords(found: BeforePaint, coat: CoatKey, now: number, heated: boolean, figures: boolean): string {
  const verdict = verdictWords(found, coat, now);
  if (!figures) return verdict;
  const against = found.checks.filter(({ state }) => state === found.verdict).map((check) => checkWords(check, now, heated));
  return `${ended(verdict)} ${against.join(". ")}`;
}

/** One check with its figure and its limit. */
export function checkWords({ key, state, value, limit }: Check, now: number, heated: boolean): string {
  switch (key) {
    case "reading":
      if (value === null) return t("drying.check.reading.unknown");
      return say(`drying.check.reading.${state}`, { time: at(now - value * 60) });
    case "surface_over_dew":
      return say(`drying.check.${key}.${state}`, { value: degreesApart(value ?? 0), limit: apart(limit ?? 0) });
    case "dew_rising":
      return say(`drying.check.${key}.${state}`, { value: apart(value ?? 0) });
    case "air_least":
      return say(`drying.check.${key}.${state}`, { value: degreesBoth(value ?? 0), limit: degreesBoth(limit ?? 0) });
    case "low":
      if (value === null) return t(state === "met" && heated ? "drying.check.low.heated" : "drying.check.low.unknown");
      return say(`drying.check.low.${state}`, { value: degreesBoth(value), limit: degreesBoth(limit ?? 0) });
    case "joint_dry":
      if (state === "wait" && (value === null || value <= now)) return t("drying.check.joint_dry.unknown");
      return say(`drying.check.joint_dry.${state}`, { value: value === null ? "" : at(value) });
    default:
      return say(`drying.check.${key}.${state}`, { value: value ?? "", limit: limit ?? "" });
  }
}

/** Why the time of what lies under the paint cannot be relied on; nothing where it can, or nothing waits. */
export const underDoubts = (place: Place, room: string, now: number): string[] =>
  [...new Set(tops(place, room).flatMap(([, coat]) => flagWords(clock(place, coat, room, now)).doubts))];

/** Above the dew point, or by how much below it. */
const degreesApart = (tenths: number): string => (tenths < 0 ? `−${apart(tenths)}` : apart(tenths));

/** *Heat this room to 70 °F (21 °C)*. */
export function helpWords({ key, to }: Help): string {
  if (key === "look") return t("drying.help.look_at");
  if (key === "heat") return t("drying.help.heat", { to: degreesBoth(to ?? 0) });
  return key === "dry_air" ? t("drying.help.dry_air", { to: to ?? 0 }) : t("drying.help.wait");
}

/** When it is dry that way. */
export function helpTimes({ key, likely, by_table }: Help, known: boolean): string {
  if (key === "look") return t("drying.help.look");
  if (likely !== null && by_table !== null) return t("drying.help.times", ends({ likely: instant(likely), by_table: instant(by_table) }));
  return t(key === "wait" && !known ? "drying.help.unknown" : "drying.help.never");
}

/** *about 12 hours sooner*; nothing for waiting and looking. */
export function savedWords({ key, saved_minutes: saved, by_table }: Help): string {
  if (key === "wait" || key === "look" || by_table === null) return "";
  if (saved === null) return t("drying.help.saves_all");
  const hours = whole(saved / 60);
  return hours === 0 ? t("drying.help.less_than_hour") : tn("drying.help.saves", hours);
}

/** The water of an unvented heater, for this room or for 1000 cubic feet. */
export function waterWords({ water_per_lb: water }: Help): string {
  if (!water) return "";
  const values = { lb: (water.lb_hundredths / 100).toFixed(2), points: water.rh_points };
  // More than from bone dry to fog: points would say less than words.
  if (water.measured === 1 && water.rh_points >= 100) return say(`drying.help.water_full.${water.fuel}`, values);
  return say(`drying.help.${water.measured === 1 ? "water" : "water_1000"}.${water.fuel}`, values);
}
