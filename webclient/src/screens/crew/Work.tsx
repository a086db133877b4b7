import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { drawn } from "../../journal";
import { Choice, itemMark, ItemRow, type SlabsProps } from "../../parts";
import { session } from "../../people";
import { to } from "../../route";
import { CURRENT, needsAfterPhoto, nextStep, value, type ItemPart } from "../../rules";
import { say, t, tn } from "../../words";
import { bayOf, byWall, crewName, defectOf, isOf, mayWrite, placeOfView, renumbered, Screen, standing, WallGroup, when, type Group, type ModuleView } from "../common";
import { PhotoKey } from "../wall/HalfPhotos";
import { decided, numbersOf, useClearing, type Clearing } from "./clearing";
import { DoneBy } from "./DoneBy";
import { NotReady, OfWhat } from "./NotReady";
import type { WhyNotWall } from "./rework";
import { wallWords } from "./wallWords";

/** Sent back first, then by number. */
const urgent = (a: ItemPart, b: ItemPart): number => Number(Boolean(b.sent_back)) - Number(Boolean(a.sent_back)) || a.number - b.number;

/** What the crew has to fix, by module, room and wall: own crew first, earliest pickup first. */
export function Work() {
  const crew = session.value.holder?.crew ?? null;
  const [whose, setWhose] = useState<"own" | "all">(crew ? "own" : "all");
  const modules = toFix((item) => whose === "all" || isOf(crew, item));
  const all = modules.flatMap(({ groups }) => groups.flatMap(({ items }) => items));
  const clearing = useClearing(all);
  const last = modules.flatMap(({ groups }) => groups).findLast(({ items }) => items.some(({ id }) => clearing.picked.has(id)))?.key ?? null;
  const title = whose === "own" ? t("work.title", { crew: crewName(crew) }) : t("work.title_all");
  return (
    <Screen problem={clearing.problem} title={title} line={tn("work.line", all.length, { m: tn("work.modules", modules.length) })} over={t("yard.back")} overHref={to.yard()} slabs={slabsOf(clearing)}>
      {crew && <Choice label={t("work.whose")} labelHeard options={[{ key: "own", label: t("work.own") }, { key: "all", label: t("work.all") }]} value={whose} onChange={setWhose} />}
      {modules.length === 0 && <p>{t("work.none")}</p>}
      {modules.length > 0 && <p class="second">{t("work.caution")}</p>}
      {modules.map(({ view, groups }) => (
        <OfModule key={view.id} view={view} groups={groups} clearing={clearing} last={last} />
      ))}
    </Screen>
  );
}

/** Open items by module and wall; walls with something sent back first. */
function toFix(wanted: (item: ItemPart) => boolean): { view: ModuleView; groups: Group[] }[] {
  return standing().flatMap((view) => {
    const items = view.items.filter((item) => item.state === "open" && wanted(item)).sort(urgent);
    return items.length > 0 ? [{ view, groups: byWall(view, items).sort((a, b) => Number(hasBack(b)) - Number(hasBack(a))) }] : [];
  });
}

/** A photo after, who did it and how long: what goes for all that is picked. */
function HowDone({ clearing }: { clearing: Clearing }) {
  const { chosen, after, done, setDone, takeAfter } = clearing;
  return (
    <section class="block">
      <OfWhat clearing={clearing} />
      <PhotoKey label={t("work.photo_after")} camera onFile={takeAfter} />
      {after.length > 0 && <p>{tn("work.photo_have", after.length, { numbers: numbersOf(chosen) })}</p>}
      <DoneBy done={done} onChange={setDone} />
    </section>
  );
}

const hasBack = (group: Group): boolean => group.items.some((item) => item.sent_back);

function slabsOf({ chosen, lacking, ticking, clearingOf, clear, tick }: Clearing): SlabsProps {
  const steps = new Set(ticking.items.map((item) => nextStep(item, CURRENT)));
  const only = steps.size === 1 ? [...steps][0] : null;
  const stops = (why: WhyNotWall | null): string | null => why && t(`work.why.${why}`);
  const why = !mayWrite("item.cleared") ? t("work.not_crew") : chosen.length === 0 ? t("work.pick") : lacking.length > 0 ? t("work.photo_needed", { numbers: numbersOf(lacking) }) : stops(clearingOf.why);
  const main = { label: t("work.clear", { numbers: numbersOf(clearingOf.items.length > 0 ? clearingOf.items : chosen) }), onPress: clear, why };
  const tickable = mayWrite("item.ticked") && chosen.some((item) => nextStep(item, CURRENT) !== null);
  if (!tickable) return { main };
  const label = only ? t("work.tick", { step: say(`steps.${only}`) }) : t("work.tick_many", { numbers: numbersOf(ticking.items.length > 0 ? ticking.items : chosen) });
  return { main, beside: { label, onPress: tick, why: stops(ticking.why) } };
}

/** `last`: the last wall with something picked. What is asked of a press stands under it, not at the end of a long list. */
function OfModule({ view, groups, clearing, last }: { view: ModuleView; groups: Group[]; clearing: Clearing; last: string | null }) {
  drawn(view.id);
  return (
    <section class="block">
      <h2>
        <span class="serial">{view.serial}</span> <span class="second">{bayOf(view)}</span>{" "}
        {view.pickup && t("work.leaves", { time: when(view.pickup) })}
      </h2>
      {groups.map((group) => (
        <Fragment key={group.key}>
          <OnWall group={group} told={wallWords(placeOfView(view), group, clearing.now)} clearing={clearing} />
          {group.key === last && <NotReady clearing={clearing} />}
          {group.key === last && <HowDone clearing={clearing} />}
        </Fragment>
      ))}
    </section>
  );
}

function OnWall({ group: { items }, group, told, clearing: { picked, pick: onPick } }: { group: Group; told: ReturnType<typeof wallWords>; clearing: Clearing }) {
  const all = (): void => onPick(items.filter(decided).map(({ id }) => id), true);
  return (
    <WallGroup group={group} told={told} foot={items.length > 1 ? <button type="button" class="key" onClick={all}>{t("work.pick_all")}</button> : undefined}>
      {items.map((item) => (
        <ItemRow
          key={item.id}
          state={itemMark(item)}
          number={item.number}
          title={defectOf(item)}
          next={stepWords(item)}
          sentBack={item.sent_back ? [say(`reasons.${item.sent_back.reason}`), item.sent_back.text].filter(Boolean).join(". ") : null}
          line={[renumbered(item), item.ticks.map((step) => say(`steps.${step}`)).join(", "), value(item.heads, "wish"), needsAfterPhoto(item, CURRENT) ? t("work.needs_photo") : ""].filter(Boolean).join(". ") || null}
          href={to.item(group.view.id, item.id)}
          checked={picked.has(item.id)}
          onCheck={(on) => onPick([item.id], on)}
          blocked={decided(item) ? null : t("work.two_values")}
        />
      ))}
    </WallGroup>
  );
}

function stepWords(item: ItemPart): string | null {
  const step = nextStep(item, CURRENT);
  return step ? say(`steps.${step}`) : null;
}
