/** A half-written write-up and the entries that it becomes. Pure but for the ids it is handed. */

import type { Draft } from "../../journal";
import type { Spot, Surface, WordSpot } from "../../parts";
import type { PhotoMark } from "../../rules";

export interface Tap {
  id: string;
  spot?: Spot;
  words?: WordSpot;
}
export interface KeptPhoto {
  sha256: string;
  media: string;
  bytes: ArrayBuffer;
  px: [number, number];
  id: string;
  /** Where each item is on it, by item id. */
  at: Record<string, [number, number]>;
  /** Absent on a photo half-kept by an earlier version. */
  marks?: PhotoMark[];
}
export interface Half {
  kind: string | null;
  taps: Tap[];
  light: "normal" | "raking";
  crew: string | null;
  charge: string | null;
  wish: string;
  photos: KeptPhoto[];
}
/** What was used last on this phone: offered next time. */
export interface LastUsed {
  kinds: string[];
  light: "normal" | "raking";
  crew: string | null;
  charge: string | null;
}

export const NOTHING_USED: LastUsed = { kinds: [], light: "raking", crew: null, charge: null };

export function empty(last: LastUsed): Half {
  return { kind: null, taps: [], light: last.light, crew: last.crew, charge: last.charge, wish: "", photos: [] };
}

/** The entries of one save: an item for each tap, then a photo entry for each photo, marked with all of them. */
export function entriesOf(half: Half, module: string, room: string, surface: Surface): Draft[] {
  const items = half.taps.map((tap): Draft => {
    const place = tap.spot ? { along: tap.spot.along, up: tap.spot.up } : tap.words ? { words: tap.words } : {};
    const given = { ...(half.wish.trim() ? { wish: half.wish.trim() } : {}), ...(half.crew ? { crew: half.crew } : {}), ...(half.charge ? { charge: half.charge } : {}) };
    return { kind: "item.logged", module, about: tap.id, body: { defect: half.kind ?? "", room, surface, ...place, light: half.light, ...given } };
  });
  const photos = half.photos.map((photo): Draft => {
    const onIt = half.taps.map((tap, index): [string, number, number] => [tap.id, ...(photo.at[tap.id] ?? spread(photo.px, index, half.taps.length))]);
    const about = { sha256: photo.sha256, bytes: photo.bytes.byteLength, px: photo.px, room, surface };
    return { kind: "photo.added", module, about: photo.id, body: { ...about, shows: "before", items: onIt, marks: photo.marks ?? [] } };
  });
  return [...items, ...photos];
}

/** What is still half written after a save: spots that were tapped while it ran; null when there are none. */
export function leftOver(now: Half | null, saved: Half): Half | null {
  if (!now) return null;
  const taps = now.taps.filter((tap) => !saved.taps.some(({ id }) => id === tap.id));
  const photos = now.photos.filter((photo) => !saved.photos.some(({ id }) => id === photo.id));
  return taps.length + photos.length > 0 ? { ...now, taps, photos } : null;
}

const ABREAST = 6;

/** Where nobody has tapped the photo, the numbers stand in rows along its foot, so that they are on it and cover little. */
export function spread([w, h]: [number, number], index: number, count: number): [number, number] {
  const rows = Math.ceil(count / ABREAST);
  const row = Math.floor(index / ABREAST);
  const abreast = row === rows - 1 ? count - row * ABREAST : ABREAST;
  const up = 0.06 * h + Math.min(0.1 * Math.max(w, h), (0.88 * h) / rows) * (rows - 1 - row);
  return [Math.round((w * ((index % ABREAST) + 0.4)) / (rows > 1 ? ABREAST : abreast)), Math.round(h - up)];
}
