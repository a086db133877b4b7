/** What a wall's clock says to whoever is to go on with it. */

import { clock, CURRENT, tables, value, type Clock, type ItemPart, type Place } from "../../rules";
import { say, t } from "../../words";
import type { Group } from "../common";
import { doubtWords, endsOf, flagWords, stateWords } from "../coats/sentences";
import { liesOn, needsDry, wallOf } from "./walls";

/** *Not dry: sand from 10 am likely, 1 pm by the table*, and why that cannot be relied on; null where the wall keeps nobody waiting. */
export function wallWords(place: Place, { items }: Group, now: number): { words: string; late: boolean; doubts: string } | null {
  const wall = items[0] ? wallOf(items[0]) : null;
  const lies = wall ? liesOn(place, wall.room, wall.surface).map((coat) => ({ coat, found: clock(place, coat, wall.room, now) })) : [];
  const lie = lies.find(({ found }) => !isDry(found)) ?? lies[0];
  if (!wall || !lie) return null;
  const { coat: top, found } = lie;
  const dry = isDry(found);
  const waiting = items.flatMap((item) => afterDrying(item) ?? []);
  const doubts = found.state === "wet" || found.state === "likely" ? doubtWords(flagWords(found).doubts) : "";
  if (dry && (top.surface === null || waiting.length === 0)) return null;
  if (found.state === "wet" && waiting[0] && found.likely !== null && found.by_table !== null) {
    return { words: t("work.wall_wet", { step: say(`steps.${waiting[0]}`), ...endsOf(found) }), late: false, doubts };
  }
  const told = stateWords({ surface: top.surface, coat: top, clock: found, air: [] }, wall.room, null);
  return { words: told.words, late: told.tone === "late", doubts };
}

const isDry = ({ state }: Clock): boolean => state === "ready" || state === "dry";

/** The step that waits for the wall to be dry, if that is what comes next. */
function afterDrying(item: ItemPart): string | null {
  const left = (tables(CURRENT).defects[value(item.heads, "defect") ?? ""]?.steps ?? []).filter((step) => !item.ticks.includes(step));
  const [next] = left;
  if (!next || !needsDry(next)) return null;
  return left.find((step) => !/^dry/.test(step)) ?? null;
}
