import { write } from "../../journal";
import { Choice } from "../../parts";
import { to } from "../../route";
import { t, tn } from "../../words";
import { bayOf, has, mayWrite, me, Screen, told, useKept, useSaving, useSeconds, type ModuleView } from "../common";
import { airWords, lastAir, OUTSIDE, readWords, sameAir, walked, yardId } from "./lastAir";
import { AirFields, wrongWords } from "./Measure";
import { anyTyped, asTyped, inUnit, measuredOf, NOT_TYPED, readingDraft, streamOf, wrongIn, type Typed, type Unit, type Where } from "./measuring";
import { Tonight } from "./Tonight";
import { measureIn, unit } from "./unit";

/** One place on the way. */
interface Stop {
  key: string;
  where: Where;
  view: ModuleView | null;
}
type Half = Record<string, Typed>;
const NOTHING: Half = {};
/** Where steps begin when nobody has read anything. */
export const INDOORS = { F: { temp: 70, rh: 50 }, C: { temp: 21, rh: 50 } };

const stopOf = (where: Where, view: ModuleView | null): Stop => ({ key: streamOf(where, yardId()), where, view });

/** The walk through the yard: outside, then every module in bay order; saved each or all at once. */
export function Walk() {
  useSeconds();
  const slot = `walk ${me()}`;
  const half = useKept<Half>(slot, NOTHING);
  const { problem, saving } = useSaving();
  const modules = walked();
  const stops = [stopOf(OUTSIDE, null), ...modules.map((view) => stopOf({ module: view.id, room: null }, view))];
  const outside = lastAir(OUTSIDE);
  const typed = stops.filter(({ key }) => anyTyped(half.value[key]));
  const put = (key: string, next: Typed | null): Promise<void> => half.keep((before) => (next ? { ...before, [key]: next } : without(before, [key])));
  const save = (some: Stop[]): Promise<boolean> =>
    saving(async () => {
      const drafts = some.flatMap(({ key, where }) => {
        const measured = measuredOf(half.value[key] ?? NOT_TYPED);
        return measured ? [readingDraft(where, yardId(), measured)] : [];
      });
      await write(drafts);
      await half.keep((before) => without(before, some.map(({ key }) => key)));
      told.value = tn("air.saved_n", drafts.length);
    });
  const why = whyNot(typed, half.value);
  const slab = { label: typed.length > 0 ? tn("air.save_n", typed.length) : t("air.save_none"), onPress: () => void save(typed), why: typed.length > 0 ? why : t("air.why_none") };
  return (
    <Screen problem={problem} title={t("air.title")} line={outside ? t("air.outside_now", { air: airWords(outside) }) : t("air.outside_never")} over={t("yard.back")} overHref={to.yard()} breadth="broad" slabs={mayWrite("reading.taken") ? { main: slab } : undefined}>
      <UnitChoice />
      <div class="walk">
        {half.ready && stops.map((stop) => <Row key={stop.key} stop={stop} typed={half.value[stop.key]} put={(next) => void put(stop.key, next)} save={() => void save([stop])} />)}
      </div>
      <Tonight />
      {["manager", "inspector", "crew_lead"].some(has) && <a class="key key-link" href={to.file("readings")}>{t("air.file")}</a>}
    </Screen>
  );
}

const without = (half: Half, keys: string[]): Half => Object.fromEntries(Object.entries(half).filter(([key]) => !keys.includes(key)));

/** The first thing that keeps the press from being kept, with its place. */
function whyNot(typed: Stop[], half: Half): string | null {
  for (const { key, view } of typed) {
    const [wrong] = wrongIn(half[key] ?? NOT_TYPED);
    if (wrong) return `${view?.serial ?? t("air.outside")}: ${wrongWords(wrong)}`;
  }
  return null;
}

/** What is half typed means the same air in either unit. */
export function UnitChoice() {
  const options = [{ key: "F", label: "°F" }, { key: "C", label: "°C" }] as const;
  return <Choice<Unit> label={t("air.unit")} options={options} value={unit.value} onChange={measureIn} />;
}

interface RowProps {
  stop: Stop;
  typed: Typed | undefined;
  put: (next: Typed | null) => void;
  save: () => void;
}

/** A place: what was read last; the same again by one tap, another by two. */
function Row({ stop: { where, view }, typed: kept, put, save }: RowProps) {
  const typed = kept && inUnit(kept, unit.value);
  const last = lastAir(where);
  const name = view?.serial ?? t("air.outside");
  const path = view ? to.air(view.id) : to.outside();
  return (
    <section class="walk-row" aria-label={name}>
      <a class="walk-name" href={path}>
        <b class={view ? "serial" : undefined}>{name}</b>
        {view && <span class="second">{bayOf(view)}</span>}
        <span class="wide second">{readWords(last)}</span>
      </a>
      {typed ? (
        <>
          <AirFields typed={typed} start={startOf(where)} onChange={(part) => put({ ...typed, ...part })} />
          <div class="key-row">
            <button type="button" class="key" aria-label={t("air.leave_of", { place: name })} onClick={() => put(null)}>{t("air.leave")}</button>
            <button type="button" class="key" aria-label={t("air.save_of", { place: name })} disabled={wrongIn(typed).length > 0} onClick={save}>{t("air.save_one")}</button>
          </div>
        </>
      ) : (
        <div class="key-row">
          {last && <button type="button" class="key" aria-label={t("air.same_of", { air: sameAir(last, unit.value), place: name })} onClick={() => put(asTyped({ temp: last[1], rh: last[2] }, unit.value))}>{t("air.same", { air: sameAir(last, unit.value) })}</button>}
          <button type="button" class="key" aria-label={t("air.other_of", { what: t(last ? "air.other" : "air.measure"), place: name })} onClick={() => put(first(where))}>{t(last ? "air.other" : "air.measure")}</button>
        </div>
      )}
    </section>
  );
}

/** Steps begin at the place's last reading, else at ordinary indoor air. */
export function startOf(where: Where): { temp: number; rh: number } {
  const last = lastAir(where);
  if (!last) return INDOORS[unit.value];
  const { temp, rh } = asTyped({ temp: last[1], rh: last[2] }, unit.value);
  return { temp: Number(temp), rh: Number(rh) };
}

/** Fields to be filled in: as it was read last, else blank. */
function first(where: Where): Typed {
  const last = lastAir(where);
  return last ? asTyped({ temp: last[1], rh: last[2] }, unit.value) : { ...NOT_TYPED, unit: unit.value };
}
