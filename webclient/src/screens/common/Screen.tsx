import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { signal } from "@preact/signals";
import { go, hasPressed, to } from "../../route";
import { saveUnsent, state } from "../../journal";
import { HeadBand, Page, SentLine, Slabs, type HeadBandProps, type SlabsProps } from "../../parts";
import { changeOver, UNLIKE, updateWaits } from "../../update";
import { say, t, tn } from "../../words";
import { when } from "./yard";

/** One sentence of what just happened, until the next screen or press. */
export const told = signal<string | null>(null);
const onward = (event: Event): void => {
  const away = event.type === "popstate" || (event.target instanceof Element && event.target.closest("a[href]"));
  if (away) told.value = null;
};

/** Messages end with the screen or the press after them; call once, before the first screen. */
export function endMessages(): void {
  addEventListener("popstate", onward);
  addEventListener("click", onward, true);
}

export interface ScreenProps extends HeadBandProps {
  slabs?: SlabsProps | undefined;
  /** Why the last press did nothing, in words. */
  problem?: string | null | undefined;
  reading?: boolean | undefined;
  breadth?: "column" | "broad" | undefined;
  children: ComponentChildren;
}

/** What keeps the sync from going on, in words, and the one thing to do about it. */
function trouble(problem: string | null): { words: string | null; action: { label: string; onPress: () => void } | undefined } {
  if (!problem) return { words: null, action: undefined };
  const words = problem === "sync.evicted" ? `${say(problem)} ${tn("sync.evicted_lost", state.value.lost)}` : say(problem);
  if (["sync.sign_in_again", "sync.enrol", "sync.enrol_anew"].includes(problem)) {
    return { words, action: { label: t("yard.sign_in_again"), onPress: () => go(to.me()) } };
  }
  if (UNLIKE.has(problem) && !updateWaits.value) return { words, action: { label: t("sync.open_again"), onPress: changeOver } };
  if (problem === "sync.stranded") return { words, action: { label: t("yard.save_file"), onPress: () => void saveUnsent() } };
  return { words, action: undefined };
}

/** What just happened, or why it did not: in the head, so that it is in view however far one has scrolled. */
function Said({ problem }: { problem: string | null | undefined }) {
  if (problem) return <p class="told late" role="alert">{problem}</p>;
  return told.value ? <p class="told" role="status">{told.value}</p> : null;
}

/**
 * What was pressed is gone with the screen it was on: who goes by keyboard, or hears, goes on from the new head. Before
 * any press a title changes as the phone reads what it has, and the first tab goes where it always does. By its words:
 * a title with a look of its own is another at each drawing, and would take the focus from where somebody tapped.
 */
function useHeard(): void {
  const heard = useRef("");
  useEffect(() => {
    const head = document.querySelector("h1");
    const words = head?.textContent ?? "";
    if (words === heard.current) return;
    heard.current = words;
    if (hasPressed() && document.activeElement === document.body) head?.focus({ preventScroll: true });
  });
}

/** Every screen: the head, the line of what was sent, what one reads, and what one presses. */
export function Screen({ problem, slabs, reading, breadth, children, ...head }: ScreenProps) {
  useHeard();
  const { unsent, photosUnsent, lastSent } = state.value;
  const { words, action } = trouble(state.value.problem);
  return (
    <Page
      breadth={breadth}
      head={<HeadBand {...head} />}
      sent={
        <>
          <SentLine unsent={unsent} photosUnsent={photosUnsent} sentAt={lastSent ? when(lastSent) : null} reading={reading} problem={words} action={action} />
          <Said problem={problem} />
        </>
      }
      slabs={slabs ? <Slabs {...slabs} /> : undefined}
    >
      {updateWaits.value && (
        <p class="told" role="status">
          {t("sync.update")}{" "}
          <button type="button" class="key" onClick={changeOver}>
            {t("sync.update_now")}
          </button>
        </p>
      )}
      {children}
    </Page>
  );
}
