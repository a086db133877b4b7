import { drawn } from "../../journal";
import { go, to } from "../../route";
import { beforePaint, coatToCome, family, nextCoat, whatHelps, type Check, type CoatPart, type Help, type Place } from "../../rules";
import { say, t } from "../../words";
import { coatInside, coatName, ended, mayWrite, me, moduleView, placeLine, placeOfView, roomName, Screen, useKept, useSeconds, type ModuleView } from "../common";
import { bareWords } from "../coats/BareWalls";
import { doubtWords, flagWords, wallWords } from "../coats/sentences";
import { standing, type TopCoat } from "../coats/standing";
import { Gone } from "../module/Module";
import { HeaterCautions } from "../readings/Heat";
import { besideTemp, Measure, wrongWords } from "../readings/Measure";
import { figureIn, NO_FIGURE, tenthsOf, wrongFigure, type Figure } from "../readings/measuring";
import { unit } from "../readings/unit";
import { checkWords, helpTimes, helpWords, savedWords, underDoubts, verdictWords, waterWords } from "./sentences";
import "./paint.css";

/** Whether a room can be primed or painted now, with each figure; and what would make what is under it dry sooner. */
export function Paint({ module, room }: { module: string; room: string }) {
  drawn(module);
  const view = moduleView(module);
  return view?.rooms.some(({ key }) => key === room) ? <InRoom view={view} room={room} /> : <Gone />;
}

function InRoom({ view, room }: { view: ModuleView; room: string }) {
  const now = useSeconds();
  const label = useKept<Figure>(`label least ${me()}`, NO_FIGURE);
  const place = placeOfView(view);
  const said = figureIn(label.value, unit.value);
  const least = wrongFigure(said) ? null : tenthsOf(said.text, said.unit);
  const found = beforePaint(place, room, now, least === null ? {} : { least_temp: least });
  const coat = coatToCome(place, room);
  const read = { label: t("air.measure_room", { room: roomName(view, room) }), onPress: () => go(to.air(view.id, room)) };
  const coats = { label: t("coats.open"), onPress: () => go(to.coats(view.id)) };
  const next = nextCoat(place, room);
  const helping = next !== null && !["primer", "paint"].includes(family(next)) && wetTops(place, room, now).length > 0;
  const stale = found.checks.some(({ key, state }) => key === "reading" && state === "wait");
  return (
    <Screen title={t(helping ? "drying.help.title" : "drying.paint.title")} line={`${roomName(view, room)} · ${placeLine(view)}`} over={roomName(view, room)} overHref={to.room(view.id, room)} breadth="broad" slabs={stale ? { main: read, beside: coats } : { main: coats, beside: read }}>
      <div class={`side-by-side ${helping ? "help-first" : ""}`}>
        <div>
          {helping && <h2>{t("drying.paint.title")}</h2>}
          <section class={`verdict verdict-${found.verdict}`} role="status">
            <h2>{verdictWords(found, coat, now)}</h2>
            <p>{t("drying.paint.for", { coat: coatInside(coat) })}</p>
          </section>
          <Checks checks={found.checks} now={now} heated={place.heat?.on === true} doubts={doubtWords(underDoubts(place, room, now))} bare={bareWords({ view, place, rooms: [room], kind: family(coat) })} />
          <LabelLeast figure={said} onInput={(text) => void label.keep({ text, unit: unit.value })} />
          <p class="second">{t("drying.paint.label")} {t("drying.air.paint")}</p>
        </div>
        <div>
          <Helping view={view} place={place} room={room} now={now} />
        </div>
      </div>
    </Screen>
  );
}

/** Stops first, then what waits, cautions, what is met. */
const ORDER = ["stop", "wait", "caution", "met"];

interface ChecksProps {
  checks: Check[];
  now: number;
  heated: boolean;
  /** Why the time of what lies under cannot be relied on. */
  doubts: string;
  /** Walls to be primed first. */
  bare: string[];
}

