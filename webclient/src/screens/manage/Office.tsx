import { go, to } from "../../route";
import { undecided, type PlanPart } from "../../rules";
import { t, tn } from "../../words";
import { devices, has, people, placeLine, plans, Screen, setAsides, standing, yard, type ModuleView } from "../common";

/** The list that every office page is reached from. */
export function Office() {
  const manager = has("manager");
  const slabs = manager
    ? { main: { label: t("manager.add_module"), onPress: () => go(to.manage("module")) }, beside: { label: t("manager.draw_plan"), onPress: () => go(to.manage("plan")) } }
    : undefined;
  return (
    <Screen title={t("yard.manage")} line={yard()?.name} over={t("yard.back")} overHref={to.yard()} slabs={slabs} breadth="broad">
      <div class="side-by-side">
        <div>
          <Others />
          {manager && <Plans />}
        </div>
        <div>{(manager || has("shipping")) && <Modules />}</div>
      </div>
    </Screen>
  );
}

function Row({ href, title, line, late }: { href: string; title: string; line: string; late?: string | null }) {
  return (
    <li>
      <a class="module-row" href={href}>
        <b class="wide row-title">{title}</b>
        <span class="wide second">{line}</span>
        {late && <span class="wide late">{late}</span>}
      </a>
    </li>
  );
}

function Others() {
  const waiting = setAsides().filter((one) => one.state === "waiting").length;
  const behind = devices().filter((one) => one.behind && !one.written_off).length;
  const manager = has("manager");
  if (!manager && !has("administrator")) return null;
  return (
    <ul class="rows">
      {manager && <Row href={to.manage("aside")} title={t("manager.aside")} line={waiting > 0 ? "" : t("manager.aside_none")} late={waiting > 0 ? tn("manager.aside_waiting", waiting) : null} />}
      {manager && <Row href={to.manage("phones")} title={t("manager.phones")} line={behind > 0 ? "" : t("manager.phones_heard")} late={behind > 0 ? tn("manager.phones_behind", behind) : null} />}
      <Row href={to.manage("people")} title={t("manager.people")} line={tn("manager.people_n", people().length)} />
      {manager && <Row href={to.manage("yard")} title={t("manager.yard")} line={[tn("manager.bays_n", yard()?.bays.length ?? 0), tn("manager.crews_n", yard()?.crews.length ?? 0)].join(", ")} />}
      {manager && <Row href={to.manage("coats")} title={t("plant.coats")} line={t("plant.coats_line")} />}
      {manager && <Row href={to.manage("sensors")} title={t("plant.sensors")} line={t("plant.sensors_line")} />}
      {manager && <Row href={to.file("readings")} title={t("air.file")} line={t("plant.file_line")} />}
    </ul>
  );
}

function Modules() {
  const modules = standing();
  const two = (view: ModuleView): string | null => (undecided(view.module.heads).length > 0 ? t("manager.two_values") : null);
  return (
    <section>
      <h2>{t("manager.modules")}</h2>
      {modules.length === 0 && <p>{t("manager.no_modules")}</p>}
      <ul class="rows">
        {modules.map((view) => (
          <Row key={view.id} href={to.manage("module", view.id)} title={view.serial} line={placeLine(view, false)} late={two(view)} />
        ))}
      </ul>
    </section>
  );
}

function Plans() {
  const modules = standing();
  const used = (plan: PlanPart): ModuleView[] => modules.filter((view) => view.plan?.id === plan.id);
  const line = (plan: PlanPart): string => {
    const own = plan.from && used(plan)[0];
    return [tn("manager.rooms_n", plan.rooms.length), own ? t("manager.only_for", { serial: own.serial }) : tn("manager.used_by", used(plan).length)].join(", ");
  };
  return (
    <section>
      <h2>{t("manager.plans")}</h2>
      {plans().length === 0 && <p>{t("manager.no_plans")}</p>}
      <ul class="rows">
        {plans().map((plan) => (
          <Row key={plan.id} href={to.manage("plan", plan.id)} title={plan.name} line={line(plan)} />
        ))}
      </ul>
    </section>
  );
}
