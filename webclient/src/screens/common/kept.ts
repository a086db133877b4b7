import { useEffect, useRef, useState } from "preact/hooks";
import { draft, NotWritten } from "../../journal";

type Next<T> = T | ((before: T) => T);
export interface Kept<T> {
  value: T;
  /** What stands now, also after a wait. */
  now: () => T;
  /** False until what was kept has been read. */
  ready: boolean;
  /** Resolves when it is kept, or when a full phone has said that it is not. A function is given what stands now: for what took a while, such as a photo. */
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
  // One after the other; what fails holds up none of those behind it.
  const after = (does: () => Promise<void>): Promise<void> => {
    const done = last.current.then(does);
    last.current = done.catch(() => undefined);
    return done.catch(saidAlready);
  };
  const keep = (next: Next<T>): Promise<void> => {
    const kept = typeof next === "function" ? (next as (before: T) => T)(now.current) : next;
    show(kept);
    return after(() => draft.keep(key, kept));
  };
  const drop = (): void => {
    show(empty);
    void after(() => draft.drop(key));
  };
  return { value, now: () => now.current, ready, keep, drop };
}

/** The phone is full, and the screen says so; it still has all that was typed. */
function saidAlready(error: unknown): void {
  if (!(error instanceof NotWritten)) throw error;
}
