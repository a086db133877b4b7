/** How far a row of the ready list can be relied on, in words. */

import { clock, instant, type Place, type ReadyRow } from "../../rules";
import { t } from "../../words";
import { coatName, when } from "../common";
import { endsOf, flagWords, withDoubts } from "../coats/sentences";

/** Looked at, by the table, likely, or only by a look; with every doubt, since a day is planned by it. */
export function reliedWords(row: Pick<ReadyRow, "ready" | "at" | "under" | "room">, place: Place, now: number): string {
  const under = place.coats.find(({ id }) => id === row.under);
  if (!under) return t("drying.relied.bare");
  const found = clock(place, under, row.room, now);
  const coat = coatName(under.coat);
  const at = (time: number | null): string => (time === null ? "" : when(instant(time)));
  if (found.state === "dry") return t("drying.relied.dry", { coat, time: at(found.ready_at) });
  if (found.state === "ready") return t("drying.relied.ready", { coat, time: at(found.by_table) });
  if (found.state === "not_dry") return t("drying.relied.not_dry", { coat });
  if (row.at !== null && row.at === found.set) return t(row.ready === 1 ? "drying.relied.has_set" : "drying.relied.sets", { coat, time: at(found.set) });
  if (found.state === "unsure") return [t("drying.relied.unsure", { coat }), ...flagWords(found).doubts].join(" ");
  if (found.likely === null || found.by_table === null) return t("drying.relied.never", { coat });
  return withDoubts(t(found.likely <= now ? "drying.relied.likely" : "drying.relied.wet", { coat, ...endsOf(found) }), found);
}
