/** Every pair of words and ground, computed from the tokens in theme.css: 7:1 for words, 3:1 for edges and marks. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const css = readFileSync(fileURLToPath(new URL("../../webclient/src/theme.css", import.meta.url)), "utf8");
type Tokens = Record<string, string>;
type Rgb = [number, number, number];

function block(selector: string): Tokens {
  const from = css.indexOf(selector);
  expect(from, selector).toBeGreaterThanOrEqual(0);
  const body = css.slice(from, css.indexOf("}", from));
  return Object.fromEntries([...body.matchAll(/--([\w-]+):\s*([^;]+);/g)].map(([, name, value]) => [name ?? "", (value ?? "").trim()]));
}

const day = block(":root {");
const evening = { ...day, ...block(':root[data-theme="evening"] {') };

function rgb(hex: string | undefined): Rgb {
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/.exec(hex ?? "");
  if (!found) throw new Error(`not a colour: ${hex}`);
  return [1, 2, 3].map((n) => parseInt(found[n] ?? "", 16)) as Rgb;
}

function light([r, g, b]: Rgb): number {
  const linear = (value: number): number => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
}

function contrast(a: Rgb, b: Rgb): number {
  const [low, high] = [light(a), light(b)].sort((x, y) => x - y) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

function mixed(over: Rgb, under: Rgb, share: number): Rgb {
  return over.map((value, n) => value * share + (under[n] ?? 0) * (1 - share)) as Rgb;
}

const WORDS: [string, string][] = [
  ...["ink", "pencil", "chalk", "crayon", "flush"].flatMap((words): [string, string][] => [[words, "wall"], [words, "face"]]),
  ["face", "chalk"], // a full slab, a pressed key
  ["wall", "ink"], // the chosen segment; a slab while it is pressed
  ["on-night", "night"],
  ["on-glow", "glow"],
];
const EDGES: [string, string][] = [
  ...["ink", "pencil", "chalk", "crayon"].flatMap((edge): [string, string][] => [[edge, "wall"], [edge, "face"]]),
  ["on-glow", "glow"], // a ring of glow has an ink edge
  ["glow", "night"],
];

describe.each([["day", day], ["evening", evening]] as const)("%s", (_, tokens) => {
  it.each(WORDS)("words in %s on %s reach 7:1", (words, ground) => {
    expect(contrast(rgb(tokens[words]), rgb(tokens[ground]))).toBeGreaterThanOrEqual(7);
  });

  it.each(EDGES)("edges in %s on %s reach 3:1", (edge, ground) => {
    expect(contrast(rgb(tokens[edge]), rgb(tokens[ground]))).toBeGreaterThanOrEqual(3);
  });

  it("words keep 7:1 over the beam at its brightest", () => {
    const share = Number(tokens["beam-under-words"]);
    const beam = mixed(rgb(tokens["glow"]), rgb(tokens["night"]), share);
    expect(share).toBeGreaterThan(0.1);
    expect(contrast(rgb(tokens["on-night"]), beam)).toBeGreaterThanOrEqual(7);
  });

  it("a strip goes from dark over damp to light in grey too, and a line on it shows by itself or by its edge of dry", () => {
    const [wet, damp, dry] = ["wet", "damp", "dry"].map((name) => rgb(tokens[name])) as [Rgb, Rgb, Rgb];
    expect([light(wet), light(damp), light(dry)]).toEqual([light(wet), light(damp), light(dry)].sort((a, b) => a - b));
    expect(contrast(wet, dry)).toBeGreaterThanOrEqual(3);
    expect(contrast(rgb(tokens["on-glow"]), dry)).toBeGreaterThanOrEqual(3);
    for (const ground of [wet, damp, dry]) expect(Math.max(contrast(rgb(tokens["on-glow"]), ground), contrast(dry, ground))).toBeGreaterThanOrEqual(3);
  });

  it("the ring of glow shows on every ground by itself or by its ink edge", () => {
    for (const ground of ["wall", "face", "chalk", "night"]) {
      const best = Math.max(contrast(rgb(tokens["glow"]), rgb(tokens[ground])), contrast(rgb(tokens["on-glow"]), rgb(tokens[ground])));
      expect(best, ground).toBeGreaterThanOrEqual(3);
    }
  });
});

it("the bright foot of the beam lies below every word", () => {
  const px = (value: string | undefined): number => Number(/^(\d+)px$/.exec(value ?? "")?.[1]);
  expect(px(day["beam-foot"])).toBeLessThan(px(day["band-foot"]));
});

it("evening is the same whether the phone or a person sets it", () => {
  expect(block(':root:not([data-theme="day"]) {')).toEqual(block(':root[data-theme="evening"] {'));
});
