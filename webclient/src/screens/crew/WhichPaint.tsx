import { t } from "../../words";
import { OnTheCan, OtherBatch } from "../coats/PaintFields";
import { canWords } from "../coats/sentences";
import { Ticks } from "../manage/Ticks";
import type { Clearing } from "./clearing";
import { anotherCan, paintedOn } from "./rework";
import { isPaint, type OnWall } from "./walls";

/** Which paint it was, only where some goes on: the one used here before, or another can, which may show. */
export function WhichPaint({ clearing: { said, say, ticking, clearingOf } }: { clearing: Clearing }) {
  const walls = [...ticking.walls, ...clearingOf.walls].filter(({ coat }) => isPaint(coat));
  if (walls.length === 0) return null;
  const used = usedHere(walls);
  const painted = paintedOn(walls, said);
  const options = [{ key: "same", label: used }, { key: "another", label: t("work.paint.another") }];
  const chosen = options.map(({ key }) => key).filter((key) => said[key as "same" | "another"]);
  // The one that was ticked just now counts: it was one can or the other.
  const choose = (ticked: string[]): void => {
    const one = ticked.find((key) => !chosen.includes(key));
    say({ same: one === "same", another: one === "another" });
  };
  return (
    <>
      {used && <Ticks label={t("work.paint")} options={options} values={chosen} onChange={choose} />}
      {!used && !said.another && (
        <button type="button" class="surface-key" aria-expanded="false" onClick={() => say({ same: false, another: true })}>
          {t("coats.paint")}
        </button>
      )}
      {said.another && <OnTheCan paint={anotherCan(walls, said)} painted={painted} onInput={(field, text) => say({ can: { ...said.can, [field]: text } })} />}
      {!said.another && <OtherBatch painted={painted} />}
    </>
  );
}

/** *Interior latex, oat, batch L-5078. Touch-up can: shed 2*: what was used last in the rooms; empty where nobody said. */
function usedHere(walls: readonly OnWall[]): string {
  const words = walls.flatMap(({ paint }) => {
    if (paint === null) return [];
    const { what, can } = canWords(paint);
    return [[what, can].filter(Boolean).join(". ")];
  });
  return [...new Set(words)].join("; ");
}
