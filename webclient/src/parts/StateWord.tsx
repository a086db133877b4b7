import { t, tn } from "../words";
import { PencilMark } from "./PencilMark";
import { pencilPath, type ItemState } from "./marks";
import "./marks.css";

/** The state of an item: mark first, then the word. An inspector reads a cleared item as *Recheck*. */
export function StateWord({ state, recheck, size = 24 }: { state: ItemState | "only_here"; recheck?: boolean | undefined; size?: number | undefined }) {
  const word = state === "cleared" && recheck ? t("frame.state_recheck") : t(`frame.state_${state}`);
  return (
    <span class={`state-word mark-words-${pencilPath(state).colour}`}>
      <PencilMark state={state} size={size} />
      {word}
    </span>
  );
}

export interface Counts {
  open?: number | undefined;
  sent_back?: number | undefined;
  cleared?: number | undefined;
  closed?: number | undefined;
  void?: number | undefined;
}
const ORDER: readonly ItemState[] = ["open", "sent_back", "cleared", "closed", "void"];

/** How many of each, as one line of words: *4 open, 2 to recheck, 3 closed*. */
export function countsInWords(counts: Counts): string {
  return ORDER.filter((state) => (counts[state] ?? 0) > 0)
    .map((state) => tn(`frame.count_${state}`, counts[state] ?? 0))
    .join(", ");
}

/** The same as a row of marks with their words: it is also the key to the drawing above it. */
export function StateCounts({ counts }: { counts: Counts }) {
  const shown = ORDER.filter((state) => (counts[state] ?? 0) > 0);
  if (shown.length === 0) return <p class="second">{t("frame.nothing_here")}</p>;
  return (
    <ul class="state-counts">
      {shown.map((state) => (
        <li key={state}>
          <PencilMark state={state} size={22} />
          {tn(`frame.count_${state}`, counts[state] ?? 0)}
        </li>
      ))}
    </ul>
  );
}

/** The word of a state by itself, for the accessible name of a mark. */
export function itemMarkWord(state: ItemState): string {
  return t(`frame.state_${state}`);
}
