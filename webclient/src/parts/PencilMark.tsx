import type { Placed } from "./labels";
import { MARK_BOX, pencilPath, type ItemState, type MarkKind } from "./marks";
import "./marks.css";

export interface PencilMarkProps {
  state: MarkKind;
  /** Side in pixels; 16 is the least that can be told apart. */
  size?: number | undefined;
  /** Stands beside the mark, never inside it. */
  number?: number | string | undefined;
  /** Read out instead of nothing, where no word stands beside the mark. */
  label?: string | undefined;
}

/** The lines of a mark inside a larger drawing, centred on x and y. */
export function MarkLines({ state, x, y, size, lit }: { state: MarkKind; x: number; y: number; size: number; lit?: boolean | undefined }) {
  const mark = pencilPath(state);
  const scale = size / MARK_BOX;
  return (
    <g
      class={lit ? "mark mark-lit" : `mark mark-${mark.colour}`}
      transform={`translate(${x - size / 2} ${y - size / 2}) scale(${scale})`}
    >
      {mark.lines.map((line) => (
        <path key={line.d} d={line.d} stroke-width={line.width} stroke-dasharray={line.dash?.join(" ")} />
      ))}
    </g>
  );
}

/** A mark such as a hand makes on a wall, with its number beside it. */
export function PencilMark({ state, size = 28, number, label }: PencilMarkProps) {
  const drawn = (
    <svg
      class="mark-alone"
      width={size}
      height={size}
      viewBox={`0 0 ${size} ${size}`}
      {...(label === undefined ? { "aria-hidden": "true" as const } : { role: "img" as const, "aria-label": label })}
    >
      <MarkLines state={state} x={size / 2} y={size / 2} size={size} />
    </svg>
  );
  if (number === undefined) return drawn;
  return (
    <span class={`numbered mark-words-${pencilPath(state).colour}`}>
      {drawn}
      <b>{number}</b>
    </span>
  );
}

/** A mark and its number; the number is drawn only where it can be read. */
export function NumberedMark({ mark, size, lit }: { mark: Placed & { state: ItemState }; size: number; lit?: boolean | undefined }) {
  const label = mark.label;
  return (
    <g>
      {label && mark.far && (
        <line class="leader" x1={mark.x} y1={mark.y} x2={label.x + label.w / 2} y2={label.y + label.h / 2} />
      )}
      {lit && <circle class="lit" cx={mark.x} cy={mark.y} r={size * 0.74} />}
      <MarkLines state={mark.state} x={mark.x} y={mark.y} size={mark.state === "closed" && !lit ? size * 0.9 : size} lit={lit} />
      {label && (
        <text class={`number number-${pencilPath(mark.state).colour}`} x={label.x + label.w / 2} y={label.y + label.h / 2}>
          {mark.text}
        </text>
      )}
    </g>
  );
}
