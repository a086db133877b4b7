import type { Head } from "../../rules";
import { say, t } from "../../words";
import { nameOf } from "../common";

interface TwoValuesProps {
  field: string;
  heads: readonly Head<unknown>[];
  words: (value: unknown) => string;
  onChoose: (value: unknown) => void;
}

/** Two values of one fact, each with who wrote it, and a key to choose either. */
export function TwoValues({ field, heads, words, onChoose }: TwoValuesProps) {
  return (
    <section class="block" role="group" aria-label={say(`manager.field.${field}`)}>
      <p class="late">
        <b>{t("manager.two_values_of", { field: say(`holds.field.${field}`) })}</b>
      </p>
      <div class="key-row">
        {heads.map(([chosen, ref, by]) => (
          <button key={ref.join(" ")} type="button" class="key" onClick={() => onChoose(chosen)}>
            {t("manager.choose", { value: words(chosen) })} <span class="second">{nameOf(by)}</span>
          </button>
        ))}
      </div>
    </section>
  );
}
