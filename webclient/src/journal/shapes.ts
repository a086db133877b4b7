/** The entry and the part as this room needs them. */

export type Entry = {
  id: string;
  device: string;
  n: number;
  prev: string | null;
  epoch: string;
  seen: number;
  at: string;
  by: string;
  module: string | null;
  about: string;
  kind: string;
  body: Record<string, unknown>;
  rules: 1;
};
export type Part = { part: string; id: string; module: string | null; seq: number } & Record<string, unknown>;
export type Parts = Map<string, Part>;
