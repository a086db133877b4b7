/** Marks on a photo are data in whole pixels of the stored photo, never pixels. */

export type Point = [number, number];
export type Mark =
  | { kind: "arrow"; from: Point; to: Point }
  | { kind: "ring"; at: Point; r: number }
  | { kind: "text"; at: Point; text: string };
