// Times what test_ready_list.py hands in: node bundle.mjs <in.json> <out.json>, bundled first.
import { type Part, placeOf, readyList } from "../../webclient/src/rules";

interface Given { modules: Part[][]; now: number }
// Not imported: the bundle is one for browsers, so that the packages inside are those that phones get.
const { readFileSync, writeFileSync } = process.getBuiltinModule("node:fs");
const ROUNDS = 9;

const [, , given, answers] = process.argv;
const { modules, now } = JSON.parse(readFileSync(String(given), "utf8")) as Given;

function timed(parts: Part[], number: number): { rows: number; milliseconds: number } {
  const begun = performance.now();
  const rows = readyList([placeOf(`module-${number}`, parts)], now).length;
  return { rows, milliseconds: performance.now() - begun };
}

const rounds = Array.from({ length: ROUNDS }, () => modules.map(timed));
writeFileSync(String(answers), JSON.stringify({
  rows: rounds[0]?.reduce((sum, { rows }) => sum + rows, 0),
  milliseconds: modules.map((_, number) => Math.min(...rounds.map((round) => round[number]?.milliseconds ?? Number.NaN))),
}));
