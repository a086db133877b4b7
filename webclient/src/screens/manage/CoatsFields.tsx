import { Pick } from "../../parts";
import { CURRENT, tables, type CoatKey } from "../../rules";
import { t } from "../../words";
import { coatName, plans, yard } from "../common";
import { Ticks } from "./Ticks";

interface CoatsProps {
  coats: Record<string, CoatKey[]>;
  plan: string;
  onChange: (coats: Record<string, CoatKey[]>) => void;
}

/** The plant's coats in its order, without what only rework lays. */
function inOrder(): CoatKey[] {
  const order = yard()?.coats?.order ?? [];
  const table = tables(CURRENT).schedule;
  const own = order.length > 0 ? order : table.order;
  const rest = (Object.keys(table.coats) as CoatKey[]).filter((coat) => !own.includes(coat) && coat !== "fill" && coat !== "touch_up");
  return [...own, ...rest];
}

/** Which coats this module gets, where they differ from what its finish asks for: for every room, or for one. */
export function CoatsFields({ coats, plan, onChange }: CoatsProps) {
  const rooms = plans().find(({ id }) => id === plan)?.rooms ?? [];
  const nameOf = (room: string): string => (room === "*" ? t("manager.every_room") : (rooms.find(({ id }) => id === room)?.name ?? room));
  const order = ["*", ...rooms.map(({ id }) => id)];
  const given = [...order.filter((room) => coats[room]), ...Object.keys(coats).filter((room) => !order.includes(room))];
  const free = order.filter((room) => !coats[room]).map((key) => ({ key, label: nameOf(key) }));
  const takeOut = (room: string): void => onChange(Object.fromEntries(Object.entries(coats).filter(([one]) => one !== room)));
  return (
    <section class="block">
      <h2>{t("plant.module_coats")}</h2>
      <p class="second">{t("plant.module_coats_hint")}</p>
      {given.map((room) => (
        <div key={room} class="frame coat-rooms" role="group" aria-label={nameOf(room)}>
          <Ticks label={nameOf(room)} options={inOrder().map((key) => ({ key, label: coatName(key) }))} values={coats[room] ?? []} onChange={(values) => onChange({ ...coats, [room]: values as CoatKey[] })} />
          <button type="button" class="key" onClick={() => takeOut(room)}>{t("manager.take_out", { what: nameOf(room) })}</button>
        </div>
      ))}
      {free.length > 0 && <Pick label={t("plant.module_coats_for")} value="" options={free} onChange={(room) => room && onChange({ ...coats, [room]: coats["*"] ?? [] })} />}
    </section>
  );
}
