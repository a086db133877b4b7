import { useState } from "preact/hooks";
import { newId } from "../../clock";
import type { Draft } from "../../journal";
import { Choice, Field } from "../../parts";
import type { Answer, AnswerValue } from "../../rules";
import { t } from "../../words";
import { me, roomName, useKept, type ModuleView } from "../common";

interface ExceptionsProps {
  view: ModuleView;
  rooms: string[];
  sheet: string;
  line: string;
  /** What a *no* is written up as. */
  defect: string;
  about: string;
  /** Resolves to false when nothing was kept: then what is half said stays. */
  onSave: (drafts: Draft[]) => Promise<boolean>;
}
type Row = { value: AnswerValue; reason: string };

/** *All right except…*: each room yes, no or does not apply; a no makes an item in the same save. */
export function Exceptions({ view, rooms, sheet, line, defect, about, onSave }: ExceptionsProps) {
  const { value: rows, keep, drop } = useKept<Record<string, Row>>(`sheet ${me()} ${about} ${line}`, {});
  const [missing, setMissing] = useState(false);
  const rowOf = (room: string): Row => rows[room] ?? { value: "yes", reason: "" };
  const change = (room: string, part: Partial<Row>): void => void keep((before) => ({ ...before, [room]: { ...(before[room] ?? rowOf(room)), ...part } }));
  const excepted = rooms.filter((room) => rowOf(room).value !== "yes");
  const save = async (): Promise<void> => {
    if (excepted.some((room) => !rowOf(room).reason.trim())) return setMissing(true);
    const kept = await onSave(entries(excepted.map((room) => ({ room, ...rowOf(room), reason: rowOf(room).reason.trim() })), { view, rooms, sheet, line, defect, about }));
    if (kept) drop();
  };
  return (
    <div class="block">
      {rooms.map((room) => (
        <OfRoom key={room} name={room === "module" ? t("yard.module_whole") : roomName(view, room)} row={rowOf(room)} missing={missing} onChange={(part) => change(room, part)} />
      ))}
      <button type="button" class="key key-full" onClick={() => void save()}>
        {t("sheets.save_line")}
      </button>
    </div>
  );
}

/** One room's answer; anything but yes wants a reason. */
function OfRoom({ name, row, missing, onChange }: { name: string; row: Row; missing: boolean; onChange: (part: Partial<Row>) => void }) {
  const options = (["yes", "no", "na"] as const).map((key) => ({ key, label: t(`sheets.${key}`) }));
  return (
    <div class="block">
      <Choice<AnswerValue> label={name} options={options} value={row.value} onChange={(value) => onChange({ value })} />
      {row.value !== "yes" && (
        <Field
          label={t(row.value === "no" ? "sheets.what_wrong" : "sheets.reason")}
          value={row.reason}
          onInput={(reason) => onChange({ reason })}
          error={missing && !row.reason.trim() ? t("sheets.reason_needed") : null}
        />
      )}
    </div>
  );
}

/** The item of each *no*, then the answer that names it: one save. */
function entries(excepted: ({ room: string } & Row)[], of: Omit<ExceptionsProps, "onSave">): Draft[] {
  const fallback = of.view.rooms[0]?.key ?? "module";
  const items: Draft[] = [];
  const except = excepted.map((row): { room: string } & Answer => {
    if (row.value !== "no") return row;
    const item = newId();
    const room = row.room === "module" ? fallback : row.room;
    items.push({ kind: "item.logged", module: of.view.id, about: item, body: { defect: of.defect, room, surface: "floor", light: "normal", wish: row.reason } });
    return { ...row, item };
  });
  return [...items, { kind: "sheet.answered", module: of.view.id, about: of.about, body: { sheet: of.sheet, line: of.line, rooms: of.rooms, rest: "yes", except } }];
}
