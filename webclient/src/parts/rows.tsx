import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { t } from "../words";
import { countOf, surfaceInWords, type Marked } from "./marked";
import type { Surface } from "./geometry";
import { countsInWords, itemMarkWord } from "./StateWord";
import { PencilMark } from "./PencilMark";
import { MARK_BOX, pencilPath, type ItemState, type MarkKind } from "./marks";
import "./marks.css";
import "./rows.css";

export interface MarkRowProps {
  state: MarkKind;
  number?: number | string | undefined;
  title: ComponentChildren;
  /** The second line. */
  line?: ComponentChildren;
  /** Where a tap leads; or `onPress`; or neither. */
  href?: string | undefined;
  onPress?: (() => void) | undefined;
  /** At the right: a key, a time. */
  side?: ComponentChildren;
}

/** A mark, a sentence, a second line: an item in a list, a hold at the gate. */
export function MarkRow({ state, number, title, line, href, onPress, side }: MarkRowProps) {
  const words = (
    <>
      <PencilMark state={state} size={26} />
      {number !== undefined && <b class="row-number">{number}</b>}
      <span class="row-words">
        <span class="row-title">{title}</span>
        {line !== undefined && line !== null && <span class="second">{line}</span>}
      </span>
    </>
  );
  return (
    <div class="row">
      {href !== undefined ? (
        <a class="row-press" href={href}>
          {words}
        </a>
      ) : onPress ? (
        <button type="button" class="row-press" onClick={onPress}>
          {words}
        </button>
      ) : (
        <div class="row-press">{words}</div>
      )}
      {side}
    </div>
  );
}

export interface ItemRowProps {
  state: ItemState;
  number: number | string;
  /** The defect: *Nick*, *2 nicks*. */
  title: string;
  /** The next rework step: it stands in the row. */
  next?: string | null | undefined;
  /** Why it was sent back: on top, in crayon. */
  sentBack?: string | null | undefined;
  line?: ComponentChildren;
  href?: string | undefined;
  checked?: boolean | undefined;
  onCheck?: ((checked: boolean) => void) | undefined;
  /** Why it cannot be picked, in words: the target is dashed. */
  blocked?: string | null | undefined;
}

function Check({ number, checked, blocked, why, onCheck }: { number: number | string; checked: boolean; blocked: boolean; why: string; onCheck: (checked: boolean) => void }) {
  return (
    <label class="check ring-when-focused">
      <input
        type="checkbox"
        checked={checked}
        disabled={blocked}
        aria-label={t("frame.select_item", { n: number })}
        aria-describedby={blocked ? why : undefined}
        onChange={(event) => onCheck(event.currentTarget.checked)}
      />
      <svg width="24" height="24" viewBox={`0 0 ${MARK_BOX} ${MARK_BOX}`} aria-hidden="true">
        <path d={pencilPath("sent").lines[0]?.d} />
      </svg>
    </label>
  );
}

/** An item as work: number, defect, next step, and a target for a thumb. */
export function ItemRow({ state, number, title, next, sentBack, line, href, checked = false, onCheck, blocked }: ItemRowProps) {
  const why = useId();
  return (
    <div class="row">
      <div class="row-press">
        <PencilMark state={state} size={26} label={itemMarkWord(state)} />
        <b class="row-number">{number}</b>
        <span class="row-words">
          <span class="row-title">
            {href === undefined ? title : <a href={href}>{title}</a>}
            {next && <span class="row-next">, {t("frame.next_step", { step: next })}</span>}
          </span>
          {sentBack && <b class="late">{`${t("frame.state_sent_back")}: ${sentBack}`}</b>}
          {line !== undefined && line !== null && <span class="second">{line}</span>}
          {blocked && (
            <span class="second" id={why}>
              {blocked}
            </span>
          )}
        </span>
      </div>
      {onCheck && <Check number={number} checked={checked} blocked={Boolean(blocked)} why={why} onCheck={onCheck} />}
    </div>
  );
}

export interface SurfaceListProps {
  surfaces: readonly { surface: Surface; sight?: string | undefined }[];
  marks: readonly Marked[];
  onFace: (surface: Surface) => void;
}

/** The surfaces of a room as a list: it does what the drawing does, and stands alone where there is no drawing. */
export function SurfaceList({ surfaces, marks, onFace }: SurfaceListProps) {
  return (
    <ul class="rows">
      {surfaces.map(({ surface, sight = "" }) => {
        const counts = countOf(marks.filter((mark) => mark.surface === surface));
        const shown = (["open", "sent_back", "cleared", "closed"] as const).filter((state) => (counts[state] ?? 0) > 0);
        return (
          <li key={surface}>
            <button type="button" class="surface-key" onClick={() => onFace(surface)}>
              <b>{surfaceInWords(surface, sight)}</b>
              <span class="heard">{countsInWords(counts) || t("frame.nothing_here")}</span>
              <span class="surface-counts" aria-hidden="true">
                {shown.map((state) => (
                  <PencilMark key={state} state={state} size={20} number={counts[state]} />
                ))}
              </span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
