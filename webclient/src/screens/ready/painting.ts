/** What the air says where primer or paint could go on by what lies under it. Pure. */

import { beforePaint, type BeforePaint, type Place } from "../../rules";

type Label = Parameters<typeof beforePaint>[3];
const ORDER = ["go", "wait", "stop"] as const;

/** The look before paint without what lies under, which the list itself has told; of rooms that differ the worst. */
export function airVerdict(place: Place, rooms: readonly string[], now: number, label: Label): BeforePaint {
  const found = rooms.map((room) => ofAir(beforePaint(place, room, now, label)));
  return found.reduce((worst, one) => (weight(one) > weight(worst) ? one : worst), { verdict: "go", until: null, checks: [] });
}

function ofAir({ until, checks }: BeforePaint): BeforePaint {
  const air = checks.filter(({ key }) => key !== "joint_dry");
  const verdict = [...ORDER].reverse().find((one) => air.some(({ state }) => state === one)) ?? "go";
  return { verdict, until: verdict === "wait" ? until : null, checks: air };
}

/** Of two that wait the later; one whose end nobody knows before any. */
const weight = ({ verdict, until }: BeforePaint): number => ORDER.indexOf(verdict) + (verdict !== "wait" ? 0 : until === null ? 0.9 : until / 1e13);
