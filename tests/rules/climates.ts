// How a case about air or drying is run; climates.py does the same.
import {
  type AirReading, type CoatLaid, celsius, celsiusDifference, dewPoint, dried, fahrenheit, fahrenheitDifference, ready, roomRh, whole,
} from "../../webclient/src/rules";

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
