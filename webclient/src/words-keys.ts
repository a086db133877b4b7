/**
 * The keys of the sentences as types. A topic is listed once: its keys are then those of its file, and a slip is a compile error.
 * To add a topic: write server/words/<topic>.json, import its type here and add it to `Table`.
 */
import type frame from "../../server/words/frame.json";

type Table = typeof frame;

/** Topics whose files are not listed above yet: any key of theirs passes here, and tests/parts/words.test.ts looks it up. */
type Loose =
  | "kinds" | "defects" | "reasons" | "holds" | "steps" | "signin" | "sync" | "room" | "writeup" | "recheck" | "work" | "gate"
  | "sheets" | "yard" | "plans" | "people" | "manager" | "packet" | "photos" | "phrases" | "roles" | "settings" | "release";

type Tight = Extract<keyof Table, string>;
export type Key = Tight | `${Loose}.${string}`;
export type PluralKey = (Tight extends infer One ? (One extends `${infer Stem}_other` ? Stem : never) : never) | `${Loose}.${string}`;
