import { useState } from "preact/hooks";
import { newId } from "../../clock";
import { partNow, type Draft } from "../../journal";
import { go, to } from "../../route";
import { undecided, type PlanPart } from "../../rules";
import { t, tn } from "../../words";
import { moduleView, nameOf, PENDING, plans, Screen, standing, useDrawn, useKept, type ModuleView } from "../common";
import { Gone } from "../module/Module";
import { PlanFields } from "./PlanFields";
import { formOfPlan, roomsOf, wrongIn, type PlanForm } from "./planForm";
import { useSaving } from "./saving";

/** A plan by its own id, for one module by the module's id, or a new one. */
export function PlanPage({ id }: { id: string }) {
  if (!id) return <Drawing plan={null} view={null} />;
  const plan = plans().find((one) => one.id === id);
  if (plan) return <Drawing plan={plan} view={null} />;
  const view = partNow("module", id) ? moduleView(id) : null;
  return view ? <Drawing plan={view.plan} view={view} /> : <Gone />;
}

/** Which entries a plan is: a shared plan is drawn anew; a module gets a copy of its own, made from the shared one. */
function entries(plan: PlanPart | null, view: ModuleView | null, form: PlanForm): Draft[] {
  const body = { name: form.name.trim(), rooms: roomsOf(form) };
  const alone = plan && standing().every((one) => one.plan?.id !== plan.id || one.id === view?.id);
  if (plan && (!view || (plan.from && alone))) return [{ kind: "plan.drawn", module: null, about: plan.id, body: { ...body, ...(plan.from ? { from: plan.from } : {}) } }];
  const id = newId();
  const drawn: Draft = { kind: "plan.drawn", module: null, about: id, body: { ...body, ...(plan ? { from: plan.id } : {}) } };
  return view ? [drawn, { kind: "module.amended", module: view.id, about: view.id, body: { plan: id } }] : [drawn];
}

function Drawing({ plan, view }: { plan: PlanPart | null; view: ModuleView | null }) {
  const key = `manage plan ${view?.id ?? plan?.id ?? "new"}`;
  const start = (): PlanForm => (view && !plan?.from ? { ...formOfPlan(plan, ""), name: t("manager.plan_for", { plan: plan?.name ?? "", serial: view.serial }).trim() } : formOfPlan(plan, ""));
  const kept = useKept<PlanForm | null>(key, null);
  const [tried, setTried] = useState(false);
  const saving = useSaving();
  const shown = useDrawn(...(plan ? [{ part: "plan", id: plan.id }] : []));
  const form = kept.value ?? start();
  const wrong = wrongIn(form);
  const save = async (): Promise<void> => {
    setTried(true);
    if (Object.keys(wrong).length > 0) return saving.setProblem(tn("manager.plan_wrong", Object.keys(wrong).length));
    const done = await saving.save(entries(plan, view, form), t("manager.plan_saved", { plan: form.name.trim() }), { draft: key, drawn: shown });
    if (done) go(view ? to.manage("module", view.id) : to.manage());
  };
  const title = view ? t("manager.plan_of", { serial: view.serial }) : (plan?.name ?? t("manager.draw_plan"));
  const users = plan && !view ? standing().filter((one) => one.plan?.id === plan.id).length : 0;
  const slabs = { main: { label: t("manager.save_plan"), onPress: () => void save() }, note: saving.problem ? <p class="late" role="alert">{saving.problem}</p> : users > 1 ? tn("manager.plan_shows_on", users) : undefined };
  return (
    <Screen title={title} line={tn("manager.rooms_n", form.rooms.length)} over={view ? view.serial : t("yard.manage")} overHref={view ? to.manage("module", view.id) : to.manage()} slabs={slabs} breadth="broad">
      {kept.value && plan && overtaken(kept.value.base, plan.seq) && <Overtaken onStartAnew={() => void kept.keep(start())} />}
      {plan && undecided(plan.heads).length > 0 && <TwoDrawings plan={plan} onChoose={(rooms) => void kept.keep({ ...start(), ...formOfPlan({ ...plan, rooms }, ""), name: form.name })} />}
      {kept.ready && <PlanFields form={form} wrong={tried ? wrong : {}} onChange={(next) => void kept.keep(next)} />}
    </Screen>
  );
}

/** True when somebody drew the plan anew since the form was begun; one's own plan getting its place is no such thing. */
function overtaken(base: number, seq: number): boolean {
  return base !== seq && !(base >= PENDING && seq < PENDING);
}

/** Two drawings that knew nothing of each other: either into the form, and what is saved then decides. */
function TwoDrawings({ plan, onChoose }: { plan: PlanPart; onChoose: (rooms: PlanPart["rooms"]) => void }) {
  return (
    <section class="block" role="group" aria-label={t("manager.two_drawings")}>
      <p class="late">
        <b>{t("manager.two_drawings")}</b>
      </p>
      <div class="key-row">
        {(plan.heads.rooms ?? []).map(([rooms, ref, by]) => (
          <button key={ref.join(" ")} type="button" class="key" onClick={() => onChoose(rooms)}>
            {t("manager.choose", { value: rooms.map((room) => room.name).join(", ") })} <span class="second">{nameOf(by)}</span>
          </button>
        ))}
      </div>
    </section>
  );
}

function Overtaken({ onStartAnew }: { onStartAnew: () => void }) {
  return (
    <section class="block">
      <p class="late">
        <b>{t("manager.plan_overtaken")}</b>
      </p>
      <div class="key-row">
        <button type="button" class="key" onClick={onStartAnew}>
          {t("manager.plan_theirs")}
        </button>
      </div>
    </section>
  );
}
