/** Day or evening: as the phone has it, unless a person sets either. Remembered on the phone. */
import { effect } from "@preact/signals";
import { remembered } from "../remembered";

export type Setting = "phone" | "day" | "evening";

export const [setting, chooseSetting] = remembered<Setting>("setting", (kept) => (kept === "day" || kept === "evening" ? kept : "phone"));

effect(() => {
  if (typeof document === "undefined") return;
  const root = document.documentElement;
  if (setting.value === "phone") root.removeAttribute("data-theme");
  else root.setAttribute("data-theme", setting.value);
});
