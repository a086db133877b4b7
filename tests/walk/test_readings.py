"""The air at the screens: a logger's file changes the times of a coat, readings go in offline by two taps and come back
out, a sensor's key is made, used and revoked."""

from __future__ import annotations

import json
import re
import uuid
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.phone import Phone
from tests.served import request
from tests.walk.conftest import Place
from tests.walk.hands import Hands

pytestmark = pytest.mark.browser
ZONE = ZoneInfo("America/Chicago")


def ago(hours: float) -> datetime:
    return datetime.now(UTC) - timedelta(hours=hours)


def stamped(hours: float) -> str:
    return ago(hours).strftime("%Y-%m-%dT%H:%M:%SZ")


def lay_tape(place: Place, hours: float) -> None:
    manager, crew = place.phones["manager"], place.phones["crew_lead"]
    manager.sync()
    finish = {"*": {"level": 4, "texture": "orange peel", "paint": "eggshell", "sheen": "eggshell"}}
    assert "seq" in manager.say("module.amended", place.module, {"finish": finish}, place.module)
    crew.sync()
    body = {"coat": "tape", "rooms": ["bath"], "material": "drying_type", "laid_at": stamped(hours)}
    assert "seq" in crew.say("coat.laid", crew.clock.new_id(), body, place.module)


def rows_of(phone: Phone, place: Place, stream: str = "air ") -> list[list[object]]:
    phone.sync()
    own = str(uuid.uuid5(uuid.UUID(place.module), stream))
    airs = [part for (kind, _), part in phone.parts.items() if kind == "air" and part["stream"] == own]
    return [row for part in airs for row in part["rows"]]


def european(rows: int) -> bytes:
    """Semicolons, decimal commas, a byte-order mark, the day first: what a logger writes elsewhere."""
    lines = ["Zeit;Temperatur °C;Feuchte %"]
    for number in range(rows):
        at = ago((rows - number) / 2).astimezone(ZONE)
        lines.append(f"{at:%d.%m.%Y %H:%M};21,{number % 10};{30 + number % 3},5")
    lines.append("01.11.2026 08:00;700,0;30,0")
    return ("\ufeff" + "\r\n".join(lines) + "\r\n").encode()


def choose_file(page: Page, data: bytes) -> None:
    page.locator("input[type=file]").set_input_files({"name": "probe 7.csv", "mimeType": "text/csv", "buffer": data})


def test_a_logger_file_with_semicolons_changes_the_times_of_a_coat(place: Place, browser: Browser) -> None:
    lay_tape(place, 40)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.go(f"/module/{place.module}/coats")
    expect(page.get_by_text("Tape: nobody has read the air, so nobody knows when it is dry")).to_be_visible()

    crew.go("/air/file/readings")
    choose_file(page, european(90))
    expect(page.get_by_text("90 rows, from")).to_be_visible()
    expect(page.get_by_text("Line 92: 700 °C is not the air of a yard")).to_be_visible()
    expect(page.locator("tbody tr").first).to_contain_text("70 °F (21 °C)")
    expect(page.locator(".slabs-why")).to_have_text("Say first: The logger’s clock")
    page.get_by_label("The logger’s clock").select_option(label="Chicago, as in the yard")
    expect(page.locator(".slabs-why")).to_have_text("Say where it hung.")
    page.get_by_label("Where", exact=True).select_option(label="LM-0417-A")
    page.get_by_label("Name of the logger (may be empty)").fill("Probe 7")
    crew.press("Bring in 90 readings: inside LM-0417-A")
    expect(page.get_by_role("status").filter(has_text="90 readings brought in: inside LM-0417-A")).to_be_visible()
    page.get_by_role("link", name="Coats and drying").click()
    expect(page.get_by_text(re.compile("^Tape dry by the table since "))).to_be_visible()

    crew.go("/air/file/readings")
    choose_file(page, european(90))
    page.get_by_label("The logger’s clock").select_option(label="Chicago, as in the yard")
    page.get_by_label("Where", exact=True).select_option(label="LM-0417-A")
    crew.press(re.compile("^Bring in 90 readings"))
    expect(page.get_by_text("0 readings brought in: inside LM-0417-A")).to_be_visible()
    expect(page.get_by_text("90 were known already.")).to_be_visible()
    crew.close()


def test_what_no_logger_wrote_says_so(place: Place, browser: Browser) -> None:
    manager = Hands(browser, place.url, "manager").sign_in()
    manager.go("/air/file/readings")
    choose_file(manager.page, b"\xef\xbb\xbf \r\n")
    expect(manager.page.get_by_role("alert")).to_have_text("The file is empty.")
    choose_file(manager.page, b"PK\x03\x04 sheet")
    expect(manager.page.get_by_role("alert")).to_contain_text("save the sheet as CSV")
    manager.offline(True)
    choose_file(manager.page, european(3))
    expect(manager.page.get_by_role("alert")).to_contain_text("No signal")
    manager.offline(False)
    choose_file(manager.page, european(3))
    expect(manager.page.get_by_text("3 rows, from")).to_be_visible()
    manager.close()


