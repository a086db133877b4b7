/** What a person chose once and the phone remembers: a language, a light, a unit. */
import { signal, type Signal } from "@preact/signals";

/**
 * The choice, and how it is made: at once and for the next visit.
 *
 * `read` makes it of what was kept; null at first, and where a browser keeps nothing for this site: there it holds for
 * this visit only.
 */
export function remembered<T extends string>(name: string, read: (kept: string | null) => T): [now: Signal<T>, choose: (next: T) => void] {
  const key = `rakelight.${name}`;
  const now = signal(read(kept(key)));
  return [now, (next) => {
    now.value = next;
    keep(key, next);
  }];
}

function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function keep(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    return;
  }
}
