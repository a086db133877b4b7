/** What parts and holds of every kind carry. Instants are UTC whole seconds with Z. */

/** Null, or the reason why an entry had no effect. */
export type Step = string | null;

/** A reference to an entry; aside is 1 once it was set aside. */
export type Ref = [seq: number, device: string, n: number, aside: 0 | 1];
export type Head<V> = [value: V, ref: Ref, by: string];
/** Field -> its heads: one is decided, two with different values are not. */
export type Heads<F> = { [K in keyof F & string]?: Head<F[K]>[] };
/** Device -> [seq, n] of its latest objection; "*" -> seq of the latest that was let in. */
export type Objections = Record<string, [seq: number, n: number] | number>;

export interface Line {
  kind: string;
  by: string;
  time: string;
  no?: string;
  let_in?: 1;
  body?: object;
  ended?: string[];
  line?: string;
  /** In the history of a coat: the coat under it that this happened to. */
  under?: string;
}
export interface Approval {
  ref: Ref;
  by: string;
  time: string;
}
export interface Envelope<K extends string> {
  part: K;
  id: string;
  module: string | null;
  seq: number;
}

export type Lifts = "crew_lead" | "inspector" | "shipping" | "manager" | "waiting";
export interface Held<K extends string> {
  key: K;
  lifts: Lifts;
  seq: number;
}
