/** Prints, as JSON, for each TypeScript file named on the command line: [file, [lines of each function], comment lines]. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const here = createRequire(new URL("../../webclient/package.json", import.meta.url));
type Node = Record<string, unknown>;
interface Parser { parseSync(file: string, text: string): { program: unknown; comments: { start: number; end: number }[] } }
const vite = (await import(pathToFileURL(here.resolve("vite")).href)) as Parser;

const FUNCTIONS = ["FunctionDeclaration", "FunctionExpression", "ArrowFunctionExpression"];

function functionsIn(node: unknown, found: Node[] = []): Node[] {
  if (Array.isArray(node)) for (const one of node) functionsIn(one, found);
  else if (typeof node === "object" && node !== null) {
    const one = node as Node;
    // An arrow that is only an expression is a value, as a lambda is.
    if (FUNCTIONS.includes(String(one["type"])) && (one["body"] as Node | null)?.["type"] === "BlockStatement") found.push(one);
    for (const value of Object.values(one)) functionsIn(value, found);
  }
  return found;
}

function measured(file: string): [string, number[], number] {
  const text = readFileSync(file, "utf8");
  const { program, comments } = vite.parseSync(file, text);
  const lines = (start: number, end: number): number => text.slice(start, end).split("\n").length;
  const own = comments.filter((one) => text.slice(text.lastIndexOf("\n", one.start) + 1, one.start).trim() === "");
  return [
    file,
    functionsIn(program).map((one) => lines(Number(one["start"]), Number(one["end"]))),
    own.reduce((sum, one) => sum + lines(one.start, one.end), 0),
  ];
}

console.log(JSON.stringify(process.argv.slice(2).map(measured)));
