"""What goes on, dries and is looked at, day by day; the days of ``first_week`` and ``second_week`` call these.

All modules but one come with coats from the line. In the yard: patches, touch-up, two coats over what was not ready, a
module that nobody heats in a damp night, and one that came on the last day, of which only the outside air is known.
"""

from __future__ import annotations

from datetime import timedelta

from seed_demo.coats import (
    DRY_REASON,
    LOOKS,
    LOOKS_HEATED,
    Line,
    air_in,
    before,
    hangs_sensor,
    lays,
    line_as_it_goes,
    line_card,
    logger_file,
    low_tonight,
    reads,
    sensors_post,
    yard_id,
)
from seed_demo.opening import adds
from seed_demo.story import Story

HEATED_TO = 211  # 70 °F


def _every(*coats: tuple[str, int], rooms: tuple[str, ...] | None = None) -> list[Line]:
    return [(coat, days, "14:00", rooms) for coat, days in coats]


_LEVEL_4 = _every(
    ("tape", 8), ("first", 7), ("second", 6), ("texture", 5), ("prime", 4), ("paint_1", 3), ("paint_2", 2)
)
_LEVEL_3 = [line for line in _LEVEL_4 if line[0] != "second"]
_WET_UTILITY = ("living", "kitchen")
CARDS: dict[str, list[Line]] = {
    "5077-A": _LEVEL_4,
    "5078-A": [*_LEVEL_3[:2], ("second", 6, "14:00", ("kitchen",)), *_LEVEL_3[2:]],
    "5078-B": _LEVEL_3,
    "5081-A": _LEVEL_4,
    "5081-B": [*_LEVEL_4[:-1], ("paint_2", 3, "18:00", None)],
    "5083-A": [
        *_every(("tape", 7), ("first", 6), ("second", 5)),
        *_every(("skim", 4), ("prime", 3), ("paint_1", 2), rooms=_WET_UTILITY),
    ],
    "5083-B": [
        *_every(("tape", 6), ("first", 5), ("second", 4), ("skim", 3), ("prime", 2)),
        *_every(("paint_1", 1), rooms=("bed_1", "bath_1", "bath_2")),
    ],
    "5084-A": [
        *_every(("tape", 7), ("first", 6)),
        *_every(("second", 5), ("texture", 4), ("prime", 3), ("paint_1", 1), rooms=("kitchen",)),
    ],
    "5086-A": [(coat, days, clock, ("bath_1",)) for coat, days, clock, _ in _LEVEL_3],
}
# In the program already while they stand on the line; of the others a card comes along.
ON_THE_LINE = ("5083-A", "5083-B", "5084-A")
EARLY = {"5081-B": {"paint_2": "The line had to clear the bay that night; heat stayed on."}}
# How long before it came the logger of the line was taken down, in hours; 5083-B had none.
LOGGER_DOWN = {"5084-A": 19}


def arrive(s: Story, day: int) -> None:
    """The cards of the modules that come, and the files of the loggers that hung in them on the line."""
    for serial, lines in CARDS.items():
        if s.module(serial).comes != day:
            continue
        if serial not in ON_THE_LINE:
            line_card(s, serial, lines, EARLY.get(serial))
        if serial != "5083-B":
            down = s.when(day, "06:00") - timedelta(hours=LOGGER_DOWN.get(serial, 0))
            room = "bath_1" if serial == "5086-A" else None
            logger_file(s, "teodora", serial, before(s, serial, 9, "12:00"), down, room=room, name="L2")


def opening(s: Story) -> None:
    """The plant's own words and crews for coats, and the sensor on the mast."""
    crews = {"joint": "board", "texture": "board", "primer": "paint", "paint": "paint"}
    teodora = s["teodora"]
    teodora.amends_yard(
        yard_id(s), {"coats": {"names": {"first": "Block coat", "second": "Finish coat"}, "crews": crews}}
    )
    teodora.sync()
    hangs_sensor(s, "Mast", s.when(1, "00:00"))
    sensors_post(s)
    for serial in ON_THE_LINE:
        adds(s, s.module(serial))
        line_as_it_goes(s, serial, CARDS[serial], LOOKS_HEATED if serial == "5083-B" else LOOKS)
    teodora.sync()


def day_5(s: Story) -> None:
    """The heater of 5078-A was out in the night. A setting-type patch on the dent, and an answer about 5081-B."""
    bartolo, module, item = s["bartolo"], s.modules["5078-A"], s.items["5078-A living B"][0]
    s["imke"].answers_early(
        s.modules["5081-B"], s.coats["5081-B paint_2"], "No lifting under raking light; both films hard at a cut."
    )
    s.at(5, "15:30")
    sensors_post(s)
    s.sync("imke", "bartolo")
    bartolo.tells_heat(module, True, s.when(5, "08:00"), 194)
    bartolo.ticks(module, item, ["fill"])
    lays(s, bartolo, "5078-A", "fill", ["living"], name="5078-A patch", surface="B", material="setting_type",
         set_minutes=45, items=[item])  # fmt: skip
    s.sync("bartolo")


def day_6(s: Story) -> None:
    """The heat of the 5083 home is told, and its sensor hung. The patch is dry; June's phone is a day ahead."""
    bartolo = s["bartolo"]
    sensors_post(s)
    bartolo.tells_heat(s.modules["5083-B"], True, before(s, "5083-B", 6, "06:00"), HEATED_TO, "propane")
    hangs_sensor(s, "Probe 2", s.when(6, "07:00"), "5083-A")
    bartolo.finds_dry(s.modules["5078-A"], s.coats["5078-A patch"], ["living"], ["powder"], DRY_REASON["powder"])
    lays(s, s["june"], "5078-A", "touch_up", ["living"], name="5078-A ceiling", surface="ceiling", label_minutes=240)


