import { useState } from "preact/hooks";
import { newId } from "../../clock";
import type { Draft } from "../../journal";
import { Pick } from "../../parts";
import { go, to } from "../../route";
import { t } from "../../words";
import { Screen, useKept, zone } from "../common";
import { added, formOf, problems, type FactsForm } from "./facts";
import { FactsFields } from "./FactsFields";
import { bayOptions } from "./MoveLeave";
import { useSaving } from "./saving";

const KEY = "manage module new";

/** A module comes into the yard: its facts, and the bay it stands in. */
export function AddModule() {
  const empty = formOf(null, zone());
  const kept = useKept<FactsForm & { bay: string }>(KEY, { ...empty, bay: "" });
  const [tried, setTried] = useState(false);
  const saving = useSaving();
  const { bay, ...form } = kept.value;
  const wrong = problems(form, empty, zone());
  const save = async (): Promise<void> => {
    setTried(true);
    if (Object.keys(wrong).length > 0) return saving.setProblem(t("manager.look_above"));
    const id = newId();
    const drafts: Draft[] = [{ kind: "module.added", module: id, about: id, body: added(form, zone()) }];
    if (bay) drafts.push({ kind: "module.moved", module: id, about: id, body: { bay } });
    if (await saving.save(drafts, t("manager.module_added", { serial: form.serial.trim() }), { draft: KEY })) go(to.manage("module", id));
  };
  const slab = { label: form.serial.trim() ? t("manager.add_serial", { serial: form.serial.trim() }) : t("manager.add_module"), onPress: () => void save() };
  return (
    <Screen title={t("manager.add_module")} over={t("yard.manage")} overHref={to.manage()} slabs={{ main: slab, note: saving.problem ? <p class="late" role="alert">{saving.problem}</p> : undefined }}>
      {kept.ready && (
        <FactsFields form={form} before={empty} wrong={tried ? wrong : {}} module={null} onChange={(part) => void kept.keep({ ...kept.value, ...part })}>
          <Pick label={t("manager.bay")} value={bay} options={bayOptions()} onChange={(chosen) => void kept.keep({ ...kept.value, bay: chosen })} />
        </FactsFields>
      )}
    </Screen>
  );
}