def test_readings_without_signal_in_two_taps_and_a_slip_taken_back(place: Place, browser: Browser) -> None:
    lay_tape(place, 6)
    crew = Hands(browser, place.url, "crew_lead").sign_in()
    page = crew.page
    crew.offline(True)
    page.get_by_role("link", name="Read the air").click()
    page.get_by_role("button", name="Read it: LM-0417-A").click()
    page.get_by_label("Temperature", exact=True).fill("700")
    page.get_by_label("Relative humidity", exact=True).fill("45")
    expect(page.locator(".slabs-why")).to_contain_text("LM-0417-A: 700 °F is not the air of a yard")
    page.get_by_label("Temperature", exact=True).fill("70")
    page.get_by_role("button", name="Relative humidity: one up").click()
    crew.press("Save 1 reading")
    crew.said("1 reading saved on this phone.")

    page.get_by_role("button", name="Same: 70 °F, 46 %, LM-0417-A").click()
    crew.press("Save 1 reading")
    crew.said("1 reading saved on this phone.")
    crew.offline(False)
    crew.sent()
    assert [row[1:3] for row in rows_of(place.phones["manager"], place)] in ([[211, 46]], [[211, 46], [211, 46]])

    page.get_by_role("link", name="LM-0417-A").click()
    keys = page.get_by_role("button", name=re.compile("^Take back: the reading"))
    many = len(rows_of(place.phones["manager"], place))
    # Without signal: the line cannot say *all sent* of the one before.
    crew.offline(True)
    for left in reversed(range(many)):
        keys.first.click()
        page.get_by_role("button", name="Take it back", exact=True).click()
        # The words of the one before may still be there: only the row that is gone tells that it was kept.
        expect(keys).to_have_count(left)
        crew.said("Taken back: the reading of")
    expect(page.locator(".sent-line")).to_contain_text(f"{many} entr")
    crew.offline(False)
    crew.sent()
    assert rows_of(place.phones["manager"], place) == []

    crew.offline(True)
    page.get_by_label("Temperature", exact=True).fill("90")
    page.get_by_label("Relative humidity", exact=True).fill("40")
    crew.main().click()
    keys.first.click()
    page.get_by_role("button", name="Take it back", exact=True).click()
    expect(keys).to_have_count(0)
    expect(page.locator(".sent-line")).to_contain_text("2 entries")
    crew.offline(False)
    crew.sent()
    assert rows_of(place.phones["manager"], place) == []
    crew.close()


def test_a_sensor_gets_a_key_once_and_loses_it(place: Place, browser: Browser) -> None:
    manager = Hands(browser, place.url, "manager").sign_in()
    page = manager.page
    manager.go("/manage/sensors")
    page.get_by_label("Name on it").fill("Probe 9")
    page.get_by_label("Where", exact=True).select_option(label="LM-0417-A")
    page.get_by_label("Whose air").select_option(label="Bath 2")
    manager.press("Make a key for Probe 9")
    key = page.locator(".code-line").first.inner_text()
    expect(page.locator(".code-line").last).to_contain_text(f"Bearer {key}")
    port = int(place.url.rsplit(":", 1)[1])
    data = json.dumps({"rows": [{"temp_f": 70, "rh": 45}]}).encode()
    headers = {"Authorization": f"Bearer {key}", "Content-Type": "application/json"}
    status, answer = request(port, "POST", "/api/readings", data, headers)
    assert (status, json.loads(answer)["taken"]) == (200, 1)
    assert [row[1:3] for row in rows_of(place.phones["manager"], place, "air bath")] == [[211, 45]]
    manager.press("I have put it into the sensor")
    manager.press("Revoke the key: Probe 9")
    manager.press("Revoke it")
    manager.said("The key of Probe 9 is revoked.")
    assert request(port, "POST", "/api/readings", data, headers)[0] == 403
    manager.close()


def hourly(hours: int) -> bytes:
    """A forecast by the hour, coldest at 5 in the morning of each night: 27 °F, then 31 °F."""
    begun = ago(0).astimezone(ZONE).replace(minute=0, second=0, microsecond=0, tzinfo=None)
    lines = ["time,temp (°F)"]
    for number in range(hours):
        at = begun + timedelta(hours=number)
        low = 27 if number < 24 else 31
        lines.append(f"{at:%Y-%m-%d %H:%M},{low if at.hour == 5 else 45}")
    return ("\n".join(lines) + "\n").encode()


def test_lows_of_nights_from_an_hourly_forecast_and_typed(place: Place, browser: Browser) -> None:
    inspector = Hands(browser, place.url, "inspector").sign_in()
    page = inspector.page
    inspector.go("/air/file/forecast")
    choose_file(page, hourly(72))
    page.get_by_label("The logger’s clock").select_option(label="Chicago, as in the yard")
    main = inspector.main()
    expect(main).to_have_text(re.compile(r"^Take the lows of \d nights$"))
    main.click()
    expect(page.get_by_role("status").filter(has_text=re.compile(r"^The lows of \d nights are told$"))).to_be_visible()
    page.get_by_role("link", name="Read the air").click()
    expect(page.get_by_text("Low 31 °F (-1 °C)").first).to_be_visible()

    inspector.offline(True)
    # Of two words the later second counts, and a phone knows the office's clock to a second: nobody is that quick.
    page.wait_for_function("since => Date.now() > since + 2000", arg=page.evaluate("Date.now()"))
    page.get_by_role("button", name=re.compile("tonight’s low$")).click()
    page.get_by_label("Tonight’s low", exact=True).fill("19,5")
    inspector.press("Save: low 20 °F (-7 °C)")
    inspector.said("Tonight’s low is 20 °F (-7 °C). Saved on this phone.")
    expect(page.get_by_text("Low 20 °F (-7 °C)").first).to_be_visible()
    inspector.close()
