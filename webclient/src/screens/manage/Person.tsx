import { useState } from "preact/hooks";
import { newId } from "../../clock";
import { Field, Passcode, Pick } from "../../parts";
import { session } from "../../people";
import { go, to } from "../../route";
import { canonicalText, CURRENT, tables, type PersonPart, type Role } from "../../rules";
import { say, t } from "../../words";
import { has, Screen, told, useKept, yard } from "../common";
import { askOffice, useSaving } from "./saving";
import { Ticks } from "./Ticks";

interface PersonForm {
  name: string;
  crew: string;
  roles: string[];
}

const roleOptions = () =>
  Object.keys(tables(CURRENT).roles)
    .filter((role) => role !== "administrator" || has("administrator"))
    .map((key) => ({ key, label: say(`yard.role.${key}`) }));

const same = (a: PersonForm, b: PersonForm): boolean => canonicalText({ ...a, roles: [...a.roles].sort() }) === canonicalText({ ...b, roles: [...b.roles].sort() });

function whyNot(person: PersonPart | null, form: PersonForm, before: PersonForm): string | null {
  if (!person) return null;
  const was = before.roles.includes("administrator");
  if (was && !has("administrator")) return t("manager.only_administrator");
  if (was && !form.roles.includes("administrator") && person.id === session.value.holder?.id) return t("manager.own_administrator");
  return same(form, before) ? t("manager.nothing_changed") : null;
}

/** One person: name, crew, roles; an administrator gives the passcode. */
export function Person({ person }: { person: PersonPart | null }) {
  const key = `manage person ${person?.id ?? "new"}`;
  const before: PersonForm = { name: person?.name ?? "", crew: person?.crew ?? "", roles: person?.roles ?? [] };
  const kept = useKept<Partial<PersonForm>>(key, {});
  const form = { ...before, ...kept.value };
  const saving = useSaving();
  const change = (part: Partial<PersonForm>): void => void kept.keep({ ...kept.value, ...part });
  const save = async (): Promise<void> => {
    const name = form.name.trim();
    if (!name) return saving.setProblem(t("manager.name_needed"));
    const id = person?.id ?? newId();
    const body = { name, roles: form.roles as Role[], ...(form.crew ? { crew: form.crew } : {}) };
    if (!(await saving.save([{ kind: "person.named", module: null, about: id, body }], t("manager.person_saved", { name }), { draft: key }))) return;
    kept.drop();
    go(person ? to.manage("people") : to.manage("people", id));
  };
  const why = whyNot(person, form, before);
  const slab = { label: form.name.trim() ? t("manager.save_person", { name: form.name.trim() }) : t("manager.name_person"), onPress: () => void save(), why };
  const crews = [{ key: "", label: t("manager.no_crew") }, ...(yard()?.crews ?? []).map(({ id, name }) => ({ key: id, label: name }))];
  return (
    <Screen title={person?.name ?? t("manager.name_person")} over={t("manager.people")} overHref={to.manage("people")} slabs={{ main: slab }}>
      {kept.ready && (
        <section class="block">
          <Field label={t("manager.name")} value={form.name} error={saving.problem} onInput={(name) => change({ name })} />
          <Ticks label={t("manager.roles")} options={roleOptions()} values={form.roles} onChange={(roles) => change({ roles })} />
          <p class="second">{t("manager.roles_hint")}</p>
          <Pick label={t("manager.crew")} value={form.crew} options={crews} onChange={(crew) => change({ crew })} />
        </section>
      )}
      {person && (has("administrator") && person.roles.length > 0 ? <GivePasscode person={person} /> : <p class="second">{t(has("administrator") ? "manager.passcode_no_role" : "manager.passcode_who")}</p>)}
    </Screen>
  );
}

/** Only the office keeps passcodes, so this needs signal. */
function GivePasscode({ person }: { person: PersonPart }) {
  const [passcode, setPasscode] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const give = async (): Promise<void> => {
    if (!passcode) return setProblem(t("manager.passcode_needed"));
    setBusy(true);
    const why = await askOffice(`/api/people/${person.id}/passcode`, { passcode }, { 404: "manager.passcode_unknown", 409: "manager.passcode_twice", 422: "manager.passcode_weak", 400: "manager.passcode_weak" });
    setBusy(false);
    setProblem(why);
    if (why) return;
    setPasscode("");
    told.value = t("manager.passcode_given", { name: person.name });
  };
  return (
    <form
      class="block"
      onSubmit={(event) => {
        event.preventDefault();
        void give();
      }}
    >
      <h2>{t("manager.passcode")}</h2>
      <p class="second">{t("manager.passcode_hint")}</p>
      <Passcode label={t("yard.passcode_of", { name: person.name })} value={passcode} onInput={setPasscode} error={problem} autoComplete="new-password" />
      <div class="key-row">
        <button class="key" type="submit" disabled={busy}>
          {t(busy ? "manager.asking" : "manager.passcode_give")}
        </button>
      </div>
    </form>
  );
}
