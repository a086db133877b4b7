import { useState } from "preact/hooks";
import { drawn, type Draft } from "../../journal";
import { go, to } from "../../route";
import { undecided, type ModuleFacts } from "../../rules";
import { say, t } from "../../words";
import { has, moduleView, placeLine, roomName, Screen, useDrawn, useKept, zone, type ModuleView } from "../common";
import { Gone } from "../module/Module";
import { AddModule } from "./AddModule";
import { FactsFields } from "./FactsFields";
import { changes, factInWords, formOf, problems, type FactsForm } from "./facts";
import { Leave, Move } from "./MoveLeave";
import { useSaving } from "./saving";
import { TwoValues } from "./TwoValues";

/** One module's facts, its bay, and its leaving; without an id, a new module. */
export function ModulePage({ id }: { id: string }) {
  if (!id) return has("manager") ? <AddModule /> : <Gone />;
  drawn(id);
  const view = moduleView(id);
  if (!view) return <Gone />;
  return has("manager") ? <Amend view={view} /> : <MoveOnly view={view} />;
}

/** What a manager may change. Only what was touched is kept half-written, so that it does not hide others' changes. */
function Amend({ view }: { view: ModuleView }) {
  const key = `manage module ${view.id}`;
  const kept = useKept<Partial<FactsForm>>(key, {});
  const [tried, setTried] = useState(false);
  const saving = useSaving();
  const before = formOf(view.module, zone());
  const form = { ...before, ...kept.value };
  const body = changes(form, before, zone());
  const wrong = problems(form, before, zone());
  const save = async (): Promise<void> => {
    setTried(true);
    if (Object.keys(wrong).length > 0) return saving.setProblem(t("manager.look_above"));
    const done = await saving.save([{ kind: "module.amended", module: view.id, about: view.id, body }], t("manager.facts_saved"), { draft: key });
    if (done) kept.drop();
  };
  const changed = Object.keys(body).length;
  const slab = { label: t("manager.save_facts", { serial: view.serial }), onPress: () => void save(), why: changed + Object.keys(wrong).length > 0 ? null : t("manager.nothing_changed") };
  return (
    <Screen title={<span class="serial">{view.serial}</span>} line={placeLine(view, false)} over={t("yard.manage")} overHref={to.manage()} slabs={{ main: slab, note: saving.problem ? <p class="late" role="alert">{saving.problem}</p> : undefined }} breadth="broad">
      <Decide view={view} />
      <div class="side-by-side">
        <div>
          <Move view={view} />
          <OwnPlan view={view} />
          <Leave view={view} />
          <a class="key key-link" href={to.module(view.id)}>{t("manager.open_module", { serial: view.serial })}</a>
        </div>
        <div>{kept.ready && <FactsFields form={form} before={before} wrong={tried ? wrong : {}} module={view.id} onChange={(part) => void kept.keep({ ...kept.value, ...part })} />}</div>
      </div>
    </Screen>
  );
}

/** Every field that two people wrote unseen of each other, until somebody chooses. */
function Decide({ view }: { view: ModuleView }) {
  const saving = useSaving();
  const shown = useDrawn({ part: "module", id: view.id });
  const fields = undecided(view.module.heads).filter((field) => has("manager") || field === "bay");
  const words = (field: string, fact: unknown): string => factInWords(field, fact, (room) => (room === "*" ? t("manager.every_room") : roomName(view, room)));
  const choose = (field: string, chosen: unknown): void => {
    const about = { module: view.id, about: view.id };
    const draft: Draft = field === "bay" ? { kind: "module.moved", ...about, body: { bay: String(chosen) } } : { kind: "module.amended", ...about, body: { [field]: chosen } as Partial<ModuleFacts> };
    void saving.save([draft], t("manager.decided", { field: say(`holds.field.${field}`) }), { drawn: shown });
  };
  return (
    <>
      {saving.problem && <p class="late" role="alert">{saving.problem}</p>}
      {fields.map((field) => (
        <TwoValues key={field} field={field} heads={view.module.heads[field] ?? []} words={(fact) => words(field, fact)} onChoose={(chosen) => choose(field, chosen)} />
      ))}
    </>
  );
}

function OwnPlan({ view }: { view: ModuleView }) {
  return (
    <section class="block">
      <h2>{t("manager.its_plan")}</h2>
      <p>{view.plan ? view.plan.name : t("manager.no_plan")}</p>
      <div class="key-row">
        <button type="button" class="key" onClick={() => go(to.manage("plan", view.id))}>
          {t(view.plan ? "manager.own_plan" : "manager.own_plan_new", { serial: view.serial })}
        </button>
      </div>
    </section>
  );
}

/** Shipping moves a module and says that it left; its facts are only read. */
function MoveOnly({ view }: { view: ModuleView }) {
  const words = (field: string, fact: unknown): string => factInWords(field, fact, (room) => (room === "*" ? t("manager.every_room") : roomName(view, room)));
  const fields = Object.entries(view.module.heads).filter(([field]) => !["serial", "bay", "finish"].includes(field));
  return (
    <Screen title={<span class="serial">{view.serial}</span>} line={placeLine(view, false)} over={t("yard.manage")} overHref={to.manage()}>
      <Decide view={view} />
      <Move view={view} />
      <Leave view={view} />
      <section class="block">
        <h2>{t("manager.facts")}</h2>
        <dl class="facts">
          {fields.map(([field, heads]) => (
            <div key={field}>
              <dt class="second">{say(`manager.field.${field}`)}</dt>
              <dd>{[...new Set((heads ?? []).map((head) => words(field, head[0])))].join(" / ")}</dd>
            </div>
          ))}
        </dl>
        <p class="second">{t("manager.facts_manager")}</p>
      </section>
    </Screen>
  );
}
