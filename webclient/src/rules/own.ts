/** Maps that travel as JSON, keyed by what phones sent: only own keys count, and no key reaches a prototype. */

/** The value under a key; undefined for what is only inherited, such as "constructor". */
export function own<V>(map: { readonly [key: string]: V }, key: string): V | undefined {
  return Object.hasOwn(map, key) ? map[key] : undefined;
}

/** Puts a value under a key, "__proto__" too: plain assignment would change the prototype and lose the value. */
export function put<V>(map: { [key: string]: V }, key: string, value: V): void {
  Object.defineProperty(map, key, { value, configurable: true, enumerable: true, writable: true });
}

/** The named keys of a record that are there: an absent one stays absent. */
export function picked<T extends object, K extends keyof T>(from: T, names: readonly K[]): Pick<T, K> {
  const kept = {} as Pick<T, K>;
  for (const name of names) if (Object.hasOwn(from, name)) kept[name] = from[name];
  return kept;
}
