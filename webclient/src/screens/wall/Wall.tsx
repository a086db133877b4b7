import { newId } from "../../clock";
import { drawn, write } from "../../journal";
import { Choice, faceOf, FacedWall, KindPicker, LETTERS, MarkRow, placeInWords, SpotArrows, surfaceInWords, WordsSpot, type Marked, type Surface, type WordSpot } from "../../parts";
import { go, to } from "../../route";
import { CURRENT, tables } from "../../rules";
import { say, t, tn } from "../../words";
import { bayOf, crewName, defectOf, inRoom, marked, mayWrite, moduleView, numbers, onlyHere, renumbered, Screen, told, useKept, useSaving, yard, type ModuleView, type RoomView } from "../common";
import { Gone } from "../module/Module";
import { Given } from "./Given";
import { HalfPhotos } from "./HalfPhotos";
import { empty, entriesOf, leftOver, NOTHING_USED, type Half, type LastUsed, type Tap } from "./WriteUp";

const WALK: Surface[] = [...LETTERS, "ceiling", "floor", "trim"];

/** Facing a wall: kind first, then tap each spot; one press saves them all. */
export function Wall({ module, room: key, surface }: { module: string; room: string; surface: Surface }) {
  drawn(module);
  const view = moduleView(module);
  const room = view?.rooms.find((one) => one.key === key);
  if (!view || !room) return <Gone />;
  return <Facing key={`${module} ${key} ${surface}`} view={view} room={room} surface={surface} />;
}

function Facing({ view, room, surface }: { view: ModuleView; room: RoomView; surface: Surface }) {
  const used = useKept<LastUsed>("writeup.last", NOTHING_USED);
  const slot = `writeup ${view.id} ${room.key} ${surface}`;
  const half = useKept<Half | null>(slot, null);
  const { problem, tell, saving } = useSaving();
  const face = room.plan ? faceOf(room.plan as never, surface, view.mirrored) : null;
  const now = half.value ?? empty(used.value);
  const can = mayWrite("item.logged") && half.ready && used.ready;
  const change = (part: Partial<Half> | ((now: Half) => Partial<Half>)): Promise<void> =>
    half.keep((before) => {
      const stands = before ?? empty(used.value);
      return { ...stands, ...(typeof part === "function" ? part(stands) : part) };
    });
  const items = inRoom(view, room.key).filter((item) => item.heads.spot?.at(-1)?.[0].surface === surface);
  const first = view.module.last_number + 1;
  const fresh: Marked[] = now.taps.map((tap, index) => ({ id: tap.id, number: first + index, state: "open", surface, spot: tap.spot, words: tap.words }));
  const last = now.taps.at(-1);
  const name = surfaceInWords(surface, face?.sight ?? "");
  const kindName = now.kind ? say(`defects.${now.kind}`) : "";

  const tap = (place: Omit<Tap, "id">): void => {
    if (!now.kind) tell(t("writeup.nothing_yet"));
    else void change(({ taps }) => ({ taps: [...taps, { id: newId(), ...place }] }));
  };
  const move = (spot: Tap["spot"]): void => {
    if (last && spot) void change({ taps: [...now.taps.slice(0, -1), { ...last, spot }] });
  };
  const save = async (): Promise<void> => {
    const photos = now.photos.map(({ sha256, media, bytes }) => ({ sha256, media, bytes }));
    await write(entriesOf(now, view.id, room.key, surface), photos, { draft: slot });
    const left = leftOver(half.now(), now);
    if (left) void half.keep(left);
    else half.drop();
    told.value = tn("writeup.saved", now.taps.length, { numbers: numbers(fresh.map((mark) => Number(mark.number))) });
    const kinds = [now.kind ?? "", ...used.value.kinds.filter((kind) => kind !== now.kind)].slice(0, 5);
    await used.keep({ kinds, light: now.light, crew: now.crew, charge: now.charge });
  };
  const next = WALK[(WALK.indexOf(surface) + 1) % WALK.length] ?? "A";
  const press = { label: tn("writeup.save", now.taps.length, { kind: kindName }), onPress: () => void saving(save) };
  const takeBack = { label: t("writeup.take_back"), onPress: () => void change(({ taps }) => ({ taps: taps.slice(0, -1) })) };
  const walkOn = { label: t("yard.next_wall"), onPress: () => { told.value = null; go(to.wall(view.id, room.key, next)); } };
  const slabs = now.taps.length > 0 ? { main: press, beside: takeBack } : { main: walkOn };
  return (
    <Screen problem={problem} title={name} line={`${room.name} · ${bayOf(view)}`} over={`${room.name} · ${view.serial}`} overHref={to.room(view.id, room.key)} slabs={slabs}>
      {can && (
        <KindPicker
          kinds={kindOptions()}
          last={used.value.kinds}
          chosen={now.kind}
          onChoose={(kind) => {
            told.value = null;
            tell(null);
            void change({ kind });
          }}
        />
      )}
      {face ? (
        <FacedWall face={face} marks={[...items.map(marked), ...fresh]} lit={last?.id ?? null} onSpot={can ? (spot) => tap({ spot }) : undefined} onMove={move} />
      ) : (
        can && <WordsSpot marks={[...items.map(marked), ...fresh]} lit={last?.id} onSpot={(words: WordSpot) => tap({ words })} onNoSpot={() => tap({})} />
      )}
      {can && now.kind && face && last?.spot && <SpotArrows face={face} spot={last.spot} lead={t("writeup.tap_each", { kind: kindName.toLowerCase() })} onMove={move} />}
      {can && now.kind && !last && <p>{t(face ? "writeup.tap_each" : "writeup.place_each", { kind: kindName.toLowerCase() })}</p>}
      {can && now.kind && (
        <>
          <Choice
            label={t("writeup.seen")}
            options={[{ key: "normal", label: t("writeup.normal") }, { key: "raking", label: t("writeup.raking") }]}
            value={now.light}
            onChange={(light) => void change({ light })}
          />
          <HalfPhotos half={now} marks={fresh} surface={name} onPhotos={(next) => change(({ photos }) => ({ photos: next(photos) }))} keepFirst={() => change({})} />
          <Given crews={yard()?.crews ?? []} crew={now.crew} charge={now.charge} wish={now.wish} onChange={(part) => void change(part)} />
        </>
      )}
      <section class="block">
        <h2>{t("writeup.list")}</h2>
        {items.length + fresh.length === 0 && <p class="second">{t("frame.nothing_here")}</p>}
        {fresh.map((mark) => (
          <MarkRow key={mark.id} state="open" number={mark.number} title={kindName} line={placeInWords(mark)} side={<button type="button" class="key" onClick={() => void change(({ taps }) => ({ taps: taps.filter((one) => one.id !== mark.id) }))}>{t("writeup.take_this_back")}</button>} />
        ))}
        {items.map((item) => (
          <MarkRow key={item.id} state={marked(item).state} number={item.number} title={defectOf(item)} line={[placeInWords(marked(item)), crewName(item.heads.crew?.at(-1)?.[0]), renumbered(item), onlyHere(item) ? t("writeup.only_here") : ""].filter(Boolean).join(" · ")} href={to.item(view.id, item.id)} />
        ))}
      </section>
    </Screen>
  );
}

export function kindOptions(): { key: string; label: string }[] {
  return Object.keys(tables(CURRENT).defects).map((key) => ({ key, label: say(`defects.${key}`) }));
}
