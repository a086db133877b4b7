/** The plant's own words and order for its coats, as a form holds them. Pure. */

import { canonicalText, CURRENT, tables, type CoatKey, type Family, type YardCoats } from "../../rules";

/** What goes on between the joints and the paint, in the plant's order. */
export const MIDDLES = ["texture prime", "prime texture", "prime texture prime_2", "texture prime prime_2"] as const;
export type Middle = (typeof MIDDLES)[number];
export interface CoatsForm {
  names: Partial<Record<CoatKey, string>>;
  /** Null where the yard's order is none of these. */
  middle: Middle | null;
  paints: 1 | 2;
  crews: Partial<Record<Family, string>>;
  learned: boolean;
}
export const FAMILIES: readonly Family[] = ["joint", "texture", "primer", "paint"];

const schedule = () => tables(CURRENT).schedule;
export const coatKeys = (): CoatKey[] => Object.keys(schedule().coats) as CoatKey[];
const familyOf = (coat: CoatKey): Family => schedule().coats[coat].family;
const joints = (): CoatKey[] => schedule().order.filter((coat) => familyOf(coat) === "joint");

export function formOfCoats(coats: YardCoats): CoatsForm {
  const order = coats.order?.length ? coats.order : schedule().order;
  const middle = order.filter((coat) => ["texture", "primer"].includes(familyOf(coat))).join(" ");
  return {
    names: coats.names ?? {},
    middle: MIDDLES.find((one) => one === middle) ?? null,
    paints: order.includes("paint_2") ? 2 : 1,
    crews: coats.crews ?? {},
    learned: coats.learned !== false,
  };
}

/** What the form says; an order that it cannot show stays as it is. */
export function coatsOfForm(form: CoatsForm, before: YardCoats): YardCoats {
  const names = filled(form.names);
  const crews = filled(form.crews);
  const order = orderOf(form, before);
  return {
    ...(order.length > 0 ? { order } : {}),
    ...(Object.keys(names).length > 0 ? { names } : {}),
    ...(Object.keys(crews).length > 0 ? { crews } : {}),
    ...(form.learned ? {} : { learned: false }),
  };
}

function orderOf({ middle, paints }: CoatsForm, before: YardCoats): CoatKey[] {
  if (middle === null) return before.order ?? [];
  const found = [...joints(), ...(middle.split(" ") as CoatKey[]), ...(["paint_1", "paint_2"] as const).slice(0, paints)];
  return canonicalText(found) === canonicalText(schedule().order) && !before.order?.length ? [] : found;
}

function filled<K extends string>(fields: Partial<Record<K, string>>): Partial<Record<K, string>> {
  const told = Object.entries(fields as Record<string, string>).map(([key, text]) => [key, text.trim()] as const);
  return Object.fromEntries(told.filter(([, text]) => text)) as Partial<Record<K, string>>;
}

export const sameCoats = (one: YardCoats, other: YardCoats): boolean => canonicalText({ ...one }) === canonicalText({ ...other });
