/** Day or evening: as the phone has it, unless a person sets either. Remembered on the phone. */
import { effect, signal } from "@preact/signals";

export type Setting = "phone" | "day" | "evening";
const REMEMBERED = "rakelight.setting";

function atFirst(): Setting {
  try {
    const kept = localStorage.getItem(REMEMBERED);
    return kept === "day" || kept === "evening" ? kept : "phone";
  } catch {
    // Nothing can be kept for this site: then it follows the phone.
    return "phone";
  }
}

export const setting = signal<Setting>(atFirst());

export function chooseSetting(chosen: Setting): void {
  setting.value = chosen;
  try {
    localStorage.setItem(REMEMBERED, chosen);
  } catch {
    // Holds for this visit only.
    return;
  }
}

effect(() => {
  if (typeof document === "undefined") return;
  const root = document.documentElement;
  if (setting.value === "phone") root.removeAttribute("data-theme");
  else root.setAttribute("data-theme", setting.value);
});
