import { expect, it } from "vitest";
import { read, to } from "../../webclient/src/route";

it.each([
  [to.yard(), { screen: "yard" }],
  [to.file("forecast"), { screen: "file", what: "forecast" }],
  [to.manage("people", "p1"), { screen: "manage", page: "people", id: "p1" }],
  [to.air("m1"), { screen: "air", module: "m1", room: "" }],
  [to.air("m1", "bath 2/a"), { screen: "air", module: "m1", room: "bath 2/a" }],
  [to.paint("m1", "bath"), { screen: "paint", module: "m1", room: "bath" }],
  [to.sheet("m1", "cleaning"), { screen: "sheet", module: "m1", sheet: "cleaning" }],
  [to.recheck("m1", "bath"), { screen: "recheck", module: "m1", room: "bath" }],
  [to.room("m1", "baño"), { screen: "room", module: "m1", room: "baño" }],
  [to.wall("m1", "baño", "ceiling"), { screen: "wall", module: "m1", room: "baño", surface: "ceiling" }],
  [to.item("m1", "i1"), { screen: "item", module: "m1", item: "i1" }],
])("a reload at %s comes back to the same place", (path, route) => {
  expect(read(path)).toEqual(route);
});

it.each([
  ["/nowhere/at/all", { screen: "yard" }],
  ["/module/m1/attic", { screen: "module", module: "m1" }],
  ["/module/m1/room/bath/Z", { screen: "room", module: "m1", room: "bath" }],
  ["/module/m1/room/%E0%A4/A", { screen: "wall", module: "m1", room: "%E0%A4", surface: "A" }],
])("an address that was cut short or mistyped opens what of it there is: %s", (path, route) => {
  expect(read(path)).toEqual(route);
});
