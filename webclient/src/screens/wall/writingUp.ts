/** What is half written up on one wall, what may be done with it, and how it becomes entries. */

import { newId } from "../../clock";
import { write } from "../../journal";
import type { Marked, Surface } from "../../parts";
import { t, tn } from "../../words";
import { mayWrite, numbers, told, useKept, useSaving, type ModuleView, type RoomView } from "../common";
import type { Kept } from "../common/kept";
import { empty, entriesOf, leftOver, NOTHING_USED, type Half, type LastUsed, type Tap } from "./WriteUp";

export type Change = (part: Partial<Half> | ((now: Half) => Partial<Half>)) => Promise<void>;
export interface WritingUp {
  /** The person may, and what was kept has been read. */
  can: boolean;
  now: Half;
  change: Change;
  /** The taps with the numbers that this phone expects. */
  fresh: Marked[];
  lastKinds: readonly string[];
  choose: (kind: string) => void;
  tap: (place: Omit<Tap, "id">) => void;
  /** Moves the last tap. */
  move: (spot: Tap["spot"]) => void;
  save: () => void;
  problem: string | null;
}

export function useWritingUp(view: ModuleView, room: RoomView, surface: Surface): WritingUp {
  const used = useKept<LastUsed>("writeup.last", NOTHING_USED);
  const slot = `writeup ${view.id} ${room.key} ${surface}`;
  const half = useKept<Half | null>(slot, null);
  const { problem, tell, saving } = useSaving();
  const now = half.value ?? empty(used.value);
  const change = changing(half, used.value);
  const fresh = now.taps.map(({ id, spot, words }, index): Marked => ({ id, number: view.module.last_number + 1 + index, state: "open", surface, spot, words }));
  const save = async (): Promise<void> => {
    const photos = now.photos.map(({ sha256, media, bytes }) => ({ sha256, media, bytes }));
    await write(entriesOf(now, view.id, room.key, surface), photos, { draft: slot });
    const left = leftOver(half.now(), now);
    if (left) void half.keep(left);
    else half.drop();
    await used.keep(usedNow(now, used.value));
    told.value = tn("writeup.saved", fresh.length, { numbers: numbers(fresh.map((mark) => Number(mark.number))) });
  };
  const choose = (kind: string): void => {
    told.value = null;
    tell(null);
    void change({ kind });
  };
  const tap = (place: Omit<Tap, "id">): void => {
    if (!now.kind) tell(t("writeup.nothing_yet"));
    else void change(({ taps }) => ({ taps: [...taps, { id: newId(), ...place }] }));
  };
  const move = (spot: Tap["spot"]): void => {
    const last = now.taps.at(-1);
    if (last && spot) void change({ taps: [...now.taps.slice(0, -1), { ...last, spot }] });
  };
  const can = mayWrite("item.logged") && half.ready && used.ready;
  return { can, now, change, fresh, lastKinds: used.value.kinds, choose, tap, move, save: () => void saving(save), problem };
}

const changing = (half: Kept<Half | null>, used: LastUsed): Change => (part) =>
  half.keep((before) => {
    const stands = before ?? empty(used);
    return { ...stands, ...(typeof part === "function" ? part(stands) : part) };
  });

function usedNow({ kind, light, crew, charge }: Half, before: LastUsed): LastUsed {
  const kinds = [kind ?? "", ...before.kinds.filter((one) => one !== kind)].slice(0, 5);
  return { kinds, light, crew, charge };
}
