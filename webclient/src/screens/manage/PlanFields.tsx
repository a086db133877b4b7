import { useState } from "preact/hooks";
import { Field, LETTERS, UnfoldedRoom, type Letter, type Surface } from "../../parts";
import { say, t } from "../../words";
import { drawable, emptyRoom, type PlanForm, type RoomForm, type Wrong } from "./planForm";
import { RoomFields } from "./RoomFields";

interface PlanFieldsProps {
  form: PlanForm;
  wrong: Wrong;
  onChange: (form: PlanForm) => void;
}

/** The plan's name, its rooms as keys, one room open, and that room laid flat as it is typed. */
export function PlanFields({ form, wrong, onChange }: PlanFieldsProps) {
  const [chosen, setChosen] = useState(form.rooms[0]?.id ?? "");
  const [wall, setWall] = useState<Letter>("A");
  const room = form.rooms.find(({ id }) => id === chosen) ?? form.rooms[0];
  const change = (next: RoomForm): void => onChange({ ...form, rooms: form.rooms.map((one) => (one.id === next.id ? next : one)) });
  const add = (): void => {
    const next = emptyRoom(form.rooms.at(-1));
    onChange({ ...form, rooms: [...form.rooms, next] });
    setChosen(next.id);
    setWall("A");
  };
  const face = (surface: Surface): void => {
    const letter = LETTERS.find((one) => one === surface);
    if (letter) setWall(letter);
  };
  const takeOut = (id: string): void => onChange({ ...form, rooms: form.rooms.filter((one) => one.id !== id) });
  return (
    <>
      <Field label={t("manager.plan_name")} value={form.name} error={wrong["name"] ? say(wrong["name"]) : null} onInput={(name) => onChange({ ...form, name })} />
      <RoomKeys form={form} wrong={wrong} chosen={room?.id ?? ""} onChoose={setChosen} onAdd={add} />
      {room && (
        <div class="side-by-side">
          <div class="plan-drawing">
            <Live room={room} onFace={face} />
          </div>
          <div>
            <RoomFields key={room.id} room={room} wall={wall} wrong={wrong} onWall={setWall} onChange={change} onTakeOut={() => takeOut(room.id)} />
          </div>
        </div>
      )}
    </>
  );
}

interface RoomKeysProps {
  form: PlanForm;
  wrong: Wrong;
  chosen: string;
  onChoose: (id: string) => void;
  onAdd: () => void;
}

function RoomKeys({ form, wrong, chosen, onChoose, onAdd }: RoomKeysProps) {
  const faulty = (id: string): boolean => Object.keys(wrong).some((path) => path.startsWith(`${id} `));
  return (
    <section class="block">
      <h2>{t("yard.rooms")}</h2>
      {wrong["rooms"] && <p class="field-error">{say(wrong["rooms"])}</p>}
      <div class="key-row">
        {form.rooms.map((room) => (
          <button key={room.id} type="button" class="key" aria-pressed={room.id === chosen ? "true" : "false"} onClick={() => onChoose(room.id)}>
            {room.name.trim() || t("manager.new_room")}
            {faulty(room.id) && `: ${t("manager.look_here")}`}
          </button>
        ))}
        <button type="button" class="key" onClick={onAdd}>
          {t("manager.add_room")}
        </button>
      </div>
    </section>
  );
}

function Live({ room, onFace }: { room: RoomForm; onFace: (surface: Surface) => void }) {
  const plan = drawable(room);
  const name = room.name.trim() || t("manager.new_room");
  if (!plan) return <p class="second">{t("manager.drawn_when")}</p>;
  return (
    <section>
      <h2>{name}</h2>
      <UnfoldedRoom room={plan} marks={[]} title={name} onFace={onFace} />
    </section>
  );
}
