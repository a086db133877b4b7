import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
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
  /** For a left thumb the main slab stands left. */
  hand?: "right" | "left" | undefined;
  /** A line above the slabs: what will be saved, for instance. */
  note?: ComponentChildren;
}

function SlabKey({ slab, kind, reason }: { slab: Slab; kind: "main" | "beside"; reason: string }) {
  const off = Boolean(slab.why);
  return (
    <button
      type="button"
      class={`slab slab-${kind}`}
      aria-disabled={off ? "true" : undefined}
      aria-describedby={off ? reason : undefined}
      onClick={() => {
        if (!off) slab.onPress();
      }}
    >
      {slab.label}
    </button>
  );
}

/** What is pressed, at the bottom: one main slab and at most one beside it. */
export function Slabs({ main, beside, hand = "right", note }: SlabsProps) {
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
      <div class={`slabs ${beside ? "slabs-two" : ""} slabs-${hand}`}>
        {beside && <SlabKey slab={beside} kind="beside" reason={id} />}
        <SlabKey slab={main} kind="main" reason={id} />
      </div>
    </footer>
  );
}
