import { drawn } from "../../journal";
import { countOf, faceOf, StateCounts, SurfaceList, UnfoldedRoom, WALK, type Surface } from "../../parts";
import { go, to } from "../../route";
import { t } from "../../words";
import { has, inRoom, marked, mayWrite, moduleView, placeLine, Screen, type ModuleView, type RoomView } from "../common";
import { RoomCoats } from "../coats/CoatLine";
import { Gone } from "../module/Module";

/** The surfaces of a room, with the names by which one knows them. */
export function surfacesOf(view: ModuleView, room: RoomView): { surface: Surface; sight: string }[] {
  return WALK.map((surface) => ({ surface, sight: (room.plan && faceOf(room.plan, surface, view.mirrored)?.sight) || "" }));
}

/** The unfolded room: tap a wall to face it. */
export function Room({ module, room: key }: { module: string; room: string }) {
  drawn(module);
  const view = moduleView(module);
  const room = view?.rooms.find((one) => one.key === key);
  if (!view || !room) return <Gone />;
  const items = inRoom(view, key);
  const marks = items.map(marked);
  const cleared = items.filter((item) => item.state === "cleared").length;
  const face = (surface: Surface): void => go(to.wall(module, key, surface));
  const firstWall = (): void => face("A");
  const recheck = { label: t("yard.recheck_n", { n: cleared }), onPress: () => go(to.recheck(module, key)) };
  const writeUp = { label: t("writeup.write_up"), onPress: firstWall };
  const can = mayWrite("item.logged");
  return (
    <Screen
      title={room.name}
      line={placeLine(view)}
      over={view.serial}
      overHref={to.module(module)}
      breadth={room.plan ? "broad" : undefined}
      slabs={can ? (has("inspector") && cleared > 0 ? { main: writeUp, beside: recheck } : { main: writeUp }) : undefined}
    >
      <div class={room.plan ? "side-by-side" : undefined}>
        <div>
          {room.plan && <UnfoldedRoom room={room.plan} mirrored={view.mirrored} marks={marks} title={room.name} onFace={face} />}
          <StateCounts counts={countOf(marks)} />
          <RoomCoats view={view} room={key} />
          <p class="key-row">
            <a class="key key-link" href={to.paint(module, key)}>{t("yard.before_paint")}</a>
            <a class="key key-link" href={to.air(module, key)}>{t("yard.read_air")}</a>
          </p>
        </div>
        <SurfaceList surfaces={surfacesOf(view, room)} marks={marks} onFace={face} />
      </div>
    </Screen>
  );
}
