import { useId } from "preact/hooks";
import { degreesBoth } from "../../parts";
import { whole } from "../../rules";
import { t } from "../../words";
import { numberOf, rhDoubt, stepped, tenthsOf, wrongIn, type Field, type Typed, type Unit, type Wrong } from "./measuring";
import "./readings.css";

interface MeasureProps {
  label: string;
  value: string;
  onInput: (value: string) => void;
  /** °F, °C or %. */
  sign: string;
  /** The first press of + or − gives this. */
  start: number;
  /** The same in the other unit. */
  beside?: string | undefined;
  hint?: string | undefined;
  error?: string | null | undefined;
}

/** A figure: typed, or one up and down with a glove on. */
export function Measure({ label, value, onInput, sign, start, beside, hint, error }: MeasureProps) {
  const id = useId();
  const key = (by: 1 | -1) => (
    <button type="button" class="key" aria-label={t(by > 0 ? "air.more" : "air.less", { what: label })} onClick={() => onInput(stepped(value, by, start))}>
      {by > 0 ? "+" : "−"}
    </button>
  );
  return (
    <div class="measure">
      <p class="measure-name">
        <label for={id}>{label}</label>
        {beside && <span id={`${id}-also`}>{beside}</span>}
      </p>
      <div class="measure-keys">
        {key(-1)}
        <span class="measure-box">
          <input id={id} value={value} inputMode="decimal" autocomplete="off" aria-invalid={error ? "true" : undefined} aria-describedby={[beside && `${id}-also`, (error || hint) && `${id}-said`].filter(Boolean).join(" ") || undefined} onInput={(event) => onInput(event.currentTarget.value)} />
          <span class="measure-sign">{sign}</span>
        </span>
        {key(1)}
      </div>
      {(error || hint) && (
        <p id={`${id}-said`} class={error ? "field-error" : "second"} role={error ? "alert" : undefined}>
          {error ?? hint}
        </p>
      )}
    </div>
  );
}

/** *21 °C* beside what was typed in °F, and the other way. */
export function besideTemp(text: string, unit: Unit): string | undefined {
  const tenths = tenthsOf(text, unit);
  if (tenths === null) return undefined;
  return unit === "F" ? `${whole(tenths / 10)}\u00a0°C` : (degreesBoth(tenths).split(" (")[0] ?? undefined);
}

export const wrongWords = ({ key, values }: Wrong): string => t(key, values);

interface AirFieldsProps {
  typed: Typed;
  /** Where steps begin while nothing is typed. */
  start: { temp: number; rh: number };
  onChange: (part: Partial<Typed>) => void;
}

/** Temperature and RH side by side where there is room; what is missing still is no mistake yet. */
export function AirFields({ typed, start, onChange }: AirFieldsProps) {
  const { unit } = typed;
  const wrong = wrongIn(typed).filter(({ key }) => key !== "air.missing");
  const error = (field: Field): string | null => {
    const found = wrong.find((one) => one.field === field);
    return found ? wrongWords(found) : null;
  };
  const doubt = rhDoubt(typed.rh);
  return (
    <div class="air-fields">
      <Measure label={t("air.temp")} value={typed.temp} sign={`°${unit}`} start={start.temp} beside={besideTemp(typed.temp, unit)} error={error("temp")} onInput={(temp) => onChange({ temp })} />
      <Measure label={t("air.rh")} value={typed.rh} sign="%" start={start.rh} hint={doubt ? t(doubt) : undefined} error={error("rh")} onInput={(rh) => onChange({ rh })} />
    </div>
  );
}

/** The optional one: the wall where it is coldest. */
export function SurfaceField({ typed, start, onChange }: AirFieldsProps) {
  const { unit } = typed;
  const found = wrongIn(typed).find(({ field }) => field === "surface");
  return <Measure label={t("air.surface")} value={typed.surface} sign={`°${unit}`} start={numberOf(typed.temp) ?? start.temp} beside={besideTemp(typed.surface, unit)} hint={t("air.surface_hint")} error={found ? wrongWords(found) : null} onInput={(surface) => onChange({ surface })} />;
}