function Checks({ checks, now, heated, doubts, bare }: ChecksProps) {
  const sorted = [...checks].sort((one, other) => ORDER.indexOf(one.state) - ORDER.indexOf(other.state));
  const row = (check: Check) => <OneCheck key={check.key} words={wordsOf(check)} check={check} />;
  const wordsOf = (check: Check): string => (check.key === "joint_dry" && doubts ? `${ended(checkWords(check, now, heated))} ${doubts}` : checkWords(check, now, heated));
  const against = sorted.filter(({ state }) => state === "stop" || state === "wait").length;
  return (
    <ul class="checks">
      {sorted.slice(0, against).map(row)}
      {bare.map((words) => (
        <li key={words}>
          <b class="late">{t("drying.check.caution")}</b>
          <span>{words}</span>
        </li>
      ))}
      {sorted.slice(against).map(row)}
    </ul>
  );
}

function OneCheck({ check: { key, state, value }, words }: { check: Check; words: string }) {
  const unsaid = key === "low" && value === null && mayWrite("forecast.told");
  return (
    <li>
      <b class={state === "met" ? "met" : "late"}>{say(`drying.check.${state}`)}</b>
      <span>
        {unsaid ? `${ended(words)} ` : words}
        {unsaid && <a class="coat-link" href={to.outside()}>{t("air.low_say")}</a>}
      </span>
    </li>
  );
}

/** What the can says; as it was typed last. */
function LabelLeast({ figure, onInput }: { figure: Figure; onInput: (text: string) => void }) {
  const wrong = wrongFigure(figure);
  return <Measure label={t("drying.paint.least")} value={figure.text} sign={`°${figure.unit}`} start={figure.unit === "F" ? 50 : 10} beside={besideTemp(figure.text, figure.unit)} hint={t("drying.paint.least_hint")} error={wrong ? wrongWords(wrong) : null} onInput={onInput} />;
}

const wetTops = (place: Place, room: string, now: number): TopCoat[] => standing(place, room, now).tops.filter(({ clock }) => clock.state !== "dry" && clock.state !== "ready");

/** For each coat on top that is not dry: heat, drier air, or waiting; with what a heater and moving air ask for. */
function Helping({ view, place, room, now }: { view: ModuleView; place: Place; room: string; now: number }) {
  const wet = wetTops(place, room, now);
  if (wet.length === 0) return null;
  const heats = place.heat?.on === true || wet.some(({ coat }) => whatHelps(place, room, coat, now).some(({ key }) => key === "heat"));
  return (
    <>
      {wet.map(({ coat, surface, clock }) => {
        const name = surface ? `${coatName(coat.coat)}, ${wallWords(view, room, surface)}` : coatName(coat.coat);
        return <HelpCoat key={coat.id} name={name} coat={coat} place={place} room={room} now={now} known={clock.latest !== null} doubts={doubtWords(flagWords(clock).doubts)} />;
      })}
      {heats && <HeaterCautions unvented />}
      <section class="cautions">
        <h2>{t("drying.air.title")}</h2>
        <ul>
          <li>{t("drying.air.ventilate")}</li>
          <li>{t("drying.air.no_draft")}</li>
        </ul>
      </section>
    </>
  );
}

function HelpCoat({ name, coat, place, room, now, known, doubts }: { name: string; coat: CoatPart; place: Place; room: string; now: number; known: boolean; doubts: string }) {
  return (
    <section class="air-part">
      <h2>{t("drying.help.of", { coat: name })}</h2>
      {doubts && <p>{doubts}</p>}
      <ul class="helps">
        {whatHelps(place, room, coat, now).map((help) => <OneHelp key={help.key} help={help} known={known} />)}
      </ul>
    </section>
  );
}

function OneHelp({ help, known }: { help: Help; known: boolean }) {
  const saved = savedWords(help);
  const water = waterWords(help);
  return (
    <li>
      <p><b>{helpWords(help)}</b>{saved && <b class="met"> {saved}</b>}</p>
      <p>{helpTimes(help, known)}</p>
      {help.key === "heat" && help.room_rh !== null && <p class="second">{t("drying.help.room_rh", { rh: help.room_rh })}</p>}
      {water && <p class="second">{water}</p>}
    </li>
  );
}
