import { language, t } from "../words";
import { onSheet, unfold, WALK, wayIn, type Box, type Laid, type Point, type RoomPlan, type Spot, type Surface } from "./geometry";
import { placeLabels } from "./labels";
import { feetInches } from "./lengths";
import { drawn, surfaceAndCounts, surfaceInWords, type Marked } from "./marked";
import { placeName, type Corner } from "./names";
import { NumberedMark } from "./PencilMark";
import { shareOfHeight, useWidth } from "./size";
import "./marks.css";
import "./drawing.css";

export interface UnfoldedRoomProps {
  room: RoomPlan;
  mirrored?: boolean | undefined;
  marks: readonly Marked[];
  /** The room's name, for the drawing's accessible name. */
  title: string;
  onFace: (surface: Surface) => void;
  /** The tallest the drawing may be, in pixels. */
  maxHeight?: number | undefined;
}

const MARK = 17;
const TARGET = 48;

function scaled(box: Box, scale: number): Box {
  return { x: box.x * scale, y: box.y * scale, w: box.w * scale, h: box.h * scale };
}

/** What a finger may hit: the box, grown where it is smaller than a thumb; the floor borrows from the walls round it. */
function hitBox(face: Laid, box: Box): Box {
  const side = face.surface === "B" || face.surface === "D";
  const growX = side ? 0 : Math.max(0, TARGET - box.w);
  const growY = side || face.surface === "floor" ? Math.max(0, TARGET - box.h) : 0;
  const growUp = face.surface === "ceiling" ? Math.max(0, TARGET - box.h) : 0;
  return { x: box.x - growX / 2, y: box.y - growY / 2 - growUp, w: box.w + growX, h: box.h + growY + growUp };
}

function FaceLines({ face, scale }: { face: Laid; scale: number }) {
  const box = scaled(face.box, scale);
  return (
    <g>
      <rect class={face.surface === "floor" ? "floor" : "face"} x={box.x} y={box.y} width={box.w} height={box.h} />
      {face.thingBoxes.map((thing, index) => {
        const on = scaled(thing, scale);
        return <rect key={`thing ${index}`} class="thing" x={on.x} y={on.y} width={on.w} height={on.h} />;
      })}
      {face.openingBoxes.map((opening, index) => {
        const on = scaled(opening, scale);
        return <rect key={`opening ${index}`} class={`opening opening-${opening.kind}`} x={on.x} y={on.y} width={on.w} height={on.h} />;
      })}
    </g>
  );
}

interface FaceButtonProps {
  face: Laid;
  box: Box;
  corner: Corner;
  sight: string;
  marks: readonly Marked[];
  onFace: (surface: Surface) => void;
}

function FaceButton({ face, box, corner, sight, marks, onFace }: FaceButtonProps) {
  const hit = hitBox(face, box);
  const letter = face.surface.length === 1;
  return (
    <button
      type="button"
      class={`face-button in-${corner.replace(" ", " in-")} face-${face.surface}`}
      style={{
        left: `${hit.x}px`,
        top: `${hit.y}px`,
        width: `${hit.w}px`,
        height: `${hit.h}px`,
        padding: `${box.y - hit.y + 2}px ${hit.x + hit.w - box.x - box.w + 5}px ${hit.y + hit.h - box.y - box.h + 2}px ${box.x - hit.x + 5}px`,
      }}
      aria-label={surfaceAndCounts(face.surface, face.sight, marks)}
      onClick={() => onFace(face.surface)}
    >
      <span aria-hidden="true">
        {letter ? <b>{face.surface}</b> : surfaceInWords(face.surface)} {sight}
      </span>
    </button>
  );
}

/** The marks of one surface and its name, placed so that neither hides the other. */
function layMarks(face: Laid, scale: number, marks: readonly Marked[]) {
  const box = scaled(face.box, scale);
  const inside = (value: number, from: number, long: number): number =>
    Math.min(Math.max(value * scale, from + MARK / 2 + 1), from + long - MARK / 2 - 1);
  const toBox = (spot: Spot): Point => {
    const at = onSheet(face.box, face.surface, spot);
    return { x: inside(at.x, box.x, box.w), y: inside(at.y, box.y, box.h) };
  };
  const found = drawn(marks, face, toBox, MARK);
  const lines = [...face.openingBoxes, ...face.thingBoxes].map((one) => scaled(one, scale));
  const name = placeName(face, box, lines, found, MARK);
  const space = { bounds: box, mark: MARK, figure: 9.2, line: 17, taken: [name.box], mayLeaveOut: true };
  const states = new Map(found.map((mark) => [mark.id, mark.state]));
  const placed = placeLabels(found, space).map((mark) => ({ ...mark, state: states.get(mark.id) ?? ("open" as const) }));
  return { face, box, placed, corner: name.corner, sight: name.sight };
}

