// Reckons the histories that test_drying_parity.py hands in: node parity.mjs <in.json> <out.json>, bundled first.
import { type AirReading, type CoatLaid, dewPoint, dried, ready, roomRh, whole } from "../../webclient/src/rules";

interface History { coat: CoatLaid; readings: AirReading[]; until: number; inside: number }
// Not imported: the bundle is one for browsers, so that the packages inside are those that phones get.
const { readFileSync, writeFileSync } = process.getBuiltinModule("node:fs");

const [, , given, answers] = process.argv;
const histories = JSON.parse(readFileSync(String(given), "utf8")) as History[];
const told = histories.map(({ coat, readings, until, inside }) => ({
  ready: ready(coat, readings, 1),
  dried: dried(coat, readings, until, 1),
  air: readings.map(({ temp, rh }) => [whole(dewPoint(temp, rh, 1)), roomRh(temp, rh, inside, 1)]),
}));
writeFileSync(String(answers), JSON.stringify(told));
