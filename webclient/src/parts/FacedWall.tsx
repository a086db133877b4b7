import { useEffect, useId, useState } from "preact/hooks";
import { language, t } from "../words";
import { feet, kept, stand, stretches, stretchWith, toScreen, toSpot, type Standing, type Stretch } from "./facing";
import type { Box, Face, Point, Spot } from "./geometry";
import { placeLabels } from "./labels";
import { feetInches, STEP } from "./lengths";
import { countOf, drawn, spotInWords, surfaceInWords, type Marked } from "./marked";
import { countsInWords } from "./StateWord";
import { shareOfHeight, useWidth } from "./size";
import { NumberedMark } from "./PencilMark";
import "./marks.css";
import "./drawing.css";

export interface FacedWallProps {
  face: Face;
  marks: readonly Marked[];
  /** The mark of here and now: it stands on glow with dashed lines through it. */
  lit?: string | null | undefined;
  /** A tap: millimetres along and up. Without it the drawing is only looked at. */
  onSpot?: ((spot: Spot) => void) | undefined;
  /** An arrow key on the drawing: where the lit mark is to be now. */
  onMove?: ((spot: Spot) => void) | undefined;
  maxHeight?: number | undefined;
}

const MARK = 24;
const RULER = 24;
const ARROWS: Record<string, Spot> = {
  ArrowLeft: { along: -STEP, up: 0 },
  ArrowRight: { along: STEP, up: 0 },
  ArrowUp: { along: 0, up: STEP },
  ArrowDown: { along: 0, up: -STEP },
};

/** A spot moved by one arrow, kept on the face. On the floor up leads towards wall A, as it is drawn. */
export function moved(face: Face, spot: Spot, key: string): Spot | null {
  const by = ARROWS[key];
  if (!by) return null;
  const up = face.surface === "floor" ? -by.up : by.up;
  return kept(face, { along: spot.along + by.along, up: spot.up + up });
}

function onStanding(standing: Standing, thing: Spot & { w: number; h: number }): Box {
  const foot = toScreen(standing, thing);
  const h = thing.h * standing.scale;
  return { x: foot.x, y: standing.down ? foot.y : foot.y - h, w: thing.w * standing.scale, h };
}

/** Its name stands in its middle, or higher where that would be on the feet along the foot of the wall. */
function ThingLines({ on, name, foot }: { on: Box; name: string; foot: number }) {
  const y = Math.min(on.y + on.h / 2, foot - RULER - 10);
  return (
    <g>
      <rect class="thing" x={on.x} y={on.y} width={on.w} height={on.h} />
      {on.w > name.length * 7 && on.h > 22 && y >= on.y + 10 && (
        <text class="thing-name" x={on.x + on.w / 2} y={y}>
          {name}
        </text>
      )}
    </g>
  );
}

function WallLines({ face, standing, stretch }: { face: Face; standing: Standing; stretch: Stretch }) {
  const { width, height } = standing;
  return (
    <g>
      <rect class="face" x={0} y={0} width={width} height={height} />
      {face.things.map((thing, index) => (
        <ThingLines key={`thing ${index}`} on={onStanding(standing, thing)} name={thing.name} foot={height} />
      ))}
      {face.openings.map((opening, index) => {
        const on = onStanding(standing, opening);
        return <rect key={`opening ${index}`} class={`opening opening-${opening.kind}`} x={on.x} y={on.y} width={on.w} height={on.h} />;
      })}
      {feet(standing, stretch).map(({ foot, x }) => (
        <g key={foot}>
          <line class="tick" x1={x} y1={height} x2={x} y2={height - 7} />
          <text class="foot" x={x} y={height - 15}>
            {foot}
          </text>
        </g>
      ))}
      <rect class="edge" x={0} y={0} width={width} height={height} />
    </g>
  );
}

function Walk({ walked, shown, length, onWalk }: { walked: readonly Stretch[]; shown: number; length: number; onWalk: (to: number) => void }) {
  const stretch = walked[shown];
  if (walked.length < 2 || !stretch) return null;
  const said = (mm: number): string => feetInches(mm, language.value);
  return (
    <div class="stretch">
      <p class="second stretch-where" aria-live="polite">
        {t("frame.stretch", { from: stretch.from === 0 ? "0" : said(stretch.from), to: said(stretch.to), length: said(length) })}
      </p>
      <button type="button" class="key" disabled={shown === 0} onClick={() => onWalk(shown - 1)}>
        <span aria-hidden="true">←</span> {t("frame.walk_left")}
      </button>
      <button type="button" class="key" disabled={shown === walked.length - 1} onClick={() => onWalk(shown + 1)}>
        {t("frame.walk_right")} <span aria-hidden="true">→</span>
      </button>
    </div>
  );
}

