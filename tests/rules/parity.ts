// Folds the journals that test_parity.py hands in and answers with hashes: node parity.mjs <in.json> <out.json>, bundled first.
import {
  type Entry, FIRST_LINK, type Part, Workspace, canonical, fold, holds, link, needsAfterPhoto, nextStep, partKey, questions, sha256,
} from "../../webclient/src/rules";

interface Journal {
  seed: number;
  entries: Entry[];
  modules: string[];
  now: string;
}
// Not imported: the bundle is one for browsers, so that the packages inside are those that phones get.
const { readFileSync, writeFileSync } = process.getBuiltinModule("node:fs");
const hash = (value: unknown): Promise<string> => sha256(canonical(value));

/** Folds in three rounds with the parts kept as text between them, as a phone keeps them. */
function inRounds(entries: Entry[]): { parts: Map<string, Part>; effects: (string | null)[] } {
  const kept = new Map<string, string>();
  const effects: (string | null)[] = [];
  const third = Math.ceil(entries.length / 3);
  for (let from = 0; from < entries.length; from += third) {
    const work = new Workspace((kind, id) => {
      const text = kept.get(partKey(kind, id));
      return text === undefined ? null : (JSON.parse(text) as Part);
    });
    effects.push(...fold(work, entries.slice(from, from + third)));
    for (const [key, part] of work.changed) kept.set(key, JSON.stringify(part));
  }
  return { parts: new Map([...kept].map(([key, text]) => [key, JSON.parse(text) as Part])), effects };
}

async function answerTo({ seed, entries, modules, now }: Journal): Promise<unknown> {
  const { parts, effects } = inRounds(entries);
  const all = [...parts.values()].sort((one, other) => (partKey(one.part, one.id) < partKey(other.part, other.id) ? -1 : 1));
  const found = modules.map((module) => {
    const mine = all.find((part) => part.part === "module" && part.id === module);
    const stops = holds(module, all, now);
    return { holds: stops, questions: mine?.part === "module" ? questions(mine, stops) : null };
  });
  const items = all.flatMap((part) => (part.part === "item" ? [[part.id, nextStep(part, 1), needsAfterPhoto(part, 1)]] : []));
  let chain = FIRST_LINK;
  for (const entry of entries) chain = await link(chain, canonical(entry));
  return {
    seed,
    effects,
    parts: Object.fromEntries(await Promise.all(all.map(async (part) => [partKey(part.part, part.id), await hash(part)]))),
    modules: await Promise.all(found.map(async (one) => [await hash(one.holds), await hash(one.questions)])),
    items: await hash(items),
    chain: await hash(Array.from(chain)),
  };
}

const [, , given, answers] = process.argv;
const journals = JSON.parse(readFileSync(String(given), "utf8")) as Journal[];
const told: unknown[] = [];
for (const journal of journals) told.push(await answerTo(journal));
writeFileSync(String(answers), JSON.stringify(told));
