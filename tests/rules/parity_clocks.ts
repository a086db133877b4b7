// Reckons the histories that test_clocks_parity.py hands in: node parity.mjs <in.json> <out.json>, bundled first.
import {
  type CoatSurface, clock, coatsOf, earlies, type Family, holds, instant, nextCoat, type Part, placeOf, readiness, tops,
} from "../../webclient/src/rules";

interface Asked { module: string; parts: Part[]; hours: number[] }
// Not imported: the bundle is one for browsers, so that the packages inside are those that phones get.
const { readFileSync, writeFileSync } = process.getBuiltinModule("node:fs");
const ROOMS = ["bath", "hall", "kitchen"];
const FAMILIES: [Family, CoatSurface | null][] = [["joint", null], ["joint", "A"], ["primer", null]];

function answerTo({ module, parts, hours }: Asked): unknown {
  const place = placeOf(module, parts);
  return {
    clocks: place.coats.flatMap((coat) => coat.rooms.flatMap((room) => hours.map((at) => clock(place, coat, room, at)))),
    tops: ROOMS.map((room) => tops(place, room).map(([surface, coat]) => [surface, coat.id])),
    readiness: ROOMS.flatMap((room) => hours.flatMap((at) => FAMILIES.map(([family, surface]) => {
      const told = readiness(place, room, family, at, surface);
      return { ...told, under: told.under?.id ?? null };
    }))),
    earlies: earlies(place).map((one) => ({ ...one, coat: one.coat.id })),
    schedule: ROOMS.map((room) => [coatsOf(place, room), nextCoat(place, room)]),
    holds: hours.map((at) => holds(module, parts, instant(at))),
  };
}

const [, , given, answers] = process.argv;
const asked = JSON.parse(readFileSync(String(given), "utf8")) as Asked[];
writeFileSync(String(answers), JSON.stringify(asked.map(answerTo)));
