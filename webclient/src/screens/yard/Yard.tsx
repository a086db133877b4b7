import { settledAt } from "../../journal";
import { countOf, StateCounts } from "../../parts";
import { session } from "../../people";
import { go, to } from "../../route";
import { t, tn } from "../../words";
import { bayOf, gateOf, has, isOf, marked, Screen, setAsides, standing, when, yard, type ModuleView } from "../common";

/** Every module that stands, earliest pickup first, each with what it still needs. */
export function Yard() {
  const modules = standing();
  const fetching = modules.length === 0 && settledAt.value.cursor === 0;
  const crew = session.value.holder?.crew ?? null;
  const toFix = modules.reduce((sum, view) => sum + view.items.filter((item) => item.state === "open" && isOf(crew, item)).length, 0);
  const slabs = has("crew_lead") ? { main: { label: t("yard.work_n", { n: toFix }), onPress: () => go(to.work()) } } : undefined;
  const aside = setAsides().filter((one) => one.state === "waiting").length;
  const office = has("manager") || has("administrator");
  const manage = office ? { label: t("yard.manage"), onPress: () => go(to.manage()) } : undefined;
  return (
    <Screen
      title={yard()?.name ?? "Rakelight"}
      line={fetching ? undefined : tn("yard.standing", modules.length)}
      side={
        <a class="head-back" href={to.me()}>
          {session.value.holder?.name}
        </a>
      }
      slabs={slabs ? { ...slabs, ...(manage ? { beside: manage } : {}) } : manage ? { main: manage } : undefined}
    >
      {aside > 0 && office && <a class="key key-link" href={to.manage("aside")}>{tn("yard.aside", aside)}</a>}
      {modules.length > 0 && <Across />}
      {modules.length === 0 && <p>{t(fetching ? "yard.fetching" : "yard.none")}</p>}
      <ul class="rows">
        {modules.map((view) => (
          <li key={view.id}>
            <ModuleRow view={view} />
          </li>
        ))}
      </ul>
    </Screen>
  );
}

/** What goes across the yard: what can be done, and the air. */
function Across() {
  const list = ["crew_lead", "inspector", "manager"].some(has);
  return (
    <div class="key-row">
      {list && <a class="key key-link" href={to.ready()}>{t("yard.ready")}</a>}
      <a class="key key-link" href={to.walk()}>{t("yard.walk")}</a>
    </div>
  );
}

function ModuleRow({ view }: { view: ModuleView }) {
  const counts = countOf(view.items.map(marked));
  const open = (counts.open ?? 0) + (counts.sent_back ?? 0) + (counts.cleared ?? 0);
  return (
    <a class="module-row" href={has("shipping") && !has("inspector") ? to.gate(view.id) : to.module(view.id)}>
      <b class="serial">{view.serial}</b>
      <span class="second">{bayOf(view)}</span>
      <span class="wide second">{view.pickup ? t("yard.pickup", { time: when(view.pickup) }) : t("yard.no_pickup")}</span>
      <span class="wide">
        <Standing view={view} />
      </span>
      <span class="wide">
        {view.items.length > 0 && open === 0 ? <span class="second">{t("yard.nothing_open")}</span> : <StateCounts counts={{ open: counts.open, sent_back: counts.sent_back, cleared: counts.cleared }} />}
      </span>
    </a>
  );
}

/** Released, questioned, or how many holds: always in words. */
export function Standing({ view }: { view: ModuleView }) {
  const { holds, questions } = gateOf(view);
  if (view.module.release) {
    return questions.length > 0 ? <b class="late">{t("yard.questioned")}</b> : <b class="met">{t("yard.released")}</b>;
  }
  return holds.length === 0 ? <b class="met">{t("holds.none")}</b> : <b>{tn("holds.count", holds.length)}</b>;
}
