/** Which photos a person may have to look at with no signal: those of items that are not finished yet. */

import { partKey, type Part, type PhotoPart } from "../rules";
import type { Parts } from "./folding";

const MOST = 300;

/** Hashes, the newest first. */
export function wantedPictures(parts: Parts): string[] {
  const photos = [...parts.values()].filter((part): part is PhotoPart => part.part === "photo" && part.arrived);
  const wanted = photos.filter((photo) => itemsOn(photo).some((id) => unfinished(parts.get(partKey("item", id)))));
  return [...new Set(wanted.sort((a, b) => b.seq - a.seq).map(({ sha256 }) => sha256))].slice(0, MOST);
}

function itemsOn({ heads }: PhotoPart): string[] {
  return (heads.marked ?? []).flatMap(([{ items }]) => items.map(([id]) => id));
}

const unfinished = (part: Part | undefined): boolean =>
  part?.part === "item" && (part.state === "open" || part.state === "cleared");
