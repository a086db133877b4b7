/** Address <-> screen. The address is all that a screen is given, so that a reload comes back to the same place. */

import { signal } from "@preact/signals";
import { SURFACES, type Surface } from "./parts";

export type Route =
  | { screen: "yard" }
  | { screen: "me" }
  | { screen: "work" }
  | { screen: "ready" }
  | { screen: "walk" }
  | { screen: "outside" }
  | { screen: "file"; what: "readings" | "forecast" }
  | { screen: "manage"; page: string; id: string }
  | { screen: "module"; module: string }
  | { screen: "gate"; module: string }
  | { screen: "coats"; module: string }
  | { screen: "air"; module: string; room: string }
  | { screen: "paint"; module: string; room: string }
  | { screen: "sheet"; module: string; sheet: string }
  | { screen: "room"; module: string; room: string }
  | { screen: "recheck"; module: string; room: string }
  | { screen: "wall"; module: string; room: string; surface: Surface }
  | { screen: "item"; module: string; item: string };

export const to = {
  yard: () => "/",
  me: () => "/me",
  work: () => "/work",
  ready: () => "/ready",
  walk: () => "/air",
  outside: () => "/air/outside",
  file: (what: "readings" | "forecast") => `/air/file/${what}`,
  manage: (page = "", id = "") => ["/manage", page, id].filter(Boolean).join("/"),
  module: (module: string) => `/module/${module}`,
  gate: (module: string) => `/module/${module}/gate`,
  coats: (module: string) => `/module/${module}/coats`,
  air: (module: string, room = "") => [`/module/${module}/air`, encodeURIComponent(room)].filter(Boolean).join("/"),
  paint: (module: string, room: string) => `/module/${module}/room/${encodeURIComponent(room)}/before-paint`,
  sheet: (module: string, sheet: string) => `/module/${module}/sheet/${sheet}`,
  room: (module: string, room: string) => `/module/${module}/room/${encodeURIComponent(room)}`,
  recheck: (module: string, room: string) => `/module/${module}/room/${encodeURIComponent(room)}/recheck`,
  wall: (module: string, room: string, surface: string) => `/module/${module}/room/${encodeURIComponent(room)}/${surface}`,
  item: (module: string, item: string) => `/module/${module}/item/${item}`,
};

/** The screen of an address; an address that names none is the yard. */
export function read(path: string): Route {
  const [first = "", module = "", what = "", third = "", fourth = ""] = path.split("/").filter(Boolean).map(decoded);
  if (first === "me" || first === "work" || first === "ready") return { screen: first };
  if (first === "air") return readAir(module, what);
  if (first === "manage") return { screen: "manage", page: module, id: what };
  if (first !== "module" || !module) return { screen: "yard" };
  if (what === "gate" || what === "coats") return { screen: what, module };
  if (what === "air") return { screen: "air", module, room: third };
  if (what === "sheet" && third) return { screen: "sheet", module, sheet: third };
  if (what === "item" && third) return { screen: "item", module, item: third };
  if (what === "room" && third && fourth === "recheck") return { screen: "recheck", module, room: third };
  if (what === "room" && third && fourth === "before-paint") return { screen: "paint", module, room: third };
  const surface = SURFACES.find((one) => one === fourth);
  if (what === "room" && third && surface) return { screen: "wall", module, room: third, surface };
  if (what === "room" && third) return { screen: "room", module, room: third };
  return { screen: "module", module };
}

/** An address that was cut short or mistyped still opens the app. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** The air across the yard: the walk, the outside, a file. */
function readAir(what: string, file: string): Route {
  if (what === "outside") return { screen: "outside" };
  return what === "file" ? { screen: "file", what: file === "forecast" ? "forecast" : "readings" } : { screen: "walk" };
}

export const address = signal(typeof location === "undefined" ? "/" : location.pathname);

/** Goes to an address of our own. */
export function go(path: string): void {
  if (path !== location.pathname) history.pushState(null, "", path);
  address.value = path;
  scrollTo(0, 0);
}

let pressed = false;
/** Whether anybody has pressed anything since the page was loaded. */
export const hasPressed = (): boolean => pressed;

/** Follows the browser's way back, and taps on our own links, without loading the page anew. */
export function followAddress(): void {
  for (const press of ["keydown", "pointerdown"]) addEventListener(press, () => (pressed = true), { once: true, capture: true });
  addEventListener("popstate", () => {
    address.value = location.pathname;
  });
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (!link || event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
    if (link.target || link.hasAttribute("download") || link.origin !== location.origin || link.pathname.startsWith("/api/")) return;
    event.preventDefault();
    go(link.pathname);
  });
}
