import { Choice, Field } from "../../parts";
import { CURRENT, tables, type Place } from "../../rules";
import { say, t } from "../../words";
import { coatName, has, nameOf, roomsInWords, when, type ModuleView } from "../common";
import { Ticks } from "../manage/Ticks";
import type { Laying, Under, Way } from "./laying";
import { at as sayAt, flagWords } from "./sentences";
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
            <b>{stopWords(view, stop)}</b>
            {flagWords(stop.clock).doubts.length > 0 && <span class="second"> {flagWords(stop.clock).doubts.join(" ")}</span>}
          </li>
        ))}
      </ul>
      <Choice<Way> label={t("coats.way")} options={options} value={laying.way} onChange={(way) => put({ way })} />
      {laying.way === "looked" && before && <p class="second">{t("coats.dry_early")}</p>}
      {laying.way === "looked" && before && <Tried tried={laying.tried} onChange={(tried) => put({ tried })} />}
      {laying.way === "looked" && before && <Field label={t("coats.dry_reason")} value={laying.reason} onInput={(reason) => put({ reason })} lines={2} />}
      {laying.way === "early" && <Field label={t("coats.early_reason")} value={laying.reason} onInput={(reason) => put({ reason })} lines={2} hint={t("coats.early_then")} />}
    </section>
  );
}

function stopWords(view: ModuleView, { coat, clock, rooms }: Stop): string {
  const values = { rooms: roomsInWords(view, rooms), coat: coatName(coat.coat), likely: sayAt(clock.likely), by_table: sayAt(clock.by_table) };
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
