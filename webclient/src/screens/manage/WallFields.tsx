import type { ComponentChildren } from "preact";
import { Choice, Field, surfaceInWords, type Letter } from "../../parts";
import { say, t } from "../../words";
import { BOX, emptyOpening, emptyThing, pathOf, type BoxForm, type OpeningForm, type ThingForm, type WallForm, type Wrong } from "./planForm";

const KINDS = ["door", "window", "open"] as const;

interface WallFieldsProps {
  room: string;
  letter: Letter;
  wall: WallForm;
  wrong: Wrong;
  onChange: (wall: WallForm) => void;
}

/** One wall: its name by sight, its openings, and what stands on it. Measured from the left as one faces it, and from the floor. */
export function WallFields({ room, letter, wall, wrong, onChange }: WallFieldsProps) {
  const openings = (next: OpeningForm[]): void => onChange({ ...wall, openings: next });
  const things = (next: ThingForm[]): void => onChange({ ...wall, things: next });
  return (
    <div class="frame" role="group" aria-label={surfaceInWords(letter, wall.sight.trim())}>
      <h3>{surfaceInWords(letter, wall.sight.trim())}</h3>
      <Field label={t("manager.sight")} value={wall.sight} hint={t("manager.sight_hint")} onInput={(sight) => onChange({ ...wall, sight })} />
      {wall.openings.map((one, at) => {
        const change = (part: Partial<OpeningForm>): void => openings(wall.openings.with(at, { ...one, ...part }));
        const path = pathOf(room, letter, "opening", at);
        return (
          <BoxFields key={path} box={one} path={path} wrong={wrong} name={t(`manager.${one.kind}`)} onChange={change} onTakeOut={() => openings(wall.openings.toSpliced(at, 1))}>
            <Choice label={t("manager.opening_kind")} options={KINDS.map((key) => ({ key, label: t(`manager.${key}`) }))} value={one.kind} onChange={(kind) => change({ kind })} />
          </BoxFields>
        );
      })}
      {wall.things.map((one, at) => {
        const change = (part: Partial<ThingForm>): void => things(wall.things.with(at, { ...one, ...part }));
        const path = pathOf(room, letter, "thing", at);
        return (
          <BoxFields key={path} box={one} path={path} wrong={wrong} name={one.name.trim() || t("manager.thing")} onChange={change} onTakeOut={() => things(wall.things.toSpliced(at, 1))}>
            <Field label={t("manager.thing_name")} value={one.name} error={sentence(wrong, `${path} name`)} onInput={(name) => change({ name })} />
          </BoxFields>
        );
      })}
      <div class="key-row">
        {KINDS.map((kind) => (
          <button key={kind} type="button" class="key" onClick={() => openings([...wall.openings, emptyOpening(kind)])}>
            {t(`manager.add_${kind}`)}
          </button>
        ))}
        <button type="button" class="key" onClick={() => things([...wall.things, emptyThing()])}>
          {t("manager.add_thing")}
        </button>
      </div>
    </div>
  );
}

const sentence = (wrong: Wrong, path: string): string | null => (wrong[path] ? say(wrong[path]) : null);

interface BoxFieldsProps {
  box: BoxForm;
  path: string;
  wrong: Wrong;
  name: string;
  onChange: (box: Partial<BoxForm>) => void;
  onTakeOut: () => void;
  children: ComponentChildren;
}

function BoxFields({ box, path, wrong, name, onChange, onTakeOut, children }: BoxFieldsProps) {
  return (
    <div class="box-fields" role="group" aria-label={name}>
      {children}
      <div class="in-row pair-fields">
        {BOX.map((side) => (
          <Field key={side} label={t(`manager.box_${side}`)} value={box[side]} error={sentence(wrong, `${path} ${side}`)} onInput={(typed) => onChange({ [side]: typed })} />
        ))}
      </div>
      <div class="key-row">
        <button type="button" class="key" onClick={onTakeOut}>
          {t("manager.take_out", { what: name })}
        </button>
      </div>
    </div>
  );
}
