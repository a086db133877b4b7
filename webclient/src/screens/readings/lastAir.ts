/** What is known of the air of the yard's places, as the screens say it. */

import { all } from "../../journal";
import { degrees, degreesBoth } from "../../parts";
import { instant, whole, type AirPart, type AirRow } from "../../rules";
import { t } from "../../words";
import { bayOf, nameOf, roomName, standing, when, yard, type ModuleView } from "../common";
import { lastOf, streamOf, typedTemp, type Unit, type Where } from "./measuring";

export const OUTSIDE: Where = { module: null, room: null };
export const airs = (): readonly AirPart[] => all("air").value;
export const yardId = (): string => yard()?.id ?? "";
export const lastAir = (where: Where): AirRow | null => lastOf(airs(), streamOf(where, yardId()));

/** *70 °F (21 °C), 45 % RH*. */
export const airWords = ([, temp, rh]: AirRow): string => t("air.both", { temp: degreesBoth(temp), rh });
/** Short, for a key: *70 °F, 45 %*. */
export const shortAir = ([, temp, rh]: AirRow, unit: Unit): string => t("air.short", { temp: `${typedTemp(temp, unit)}\u00a0°${unit}`, rh });
/** What was read last, as the line above the key says it. */
export const sameAir = ([, temp, rh]: AirRow, unit: Unit): string => t("air.short", { temp: unit === "F" ? degrees(temp) : `${whole(temp / 10)}\u00a0°C`, rh });
/** *7:40 am: 70 °F (21 °C), 45 % RH*. */
export const readWords = (row: AirRow | null): string => (row ? t("air.read", { time: when(instant(row[0])), air: airWords(row) }) : t("air.never"));

/** By whom, or by which logger or sensor. */
export function sourceWords([, , , , , source, by, name]: AirRow): string {
  if (source === "hand") return nameOf(by);
  return name ? t(source === "logger" ? "air.logger" : "air.sensor", { name }) : t(source === "logger" ? "air.a_logger" : "air.a_sensor");
}

/** *inside 2416-A*, *Bath 2*, *outside*. */
export function whereWords(where: Where, view: ModuleView | null): string {
  if (where.module === null || !view) return t("air.outside_in");
  return where.room === null ? t("air.inside_of", { serial: view.serial }) : roomName(view, where.room);
}

/** Every module that stands, as one walks past them: by bay, those without one last. */
export function walked(): ModuleView[] {
  const bays = yard()?.bays ?? [];
  const place = ({ bay }: ModuleView): number => {
    const at = bay === null ? -1 : bays.indexOf(bay);
    return at < 0 ? bays.length : at;
  };
  return standing().sort((one, other) => place(one) - place(other) || bayOf(one).localeCompare(bayOf(other)) || one.serial.localeCompare(other.serial));
}
