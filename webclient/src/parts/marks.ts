/** The marks a hand makes, as path data: one table for the screen, the PDF and the printed sheet. */
import table from "../../../server/rules/data/1/marks.json";

/** The states of an item, `only_here` for what is only on this phone, and the marks beside holds and sent lines. */
export type MarkKind =
  | "open"
  | "sent_back"
  | "cleared"
  | "closed"
  | "void"
  | "only_here"
  | "sent"
  | "sheet"
  | "two_values"
  | "aside"
  | "coat"
  | "waiting";
export type ItemState = "open" | "sent_back" | "cleared" | "closed" | "void";
export type MarkColour = "crayon" | "chalk" | "pencil";
export interface MarkLine {
  d: string;
  width: number;
  dash?: number[];
}
export interface Mark {
  colour: MarkColour;
  lines: MarkLine[];
}

/** Side of the square that the path data is drawn in. */
export const MARK_BOX = table.box;
const marks = table.marks as Record<MarkKind, Mark>;

/** The lines of a mark: stroke each with its width and round ends, fill nothing. */
export function pencilPath(kind: MarkKind): Mark {
  return marks[kind];
}

/** How the state of an item is drawn: an open item that was sent back has its own mark. */
export function itemMark(item: { state: "open" | "cleared" | "closed" | "void"; sent_back: unknown }): ItemState {
  return item.state === "open" && item.sent_back ? "sent_back" : item.state;
}

/** What must be read first is placed first: open and sent back, then cleared, then what is quiet. */
export const MARK_RANK: Record<ItemState, number> = { sent_back: 0, open: 1, cleared: 2, void: 4, closed: 3 };
