/** Holds as sentences, grouped by who can lift them: the gate's screen and the text that is shared say the same. */

import { surfaceInWords } from "../../parts";
import { UNRELIABLE, type ClockFlag, type CoatHold, type CoatKey, type Hold } from "../../rules";
import { language, say, sayCount } from "../../words";
import { coatName, roomsInWords } from "./coats";
import { crewName, ended, ends, nameOf, plans, roomName, when, type ModuleView } from "./yard";

export interface HoldWords {
  /** Who lifts it, as a heading. */
  who: string;
  title: string;
  line: string | null;
}

/** *14, 22 and 23*, in rising order. */
export function numbers(list: readonly number[]): string {
  return new Intl.ListFormat(language.value, { type: "conjunction" }).format([...list].sort((a, b) => a - b).map(String));
}

export function holdWords(view: ModuleView, hold: Hold): HoldWords {
  const who = hold.key === "items_open" && hold.crew ? say("holds.lifts.crew_lead", { crew: crewName(hold.crew) }) : hold.lifts === "crew_lead" ? say("holds.lifts.crew_lead_any") : say(`holds.lifts.${hold.lifts}`);
  return { who, ...sentence(view, hold) };
}

function sentence(view: ModuleView, hold: Hold): { title: string; line: string | null } {
  const sheet = (key: string): string => say(`yard.sheet.${key}`);
  switch (hold.key) {
    case "items_open": {
      const back = hold.sent_back.length > 0 ? sayCount("holds.items_open.sent_back", hold.sent_back.length, { numbers: numbers(hold.sent_back) }) : null;
      const title = sayCount("holds.items_open", hold.numbers.length, { room: roomName(view, hold.room) });
      const others = hold.sent_back.length < hold.numbers.length ? numbers(hold.numbers) : null;
      return { title, line: [others, back].filter(Boolean).join(". ") };
    }
    case "items_cleared":
      return { title: say("holds.items_cleared", { room: roomName(view, hold.room), numbers: numbers(hold.numbers) }), line: null };
    case "fact_undecided": {
      const heads = view.module.heads[hold.field as keyof typeof view.module.heads] ?? [];
      const values = heads.map((head) => factWords(view, hold.field, head[0])).join(" / ");
      return { title: say("holds.fact_undecided", { field: say(`holds.field.${hold.field}`), values }), line: null };
    }
    case "plan_undecided":
      return { title: say("holds.plan_undecided", { plan: view.plan?.name ?? "" }), line: null };
    case "item_undecided":
      return { title: say("holds.item_undecided", { room: roomName(view, hold.room), field: say(`holds.field.${hold.field}`), numbers: numbers(hold.numbers) }), line: null };
    case "sheet_unsigned":
      return { title: say("holds.sheet_unsigned", { sheet: sheet(hold.sheet) }), line: hold.unanswered > 0 ? sayCount("holds.sheet_unsigned.line", hold.unanswered) : null };
    case "sheet_stale":
      return { title: say("holds.sheet_stale", { sheet: sheet(hold.sheet) }), line: staleWords(view, hold.sheet, hold.stale) };
    case "sheet_undecided":
      return { title: say("holds.sheet_undecided", { sheet: sheet(hold.sheet) }), line: null };
    case "photos_missing":
      return { title: sayCount("holds.photos_missing", hold.count, { name: nameOf(hold.by) }), line: null };
    case "phone_behind":
      return { title: say("holds.phone_behind", { name: nameOf(hold.by) }), line: say("holds.phone_behind.line", { time: when(hold.since) }) };
    case "entry_set_aside":
      return { title: say("holds.entry_set_aside", { kind: say(`kinds.${hold.kind}`), name: nameOf(hold.by) }), line: say(`reasons.${hold.reason}`) };
    case "coat_missing":
    case "coat_wet":
    case "coat_look":
    case "coat_early":
      return { title: say(`holds.${hold.key}`, { coat: coatName(hold.coat), rooms: placeWords(view, hold) }), line: coatLine(hold) };
    case "no_such_module":
      return { title: say("holds.no_such_module"), line: null };
  }
}

/** A fact as people say it; finish and coats by room: *Bath: Tape, Primer; all other rooms: 4, knockdown*. */
function factWords(view: ModuleView, field: string, fact: unknown): string {
  if (field === "pickup") return when(String(fact));
  if (field === "plan") return plans().find(({ id }) => id === fact)?.name ?? say("manager.plan_unknown");
  if (field === "mirrored") return say(fact ? "manager.mirrored_yes" : "manager.mirrored_no");
  if (field === "programme") return say(`manager.programme_${String(fact)}`);
  if (typeof fact !== "object" || fact === null) return String(fact);
  const ofRoom = ([room, told]: [string, object]): string => {
    const words = Array.isArray(told) ? (told as CoatKey[]).map(coatName) : Object.values(told).filter(Boolean);
    return `${room === "*" ? say("holds.other_rooms") : roomName(view, room)}: ${words.join(", ") || "–"}`;
  };
  return Object.entries(fact as Record<string, object>).map(ofRoom).join("; ");
}

/** *Kitchen and Hall*; of a coat on one wall *Kitchen, wall B*. */
function placeWords(view: ModuleView, hold: CoatHold): string {
  const rooms = roomsInWords(view, hold.rooms);
  const surface = "surface" in hold ? hold.surface : undefined;
  return surface === undefined ? rooms : say("holds.on_wall", { rooms, surface: surfaceInWords(surface) });
}

function coatLine(hold: CoatHold): string | null {
  switch (hold.key) {
    case "coat_missing":
      return null;
    case "coat_wet":
      if (hold.likely === null || hold.by_table === null) return say("holds.coat_wet.never");
      return doubted(say("holds.coat_wet.line", ends(hold)), hold.flags);
    case "coat_look":
      return hold.why === "not_dry" ? say("holds.coat_look.not_dry") : doubted("", hold.flags);
    case "coat_early":
      return hold.reason ? say("holds.coat_early.reason", { name: nameOf(hold.by), reason: hold.reason }) : say("holds.coat_early.no_reason", { name: nameOf(hold.by) });
  }
}

/** Its times, if there are any, and why they cannot be relied on. */
function doubted(times: string, flags: readonly ClockFlag[]): string {
  const doubts = flags.filter((flag) => UNRELIABLE.includes(flag)).map((flag) => say(`coats.flag.${flag}`));
  return doubts.length === 0 ? times : [times && ended(times), say("coats.not_sure"), ...doubts].filter(Boolean).join(" ");
}

function staleWords(view: ModuleView, sheet: string, stale: { line?: string; room?: string; number?: number }): string {
  if (stale.line !== undefined) return say("holds.sheet_stale.line", { line: say(`sheets.${sheet}.${stale.line}`) });
  return say("holds.sheet_stale.item", { number: stale.number ?? "", room: roomName(view, stale.room ?? "") });
}
