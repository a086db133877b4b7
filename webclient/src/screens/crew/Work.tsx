import { useState } from "preact/hooks";
import { newId } from "../../clock";
import { drawn, write, type Draft } from "../../journal";
import { Choice, ItemRow, type SlabsProps } from "../../parts";
import { session } from "../../people";
import { NoPhoto, take, type Taken } from "../../photos";
import { to } from "../../route";
import { CURRENT, needsAfterPhoto, nextStep, undecided, value, type ItemPart } from "../../rules";
import { say, t, tn } from "../../words";
import { bayOf, byWall, crewName, defectOf, has, markState, me, numbers, renumbered, Screen, spotOf, standing, told, useDrawn, useKept, useSaving, WallGroup, when, type Group, type ModuleView } from "../common";
import { PhotoKey } from "../wall/HalfPhotos";
import { spread } from "../wall/WriteUp";
import { DoneBy, doneByOf, type Done } from "./DoneBy";

/** What is picked and half said: kept on the phone, as some reload the page while the camera is open. */
interface Half {
  picked: string[];
  done: Done;
  after: Taken[];
}
const NOTHING: Half = { picked: [], done: { who: "", name: "", minutes: "" }, after: [] };

/** Sent back first, then by number. */
const urgent = (a: ItemPart, b: ItemPart): number => Number(Boolean(b.sent_back)) - Number(Boolean(a.sent_back)) || a.number - b.number;

/** What the crew has to fix, by module, room and wall: own crew first, earliest pickup first. */
export function Work() {
  const crew = session.value.holder?.crew ?? null;
  const [whose, setWhose] = useState<"own" | "all">(crew ? "own" : "all");
  const slot = `work ${me()}`;
  const half = useKept<Half>(slot, NOTHING);
  const { done, after } = half.value;
  const picked = new Set(half.value.picked);
  const { problem, tell, saving } = useSaving();
  const mine = (item: ItemPart): boolean => item.state === "open" && (whose === "all" || (value(item.heads, "crew") ?? crew) === crew);
  const modules = standing().flatMap((view) => {
    const items = view.items.filter(mine).sort(urgent);
    return items.length > 0 ? [{ view, groups: byWall(view, items).sort((a, b) => Number(hasBack(b)) - Number(hasBack(a))) }] : [];
  });
  const all = modules.flatMap(({ groups }) => groups.flatMap(({ items }) => items));
  const chosen = all.filter((item) => picked.has(item.id) && decided(item));
  const shown = useDrawn(...chosen.map((item) => ({ part: "item", id: item.id })));
  const pick = (ids: string[], on: boolean): void => {
    told.value = null;
    void half.keep((now) => ({ ...now, picked: [...now.picked.filter((id) => !ids.includes(id)), ...(on ? ids : [])] }));
  };
  const writing = (make: (doneBy: string[]) => Draft[], said: string, photos: Taken[] = []): Promise<boolean> =>
    saving(async () => {
      const { doneBy, named } = doneByOf(done);
      await write([...named, ...make(doneBy)], photos, { drawn: shown, draft: slot });
      // A photo taken for the clear waits for it while only a step is ticked.
      if (photos.length < after.length) await half.keep((now) => ({ ...now, done: NOTHING.done }));
      else half.drop();
      told.value = said;
    });
  const clear = (): void => {
    const minutes = done.minutes.trim() ? Number(done.minutes) : null;
    if (minutes !== null && (!Number.isInteger(minutes) || minutes < 0 || minutes > 10000)) return tell(t("work.minutes_bad"));
    const list = numbers(chosen.map(({ number }) => number));
    void writing((doneBy) => clears(chosen, after, doneBy, minutes), t("work.cleared", { numbers: list }), after);
  };
  const tick = (): void => {
    const list = numbers(chosen.map(({ number }) => number));
    void writing(
      (doneBy) =>
        chosen.flatMap((item): Draft[] => {
          const step = nextStep(item, CURRENT);
          return step && item.module ? [{ kind: "item.ticked", module: item.module, about: item.id, body: { steps: [step], ...(doneBy.length > 0 ? { done_by: doneBy } : {}) } }] : [];
        }),
      t("work.ticked", { numbers: list }),
    );
  };
  const lacking = chosen.filter((item) => needsAfterPhoto(item, CURRENT) && after.length === 0);
  const title = whose === "own" ? t("work.title", { crew: crewName(crew) }) : t("work.title_all");
  return (
    <Screen problem={problem} title={title} line={tn("work.line", all.length, { m: tn("work.modules", modules.length) })} over={t("yard.back")} overHref={to.yard()} slabs={slabsOf(chosen, lacking, clear, tick)}>
      {crew && <Choice label={t("work.whose")} labelHeard options={[{ key: "own", label: t("work.own") }, { key: "all", label: t("work.all") }]} value={whose} onChange={setWhose} />}
      {modules.length === 0 && <p>{t("work.none")}</p>}
      {modules.length > 0 && <p class="second">{t("work.caution")}</p>}
      {modules.map(({ view, groups }) => (
        <OfModule key={view.id} view={view} groups={groups} picked={picked} onPick={pick} />
      ))}
      {chosen.length > 0 && (
        <section class="block">
          <PhotoKey label={t("work.photo_after")} camera onFile={(input) => takeAfter(input, (photo) => void half.keep((now) => ({ ...now, after: [...now.after, photo] })), tell)} />
          {after.length > 0 && <p>{tn("work.photo_have", after.length, { numbers: numbers(chosen.map(({ number }) => number)) })}</p>}
          <DoneBy done={done} onChange={(next) => void half.keep((now) => ({ ...now, done: next }))} />
        </section>
      )}
    </Screen>
  );
}

