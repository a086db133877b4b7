"""The whole job in a real browser against a real server: written up with no signal, cleared, rechecked, cleaned,
released, and on paper."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from pypdf import PdfReader

from seed_demo.pictures import Blemish, Shot, draw
from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser


@pytest.fixture
def shots(tmp_path: Path) -> list[Path]:
    """Three photos of walls, as a camera would hand them over."""
    files = []
    for number, shape in enumerate(("nick", "dent", "screw_pop")):
        file = tmp_path / f"wall-{number}.jpg"
        file.write_bytes(draw(Shot(wall=f"walk {number}", width=1600, blemishes=(Blemish(shape, 800, 600),))))
        files.append(file)
    return files


def write_up(inspector: Hands, module: str, shots: list[Path]) -> None:
    """Three nicks on wall B with a photo, a reload in the middle; a dent on A; both with no signal."""
    page = inspector.page
    inspector.go(f"/module/{module}/room/bath")
    inspector.offline(True)
    page.get_by_role("button", name="Wall B").first.click()
    inspector.press("Nick")
    inspector.tap_wall(0.2, 0.2)
    inspector.tap_wall(0.5, 0.15)
    inspector.photo("Photo of wall", shots[0])
    expect(page.locator(".photo-frame img")).to_be_visible()
    inspector.half_kept('"sha256"')
    page.reload()
    expect(page.locator(".photo-frame img")).to_be_visible()
    inspector.tap_wall(0.85, 0.6)
    expect(inspector.main()).to_have_text("Save 3 × Nick")
    inspector.main().click()
    inspector.said("1, 2, and 3")
    inspector.go(f"/module/{module}/room/bath/A")
    inspector.press("Dent")
    inspector.tap_wall(0.3, 0.3)
    inspector.photo("Photo of wall", shots[1])
    expect(page.locator(".photo-frame img")).to_be_visible()
    inspector.main().click()
    expect(page.locator(".sent-line")).to_contain_text("Only on this phone: 6 entries, 2 photos")


def test_one_module_from_the_first_nick_to_the_packet(place: Place, browser: Browser, shots: list[Path]) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    shipping = Hands(browser, place.url, "shipping").sign_in()
    write_up(inspector, place.module, shots)
    page = inspector.page
    page.reload()
    expect(page.locator(".sent-line")).to_contain_text("Only on this phone: 6 entries, 2 photos")
    inspector.offline(False)
    inspector.sent()

    crew.go("/work")
    expect(crew.page.get_by_label("Pick item 4")).to_be_visible(timeout=20_000)
    for number in (1, 2, 3, 4):
        crew.page.get_by_label(f"Pick item {number}", exact=True).check()
    crew.photo("Photo of the wall after", shots[2])
    expect(crew.page.get_by_text("1 photo after, for 1, 2, 3, and 4")).to_be_visible()
    crew.main().click()
    crew.said("Cleared: 1, 2, 3, and 4")
    crew.sent()

    inspector.go(f"/module/{place.module}/room/bath/recheck")
    expect(page.get_by_label("Pick item 4", exact=True)).to_be_visible(timeout=20_000)
    page.get_by_label("Pick item 2", exact=True).check()
    inspector.beside().click()
    inspector.main().click()
    inspector.said("Sent back: 2")
    for number in (1, 3, 4):
        page.get_by_label(f"Pick item {number}", exact=True).check()
    inspector.main().click()
    inspector.said("Closed: 1, 3, and 4")
    inspector.sent()
    sign_sheet(inspector, place.module, "cleaning")

    crew.go("/work")
    expect(crew.page.get_by_text("Sent back: still shows under light")).to_be_visible(timeout=20_000)
    paint_again(crew)

    inspector.go(f"/module/{place.module}/sheet/cleaning")
    expect(page.get_by_text("Changed after it was signed:")).to_be_visible(timeout=20_000)
    inspector.read()
    inspector.main().click()
    expect(page.get_by_text("Signed by Ines Calder").first).to_be_visible()
    sign_sheet(inspector, place.module, "wrap_and_seal")
    inspector.go(f"/module/{place.module}/room/bath/recheck")
    page.get_by_label("Pick item 2", exact=True).check()
    inspector.main().click()
    inspector.said("Closed: 2")
    inspector.sent()

    shipping.go(f"/module/{place.module}/gate")
    expect(shipping.page.get_by_text("Touch-up, look at it: Bath 2").first).to_be_visible(timeout=20_000)
    find_dry(crew, place.module)
    shipping.go(f"/module/{place.module}/gate")
    expect(shipping.page.get_by_text("Nothing stops it")).to_be_visible(timeout=20_000)
    shipping.read()
    shipping.main().click()
    expect(shipping.page.get_by_text("Released by Sunniva Holt")).to_be_visible(timeout=20_000)

    packet = place.phones["manager"].get(f"/api/modules/{place.module}/packet.pdf")
    assert packet.status_code == 200
    on_paper(packet.data)
    for hands in (inspector, crew, shipping):
        hands.close()


def paint_again(crew: Hands) -> None:
    """The paint of the first clear is under it, and nobody has read the air: the crew lead says how it is known dry."""
    page = crew.page
    page.get_by_label("Pick item 2", exact=True).check()
    expect(page.get_by_text("That wall is not ready: choose what now.")).to_be_visible()
    expect(page.get_by_text("Bath 2, Wall B: Touch-up, the time cannot be relied on")).to_be_visible()
    page.get_by_label("I looked: dry").check()
    page.get_by_label("Sands to dry powder").check()
    page.get_by_label("How do you know before the table’s time?").fill("sanded the spot, dust and no roll")
    crew.main().click()
    crew.said("Cleared: 2")
    crew.sent()


def find_dry(crew: Hands, module: str) -> None:
    """Both walls were painted with the clears; without readings only a tried look says that they are dry."""
    page = crew.page
    crew.go(f"/module/{module}/coats")
    page.get_by_role("button", name="Look", exact=True).click()
    page.get_by_label("Dry", exact=True).check()
    walls = page.locator(".coat-rooms")
    expect(walls).to_have_count(2)
    for number in range(2):
        walls.nth(number).get_by_label("Bath 2").check()
    page.get_by_label("Sands to dry powder").check()
    page.get_by_label("How do you know before the table’s time?").fill("rubbed both, nothing comes off")
    crew.main().click()
    expect(page.get_by_text(re.compile("^Touch-up looked at and dry"))).to_have_count(2)
    crew.sent()


def sign_sheet(hands: Hands, module: str, sheet: str) -> None:
    hands.go(f"/module/{module}/sheet/{sheet}")
    lines = hands.page.locator(".sheet-line")
    expect(lines.first).to_be_visible()
    for number in range(lines.count()):
        lines.nth(number).get_by_role("button").first.click()
        expect(lines.nth(number).locator(".met")).to_be_visible()
    hands.main().click()
    expect(hands.page.get_by_text("Signed by Ines Calder").first).to_be_visible()


def on_paper(data: bytes) -> None:
    """Every item's number stands in the packet, with its defect; three photos are in it."""
    reader = PdfReader(io.BytesIO(data))
    text = "\n".join(page.extract_text() for page in reader.pages)
    assert "LM-0417-A" in text
    headings = re.findall(r"^(\d+) (Nick|Dent)$", text, re.MULTILINE)
    assert {("1", "Nick"), ("2", "Nick"), ("3", "Nick"), ("4", "Dent")} <= set(headings), headings
    photos = {image.name for page in reader.pages for image in page.images if image.image and image.image.width >= 300}
    assert len(photos) >= 3
