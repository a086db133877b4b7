/** What a fold works on: parts by (kind, id), and which of them it touched. */

import { v5 } from "uuid";
import type { Entry, Fresh, Line, Part, PartKind, PartOf } from "./types";

export type Get = (kind: PartKind, id: string) => Part | null | undefined;

/**
 * Parts under work.
 *
 * `get` hands over a part that nobody else holds (or none); steps change it in place after `edit` or `make`, and
 * `changed` tells which to keep. So a fold is pure seen from outside without copying a part for every entry.
 */
export class Workspace {
  readonly changed = new Map<string, Part>();
  readonly #parts = new Map<string, Part | null>();
  readonly #get: Get;

  constructor(get: Get) {
    this.#get = get;
  }

  /** A part to read. */
  part<K extends PartKind>(kind: K, id: string | null): PartOf<K> | null {
    if (id === null) return null;
    const key = partKey(kind, id);
    let found = this.#parts.get(key);
    if (found === undefined) {
      found = this.#get(kind, id) ?? null;
      this.#parts.set(key, found);
    }
    return found as PartOf<K> | null;
  }

  /** A part to change, marked as touched by this entry; null when there is none. */
  edit<K extends PartKind>(kind: K, id: string | null, entry: Entry): PartOf<K> | null {
    const part = this.part(kind, id);
    if (part !== null) {
      part.seq = entry.seq;
      this.changed.set(partKey(kind, part.id), part);
    }
    return part;
  }

  /** A new part. */
  make<K extends PartKind>(kind: K, id: string, entry: Entry, fields: Fresh<K>): PartOf<K> {
    const part = { part: kind, id, module: entry.module, seq: entry.seq, ...fields } as unknown as PartOf<K>;
    this.#parts.set(partKey(kind, id), part);
    this.changed.set(partKey(kind, id), part);
    return part;
  }
}

/** The key of a part in a map of parts; kinds have no space in them. */
export function partKey(kind: string, id: string): string {
  return `${kind} ${id}`;
}

const childIds = new Map<string, string>();

/** UUIDv5, so that two phones mean the same thing by the same name. */
export function childId(namespace: string, name: string): string {
  const key = `${namespace} ${name}`;
  let id = childIds.get(key);
  if (id === undefined) {
    // As bytes: the package would refuse a namespace of a version that it does not know.
    id = v5(name, uuidBytes(namespace));
    childIds.set(key, id);
  }
  return id;
}

/** The id of a module's sheet by its key. */
export const sheetId = (module: string, sheet: string): string => childId(module, sheet);

/** Adds an entry to a part's history, with the reason when it had no effect. */
export function line(part: { lines: Line[] }, entry: Entry, whyNot: string | null = null, extra: Partial<Line> = {}): void {
  const row: Line = { kind: entry.kind, by: entry.by, time: entry.time };
  if (whyNot) row.no = whyNot;
  if (entry.let_in) row.let_in = 1;
  part.lines.push({ ...row, ...extra });
}

function uuidBytes(id: string): Uint8Array {
  const hex = id.replaceAll("-", "");
  if (!/^[0-9a-fA-F]{32}$/.test(hex)) throw new TypeError(`not a UUID: ${id}`);
  return Uint8Array.from({ length: 16 }, (_, at) => Number.parseInt(hex.slice(at * 2, at * 2 + 2), 16));
}
