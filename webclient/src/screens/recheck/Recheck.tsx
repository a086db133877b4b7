import { useEffect, useRef } from "preact/hooks";
import { newId } from "../../clock";
import { drawn, write, type Draft } from "../../journal";
import { Field, ItemRow, Pick } from "../../parts";
import { NoPhoto, take, type Taken } from "../../photos";
import { go, to } from "../../route";
import { CURRENT, tables, value, type ItemPart, type PhotoPart } from "../../rules";
import { say, t } from "../../words";
import { byWall, defectOf, has, inRoom, markState, me, moduleView, nameOf, numbers, Photo, placeLine, Screen, spotOf, told, useDrawn, useKept, useSaving, WallGroup, when, type ModuleView, type RoomView } from "../common";
import { Gone } from "../module/Module";
import { PhotoKey } from "../wall/HalfPhotos";
import { spread } from "../wall/WriteUp";

interface Back {
  reason: string;
  text: string;
  photo: Taken | null;
}
const NO_REASON: Back = { reason: "shows_under_light", text: "", photo: null };
/** What is picked and half said: kept on the phone, as some reload the page while the camera is open. */
interface Half {
  picked: string[];
  back: Back | null;
}
const NOTHING: Half = { picked: [], back: null };

/** Cleared items by wall, before and after side by side; close one or all, or send back. */
export function Recheck({ module, room: key }: { module: string; room: string }) {
  drawn(module);
  const view = moduleView(module);
  const room = view?.rooms.find((one) => one.key === key);
  return view && room ? <Judging key={`${module} ${key}`} view={view} room={room} /> : <Gone />;
}

function Judging({ view, room }: { view: ModuleView; room: RoomView }) {
  const [module, key] = [view.id, room.key];
  const slot = `recheck ${me()} ${module} ${key}`;
  const half = useKept<Half>(slot, NOTHING);
  const { back } = half.value;
  const picked = new Set(half.value.picked);
  const setBack = (next: Back | null): void => void half.keep((now) => ({ ...now, back: next }));
  const { problem, tell, saving } = useSaving();
  const cleared = inRoom(view, key).filter((item) => item.state === "cleared");
  const chosen = cleared.filter((item) => picked.has(item.id));
  const shown = useDrawn(...chosen.map((item) => ({ part: "item", id: item.id })));
  const list = numbers(chosen.map(({ number }) => number));
  const next = view.rooms.find((one) => one.key !== key && inRoom(view, one.key).some((item) => item.state === "cleared"));
  const own = (item: ItemPart): boolean => item.hands.includes(me());
  const pick = (ids: string[], on: boolean): void => {
    told.value = null;
    void half.keep((now) => ({ ...now, picked: [...now.picked.filter((id) => !ids.includes(id)), ...(on ? ids : [])] }));
  };
  const save = (drafts: Draft[], said: string, photos: Taken[] = []): Promise<boolean> =>
    saving(async () => {
      await write(drafts, photos, { drawn: shown, draft: slot });
      half.drop();
      told.value = said;
    });
  const close = (): void => {
    const drafts = chosen.map((item): Draft => ({ kind: "item.closed", module, about: item.id, body: {} }));
    void save(drafts, t("recheck.closed", { numbers: list }));
  };
  const why = !has("inspector") ? t("recheck.not_inspector") : chosen.length === 0 ? t("recheck.pick") : chosen.some(own) ? t("recheck.own_hands") : null;
  const walkOn = next ? { main: { label: t("recheck.next_room", { room: next.name }), onPress: () => go(to.recheck(module, next.key)) } } : undefined;
  const sendBack = (): void => {
    if (!back) return;
    const body = { reason: back.reason, ...(back.text.trim() ? { text: back.text.trim() } : {}) };
    void save(sendBacks(chosen, module, body, back.photo), t("recheck.sent", { numbers: list }), back.photo ? [back.photo] : []);
  };
  const backing = back && chosen.length > 0 ? { main: { label: t("recheck.send_back", { numbers: list }), onPress: sendBack }, beside: { label: t("frame.never_mind"), onPress: () => setBack(null) } } : null;
  const slabs = backing ?? (cleared.length > 0 ? { main: { label: t("recheck.close", { numbers: list }), onPress: close, why }, beside: { label: t("recheck.send_back", { numbers: list }), onPress: () => setBack(NO_REASON), why: chosen.length === 0 ? t("recheck.pick") : null } } : walkOn);
  return (
    <Screen problem={problem} title={t("recheck.title", { room: room.name })} line={placeLine(view)} over={`${room.name} · ${view.serial}`} overHref={to.room(module, key)} slabs={slabs}>
      {cleared.length === 0 ? <p>{t("recheck.none")}</p> : <p class="second">{t("recheck.judge")}</p>}
      {back && chosen.length > 0 && <SendBack back={back} onChange={(part) => void half.keep((now) => ({ ...now, back: { ...(now.back ?? NO_REASON), ...part } }))} onProblem={tell} />}
      {byWall(view, cleared).map((group) => (
        <WallGroup key={group.key} group={group} head="h2" foot={group.items.length > 1 ? <button type="button" class="key" onClick={() => pick(group.items.filter((item) => !own(item)).map(({ id }) => id), true)}>{t("recheck.pick_all")}</button> : undefined}>
          {group.items.map((item) => (
            <div key={item.id}>
              <ItemRow state={markState(item)} number={item.number} title={defectOf(item)} line={clearedWords(item)} href={to.item(module, item.id)} checked={picked.has(item.id)} onCheck={(on) => pick([item.id], on)} blocked={own(item) ? t("recheck.own_hands") : null} />
              <BeforeAfter view={view} item={item} />
            </div>
          ))}
        </WallGroup>
      ))}
    </Screen>
  );
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
      {before ? <Photo photo={before} numberOf={numberOf} /> : <p class="second">{t("writeup.before")}: {t("recheck.no_photo")}</p>}
      {after ? <Photo photo={after} numberOf={numberOf} /> : <p class="second">{t("writeup.after")}: {t("recheck.no_photo")}</p>}
    </div>
  );
}

/** One photo serves every item that goes back with it. */
function sendBacks(chosen: ItemPart[], module: string, body: { reason: string; text?: string }, photo: Taken | null): Draft[] {
  const id = newId();
  const first = chosen[0] && spotOf(chosen[0]);
  const where = first ? { room: first.room, surface: first.surface } : {};
  const drafts = chosen.map((item): Draft => ({ kind: "item.sent_back", module, about: item.id, body: { ...body, ...(photo ? { photos: [id] } : {}) } }));
  if (!photo) return drafts;
  const items = chosen.map((item, index): [string, number, number] => [item.id, ...spread(photo.px, index, chosen.length)]);
  return [{ kind: "photo.added", module, about: id, body: { sha256: photo.sha256, bytes: photo.bytes.byteLength, px: photo.px, shows: "before", ...where, items, marks: [] } }, ...drafts];
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
  const options = (tables(CURRENT).reasons["send_back"] ?? []).map((key) => ({ key, label: say(`reasons.${key}`) }));
  return (
    <section class="block" ref={place}>
      <Pick label={t("recheck.why")} value={back.reason} options={options} onChange={(reason) => onChange({ reason })} />
      <Field label={t("recheck.words")} value={back.text} onInput={(text) => onChange({ text })} lines={2} />
      <div class="photo-line">
        <PhotoKey label={t("recheck.photo")} camera onFile={add} />
        {back.photo && <p class="second">{t("frame.photos_one")}</p>}
      </div>
    </section>
  );
}