/** Nobody clears what two people say differently. */
const decided = (item: ItemPart): boolean => undecided(item.heads).length === 0;
const hasBack = (group: Group): boolean => group.items.some((item) => item.sent_back);

function slabsOf(chosen: ItemPart[], lacking: ItemPart[], clear: () => void, tick: () => void): SlabsProps {
  const list = numbers(chosen.map(({ number }) => number));
  const steps = new Set(chosen.map((item) => nextStep(item, CURRENT)));
  const only = steps.size === 1 ? [...steps][0] : null;
  const why = !has("crew_lead") ? t("work.not_crew") : chosen.length === 0 ? t("work.pick") : lacking.length > 0 ? t("work.photo_needed", { numbers: numbers(lacking.map(({ number }) => number)) }) : null;
  const main = { label: t("work.clear", { numbers: list }), onPress: clear, why };
  const tickable = has("crew_lead") && [...steps].some((step) => step !== null);
  if (!tickable) return { main };
  const label = only ? t("work.tick", { step: say(`steps.${only}`) }) : t("work.tick_many", { numbers: list });
  return { main, beside: { label, onPress: tick } };
}

function OfModule({ view, groups, picked, onPick }: { view: ModuleView; groups: Group[]; picked: ReadonlySet<string>; onPick: (ids: string[], on: boolean) => void }) {
  drawn(view.id);
  return (
    <section class="block">
      <h2>
        <span class="serial">{view.serial}</span> <span class="second">{bayOf(view)}</span>{" "}
        {view.pickup && t("work.leaves", { time: when(view.pickup) })}
      </h2>
      {groups.map((group) => (
        <WallGroup key={group.key} group={group} foot={group.items.length > 1 ? <button type="button" class="key" onClick={() => onPick(group.items.filter(decided).map(({ id }) => id), true)}>{t("work.pick_all")}</button> : undefined}>
          {group.items.map((item) => (
            <ItemRow
              key={item.id}
              state={markState(item)}
              number={item.number}
              title={defectOf(item)}
              next={stepWords(item)}
              sentBack={item.sent_back ? [say(`reasons.${item.sent_back.reason}`), item.sent_back.text].filter(Boolean).join(". ") : null}
              line={[renumbered(item), item.ticks.map((step) => say(`steps.${step}`)).join(", "), value(item.heads, "wish"), needsAfterPhoto(item, CURRENT) ? t("work.needs_photo") : ""].filter(Boolean).join(". ") || null}
              href={to.item(view.id, item.id)}
              checked={picked.has(item.id)}
              onCheck={(on) => onPick([item.id], on)}
              blocked={decided(item) ? null : t("work.two_values")}
            />
          ))}
        </WallGroup>
      ))}
    </section>
  );
}

function stepWords(item: ItemPart): string | null {
  const step = nextStep(item, CURRENT);
  return step ? say(`steps.${step}`) : null;
}

/** A clear for each item, then the photos after, one entry a photo and module. */
function clears(chosen: ItemPart[], after: Taken[], doneBy: string[], minutes: number | null): Draft[] {
  const photos = photosAfter(chosen, after);
  const cleared = chosen.flatMap((item): Draft[] => {
    const mine = photos.filter((photo) => photo.module === item.module).map((photo) => photo.about);
    const body = { ...(doneBy.length > 0 ? { done_by: doneBy } : {}), ...(mine.length > 0 ? { after: mine } : {}), ...(minutes !== null ? { minutes } : {}) };
    return item.module ? [{ kind: "item.cleared", module: item.module, about: item.id, body }] : [];
  });
  return [...photos, ...cleared];
}

function photosAfter(chosen: ItemPart[], after: Taken[]): Draft[] {
  const modules = [...new Set(chosen.map((item) => item.module))].filter((module) => module !== null);
  return modules.flatMap((module) =>
    after.map((photo): Draft => {
      const here = chosen.filter((item) => item.module === module);
      const items = here.map((item, index): [string, number, number] => [item.id, ...spread(photo.px, index, here.length)]);
      const spot = here[0] && spotOf(here[0]);
      const where = spot ? { room: spot.room, surface: spot.surface } : {};
      return { kind: "photo.added", module, about: newId(), body: { sha256: photo.sha256, bytes: photo.bytes.byteLength, px: photo.px, shows: "after", ...where, items, marks: [] } };
    }),
  );
}

async function takeAfter(input: HTMLInputElement, keep: (photo: Taken) => void, tell: (problem: string | null) => void): Promise<void> {
  const file = input.files?.[0];
  if (!file) return;
  try {
    keep(await take(file));
    tell(null);
  } catch (error) {
    if (!(error instanceof NoPhoto)) throw error;
    tell(say(error.key));
  } finally {
    input.value = "";
  }
}
