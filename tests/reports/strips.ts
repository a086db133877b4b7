// Draws the strips that test_strip.py hands in: node bundle.mjs <in.json> <out.json>, bundled first.
import { lane, placeEvery, placeTags, strip, type StripIn, type Tag } from "../../webclient/src/parts/strip";

// Not imported: the bundle is one for browsers, so that the packages inside are those that phones get.
const { readFileSync, writeFileSync } = process.getBuiltinModule("node:fs");
const [, , given, answers] = process.argv;
const asked = JSON.parse(readFileSync(String(given), "utf8")) as { strips: StripIn[]; tags: Tag[][]; lanes: [number[], number][] };
const told = {
  strips: asked.strips.map(strip),
  tags: asked.tags.map((tags) => placeTags(tags).map(({ key, left, row }) => [key, left, row])),
  every: asked.tags.map((tags) => placeEvery(tags).map(({ key, left, row, led }) => [key, left, row, led])),
  lanes: asked.lanes.map(([values, least]) => lane(values, least)),
};
writeFileSync(String(answers), JSON.stringify(told));
