import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { Field } from "../../parts";
import { family, type Paint, type Place } from "../../rules";
import { t } from "../../words";
import { moduleView, roomsInWords, type ModuleView } from "../common";
import type { Laying } from "./laying";
import { batchBefore, NO_PAINT, otherBatches, PAINT_FIELDS, paintOf, paintsUsed, type Painted } from "./paints";

interface PaintFieldsProps {
  view: ModuleView;
  place: Place;
  laying: Laying;
  put: (part: Partial<Laying>) => void;
}

/** Which paint a coat is of; what was used last in the ticked rooms, else anywhere in the module, is offered. */
export function PaintFields({ view, place, laying, put }: PaintFieldsProps) {
  const { coat, rooms, paint } = laying;
  const [open, setOpen] = useState(family(coat) === "paint" || paintOf(paint) !== null);
  const last = paintsUsed(place, coat, rooms)[0] ?? paintsUsed(place, coat, place.rooms)[0];
  const offered = last && JSON.stringify(paintOf({ ...NO_PAINT, ...last })) !== JSON.stringify(paintOf(paint)) ? last : null;
  const painted = (family(coat) === "paint" ? rooms : []).map((room): Painted => ({ module: view.id, room, batch: paint.batch, before: batchBefore(place, room, null) }));
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
      {open && <OnTheCan paint={paint} painted={painted} onInput={(field, text) => put({ paint: { ...paint, [field]: text } })} />}
    </div>
  );
}

interface CanProps {
  paint: Required<Paint>;
  painted: readonly Painted[];
  onInput: (field: keyof Paint, text: string) => void;
}

/** What the can says, and where it stands, so that a touch-up can be of the same. Another batch is said where it is typed. */
export function OnTheCan({ paint, painted, onInput }: CanProps) {
  return (
    <>
      {PAINT_FIELDS.map((field) => (
        <Fragment key={field}>
          <Field label={t(`coats.paint.${field}`)} value={paint[field]} onInput={(text) => onInput(field, text)} />
          {field === "batch" && <OtherBatch painted={painted} />}
        </Fragment>
      ))}
    </>
  );
}

/** Another batch is said before it shows on the wall; of several modules, in which. It stops nothing. */
export function OtherBatch({ painted }: { painted: readonly Painted[] }) {
  const others = otherBatches(painted);
  if (others.length === 0) return null;
  const several = new Set(painted.map(({ module }) => module)).size > 1;
  return (
    <div class="block" role="status">
      {others.map(({ module, rooms, before }) => {
        const view = moduleView(module);
        if (!view) return null;
        const values = { serial: view.serial, rooms: roomsInWords(view, rooms), batch: before };
        return <p key={`${module} ${before}`} class="late strong">{t(several ? "coats.paint.other_in" : "coats.paint.other", values)}</p>;
      })}
    </div>
  );
}
