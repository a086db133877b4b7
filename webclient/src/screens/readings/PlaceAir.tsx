import { useState } from "preact/hooks";
import { drawn, state, write } from "../../journal";
import { Confirm, Pick } from "../../parts";
import { go, to } from "../../route";
import { instant, type AirRow } from "../../rules";
import { t } from "../../words";
import { mayWrite, me, moduleView, placeLine, placeOfView, roomName, Screen, told, useKept, useSaving, useSeconds, when, type ModuleView } from "../common";
import { Gone } from "../module/Module";
import { Heat } from "./Heat";
import { airs, airWords, lastAir, OUTSIDE, readWords, sameAir, shortAir, sourceWords, whereWords, yardId } from "./lastAir";
import { AirFields, SurfaceField, wrongWords } from "./Measure";
import { anyTyped, asTyped, inUnit, measuredOf, NOT_TYPED, readingDraft, rowsOf, streamOf, strikeDraft, strikeTimes, wrongIn, type Typed, type Where } from "./measuring";
import { Tonight } from "./Tonight";
import { unit } from "./unit";
import { startOf, UnitChoice } from "./Walk";

/** The air of a module: of its inside, or of one room; its heat; what was read. */
export function ModuleAir({ id, room }: { id: string; room: string }) {
  drawn(id);
  const view = moduleView(id);
  return view ? <PlaceAir key={`${id} ${room}`} where={{ module: id, room: room || null }} view={view} /> : <Gone />;
}

/** The air of the yard outside, and tonight's low. */
export const OutsideAir = () => <PlaceAir where={OUTSIDE} view={null} />;

function PlaceAir({ where, view }: { where: Where; view: ModuleView | null }) {
  useSeconds();
  const slot = `air ${me()} ${streamOf(where, yardId())}`;
  const half = useKept<Typed>(slot, NOT_TYPED);
  const { problem, saving } = useSaving();
  const last = lastAir(where);
  const place = whereWords(where, view);
  const typed = inUnit(half.value, unit.value);
  const measured = measuredOf(typed);
  const [wrong] = wrongIn(typed);
  const save = (): void =>
    void saving(async () => {
      if (!measured) return;
      await write([readingDraft(where, yardId(), measured)], [], { draft: slot });
      half.drop();
      told.value = t("air.saved_at", { place, air: shortAir([0, measured.temp, measured.rh, 0, null, "hand", "", null], unit.value) });
    });
  const label = measured ? t("air.save_at", { place, air: shortAir([0, measured.temp, measured.rh, 0, null, "hand", "", null], unit.value) }) : t("air.save_none");
  const why = measured ? null : wrong && anyTyped(typed) ? (wrong.key === "air.missing" ? t(`air.missing_${wrong.field === "rh" ? "rh" : "temp"}`) : wrongWords(wrong)) : t("air.why_none");
  const head = view ? { title: t("air.of", { serial: view.serial }), line: placeLine(view, false), over: view.serial, overHref: to.module(view.id) } : { title: t("air.of_outside"), over: t("air.title"), overHref: to.walk() };
  const put = (part: Partial<Typed>): void => void half.keep((before) => ({ ...inUnit(before, unit.value), ...part }));
  return (
    <Screen problem={problem} {...head} slabs={mayWrite("reading.taken") ? { main: { label, onPress: save, why } } : undefined}>
      {view && <Whose view={view} room={where.room} />}
      <p><b>{where.module === null ? t("air.outside") : where.room === null ? t("air.inside") : place}</b> <span class="second">{readWords(last)}</span></p>
      {half.ready && mayWrite("reading.taken") && (
        <>
          {last && <button type="button" class="key" onClick={() => put(asTyped({ temp: last[1], rh: last[2] }, unit.value))}>{t("air.same", { air: sameAir(last, unit.value) })}</button>}
          <AirFields typed={typed} start={startOf(where)} onChange={put} />
          {where.module !== null && <Surface typed={typed} where={where} put={put} />}
          <UnitChoice />
        </>
      )}
      {view ? <Heat module={view.id} serial={view.serial} place={placeOfView(view)} /> : <Tonight />}
      <Taken where={where} />
    </Screen>
  );
}

/** Inside the module, or one of its rooms. */
function Whose({ view, room }: { view: ModuleView; room: string | null }) {
  const options = [{ key: "", label: t("air.inside") }, ...view.rooms.map(({ key }) => ({ key, label: roomName(view, key) }))];
  return <Pick label={t("air.where")} value={room ?? ""} options={options} onChange={(key) => go(to.air(view.id, key))} />;
}

function Surface({ typed, where, put }: { typed: Typed; where: Where; put: (part: Partial<Typed>) => void }) {
  const [open, setOpen] = useState(false);
  if (!open && !typed.surface) return <button type="button" class="surface-key" aria-expanded="false" onClick={() => setOpen(true)}>{t("air.surface")}</button>;
  return <SurfaceField typed={typed} start={startOf(where)} onChange={put} />;
}

const ROWS = 24;

/** What was read there, the latest first; a wrong one is taken back. */
function Taken({ where }: { where: Where }) {
  const rows = rowsOf(airs(), streamOf(where, yardId()));
  if (rows.length === 0) return null;
  return (
    <section class="air-part">
      <h2>{t("air.taken")}</h2>
      <ul class="air-lines">
        {rows.slice(0, ROWS).map((row) => <OneRow key={row.slice(0, 5).join(" ")} row={row} others={rows.map(([time]) => time)} where={where} />)}
      </ul>
      {rows.length > ROWS && <p class="second">{t("air.taken_more", { n: rows.length - ROWS })}</p>}
    </section>
  );
}

function OneRow({ row, others, where }: { row: AirRow; others: number[]; where: Where }) {
  const [asking, setAsking] = useState(false);
  const { problem, saving } = useSaving();
  const time = when(instant(row[0]));
  const strike = async (): Promise<void> => {
    const unsent = state.value.unsent > 0 && row[5] === "hand" && row[6] === me();
    if (!(await saving(() => write([strikeDraft(where, yardId(), strikeTimes(row[0], others, unsent))])))) return;
    told.value = t("air.struck", { time });
  };
  if (asking) {
    return (
      <li>
        <Confirm question={t("air.strike_ask", { air: airWords(row), time })} yes={t("air.strike_yes")} onYes={() => void strike()} onNo={() => setAsking(false)} why={problem} />
      </li>
    );
  }
  return (
    <li>
      <span>
        {airWords(row)}
        <span class="second"> {[time, sourceWords(row)].join(", ")}</span>
      </span>
      {mayWrite("reading.struck") && <button type="button" class="key" aria-label={t("air.strike_of", { time })} onClick={() => setAsking(true)}>{t("air.strike")}</button>}
    </li>
  );
}
