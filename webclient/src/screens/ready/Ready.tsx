import { useMemo, useState } from "preact/hooks";
import { Choice, offsetOf } from "../../parts";
import { session } from "../../people";
import { to } from "../../route";
import { family, instant, readyList, type Place, type ReadyRow } from "../../rules";
import { t, tn } from "../../words";
import { bayOf, coatInside, crewName, moduleView, nowSeconds, placeOfModule, roomsInWords, Screen, standingPlaces, useSeconds, when, yard, zone, type ModuleView } from "../common";
import { BareWalls } from "../coats/BareWalls";
import { wallWords } from "../coats/sentences";
import { PaintAir, useLabel } from "../paint/PaintAir";
import { AirForbids } from "../readings/Heat";
import { heatUnknown } from "../readings/heating";
import { heldBack } from "./painting";
import { reliedWords } from "./relied";
import { forCrew, grouped, type Alike, type OfModule, type When } from "./when";
import "./ready.css";

/** Across the yard: what can be taped, floated, sanded, textured or painted, and from when. */
export function Ready() {
  const minute = Math.floor(useSeconds() / 60);
  const places = standingPlaces();
  // Made anew each minute, and as soon as anything was written: a reading of this minute is not one to come.
  const now = useMemo(nowSeconds, [places, minute]);
  const rows = useMemo(() => readyList(places, now), [places, now]);
  const crews = (yard()?.crews ?? []).filter(({ id }) => rows.some(({ crew }) => crew === id));
  const mine = session.value.holder?.crew ?? "";
  const [chosen, setChosen] = useState<string | null>(null);
  const crew = chosen ?? (crews.some(({ id }) => id === mine) ? mine : "");
  const groups = grouped(forCrew(rows, crew), now, offsetOf(instant(now), zone()));
  const label = useLabel();
  const listed = groups.get("now") ?? [];
  const clear = listed.filter(({ module, alike }) => {
    const place = placeOfModule(module);
    return place !== null && alike.some(({ row, rooms }) => !heldBack(row, rooms, place, now, label));
  }).length;
  return (
    <Screen title={t("drying.list.title")} line={clear > 0 ? tn("drying.list.now", clear) : t(listed.length > 0 ? "drying.list.held_now" : "drying.list.none_now")} over={t("yard.back")} overHref={to.yard()} breadth="broad">
      {crews.length > 0 && <Choice label={t("drying.list.crew")} options={[{ key: "", label: t("drying.list.all") }, ...crews.map(({ id }) => ({ key: id, label: crewName(id) }))]} value={crew} onChange={setChosen} />}
      {groups.size === 0 && <p>{t("drying.when.nothing")}</p>}
      {[...groups].map(([key, modules]) => (
        <section key={key} class="ready-when">
          <h2>{t(`drying.when.${key}`)}</h2>
          <ul class="ready-modules">
            {modules.map((one) => <Module key={one.module} one={one} when={key} now={now} ofAll={crew === ""} />)}
          </ul>
        </section>
      ))}
    </Screen>
  );
}

function Module({ one, when: bucket, now, ofAll }: { one: OfModule; when: When; now: number; ofAll: boolean }) {
  const view = moduleView(one.module);
  const place = placeOfModule(one.module);
  if (!view || !place) return null;
  return (
    <li class="ready-module">
      <p class="ready-name">
        <a class="coat-link serial" href={to.coats(view.id)}>{view.serial}</a>
        <span class="second">{[bayOf(view), view.pickup ? t("yard.pickup", { time: when(view.pickup) }) : t("yard.no_pickup")].join(", ")}</span>
      </p>
      {one.alike.map((alike) => <Line key={`${alike.row.room} ${alike.row.surface} ${alike.row.do} ${alike.row.coat}`} view={view} place={place} alike={alike} bucket={bucket} now={now} ofAll={ofAll} />)}
    </li>
  );
}

interface LineProps {
  view: ModuleView;
  place: Place;
  alike: Alike;
  bucket: When;
  now: number;
  /** Of all crews: then each line says whose it is. */
  ofAll: boolean;
}

/** *Sand, then texture: Kitchen and Hall. Dry by the table since 9 am*. */
function Line({ view, place, alike: { row, rooms: alike }, bucket, now, ofAll }: LineProps) {
  const rooms = place.rooms.filter((room) => alike.includes(room));
  const painted = row.family === "primer" || row.family === "paint";
  const where = row.surface ? `${roomsInWords(view, rooms)}, ${wallWords(view, row.room, row.surface)}` : rooms.length === view.rooms.length && rooms.length > 2 ? t("coats.rooms_all") : roomsInWords(view, rooms);
  return (
    <div class="ready-line">
      <p>
        <b>{doWords(row)}</b> {where}
      </p>
      <p class={bucket === "now" ? "met" : bucket === "look" ? "late" : "second"}>{reliedWords(row, place, now)}</p>
      {ofAll && row.crew && <p class="second">{t("drying.list.of", { crew: crewName(row.crew) })}</p>}
      {row.bare.length > 0 && <BareWalls view={view} place={place} rooms={rooms} kind={row.family} />}
      {row.coat && bucket === "now" && <AirForbids place={place} rooms={rooms} kind={family(row.coat)} at={now} />}
      {row.coat && bucket === "now" && family(row.coat) === "joint" && rooms.some((room) => heatUnknown(place, room, now)) && <p class="late">{t("air.heat.ask_why")}</p>}
      {painted && bucket === "now" && <PaintAir place={place} rooms={rooms} at={now} />}
      {painted && <p><a class="coat-link" href={to.paint(view.id, row.room)} aria-label={t("drying.paint.of", { place: `${view.serial}, ${roomsInWords(view, [row.room])}` })}>{t("drying.paint.title")}</a></p>}
    </div>
  );
}

/** What to do: the coat that goes on, in the plant's own word where it says more than the verb. */
export function doWords(row: Pick<ReadyRow, "do" | "coat">): string {
  if (row.do === "sand" && row.coat) return t("drying.do.sand_then", { coat: coatInside(row.coat) });
  const verb = t(`drying.do.${row.do}`);
  if (!row.coat || row.do === "tape" || row.do === "texture" || row.coat === "prime") return verb;
  return t("drying.do.with", { do: verb, coat: coatInside(row.coat) });
}
