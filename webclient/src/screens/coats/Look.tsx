import { Choice, Field } from "../../parts";
import { to } from "../../route";
import { t } from "../../words";
import { coatName, mayWrite, placeLine, roomName, roomsInWords, Screen } from "../common";
import { DoneBy, doneByOf } from "../crew/DoneBy";
import { Ticks } from "../manage/Ticks";
import { wallWords } from "./sentences";
import { lookDrafts, pickedOf, tooSoon, whyNotLook, type Found, type Looking, type Seen } from "./looking";
import { Tried } from "./Stopped";
import type { Standing, TopCoat } from "./standing";
import type { Working } from "./working";

interface Row extends Seen {
  top: TopCoat;
}

/** Every coat that lies on top, room by room. */
const rowsOf = (stands: readonly Standing[], now: number): Row[] =>
  stands.flatMap(({ tops, rooms }) => tops.flatMap((top) => rooms.map((room) => ({ id: top.coat.id, room, top, before: top.clock.by_table === null || now < top.clock.by_table }))));

/** A look at what lies on top: not dry governs; dry before the table's time says why and what was tried. */
export function Look(of: Working) {
  const { view, stands, now, half, change } = of;
  const { looking, done } = half;
  const put = (part: Partial<Looking>): void => change({ looking: { ...looking, ...part } });
  const seen = rowsOf(stands, now);
  const why = whyNotLook(looking, seen);
  const rooms = [...new Set(pickedOf(looking, seen).flatMap(([, picked]) => picked))];
  const label = rooms.length === 0 ? t(`coats.found.${looking.found}`) : t(`coats.save.${looking.found}`, { rooms: roomsInWords(view, rooms) });
  const press = (): void => {
    const { doneBy, named } = looking.found === "sanded" ? doneByOf(done) : { doneBy: [], named: [] };
    void of.save([...named, ...lookDrafts(looking, seen, view.id, doneBy)], t("coats.looked", { what: label }));
  };
  const kinds: Found[] = mayWrite("coat.wet_sanded") ? ["wet", "dry", "sanded"] : ["wet", "dry"];
  const soon = looking.found === "dry" && tooSoon(looking, seen);
  return (
    <Screen problem={of.problem} title={t("coats.look")} line={placeLine(view)} over={t("coats.title")} overHref={to.coats(view.id)} onOver={of.leave} slabs={{ main: { label, onPress: press, why: why && t(`coats.why.${why}`) }, beside: { label: t("frame.never_mind"), onPress: of.leave } }}>
      <Choice<Found> label={t("coats.found")} options={kinds.map((key) => ({ key, label: t(`coats.found.${key}`) }))} value={looking.found} onChange={(found) => put({ found })} />
      <Picking of={of} rows={seen} put={put} />
      {looking.found === "sanded" && <p class="second">{t("coats.sanded_then")} {t("coats.caution")}</p>}
      {looking.found === "sanded" && <DoneBy done={done} timed={false} onChange={(next) => change({ done: next })} />}
      {soon && <p>{t("coats.dry_early")}</p>}
      {looking.found === "dry" && <Tried tried={looking.tried} onChange={(tried) => put({ tried })} />}
      {looking.found !== "sanded" && <Field label={t(soon ? "coats.dry_reason" : "coats.look_note")} value={looking.reason} onInput={(reason) => put({ reason })} lines={2} />}
      {looking.found !== "sanded" && <Meter looking={looking} put={put} />}
    </Screen>
  );
}

/** One row of rooms for each coat; a wall's own coat names its wall. */
function Picking({ of: { view, half }, rows, put }: { of: Working; rows: Row[]; put: (part: Partial<Looking>) => void }) {
  const coats = [...new Map(rows.map((row) => [row.id, row.top])).values()];
  const { picked } = half.looking;
  return (
    <>
      {coats.map(({ coat, surface }) => {
        const here = rows.filter(({ id }) => id === coat.id).map(({ room }) => room);
        const label = surface ? `${coatName(coat.coat)}, ${wallWords(view, here[0] ?? "", surface)}` : coatName(coat.coat);
        return (
          <div key={coat.id} class="coat-rooms">
            <Ticks label={label} options={here.map((key) => ({ key, label: roomName(view, key) }))} values={(picked[coat.id] ?? []).filter((room) => here.includes(room))} onChange={(rooms) => put({ picked: { ...picked, [coat.id]: rooms } })} />
          </div>
        );
      })}
    </>
  );
}

/** A meter's reading is kept with its scale; it ends nothing early. */
function Meter({ looking, put }: { looking: Looking; put: (part: Partial<Looking>) => void }) {
  const options = [{ key: "", label: t("coats.meter.none") }, { key: "gypsum", label: t("coats.meter.gypsum") }, { key: "wood", label: t("coats.meter.wood") }] as const;
  return (
    <>
      <Choice<Looking["scale"]> label={t("coats.meter")} options={options} value={looking.scale} onChange={(scale) => put({ scale })} />
      {looking.scale && <Field label={t("coats.meter_value")} value={looking.value} inputMode="decimal" onInput={(value) => put({ value })} />}
    </>
  );
}
