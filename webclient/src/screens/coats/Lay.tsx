import { newId, readInstant } from "../../clock";
import { Choice, Field, Pick } from "../../parts";
import { to } from "../../route";
import { coatsOf, CURRENT, family, laidIn, seconds, tables, type CoatKey, type Material, type Thickness } from "../../rules";
import { say, t, tn } from "../../words";
import { coatInside, coatName, placeLine, roomName, roomsInWords, Screen, zone } from "../common";
import { DoneBy, doneByOf } from "../crew/DoneBy";
import { fromWall, toWall } from "../manage/zoned";
import { Ticks } from "../manage/Ticks";
import { PaintAir } from "../paint/PaintAir";
import { AirForbids, HeatAsk } from "../readings/Heat";
import { BareWalls } from "./BareWalls";
import { laidDrafts, roomsLaid, unready, whyNot, type Asks, type Laying } from "./laying";
import { PaintFields } from "./PaintFields";
import { Stopped } from "./Stopped";
import { undersOf } from "./under";
import { changedTo, type Working } from "./working";

/** What the form asks for, by the material and what the coat is. */
function asksOf({ coat, material }: Laying): Asks {
  const clock = tables(CURRENT).drying.materials[material].clock;
  const kind = family(coat);
  return { set: clock === "set", label: clock === "label", paint: kind === "paint" || kind === "primer" };
}

/** When it went on, as an instant: null for now, and for a time that cannot be. */
function laidAt({ earlier }: Laying, now: number): string | null {
  const told = earlier ? fromWall(earlier, zone()) : null;
  return told !== null && readInstant(told) / 1000 <= now ? told : null;
}

const coatKeys = Object.keys(tables(CURRENT).schedule.coats) as CoatKey[];

/** A coat goes on: which, where, of what. What is under it is looked at first. */
export function Lay(of: Working) {
  const { view, place, stands, now, half, change } = of;
  const { laying, done } = half;
  const put = (part: Partial<Laying>): void => change({ laying: { ...laying, ...part } });
  const earlier = laidAt(laying, now);
  const at = earlier === null ? now : seconds(earlier);
  const unders = undersOf(place, laying.coat, at);
  const asks = asksOf(laying);
  const why = whyNot(laying, unders, asks, earlier);
  const rooms = roomsLaid(laying, unders);
  const where = rooms.length === view.rooms.length ? t("coats.rooms_all") : rooms.length > 2 ? tn("coats.rooms", rooms.length) : roomsInWords(view, rooms);
  const press = (): void => {
    const { doneBy, named } = doneByOf(done);
    const said = t("coats.laid_now", { coat: coatName(laying.coat), rooms: roomsInWords(view, rooms) });
    void of.save([...named, ...laidDrafts(laying, asks, { module: view.id, id: newId(), unders, laidAt: earlier, doneBy })], said);
  };
  const label = rooms.length === 0 ? t("coats.lay", { coat: coatName(laying.coat) }) : t("coats.lay_n", { coat: coatName(laying.coat), rooms: where });
  return (
    <Screen problem={of.problem} title={t("coats.lay_any")} line={placeLine(view)} over={t("coats.title")} overHref={to.coats(view.id)} onOver={of.leave} slabs={{ main: { label, onPress: press, why: why && t(`coats.why.${why}`) }, beside: { label: t("frame.never_mind"), onPress: of.leave } }}>
      <Pick label={t("coats.which")} value={laying.coat} options={coatKeys.map((key) => ({ key, label: coatName(key) }))} onChange={(coat) => put(changedTo(coat as CoatKey, stands))} />
      <Rooms laying={laying} all={view.rooms.map(({ key }) => ({ key, label: roomName(view, key) }))} put={put} />
      <Stopped view={view} place={place} laying={laying} wet={unready(laying, unders)} at={at} put={put} />
      <Again view={view} place={place} coat={laying.coat} rooms={rooms} />
      <BareWalls view={view} place={place} rooms={rooms} kind={family(laying.coat)} />
      <AirForbids place={place} rooms={rooms} kind={family(laying.coat)} at={at} />
      {asks.paint && rooms.length > 0 && <PaintAir place={place} rooms={rooms} at={at} figures />}
      {family(laying.coat) === "joint" && rooms[0] && <HeatAsk module={view.id} serial={view.serial} place={place} room={rooms[0]} at={at} />}
      <Made laying={laying} asks={asks} put={put} />
      {asks.paint && <PaintFields view={view} place={place} laying={laying} put={put} />}
      <When laying={laying} now={now} put={put} />
      <DoneBy done={done} timed={false} onChange={(next) => change({ done: next })} />
    </Screen>
  );
}

type Put = (part: Partial<Laying>) => void;

/** A room that has it already is named: *all rooms* is one tap, and a finished one is easily among them. */
function Again({ view, place, coat, rooms }: Pick<Working, "view" | "place"> & { coat: CoatKey; rooms: string[] }) {
  const there = rooms.filter((room) => coatsOf(place, room).includes(coat) && laidIn(place, room).has(coat));
  return there.length > 0 ? <p class="late">{t("coats.again", { coat: coatInside(coat), rooms: roomsInWords(view, there) })}</p> : null;
}

/** The whole module with exceptions, or a few rooms: all or none by one key. */
function Rooms({ laying, all, put }: { laying: Laying; all: { key: string; label: string }[]; put: Put }) {
  const whole = laying.rooms.length === all.length;
  return (
    <div class="coat-rooms">
      <Ticks label={t("coats.where")} options={all} values={laying.rooms} onChange={(rooms) => put({ rooms })} />
      <button type="button" class="key" onClick={() => put({ rooms: whole ? [] : all.map(({ key }) => key) })}>
        {t(whole ? "coats.no_rooms" : "coats.all_rooms")}
      </button>
    </div>
  );
}

/** What it is made of, and what its bag or label says. */
function Made({ laying, asks, put }: { laying: Laying; asks: Asks; put: Put }) {
  const { materials, thickness } = tables(CURRENT).drying;
  const material = (Object.keys(materials) as Material[]).map((key) => ({ key, label: say(`coats.material.${key}`) }));
  const thick = (Object.keys(thickness) as Thickness[]).map((key) => ({ key, label: t(`coats.thickness.${key}`) }));
  return (
    <>
      <Pick label={t("coats.material")} value={laying.material} options={material} onChange={(key) => put({ material: key as Material })} />
      {asks.set && <Field label={t("coats.set_minutes")} value={laying.set} inputMode="numeric" offers={["20", "45", "90"]} onInput={(set) => put({ set })} />}
      {asks.label && <Field label={t("coats.label_minutes")} value={laying.label} inputMode="numeric" onInput={(label) => put({ label })} />}
      {!asks.paint && <Choice<Thickness> label={t("coats.thickness")} options={thick} value={laying.thickness} onChange={(key) => put({ thickness: key })} />}
    </>
  );
}

function When({ laying, now, put }: { laying: Laying; now: number; put: Put }) {
  const options = [{ key: "now", label: t("coats.just_now") }, { key: "earlier", label: t("coats.earlier") }] as const;
  const wall = toWall(new Date(now * 1000).toISOString(), zone());
  return (
    <>
      <Choice<"now" | "earlier"> label={t("coats.when")} options={options} value={laying.earlier ? "earlier" : "now"} onChange={(key) => put({ earlier: key === "now" ? "" : wall })} />
      {laying.earlier && <Field label={t("coats.earlier_when")} type="datetime-local" value={laying.earlier} onInput={(earlier) => put({ earlier: earlier || wall })} />}
    </>
  );
}
