import { useState } from "preact/hooks";
import { newId } from "../../clock";
import type { Draft } from "../../journal";
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
export function DoneBy({ done, onChange, timed = true }: { done: Done; onChange: (done: Done) => void; timed?: boolean | undefined }) {
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
        <span>{t(timed ? "work.more" : "work.done_by")}</span>
      </button>
      {open && (
        <>
          <Pick label={t("work.done_by")} value={done.who} options={options} onChange={(who) => onChange({ ...done, who })} />
          {done.who === "new" && <Field label={t("work.new_name")} value={done.name} onInput={(name) => onChange({ ...done, name })} />}
          {timed && <Field label={t("work.minutes")} value={done.minutes} inputMode="numeric" onInput={(minutes) => onChange({ ...done, minutes })} />}
        </>
      )}
    </>
  );
}

/** Who did the work; somebody without an account gets an id here, which an account given later keeps. */
export function doneByOf(done: Done): { doneBy: string[]; named: Draft[] } {
  if (done.who !== "new") return { doneBy: done.who ? [done.who] : [], named: [] };
  const name = done.name.trim();
  if (!name) return { doneBy: [], named: [] };
  const id = newId();
  const crew = session.peek().holder?.crew;
  return { doneBy: [id], named: [{ kind: "person.named", module: null, about: id, body: { name, roles: [], ...(crew ? { crew } : {}) } }] };
}
