// Every hand-written case of tests/vectors, on the phone's side; test_vectors.py runs the same on the server's.
import { describe, expect, it } from "vitest";
import {
  type Entry, FIRST_LINK, type Hold, type ModulePart, type Objections, type Part, type Ref, Workspace, canonical, fold, hasSeen,
  holds, link, may, nextStep, partKey as keyOf, questions, sha256,
} from "../../webclient/src/rules";
import { note, seenAll } from "../../webclient/src/rules/seen";
import { runBeforePaint, runLearned, runReadyList, runWhatHelps } from "./answers";
import { runClimate, runDrying, runIds, runInstants } from "./climates";
import { type Json, NOW, type Row, differences, expand, expandPart, fullId, partKey, story } from "./expand";
import { runClocks, runSchedule } from "./places";

type Case = { name: string; because: string; given: Row; expect: Row };
// As text: the bundler's own reader of JSON refuses the lone surrogates that a case is about.
const read = import.meta.glob<string>("../vectors/*.json", { eager: true, query: "?raw", import: "default" });
const files = new Map<string, unknown>(
  Object.entries(read).map(([path, text]) => [/([^/]+)\.json$/.exec(path)?.[1] ?? path, JSON.parse(text)]),
);
const caseFiles = new Map([...files].filter((file): file is [string, Case[]] => Array.isArray(file[1])));
const NOT_CASES = ["common", "schema"];

const plain = (value: unknown): Row => JSON.parse(JSON.stringify(value)) as Row;

async function runCanonical(given: Row): Promise<unknown> {
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = canonical(given.value);
  } catch (problem) {
    expect(problem).toBeInstanceOf(TypeError);
    return { refused: true };
  }
  return { text: new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes), sha256: await sha256(bytes) };
}

async function runLink(given: Row): Promise<unknown> {
  const entry = canonical(given.entry);
  const previous = Uint8Array.from(String(given.previous).match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
  expect(previous).toHaveLength(FIRST_LINK.length);
  const next = await link(previous, entry);
  return { sha256: await sha256(entry), next: Array.from(next, (byte) => byte.toString(16).padStart(2, "0")).join("") };
}

function runSeen(given: Row): unknown {
  const found: { [key: string]: unknown } = {};
  const later = given.later as unknown as Entry | undefined;
  if (later && given.earlier) found.seen = hasSeen(later, given.earlier as unknown as Ref);
  const objections = (given.objections ?? {}) as unknown as Objections;
  if (given.noted) {
    for (const entry of expand(given.noted as Row[])) note(objections, entry as unknown as Entry);
    found.objections = objections;
  }
  if (later && (given.noted || given.objections)) found.seen_all = seenAll(later, objections);
  return found;
}

function runWho(given: Row): unknown {
  const person = given.person as { roles: string[] } | null;
  return { may: may(person, String(given.kind), (given.body ?? {}) as object, (given.existing ?? null) as object | null, 1) };
}

function runFold(given: Row): unknown {
  const told = story(given.after as string | undefined);
  const work = new Workspace(() => null);
  const effects = fold(work, expand([...told, ...((given.entries ?? []) as Row[])]) as unknown as Entry[]);
  expect(effects.slice(0, told.length), "every entry of a story takes effect").toEqual(told.map(() => null));
  const folded = [...work.changed.values()];
  const parts = given.parts ? ((given.parts as Row[]).map(expandPart) as unknown as Part[]) : folded;
  const module = String(fullId(given.module ?? "m"));
  const found: Hold[] = holds(module, parts, String(given.now ?? NOW));
  const mine = parts.find((part): part is ModulePart => part.part === "module" && part.id === module);
  return {
    effects: effects.slice(told.length),
    parts: Object.fromEntries(folded.map((part) => [keyOf(part.part, part.id), part])),
    holds: found,
    questions: mine ? questions(mine, found) : [],
    next: Object.fromEntries(parts.flatMap((part) => (part.part === "item" ? [[part.id, nextStep(part, 1)]] : []))),
  };
}

const RUNNERS: { [file: string]: (given: Row) => unknown } = {
  canonical: runCanonical, climate: runClimate, drying: runDrying, ids: runIds, instants: runInstants, link: runLink, seen: runSeen, who: runWho,
  clocks: runClocks, schedule: runSchedule,
  before_paint: runBeforePaint, learned: runLearned, ready_list: runReadyList, what_helps: runWhatHelps,
};
const fullKey = (text: string): string => partKey(text).join(" ");

describe.each([...caseFiles])("%s", (file, cases) => {
  it.each(cases)("$name", async ({ because, given, expect: wanted }) => {
    const found = plain(await (RUNNERS[file] ?? runFold)(plain(given)));
    const { absent, parts, ...rest } = wanted;
    const asked: Row = { ...rest };
    if (parts) asked.parts = Object.fromEntries(Object.entries(parts as Row).map(([key, part]): [string, Json] => [fullKey(key), part]));
    const there = ((absent ?? []) as string[]).filter((key) => fullKey(key) in (found.parts as Row));
    expect(Object.keys(wanted), "a case expects something").not.toEqual([]);
    expect(differences(asked, found), because).toEqual([]);
    expect(there, because).toEqual([]);
  });
});

it("leaves no case file out", () => {
  expect([...files.keys()].filter((name) => !caseFiles.has(name) && !NOT_CASES.includes(name))).toEqual([]);
});
