import type { ComponentChildren } from "preact";
import { useId, useRef } from "preact/hooks";
import "./page.css";

export interface Slab {
  /** A verb with its object: *Clear 14, 22, 23*. */
  label: string;
  onPress: () => void;
  /** Why it cannot be pressed now, in words. The slab is dashed and the sentence stands above it. */
  why?: string | null | undefined;
}
export interface SlabsProps {
  main: Slab;
  beside?: Slab | undefined;
  /** A line above the slabs: what will be saved, for instance. */
  note?: ComponentChildren;
}

/** The second tap of a double tap must not press what the first has put in the slab's place (ms). */
const SETTLES = 400;

function useOnePress(slab: Slab): () => void {
  const last = useRef({ label: slab.label, turned: 0, at: -Infinity });
  if (last.current.label !== slab.label) last.current = { label: slab.label, turned: last.current.turned + 1, at: last.current.at };
  return () => {
    // Turned more than once: something else was pressed in between.
    if (slab.why || (last.current.turned === 1 && performance.now() - last.current.at < SETTLES)) return;
    last.current = { label: slab.label, turned: 0, at: performance.now() };
    slab.onPress();
  };
}

function SlabKey({ slab, kind, reason }: { slab: Slab; kind: "main" | "beside"; reason: string }) {
  const off = Boolean(slab.why);
  const press = useOnePress(slab);
  return (
    <button
      type="button"
      class={`slab slab-${kind}`}
      aria-disabled={off ? "true" : undefined}
      aria-describedby={off ? reason : undefined}
      onClick={press}
    >
      {slab.label}
    </button>
  );
}

/** What is pressed, at the bottom: one main slab and at most one beside it. */
export function Slabs({ main, beside, note }: SlabsProps) {
  const id = useId();
  const reasons = [...new Set([main.why, beside?.why].filter((why): why is string => Boolean(why)))];
  return (
    <footer class="slabs-foot">
      {note !== undefined && <div class="slabs-note">{note}</div>}
      {reasons.length > 0 && (
        <p class="slabs-why" id={id}>
          {reasons.join(" ")}
        </p>
      )}
      <div class={beside ? "slabs slabs-two" : "slabs"}>
        {beside && <SlabKey slab={beside} kind="beside" reason={id} />}
        <SlabKey slab={main} kind="main" reason={id} />
      </div>
    </footer>
  );
}
