import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { DryStrip, offsetOf, shortTime } from "../../parts";
import { to } from "../../route";
import { family, instant, type CoatPart, type Family, type Place } from "../../rules";
import { language, t, tn } from "../../words";
import { coatName, roomsInWords, zone, type ModuleView } from "../common";
import { BareWalls } from "./BareWalls";
import { CoatStrip } from "./CoatStrip";
import { More, type VoidCoat } from "./More";
import { nextWords, stateWords, wallWords } from "./sentences";
import { isDry, isDrying, sortedCoats } from "./sorted";
import { stripOf, topCoat, type Standing, type TopCoat } from "./standing";

interface GroupProps {
  view: ModuleView;
  place: Place;
  stand: Standing;
  now: number;
  /** Null where the holder may not look. */
  onLook: ((coats: CoatPart[], rooms: string[]) => void) | null;
  onVoid: VoidCoat | null;
}

/** Before these the air is looked at too. */
const PAINTED: readonly Family[] = ["primer", "paint"];

/** Rooms that stand alike: what asks for somebody in full, what is next, and all that is finished in one line that opens. */
export function Group(of: GroupProps) {
  const { view, place, stand, now } = of;
  const [opened, setOpened] = useState(false);
  const [more, setMore] = useState(false);
  const [room = ""] = stand.rooms;
  const { asks, under, done, leads, finished } = sortedCoats(place, stand, now);
  const next = finished ? null : nextWords(stand);
  const doneWords = finished ? t("coats.line.done") : tn("coats.done_line", done.count, { coat: coatName(done.last) });
  return (
    <section class="coat-group">
      <h2>{roomsInWords(view, stand.rooms)}</h2>
      {stand.tops.length === 0 && <p class="coat-state">{t("coats.state.bare")}</p>}
      {asks.map((top) => <Top key={top.coat.id} of={of} top={top} full={more || isDrying(top)} />)}
      {under.length > 0 && <Older view={view} place={place} room={room} coats={under} now={now} />}
      {!finished && !opened && leads.map((top) => (
        <Fragment key={top.coat.id}>
          {top.surface && <h3>{wallWords(view, room, top.surface)}</h3>}
          <p class="coat-state met">{stateWords(top, room, null).words}</p>
        </Fragment>
      ))}
      {next && <p class={next.tone === "met" ? "met strong" : "strong"}>{next.words}</p>}
      {stand.next && <BareWalls view={view} place={place} rooms={stand.rooms} kind={family(stand.next)} />}
      {done.count > 0 && (
        <button type="button" class={`surface-key coat-done${finished ? " met strong" : ""}`} aria-label={inRooms(of, doneWords)} aria-expanded={opened} onClick={() => setOpened(!opened)}>
          {doneWords}
        </button>
      )}
      {opened && (
        <div class="coat-finished">
          {done.tops.map((top) => <Top key={top.coat.id} of={of} top={top} full={more} />)}
          {done.older.length > 0 && <Older view={view} place={place} room={room} coats={done.older} now={now} />}
        </div>
      )}
      {stand.tops.length > 0 && <Keys of={of} short={leads.length > 0 && !opened} more={more} onMore={() => setMore(!more)} />}
    </section>
  );
}

/** One coat with its wall, where it is a wall's own. */
function Top({ of: { view, stand, now }, top, full }: { of: GroupProps; top: TopCoat; full: boolean }) {
  const [room = ""] = stand.rooms;
  return (
    <div class="coat-top">
      {top.surface && <h3>{wallWords(view, room, top.surface)}</h3>}
      <CoatStrip top={top} room={room} next={top.surface ? null : stand.next} now={now} full={full} />
    </div>
  );
}

/** The same key stands in each group: who hears the keys alone hears whose it is. */
const inRooms = ({ view, stand }: Pick<GroupProps, "view" | "stand">, words: string): string => t("coats.key_of", { words, rooms: roomsInWords(view, stand.rooms) });

/** What can be done here, and what else is known. `short`: nothing asks for anybody, only what comes next has its key. */
function Keys({ of, of: { view, stand, onLook, onVoid }, short, more, onMore }: { of: GroupProps; short: boolean; more: boolean; onMore: () => void }) {
  const [room = ""] = stand.rooms;
  const painted = stand.next !== null && PAINTED.includes(family(stand.next));
  const asked = t(painted ? "yard.before_paint" : "drying.help.title");
  const before = (painted || !stand.tops.every(isDry)) && <a class="key key-link" href={to.paint(view.id, room)} aria-label={inRooms(of, asked)}>{asked}</a>;
  if (short) return before ? <div class="key-row">{before}</div> : null;
  return (
    <>
      <div class="key-row">
        {onLook && <button type="button" class="key" aria-label={inRooms(of, t("coats.look_here"))} onClick={() => onLook(stand.tops.map(({ coat }) => coat), stand.rooms)}>{t("coats.look_here")}</button>}
        {stand.tops.some(isDrying) && <a class="key key-link" href={to.air(view.id)} aria-label={inRooms(of, t("yard.read_air"))}>{t("yard.read_air")}</a>}
        {before}
        <button type="button" class="key" aria-label={inRooms(of, t("coats.more"))} aria-expanded={more} onClick={onMore}>{t("coats.more")}</button>
      </div>
      {more && stand.tops.map((top) => <More key={top.coat.id} view={view} top={top} rooms={stand.rooms} onVoid={onVoid} />)}
    </>
  );
}

/** What lies under it, each as a low strip with its name and when it went on. */
function Older({ view, place, room, coats, now }: { view: ModuleView; place: Place; room: string; coats: CoatPart[]; now: number }) {
  return (
    <ul class="coat-older" aria-label={t("coats.under")}>
      {coats.map((coat) => {
        const top = topCoat(place, room, coat.surface, coat, now);
        const name = coat.surface ? `${coatName(coat.coat)}, ${wallWords(view, room, coat.surface)}` : coatName(coat.coat);
        const laid = shortTime(coat.laid, instant(now), zone(), language.value);
        return (
          <li key={coat.id}>
            <span>{name}</span>
            <DryStrip short strip={stripOf(top, room, now, offsetOf(instant(top.clock.laid), zone()))} zone={zone()} said={`${name}. ${t("coats.said.laid", { time: laid })}`} />
            <span class="second">{laid}</span>
          </li>
        );
      })}
    </ul>
  );
}
