/** Instants as people say them: the clock alone today, otherwise with the day. Always in the yard's own zone. */
import { t } from "../words";
import type { Language } from "./lengths";

const LOCALE: Record<Language, string> = { en: "en-US", es: "es-US" };
const DAY = 86_400_000;

/** `8:20 am`, `7 am`: minutes only where there are any. */
export function clockTime(instant: string, zone: string, language: Language): string {
  const parts = new Intl.DateTimeFormat("en-US", { timeZone: zone, hour: "numeric", minute: "2-digit", hour12: true });
  const found = Object.fromEntries(parts.formatToParts(new Date(instant)).map((part) => [part.type, part.value]));
  const half = (found["dayPeriod"] ?? "").toLowerCase();
  const minutes = found["minute"] === "00" ? "" : `:${found["minute"] ?? ""}`;
  const said = language === "es" ? half.replace("am", "a. m.").replace("pm", "p. m.") : half;
  return `${found["hour"] ?? ""}${minutes} ${said}`;
}

function dayNumber(instant: string, zone: string): number {
  const day = new Intl.DateTimeFormat("en-CA", { timeZone: zone, year: "numeric", month: "2-digit", day: "2-digit" });
  return Math.round(Date.parse(`${day.format(new Date(instant))}T00:00:00Z`) / DAY);
}

function dayName(instant: string, zone: string, language: Language, sameYear: boolean): string {
  return new Intl.DateTimeFormat(LOCALE[language], {
    timeZone: zone,
    weekday: "short",
    month: "short",
    day: "numeric",
    ...(sameYear ? {} : { year: "numeric" }),
  }).format(new Date(instant));
}

/** An instant seen from `now`: `8:20 am`, `yesterday 6:30 pm`, `tomorrow 7 am`, `Wed, Dec 2, 7 am`. Both RFC 3339. */
export function sayTime(instant: string, now: string, zone: string, language: Language): string {
  const time = clockTime(instant, zone, language);
  const away = dayNumber(instant, zone) - dayNumber(now, zone);
  if (away === 0) return time;
  if (away === -1) return t("frame.yesterday_at", { time });
  if (away === 1) return t("frame.tomorrow_at", { time });
  const sameYear = instant.slice(0, 4) === now.slice(0, 4);
  return t("frame.day_at", { day: dayName(instant, zone, language, sameYear), time });
}

/** Whether two instants are of one day in the yard. */
export const sameDay = (one: string, other: string, zone: string): boolean => dayNumber(one, zone) === dayNumber(other, zone);

/** So near that no two days of one name lie on both sides of now. */
const NEAR = 3;

/** *Thu* near today, *Nov 25* otherwise: of a drawing that reaches back and ahead, no day is said twice by one name. */
function shortDay(instant: string, near: boolean, zone: string, language: Language): string {
  const day: Intl.DateTimeFormatOptions = near ? { weekday: "short" } : { month: "short", day: "numeric" };
  return new Intl.DateTimeFormat(LOCALE[language], { timeZone: zone, ...day }).format(new Date(instant));
}

/** Where there is little room, as at a mark of a drawing: the clock today, `Thu 4 pm` near it, `Nov 30, 4 pm` otherwise. */
export function shortTime(instant: string, now: string, zone: string, language: Language): string {
  const time = clockTime(instant, zone, language);
  const away = Math.abs(dayNumber(instant, zone) - dayNumber(now, zone));
  if (away === 0) return time;
  return `${shortDay(instant, away <= NEAR, zone, language)}${away <= NEAR ? "" : ","} ${time}`;
}

/** A full hour along an axis: `8 am`; midnight is the day that begins. */
export function hourMark(instant: string, now: string, zone: string, language: Language): string {
  const away = Math.abs(dayNumber(instant, zone) - dayNumber(now, zone));
  return isMidnight(instant, zone) ? shortDay(instant, away <= NEAR, zone, language) : clockTime(instant, zone, language);
}

function isMidnight(instant: string, zone: string): boolean {
  return (Date.parse(instant) / 1000 + offsetOf(instant, zone)) % (DAY / 1000) === 0;
}

/** How many seconds the clock of a zone is ahead of UTC at an instant (RFC 3339). */
export function offsetOf(instant: string, zone: string): number {
  const parts = new Intl.DateTimeFormat("en-US", { timeZone: zone, hourCycle: "h23", year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit", second: "2-digit" });
  const found = Object.fromEntries(parts.formatToParts(new Date(instant)).map((part) => [part.type, part.value]));
  const local = Date.parse(`${found["year"]}-${found["month"]}-${found["day"]}T${found["hour"]}:${found["minute"]}:${found["second"]}Z`);
  return Math.round((local - Date.parse(instant)) / 1000);
}
