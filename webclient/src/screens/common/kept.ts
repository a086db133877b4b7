import { useEffect, useRef, useState } from "preact/hooks";
import { draft } from "../../journal";

type Next<T> = T | ((before: T) => T);
export interface Kept<T> {
  value: T;
  /** What stands now, also after a wait. */
  now: () => T;
  /** False until what was kept has been read. */
  ready: boolean;
  /** Resolves when it is kept. A function is given what stands now: for what took a while, such as a photo. */
  keep: (next: Next<T>) => Promise<void>;
  drop: () => void;
}

/** A half-written thing that survives a reload: every change is kept on the phone before anything else happens. */
export function useKept<T>(key: string, empty: T): Kept<T> {
  const [value, setValue] = useState<T>(empty);
  const [ready, setReady] = useState(false);
  const now = useRef<T>(empty);
  const last = useRef<Promise<void>>(Promise.resolve());
  const show = (next: T): void => {
    now.current = next;
    setValue(next);
  };
  useEffect(() => {
    let here = true;
    setReady(false);
    void draft.get<T>(key).then((found) => {
      if (!here) return;
      show(found ?? empty);
      setReady(true);
    });
    return () => {
      here = false;
    };
  }, [key]);
  const keep = (next: Next<T>): Promise<void> => {
    const kept = typeof next === "function" ? (next as (before: T) => T)(now.current) : next;
    show(kept);
    last.current = last.current.then(() => draft.keep(key, kept));
    return last.current;
  };
  const drop = (): void => {
    show(empty);
    last.current = last.current.then(() => draft.drop(key));
  };
  return { value, now: () => now.current, ready, keep, drop };
}
