import { expect, it } from "vitest";
import { wantedPictures } from "../../webclient/src/journal/wanted";
import { partKey, type Part } from "../../webclient/src/rules";

const item = (id: string, state: string): Part => ({ part: "item", id, module: "m", seq: 1, state }) as unknown as Part;
const photo = (sha256: string, seq: number, items: string[], arrived = true): Part => {
  const marked = [[{ items: items.map((id) => [id, 0, 0]), marks: [] }, [seq, "d", 1, 0], "p"]];
  return { part: "photo", id: `photo ${sha256}`, module: "m", seq, sha256, arrived, heads: { marked } } as unknown as Part;
};

it("wants photos of open and cleared items that have arrived, the newest first, each once", () => {
  const parts = [
    item("1", "open"), item("2", "cleared"), item("3", "closed"), item("4", "void"),
    photo("a", 2, ["1"]), photo("b", 5, ["3", "2"]), photo("c", 6, ["3"]), photo("d", 7, ["4"]), photo("e", 8, ["1"], false),
    photo("f", 9, []), photo("g", 9, ["not here"]),
  ];
  expect(wantedPictures(new Map(parts.map((part) => [partKey(part.part, part.id), part])))).toEqual(["b", "a"]);
});
