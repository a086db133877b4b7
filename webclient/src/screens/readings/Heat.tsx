import { useState } from "preact/hooks";
import { nowStamp } from "../../clock";
import { write } from "../../journal";
import { Choice, Confirm, degreesBoth, Field } from "../../parts";
import { instant, type Family, type HeatPart, type Place } from "../../rules";
import { say, t } from "../../words";
import { mayWrite, me, nameOf, told, useKept, useSaving, when, zone } from "../common";
import { fromWall, toWall } from "../manage/zoned";
import { airForbids, heatDraft, heatedSince, heatUnknown, type Forbids, type Heating } from "./heating";
import { besideTemp, Measure, wrongWords } from "./Measure";
import { figureIn, NO_FIGURE, wrongFigure } from "./measuring";
import { unit } from "./unit";

const CAUTIONS = ["carbon_monoxide", "fire", "clearances", "fresh_air", "hottest", "label"] as const;

/** What a heater can do to people, to the house and to the joints. */
export function HeaterCautions({ unvented }: { unvented: boolean }) {
  return (
    <section class="cautions">
      <h2>{t("drying.heater.title")}</h2>
      <ul>
        {unvented && <li>{t("drying.heater.moisture")}</li>}
        {CAUTIONS.map((key) => <li key={key}>{t(`drying.heater.${key}`)}</li>)}
      </ul>
    </section>
  );
}

/** *On since yesterday 4 pm to 70 °F (21 °C), propane without a vent. Crew lead, 8 am*. */
export function heatWords(heat: HeatPart | null): string {
  if (!heat) return t("air.heat.unknown");
  const by = t("air.heat.by", { name: nameOf(heat.by), time: when(heat.time) });
  if (!heat.on) return `${t("air.heat.off")} ${by}`;
  const to = heat.to === null ? "" : t("air.heat.to", { to: degreesBoth(heat.to) });
  const fuel = heat.unvented ? say(`air.heat.fuel.${heat.unvented}`) : "";
  return `${[t("air.heat.on", { time: when(instant(heatedSince(heat))) }), to, fuel].filter(Boolean).join(", ")}. ${by}`;
}

/** A module's heat as it was told, and a way to say it anew. */
export function Heat({ module, serial, place }: { module: string; serial: string; place: Place }) {
  const [open, setOpen] = useState(false);
  return (
    <section class="air-part">
      <h2>{t("air.heat")}</h2>
      <p>{heatWords(place.heat)}</p>
      {mayWrite("heat.told") && !open && <button type="button" class="key" aria-expanded="false" onClick={() => setOpen(true)}>{t(place.heat ? "air.heat.change" : "air.heat.say")}</button>}
      {open && <HeatForm module={module} serial={serial} onDone={() => setOpen(false)} />}
      {(open || place.heat?.on) && <HeaterCautions unvented={open || place.heat?.unvented != null} />}
    </section>
  );
}

/** *Joint work needs 50 °F (10 °C) for 48 hours before. Here it was 46 °F (8 °C), yesterday 6 pm*. */
export const forbidsWords = ({ why, row: [time, temp] }: Forbids): string => t(`air.heat.${why}`, { temp: degreesBoth(temp), time: when(instant(time)) });

/** Said before compound or texture goes on in a room that is too hot for it, or was too cold. */
export function AirForbids({ place, rooms, kind, at }: { place: Place; rooms: readonly string[]; kind: Family; at: number }) {
  const found = airForbids(place, rooms, kind, at);
  return found && <p class="late strong" role="status">{forbidsWords(found)}</p>;
}

/** Asked before joint work in the cold, where no logger knows the 48 hours; nothing where nobody has to ask. */
export function HeatAsk({ module, serial, place, room, at }: { module: string; serial: string; place: Place; room: string; at: number }) {
  const [open, setOpen] = useState(false);
  if (!mayWrite("heat.told") || (!open && !heatUnknown(place, room, at))) return null;
  return (
    <section class="air-part">
      <h2>{t("air.heat.ask")}</h2>
      <p>{t("air.heat.ask_why")}</p>
      {!open && <button type="button" class="key" aria-expanded="false" onClick={() => setOpen(true)}>{t("air.heat.say")}</button>}
      {open && <HeatForm module={module} serial={serial} onDone={() => setOpen(false)} />}
      {open && <HeaterCautions unvented />}
    </section>
  );
}

const COLD: Heating = { on: true, since: "", to: NO_FIGURE, fuel: "vented" };

function HeatForm({ module, serial, onDone }: { module: string; serial: string; onDone: () => void }) {
  const kept = useKept<Heating>(`heat ${me()} ${module}`, COLD);
  const { problem, saving } = useSaving();
  const form = kept.value;
  const put = (part: Partial<Heating>): void => void kept.keep((before) => ({ ...before, ...part }));
  const wrong = wrongFigure(form.to);
  const since = form.since ? fromWall(form.since, zone()) : null;
  const later = form.since !== "" && (since === null || since > nowStamp());
  const save = async (): Promise<void> => {
    if (!(await saving(() => write([heatDraft(module, form, since)])))) return;
    kept.drop();
    told.value = t(form.on ? "air.heat.saved_on" : "air.heat.saved_off", { serial });
    onDone();
  };
  const why = problem ?? (form.on && wrong ? wrongWords(wrong) : form.on && later ? t("air.heat.why_since") : null);
  return (
    <Confirm question={t("air.heat.of", { serial })} yes={t(form.on ? "air.heat.save_on" : "air.heat.save_off")} onYes={() => void save()} onNo={onDone} why={why}>
      <Choice<"on" | "off"> label={t("air.heat.now")} options={[{ key: "on", label: t("air.heat.is_on") }, { key: "off", label: t("air.heat.is_off") }]} value={form.on ? "on" : "off"} onChange={(key) => put({ on: key === "on" })} />
      {form.on && <HeatFields form={form} put={put} />}
    </Confirm>
  );
}

function HeatFields({ form, put }: { form: Heating; put: (part: Partial<Heating>) => void }) {
  const wall = toWall(nowStamp(), zone());
  const to = figureIn(form.to, unit.value);
  const fuels = (["vented", "propane", "natural_gas"] as const).map((key) => ({ key, label: t(`air.fuel.${key}`) }));
  return (
    <>
      <Choice<"now" | "earlier"> label={t("air.heat.since")} options={[{ key: "now", label: t("coats.just_now") }, { key: "earlier", label: t("coats.earlier") }]} value={form.since ? "earlier" : "now"} onChange={(key) => put({ since: key === "now" ? "" : wall })} />
      {form.since && <Field label={t("air.heat.since_when")} type="datetime-local" value={form.since} onInput={(text) => put({ since: text || wall })} />}
      <Measure label={t("air.heat.to_what")} value={to.text} sign={`°${unit.value}`} start={unit.value === "F" ? 70 : 21} beside={besideTemp(to.text, unit.value)} hint={t("air.heat.to_hint")} onInput={(text) => put({ to: { text, unit: unit.value } })} />
      <Choice<Heating["fuel"]> label={t("air.heat.fuel")} options={fuels} value={form.fuel} onChange={(fuel) => put({ fuel })} />
      {form.fuel !== "vented" && <p class="second">{t("drying.heater.moisture")}</p>}
    </>
  );
}
