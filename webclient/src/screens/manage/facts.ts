/** A module's facts as a form holds them, and what of them has changed. */

import type { Finish, ModuleFacts, ModulePart } from "../../rules";
import { canonicalText, value } from "../../rules";
import { say, t } from "../../words";
import { fromWall, toWall } from "./zoned";
import { plans, when } from "../common";

export interface FinishForm {
  level: string;
  texture: string;
  paint: string;
  sheen: string;
}
export interface FactsForm {
  serial: string;
  home: string;
  order: string;
  model: string;
  programme: string;
  label: string;
  /** As the yard's clock shows it. */
  pickup: string;
  plan: string;
  mirrored: boolean;
  finish: Record<string, FinishForm>;
  /** Room -> its own coats, instead of what its finish asks for. */
  coats: ModuleFacts["coats"];
}
export const TEXTS = ["serial", "home", "order", "model", "label"] as const;
export const NO_FINISH: FinishForm = { level: "", texture: "", paint: "", sheen: "" };

/** The facts as they stand; a module that is yet to be added has none. */
export function formOf(module: ModulePart | null, zone: string): FactsForm {
  const heads = module?.heads ?? {};
  const pickup = value(heads, "pickup");
  const finish = Object.entries(value(heads, "finish") ?? {}).map(([room, one]) => [room, finishForm(one)] as const);
  return {
    serial: value(heads, "serial") ?? "",
    home: value(heads, "home") ?? "",
    order: value(heads, "order") ?? "",
    model: value(heads, "model") ?? "",
    programme: value(heads, "programme") ?? "",
    label: value(heads, "label") ?? "",
    pickup: pickup ? toWall(pickup, zone) : "",
    plan: value(heads, "plan") ?? "",
    mirrored: value(heads, "mirrored") ?? false,
    finish: Object.fromEntries(finish),
    coats: value(heads, "coats") ?? {},
  };
}

function finishForm(one: Partial<Finish>): FinishForm {
  return { level: one.level === undefined ? "" : String(one.level), texture: one.texture ?? "", paint: one.paint ?? "", sheen: one.sheen ?? "" };
}

/** What is filled in, as an entry says it; fields left empty are absent. */
function said(form: FactsForm, zone: string): Partial<ModuleFacts> {
  const facts: Partial<ModuleFacts> = { mirrored: form.mirrored };
  for (const field of TEXTS) facts[field] = form[field].trim();
  if (form.programme) facts.programme = form.programme as ModuleFacts["programme"];
  const pickup = form.pickup ? fromWall(form.pickup, zone) : null;
  if (pickup) facts.pickup = pickup;
  if (form.plan) facts.plan = form.plan;
  facts.coats = form.coats;
  facts.finish = Object.fromEntries(Object.entries(form.finish).map(([room, one]) => [room, finishOf(one)]));
  return facts;
}

function finishOf({ level, texture, paint, sheen }: FinishForm): Finish {
  return { level: Number(level), texture: texture.trim(), paint: paint.trim(), sheen: sheen.trim() };
}

/** Only the fields that differ from what stands: two people who change different things do not meet. */
export function changes(form: FactsForm, before: FactsForm, zone: string): Partial<ModuleFacts> {
  const [now, then] = [said(form, zone), said(before, zone)];
  const differs = (field: string): boolean => canonicalText(now[field as keyof ModuleFacts] ?? null) !== canonicalText(then[field as keyof ModuleFacts] ?? null);
  return Object.fromEntries(Object.entries(now).filter(([field]) => differs(field)));
}

/** What a new module's entry says: nothing for what nobody has filled in. */
export function added(form: FactsForm, zone: string): Partial<ModuleFacts> & Pick<ModuleFacts, "serial" | "home"> {
  const { serial = "", home = "", ...rest } = said(form, zone);
  const filled = Object.entries(rest).filter(([, one]) => one !== "" && one !== false && !(typeof one === "object" && Object.keys(one).length === 0));
  return { serial, home, ...Object.fromEntries(filled) };
}

/** Field -> key of the sentence that says what is wrong with it. */
export function problems(form: FactsForm, before: FactsForm, zone: string): Record<string, string> {
  const found: Record<string, string> = {};
  if (!form.serial.trim()) found["serial"] = "manager.serial_needed";
  if (!form.home.trim()) found["home"] = "manager.home_needed";
  if (form.pickup ? !fromWall(form.pickup, zone) : before.pickup) found["pickup"] = "manager.pickup_stays";
  for (const [room, one] of Object.entries(form.finish)) if (!one.level) found[`finish ${room}`] = "manager.level_needed";
  return found;
}

/** One fact as people say it. */
export function factInWords(field: string, fact: unknown, rooms: (key: string) => string): string {
  if (field === "pickup") return when(String(fact));
  if (field === "plan") return plans().find(({ id }) => id === fact)?.name ?? t("manager.plan_unknown");
  if (field === "mirrored") return t(fact ? "manager.mirrored_yes" : "manager.mirrored_no");
  if (field === "programme") return say(`manager.programme_${String(fact)}`);
  if (field === "finish") return Object.entries(fact as Record<string, Finish>).map(([room, one]) => `${rooms(room)}: ${finishWords(one)}`).join("; ") || t("manager.nothing");
  if (field === "coats") return Object.entries(fact as ModuleFacts["coats"]).map(([room, coats]) => `${rooms(room)}: ${coatsWords(coats)}`).join("; ") || t("manager.nothing");
  return String(fact) || t("manager.nothing");
}

/** The coats of a room's own list, in order. */
const coatsWords = (coats: ModuleFacts["coats"][string]): string => coats.map((coat) => say(`coats.name.${coat}`)).join(", ") || t("manager.nothing");

function finishWords(one: Partial<Finish>): string {
  const level = one.level === undefined ? "" : t("manager.level_n", { n: one.level });
  return [level, one.texture, one.paint, one.sheen].filter(Boolean).join(", ");
}