/** Which stretch of a long wall is on the screen; it follows the lit spot when that is moved past its end. */
function useStretch(face: Face, litSpot: Spot | undefined, walks: boolean) {
  // What is only looked at is shown whole; one walks along what one taps.
  const walked = walks ? stretches(face.length) : [{ from: 0, to: face.length }];
  const [shown, setShown] = useState(litSpot ? stretchWith(walked, litSpot.along) : 0);
  const stretch = walked[Math.min(shown, walked.length - 1)] ?? { from: 0, to: face.length };
  const along = litSpot?.along;
  useEffect(() => {
    if (along !== undefined && (along < stretch.from || along > stretch.to)) setShown(stretchWith(walked, along));
  }, [along]);
  return { walked, shown, stretch, setShown };
}

/** The marks of this stretch with their numbers, in pixels. */
function layMarks(face: Face, standing: Standing, marks: readonly Marked[], lit: string | null | undefined, side: number) {
  const found = drawn(marks, face, (spot) => toScreen(standing, spot), side).filter((mark) => mark.x >= -1 && mark.x <= standing.width + 1);
  const withLit = found.map((mark) => (mark.id === lit ? { ...mark, side: side * 1.6 } : mark));
  const ruler = { x: 0, y: standing.height - RULER, w: standing.width, h: RULER };
  const bounds = { x: 0, y: 0, w: standing.width, h: standing.height };
  const states = new Map(found.map((mark) => [mark.id, mark.state]));
  return placeLabels(withLit, { bounds, mark: side, figure: 10.5, line: 20, taken: [ruler] }).map((mark) => ({
    ...mark,
    state: states.get(mark.id) ?? ("open" as const),
  }));
}

interface TapProps {
  face: Face;
  standing: Standing;
  name: string;
  said: string;
  litSpot: Spot | undefined;
  onSpot: (spot: Spot) => void;
  onMove: ((spot: Spot) => void) | undefined;
}

/** The whole wall as one button: a tap marks where it fell, Enter marks the middle, arrows move the lit one. */
function TapArea({ face, standing, name, said, litSpot, onSpot, onMove }: TapProps) {
  const tap = (event: MouseEvent & { currentTarget: Element }): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const byKey = event.detail === 0;
    const at = byKey ? { x: standing.width / 2, y: standing.height / 2 } : { x: event.clientX - box.left, y: event.clientY - box.top };
    onSpot(toSpot(standing, face, at));
  };
  const arrow = (event: KeyboardEvent): void => {
    const next = litSpot && onMove ? moved(face, litSpot, event.key) : null;
    if (!next) return;
    event.preventDefault();
    onMove?.(next);
  };
  return <button type="button" class="wall-tap" aria-label={t("frame.tap_each", { surface: name })} aria-describedby={said} onClick={tap} onKeyDown={arrow} />;
}

/** Dashed lines through the spot of here and now. */
function Cross({ at, standing }: { at: Point | undefined; standing: Standing }) {
  if (!at) return null;
  return (
    <g class="cross">
      <line x1={at.x} y1={0} x2={at.x} y2={standing.height} />
      <line x1={0} y1={at.y} x2={standing.width} y2={at.y} />
    </g>
  );
}

/** A surface as one faces it, to scale and as wide as the phone. Tapping gives a spot; arrow keys move the lit one. */
export function FacedWall({ face, marks, lit, onSpot, onMove, maxHeight }: FacedWallProps) {
  const { ref, width } = useWidth(358);
  const said = useId();
  const litSpot = marks.find((mark) => mark.id === lit)?.spot;
  const { walked, shown, stretch, setShown } = useStretch(face, litSpot, onSpot !== undefined);
  const standing = stand(face, stretch, width, maxHeight ?? shareOfHeight(0.42, 240));
  const side = Math.min(MARK, Math.max(17, standing.height / 10));
  const here = marks.filter((mark) => mark.surface === face.surface);
  const placed = layMarks(face, standing, here, lit, side);
  const now = placed.find((mark) => mark.id === lit);
  const name = surfaceInWords(face.surface, face.sight);
  const what = countsInWords(countOf(here)) || t("frame.nothing_here");
  const size = { width: standing.width, height: standing.height };
  return (
    <div class="faced" ref={ref}>
      <div class="faced-wall" style={{ width: `${size.width}px`, height: `${size.height}px` }}>
        <svg {...size} viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={t("frame.wall_drawing", { surface: name, what })}>
          <WallLines face={face} standing={standing} stretch={stretch} />
          <Cross at={now} standing={standing} />
          {placed.map((mark) => (
            <NumberedMark key={mark.id} mark={mark} size={side} lit={mark.id === lit} />
          ))}
        </svg>
        {onSpot && <TapArea {...{ face, standing, name, said, litSpot, onSpot, onMove }} />}
      </div>
      <span class="heard" id={said} aria-live="polite">
        {now && litSpot ? `${t("frame.item_number", { n: now.text })}: ${spotInWords(litSpot, face.surface)}` : ""}
      </span>
      <Walk walked={walked} shown={shown} length={face.length} onWalk={setShown} />
    </div>
  );
}
