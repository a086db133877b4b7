"""The rules have changed what parts look like: a phone with old ones and work unsent, and an old app."""

from __future__ import annotations

import importlib

import pytest
from playwright.sync_api import Browser, expect

from server.rules import FORM
from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser
# The file: its name at the room's door is the function.
SYNC = importlib.import_module("server.journal.sync")

# As an earlier version left it: its form, and parts without anything that today's rules look for.
MAKE_OLD = """async () => {
  const opening = indexedDB.open("rakelight");
  const db = await new Promise((done) => { opening.onsuccess = () => done(opening.result); });
  const tx = db.transaction(["meta", "parts"], "readwrite");
  const [meta, parts] = [tx.objectStore("meta"), tx.objectStore("parts")];
  const settled = meta.get("settled");
  settled.onsuccess = () => { const { form, ...older } = settled.result; meta.put(older, "settled"); };
  const all = parts.getAll();
  all.onsuccess = () => all.result.forEach(({ part, id, module, seq }) => parts.put({ part, id, module, seq }));
  await new Promise((done) => { tx.oncomplete = done; });
  db.close();
}"""


def nicks(inspector: Hands, module: str, wall: str, *across: float) -> None:
    """Writes up some nicks on one wall of the bath."""
    inspector.go(f"/module/{module}/room/bath/{wall}")
    inspector.press("Nick")
    for share in across:
        inspector.tap_wall(share, 0.2)
    inspector.main().click()
    inspector.said("Saved")


def items(place: Place) -> list[int]:
    """The numbers that the server gave."""
    manager = place.phones["manager"]
    manager.sync()
    return sorted(part["number"] for (kind, _), part in manager.parts.items() if kind == "item")


def test_old_parts_are_fetched_anew_and_unsent_work_arrives_once(place: Place, browser: Browser) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    page, line = inspector.page, inspector.page.locator(".sent-line")
    nicks(inspector, place.module, "B", 0.2)
    inspector.sent()
    inspector.offline(True)
    nicks(inspector, place.module, "B", 0.4, 0.6)
    expect(line).to_contain_text("Only on this phone: 2 entries")
    page.evaluate(MAKE_OLD)
    for path in (
        "/",
        f"/module/{place.module}",
        f"/module/{place.module}/coats",
        f"/module/{place.module}/air",
        "/ready",
        "/air",
        "/work",
        "/manage/plan",
    ):
        inspector.go(path)
        expect(line).to_contain_text("Only on this phone: 2 entries")
        expect(line).to_contain_text("fetches the whole yard again as soon as there is signal")
        # What is not there yet is no word about the yard.
        expect(page.locator("body")).not_to_contain_text("0 modules standing")
        expect(page.locator("body")).not_to_contain_text("Nothing")
        expect(page.get_by_text("still to be fetched")).to_be_visible()
        expect(page.locator(".slab-main")).to_have_count(0)
    inspector.offline(False)
    inspector.sent()
    inspector.go(f"/module/{place.module}/room/bath")
    expect(page.get_by_text("3 open").first).to_be_visible()
    expect(line).not_to_contain_text("fetches the whole yard again")
    assert items(place) == [1, 2, 3]
    inspector.close()


@pytest.mark.parametrize(
    ("further", "words"),
    [(1, "A newer version of the app is ready: open it again."), (-1, "This app is newer than the office's machine.")],
)
def test_an_app_of_another_form_sends_and_is_told_which_of_the_two_must_follow(
    place: Place, browser: Browser, monkeypatch: pytest.MonkeyPatch, further: int, words: str
) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    line = inspector.page.locator(".sent-line")
    with monkeypatch.context() as other:
        other.setattr(SYNC, "FORM", FORM + further)
        nicks(inspector, place.module, "B", 0.3)
        expect(line).to_contain_text(words)
        expect(line).to_contain_text("All sent")
        inspector.go(f"/module/{place.module}/room/bath")
        expect(inspector.page.get_by_text("1 open").first).to_be_visible()
        inspector.press("Open it again")
        expect(line).to_contain_text(words)
    # As if what was opened again were of the server's form.
    inspector.page.evaluate("dispatchEvent(new Event('online'))")
    expect(line).not_to_contain_text(words)
    assert items(place) == [1]
    inspector.close()
