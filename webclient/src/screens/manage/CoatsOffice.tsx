import { all } from "../../journal";
import { Choice, Field, Pick } from "../../parts";
import { go, to } from "../../route";
import { CURRENT, tables, type YardCoats, type YardPart } from "../../rules";
import { say, t } from "../../words";
import { Screen, useKept, yard } from "../common";
import { Gone } from "../module/Module";
import { useSaving } from "./saving";
import { coatKeys, coatsOfForm, FAMILIES, formOfCoats, MIDDLES, sameCoats, type CoatsForm } from "./yardCoats";

const KEY = "manage coats";

/** The plant's own words for its coats, their order, which crew does which, and whether its own looks count. */
export function CoatsOffice() {
  const found = yard();
  return found ? <Amend found={found} /> : <Gone />;
}

function Amend({ found }: { found: YardPart }) {
  const before: YardCoats = found.coats ?? {};
  const kept = useKept<Partial<CoatsForm>>(KEY, {});
  const saving = useSaving();
  const form: CoatsForm = { ...formOfCoats(before), ...kept.value };
  const change = (part: Partial<CoatsForm>): void => void kept.keep((now) => ({ ...now, ...part }));
  const coats = coatsOfForm(form, before);
  const save = async (): Promise<void> => {
    if (!(await saving.save([{ kind: "yard.amended", module: null, about: found.id, body: { coats } }], t("plant.saved"), { draft: KEY }))) return;
    kept.drop();
    go(to.manage());
  };
  const slab = { label: t("plant.save"), onPress: () => void save(), why: saving.problem ?? (sameCoats(coats, before) ? t("manager.nothing_changed") : null) };
  return (
    <Screen title={t("plant.coats")} over={t("yard.manage")} overHref={to.manage()} slabs={{ main: slab }} breadth="broad">
      {kept.ready && (
        <div class="side-by-side">
          <div>
            <Order form={form} change={change} />
            <Crews form={form} found={found} change={change} />
            <Learned form={form} change={change} />
          </div>
          <Names form={form} change={change} />
        </div>
      )}
    </Screen>
  );
}

interface FormProps {
  form: CoatsForm;
  change: (part: Partial<CoatsForm>) => void;
}

function Order({ form, change }: FormProps) {
  const middles = MIDDLES.map((key) => ({ key, label: say(`plant.order.${key.replaceAll(" ", "_")}`) }));
  return (
    <section class="block">
      <h2>{t("plant.order")}</h2>
      <Choice label={t("plant.order_middle")} options={middles} value={form.middle} onChange={(middle) => change({ middle })} />
      <Choice<"1" | "2"> label={t("plant.paints")} options={[{ key: "1", label: t("plant.paints_1") }, { key: "2", label: t("plant.paints_2") }]} value={form.paints === 1 ? "1" : "2"} onChange={(paints) => change({ paints: paints === "1" ? 1 : 2 })} />
      <p class="second">{t("plant.order_hint")}</p>
    </section>
  );
}

function Crews({ form, found, change }: FormProps & { found: YardPart }) {
  const crews = [{ key: "", label: t("plant.any_crew") }, ...found.crews.map(({ id, name }) => ({ key: id, label: name }))];
  return (
    <section class="block">
      <h2>{t("plant.crews")}</h2>
      {FAMILIES.map((family) => <Pick key={family} label={t(`plant.family.${family}`)} value={form.crews[family] ?? ""} options={crews} onChange={(crew) => change({ crews: { ...form.crews, [family]: crew } })} />)}
    </section>
  );
}

/** What the yard's own looks say, material by material, with their number. */
function Learned({ form, change }: FormProps) {
  const factors = Object.entries(all("learned").value[0]?.factors ?? {});
  const least = tables(CURRENT).drying.limits.learned_least;
  return (
    <section class="block">
      <h2>{t("plant.learned")}</h2>
      <p>{t("plant.learned_what", { n: least })}</p>
      {factors.length === 0 && <p>{t("plant.learned_none")}</p>}
      <ul>
        {factors.map(([material, { percent, looks }]) => <li key={material}>{learnedWords(say(`coats.material.${material}`), percent, looks, least)}</li>)}
      </ul>
      <Choice<"on" | "off"> label={t("plant.learned_use")} options={[{ key: "on", label: t("plant.learned_on") }, { key: "off", label: t("plant.learned_off") }]} value={form.learned ? "on" : "off"} onChange={(key) => change({ learned: key === "on" })} />
    </section>
  );
}

/** *Drying-type: 112 % of the table’s hours, from 34 looks*, as the coats’ screen says it. */
function learnedWords(material: string, percent: number, looks: number, least: number): string {
  if (looks < least) return t("plant.learned_few", { material, n: looks, least });
  if (percent === 100) return t("plant.learned_same", { material, n: looks });
  return t("plant.learned_hours", { material, percent, n: looks });
}

function Names({ form, change }: FormProps) {
  return (
    <section class="block">
      <h2>{t("plant.names")}</h2>
      <p class="second">{t("plant.names_hint")}</p>
      {coatKeys().map((coat) => (
        <Field key={coat} label={say(`coats.name.${coat}`)} value={form.names[coat] ?? ""} onInput={(name) => change({ names: { ...form.names, [coat]: name } })} />
      ))}
    </section>
  );
}
