import { useState } from "preact/hooks";
import { Confirm, Field, Pick } from "../../parts";
import { go, to } from "../../route";
import { t, tn } from "../../words";
import { gateOf, standing, useDrawn, yard, type ModuleView } from "../common";
import { useSaving } from "./saving";

/** Bays as one picks them, with what stands there; bays that nobody lists any more are still said. */
export function bayOptions(): { key: string; label: string }[] {
  const modules = standing();
  return (yard()?.bays ?? []).map((bay) => {
    const there = modules.filter((view) => view.bay === bay).map((view) => view.serial);
    return { key: bay, label: there.length > 0 ? `${bay} (${there.join(", ")})` : bay };
  });
}

export function Move({ view }: { view: ModuleView }) {
  const [bay, setBay] = useState("");
  const saving = useSaving();
  const move = async (): Promise<void> => {
    if (!bay) return saving.setProblem(t("manager.bay_needed"));
    const draft = { kind: "module.moved" as const, module: view.id, about: view.id, body: { bay } };
    if (await saving.save([draft], t("manager.moved", { serial: view.serial, bay }))) setBay("");
  };
  return (
    <section class="block">
      <h2>{t("manager.move")}</h2>
      <Pick label={t("manager.bay")} value={bay || (view.bay ?? "")} options={bayOptions()} onChange={setBay} error={saving.problem} />
      <p class="second">{t("gate.move_caution")}</p>
      <div class="key-row">
        <button type="button" class="key" onClick={() => void move()}>
          {bay ? t("manager.move_to", { serial: view.serial, bay }) : t("manager.move_key", { serial: view.serial })}
        </button>
      </div>
    </section>
  );
}

/** Leaving takes a module off every phone, so it asks first and wants to know why. */
export function Leave({ view }: { view: ModuleView }) {
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState("");
  const saving = useSaving();
  // What still holds it stands in the question, so the whole module is what one decides on.
  const shown = useDrawn({ module: view.id });
  const leave = async (): Promise<void> => {
    const draft = { kind: "module.left" as const, module: view.id, about: view.id, body: { why: why.trim() } };
    const done = await saving.save([draft], t("manager.left", { serial: view.serial }), { drawn: shown });
    if (done) go(to.yard());
  };
  const held = gateOf(view).holds.length;
  return (
    <section class="block">
      <h2>{t("manager.leaving")}</h2>
      {saving.problem && <p class="late" role="alert">{saving.problem}</p>}
      {!open && (
        <div class="key-row">
          <button type="button" class="key" onClick={() => setOpen(true)}>
            {t("manager.leave_key", { serial: view.serial })}
          </button>
        </div>
      )}
      {open && (
        <Confirm question={t("manager.leave_ask", { serial: view.serial })} yes={t("manager.leave_yes", { serial: view.serial })} onYes={() => void leave()} onNo={() => setOpen(false)} why={why.trim() ? null : t("manager.why_first")}>
          {!view.module.release && <p class="late">{held > 0 ? tn("manager.leave_held", held) : t("manager.leave_unreleased")}</p>}
          <p class="second">{t("gate.move_caution")}</p>
          <Field label={t("manager.leave_why")} value={why} onInput={setWhy} lines={2} />
        </Confirm>
      )}
    </section>
  );
}
