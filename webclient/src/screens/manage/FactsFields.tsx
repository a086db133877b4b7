import type { ComponentChildren } from "preact";
import { Choice, Field, Pick } from "../../parts";
import { value, type ModuleFacts } from "../../rules";
import { say, t } from "../../words";
import { plans, standing, zone, type ModuleView } from "../common";
import { CoatsFields } from "./CoatsFields";
import type { FactsForm } from "./facts";
import { FinishFields } from "./FinishFields";

interface FactsProps {
  form: FactsForm;
  before: FactsForm;
  /** Field -> key of what is wrong with it. */
  wrong: Readonly<Record<string, string>>;
  /** The module it is about, null for a new one. */
  module: string | null;
  onChange: (part: Partial<FactsForm>) => void;
  children?: ComponentChildren;
}

/** What others have in this field already, to choose from while typing. */
function used(modules: ModuleView[], field: "home" | "order" | "model"): string[] {
  return [...new Set(modules.flatMap((view) => value(view.module.heads, field) || []))].sort();
}

export function FactsFields({ form, before, wrong, module, onChange, children }: FactsProps) {
  const modules = standing();
  const error = (field: string): string | null => (wrong[field] ? say(wrong[field]) : null);
  const twin = modules.some((view) => view.id !== module && view.serial === form.serial.trim() && form.serial.trim() !== "");
  const text = (field: "home" | "order" | "model" | "label", offers?: string[]) => (
    <Field label={t(`manager.field.${field}`)} value={form[field]} offers={offers} error={error(field)} onInput={(typed) => onChange({ [field]: typed })} />
  );
  return (
    <>
      <section class="block">
        <h2>{t("manager.facts")}</h2>
        <Field label={t("manager.field.serial")} value={form.serial} error={error("serial") ?? (twin ? t("manager.serial_twice") : null)} onInput={(serial) => onChange({ serial })} />
        {text("home", used(modules, "home"))}
        <div class="in-row pair-fields">
          {text("order", used(modules, "order"))}
          {text("model", used(modules, "model"))}
        </div>
        {children}
        <Field label={t("manager.field.pickup")} type="datetime-local" value={form.pickup} error={error("pickup")} hint={t("manager.pickup_zone", { zone: zone() })} onInput={(pickup) => onChange({ pickup })} />
        <Choice<NonNullable<ModuleFacts["programme"]>>
          label={t("manager.field.programme")}
          options={[
            { key: "modular", label: t("manager.programme_modular") },
            { key: "hud", label: t("manager.programme_hud") },
          ]}
          value={(form.programme || null) as ModuleFacts["programme"] | null}
          onChange={(programme) => onChange({ programme })}
        />
        {text("label")}
      </section>
      <PlanFields form={form} before={before} module={module} onChange={onChange} />
      <FinishFields finish={form.finish} plan={form.plan} wrong={wrong} onChange={(finish) => onChange({ finish })} />
      <CoatsFields coats={form.coats} plan={form.plan} onChange={(coats) => onChange({ coats })} />
    </>
  );
}

/** A plan that was drawn for another module alone is not offered; a plan once given can only be changed for another. */
function PlanFields({ form, before, module, onChange }: Pick_<FactsProps, "form" | "before" | "module" | "onChange">) {
  const modules = standing();
  const others = new Set(modules.filter((view) => view.id !== module).map((view) => view.plan?.id));
  const offered = plans().filter((plan) => !plan.from || plan.id === form.plan || !others.has(plan.id));
  const none = before.plan ? [] : [{ key: "", label: t("manager.no_plan") }];
  return (
    <section class="block">
      <h2>{t("manager.field.plan")}</h2>
      <Pick label={t("manager.plan_pick")} value={form.plan} options={[...none, ...offered.map(({ id, name }) => ({ key: id, label: name }))]} onChange={(plan) => onChange({ plan })} />
      <Choice<"no" | "yes">
        label={t("manager.field.mirrored")}
        options={[
          { key: "no", label: t("manager.mirrored_no") },
          { key: "yes", label: t("manager.mirrored_yes") },
        ]}
        value={form.mirrored ? "yes" : "no"}
        onChange={(key) => onChange({ mirrored: key === "yes" })}
      />
    </section>
  );
}
type Pick_<T, K extends keyof T> = { [P in K]: T[P] };
