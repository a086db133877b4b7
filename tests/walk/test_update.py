"""A new version comes while something is half written, in two windows of one phone: nothing is lost, offline too."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from server.api import pages
from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser

UPDATE = "() => navigator.serviceWorker.getRegistration().then((one) => one.update()).then(() => true)"


def later_build(folder: Path) -> Path:
    """The same client under other file names, as the next build has them."""
    shutil.copytree(pages.BUILT, folder)
    parts = [file for file in (folder / "assets").iterdir() if file.suffix in (".js", ".css")]
    names = {file.name: re.sub(r"^(index|later)-", r"\1-next", file.name) for file in parts}
    for file in [*parts, folder / "index.html", folder / "sw.js"]:
        words = file.read_text("utf-8")
        for old, new in names.items():
            words = words.replace(old, new)
        if file.name == "sw.js":
            words = re.sub(r"(version:.)[0-9a-f]{16}", r"\g<1>0123456789abcdef", words)
        file.write_text(words, "utf-8")
    for old, new in names.items():
        (folder / "assets" / old).rename(folder / "assets" / new)
    return folder


def scripts(hands: Hands) -> str:
    told: str = hands.page.evaluate("[...document.scripts].map((one) => one.src).join(' ')")
    return told


def test_a_new_version_waits_for_a_press_and_takes_nothing_away(
    place: Place, browser: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    first, coats, air = crew.page, f"/module/{place.module}/coats", f"/module/{place.module}/air"
    crew.go(coats)
    crew.main().click()
    first.get_by_label("Which coat").select_option("texture")
    second = crew.context.new_page()
    second.goto(place.url + air)
    second.get_by_label("Temperature", exact=True).fill("71")
    monkeypatch.setattr(pages, "BUILT", later_build(tmp_path / "later"))
    first.evaluate(UPDATE)
    for page in (first, second):
        expect(page.get_by_text("A new version is ready")).to_be_visible()
        assert "next" not in scripts(crew)
    crew.press("Change to it now")
    expect(first.get_by_text("A new version is ready")).to_have_count(0)
    expect(first.get_by_label("Which coat")).to_have_value("texture")
    assert "index-next" in scripts(crew)
    # The other window stands on the old files until it is pressed too; there is nothing left to wait for then.
    crew.page = second
    assert "index-next" not in scripts(crew)
    crew.press("Change to it now")
    expect(second.get_by_text("A new version is ready")).to_have_count(0)
    expect(second.get_by_label("Temperature", exact=True)).to_have_value("71")
    assert "index-next" in scripts(crew)
    crew.offline(True)
    for path, words in ((coats, "Coat on"), (air, "Air of"), ("/ready", "What can be done")):
        crew.go(path)
        expect(second.get_by_text(words).first).to_be_visible()
    crew.close()
