import { all } from "../../journal";
import { Choice, Field, surfaceInWords } from "../../parts";
import { CURRENT, tables, type CoatPart } from "../../rules";
import { t } from "../../words";
import { has, moduleView, roomName } from "../common";
import type { Way } from "../coats/laying";
import { doubtWords, flagWords } from "../coats/sentences";
import { stopWords, WaysOut } from "../coats/Stopped";
import type { Clearing } from "./clearing";
import { anyTooSoon, stopped, takesCompound } from "./rework";
import type { Lie, OnWall } from "./walls";
import { WallAir } from "./WallAir";
import { WhichPaint } from "./WhichPaint";
import "../coats/coats.css";

/** Walls that are picked and not ready, with the figures and the ways out; nothing where all of them are. */
export function NotReady({ clearing: { said, say, now, chosen, ticking, clearingOf } }: { clearing: Clearing }) {
  const all = [...stopped(ticking.all, said), ...stopped(clearingOf.all, { ...said, wet: false })];
  if (all.length === 0) return null;
  const walls = [...new Map(all.map((wall) => [`${wall.module} ${wall.room} ${wall.surface}`, wall])).values()];
  const others = chosen.some((item) => !walls.some(({ items }) => items.includes(item)));
  const covers = tables(CURRENT).schedule.cover_early.some(has) && all.some(({ coat }) => coat !== null);
  const ways: Way[] = [...(others || said.way === "leave" ? (["leave"] as const) : []), "looked", ...(covers ? (["early"] as const) : [])];
  const options = ways.map((key) => ({ key, label: t(key === "leave" ? "work.way.leave" : `coats.way.${key}`) }));
  return (
    <section class="coat-stop">
      <h2 class="late">{t("coats.stop")}</h2>
      <ul>
        {walls.flatMap((wall) => wall.lies.filter(({ stops }) => stops).map((lie) => (
          <Stop key={`${wall.surface} ${wall.room} ${lie.coat.id}`} wall={wall} lie={lie} />
        )))}
      </ul>
      <WaysOut options={options} half={said} before={anyTooSoon(walls, now)} put={say} />
    </section>
  );
}

function Stop({ wall: { module, room, surface }, lie: { coat, clock } }: { wall: OnWall; lie: Lie }) {
  const view = moduleView(module);
  if (!view) return null;
  const { doubts } = flagWords(clock);
  return (
    <li>
      <b>{stopWords(`${roomName(view, room)}, ${surfaceInWords(surface)}`, { coat, clock, rooms: [room] })}</b>
      {doubts.length > 0 && <span class="second"> {doubtWords(doubts)}</span>}
    </li>
  );
}

/** What the compound is, and how it was sanded: only where a step puts some on, or sands it. The usual is chosen already. */
export function OfWhat({ clearing, clearing: { said, say, ticking } }: { clearing: Clearing }) {
  const last = lastMinutes();
  const setting = [t("coats.material.setting_type"), last && t("work.minutes_of", { minutes: last })].filter(Boolean).join(", ");
  return (
    <>
      <WallAir clearing={clearing} />
      {takesCompound(ticking.walls) && (
        <Choice label={t("work.compound")} options={[{ key: "drying", label: t("coats.material.drying_type") }, { key: "setting", label: setting }]} value={said.setting ? "setting" : "drying"} onChange={(key) => say({ setting: key === "setting", set: said.set || last })} />
      )}
      {takesCompound(ticking.walls) && said.setting && <Field label={t("coats.set_minutes")} value={said.set} inputMode="numeric" offers={["20", "45", "90"]} onInput={(set) => say({ set })} />}
      {ticking.walls.some(({ sands }) => sands) && (
        <Choice label={t("work.sanded")} options={[{ key: "dry", label: t("work.sanded.dry") }, { key: "wet", label: t("work.sanded.wet") }]} value={said.wet ? "wet" : "dry"} onChange={(key) => say({ wet: key === "wet" })} />
      )}
      {said.wet && ticking.walls.some(({ sands }) => sands) && <p class="second">{t("coats.sanded_then")}</p>}
      <WhichPaint clearing={clearing} />
    </>
  );
}

/** The minutes of the setting-type compound used last in the yard, as this phone knows it. */
function lastMinutes(): string {
  const used = all("coat").value.filter(({ set_minutes, void: gone }) => set_minutes !== null && gone === null);
  const latest = used.reduce<CoatPart | null>((found, coat) => (found === null || coat.laid > found.laid ? coat : found), null);
  return latest?.set_minutes ? String(latest.set_minutes) : "";
}
