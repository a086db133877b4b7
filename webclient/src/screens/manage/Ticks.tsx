import type { Option } from "../../parts";

interface TicksProps {
  label: string;
  options: readonly Option[];
  values: readonly string[];
  onChange: (values: string[]) => void;
}

/** Several of a few, side by side. */
export function Ticks({ label, options, values, onChange }: TicksProps) {
  const flip = (key: string): void => onChange(options.map((option) => option.key).filter((one) => (one === key ? !values.includes(one) : values.includes(one))));
  return (
    <fieldset class="choice">
      <legend class="second">{label}</legend>
      <div class="segments">
        {options.map((option) => (
          <label key={option.key} class="segment ring-when-focused">
            <input type="checkbox" checked={values.includes(option.key)} onChange={() => flip(option.key)} />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
