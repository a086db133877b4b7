/** Who may say what. Judged where an entry is born and again, on the server's records, where it is taken. */

import { own } from "./own";
import type { Step } from "./types";
import { tables } from "./vocabulary";

/**
 * Null when a person (its part) may write this entry; else the reason key.
 *
 * `existing` is the part that the entry is about, where there is one.
 */
export function may(
  person: { readonly id?: string; readonly roles: readonly string[] } | null,
  kind: string,
  body: object,
  existing: object | null,
  version: number,
): Step {
  const row = own(tables(version).kinds, kind);
  if (row === undefined) return "unknown_kind";
  const roles = new Set(person ? person.roles : []);
  let allowed = row.who;
  if (kind === "sheet.answered" || kind === "sheet.signed") {
    const sheet = own(tables(version).sheets, String((body as { sheet?: unknown }).sheet));
    if (sheet === undefined) return "malformed";
    const also = kind === "sheet.signed" ? sheet.sign : sheet.answer;
    allowed = allowed.filter((role) => also.includes(role));
  }
  if (kind === "coat.laid" && Object.hasOwn(body, "early")) {
    const early: readonly string[] = tables(version).schedule.cover_early;
    allowed = allowed.filter((role) => early.includes(role));
  }
  if (!allowed.some((role) => roles.has(role))) return "not_your_role";
  if (kind !== "person.named") return null;
  const self = existing !== null && person !== null && (existing as { id?: string }).id === person.id;
  return mayName(roles, rolesIn(body), rolesIn(existing), self);
}

/** Who has no role has no account: a crew lead names such people, and amends only them. */
function mayName(roles: Set<string>, wanted: readonly string[], had: readonly string[], self: boolean): Step {
  if (!roles.has("manager") && !roles.has("administrator")) {
    return wanted.length > 0 || had.length > 0 ? "not_your_role" : null;
  }
  const [gives, took] = [wanted.includes("administrator"), had.includes("administrator")];
  if (!roles.has("administrator")) return gives || took ? "not_your_role" : null;
  // Only another administrator takes the role away: so one always stays, whoever writes offline.
  return self && took && !gives ? "own_administrator" : null;
}

function rolesIn(holder: object | null): readonly string[] {
  return (holder as { roles?: readonly string[] } | null)?.roles ?? [];
}
