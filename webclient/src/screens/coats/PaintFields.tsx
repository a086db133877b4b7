import { useState } from "preact/hooks";
import { Field } from "../../parts";
import { batches, family, type Paint, type Place } from "../../rules";
import { t } from "../../words";
import { roomsInWords, type ModuleView } from "../common";
import { NO_PAINT, otherBatch, paintOf, type Laying } from "./laying";

interface PaintFieldsProps {
  view: ModuleView;
  place: Place;
  laying: Laying;
  put: (part: Partial<Laying>) => void;
}
const FIELDS = ["product", "colour", "batch", "can"] as const;

/** The paint used last: in the ticked rooms, else anywhere in the module, of what the coat is. */
function usedLast(place: Place, { coat, rooms }: Laying): Paint | null {
  const same = place.coats.filter((one) => one.paint && family(one.coat) === family(coat)).reverse();
  return (same.find((one) => one.rooms.some((room) => rooms.includes(room))) ?? same[0])?.paint ?? null;
}

/** Which paint it is, so that a touch-up can be of the same; another batch is said before it shows on the wall. */
export function PaintFields({ view, place, laying, put }: PaintFieldsProps) {
  const [open, setOpen] = useState(family(laying.coat) === "paint" || paintOf(laying.paint) !== null);
  const last = usedLast(place, laying);
  const batchOf = (room: string): string | undefined => batches(place, room).at(-1)?.batch;
  const others = family(laying.coat) === "paint" ? otherBatch(laying.paint.batch, laying.rooms, batchOf) : [];
  const before = [...new Set(others.flatMap((room) => batchOf(room) ?? []))].join(", ");
  const offered = last && JSON.stringify(paintOf({ ...NO_PAINT, ...last })) !== JSON.stringify(paintOf(laying.paint)) ? last : null;
  return (
    <div class="block">
      {offered && (
        <button type="button" class="key" onClick={() => {
          setOpen(true);
          put({ paint: { ...NO_PAINT, ...offered } });
        }}>
          {t("coats.paint.last")}: {[offered.product, offered.colour, offered.batch].filter(Boolean).join(", ")}
        </button>
      )}
      {!open && (
        <button type="button" class="surface-key" aria-expanded="false" onClick={() => setOpen(true)}>
          {t("coats.paint")}
        </button>
      )}
      {open && FIELDS.map((field) => (
        <Field key={field} label={t(`coats.paint.${field}`)} value={laying.paint[field]} onInput={(text) => put({ paint: { ...laying.paint, [field]: text } })} />
      ))}
      {others.length > 0 && <p class="late strong" role="status">{t("coats.paint.other", { rooms: roomsInWords(view, others), batch: before })}</p>}
    </div>
  );
}
