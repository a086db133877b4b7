// How a case about air, drying, instants or ids is run; climates.py does the same.
import {
  type AirReading, type CoatLaid, airId, celsius, celsiusDifference, dewPoint, dried, fahrenheit, fahrenheitDifference, forecastId, heatId,
  instant, learnedId, ready, roomRh, seconds, streamId, whole,
} from "../../webclient/src/rules";
import { fullId } from "./expand";

type Given = { [key: string]: unknown };

/** Whole tenths and whole per cent of everything that the case gives enough for. */
export function runClimate(given: Given): Given {
  const found: Given = {};
  const number = (key: string): number => Number(given[key]);
  if ("temp" in given) found.dew_point = whole(dewPoint(number("temp"), number("rh"), 1));
  if ("inside" in given) found.room_rh = whole(roomRh(number("temp"), number("rh"), number("inside"), 1));
  if ("fahrenheit" in given) found.celsius = whole(celsius(number("fahrenheit")));
  if ("celsius" in given) found.fahrenheit = whole(fahrenheit(number("celsius")));
  if ("fahrenheit_apart" in given) found.celsius_apart = whole(celsiusDifference(number("fahrenheit_apart")));
  if ("celsius_apart" in given) found.fahrenheit_apart = whole(fahrenheitDifference(number("celsius_apart")));
  return found;
}

/** When the coat is ready, and how much of it is dry at `until` if the case asks. */
export function runDrying(given: Given): Given {
  const coat = given.coat as CoatLaid;
  const readings = given.readings as AirReading[];
  const found: Given = { ready: ready(coat, readings, 1) };
  if ("until" in given) found.dried = dried(coat, readings, Number(given.until), 1);
  return found;
}

/** The id of [what, of whom, which]. */
export function runIds(given: Given): Given {
  const [what, of, which] = given.value as [string, string, string | number | null];
  const made: { [what: string]: (owner: string) => string } = {
    stream: (owner) => streamId(owner, which as string | null), air: (stream) => airId(stream, Number(which)),
    heat: heatId, forecast: forecastId, learned: learnedId,
  };
  return { text: made[what]!(String(fullId(of))) };
}

/** Seconds since 1970, and these as an instant again. */
export function runInstants(given: Given): Given {
  const found = seconds(String(given.value));
  return { seconds: found, text: instant(found) };
}
