"""A person with a phone in a real browser: verbs that press what a person presses."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from tests.phone import NAMES, PASSCODE

PHONE = {"width": 390, "height": 844}
# Presses as soon as the words are on the screen: nobody can have read them.
PRESS_AT_ONCE = """([words, what]) => { window.pressed = new Promise((done) => {
  new MutationObserver((changes, watch) => {
    if (!document.body.textContent.includes(words)) return;
    watch.disconnect();
    requestAnimationFrame(() => { document.querySelector(what).click(); done(true); });
  }).observe(document.body, { childList: true, subtree: true, characterData: true });
}); }"""
# What is half written lies in a store of its own, whatever the screens show.
HALF_KEPT = """async (words) => {
  const opening = indexedDB.open("rakelight");
  const db = await new Promise((done) => { opening.onsuccess = () => done(opening.result); });
  for (const end = performance.now() + 10_000; performance.now() < end; await new Promise(requestAnimationFrame)) {
    const all = db.transaction("drafts").objectStore("drafts").getAll();
    const rows = await new Promise((done) => { all.onsuccess = () => done(all.result); });
    if (!rows.some((row) => JSON.stringify(row).includes(words))) continue;
    db.close();
    return;
  }
  db.close();
  throw new Error("nothing half written holds " + words);
}"""
# Resolves when what has just changed is on the glass.
FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


class Hands:
    """One person's phone: a browser context of its own."""

    def __init__(self, browser: Browser, url: str, role: str) -> None:
        self.url, self.role = url, role
        self.context: BrowserContext = browser.new_context(viewport={"width": 390, "height": 844})
        self.page: Page = self.context.new_page()
        self.errors: list[str] = []
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))

    def sign_in(self) -> Hands:
        page = self.page
        page.goto(self.url)
        page.get_by_label("Your name").fill(NAMES[self.role])
        page.get_by_label("Passcode", exact=True).fill(PASSCODE)
        self.main().click()
        expect(page.locator(".module-row").first).to_be_visible(timeout=20_000)
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        return self

    def go(self, path: str) -> None:
        self.page.goto(self.url + path)

    def main(self) -> Locator:
        return self.page.locator(".slab-main")

    def read(self) -> None:
        """Takes the time to read what has just come: no approval stands on what nobody can have read.

        The app's own rule (READ in pressing.ts) is about this time; there is nothing else to wait for.
        """
        self.page.evaluate(FRAMES)
        self.page.wait_for_function(
            "since => performance.now() > since + 500", arg=self.page.evaluate("performance.now()")
        )

    def beside(self) -> Locator:
        return self.page.locator(".slab-beside")

    def press(self, name: str | re.Pattern[str]) -> None:
        self.page.get_by_role("button", name=name).first.click()

    def press_as_it_comes(self, words: str, what: str) -> None:
        """Syncs, and presses what a selector names in the moment when the words come to the screen."""
        self.page.evaluate(PRESS_AT_ONCE, [words, what])
        self.page.evaluate("dispatchEvent(new Event('online'))")
        self.page.evaluate("() => window.pressed")

    def tap_wall(self, across: float, up: float) -> None:
        """Taps the faced wall, as shares of its width from the left and of its height from the foot."""
        wall = self.page.locator(".wall-tap")
        box = wall.bounding_box()
        assert box is not None
        wall.click(position={"x": box["width"] * across, "y": box["height"] * (1 - up)})

    def photo(self, label: str, file: Path) -> None:
        self.page.get_by_label(label).first.set_input_files(file)

    def said(self, words: str) -> None:
        """Waits until the screen has said that a press was kept."""
        expect(self.page.get_by_role("status").filter(has_text=words)).to_be_visible()

    def half_kept(self, words: str) -> None:
        """Waits until the phone itself keeps something half written that holds these words."""
        self.page.evaluate(HALF_KEPT, words)

    def sent(self) -> None:
        """Waits until everything is with the server. After a press only once its words have been `said`: until it is
        kept, the line still tells of what was before.
        """
        expect(self.page.locator(".sent-line")).to_contain_text("All sent", timeout=20_000)

    def offline(self, on: bool) -> None:
        self.context.set_offline(on)

    def close(self) -> None:
        self.context.close()
        assert self.errors == [], self.errors
