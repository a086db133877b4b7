import { t } from "../words";
import { moved } from "./FacedWall";
import type { Across, Face, Height, Spot, WordSpot } from "./geometry";
import { spotInWords, wordSpotInWords, type Marked } from "./marked";
import { PencilMark } from "./PencilMark";
import "./page.css";
import "./choose.css";

export interface SpotArrowsProps {
  face: Face;
  spot: Spot;
  /** A sentence before it, such as *Tap each nick.* */
  lead?: string | undefined;
  onMove: (spot: Spot) => void;
}

const KEYS = [
  ["ArrowLeft", "←", "frame.move_left"],
  ["ArrowRight", "→", "frame.move_right"],
  ["ArrowUp", "↑", "frame.move_up"],
  ["ArrowDown", "↓", "frame.move_down"],
] as const;

/** The last tap read back in words, and four keys that move it 6 in. */
export function SpotArrows({ face, spot, lead, onMove }: SpotArrowsProps) {
  return (
    <div class="spot-arrows">
      <p aria-live="polite">
        {lead && <span>{lead} </span>}
        {t("frame.last_one", { spot: spotInWords(spot, face.surface) })}
      </p>
      <div class="arrows">
        {KEYS.map(([key, arrow, label]) => (
          <button
            key={key}
            type="button"
            class="key"
            aria-label={t(label)}
            onClick={() => {
              const next = moved(face, spot, key);
              if (next) onMove(next);
            }}
          >
            <span aria-hidden="true">{arrow}</span>
          </button>
        ))}
      </div>
    </div>
  );
}

export interface WordsSpotProps {
  /** What stands there already. */
  marks?: readonly Marked[] | undefined;
  /** The last one, lit. */
  lit?: string | null | undefined;
  onSpot: (words: WordSpot) => void;
  /** For what has no exact spot: the item goes to the surface as a whole. */
  onNoSpot?: (() => void) | undefined;
}

const ACROSS: readonly Across[] = ["left", "middle", "right"];
const HEIGHTS: readonly Height[] = ["high", "eye", "low"];

/** A surface that nobody has measured: nine places in words instead of a drawing. */
export function WordsSpot({ marks = [], lit, onSpot, onNoSpot }: WordsSpotProps) {
  return (
    <fieldset class="words-spot">
      <legend class="second">{t("frame.where_on")}</legend>
      <div class="nine">
        {HEIGHTS.flatMap((height) =>
          ACROSS.map((across) => {
            const here = marks.filter((mark) => mark.words?.across === across && mark.words.height === height);
            return (
              <button
                key={`${height} ${across}`}
                type="button"
                class={here.some((mark) => mark.id === lit) ? "key place place-lit" : "key place"}
                onClick={() => onSpot({ across, height })}
              >
                <span>{wordSpotInWords({ across, height })}</span>
                {here.length > 0 && (
                  <span class="place-marks">
                    {here.map((mark) => (
                      <PencilMark key={mark.id} state={mark.state} size={18} number={mark.number} />
                    ))}
                  </span>
                )}
              </button>
            );
          }),
        )}
      </div>
      {onNoSpot && (
        <button type="button" class="key" onClick={onNoSpot}>
          {t("frame.no_spot")}
        </button>
      )}
    </fieldset>
  );
}
