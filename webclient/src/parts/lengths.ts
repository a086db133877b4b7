/** Lengths as people on a US site say and type them; inside they are whole millimetres. */

export type Language = "en" | "es";

const INCH = 25.4;
export const FOOT = 12 * INCH;
/** One press of an arrow: 6 in, as whole millimetres. */
export const STEP = Math.round(6 * INCH);

const UNITS = { en: { foot: "ft", feet: "ft", inch: "in" }, es: { foot: "pie", feet: "pies", inch: "pulg" } } as const;

/** Whole millimetres to feet and whole inches: `4 ft 6 in`, `5 ft`, `0 in`. */
export function feetInches(mm: number, language: Language = "en"): string {
  const inches = Math.round(Math.abs(mm) / INCH);
  const feet = Math.floor(inches / 12);
  const rest = inches % 12;
  const unit = UNITS[language];
  const said: string[] = [];
  if (feet > 0) said.push(`${feet} ${feet === 1 ? unit.foot : unit.feet}`);
  if (rest > 0 || feet === 0) said.push(`${rest} ${unit.inch}`);
  return (mm < 0 && inches > 0 ? "-" : "") + said.join(" ");
}

const METRIC = /^(\d+(?:[.,]\d+)?)\s*(m|cm|mm)$/;
const FEET_AND_INCHES = /^(\d+(?:[.,]\d+)?)\s*(?:ft|feet|foot|pies|pie|')\s*(?:(\d+(?:[.,]\d+)?)\s*(?:in|inches|inch|pulg|pulgadas|")?)?$/;
const INCHES = /^(\d+(?:[.,]\d+)?)\s*(?:in|inches|inch|pulg|pulgadas|")$/;
const FEET_DASH_INCHES = /^(\d+)\s*-\s*(\d+)$/;
const BARE_FEET = /^(\d+(?:[.,]\d+)?)$/;
const METRIC_SCALE: Record<string, number> = { m: 1000, cm: 10, mm: 1 };

function read(text: string | undefined): number {
  return text === undefined ? 0 : Number(text.replace(",", "."));
}

/**
 * Typed length to whole millimetres: `9`, `9 ft`, `9' 6"`, `9-6`, `114 in`, `2.9 m`. A bare number is feet.
 * Null when it cannot be read, so that the field can say so.
 */
export function parseLength(text: string): number | null {
  const typed = text.trim().toLowerCase().replace(/[’′]/g, "'").replace(/[”″]|''/g, '"');
  const metric = METRIC.exec(typed);
  if (metric) return Math.round(read(metric[1]) * (METRIC_SCALE[metric[2] ?? ""] ?? 1));
  const feet = FEET_AND_INCHES.exec(typed) ?? FEET_DASH_INCHES.exec(typed);
  if (feet) return Math.round(read(feet[1]) * FOOT + read(feet[2]) * INCH);
  const inches = INCHES.exec(typed);
  if (inches) return Math.round(read(inches[1]) * INCH);
  const bare = BARE_FEET.exec(typed);
  return bare ? Math.round(read(bare[1]) * FOOT) : null;
}
