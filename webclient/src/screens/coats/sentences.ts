/** How a coat stands, in a crew's own words. */

import { faceOf, surfaceInWords } from "../../parts";
import { instant, UNRELIABLE, type Clock, type CoatKey, type CoatPart, type CoatSurface, type Paint } from "../../rules";
import { say, t } from "../../words";
import { coatInside, coatName, ended, ends, nameOf, when, type ModuleView } from "../common";
import { cellOf, type Standing, type TopCoat } from "./standing";

/** How it is meant, for the colour that goes with the words. */
export type Tone = "met" | "late" | "plain";
export interface Told {
  words: string;
  tone: Tone;
}

export const at = (seconds: number | null): string => (seconds === null ? "" : when(instant(seconds)));

/** The two ends of a clock as one sentence says them. */
export const endsOf = ({ likely, by_table }: Pick<Clock, "likely" | "by_table">): { likely: string; by_table: string } =>
  ends({ likely: likely === null ? null : instant(likely), by_table: by_table === null ? null : instant(by_table) });

/** *Texture not dry: prime from 10 am likely, 12:40 pm by the table*. */
export function stateWords({ coat, clock }: TopCoat, room: string, next: CoatKey | null): Told {
  const name = coatName(coat.coat);
  const times = { coat: name, ...endsOf(clock) };
  switch (clock.state) {
    case "not_dry": {
      const wet = cellOf(coat, room).wet;
      return { words: t("coats.state.not_dry", { coat: name, name: nameOf(wet?.by ?? ""), time: wet ? when(wet.time) : "" }), tone: "late" };
    }
    case "dry":
      return { words: t("coats.state.dry", { coat: name, time: at(clock.ready_at) }), tone: "met" };
    case "ready":
      return { words: t("coats.state.ready", { coat: name, by_table: at(clock.by_table) }), tone: "met" };
    case "likely":
      return { words: t("coats.state.likely", times), tone: "plain" };
    case "unsure":
      return { words: t(clock.flags.includes("no_readings") ? "coats.state.no_air" : "coats.state.unsure", times), tone: "late" };
    case "wet":
      if (clock.likely === null || clock.by_table === null) return { words: t("coats.state.never", times), tone: "late" };
      return { words: next ? t("coats.state.wet_next", { ...times, next: coatInside(next) }) : t("coats.state.wet", times), tone: "plain" };
  }
}

/** What is next by the schedule, and whether it may go on; null where the coat's own sentence has said it. */
export function nextWords({ tops, next, known, ready }: Standing): Told | null {
  if (!known) return { words: t("coats.next.unknown"), tone: "plain" };
  if (next === null) return { words: t("coats.next.done"), tone: "plain" };
  const named = { next: tops.length === 0 ? coatInside(next) : coatName(next) };
  if (tops.length === 0) return { words: t("coats.next.first", named), tone: "plain" };
  if (ready?.ready) return { words: t("coats.next.ready", { next: coatName(next) }), tone: "met" };
  if (tops.length === 1 && tops[0]?.clock.state === "wet" && tops[0].clock.by_table !== null && tops[0].clock.set === null) return null;
  const set = tops.find(({ coat, clock }) => ready?.under?.id === coat.id && ready.at !== null && clock.set === ready.at);
  if (set) return { words: t("coats.next.set", { next: coatName(next), time: at(ready?.at ?? null) }), tone: "plain" };
  return { words: t("coats.next.wait", { next: coatInside(next) }), tone: "plain" };
}

/** Why its times cannot be relied on, and what else the clock has to say. What a look has settled is beyond doubt. */
export function flagWords({ flags, state }: Clock): { doubts: string[]; notes: string[] } {
  const settled = state === "dry" || state === "ready";
  const words = (wanted: boolean): string[] => flags.filter((flag) => UNRELIABLE.includes(flag) === wanted && flag !== "no_readings").map((flag) => say(`coats.flag.${flag}`));
  return { doubts: settled ? [] : words(true), notes: words(false) };
}

/** *Cannot be relied on: The last reading is old: read the air again.* Empty where nothing speaks against it. */
export const doubtWords = (doubts: readonly string[]): string => (doubts.length === 0 ? "" : `${t("coats.not_sure")} ${doubts.join(" ")}`);

/** Its times, and why they cannot be relied on: nobody is to plan a day by the one without the other. */
export const withDoubts = (times: string, found: Clock): string => {
  const doubts = doubtWords(flagWords(found).doubts);
  return doubts ? `${ended(times)} ${doubts}` : times;
};

/** *Air of the room, last read 7:40 am: 70 °F (21 °C), 45 % RH*. */
export function airWords({ whose, latest }: Clock, degreesBoth: (tenths: number) => string): string | null {
  if (!whose || !latest) return null;
  return t("coats.air", { whose: t(`coats.whose.${whose}`), time: at(latest.time), temp: degreesBoth(latest.temp), rh: latest.rh });
}

const percent = (thousandths: number): number => Math.floor(thousandths / 10);

/** *58 to 70 % dry now*: by the table, and by the likely time. */
export function driedWords({ dried }: Clock): string {
  const [least, most] = [percent(dried.by_table), percent(dried.likely)];
  return least === most ? t("coats.dried_one", { n: most }) : t("coats.dried", { n: most, m: least });
}

/** The whole strip for ears: what it shows, in sentences. */
export function stripWords(top: TopCoat, room: string, next: CoatKey | null, air: string | null): string {
  const { doubts, notes } = flagWords(top.clock);
  const laid = t("coats.said.laid", { time: at(top.clock.laid) });
  const dried = top.clock.state === "wet" || top.clock.state === "likely" ? `${driedWords(top.clock)}.` : "";
  return [ended(stateWords(top, room, next).words), laid, dried, air ? ended(air) : "", doubtWords(doubts), ...notes].filter(Boolean).join(" ");
}

/** *Drying-type, heavy, 45 min setting, yesterday 6:30 pm, Teo Marsh*; a material that is named like its coat is said once. */
export function layingWords(coat: CoatPart): string {
  const named = say(`coats.material.${coat.material}`);
  const material = named === coatName(coat.coat) ? "" : named;
  const thick = coat.thickness === "normal" ? "" : say(`coats.thickness.${coat.thickness}`).toLowerCase();
  const set = coat.set_minutes === null ? "" : t("coats.set_by", { minutes: coat.set_minutes });
  const hands = coat.done_by.length > 0 ? coat.done_by : [coat.by];
  return [material, thick, set, when(coat.laid), hands.map(nameOf).join(", ")].filter(Boolean).join(", ");
}

/** *Eggshell 40, oat, batch L-5078*, and *Touch-up can: shed 2*; empty where nobody said. */
export function canWords({ product, colour, batch, can }: Paint): { what: string; can: string } {
  const what = [product, colour, batch && t("coats.batch_is", { batch })].filter(Boolean).join(", ");
  return { what, can: can ? t("coats.can_is", { can }) : "" };
}

/** *Wall B, mirror wall*. */
export function wallWords(view: ModuleView, key: string, surface: CoatSurface): string {
  const plan = view.rooms.find((one) => one.key === key)?.plan;
  return surfaceInWords(surface, (plan && faceOf(plan, surface, view.mirrored)?.sight) || "");
}
