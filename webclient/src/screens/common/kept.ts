import { useEffect, useRef, useState } from "preact/hooks";
import { draft } from "../../journal";

/** A half-written thing that survives a reload: every change is kept on the phone before anything else happens.
 * `ready` is false until what was kept has been read; `keep` resolves when it is kept. */
export function useKept<T>(key: string, empty: T): { value: T; ready: boolean; keep: (next: T) => Promise<void>; drop: () => void } {
  const [value, setValue] = useState<T>(empty);
  const [ready, setReady] = useState(false);
  const last = useRef<Promise<void>>(Promise.resolve());
  useEffect(() => {
    let here = true;
    setReady(false);
    void draft.get<T>(key).then((found) => {
      if (!here) return;
      setValue(found ?? empty);
      setReady(true);
    });
    return () => {
      here = false;
    };
  }, [key]);
  const keep = (next: T): Promise<void> => {
    setValue(next);
    last.current = last.current.then(() => draft.keep(key, next));
    return last.current;
  };
  return { value, ready, keep, drop: () => setValue(empty) };
}
