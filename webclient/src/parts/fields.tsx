import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { t } from "../words";
import type { Option } from "./choose";
import "./page.css";
import "./fields.css";

export interface FieldProps {
  label: string;
  value: string;
  onInput: (value: string) => void;
  hint?: string | undefined;
  /** What is wrong and what to do, in words. */
  error?: string | null | undefined;
  type?: "text" | "date" | "time" | "datetime-local" | "number" | "search" | undefined;
  inputMode?: "text" | "numeric" | "decimal" | undefined;
  autoComplete?: string | undefined;
  /** Words to choose from while typing. */
  offers?: readonly string[] | undefined;
  lines?: number | undefined;
}

function Described({ id, hint, error }: { id: string; hint?: string | undefined; error?: string | null | undefined }) {
  return (
    <>
      {hint && !error && (
        <p class="second" id={id}>
          {hint}
        </p>
      )}
      {error && (
        <p class="field-error" id={id} role="alert">
          {error}
        </p>
      )}
    </>
  );
}

/** A line to write in, with its name above it. `lines` makes it a larger one. */
export function Field({ label, value, onInput, hint, error, type = "text", inputMode, autoComplete = "off", offers, lines }: FieldProps) {
  const id = useId();
  const shared = {
    id,
    value,
    "aria-describedby": hint || error ? `${id}-said` : undefined,
    "aria-invalid": error ? ("true" as const) : undefined,
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {lines ? (
        <textarea {...shared} rows={lines} onInput={(event) => onInput(event.currentTarget.value)} />
      ) : (
        <input
          {...shared}
          type={type}
          inputMode={inputMode}
          autocomplete={autoComplete}
          list={offers ? `${id}-offers` : undefined}
          onInput={(event) => onInput(event.currentTarget.value)}
        />
      )}
      {offers && (
        <datalist id={`${id}-offers`}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
      <Described id={`${id}-said`} hint={hint} error={error} />
    </div>
  );
}

/** One of many, by the phone's own list. */
export function Pick({ label, value, options, onChange, error }: { label: string; value: string; options: readonly Option[]; onChange: (key: string) => void; error?: string | null | undefined }) {
  const id = useId();
  const missing = !options.some((option) => option.key === value);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} aria-describedby={error ? `${id}-said` : undefined} onChange={(event) => onChange(event.currentTarget.value)}>
        {missing && <option value={value}>{t("frame.choose")}</option>}
        {options.map((option) => (
          <option key={option.key} value={option.key}>
            {option.label}
          </option>
        ))}
      </select>
      <Described id={`${id}-said`} error={error} />
    </div>
  );
}

/** A passcode: hidden until one asks to see it. */
export function Passcode({ label, value, onInput, error, autoComplete = "current-password" }: { label: string; value: string; onInput: (value: string) => void; error?: string | null | undefined; autoComplete?: string | undefined }) {
  const id = useId();
  const [seen, setSeen] = useState(false);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <div class="field-with-key">
        <input
          id={id}
          type={(seen ? "text" : "password") as "text"}
          value={value}
          autocomplete={autoComplete}
          autocapitalize="none"
          spellcheck={false}
          aria-describedby={error ? `${id}-said` : undefined}
          aria-invalid={error ? "true" : undefined}
          onInput={(event) => onInput(event.currentTarget.value)}
        />
        <button type="button" class="key" aria-pressed={seen ? "true" : "false"} onClick={() => setSeen(!seen)}>
          {t(seen ? "frame.hide_passcode" : "frame.show_passcode")}
        </button>
      </div>
      <Described id={`${id}-said`} error={error} />
    </div>
  );
}

export interface ConfirmProps {
  /** What will happen, and to which. */
  question: ComponentChildren;
  yes: string;
  onYes: () => void;
  onNo: () => void;
  /** Fields between the question and the keys: a reason, for instance. */
  children?: ComponentChildren;
  /** Why it cannot be done yet. */
  why?: string | null | undefined;
}

/** A question in its place on the page: nothing pops up, Escape leaves it. */
export function Confirm({ question, yes, onYes, onNo, children, why }: ConfirmProps) {
  const panel = useRef<HTMLDivElement>(null);
  const id = useId();
  useEffect(() => panel.current?.focus(), []);
  return (
    <div
      class="confirm"
      role="group"
      aria-labelledby={id}
      tabIndex={-1}
      ref={panel}
      onKeyDown={(event) => {
        if (event.key === "Escape") onNo();
      }}
    >
      <p id={id}>
        <b>{question}</b>
      </p>
      {children}
      {why && (
        <p class="second" id={`${id}-why`}>
          {why}
        </p>
      )}
      <div class="confirm-keys">
        <button type="button" class="key" onClick={onNo}>
          {t("frame.never_mind")}
        </button>
        <button type="button" class="key key-full" disabled={Boolean(why)} aria-describedby={why ? `${id}-why` : undefined} onClick={onYes}>
          {yes}
        </button>
      </div>
    </div>
  );
}
