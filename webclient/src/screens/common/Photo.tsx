import { useEffect, useState } from "preact/hooks";
import { pencilPath } from "../../parts";
import { pictureOf, type Size } from "../../photos";
import { value, type Marked, type PhotoMark, type PhotoPart } from "../../rules";
import { t } from "../../words";
import { devices, nameOf, when } from "./yard";

/** Arrows, rings, words and item numbers over a photo: data, drawn each time. `only`: of one item, so large that it is read in half a screen. */
export function PhotoMarks({ px, marked, numberOf, only }: { px: [number, number]; marked: Marked; numberOf: (item: string) => number | null; only?: string | undefined }) {
  const [w, h] = px;
  const unit = Math.max(w, h) / (only ? 60 : 100);
  return (
    <svg viewBox={`0 0 ${w} ${h}`} aria-hidden="true">
      {marked.marks.map((mark, index) => (
        <MarkOn key={index} mark={mark} unit={unit} />
      ))}
      {marked.items.filter(([item]) => !only || item === only).map(([item, x, y]) => (
        <g key={item}>
          <g transform={`translate(${x - 4 * unit} ${y - 4 * unit}) scale(${(8 * unit) / 240})`} fill="none" stroke-linecap="round">
            {pencilPath("open").lines.map((line) => (
              <path key={line.d} d={line.d} stroke="#fff" stroke-width={line.width * 1.9} />
            ))}
            {pencilPath("open").lines.map((line) => (
              <path key={`${line.d} top`} d={line.d} stroke="#951d0a" stroke-width={line.width} />
            ))}
          </g>
          <text x={x + 5 * unit} y={y + 2.4 * unit} font-size={7 * unit} font-weight="700" fill="#951d0a" stroke="#fff" stroke-width={1.4 * unit} paint-order="stroke">
            {numberOf(item)}
          </text>
        </g>
      ))}
    </svg>
  );
}

function MarkOn({ mark, unit }: { mark: PhotoMark; unit: number }) {
  const ink = { fill: "none", stroke: "#951d0a", "stroke-width": unit, "stroke-linecap": "round" as const };
  if (mark.kind === "ring") return <circle cx={mark.at[0]} cy={mark.at[1]} r={mark.r} {...ink} />;
  if (mark.kind === "text") {
    return (
      <text x={mark.at[0]} y={mark.at[1]} font-size={5 * unit} font-weight="700" fill="#951d0a" stroke="#fff" stroke-width={unit} paint-order="stroke">
        {mark.text}
      </text>
    );
  }
  const [[ax, ay], [bx, by]] = [mark.from, mark.to];
  const turn = Math.atan2(by - ay, bx - ax);
  const wing = (by_: number): string => `${bx - 4 * unit * Math.cos(turn + by_)} ${by - 4 * unit * Math.sin(turn + by_)}`;
  return <path d={`M${ax} ${ay} L${bx} ${by} M${wing(0.5)} L${bx} ${by} L${wing(-0.5)}`} {...ink} />;
}

/** One photo with its marks; where the bytes are elsewhere, whose phone has them. */
export function Photo({ photo, size = "screen", numberOf = () => null, small, only }: { photo: PhotoPart; size?: Size; numberOf?: (item: string) => number | null; small?: boolean; only?: string | undefined }) {
  const [address, setAddress] = useState<string | null>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let here = true;
    setFailed(false);
    void pictureOf(photo.sha256, size).then((found) => here && setAddress(found));
    return () => {
      here = false;
    };
  }, [photo.sha256, photo.arrived]);
  const lost = devices().find(({ id }) => id === photo.device)?.written_off;
  const marks = value(photo.heads, "marked") ?? { items: [], marks: [] };
  const words = `${t(`writeup.${photo.shows}`)}, ${nameOf(photo.by)}, ${when(photo.time)}`;
  if (failed || !address) {
    return <p class="second">{photo.arrived ? words : t(lost ? "writeup.photo_lost" : "writeup.photo_coming", { name: nameOf(photo.by) })}</p>;
  }
  return (
    <figure class={small ? "photo-small" : undefined}>
      <span class="photo-frame">
        <img src={address} alt={words} width={photo.px[0]} height={photo.px[1]} loading="lazy" onError={() => setFailed(true)} />
        <PhotoMarks px={photo.px} marked={marks} numberOf={numberOf} only={only} />
      </span>
      {!small && <figcaption class="second">{words}</figcaption>}
    </figure>
  );
}
