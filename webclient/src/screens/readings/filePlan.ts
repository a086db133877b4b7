/** How a logger's file is to be read, as the office guesses it and a person corrects it. Pure. */

export interface FilePlan {
  delimiter: string;
  decimal: string;
  head: number;
  times: number[];
  form: string;
  temp: number;
  unit: string;
  rh: number | null;
  surface: number | null;
  zone: string | null;
}
export type PlanField = keyof FilePlan;
/** A trouble as the office tells it: the key of its sentence, what fills it, and an English text. */
export interface Told {
  key: string;
  text: string;
  line?: number;
  [value: string]: string | number | undefined;
}
export interface LookedRow {
  line: number;
  at: string;
  temp: number;
  rh: number | null;
  surface: number | null;
  said: string[];
}
export interface Looked {
  columns: { name: string; examples: string[] }[];
  plan: FilePlan;
  asks: PlanField[];
  count: number;
  from: string | null;
  to: string | null;
  rows: LookedRow[];
  repeated: number;
  refused_count: number;
  refused: Told[];
  notes: Told[];
  nights?: { from: string; to: string; low: number }[];
}
export interface TakenIn {
  taken?: number;
  known?: number;
  nights?: { from: string; to: string; low: number }[];
  refused_count: number;
  refused: Told[];
  notes: Told[];
}
export type What = "readings" | "forecast";

/** The plan as the query of a request: what is not told is left out. */
export function planQuery(plan: Partial<FilePlan>): URLSearchParams {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(plan)) {
    if (value === null || value === undefined) continue;
    query.set(name, Array.isArray(value) ? value.join(",") : String(value));
  }
  // A column that somebody has taken away is told too, or it would be guessed again.
  for (const name of ["rh", "surface"] as const) if (plan[name] === null) query.set(name, "none");
  return query;
}

/** The same plan after one correction; what hangs on the lines' own form is guessed anew. */
export function corrected(plan: FilePlan, part: Partial<FilePlan>): Partial<FilePlan> {
  if (part.delimiter !== undefined || part.head !== undefined) {
    const { delimiter, head } = plan;
    return part.delimiter !== undefined ? part : { delimiter, head, ...part };
  }
  const { form, unit, decimal, ...rest } = plan;
  const figures = part.temp !== undefined || part.rh !== undefined;
  // Other columns may hold times of another form, degrees of another scale, figures with another decimal mark.
  return { ...rest, ...(part.times === undefined && { form }), ...(part.temp === undefined && { unit }), ...(!figures && { decimal }), ...part };
}

/** What a person has chosen, after one correction more: not what is guessed anew. */
export function chosenAfter(plan: FilePlan, chosen: readonly PlanField[], part: Partial<FilePlan>): PlanField[] {
  const told = corrected(plan, part);
  return [...new Set([...chosen.filter((field) => field in told), ...(Object.keys(part) as PlanField[])])];
}

/** What still has to be said: asked for, and nobody has chosen it. */
export const unsaid = (asks: readonly PlanField[], chosen: readonly PlanField[]): PlanField[] => asks.filter((field) => !chosen.includes(field));

/** The form of times as a choice: what a person can tell apart. */
export const FORMS = ["ymd", "mdy", "dmy", "epoch", "epoch_ms"] as const;
export const DELIMITERS = [",", ";", "\t", "|"] as const;
