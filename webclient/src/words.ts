/**
 * Every sentence on the screen, in English and Spanish, from the one table in server/words.
 *
 * `t("writeup.save", { n: 3 })` gives the sentence in the person's language; `tn(key, n)` takes `key_one` or `key_other`.
 * Both read a signal, so that a component that used them is drawn again when the language changes.
 * Here are the topics of the first screen; `words-rest.ts` brings the others with the screens that say them.
 */
import { effect, signal } from "@preact/signals";
import { remembered } from "./remembered";
import type { Key, PluralKey } from "./words-keys";

export type { Key, PluralKey };
export type Language = "en" | "es";
export type Values = Readonly<Record<string, string | number>>;
export type Sentences = Readonly<Record<string, Readonly<Record<Language, string>>>>;

const first = import.meta.glob<Sentences>("../../server/words/{frame,holds,signin,sync,yard}.json", { eager: true, import: "default" });
const sentences = signal<Sentences>(Object.assign({}, ...Object.values(first)));

/** More topics have come: what was drawn without them is drawn again. */
export function learnWords(topics: readonly Sentences[]): void {
  sentences.value = Object.assign({}, sentences.peek(), ...topics);
}

function atFirst(kept: string | null): Language {
  if (kept === "en" || kept === "es") return kept;
  const asked = typeof navigator === "undefined" ? "en" : navigator.language;
  return asked.toLowerCase().startsWith("es") ? "es" : "en";
}

/** The language of the screen; set it with `speak`. At first the one that the browser asks for. */
export const [language, speak] = remembered<Language>("language", atFirst);

effect(() => {
  const spoken = language.value;
  if (typeof document !== "undefined") document.documentElement.lang = spoken;
});

function fill(sentence: string, values: Values): string {
  return sentence.replace(/\{(\w+)\}/g, (hole, name: string) => String(values[name] ?? hole));
}

/** True when the table has this sentence: for keys that are put together from data. */
export function known(key: string): boolean {
  return key in sentences.value;
}

/** A sentence whose key comes from data, such as `kinds.${kind}`. An unknown key is shown as it is rather than hidden. */
export function say(key: string, values: Values = {}): string {
  const sentence = sentences.value[key];
  return sentence ? fill(sentence[language.value], values) : key;
}

/** The same with a number: `key_one` for 1, otherwise `key_other`; `{n}` stands for the number. */
export function sayCount(key: string, n: number, values: Values = {}): string {
  return say(`${key}_${n === 1 ? "one" : "other"}`, { n, ...values });
}

/** A sentence by a key that the compiler knows. */
export function t(key: Key, values: Values = {}): string {
  return say(key, values);
}

/** A sentence by number, by a key that the compiler knows. */
export function tn(key: PluralKey, n: number, values: Values = {}): string {
  return sayCount(key, n, values);
}
