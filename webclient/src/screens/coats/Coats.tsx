import { useEffect } from "preact/hooks";
import { drawn, write } from "../../journal";
import type { SlabsProps } from "../../parts";
import { to } from "../../route";
import type { CoatPart } from "../../rules";
import { t } from "../../words";
import { coatInside, coatName, mayWrite, me, moduleView, nameOf, placeLine, placeOfView, Screen, told, useDrawn, useKept, useSaving, useSeconds, when, type ModuleView } from "../common";
import { Gone } from "../module/Module";
import { Earlies } from "./Earlies";
import { Group } from "./Group";
import { Lay } from "./Lay";
import { Look } from "./Look";
import { NO_LOOK, type Looking } from "./looking";
import { inTurn } from "./sorted";
import { standings } from "./standing";
import { NOBODY, NOTHING, offered, type Half, type Working } from "./working";

/** A module's coats: which is on where, when it is dry, what is next; laying and looking. */
export function Coats({ id }: { id: string }) {
  drawn(id);
  const view = moduleView(id);
  return view ? <Stands key={id} view={view} /> : <Gone />;
}

function Stands({ view }: { view: ModuleView }) {
  const now = useSeconds();
  const slot = `coats ${me()} ${view.id}`;
  const half = useKept<Half>(slot, NOTHING);
  const { doing } = half.value;
  const { problem, saving } = useSaving();
  // Each face is read from its top.
  useEffect(() => scrollTo(0, 0), [doing]);
  const place = placeOfView(view);
  const shown = useDrawn(...place.coats.map(({ id }) => ({ part: "coat", id })));
  const working: Working = {
    view,
    place,
    now,
    stands: standings(place, now),
    half: half.value,
    problem,
    change: (part) => void half.keep((before) => ({ ...before, ...part })),
    leave: half.drop,
    save: (drafts, said) =>
      saving(async () => {
        await write(drafts, [], { drawn: shown, draft: slot });
        half.drop();
        told.value = said;
      }),
  };
  if (doing === "lay") return <Lay {...working} />;
  if (doing === "look") return <Look {...working} />;
  return <List {...working} />;
}

function List(of: Working) {
  const { view, place, stands, now, change } = of;
  const look = (picked: Looking["picked"]): void => {
    told.value = null;
    change({ doing: "look", looking: { ...NO_LOOK, picked }, done: NOBODY });
  };
  const mayLook = mayWrite("coat.found_wet");
  return (
    <Screen problem={of.problem} title={t("coats.title")} line={placeLine(view, false)} over={view.serial} overHref={to.module(view.id)} breadth="broad" slabs={slabsOf(of, look)}>
      <Earlies view={view} place={place} onAnswer={(coat, reason) => of.save([{ kind: "coat.answered", module: view.id, about: coat.id, body: { reason } }], t("coats.answered"))} />
      <div class="coat-groups">
        {inTurn(place, stands, now).map((stand) => (
          <Group
            key={stand.rooms.join(" ")}
            view={view}
            place={place}
            stand={stand}
            now={now}
            onLook={mayLook ? (coats, rooms) => look(Object.fromEntries(coats.map((coat) => [coat.id, rooms]))) : null}
            onVoid={mayWrite("coat.voided") ? (coat, reason) => of.save([{ kind: "coat.voided", module: view.id, about: coat.id, body: { reason } }], t("coats.voided", { coat: coatInside(coat.coat) })) : null}
          />
        ))}
      </div>
      {stands.some(({ tops }) => tops.length > 0) && <p class="second">{t("coats.legend")}</p>}
      <Voided view={view} />
      <p class="second">{t("coats.caution")}</p>
    </Screen>
  );
}

function slabsOf({ stands, change }: Working, look: (picked: Looking["picked"]) => void): SlabsProps | undefined {
  if (!mayWrite("coat.laid")) return undefined;
  const laying = offered(stands);
  const known = stands.some(({ next }) => next !== null);
  const lay = {
    label: known ? t("coats.lay", { coat: coatName(laying.coat) }) : t("coats.lay_any"),
    onPress: () => {
      told.value = null;
      change({ doing: "lay", laying, done: NOBODY });
    },
  };
  const any = stands.some(({ tops }) => tops.length > 0);
  return any ? { main: lay, beside: { label: t("coats.look"), onPress: () => look({}) } } : { main: lay };
}

/** What was taken back, with the reason. */
function Voided({ view }: { view: ModuleView }) {
  const gone = view.parts.filter((part): part is CoatPart => part.part === "coat" && part.void !== null);
  return (
    <>
      {gone.map((coat) => coat.void && <p key={coat.id} class="second">{t("coats.void_past", { coat: coatName(coat.coat), time: when(coat.void.time), name: nameOf(coat.void.by), reason: coat.void.reason })}</p>)}
    </>
  );
}
