/** What the air says where something could go on by what lies under it. Pure. */

import { beforePaint, family, type BeforePaint, type Place, type ReadyRow } from "../../rules";
import { airForbids, heatUnknown } from "../readings/heating";

export type Label = Parameters<typeof beforePaint>[3];
const ORDER = ["go", "wait", "stop"] as const;

/** The look before paint without what lies under, which the list itself has told; of rooms that differ the worst. */
export function airVerdict(place: Place, rooms: readonly string[], now: number, label: Label): BeforePaint {
  const found = rooms.map((room) => ofAir(beforePaint(place, room, now, label)));
  return found.reduce((worst, one) => (weight(one) > weight(worst) ? one : worst), { verdict: "go", until: null, checks: [] });
}

/** Whether a line of the list says beside it what keeps it from being done: such a module cannot be worked on for it. */
export function heldBack(row: Pick<ReadyRow, "coat" | "family" | "bare">, rooms: readonly string[], place: Place, now: number, label: Label): boolean {
  if (row.family === "primer" || row.family === "paint") return row.bare.length > 0 || airVerdict(place, rooms, now, label).verdict !== "go";
  if (!row.coat) return false;
  const kind = family(row.coat);
  return airForbids(place, rooms, kind, now) !== null || (kind === "joint" && rooms.some((room) => heatUnknown(place, room, now)));
}

function ofAir({ until, checks }: BeforePaint): BeforePaint {
  const air = checks.filter(({ key }) => key !== "joint_dry");
  const verdict = [...ORDER].reverse().find((one) => air.some(({ state }) => state === one)) ?? "go";
  return { verdict, until: verdict === "wait" ? until : null, checks: air };
}

/** Of two that wait the later; one whose end nobody knows before any. */
const weight = ({ verdict, until }: BeforePaint): number => ORDER.indexOf(verdict) + (verdict !== "wait" ? 0 : until === null ? 0.9 : until / 1e13);
