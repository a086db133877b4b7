/** A file on its way in: read here, looked at by the office, corrected, brought in. */

import { useRef, useState } from "preact/hooks";
import { t } from "../../words";
import { told } from "../common";
import { lookAt, NoFile, takeIn } from "./fileCall";
import { chosenAfter, corrected, type FilePlan, type Looked, type PlanField, type TakenIn, type What } from "./filePlan";
import type { Where } from "./measuring";

interface Chosen {
  name: string;
  bytes: ArrayBuffer;
}
interface Half {
  file: Chosen | null;
  look: Looked | null;
  /** Fields of the plan that somebody has chosen. */
  chosen: PlanField[];
  result: TakenIn | null;
}
const NOTHING: Half = { file: null, look: null, chosen: [], result: null };

export interface FileWork extends Half {
  /** What is being done, in words; null when nothing is. */
  busy: string | null;
  problem: string | null;
  open: (file: File) => Promise<void>;
  correct: (part: Partial<FilePlan>) => Promise<void>;
  take: (where: Where, name: string) => Promise<void>;
  again: () => void;
}

export function useFile(what: What): FileWork {
  const [half, setHalf] = useState<Half>(NOTHING);
  const { busy, problem, run, tell } = useRun();
  const { file, look } = half;
  const open = (picked: File): Promise<void> =>
    run(t("air.file_reading", { name: picked.name }), async () => {
      setHalf(NOTHING);
      const bytes = await picked.arrayBuffer();
      setHalf({ ...NOTHING, file: { name: picked.name, bytes }, look: await lookAt(what, bytes, {}) });
    });
  const correct = (part: Partial<FilePlan>): Promise<void> =>
    run(t("air.file_again"), async () => {
      if (!file || !look) return;
      const next = await lookAt(what, file.bytes, corrected(look.plan, part));
      const chosen = chosenAfter(look.plan, half.chosen, part);
      // What was asked first is asked until somebody has chosen it, though the query told a guess meanwhile.
      setHalf({ ...half, chosen, look: { ...next, asks: [...new Set([...look.asks, ...next.asks])] } });
    });
  const take = (where: Where, name: string): Promise<void> =>
    run(t("air.file_taking", { n: look?.count ?? 0 }), async () => {
      if (file && look) setHalf({ ...half, result: await takeIn(what, file.bytes, look.plan, where, name) });
    });
  const again = (): void => {
    setHalf(NOTHING);
    tell(null);
  };
  return { ...half, busy, problem, open, correct, take, again };
}

/** One thing at a time; why it did not come about is told. */
function useRun() {
  const [busy, setBusy] = useState<string | null>(null);
  const [problem, tell] = useState<string | null>(null);
  const running = useRef(false);
  const run = async (words: string, does: () => Promise<void>): Promise<void> => {
    if (running.current) return;
    running.current = true;
    told.value = null;
    setBusy(words);
    tell(null);
    try {
      await does();
    } catch (error) {
      if (!(error instanceof NoFile)) throw error;
      tell(error.message);
    } finally {
      running.current = false;
      setBusy(null);
    }
  };
  return { busy, problem, run, tell };
}
