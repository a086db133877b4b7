import { useState } from "preact/hooks";
import { drawn, write, type Draft } from "../../journal";
import { to } from "../../route";
import { CURRENT, openCells, sheetId, tables, undecided, values, type Answer, type Cells, type SheetPart, type SheetRow } from "../../rules";
import { say, t, tn } from "../../words";
import { mayWrite, moduleView, nameOf, numbers, placeLine, roomName, Screen, told, useDrawn, useSaving, when, type ModuleView } from "../common";
import { Gone } from "../module/Module";
import { Exceptions } from "./Exceptions";

/** A sheet as data: each line answered by room, signed at the end. A new sheet needs no code. */
export function Sheet({ module, sheet }: { module: string; sheet: string }) {
  drawn(module);
  const view = moduleView(module);
  const row = tables(CURRENT).sheets[sheet];
  return view && row ? <Answering view={view} name={sheet} row={row} /> : <Gone />;
}

function Answering({ view, name, row }: { view: ModuleView; name: string; row: SheetRow }) {
  const { problem, saving } = useSaving();
  const id = sheetId(view.id, name);
  const sheet = view.sheets.find((one) => one.id === id) ?? null;
  const rooms = view.rooms.map((room) => room.key);
  const missing = openCells(name, sheet?.cells ?? {}, rooms, CURRENT).length;
  const title = say(`yard.sheet.${name}`);
  const shown = useDrawn({ part: "sheet", id });
  const save = (drafts: Draft[], said: string): Promise<boolean> =>
    saving(async () => {
      await write(drafts, [], { drawn: shown });
      told.value = said;
    }, said);
  const mayAnswer = mayWrite("sheet.answered", { sheet: name });
  const why = !mayWrite("sheet.signed", { sheet: name }) ? t("sheets.why_role") : missing > 0 ? tn("sheets.why_unanswered", missing) : sheet?.sign ? t("sheets.why_signed") : null;
  const sign = { label: t(sheet?.stale ? "sheets.sign_again" : "sheets.sign", { sheet: title }), onPress: () => void save([{ kind: "sheet.signed", module: view.id, about: id, body: { sheet: name } }], t("sheets.signed_now")), why };
  return (
    <Screen problem={problem} title={title} line={placeLine(view)} over={view.serial} overHref={to.module(view.id)} slabs={{ main: sign }}>
      {sheet?.sign && <p class="met"><b>{t("sheets.signed", { name: nameOf(sheet.sign.by), time: when(sheet.sign.time) })}</b></p>}
      {sheet?.stale && <Changed view={view} name={name} sheet={sheet} />}
      {Object.entries(row.lines).map(([line, spec]) => (
        <Line key={line} view={view} name={name} id={id} line={line} spec={spec} sheet={sheet} may={mayAnswer} onSave={save} />
      ))}
      <p class="second">{t("sheets.ladder")}</p>
    </Screen>
  );
}

function Changed({ view, name, sheet }: { view: ModuleView; name: string; sheet: SheetPart }) {
  const stale = sheet.stale;
  if (!stale) return null;
  const what = stale.line !== undefined ? say("holds.sheet_stale.line", { line: say(`sheets.${name}.${stale.line}`) }) : say("holds.sheet_stale.item", { number: stale.number ?? "", room: roomName(view, stale.room ?? "") });
  return (
    <p class="late">
      <b>{t("sheets.changed")}</b> {what} ({nameOf(stale.by)}, {when(stale.time)})
    </p>
  );
}

interface LineProps {
  view: ModuleView;
  name: string;
  id: string;
  line: string;
  spec: SheetRow["lines"][string];
  sheet: SheetPart | null;
  may: boolean;
  onSave: (drafts: Draft[], said: string) => Promise<boolean>;
}

function Line({ view, name, id, line, spec, sheet, may, onSave }: LineProps) {
  const [open, setOpen] = useState(false);
  const rooms = spec.by_room ? view.rooms.map((room) => room.key) : ["module"];
  const cells = sheet?.cells[line] ?? {};
  const title = say(`sheets.${name}.${line}`);
  const allRight = (): void => void onSave([{ kind: "sheet.answered", module: view.id, about: id, body: { sheet: name, line, rooms, rest: "yes", except: [] } }], title);
  return (
    <section class="sheet-line">
      <h2>{title}</h2>
      <Answers view={view} rooms={rooms} cells={cells} />
      {may && (
        <div class="key-row">
          <button type="button" class="key" onClick={allRight}>{t(spec.by_room ? "sheets.all_right" : "sheets.all_right_module")}</button>
          <button type="button" class="key" aria-expanded={open} onClick={() => setOpen(!open)}>{t(spec.by_room ? "sheets.except" : "sheets.no_key")}</button>
        </div>
      )}
      {open && may && (
        <Exceptions
          view={view}
          rooms={rooms}
          sheet={name}
          line={line}
          defect={spec.defect}
          about={id}
          onSave={async (drafts) => {
            const kept = await onSave(drafts, title);
            if (kept) setOpen(false);
            return kept;
          }}
        />
      )}
    </section>
  );
}

/** How a line stands, in one or two sentences. */
function Answers({ view, rooms, cells }: { view: ModuleView; rooms: string[]; cells: Cells[string] }) {
  const where = (room: string): string => (room === "module" ? t("yard.module_whole") : roomName(view, room));
  const open = rooms.filter((room) => !cells[room]);
  const yes = rooms.filter((room) => cells[room] && values(cells, room).every((answer) => answer.value === "yes"));
  const rest = rooms.filter((room) => cells[room] && !yes.includes(room));
  return (
    <>
      {open.length > 0 && <p class="late">{open.length === rooms.length ? t("sheets.unanswered") : t("sheets.unanswered_rooms", { rooms: open.map(where).join(", ") })}</p>}
      {yes.length > 0 && <p class="met">{rooms.length === 1 ? t("sheets.yes") : t("sheets.all_yes", { n: yes.length })}</p>}
      {rest.map((room) => (
        <p key={room}>
          {where(room)}: {values(cells, room).map((answer) => answerWords(view, answer)).join(" / ")}
          {undecided(cells).includes(room) && <b class="late"> {t("sheets.two_answers")}</b>}
        </p>
      ))}
    </>
  );
}

function answerWords(view: ModuleView, answer: Answer): string {
  const item = answer.item ? view.items.find((one) => one.id === answer.item) : null;
  const words = [t(`sheets.${answer.value}`), answer.reason, item ? t("sheets.made_item", { n: numbers([item.number]) }) : ""];
  return words.filter(Boolean).join(", ");
}
