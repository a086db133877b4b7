import { degreesBoth, DryStrip, offsetOf } from "../../parts";
import { instant, type CoatKey } from "../../rules";
import { t } from "../../words";
import { zone } from "../common";
import { airWords, driedWords, flagWords, stateWords, stripWords } from "./sentences";
import { stripOf, type TopCoat } from "./standing";
import "./coats.css";

interface CoatStripProps {
  top: TopCoat;
  room: string;
  /** What may go on it next, for the sentence. */
  next: CoatKey | null;
  now: number;
  /** With the air under it, as the coats' own screen shows it. */
  full?: boolean | undefined;
}

/** How a coat stands in words, its strip, and what its times rest on. */
export function CoatStrip({ top, room, next, now, full }: CoatStripProps) {
  const { clock, coat } = top;
  const offset = offsetOf(instant(clock.laid), zone());
  const air = airWords(clock, degreesBoth);
  const { doubts, notes } = flagWords(clock);
  const drying = clock.state === "wet" || clock.state === "likely";
  const factor = clock.factor ? t("coats.factor", { n: clock.factor.looks, percent: clock.factor.percent }) : "";
  const beside = [drying ? `${driedWords(clock)}.` : "", air === null ? "" : `${air}.`, ...notes, factor].filter(Boolean);
  const told = stateWords(top, room, next);
  return (
    <div class="coat-strip">
      <p class={`coat-state ${told.tone === "plain" ? "" : told.tone}`}>{told.words}</p>
      <DryStrip key={coat.id} strip={stripOf(top, room, now, offset)} zone={zone()} said={stripWords(top, room, next, air)} climate={full} />
      {doubts.length > 0 && <p><b>{t("coats.not_sure")}</b> {doubts.join(" ")}</p>}
      {full && beside.length > 0 && <p class="second">{beside.join(" ")}</p>}
    </div>
  );
}
