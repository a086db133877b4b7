/** The laws of the rooms on the phone's side, read from the import statements: arrows one way, front doors, no rings. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const source = fileURLToPath(new URL("../../webclient/src/", import.meta.url));
const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((name) => /\.tsx?$/.test(name)).sort();
const GROUND = ["ask", "clock", "db"];
/** What each room may reach; `screens` and the files beside the rooms may reach everything. */
const ARROWS: Record<string, string[]> = {
  rules: [],
  clock: [],
  db: ["clock", "rules"],
  ask: ["clock", "db"],
  remembered: [],
  parts: ["rules", "words", "clock", "remembered"],
  photos: [...GROUND, "rules", "words", "parts"],
  people: [...GROUND, "rules"],
  journal: [...GROUND, "rules", "photos", "people"],
  worker: [],
};
const ROOMS = ["rules", "journal", "photos", "people", "parts"];
/** SHA-1 for UUIDv5: the browser's own is asynchronous, and a fold is not. */
const RULES_PACKAGES = ["uuid"];

interface Import { from: string; to: string }

function importsOf(file: string): Import[] {
  const text = readFileSync(join(source, file), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
  const found = text.matchAll(/^(?:import|export)\s[^;]*?\bfrom\s+"([^"]+)"|^import\s+"([^"]+)"|\bimport\(\s*"([^"]+)"\s*\)/gm);
  return [...found].map(([, named, bare, later]) => ({ from: file, to: named ?? bare ?? later ?? "" }));
}

const all = files.flatMap(importsOf);
const roomOf = (path: string): string => path.split("/")[0]?.replace(/\.tsx?$/, "") ?? "";
/** Where a relative import leads, from src; outside it begins with "..". */
const target = (one: Import): string => normalize(join(dirname(one.from), one.to));
const inside = all.filter((one) => one.to.startsWith(".") && !target(one).startsWith(".."));
const told = (one: Import): string => `${one.from} -> ${one.to}`;

describe("rooms", () => {
  it("reach only what lies below them", () => {
    const wrong = inside.filter((one) => {
      const [from, to] = [roomOf(one.from), roomOf(target(one))];
      return from !== to && ARROWS[from] && !ARROWS[from].includes(to) && one.from !== "parts/gallery.tsx";
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it("are entered by their index only", () => {
    const wrong = inside.filter((one) => {
      const to = target(one);
      return ROOMS.includes(roomOf(to)) && roomOf(one.from) !== roomOf(to) && to !== roomOf(to) && !to.endsWith(".css");
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it("open nothing at their index that nobody outside asks for", () => {
    const tests = fileURLToPath(new URL("../", import.meta.url));
    const asking = [
      ...files.map((name) => ({ room: roomOf(name), text: readFileSync(join(source, name), "utf8") })),
      ...readdirSync(tests, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts")).map((name) => ({ room: "tests", text: readFileSync(join(tests, name), "utf8") })),
    ];
    const idle = ROOMS.flatMap((room) => {
      const doors = readFileSync(join(source, room, "index.ts"), "utf8").matchAll(/^export (?:type )?\{([^}]*)\}/gm);
      const names = [...doors].flatMap(([, list = ""]) => list.split(",").map((one) => one.trim().split(" ").at(-1) ?? "").filter(Boolean));
      const wanted = new Set(asking.filter((one) => one.room !== room).flatMap(({ text }) => text.match(/\w+/g) ?? []));
      return names.filter((name) => !wanted.has(name)).map((name) => `${room}: ${name}`);
    });
    expect(idle).toEqual([]);
  });

  it("that are reached have an index", () => {
    expect(ROOMS.filter((room) => !files.includes(`${room}/index.ts`))).toEqual([]);
  });

  it("leave rules alone with themselves and the tables", () => {
    const wrong = all.filter((one) => one.from.startsWith("rules/") && !target(one).startsWith("rules/")
      && !/^(\.\.\/)+server\/rules\/data\/(\d+\/)?\w+\.json$/.test(one.to) && !RULES_PACKAGES.includes(one.to));
    expect(wrong.map(told)).toEqual([]);
  });

  it("hold no ring of imports", () => {
    const known = new Set(files);
    const file = (path: string): string | undefined =>
      [`${path}.ts`, `${path}.tsx`, `${path}/index.ts`].find((name) => known.has(name));
    const arrows = new Map(files.map((name) => [name, new Set<string>()]));
    for (const one of inside) {
      const to = file(target(one));
      if (to && to !== one.from) arrows.get(one.from)?.add(to);
    }
    for (let before = -1; before !== arrows.size;) {
      before = arrows.size;
      const leaves = [...arrows].filter(([, reached]) => [...reached].every((to) => !arrows.has(to))).map(([name]) => name);
      for (const name of leaves) arrows.delete(name);
    }
    expect([...arrows.keys()]).toEqual([]);
  });
});

describe("style sheets", () => {
  it("give a class its looks in one file: which of two counted would hang on what was loaded last", () => {
    const sheets = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".css"));
    const classes = sheets.flatMap((name) => {
      const rules = readFileSync(join(source, name), "utf8").replace(/\/\*[\s\S]*?\*\//g, "").matchAll(/([^{}]+)\{/g);
      return [...new Set([...rules].flatMap(([, selectors = ""]) => selectors.split(",").map((one) => one.trim()).filter((one) => /^\.[\w-]+$/.test(one))))];
    });
    expect(classes.filter((one, at) => classes.indexOf(one) !== at)).toEqual([]);
  });
});
