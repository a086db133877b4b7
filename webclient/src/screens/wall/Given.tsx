import { useState } from "preact/hooks";
import { Field, Pick } from "../../parts";
import type { Crew } from "../../rules";
import { t } from "../../words";
import { crewName } from "../common";

export interface GivenProps {
  crews: readonly Crew[];
  crew: string | null;
  charge: string | null;
  wish: string;
  onChange: (part: { crew?: string | null; charge?: string | null; wish?: string }) => void;
}

/** Crew and charge to, as used last, in a row that opens. */
export function Given({ crews, crew, charge, wish, onChange }: GivenProps) {
  const [open, setOpen] = useState(false);
  const options = [{ key: "", label: t("writeup.nobody") }, ...crews.map(({ id, name }) => ({ key: id, label: name }))];
  return (
    <section class="block">
      <button type="button" class="surface-key" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span>{t("writeup.crew_charge", { crew: crewName(crew), charge: crewName(charge) })}</span>
      </button>
      {open && (
        <>
          <Pick label={t("writeup.crew")} value={crew ?? ""} options={options} onChange={(key) => onChange({ crew: key || null })} />
          <Pick label={t("writeup.charge")} value={charge ?? ""} options={options} onChange={(key) => onChange({ charge: key || null })} />
          <Field label={t("writeup.wish")} value={wish} onInput={(text) => onChange({ wish: text })} lines={2} />
        </>
      )}
    </section>
  );
}
