import { faceOf, placeInWords, surfaceInWords } from "../../parts";
import type { Head, ItemPart, Spot } from "../../rules";
import { say, t } from "../../words";
import { crewName, has, moduleView, nameOf, roomName } from "../common";

/** Two values that two people wrote, neither knowing of the other: both shown, until one who sees both decides. */
export function Undecided({ item, field, onDecide }: { item: ItemPart; field: string; onDecide: (kind: "item.amended" | "item.placed" | "item.given", body: object) => Promise<unknown> }) {
  const heads = (item.heads[field as keyof ItemPart["heads"]] ?? []) as Head<unknown>[];
  const decide = (chosen: unknown): void => {
    if (field === "spot") void onDecide("item.placed", { ...(chosen as Spot) });
    else if (field === "crew" || field === "charge") void onDecide("item.given", { [field]: chosen });
    else void onDecide("item.amended", { [field]: chosen });
  };
  return (
    <section class="block">
      <p class="late"><b>{t(has("inspector") ? "writeup.two_values" : "writeup.two_values_look")}</b></p>
      {!has("inspector") && heads.map(([chosen, ref, by]) => (
        <p key={ref.join(" ")}>
          {inWords(item, field, chosen)} <span class="second">{nameOf(by)}</span>
        </p>
      ))}
      {has("inspector") && heads.map(([chosen, ref, by]) => (
        <button key={ref.join(" ")} type="button" class="key" onClick={() => decide(chosen)}>
          {t("writeup.choose_value", { value: inWords(item, field, chosen) })} <span class="second">{nameOf(by)}</span>
        </button>
      ))}
    </section>
  );
}

function inWords(item: ItemPart, field: string, chosen: unknown): string {
  if (field === "defect") return say(`defects.${String(chosen)}`);
  if (field === "crew" || field === "charge") return crewName(String(chosen));
  if (field !== "spot") return String(chosen);
  const spot = chosen as Spot;
  const view = item.module ? moduleView(item.module) : null;
  const plan = view?.rooms.find((room) => room.key === spot.room)?.plan;
  const sight = (plan && view && faceOf(plan, spot.surface, view.mirrored)?.sight) || "";
  const at = spot.along !== undefined && spot.up !== undefined ? { along: spot.along, up: spot.up } : undefined;
  const place = placeInWords({ id: item.id, number: item.number, state: "open", surface: spot.surface, spot: at, words: spot.words });
  return `${view ? roomName(view, spot.room) : spot.room}, ${surfaceInWords(spot.surface, sight)}, ${place}`;
}
