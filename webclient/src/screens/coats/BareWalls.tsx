import { bareWalls, tops, type Family, type Place } from "../../rules";
import { t } from "../../words";
import { coatName, roomName, type ModuleView } from "../common";
import { wallWords } from "./sentences";

interface BareProps {
  view: ModuleView;
  place: Place;
  rooms: readonly string[];
  /** Of the coat that goes on. */
  kind: Family;
}

/** Said before paint goes on a room: walls on which rework lies bare. Dry is not enough there. */
export function BareWalls({ view, place, rooms, kind }: BareProps) {
  const walls = rooms.flatMap((room) => bareWalls(place, room, kind).map((surface) => ({ room, surface, top: tops(place, room).find(([wall]) => wall === surface)?.[1] })));
  return (
    <>
      {walls.map(({ room, surface, top }) => (
        <p key={`${room} ${surface}`} class="late">{t("coats.bare_wall", { wall: `${roomName(view, room)}, ${wallWords(view, room, surface)}`, coat: top ? coatName(top.coat) : "" })}</p>
      ))}
    </>
  );
}
