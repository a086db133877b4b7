import { useState } from "preact/hooks";
import { DryStrip, faceOf, offsetOf, shortTime, surfaceInWords } from "../../parts";
import { to } from "../../route";
import { family, instant, type CoatPart, type CoatSurface, type Family, type Place } from "../../rules";
import { language, t } from "../../words";
import { coatName, roomsInWords, zone, type ModuleView } from "../common";
import { CoatStrip } from "./CoatStrip";
import { More, type VoidCoat } from "./More";
import { nextWords } from "./sentences";
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

/** Rooms that stand alike: what is on top in full, what lies under it short, and what is next. */
export function Group({ view, place, stand, now, onLook, onVoid }: GroupProps) {
  const [open, setOpen] = useState(false);
  const [room = ""] = stand.rooms;
  const next = nextWords(stand);
  const painted = stand.next !== null && PAINTED.includes(family(stand.next));
  return (
    <section class="coat-group">
      <h2>{roomsInWords(view, stand.rooms)}</h2>
      {stand.tops.length === 0 && <p>{t("coats.state.bare")}</p>}
      {stand.tops.map((top) => (
        <div key={top.coat.id} class="coat-top">
          {top.surface && <h3>{wallWords(view, room, top.surface)}</h3>}
          <CoatStrip top={top} room={room} next={top.surface ? null : stand.next} now={now} full={open || !isDry(top)} />
        </div>
      ))}
      {next && <p class={next.tone === "met" ? "met strong" : "strong"}>{next.words}</p>}
      {stand.older.length > 0 && <Older view={view} place={place} room={room} coats={stand.older} now={now} />}
      {stand.tops.length > 0 && (
        <div class="key-row">
          {onLook && <button type="button" class="key" onClick={() => onLook(stand.tops.map(({ coat }) => coat), stand.rooms)}>{t("coats.look_here")}</button>}
          <a class="key key-link" href={to.air(view.id)}>{t("yard.read_air")}</a>
          {(painted || !stand.tops.every(isDry)) && <a class="key key-link" href={to.paint(view.id, room)}>{t(painted ? "yard.before_paint" : "drying.help.title")}</a>}
          <button type="button" class="key" aria-expanded={open} onClick={() => setOpen(!open)}>{t("coats.more")}</button>
        </div>
      )}
      {open && stand.tops.map((top) => <More key={top.coat.id} view={view} top={top} rooms={stand.rooms} onVoid={onVoid} />)}
    </section>
  );
}

/** Its air is of no more use, and shown only when asked for. */
const isDry = ({ clock }: TopCoat): boolean => clock.state === "ready" || clock.state === "dry";

/** *Wall B, mirror wall*. */
export function wallWords(view: ModuleView, key: string, surface: CoatSurface): string {
  const plan = view.rooms.find((one) => one.key === key)?.plan;
  return surfaceInWords(surface, (plan && faceOf(plan as never, surface, view.mirrored)?.sight) || "");
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
