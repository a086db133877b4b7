import { useState } from "preact/hooks";
import { Field, Pick } from "../../parts";
import { session } from "../../people";
import { t } from "../../words";
import { people } from "../common";

export interface Done {
  /** A person id, "new" for somebody not in the list, "" for the crew lead's own. */
  who: string;
  name: string;
  minutes: string;
}

/** Who did it and how long: in a row that opens, both may be left. */
export function DoneBy({ done, onChange }: { done: Done; onChange: (done: Done) => void }) {
  const [open, setOpen] = useState(false);
  const holder = session.value.holder;
  const others = people().filter((person) => person.id !== holder?.id && (person.crew === holder?.crew || person.roles.length === 0));
  const options = [
    { key: "", label: t("work.done_by_me") },
    ...others.map(({ id, name }) => ({ key: id, label: name })),
    { key: "new", label: t("work.somebody_new") },
  ];
  return (
    <>
      <button type="button" class="surface-key" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span>{t("work.more")}</span>
      </button>
      {open && (
        <>
          <Pick label={t("work.done_by")} value={done.who} options={options} onChange={(who) => onChange({ ...done, who })} />
          {done.who === "new" && <Field label={t("work.new_name")} value={done.name} onInput={(name) => onChange({ ...done, name })} />}
          <Field label={t("work.minutes")} value={done.minutes} inputMode="numeric" onInput={(minutes) => onChange({ ...done, minutes })} />
        </>
      )}
    </>
  );
}
