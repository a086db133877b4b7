import { newId } from "../../clock";
import { Field, Pick } from "../../parts";
import { go, to } from "../../route";
import { canonicalText, type Crew, type YardFacts as Facts, type YardPart } from "../../rules";
import { t } from "../../words";
import { Screen, useKept, yard } from "../common";
import { Gone } from "../module/Module";
import { useSaving } from "./saving";

interface YardForm {
  name: string;
  zone: string;
  /** One bay on each line. */
  bays: string;
  crews: Crew[];
}
const KEY = "manage yard";
/** Where yards are; the yard's own zone is offered whatever it is. */
const ZONES = ["New_York", "Toronto", "Detroit", "Chicago", "Winnipeg", "Mexico_City", "Denver", "Edmonton", "Boise", "Phoenix", "Los_Angeles", "Vancouver", "Tijuana", "Anchorage"].map((city) => `America/${city}`);

/** The yard's name, its clock, its bays in the order one walks them, and its crews. */
export function YardFacts() {
  const found = yard();
  return found ? <Amend found={found} /> : <Gone />;
}

const linesOf = (text: string): string[] => [...new Set(text.split("\n").map((line) => line.trim()).filter(Boolean))];

/** Only what differs from what stands. */
function changes(form: YardForm, found: YardPart): Partial<Facts> {
  const now: Facts = { name: form.name.trim(), zone: form.zone, bays: linesOf(form.bays), crews: form.crews.filter(({ name }) => name.trim()).map(({ id, name }) => ({ id, name: name.trim() })) };
  return Object.fromEntries(Object.entries(now).filter(([field, one]) => canonicalText(one) !== canonicalText(found[field as keyof Facts])));
}

function Amend({ found }: { found: YardPart }) {
  const kept = useKept<Partial<YardForm>>(KEY, {});
  const form = { name: found.name, zone: found.zone, bays: found.bays.join("\n"), crews: found.crews, ...kept.value };
  const saving = useSaving();
  const change = (part: Partial<YardForm>): void => void kept.keep({ ...kept.value, ...part });
  const body = changes(form, found);
  const save = async (): Promise<void> => {
    if (!form.name.trim()) return saving.setProblem(t("manager.yard_name_needed"));
    if (!(await saving.save([{ kind: "yard.amended", module: null, about: found.id, body }], t("manager.yard_saved"), { draft: KEY }))) return;
    kept.drop();
    go(to.manage());
  };
  const slab = { label: t("manager.save_yard"), onPress: () => void save(), why: Object.keys(body).length > 0 ? null : t("manager.nothing_changed") };
  const zones = [...new Set([found.zone, ...ZONES])].map((key) => ({ key, label: (key.split("/").at(-1) ?? key).replaceAll("_", " ") }));
  return (
    <Screen title={t("manager.yard")} over={t("yard.manage")} overHref={to.manage()} slabs={{ main: slab }}>
      {kept.ready && (
        <>
          <section class="block">
            <Field label={t("manager.yard_name")} value={form.name} error={saving.problem} onInput={(name) => change({ name })} />
            <Pick label={t("manager.zone")} value={form.zone} options={zones} onChange={(zone) => change({ zone })} />
            <Field label={t("manager.bays")} hint={t("manager.bays_hint")} lines={8} value={form.bays} onInput={(bays) => change({ bays })} />
          </section>
          <Crews crews={form.crews} onChange={(crews) => change({ crews })} />
        </>
      )}
    </Screen>
  );
}

function Crews({ crews, onChange }: { crews: Crew[]; onChange: (crews: Crew[]) => void }) {
  return (
    <section class="block">
      <h2>{t("manager.crews")}</h2>
      {crews.map((crew, at) => (
        <div key={crew.id} class="field-and-key">
          <Field label={t("manager.crew_n", { n: at + 1 })} value={crew.name} onInput={(name) => onChange(crews.with(at, { ...crew, name }))} />
          <button type="button" class="key" onClick={() => onChange(crews.toSpliced(at, 1))} aria-label={t("manager.take_out", { what: crew.name })}>
            {t("manager.take_out_short")}
          </button>
        </div>
      ))}
      <div class="key-row">
        <button type="button" class="key" onClick={() => onChange([...crews, { id: `crew-${newId().slice(-8)}`, name: "" }])}>
          {t("manager.add_crew")}
        </button>
      </div>
      <p class="second">{t("manager.crews_hint")}</p>
    </section>
  );
}
