import { useState } from "preact/hooks";
import { newId } from "../../clock";
import { drawn, write, type Draft } from "../../journal";
import { faceOf, FacedWall, placeInWords, StateWord, surfaceInWords } from "../../parts";
import { take, type Taken } from "../../photos";
import { to } from "../../route";
import { undecided, value, type ItemPart } from "../../rules";
import { say, t } from "../../words";
import { crewName, defectOf, marked, mayWrite, moduleView, nameOf, onlyHere, renumbered, roomName, Screen, spotOf, told, useDrawn, useSaving, when, type ModuleView } from "../common";
import { Gone } from "../module/Module";
import { PhotoKey } from "../wall/HalfPhotos";
import { Changing, DOINGS, fits, type Doing, type ItemKind } from "./Changing";
import { History } from "./History";
import { ItemPhoto } from "./MarkPhoto";
import { Undecided } from "./Undecided";

/** One item: where it is, what happened to it, and what an inspector may change. */
export function Item({ module, item: id }: { module: string; item: string }) {
  drawn(module);
  const view = moduleView(module);
  const item = view?.items.find((one) => one.id === id);
  if (!view || !item) return <Gone />;
  return <One key={id} view={view} item={item} />;
}

function One({ view, item }: { view: ModuleView; item: ItemPart }) {
  const [doing, setDoing] = useState<Doing | null>(null);
  const { problem, saving } = useSaving();
  const shown = useDrawn({ part: "item", id: item.id });
  const spot = spotOf(item);
  const room = view.rooms.find((one) => one.key === spot?.room);
  const face = room?.plan && spot ? faceOf(room.plan, spot.surface, view.mirrored) : null;
  const photos = view.photos.filter((photo) => value(photo.heads, "marked")?.items.some(([one]) => one === item.id));
  const numberOf = (other: string): number | null => view.items.find((one) => one.id === other)?.number ?? null;
  /** All of it rests on what the screen shows of the item: a changed word too takes the place of every word that counts as seen. */
  const say_ = (kind: ItemKind, body: object): Promise<boolean> =>
    saving(async () => {
      await write([{ kind, module: view.id, about: item.id, body } as Draft], [], { drawn: shown });
      setDoing(null);
      told.value = `${say(`kinds.${kind}`)}: ${item.number}`;
    });
  const addPhoto = (input: HTMLInputElement): Promise<boolean> =>
    saving(async () => {
      const file = input.files?.[0];
      if (!file) return;
      const taken = await take(file).finally(() => (input.value = ""));
      await write([photoOf(taken, view, item)], [taken]);
    });
  const back = to.wall(view.id, spot?.room ?? "", spot?.surface ?? "A");
  return (
    <Screen problem={problem} title={`${item.number}  ${defectOf(item)}`} line={`${roomName(view, spot?.room ?? "")} · ${surfaceInWords(spot?.surface ?? "trim", face?.sight ?? "")}`} over={`${roomName(view, spot?.room ?? "")} · ${view.serial}`} overHref={back}>
      <Facts item={item} />
      {undecided(item.heads).map((field) => <Undecided key={field} item={item} field={field} onDecide={say_} />)}
      {face && doing !== "move" && <FacedWall face={face} marks={[marked(item)]} lit={item.id} />}
      <div class="photos">
        {photos.map((photo) => <ItemPhoto key={photo.id} photo={photo} numberOf={numberOf} may={mayWrite("photo.marked")} />)}
      </div>
      <div class="key-row">
        {DOINGS.filter(({ kind, doing }) => mayWrite(kind) && fits(doing, item.state)).map(({ doing }) => (
          <button key={doing} type="button" class="key" onClick={() => setDoing(doing)}>{t(`writeup.${doing}`)}</button>
        ))}
        <PhotoKey label={t("writeup.add_photo")} onFile={addPhoto} />
      </div>
      {doing && <Changing item={item} doing={doing} face={face} onSave={say_} />}
      <History lines={item.lines} />
    </Screen>
  );
}

function Facts({ item }: { item: ItemPart }) {
  return (
    <section class="block">
      <p><StateWord state={marked(item).state} /></p>
      {item.sent_back && <p class="late"><b>{sentBackWords(item)}</b></p>}
      <p>{placeInWords(marked(item))}</p>
      <p>{t("writeup.crew_charge", { crew: crewName(value(item.heads, "crew")), charge: crewName(value(item.heads, "charge")) })}</p>
      {value(item.heads, "wish") && <p>{value(item.heads, "wish")}</p>}
      {renumbered(item) && <p><b>{renumbered(item)}</b></p>}
      {onlyHere(item) && <p class="late">{t("frame.state_only_here")}</p>}
    </section>
  );
}

/** A photo of one item, its number in the middle until somebody marks it better. */
function photoOf(taken: Taken, view: ModuleView, item: ItemPart): Draft {
  const spot = spotOf(item);
  const where = spot ? { room: spot.room, surface: spot.surface } : {};
  const [w, h] = taken.px;
  const items: [string, number, number][] = [[item.id, Math.round(w / 2), Math.round(h / 2)]];
  const about = { sha256: taken.sha256, bytes: taken.bytes.byteLength, px: taken.px, ...where };
  return { kind: "photo.added", module: view.id, about: newId(), body: { ...about, shows: item.state === "open" ? "before" : "after", items, marks: [] } };
}

export function sentBackWords(item: ItemPart): string {
  const back = item.sent_back;
  if (!back) return "";
  const words = [say(`reasons.${back.reason}`), back.text].filter(Boolean).join(". ");
  return `${t("frame.state_sent_back")}: ${words} (${nameOf(back.by)}, ${when(back.time)})`;
}
