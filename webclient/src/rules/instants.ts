/** Instants as whole seconds since 1970 and back, by the calendar's own arithmetic: no clock, no time zone table. */

export const DAY = 86400;
const DAYS_BEFORE_1970 = 719468;

/** Whole seconds since 1970 of an RFC 3339 instant with Z or an offset; a fraction is dropped. */
export function seconds(text: string): number {
  const at = (from: number, to: number): number => Number(text.slice(from, to));
  const days = daysOf(at(0, 4), at(5, 7), at(8, 10));
  return days * DAY + at(11, 13) * 3600 + at(14, 16) * 60 + at(17, 19) - offset(text);
}

/** UTC in whole seconds with Z. */
export function instant(since1970: number): string {
  const rest = since1970 - floor(since1970, DAY) * DAY;
  const clock = [floor(rest, 3600), floor(rest, 60) % 60, rest % 60].map((part) => digits(part, 2));
  return `${day(since1970)}T${clock.join(":")}Z`;
}

/** The UTC day of an instant, YYYY-MM-DD. */
export function day(since1970: number): string {
  // Years that begin in March: the leap day is the last of its year, and months have a formula.
  const days = floor(since1970, DAY) + DAYS_BEFORE_1970;
  const era = floor(days, 146097);
  const ofEra = days - era * 146097;
  const year = floor(ofEra - floor(ofEra, 1460) + floor(ofEra, 36524) - floor(ofEra, 146096), 365);
  const ofYear = ofEra - (365 * year + floor(year, 4) - floor(year, 100));
  const month = floor(5 * ofYear + 2, 153);
  const date = ofYear - floor(153 * month + 2, 5) + 1;
  return [
    digits(era * 400 + year + (month > 9 ? 1 : 0), 4), digits(month < 10 ? month + 3 : month - 9, 2), digits(date, 2),
  ].join("-");
}

function daysOf(calendarYear: number, month: number, date: number): number {
  const year = calendarYear - (month < 3 ? 1 : 0);
  const era = floor(year, 400);
  const ofEra = year - era * 400;
  const ofYear = floor(153 * (month > 2 ? month - 3 : month + 9) + 2, 5) + date - 1;
  return era * 146097 + ofEra * 365 + floor(ofEra, 4) - floor(ofEra, 100) + ofYear - DAYS_BEFORE_1970;
}

function offset(text: string): number {
  if (text.endsWith("Z")) return 0;
  const east = Number(text.slice(-5, -3)) * 3600 + Number(text.slice(-2)) * 60;
  return text.at(-6) === "+" ? east : -east;
}

const floor = (number: number, by: number): number => Math.floor(number / by);
const digits = (number: number, wide: number): string => String(number).padStart(wide, "0");
