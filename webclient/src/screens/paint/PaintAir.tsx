import { coatToCome, type Place } from "../../rules";
import { me, useKept } from "../common";
import { NO_FIGURE, tenthsOf, wrongFigure, type Figure } from "../readings/measuring";
import { airVerdict, type Label } from "../ready/painting";
import { airWords } from "./sentences";

interface PaintAirProps {
  place: Place;
  rooms: readonly string[];
  at: number;
  /** Whether each figure that speaks against it is said too. */
  figures?: boolean;
}

/** What the can allows, as it was typed last. */
export function useLabel(): Label {
  const { value: label } = useKept<Figure>(`label least ${me()}`, NO_FIGURE);
  const least = wrongFigure(label) ? null : tenthsOf(label.text, label.unit);
  return least === null ? {} : { least_temp: least };
}

/** Dry under it is not enough for primer and paint: what the air says where it does not say go. */
export function PaintAir({ place, rooms, at, figures = false }: PaintAirProps) {
  const found = airVerdict(place, rooms, at, useLabel());
  if (found.verdict === "go") return null;
  return <p class={figures ? "late strong" : "late"} role={figures ? "status" : undefined}>{airWords(found, coatToCome(place, rooms[0] ?? ""), at, place.heat?.on === true, figures)}</p>;
}
