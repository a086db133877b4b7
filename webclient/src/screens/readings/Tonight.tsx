import { useState } from "preact/hooks";
import { all, write } from "../../journal";
import { degreesBoth, offsetOf } from "../../parts";
import { to } from "../../route";
import { forecastId, instant, type ForecastPart } from "../../rules";
import { t } from "../../words";
import { has, mayWrite, me, nameOf, nowSeconds, told, useKept, useSaving, when, zone } from "../common";
import { yardId } from "./lastAir";
import { besideTemp, Measure, wrongWords } from "./Measure";
import { figureIn, nightOf, nightsAhead, NO_FIGURE, tenthsOf, wrongFigure, type Figure } from "./measuring";
import { unit } from "./unit";

const nights = (): ForecastPart["nights"] => all("forecast").value.flatMap((one) => one.nights);

/** The lows that are to come: typed, or from an hourly forecast. Paint and heat stand on them. */
export function Tonight() {
  const now = nowSeconds();
  const { from, to: until } = nightOf(now, offsetOf(instant(now), zone()));
  const ahead = nightsAhead(nights(), now);
  const tonight = ahead.find((night) => night.from === from);
  return (
    <section class="air-part">
      <h2>{t("air.nights")}</h2>
      {ahead.length === 0 && <p>{t("drying.check.low.unknown")}</p>}
      <ul class="air-lines">
        {ahead.map((night) => (
          <li key={night.from}>
            <span>
              <b>{t("air.low_by", { low: degreesBoth(night.low), time: when(night.to) })}</b>{" "}
              <span class="second">{t(night.source === "hourly" ? "air.low_hourly" : "air.low_typed", { name: nameOf(night.by), time: when(night.time) })}</span>
            </span>
          </li>
        ))}
      </ul>
      {mayWrite("forecast.told") && <TypeLow key={from} from={from} until={until} before={tonight?.low ?? null} />}
      {["manager", "inspector", "crew_lead", "shipping"].some(has) && <a class="key key-link" href={to.file("forecast")}>{t("air.nights_file")}</a>}
    </section>
  );
}

function TypeLow({ from, until, before }: { from: string; until: string; before: number | null }) {
  const [open, setOpen] = useState(false);
  const kept = useKept<Figure>(`low ${me()}`, NO_FIGURE);
  const { problem, saving } = useSaving();
  if (!open) return <button type="button" class="key" aria-expanded="false" onClick={() => setOpen(true)}>{t(before === null ? "air.low_say" : "air.low_change")}</button>;
  const figure = figureIn(kept.value, unit.value);
  const wrong = wrongFigure(figure);
  const low = wrong ? null : tenthsOf(figure.text, figure.unit);
  const save = async (): Promise<void> => {
    if (low === null) return;
    const done = await saving(() => write([{ kind: "forecast.told", module: null, about: forecastId(yardId()), body: { nights: [{ from, to: until, low }], source: "typed" } }]));
    if (!done) return;
    kept.drop();
    setOpen(false);
    told.value = t("air.low_saved", { low: degreesBoth(low) });
  };
  return (
    <>
      <Measure label={t("air.low_tonight")} value={figure.text} sign={`°${unit.value}`} start={unit.value === "F" ? 40 : 4} beside={besideTemp(figure.text, unit.value)} error={problem ?? (wrong ? wrongWords(wrong) : null)} onInput={(text) => void kept.keep({ text, unit: unit.value })} />
      <div class="key-row">
        <button type="button" class="key" onClick={() => setOpen(false)}>{t("frame.never_mind")}</button>
        <button type="button" class="key key-full" disabled={low === null} onClick={() => void save()}>{low === null ? t("air.low_save_none") : t("air.low_save", { low: degreesBoth(low) })}</button>
      </div>
    </>
  );
}