def day_6_later(s: Story) -> None:
    """The dent is filled once more."""
    item = s.items["5078-A living B"][0]
    s.at(6, "16:00")
    lays(s, s["bartolo"], "5078-A", "fill", ["living"], name="5078-A fill", surface="B", items=[item])
    s.sync("bartolo")


def day_7(s: Story) -> None:
    """It is dry in the morning, by a cut; paint goes on it."""
    sensors_post(s)
    s["bartolo"].finds_dry(s.modules["5078-A"], s.coats["5078-A fill"], ["living"], ["cut"], DRY_REASON["cut"])


def day_7_later(s: Story) -> None:
    """Touch-up on the dent; Rosendo looks at the ceiling, whose time came from a wrong clock."""
    lays(s, s["june"], "5078-A", "touch_up", ["living"], name="5078-A wall B", surface="B", label_minutes=240)
    s.sync("june")
    s["rosendo"].finds_dry(s.modules["5078-A"], s.coats["5078-A ceiling"], ["living"])


def day_8(s: Story) -> None:
    """Before the release the loggers' files are brought in, and heat is off."""
    sensors_post(s)
    for serial in ("5078-A", "5078-B", "5081-A"):
        logger_file(s, "imke", serial, s.when(s.module(serial).comes, "06:30"), s.now)
    s["imke"].tells_heat(s.modules["5078-A"], False)


def day_8_later(s: Story) -> None:
    """Touch-up in 5081-B from the can of its paint."""
    lays(s, s["june"], "5081-B", "touch_up", ["bed_1"], surface="D", label_minutes=240, items=s.items["5081-B bed_1 D"])


def day_9(s: Story) -> None:
    """A heavy fill in 5083-A. In 5084-A, which nobody heats, the finish coat goes on for a damp night."""
    bartolo = s["bartolo"]
    lays(s, bartolo, "5083-A", "fill", ["living"], surface="D", thickness="heavy", items=s.items["5083-A living D"])
    s.at(9, "14:50")
    sensors_post(s)
    reads(s, "bartolo", "5084-A")
    lays(s, bartolo, "5084-A", "second", ["living", "bath_1", "bed_1"], done_by=[s.people["Dell Acker"]])
    low_tonight(s, "imke", 61)
    s.sync("bartolo", "imke")


def day_10(s: Story) -> None:
    """The logger of 5081-B; a reading that was typed wrong and is taken back; skim coat in the utility room."""
    bartolo, module = s["bartolo"], s.modules["5084-A"]
    sensors_post(s)
    logger_file(s, "imke", "5081-B", s.when(3, "06:30"), s.now)
    s.at(10, "07:50")
    air = air_in(s, "5084-A", s.now)
    bartolo.reads_air(module, [(s.now, type(air)(air.temp_f, 29))])
    typed = s.now
    s.passes(60)
    bartolo.takes_back_air(module, typed)
    reads(s, "bartolo", "5084-A")
    s.at(10, "08:00")
    lays(s, bartolo, "5083-A", "skim", ["utility"], name="5083-A utility", thickness="thin")
    s.sync("bartolo")


def day_10_found_wet(s: Story) -> None:
    """Imke finds the heavy fill soft."""
    meter = {"scale": "gypsum", "value": 16}
    s["imke"].finds_wet(s.modules["5083-A"], s.coats["5083-A fill"], ["living"], "Soft at the dent.", meter=meter)


def day_10_rework(s: Story) -> None:
    """Steps that were ticked are coats on their walls: one for two screw pops. Touch-up from another batch."""
    lays(s, s["june"], "5083-A", "touch_up", ["kitchen"], surface="A", batch="L-5083-2", label_minutes=240,
         items=s.items["5083-A kitchen A"])  # fmt: skip
    dell = [s.people["Dell Acker"]]
    pops, hole = s.items["5083-B bed_1 D"][:2], s.items["5083-B bed_2 A"][0]
    lays(s, s["bartolo"], "5083-B", "fill", ["bed_1"], surface="D", items=pops, done_by=dell)
    lays(s, s["bartolo"], "5083-B", "tape", ["bed_2"], name="5083-B hole", surface="A", material="setting_type",
         set_minutes=90, items=[hole])  # fmt: skip


def day_10_noon(s: Story) -> None:
    """Wet sanding in 5084-A, texture over what is not ready; then tape in the module that has just come."""
    bartolo, module = s["bartolo"], s.modules["5084-A"]
    s.at(10, "11:40")
    reads(s, "bartolo", "5084-A")
    bartolo.sands_wet(module, s.coats["5084-A second"], ["bath_1"], [s.people["Ximena Prado"]])
    lays(
        s,
        bartolo,
        "5084-A",
        "texture",
        ["bed_1"],
        early="The texture rig is here today only; the heater comes tonight.",
    )
    s.at(10, "13:30")
    sensors_post(s)
    lays(s, bartolo, "5086-A", "tape", ["living", "kitchen", "bed_1"], name="5086-A fresh tape",
         done_by=[s.people["Ximena Prado"]])  # fmt: skip
    reads(s, "bartolo", "5084-A")
    low_tonight(s, "imke", 39)
    s.sync("bartolo", "imke")


def night_after(s: Story) -> None:
    """Nobody is in the yard; the sensors go on."""
    s.at_end()
    sensors_post(s)
