import type { ComponentChildren } from "preact";
import { faceOf, FacedWall, SURFACES, surfaceInWords, type Surface } from "../../parts";
import type { ItemPart } from "../../rules";
import { marked, spotOf, type ModuleView, type RoomView } from "./yard";

export interface Group {
  key: string;
  view: ModuleView;
  room: RoomView;
  surface: Surface;
  items: ItemPart[];
}

/** Items by wall, as one walks: rooms in the plan's order, walls clockwise. */
export function byWall(view: ModuleView, items: readonly ItemPart[]): Group[] {
  return view.rooms.flatMap((room) =>
    SURFACES.flatMap((surface) => {
      const here = items.filter((item) => spotOf(item)?.room === room.key && spotOf(item)?.surface === surface);
      return here.length > 0 ? [{ key: `${view.id} ${room.key} ${surface}`, view, room, surface, items: here }] : [];
    }),
  );
}

interface WallGroupProps {
  group: Group;
  children: ComponentChildren;
  foot?: ComponentChildren;
  head?: "h2" | "h3";
  /** How the wall itself stands. */
  told?: { words: string; late: boolean; doubts: string } | null;
}

/** One wall with what is on it: the drawing, then a row for each. */
export function WallGroup({ group, children, foot, head: Head = "h3", told = null }: WallGroupProps) {
  const { view, room, surface, items } = group;
  const face = room.plan ? faceOf(room.plan, surface, view.mirrored) : null;
  return (
    <section class="wall-group">
      <Head>
        {room.name}, {surfaceInWords(surface, face?.sight ?? "")}
      </Head>
      {face && <FacedWall face={face} marks={items.map(marked)} maxHeight={170} />}
      {told && <p class={told.late ? "late strong" : "strong"}>{told.words}</p>}
      {told?.doubts && <p class="second">{told.doubts}</p>}
      {children}
      {foot}
    </section>
  );
}
