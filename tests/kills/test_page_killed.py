"""The page, or the whole browser, is killed while an inspector writes up: nothing shown as saved is missing."""

from __future__ import annotations

import os
import random
import re
import signal
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Error, Page, Playwright, expect

from tests.browser import launch_kept
from tests.phone import PASSCODE
from tests.photos.pictures import encoded, halves
from tests.walk.conftest import Place
from tests.walk.hands import PHONE, Hands

pytestmark = pytest.mark.browser

ROUNDS = 50 if os.environ.get("RAKELIGHT_LONG") else 6
SEED = 20261204
WRITE_UP = Path(__file__).with_name("write_up.js").read_text("utf-8")
KEPT = """() => new Promise((tell, fail) => {
  const open = indexedDB.open("rakelight");
  open.onerror = () => fail(open.error);
  open.onsuccess = () => {
    const tx = open.result.transaction(["entries", "shelf"]);
    const entries = tx.objectStore("entries").getAll(), shelf = tx.objectStore("shelf").getAllKeys();
    tx.oncomplete = () => {
      open.result.close();
      tell({ entries: entries.result.map((row) => row.entry), shelf: shelf.result });
    };
  };
})"""


class KeptHands(Hands):
    """Hands on a browser whose profile outlives it."""

    def __init__(self, start: Callable[[], BrowserContext], url: str, role: str) -> None:
        self.url, self.role, self.start = url, role, start
        self.errors: list[str] = []
        self.shown: set[str] = set()
        self.open()

    def open(self) -> None:
        self.context = self.start()
        self.context.expose_function("shownAsSaved", self.note)
        self.page = self.context.new_page()

    def note(self, ids: list[str]) -> None:
        self.shown.update(ids)

    def end_page(self) -> None:
        """Kills the page's own process; the browser goes on."""
        dead = self.page
        for process in self.processes("renderer"):
            os.kill(process, signal.SIGKILL)
        self.page = self.context.new_page()
        dead.close()

    def end_browser(self) -> None:
        """Kills the browser, then starts it again on what it left."""
        for process in self.processes("browser"):
            os.kill(process, signal.SIGKILL)
        with suppress(Error):  # Playwright may have learned of the death first: then there is nothing to close.
            self.context.close()
        self.open()

    def begin(self, kind: str) -> None:
        """Chooses the kind, unless what the kill cut short stands there with its kind."""
        choice = self.page.get_by_role("button", name=kind, exact=True)
        chosen = self.page.locator(".kind-chosen")
        expect(choice.or_(chosen)).to_be_visible(timeout=20_000)
        if choice.is_visible():
            choice.click()

    def sign_in_again(self) -> None:
        """A killed browser may not have kept its cookie; the phone then asks, and goes on where it is."""
        page = self.page
        expect(page.locator(".sent-line")).to_contain_text(re.compile("All sent|Sign in again"), timeout=30_000)
        again = page.get_by_role("button", name="Sign in again")
        if not again.is_visible():
            return
        again.click()
        page.locator("input[type=password]").fill(PASSCODE)
        page.locator("input[type=password]").press("Enter")

    def processes(self, kind: str) -> list[int]:
        """The ids of this browser's own processes of a kind, as it tells them itself."""
        assert self.context.browser is not None
        session = self.context.browser.new_browser_cdp_session()
        told = session.send("SystemInfo.getProcessInfo")["processInfo"]
        session.detach()
        return [one["id"] for one in told if one["type"] == kind]


def kept(page: Page) -> tuple[list[dict[str, Any]], set[str]]:
    """The entries and the photos' hashes that the phone's database holds."""
    told = page.evaluate(KEPT)
    return sorted(told["entries"], key=lambda entry: int(entry["n"])), set(told["shelf"])


def look(hands: KeptHands, wall: str) -> tuple[int, int]:
    """Reopens the page: what was shown is kept and shown again; what is kept has no gap, and its photos.

    How many entries are kept, and how many of these are photos.
    """
    hands.go(wall)
    expect(hands.page.locator(".wall-tap")).to_be_visible(timeout=20_000)
    entries, shelf = kept(hands.page)
    assert hands.shown <= {entry["about"] for entry in entries}
    assert [entry["n"] for entry in entries] == list(range(1, len(entries) + 1))
    assert [entry["prev"] for entry in entries[1:]] == [entry["id"] for entry in entries[:-1]]
    photos = {entry["body"]["sha256"] for entry in entries if entry["kind"] == "photo.added"}
    assert photos <= shelf
    return len(entries), len(photos)


def test_nothing_shown_as_saved_is_missing(
    place: Place, playwright: Playwright, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    chance, profile = random.Random(SEED), tmp_path / "profile"
    start = lambda: launch_kept(playwright, profile, viewport=PHONE)  # noqa: E731
    hands = KeptHands(start, place.url, "inspector")
    hands.sign_in()
    photo = tmp_path / "wall.jpg"
    for number in range(ROUNDS):
        wall = f"/module/{place.module}/room/bath/{'ABCD'[number % 4]}"
        hands.context.set_offline(True)
        look(hands, wall)
        photo.write_bytes(encoded(halves((320 + number, 240))))
        hands.begin("Nick")
        half = hands.page.get_by_role("button", name="Remove this photo")
        stood = half.count()
        hands.page.locator("input[type=file]").first.set_input_files(photo)
        if number % 2:  # Else the kill may come before the photo has been made smaller, and most do.
            expect(half).to_have_count(stood + 1, timeout=20_000)
        hands.page.evaluate(WRITE_UP, chance.randrange(1, 2**31 - 1))
        hands.page.wait_for_timeout(chance.uniform(20, 900))
        if number % 3 == 2:
            hands.end_browser()
        else:
            hands.end_page()
        hands.context.set_offline(True)
        look(hands, wall)
    # Begun anew: a browser that has lost a page's process cannot be told that there is signal.
    hands.context.close()
    hands.open()
    hands.context.set_offline(True)
    entries, photos = look(hands, wall)
    hands.context.set_offline(False)
    hands.sign_in_again()
    hands.sent()
    with capsys.disabled():
        print(f"\n{ROUNDS} kills: {entries} entries kept, {photos} of them photos; {len(hands.shown)} items shown")
    assert len(hands.shown) > ROUNDS
    assert photos > ROUNDS // 4
    module = place.phones["manager"].get(f"/api/modules/{place.module}").get_json()
    assert hands.shown <= {part["id"] for part in module["parts"] if part["part"] == "item"}
    hands.context.close()
