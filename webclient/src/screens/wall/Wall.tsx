import { drawn } from "../../journal";
import { Choice, faceOf, FacedWall, KindPicker, MarkRow, placeInWords, SpotArrows, surfaceInWords, WALK, WordsSpot, type Face, type Marked, type SlabsProps, type Surface, type WordSpot } from "../../parts";
import { go, to } from "../../route";
import { CURRENT, tables, type ItemPart } from "../../rules";
import { say, t, tn } from "../../words";
import { bayOf, crewName, defectOf, inRoom, marked, moduleView, onlyHere, renumbered, Screen, told, yard, type ModuleView, type RoomView } from "../common";
import { Gone } from "../module/Module";
import { Given } from "./Given";
import { HalfPhotos } from "./HalfPhotos";
import { useWritingUp, type WritingUp } from "./writingUp";

/** Facing a wall: kind first, then tap each spot; one press saves them all. */
export function Wall({ module, room: key, surface }: { module: string; room: string; surface: Surface }) {
  drawn(module);
  const view = moduleView(module);
  const room = view?.rooms.find((one) => one.key === key);
  if (!view || !room) return <Gone />;
  return <Facing key={`${module} ${key} ${surface}`} view={view} room={room} surface={surface} />;
}

function Facing({ view, room, surface }: { view: ModuleView; room: RoomView; surface: Surface }) {
  const writing = useWritingUp(view, room, surface);
  const { can, now } = writing;
  const face = room.plan ? faceOf(room.plan, surface, view.mirrored) : null;
  const items = inRoom(view, room.key).filter((item) => item.heads.spot?.at(-1)?.[0].surface === surface);
  const name = surfaceInWords(surface, face?.sight ?? "");
  const onward = (): void => {
    told.value = null;
    go(to.wall(view.id, room.key, WALK[(WALK.indexOf(surface) + 1) % WALK.length] ?? "A"));
  };
  return (
    <Screen problem={writing.problem} title={name} line={`${room.name} · ${bayOf(view)}`} over={`${room.name} · ${view.serial}`} overHref={to.room(view.id, room.key)} slabs={slabsOf(writing, onward)}>
      {can && !now.kind && items.length === 0 && <p class="second">{t("writeup.nothing_yet")}</p>}
      {can && <KindPicker kinds={kindOptions()} last={writing.lastKinds} chosen={now.kind} onChoose={writing.choose} />}
      <Where writing={writing} face={face} marks={items.map(marked)} />
      {can && now.kind && <HowSeen writing={writing} surface={name} />}
      <OnThisWall writing={writing} module={view.id} items={items} />
    </Screen>
  );
}

const kindName = (kind: string | null): string => (kind ? say(`defects.${kind}`) : "");

function slabsOf({ now, change, save }: WritingUp, onward: () => void): SlabsProps {
  if (now.taps.length === 0) return { main: { label: t("yard.next_wall"), onPress: onward } };
  const takeBack = { label: t("writeup.take_back"), onPress: () => void change(({ taps }) => ({ taps: taps.slice(0, -1) })) };
  return { main: { label: tn("writeup.save", now.taps.length, { kind: kindName(now.kind) }), onPress: save }, beside: takeBack };
}

/** The wall to tap, or words where nobody has measured; the last tap is read back and can be moved. */
function Where({ writing: { can, now, fresh, tap, move }, face, marks }: { writing: WritingUp; face: Face | null; marks: Marked[] }) {
  const last = now.taps.at(-1);
  const kind = kindName(now.kind).toLowerCase();
  const all = [...marks, ...fresh];
  return (
    <>
      {face && <FacedWall face={face} marks={all} lit={last?.id ?? null} onSpot={can ? (spot) => tap({ spot }) : undefined} onMove={move} />}
      {!face && can && <WordsSpot marks={all} lit={last?.id} onSpot={(words: WordSpot) => tap({ words })} onNoSpot={() => tap({})} />}
      {can && now.kind && face && last?.spot && <SpotArrows face={face} spot={last.spot} lead={t("writeup.tap_each", { kind })} onMove={move} />}
      {can && now.kind && !last && <p>{t(face ? "writeup.tap_each" : "writeup.place_each", { kind })}</p>}
    </>
  );
}

/** Light, photos, crew and charge: what goes for all that is saved with one press. */
function HowSeen({ writing: { now, fresh, change }, surface }: { writing: WritingUp; surface: string }) {
  return (
    <>
      <Choice
        label={t("writeup.seen")}
        options={[{ key: "normal", label: t("writeup.normal") }, { key: "raking", label: t("writeup.raking") }]}
        value={now.light}
        onChange={(light) => void change({ light })}
      />
      <HalfPhotos half={now} marks={fresh} surface={surface} onPhotos={(next) => change(({ photos }) => ({ photos: next(photos) }))} keepFirst={() => change({})} />
      <Given crews={yard()?.crews ?? []} crew={now.crew} charge={now.charge} wish={now.wish} onChange={(part) => void change(part)} />
    </>
  );
}

function OnThisWall({ writing: { now, fresh, change }, module, items }: { writing: WritingUp; module: string; items: readonly ItemPart[] }) {
  const takeBack = (id: string): void => void change(({ taps }) => ({ taps: taps.filter((one) => one.id !== id) }));
  return (
    <section class="block">
      <h2>{t("writeup.list")}</h2>
      {items.length + fresh.length === 0 && <p class="second">{t("frame.nothing_here")}</p>}
      {fresh.map((mark) => (
        <MarkRow key={mark.id} state="open" number={mark.number} title={kindName(now.kind)} line={placeInWords(mark)} side={<button type="button" class="key" onClick={() => takeBack(mark.id)}>{t("writeup.take_this_back")}</button>} />
      ))}
      {items.map((item) => (
        <MarkRow key={item.id} state={marked(item).state} number={item.number} title={defectOf(item)} line={itemLine(item)} href={to.item(module, item.id)} />
      ))}
    </section>
  );
}

function itemLine(item: ItemPart): string {
  const words = [placeInWords(marked(item)), item.heads.crew?.at(-1)?.[0] ? crewName(item.heads.crew.at(-1)?.[0]) : t("writeup.no_crew"), renumbered(item), onlyHere(item) ? t("writeup.only_here") : ""];
  return words.filter(Boolean).join(" · ");
}

export function kindOptions(): { key: string; label: string }[] {
  return Object.keys(tables(CURRENT).defects).map((key) => ({ key, label: say(`defects.${key}`) }));
}
