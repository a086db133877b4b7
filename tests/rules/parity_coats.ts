// Answers what test_coats_parity.py asks about places: node parity.mjs <in.json> <out.json>, bundled first.
import {
  type Part, beforePaint, clock, earlies, learn, observations, placeOf, readyList, tops, whatHelps,
} from "../../webclient/src/rules";

interface Asked { module: string; parts: Part[]; now: number; label: { least_temp?: number } }
// Not imported: the bundle is one for browsers, so that the packages inside are those that phones get.
const { readFileSync, writeFileSync } = process.getBuiltinModule("node:fs");

const [, , given, answers] = process.argv;
const asked = JSON.parse(readFileSync(String(given), "utf8")) as Asked[];
const told = asked.map(({ module, parts, now, label }) => {
  const place = placeOf(module, parts);
  return {
    ready: readyList([place], now),
    paint: place.rooms.map((room) => beforePaint(place, room, now, label)),
    helps: place.rooms.flatMap((room) => tops(place, room).map(([, coat]) => whatHelps(place, room, coat, now))),
    clocks: place.rooms.flatMap((room) => place.coats.filter((coat) => coat.rooms.includes(room)).map((coat) => clock(place, coat, room, now))),
    earlies: earlies(place).map(({ coat, rooms, under }) => ({ coat: coat.id, rooms, under })),
    looks: observations([place]),
    learned: Object.fromEntries(Object.entries(observations(Array.from({ length: 20 }, () => place))).map(([key, looks]) => [key, learn(looks, 1)])),
  };
});
writeFileSync(String(answers), JSON.stringify(told));
