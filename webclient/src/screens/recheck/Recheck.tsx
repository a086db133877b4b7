import { useEffect, useRef } from "preact/hooks";
import { drawn } from "../../journal";
import { Field, itemMark, ItemRow, Pick, type SlabsProps } from "../../parts";
import { NoPhoto, take } from "../../photos";
import { go, to } from "../../route";
import { value, type ItemPart, type PhotoPart } from "../../rules";
import { say, t } from "../../words";
import { byWall, defectOf, inRoom, mayWrite, moduleView, nameOf, numbers, Photo, placeLine, Screen, sendBackReasons, WallGroup, when, type ModuleView, type RoomView } from "../common";
import { Gone } from "../module/Module";
import { PhotoKey } from "../wall/HalfPhotos";
import { own, useJudging, type Back, type Judging } from "./judging";

/** Cleared items by wall, before and after side by side; close one or all, or send back. */
export function Recheck({ module, room: key }: { module: string; room: string }) {
  drawn(module);
  const view = moduleView(module);
  const room = view?.rooms.find((one) => one.key === key);
  return view && room ? <Judging key={`${module} ${key}`} view={view} room={room} /> : <Gone />;
}

function Judging({ view, room }: { view: ModuleView; room: RoomView }) {
  const judging = useJudging(view, room);
  const { cleared, chosen, back, picked, pick, setBack } = judging;
  return (
    <Screen problem={judging.problem} title={t("recheck.title", { room: room.name })} line={placeLine(view)} over={`${room.name} · ${view.serial}`} overHref={to.room(view.id, room.key)} slabs={slabsOf(view, room, judging)}>
      {cleared.length === 0 ? <p>{t("recheck.none")}</p> : <p class="second">{t("recheck.judge")}</p>}
      {back && chosen.length > 0 && <SendBack back={back} onChange={(part) => setBack((now) => ({ ...now, ...part }))} onProblem={judging.tell} />}
      {byWall(view, cleared).map((group) => (
        <WallGroup key={group.key} group={group} head="h2" foot={group.items.length > 1 ? <button type="button" class="key" onClick={() => pick(group.items.filter((item) => !own(item)).map(({ id }) => id), true)}>{t("recheck.pick_all")}</button> : undefined}>
          {group.items.map((item) => (
            <div key={item.id}>
              <ItemRow state={itemMark(item)} number={item.number} title={defectOf(item)} line={clearedWords(item)} href={to.item(view.id, item.id)} checked={picked.has(item.id)} onCheck={(on) => pick([item.id], on)} blocked={own(item) ? t("recheck.own_hands") : null} />
              <BeforeAfter view={view} item={item} />
            </div>
          ))}
        </WallGroup>
      ))}
    </Screen>
  );
}

/** Close, or send back with a reason; on to the next room where nothing is left. */
function slabsOf(view: ModuleView, room: RoomView, { cleared, chosen, back, close, sendBack, setBack }: Judging): SlabsProps | undefined {
  const list = numbers(chosen.map(({ number }) => number));
  if (back && chosen.length > 0) {
    return { main: { label: t("recheck.send_back", { numbers: list }), onPress: sendBack }, beside: { label: t("frame.never_mind"), onPress: () => setBack(() => null) } };
  }
  if (cleared.length > 0) {
    const why = !mayWrite("item.closed") ? t("recheck.not_inspector") : chosen.length === 0 ? t("recheck.pick") : chosen.some(own) ? t("recheck.own_hands") : null;
    const backing = { label: t("recheck.send_back", { numbers: list }), onPress: () => setBack((now) => now), why: chosen.length === 0 ? t("recheck.pick") : null };
    return { main: { label: t("recheck.close", { numbers: list }), onPress: close, why }, beside: backing };
  }
  const next = view.rooms.find((one) => one.key !== room.key && inRoom(view, one.key).some((item) => item.state === "cleared"));
  return next && { main: { label: t("recheck.next_room", { room: next.name }), onPress: () => go(to.recheck(view.id, next.key)) } };
}

function clearedWords(item: ItemPart): string {
  const last = item.clears.at(-1);
  return last ? t("recheck.cleared_by", { name: nameOf(last.by), time: when(last.time) }) : "";
}

function BeforeAfter({ view, item }: { view: ModuleView; item: ItemPart }) {
  const mine = view.photos.filter((photo) => value(photo.heads, "marked")?.items.some(([id]) => id === item.id));
  const latest = (shows: PhotoPart["shows"]): PhotoPart | undefined => mine.filter((photo) => photo.shows === shows).at(-1);
  const [before, after] = [latest("before"), latest("after")];
  if (!before && !after) return null;
  const numberOf = (id: string): number | null => (id === item.id ? item.number : null);
  return (
    <div class="pair">
      {before ? <Photo photo={before} numberOf={numberOf} only={item.id} /> : <p class="second">{t("writeup.before")}: {t("recheck.no_photo")}</p>}
      {after ? <Photo photo={after} numberOf={numberOf} only={item.id} /> : <p class="second">{t("writeup.after")}: {t("recheck.no_photo")}</p>}
    </div>
  );
}

function SendBack({ back, onChange, onProblem }: { back: Back; onChange: (part: Partial<Back>) => void; onProblem: (problem: string | null) => void }) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => place.current?.scrollIntoView({ block: "center" }), []);
  const add = async (input: HTMLInputElement): Promise<void> => {
    const file = input.files?.[0];
    if (!file) return;
    try {
      onChange({ photo: await take(file) });
    } catch (error) {
      if (!(error instanceof NoPhoto)) throw error;
      onProblem(say(error.key));
    }
  };
  return (
    <section class="block" ref={place}>
      <Pick label={t("recheck.why")} value={back.reason} options={sendBackReasons()} onChange={(reason) => onChange({ reason })} />
      <Field label={t("recheck.words")} value={back.text} onInput={(text) => onChange({ text })} lines={2} />
      <div class="photo-line">
        <PhotoKey label={t("recheck.photo")} camera onFile={add} />
        {back.photo && <p class="second">{t("frame.photos_one")}</p>}
      </div>
    </section>
  );
}
