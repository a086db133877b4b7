import { useId, useState } from "preact/hooks";
import { t } from "../words";
import "./page.css";
import "./choose.css";

export interface Option<K extends string = string> {
  key: K;
  label: string;
}
export interface ChoiceProps<K extends string> {
  label: string;
  options: readonly Option<K>[];
  value: K | null;
  onChange: (key: K) => void;
  /** Shown to ears only, where the drawing above says it already. */
  labelHeard?: boolean | undefined;
}

/** One of a few, side by side. */
export function Choice<K extends string>({ label, options, value, onChange, labelHeard }: ChoiceProps<K>) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend class={labelHeard ? "heard" : "second"}>{label}</legend>
      <div class="segments">
        {options.map((option) => (
          <label key={option.key} class="segment ring-when-focused">
            <input type="radio" name={name} checked={option.key === value} onChange={() => onChange(option.key)} />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export interface KindPickerProps {
  /** Every kind, in the order of the list. */
  kinds: readonly Option[];
  /** Keys used last, latest first; the first ones are offered. */
  last: readonly string[];
  chosen: string | null;
  onChoose: (key: string) => void;
  /** How many are offered beside *All*; with *All* they fill rows of three. */
  offered?: number | undefined;
}

function offer(kinds: readonly Option[], last: readonly string[], most: number): Option[] {
  const used = last.flatMap((key) => kinds.filter((kind) => kind.key === key));
  const others = kinds.filter((kind) => !used.includes(kind));
  return [...used, ...others].slice(0, most);
}

/** The chosen kind as one row that opens again. */
function ChosenKind({ label, onOpen }: { label: string; onOpen: () => void }) {
  return (
    <div class="kind-chosen">
      <b>{label}</b>
      <button type="button" class="key" aria-expanded="false" onClick={onOpen}>
        {t("frame.other_kind")}
      </button>
    </div>
  );
}

/** Kind first: those used last and *All…*. Once chosen it is one row that opens again. */
export function KindPicker({ kinds, last, chosen, onChoose, offered = 5 }: KindPickerProps) {
  // Which choice it was opened over: a kind chosen or taken away from outside folds or opens it by itself.
  const [over, setOver] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  const one = kinds.find((kind) => kind.key === chosen);
  if (one && over !== one.key) return <ChosenKind label={one.label} onOpen={() => setOver(one.key)} />;
  const choose = (key: string): void => {
    setOver(null);
    setAll(false);
    onChoose(key);
  };
  return (
    <div class="in-row kinds" role="group" aria-label={t("frame.kind")}>
      {(all ? kinds : offer(kinds, last, offered)).map((kind) => (
        <button key={kind.key} type="button" class="key" aria-pressed={kind.key === chosen ? "true" : "false"} onClick={() => choose(kind.key)}>
          {kind.label}
        </button>
      ))}
      {kinds.length > offered && (
        <button type="button" class="key" aria-expanded={all ? "true" : "false"} onClick={() => setAll(!all)}>
          {all ? t("frame.fewer_kinds") : t("frame.all_kinds", { n: kinds.length })}
        </button>
      )}
    </div>
  );
}
