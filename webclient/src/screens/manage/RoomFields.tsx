import { Choice, Field, LETTERS, surfaceInWords, type Letter } from "../../parts";
import { say, t } from "../../words";
import type { RoomForm, Wrong } from "./planForm";
import { WallFields } from "./WallFields";

interface RoomFieldsProps {
  room: RoomForm;
  wall: Letter;
  wrong: Wrong;
  onWall: (wall: Letter) => void;
  onChange: (room: RoomForm) => void;
  onTakeOut: () => void;
}

/** One room: name, three measures, and what is on the wall that is chosen here or in the drawing. */
export function RoomFields({ room, wall, wrong, onWall, onChange, onTakeOut }: RoomFieldsProps) {
  const error = (field: string): string | null => {
    const key = wrong[`${room.id} ${field}`];
    return key ? say(key) : null;
  };
  const measure = (side: "l" | "w" | "h") => <Field label={t(`manager.room_${side}`)} value={room[side]} error={error(side)} onInput={(typed) => onChange({ ...room, [side]: typed })} />;
  return (
    <section class="block">
      <Field label={t("yard.room_name")} value={room.name} error={error("name")} onInput={(name) => onChange({ ...room, name })} />
      <div class="in-row pair-fields three-fields">
        {measure("l")}
        {measure("w")}
        {measure("h")}
      </div>
      <p class="second">{t("manager.lengths_hint")}</p>
      <Choice<Letter> label={t("manager.wall")} options={LETTERS.map((key) => ({ key, label: surfaceInWords(key, room.walls[key].sight.trim()) }))} value={wall} onChange={onWall} />
      <WallFields key={wall} room={room.id} letter={wall} wall={room.walls[wall]} wrong={wrong} onChange={(next) => onChange({ ...room, walls: { ...room.walls, [wall]: next } })} />
      <div class="key-row">
        <button type="button" class="key" onClick={onTakeOut}>
          {t("manager.take_out_room", { room: room.name.trim() || t("manager.new_room") })}
        </button>
      </div>
    </section>
  );
}