/** What stands in the empty corners of the sheet: what to do, and how large the room is. */
function Notes({ room, corner, wide }: { room: RoomPlan; corner: number | null; wide: number }) {
  const said = (mm: number): string => feetInches(mm, language.value).replaceAll(" ", "\u00a0");
  const size = t("frame.size", { l: said(room.l), w: said(room.w), h: said(room.h) });
  if (corner === null) {
    return (
      <p class="unfolded-notes second">
        <span>{t("frame.tap_a_wall")}</span>
        <span>{size}</span>
      </p>
    );
  }
  const width = `${corner - 14}px`;
  return (
    <>
      <p class="sheet-note second" style={{ left: 0, width }}>
        {t("frame.tap_a_wall")}
      </p>
      <p class="sheet-note second" style={{ left: `${wide - corner + 14}px`, width }}>
        {size}
      </p>
    </>
  );
}

/** A room laid flat round its floor, to scale. A tap anywhere on a surface faces it. */
export function UnfoldedRoom({ room, mirrored = false, marks, title, onFace, maxHeight }: UnfoldedRoomProps) {
  const { ref, width } = useWidth(358);
  const sheet = unfold(room, mirrored);
  const scale = Math.min((width - 2) / sheet.width, (maxHeight ?? shareOfHeight(0.54, 300)) / sheet.height);
  const wide = sheet.width * scale;
  const high = sheet.height * scale;
  const headroom = Math.max(2, TARGET - room.w * scale);
  const corner = room.h * scale;
  const roomy = corner >= 92 && (room.w + room.h) * scale >= 110;
  const laid = sheet.faces.map((face) => layMarks(face, scale, marks));
  const faces = [...laid].sort((a, b) => WALK.indexOf(a.face.surface) - WALK.indexOf(b.face.surface));
  const style = { width: `${wide}px`, height: `${high}px`, marginTop: `${headroom}px` };
  return (
    <div class="unfolded" ref={ref}>
      {!roomy && <Notes room={room} corner={null} wide={wide} />}
      <div class="sheet" role="group" aria-label={`${title}. ${t("frame.room_drawing")}`} style={style}>
        {roomy && <Notes room={room} corner={corner} wide={wide} />}
        <svg width={wide} height={high} viewBox={`0 0 ${wide} ${high}`} aria-hidden="true">
          {sheet.faces.map((face) => (
            <FaceLines key={face.surface} face={face} scale={scale} />
          ))}
          {laid.flatMap(({ placed }) => placed.map((mark) => <NumberedMark key={mark.id} mark={mark} size={MARK} />))}
        </svg>
        {faces.map(({ face, box, corner: at, sight }) => (
          <FaceButton key={face.surface} face={face} box={box} corner={at} sight={sight} marks={marks} onFace={onFace} />
        ))}
      </div>
      <ComeIn sheet={sheet} scale={scale} wide={wide} middle={(room.h + room.l / 2) * scale} />
    </div>
  );
}

/** The arrow that says where one comes in, under the drawing. */
function ComeIn({ sheet, scale, wide, middle }: { sheet: ReturnType<typeof unfold>; scale: number; wide: number; middle: number }) {
  const way = wayIn(sheet);
  const onC = way === null || way.surface === "C" || way.surface === "A";
  const arrow = onC ? "↑" : way.surface === "B" ? "←" : "→";
  const x = way?.surface === "C" ? way.at.x * scale : onC ? middle : way.surface === "B" ? wide - 130 : 60;
  return (
    <p class="come-in second" style={{ paddingLeft: `${Math.max(0, Math.min(x - 8, wide - 150))}px`, width: `${wide}px` }}>
      <span aria-hidden="true">{arrow}</span> {t("frame.come_in")}
    </p>
  );
}
