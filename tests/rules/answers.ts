// How a case about before paint, what helps, what comes next or what was learned is run; answers.py does the same.
import { beforePaint, type Label, learn, type Observation, observations, readyList, seconds, whatHelps } from "../../webclient/src/rules";
import { NOW, type Row } from "./expand";
import { placeIn, said } from "./places";

/** Go, wait or stop in a room. */
export function runBeforePaint(given: Row): unknown {
  const told = beforePaint(placeIn(given), room(given), at(given), (given.label ?? {}) as Label);
  return { paint: { ...told, until: said(told.until) } };
}

/** What would help a coat in a room. */
export function runWhatHelps(given: Row): unknown {
  const place = placeIn(given);
  const coat = place.coats.find(({ id }) => id === (given.of ?? "c1"));
  if (coat === undefined) throw new Error("no such coat");
  const told = whatHelps(place, room(given), coat, at(given));
  return { helps: told.map((one) => ({ ...one, likely: said(one.likely), by_table: said(one.by_table) })) };
}

/** What comes next in a module. */
export function runReadyList(given: Row): unknown {
  return { list: readyList([placeIn(given)], at(given)).map((row) => ({ ...row, at: said(row.at) })) };
}

/** What looks say of a coat, or of a material what was `seen`. */
export function runLearned(given: Row): unknown {
  if (given.seen) return { learned: learn(given.seen as unknown as Observation[], 1) };
  return { looks: observations([placeIn(given)]) };
}

const room = (given: Row): string => String(given.room ?? "bath");
const at = (given: Row): number => seconds(String(given.at ?? NOW));
