/** Marks on a photo: an arrow, a ring, a line of words. Pure; pixels are those of the stored photo, whole. */

import type { PhotoMark } from "../../rules";

export type Tool = "items" | "arrow" | "ring" | "text";
export type Place = [x: number, y: number];

const ARROW = 0.16;
const RING = 0.06;
const STEP = 0.03;
/** Arrow keys move the last mark by these shares of the long side. */
export const NUDGES: Record<string, Place> = {
  ArrowLeft: [-STEP, 0],
  ArrowRight: [STEP, 0],
  ArrowUp: [0, -STEP],
  ArrowDown: [0, STEP],
};

/** A place kept on the photo. */
export function onPhoto([x, y]: Place, [w, h]: Place): Place {
  const within = (value: number, most: number): number => Math.min(most - 1, Math.max(0, Math.round(value)));
  return [within(x, w), within(y, h)];
}

/** The mark of one tap: an arrow's tip is where the tap fell, and it comes from the side where there is more room. */
export function markAt(tool: Exclude<Tool, "items">, at: Place, px: Place, text: string): PhotoMark {
  const long = Math.max(...px);
  const tip = onPhoto(at, px);
  if (tool === "ring") return { kind: "ring", at: tip, r: Math.max(1, Math.round(long * RING)) };
  if (tool === "text") return { kind: "text", at: tip, text };
  const away = (value: number, most: number): number => value + (value < most / 2 ? 1 : -1) * long * ARROW;
  return { kind: "arrow", from: onPhoto([away(tip[0], px[0]), away(tip[1], px[1])], px), to: tip };
}

/** A mark moved by shares of the photo's long side. */
export function nudged(mark: PhotoMark, [across, down]: Place, px: Place): PhotoMark {
  const long = Math.max(...px);
  const by = ([x, y]: Place): Place => onPhoto([x + across * long, y + down * long], px);
  return mark.kind === "arrow" ? { ...mark, from: by(mark.from), to: by(mark.to) } : { ...mark, at: by(mark.at) };
}
