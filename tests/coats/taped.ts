/** A module with one bath whose tape went on at 8 am, and the air that was read there. */
import { seconds, type AirPart, type AirRow, type CoatPart, type ModulePart } from "../../webclient/src/rules";

export const LAID = "2026-12-02T08:00:00Z";
export const module = {
  part: "module", id: "m", module: "m", seq: 1, last_number: 0, left: null, release: null, releases: [], answers: [], phone_answers: {}, lines: [],
  rooms: [{ room: "bath", name: "Bath", seq: 1 }], heads: { coats: [[{ "*": ["tape", "first"] }, [1, "d", 1, 0], "p"]] },
} as unknown as ModulePart;
export const tape: CoatPart = {
  part: "coat", id: "c", module: "m", seq: 2, ref: [2, "d", 1, 0], coat: "tape", rooms: ["bath"], surface: null, material: "drying_type", thickness: "normal", set_minutes: null, label_minutes: null,
  paint: null, laid: LAID, by: "p", done_by: [], time: LAID, unsure: 0, early: null, over: [], items: [], covered_by: [], objections: {}, answer: null, void: null, since: 2, lines: [],
  cells: { bath: { objections: {}, wet: null, dry: null, restart: null } },
};
/** 70 °F, 50 %, so many hours after the laying. */
export const air = (where: "module" | "yard", ...hours: number[]): AirPart => ({
  part: "air", id: where, module: where === "yard" ? null : "m", seq: 3, stream: where, where, room: null, day: "2026-12-02",
  rows: hours.map((hour): AirRow => [seconds(LAID) + hour * 3600, 211, 50, 13_411_000, null, "hand", "p", null]),
});
