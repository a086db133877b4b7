/** What an inspector has picked among the cleared items of a room, and how it becomes closes or goes back. */

import { newId } from "../../clock";
import { write, type Draft } from "../../journal";
import type { Taken } from "../../photos";
import type { ItemPart } from "../../rules";
import { t } from "../../words";
import { inRoom, me, numbers, spotOf, told, useDrawn, useKept, useSaving, type ModuleView, type RoomView } from "../common";
import { spread } from "../wall/WriteUp";

export interface Back {
  reason: string;
  text: string;
  photo: Taken | null;
}
const NO_REASON: Back = { reason: "shows_under_light", text: "", photo: null };
/** What is picked and half said: kept on the phone, as some reload the page while the camera is open. */
interface Half {
  picked: string[];
  back: Back | null;
}
const NOTHING: Half = { picked: [], back: null };

export interface Judging {
  cleared: ItemPart[];
  picked: ReadonlySet<string>;
  /** What is picked and still cleared, as the screen shows it. */
  chosen: ItemPart[];
  /** What goes back with them, half said; null while nothing does. */
  back: Back | null;
  /** Handed what stands, or the usual reason. */
  setBack: (next: (now: Back) => Back | null) => void;
  pick: (ids: string[], on: boolean) => void;
  close: () => void;
  sendBack: () => void;
  problem: string | null;
  tell: (problem: string | null) => void;
}

/** The person's hands were on it: others judge it. */
export const own = (item: ItemPart): boolean => item.hands.includes(me());

export function useJudging(view: ModuleView, room: RoomView): Judging {
  const slot = `recheck ${me()} ${view.id} ${room.key}`;
  const half = useKept<Half>(slot, NOTHING);
  const { back } = half.value;
  const { problem, tell, saving } = useSaving();
  const picked = new Set(half.value.picked);
  const cleared = inRoom(view, room.key).filter((item) => item.state === "cleared");
  const chosen = cleared.filter((item) => picked.has(item.id));
  const shown = useDrawn(...chosen.map((item) => ({ part: "item", id: item.id })));
  const list = numbers(chosen.map(({ number }) => number));
  const save = (drafts: Draft[], said: string, photos: Taken[] = []): void =>
    void saving(async () => {
      await write(drafts, photos, { drawn: shown, draft: slot });
      half.drop();
      told.value = said;
    });
  const close = (): void => save(chosen.map((item): Draft => ({ kind: "item.closed", module: view.id, about: item.id, body: {} })), t("recheck.closed", { numbers: list }));
  const sendBack = (): void => {
    if (back) save(sendBacks(chosen, view.id, back), t("recheck.sent", { numbers: list }), back.photo ? [back.photo] : []);
  };
  const pick = (ids: string[], on: boolean): void => {
    told.value = null;
    void half.keep((now) => ({ ...now, picked: [...now.picked.filter((id) => !ids.includes(id)), ...(on ? ids : [])] }));
  };
  const setBack: Judging["setBack"] = (next) => void half.keep((now) => ({ ...now, back: next(now.back ?? NO_REASON) }));
  return { cleared, picked, chosen, back, setBack, pick, close, sendBack, problem, tell };
}

/** One photo serves every item that goes back with it. */
function sendBacks(chosen: ItemPart[], module: string, { reason, text, photo }: Back): Draft[] {
  const body = { reason, ...(text.trim() ? { text: text.trim() } : {}) };
  const id = newId();
  const first = chosen[0] && spotOf(chosen[0]);
  const where = first ? { room: first.room, surface: first.surface } : {};
  const drafts = chosen.map((item): Draft => ({ kind: "item.sent_back", module, about: item.id, body: { ...body, ...(photo ? { photos: [id] } : {}) } }));
  if (!photo) return drafts;
  const items = chosen.map((item, index): [string, number, number] => [item.id, ...spread(photo.px, index, chosen.length)]);
  return [{ kind: "photo.added", module, about: id, body: { sha256: photo.sha256, bytes: photo.bytes.byteLength, px: photo.px, shows: "before", ...where, items, marks: [] } }, ...drafts];
}
