"""What is wrong with a screen, measured in the browser: axe, width, targets for gloves, sizes of text, one head."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

AXE = Path(__file__).parents[2] / "webclient" / "node_modules" / "axe-core" / "axe.min.js"

MEASURE = """async () => {
  const wrong = [];
  const name = (el) => `${el.tagName.toLowerCase()}.${el.className} ${(el.textContent || "").trim().slice(0, 40)}`;
  const across = document.documentElement.scrollWidth - innerWidth;
  if (across > 0) wrong.push(`wider than the screen by ${across}px`);
  for (const el of document.querySelectorAll(".kinds .key")) {
    el.style.cssText = "overflow-wrap: normal; hyphens: manual";
    if (el.scrollWidth > el.clientWidth) wrong.push(`a word is broken: ${name(el)}`);
    el.style.cssText = "";
  }
  const heads = document.querySelectorAll("h1").length;
  if (heads !== 1) wrong.push(`${heads} h1`);
  const pressed = "button, a[href], input, select, textarea, [role=button]";
  for (const el of document.querySelectorAll(pressed)) {
    if (el.matches(".heard") && el.tabIndex < 0) continue;
    const area = (el.matches(".heard, .segment input, .check input") && el.closest("label")) || el;
    const box = area.getBoundingClientRect();
    if (box.width === 0 || getComputedStyle(area).visibility === "hidden") continue;
    if (getComputedStyle(area).display === "inline") continue;
    if (el.closest("svg")) continue;
    if (Math.round(box.width) < 48 || Math.round(box.height) < 48)
      wrong.push(`target ${Math.round(box.width)}x${Math.round(box.height)}: ${name(area)}`);
  }
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const el = texts.currentNode.parentElement;
    if (!texts.currentNode.nodeValue.trim() || el.closest(".heard, script, style, svg, option")) continue;
    const size = getComputedStyle(el).fontSize;
    if (parseFloat(size) < 15) wrong.push(`text ${size}: ${name(el)}`);
  }
  for (const el of document.querySelectorAll("svg text")) {
    if (el.closest(".photo-marks")) continue;
    const scale = el.getScreenCTM()?.a ?? 1;
    const size = parseFloat(getComputedStyle(el).fontSize) * scale;
    if (size < 14.5) wrong.push(`drawn text ${size.toFixed(1)}px: ${name(el)}`);
  }
  const found = await axe.run(document, { resultTypes: ["violations"] });
  for (const one of found.violations)
    wrong.push(`axe ${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).slice(0, 3).join(" | ")}`);
  return [...new Set(wrong)];
}"""


def faults(page: Page) -> list[str]:
    """Everything wrong with the screen that the page shows now; the context must bypass the content policy for axe."""
    if not page.evaluate("'axe' in window"):
        page.add_script_tag(path=AXE)
    found: Any = page.evaluate(MEASURE)
    return [str(one) for one in found]
