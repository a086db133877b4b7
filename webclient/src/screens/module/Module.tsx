import { useState } from "preact/hooks";
import { drawn, write } from "../../journal";
import { countOf, Field, StateCounts } from "../../parts";
import { newId } from "../../clock";
import { go, to } from "../../route";
import { CURRENT, tables } from "../../rules";
import { language, say, t } from "../../words";
import { gateOf, has, inRoom, marked, moduleView, nameOf, placeLine, Screen, told, when, type ModuleView } from "../common";
import { CoatsRow } from "../coats/CoatLine";
import { AirRow } from "../readings/AirRow";
import { Standing } from "../yard/Yard";

/** One module: its rooms, its sheets, what stops it. */
export function Module({ id }: { id: string }) {
  drawn(id);
  const view = moduleView(id);
  if (!view) return <Gone />;
  const cleared = view.items.filter((item) => item.state === "cleared");
  const first = cleared[0] && cleared[0].heads.spot?.at(-1)?.[0].room;
  const stops = { label: t("yard.stops"), onPress: () => go(to.gate(id)) };
  const recheck = has("inspector") && first ? { label: t("yard.recheck_n", { n: cleared.length }), onPress: () => go(to.recheck(id, first)) } : null;
  return (
    <Screen title={<span class="serial">{view.serial}</span>} line={placeLine(view, false)} over={t("yard.back")} overHref={to.yard()} slabs={recheck ? { main: recheck, beside: stops } : { main: stops }}>
      <p>
        <Standing view={view} />
      </p>
      <CoatsRow view={view} />
      <AirRow view={view} />
      <section class="block">
        <h2>{t("yard.rooms")}</h2>
        <ul class="rows">
          {view.rooms.map((room) => (
            <li key={room.key}>
              <a class="module-row" href={to.room(id, room.key)}>
                <b>{room.name}</b>
                <span class="second">{room.plan ? "" : t("yard.not_measured")}</span>
                <span class="wide">
                  <StateCounts counts={countOf(inRoom(view, room.key).map(marked))} />
                </span>
              </a>
            </li>
          ))}
        </ul>
        {(has("inspector") || has("manager")) && <AddRoom view={view} />}
      </section>
      <Sheets view={view} />
      <section class="block">
        {(has("manager") || has("shipping")) && <a class="key key-link" href={to.manage("module", id)}>{t("yard.manage_module")}</a>}
        <a class="key key-link" href={`/api/modules/${id}/packet.pdf?lang=${language.value}`} target="_blank" rel="noopener">
          {t("yard.packet")}
        </a>
        <p class="second">{t("yard.packet_needs_signal")}</p>
      </section>
    </Screen>
  );
}

export function Gone() {
  return (
    <Screen title={t("yard.back")} over={t("yard.back")} overHref={to.yard()}>
      <p>{t("yard.gone")}</p>
    </Screen>
  );
}

function Sheets({ view }: { view: ModuleView }) {
  return (
    <section class="block">
      <h2>{t("yard.sheets")}</h2>
      <ul class="rows">
        {Object.keys(tables(CURRENT).sheets).map((key) => {
          const sheet = view.sheets.find((one) => one.sheet === key);
          const signed = sheet?.sign && t("yard.sheet_signed", { name: nameOf(sheet.sign.by), time: when(sheet.sign.time) });
          return (
            <li key={key}>
              <a class="module-row" href={to.sheet(view.id, key)}>
                <b>{say(`yard.sheet.${key}`)}</b>
                <span class={`wide ${sheet?.stale ? "late" : signed ? "met" : "second"}`}>{sheet?.stale ? t("yard.sheet_stale") : (signed ?? t("yard.sheet_open"))}</span>
              </a>
            </li>
          );
        })}
      </ul>
      <p class="second">{gateOf(view).holds.length === 0 ? t("holds.none") : ""}</p>
    </section>
  );
}

function AddRoom({ view }: { view: ModuleView }) {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState("");
  if (!open) {
    return (
      <button type="button" class="key" onClick={() => setOpen(true)}>
        {t("yard.add_room")}
      </button>
    );
  }
  const save = async (): Promise<void> => {
    if (!name.trim()) return;
    const key = `room-${newId().slice(-8)}`;
    await write([{ kind: "room.added", module: view.id, about: view.id, body: { room: key, name: name.trim() } }]);
    told.value = null;
    setOpen(false);
    go(to.room(view.id, key));
  };
  return (
    <form
      class="block"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <Field label={t("yard.room_name")} value={name} onInput={setName} />
      <button class="key key-full" type="submit">
        {t("yard.room_save")}
      </button>
    </form>
  );
}
