import { useState } from "preact/hooks";
import { nowStamp } from "../../clock";
import { Confirm, degreesBoth, Field, shortTime } from "../../parts";
import { instant, type CoatPart, type Meter, type Paint } from "../../rules";
import { language, say, t } from "../../words";
import { coatInside, coatName, me, nameOf, roomsInWords, when, zone, type ModuleView } from "../common";
import { canWords, layingWords } from "./sentences";
import { cellOf, type TopCoat } from "./standing";

export type VoidCoat = (coat: CoatPart, reason: string) => Promise<boolean>;

interface MoreProps {
  view: ModuleView;
  top: TopCoat;
  rooms: string[];
  onVoid: VoidCoat | null;
}

/** What else is known of a coat: looks, paint, the air as a table, and the way back. */
export function More({ view, top, rooms, onVoid }: MoreProps) {
  const { coat } = top;
  const [room = ""] = rooms;
  return (
    <div class="block">
      <p>
        <b>{coatName(coat.coat)}</b> {layingWords(coat)}
      </p>
      {coat.paint && <p>{paintWords(coat.paint)}</p>}
      {coat.answer && <p>{t("coats.answered")}. {t("coats.said_answer", { name: nameOf(coat.answer.by), time: when(coat.answer.time), reason: coat.answer.reason })}</p>}
      {looksWords(coat, room).map((words) => <p key={words}>{words}</p>)}
      <AirTable top={top} rooms={roomsInWords(view, rooms)} />
      {onVoid && !ownEarly(coat) && <Void coat={coat} onVoid={onVoid} />}
    </div>
  );
}

/** What people found by looking: *Imke Larrabee looked: not dry, 10:21 am*. */
export function looksWords(coat: CoatPart, room: string): string[] {
  const { wet, dry } = cellOf(coat, room);
  const found = [
    wet && [t("coats.look_wet", { name: nameOf(wet.by), time: when(wet.time) }), wet.text, wet.meter && meterWords(wet.meter)],
    dry && [t("coats.look_dry", { name: nameOf(dry.by), time: when(dry.time) }), ...dry.tried.map((one) => say(`coats.try.${one}`)), dry.reason, dry.meter && meterWords(dry.meter)],
  ];
  return found.flatMap((parts) => (parts ? [parts.filter(Boolean).join(", ")] : []));
}

/** What went on early is not taken back by who laid it: an inspector is to look at it. */
const ownEarly = (coat: CoatPart): boolean => coat.early !== null && coat.answer === null && [coat.by, ...coat.done_by].includes(me());

/** *Paint: Eggshell 40, oat, batch L-5078. Touch-up can: shed 2*. */
function paintWords(paint: Paint): string {
  const { what, can } = canWords(paint);
  return [what && t("coats.paint_is", { what }), can].filter(Boolean).join(". ");
}

const meterWords = ({ scale, value }: Meter): string => t("coats.meter_read", { value: value / 10, scale: t(`coats.meter.${scale}`).toLowerCase() });

/** At most this many rows: more are on the readings' own screen. */
const ROWS = 12;

/** The air that dried it, beside the drawing. */
function AirTable({ top: { coat, air }, rooms }: { top: TopCoat; rooms: string }) {
  if (air.length === 0) return null;
  return (
    <div class="air-readings" role="region" aria-label={t("coats.key_of", { words: t("coats.air_table"), rooms: `${coatName(coat.coat)}, ${rooms}` })} tabIndex={0}>
      <table class="air-table">
        <caption>{t("coats.air_table")}</caption>
        <thead>
          <tr>
            <th scope="col">{t("coats.air_time")}</th>
            <th scope="col">{t("coats.air_temp")}</th>
            <th scope="col">{t("coats.air_rh")}</th>
            <th scope="col">{t("coats.air_whose")}</th>
          </tr>
        </thead>
        <tbody>
          {air.slice(-ROWS).map((row) => (
            <tr key={row.time}>
              <td>{shortTime(instant(row.read), nowStamp(), zone(), language.value)}</td>
              <td>{degreesBoth(row.temp)}</td>
              <td>{t("coats.percent", { rh: row.rh })}</td>
              <td>{t(`coats.whose.${row.whose}`)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A coat that never was: it stays in the history, with the reason. */
function Void({ coat, onVoid }: { coat: CoatPart; onVoid: VoidCoat }) {
  const [asking, setAsking] = useState(false);
  const [reason, setReason] = useState("");
  const name = { coat: coatInside(coat.coat) };
  if (!asking) return <button type="button" class="key" aria-label={t("coats.key_of", { words: t("coats.void"), rooms: name.coat })} onClick={() => setAsking(true)}>{t("coats.void")}</button>;
  const yes = async (): Promise<void> => {
    if (await onVoid(coat, reason.trim())) setAsking(false);
  };
  return (
    <Confirm question={t("coats.void")} yes={t("coats.void_yes", name)} onYes={() => void yes()} onNo={() => setAsking(false)} why={reason.trim() ? null : t("coats.why.reason")}>
      <Field label={t("coats.void_why")} value={reason} onInput={setReason} lines={2} />
    </Confirm>
  );
}
