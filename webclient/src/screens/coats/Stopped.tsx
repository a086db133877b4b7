import { Choice, Field } from "../../parts";
import { CURRENT, tables, type Place } from "../../rules";
import { say, t } from "../../words";
import { coatName, has, nameOf, roomsInWords, when, type ModuleView } from "../common";
import { Ticks } from "../manage/Ticks";
import type { Laying, Under, Way } from "./laying";
import { doubtWords, endsOf, flagWords } from "./sentences";
import { cellOf } from "./standing";
import { stopsOf, type Stop } from "./under";

interface StoppedProps {
  view: ModuleView;
  place: Place;
  laying: Laying;
  wet: Under[];
  at: number;
  put: (part: Partial<Laying>) => void;
}

/** What is under it is not ready: which rooms, with the figures, and the ways out. */
export function Stopped({ view, place, laying, wet, at, put }: StoppedProps) {
  if (wet.length === 0) return null;
  const early = tables(CURRENT).schedule.cover_early.some(has);
  const ways: Way[] = wet.length < laying.rooms.length || laying.way === "leave" ? ["leave", "looked"] : ["looked"];
  const options = [...ways, ...(early ? ["early" as const] : [])].map((key) => ({ key, label: t(`coats.way.${key}`) }));
  const before = wet.some(({ waits }) => waits.some((one) => one.before));
  return (
    <section class="coat-stop">
      <h2 class="late">{t("coats.stop")}</h2>
      <ul>
        {stopsOf(place, wet, at).map((stop) => (
          <li key={`${stop.coat.id} ${stop.rooms[0]}`}>
            <b>{stopWords(roomsInWords(view, stop.rooms), stop)}</b>
            <span class="second"> {doubtWords(flagWords(stop.clock).doubts)}</span>
          </li>
        ))}
      </ul>
      <WaysOut options={options} half={laying} before={before} put={put} />
    </section>
  );
}

/** What was chosen, and what it asks for: the same on a wall that is reworked. */
export type HalfOut = Pick<Laying, "way" | "tried" | "reason">;
interface WaysProps {
  options: readonly { key: Way; label: string }[];
  half: HalfOut;
  /** Whether any of them is looked at before the table's time. */
  before: boolean;
  put: (part: Partial<HalfOut>) => void;
}

export function WaysOut({ options, half: { way, tried, reason }, before, put }: WaysProps) {
  return (
    <>
      <Choice<Way> label={t("coats.way")} options={options} value={way} onChange={(chosen) => put({ way: chosen })} />
      {way === "looked" && before && <p class="second">{t("coats.dry_early")}</p>}
      {way === "looked" && before && <Tried tried={tried} onChange={(next) => put({ tried: next })} />}
      {way === "looked" && before && <Field label={t("coats.dry_reason")} value={reason} onInput={(next) => put({ reason: next })} lines={2} />}
      {way === "early" && <Field label={t("coats.early_reason")} value={reason} onInput={(next) => put({ reason: next })} lines={2} hint={t("coats.early_then")} />}
    </>
  );
}

/** `where`: the rooms, or the wall, as one says them. */
export function stopWords(where: string, { coat, clock, rooms }: Stop): string {
  const values = { rooms: where, coat: coatName(coat.coat), ...endsOf(clock) };
  const wet = cellOf(coat, rooms[0] ?? "").wet;
  if (clock.state === "not_dry" && wet) return t("coats.stop.not_dry", { ...values, name: nameOf(wet.by), time: when(wet.time) });
  if (clock.state === "unsure") return t("coats.stop.unsure", values);
  return t(clock.likely === null || clock.by_table === null ? "coats.stop.never" : "coats.stop.wet", values);
}

/** What was tried to know that it is dry. */
export function Tried({ tried, onChange }: { tried: string[]; onChange: (tried: string[]) => void }) {
  const options = tables(CURRENT).schedule.tries.map((key) => ({ key, label: say(`coats.try.${key}`) }));
  return <Ticks label={t("coats.tried")} options={options} values={tried} onChange={onChange} />;
}
