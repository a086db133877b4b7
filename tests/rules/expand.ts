// Compact vectors written out (see tests/vectors/README.md), and the one way in which an answer is compared.
import { seconds } from "../../webclient/src/rules";
import { rate } from "../../webclient/src/rules/drying";
import common from "../vectors/common.json";

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
export type Row = { [key: string]: Json };
type Story = { after?: string; entries: Row[] };

const IDS: { [short: string]: string } = common.ids;
const ABOUT: { [thing: string]: string } = common.about;
const STORIES = common.stories as unknown as { [name: string]: Story };
const PARTS = common.parts as unknown as { [kind: string]: Row };
export const NOW = "2026-12-02T20:00:00Z";

/** An id for its short name; others as they are. */
export const fullId = (short: Json): Json => (typeof short === "string" ? (IDS[short] ?? short) : null);

/** ["item", "i1"] for "item i1". */
export function partKey(text: string): [string, string] {
  const at = text.indexOf(" ");
  return [text.slice(0, at), String(fullId(text.slice(at + 1)))];
}

/** The compact entries of a story, those it goes on from first. */
export function story(name?: string): Row[] {
  if (name === undefined) return [];
  const told = STORIES[name];
  if (told === undefined) throw new Error(`no such story: ${name}`);
  return [...story(told.after), ...told.entries];
}

/** Full entries for compact ones. */
export function expand(compact: Row[]): Row[] {
  const entries: Row[] = [];
  const last = new Map<string, Row>();
  compact.forEach((raw, index) => {
    const kind = String(raw.kind);
    const device = String(raw.device ?? (starts(kind, common.server_kinds) ? "server" : "d1"));
    const before = last.get(device);
    const seq = Number(raw.seq ?? Number(entries.at(-1)?.seq ?? 0) + 1);
    const seenTo = Number(raw.seen_to ?? seq - 1);
    const time = String(raw.time ?? `2026-12-02T14:${String(index + 1).padStart(2, "0")}:00Z`);
    const module = fullId("module" in raw ? raw.module! : starts(kind, common.no_module) ? null : "m");
    const entry: Row = {
      id: `00000000-0000-7000-9000-${String(index + 1).padStart(12, "0")}`, device, n: Number(before?.n ?? 0) + 1,
      prev: before?.id ?? null, epoch: "e", seen: seenTo, at: time,
      by: device === "server" ? "server" : "p" + device.slice(1), body: {}, rules: 1, seq,
      received_at: time, time, let_in: 0, seen_to: seenTo, ...raw, module,
      about: "about" in raw ? fullId(raw.about!) : about(raw, module),
    };
    entries.push(entry);
    last.set(device, entry);
  });
  return entries;
}

/** A whole part for one with fields left out. */
export function expandPart(raw: Row): Row {
  const part: Row = { ...PARTS[String(raw.part)], ...raw };
  if (part.part === "air") part.rows = (part.rows as GivenRow[]).map(row);
  return { ...part, id: fullId(part.id!), module: fullId(part.module!) };
}

type GivenRow = [at: string, temp: number, rh: number, surface?: number];

/** A row as the fold keeps it, for [instant, temperature, RH] and maybe the surface's temperature. */
function row([at, temp, rh, surface]: GivenRow): Json {
  return [seconds(at), temp, rh, rate(temp, rh, 1), surface ?? null, "hand", "p1", null];
}

/** Where `found` is not as `wanted` asks; an empty list when it is. */
export function differences(wanted: Json, found: Json | undefined, where = ""): string[] {
  if (isRow(wanted) && Object.keys(wanted).join() === "=") {
    return same(wanted["="]!, found) ? [] : [`${where}: wanted exactly ${show(wanted["="])}, found ${show(found)}`];
  }
  if (isRow(wanted) && isRow(found)) {
    return Object.keys(wanted).flatMap((key) =>
      key in found ? differences(wanted[key]!, found[key], `${where}.${key}`) : [`${where}.${key}: missing`],
    );
  }
  if (Array.isArray(wanted) && Array.isArray(found) && wanted.length === found.length) {
    return wanted.flatMap((row, at) => differences(row, found[at], `${where}[${at}]`));
  }
  return wanted === found ? [] : [`${where}: wanted ${show(wanted)}, found ${show(found)}`];
}

const show = (value: Json | undefined): string => JSON.stringify(value) ?? "nothing";
const starts = (kind: string, list: string[]): boolean => list.some((start) => kind.startsWith(start));

function isRow(value: Json | undefined): value is Row {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function same(a: Json | undefined, b: Json | undefined): boolean {
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((row, at) => same(row, b[at]));
  if (!isRow(a) || !isRow(b)) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => key in b && same(a[key], b[key]));
}

function about(raw: Row, module: Json): Json {
  const thing = String(raw.kind).split(".")[0]!;
  const body = (raw.body ?? {}) as Row;
  if (thing === "sheet") return fullId(String(body.sheet) + (module === IDS.mb ? "_b" : ""));
  if (thing === "entry") return String(body.entry);
  return ABOUT[thing] ?? module;
}
