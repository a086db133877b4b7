import { Choice, Field, Pick } from "../../parts";
import { value, type Finish } from "../../rules";
import { say, t } from "../../words";
import { plans, standing } from "../common";
import { NO_FINISH, type FinishForm } from "./facts";

const LEVELS = ["0", "1", "2", "3", "4", "5"].map((key) => ({ key, label: key }));

interface FinishProps {
  finish: Record<string, FinishForm>;
  plan: string;
  wrong: Readonly<Record<string, string>>;
  onChange: (finish: Record<string, FinishForm>) => void;
}

/** What the walls should end up as: once for every room, and once more where a room differs. */
export function FinishFields({ finish, plan, wrong, onChange }: FinishProps) {
  const rooms = plans().find(({ id }) => id === plan)?.rooms ?? [];
  const nameOf = (room: string): string => (room === "*" ? t("manager.every_room") : (rooms.find(({ id }) => id === room)?.name ?? room));
  const order = ["*", ...rooms.map(({ id }) => id)];
  const given = [...order.filter((room) => finish[room]), ...Object.keys(finish).filter((room) => !order.includes(room))];
  const free = order.filter((room) => !finish[room]).map((key) => ({ key, label: nameOf(key) }));
  const takeOut = (room: string): void => onChange(Object.fromEntries(Object.entries(finish).filter(([one]) => one !== room)));
  return (
    <section class="block">
      <h2>{t("manager.field.finish")}</h2>
      {given.map((room) => (
        <OneFinish key={room} name={nameOf(room)} form={finish[room] ?? NO_FINISH} error={wrong[`finish ${room}`]} onChange={(form) => onChange({ ...finish, [room]: form })} onTakeOut={() => takeOut(room)} />
      ))}
      {free.length > 0 && <Pick label={t("manager.finish_for")} value="" options={free} onChange={(room) => room && onChange({ ...finish, [room]: finish["*"] ?? NO_FINISH })} />}
    </section>
  );
}

interface OneProps {
  name: string;
  form: FinishForm;
  error: string | undefined;
  onChange: (form: FinishForm) => void;
  onTakeOut: () => void;
}

function OneFinish({ name, form, error, onChange, onTakeOut }: OneProps) {
  const text = (field: "texture" | "paint" | "sheen") => <Field label={t(`manager.${field}`)} value={form[field]} offers={offers(field)} onInput={(typed) => onChange({ ...form, [field]: typed })} />;
  return (
    <div class="frame" role="group" aria-label={name}>
      <h3>{name}</h3>
      <Choice label={t("manager.level")} options={LEVELS} value={form.level || null} onChange={(level) => onChange({ ...form, level })} />
      {error && <p class="field-error" role="alert">{say(error)}</p>}
      <div class="in-row pair-fields">
        {text("texture")}
        {text("sheen")}
      </div>
      {text("paint")}
      <div class="key-row">
        <button type="button" class="key" onClick={onTakeOut}>
          {t("manager.take_out", { what: name })}
        </button>
      </div>
    </div>
  );
}

/** What other modules in the yard have. */
function offers(field: "texture" | "paint" | "sheen"): string[] {
  const all = standing().flatMap((view) => Object.values(value(view.module.heads, "finish") ?? {}) as Finish[]);
  return [...new Set(all.map((one) => one[field]).filter(Boolean))].sort();
}
