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

/** Walls on which rework lies bare, each in words: dry is not enough there for paint. */
export const bareWords = ({ view, place, rooms, kind }: BareProps): string[] =>
  rooms.flatMap((room) => bareWalls(place, room, kind).map((surface) => {
    const top = tops(place, room).find(([wall]) => wall === surface)?.[1];
    return t("coats.bare_wall", { wall: `${roomName(view, room)}, ${wallWords(view, room, surface)}`, coat: top ? coatName(top.coat) : "" });
  }));

/** The same where paint is about to go on. */
export function BareWalls(of: BareProps) {
  return <>{bareWords(of).map((words) => <p key={words} class="late">{words}</p>)}</>;
}
