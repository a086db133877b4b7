import { expect, it } from "vitest";
import { itemMark, MARK_BOX, pencilPath, type MarkKind } from "../../webclient/src/parts/marks";

const KINDS: MarkKind[] = ["open", "sent_back", "cleared", "closed", "void", "only_here", "sent", "sheet", "two_values", "aside", "coat", "waiting"];

it.each(KINDS)("%s is drawn inside its box, in whole numbers", (kind) => {
  const mark = pencilPath(kind);
  expect(mark.lines.length).toBeGreaterThan(0);
  for (const line of mark.lines) {
    const numbers = line.d.match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];
    for (const number of numbers) {
      expect(Number.isInteger(number) && number >= line.width / 2 && number <= MARK_BOX - line.width / 2).toBe(true);
    }
  }
});

it("differ in shape, not in colour only", () => {
  expect(new Set(KINDS.map((kind) => pencilPath(kind).lines.map((line) => line.d + (line.dash ?? "")).join())).size).toBe(KINDS.length);
});

it("draws an open item that came back as sent back, and a cleared one as cleared", () => {
  expect(itemMark({ state: "open", sent_back: { reason: "shows" } })).toBe("sent_back");
  expect(itemMark({ state: "open", sent_back: null })).toBe("open");
  expect(itemMark({ state: "cleared", sent_back: { reason: "shows" } })).toBe("cleared");
});
