"""The second week: a home goes to staging, one comes back, two people differ, and one phone stays out of reach."""

from __future__ import annotations

from datetime import timedelta

from seed_demo import coat_days, opening, yard
from seed_demo.findings import of
from seed_demo.moves import CLEANING, WRAP, releases
from seed_demo.story import Story


def day_6(s: Story) -> None:
    """The 5083 home comes in. June's phone went flat in the night and woke up a day ahead."""
    s.at(6, "07:00")
    opening.arrivals(s, 6)
    coat_days.arrive(s, 6)
    s["june"].phone.clock_error = timedelta(hours=26)
    s.sync("bartolo", "june")
    coat_days.day_6(s)
    s.clears(s["bartolo"], "5078-A living B", only=[0], after=True, left={0: 0.35}, by=["Dell Acker"])
    s.clears(s["june"], "5078-A living ceiling", only=[0], after=True, minutes=60)
    s.clears(s["bartolo"], "5078-B bed_1 B", "5078-B bed_1 C", "5078-B bed_2 D", by=["Ximena Prado"], minutes=40)
    s.clears(s["june"], "5078-B bath_1 B", "5078-B bath_2 C", by=["Lupe Santerre"])
    s.sync("bartolo", "june", "rosendo", "ferris")
    s.at(6, "14:00")
    s.clears(s["ferris"], "5078-B bed_2 A")
    s.sends_back(s["rosendo"], "5078-A living B", 0, "still_visible")
    s.closes(s["rosendo"], "5078-A living ceiling", only=[0])
    s.sync("rosendo", "ferris", "bartolo")
    coat_days.day_6_later(s)


def day_7(s: Story) -> None:
    """The dent is filled a third time, now with its photo. A spare phone stays behind in 5078-B with an item on it."""
    s.at(7, "07:20")
    s.sync("bartolo", "june", "rosendo", "imke")
    s["june"].phone.clock_error = timedelta(0)
    coat_days.day_7(s)
    s.clears(s["bartolo"], "5078-A living B", only=[0], after=True, minutes=35)
    s.clears(s["bartolo"], "5081-A living A", "5081-A utility A", by=["Dell Acker"], minutes=75)
    s.clears(s["bartolo"], "5081-A living B", after=True, by=["Ximena Prado"], minutes=90)
    s.clears(s["june"], "5081-A kitchen D", "5081-A kitchen ceiling", after=True)
    s.sync("bartolo", "june", "rosendo")
    s.at(7, "11:00")
    coat_days.day_7_later(s)
    s.closes(s["rosendo"], "5078-A living B", only=[0])
    s.closes(s["rosendo"], *of("5078-B")[:-1])
    s.writes_up(s["imke"], *of("5083-A"))
    s.sync("rosendo", "imke")
    s.at(7, "15:40")
    rosendo = next(one for one in yard.PEOPLE if one.name == "Rosendo Vail")
    s.signs_in("rosendo_spare", rosendo)
    s.no_signal("rosendo_spare")
    s.writes_up(s["rosendo_spare"], of("5078-B")[-1])


def day_8(s: Story) -> None:
    """The 5078 home goes to staging, and 5081-A with it; 5084-A comes in."""
    s.at(8, "07:00")
    opening.arrivals(s, 8)
    coat_days.arrive(s, 8)
    s.sync("ferris", "imke")
    s.clears(s["ferris"], "5081-A utility B", by=["Wick Amadi"])
    s.sync("ferris", "imke", "rosendo", "hollis")
    s.closes(s["imke"], *of("5081-A")[:-1])
    for serial in ("5078-A", "5078-B", "5081-A"):
        s.passes(900)
        s.sheet(s["imke"], serial, "cleaning", CLEANING)
    s.sync("imke", "hollis")
    s.at(8, "13:50")
    coat_days.day_8(s)
    s.at(8, "14:10")
    for serial in ("5078-A", "5078-B", "5081-A"):
        s.passes(600)
        s.sheet(s["hollis"], serial, "wrap_and_seal", WRAP)
        releases(s, serial)
    s.sync("bartolo", "june")
    s.clears(s["bartolo"], "5081-B bed_1 A", "5081-B bed_2 B", after=True, by=["Dell Acker"], minutes=60)
    s.clears(
        s["june"], "5081-B bed_1 D", "5081-B bath_1 A", "5081-B bath_2 D", "5081-B bed_2 ceiling", by=["Lupe Santerre"]
    )
    coat_days.day_8_later(s)
    s.sync("bartolo", "june")


def day_9(s: Story) -> None:
    """The spare phone turns up. The move cracks 5081-A. Two inspectors differ. Ferris gives up inspecting."""
    s.at(9, "07:00")
    s.sync("hollis", "imke", "rosendo", "ferris")
    for serial, bay in (("5078-A", "Staging 1"), ("5078-B", "Staging 2"), ("5081-A", "Staging 3")):
        s.passes(1100)
        s["hollis"].moves(s.modules[serial], bay)
    s.sync("hollis", "imke")
    s.writes_up(s["imke"], of("5081-A")[-1])
    s.sync("imke", "hollis")
    s["hollis"].pulls_back(s.modules["5081-A"], s.releases["5081-A"], "Cracked over the front door in the move")
    s.sync("hollis", "rosendo_spare")
    s.at(9, "10:00")
    s.writes_up(s["imke"], *of("5083-B"))
    s.sync("imke", "rosendo", "bartolo", "june", "ferris")
    _two_opinions(s)
    s.clears(s["bartolo"], "5083-A living B", "5083-A kitchen B", by=["Dell Acker"], minutes=80)
    s.clears(s["bartolo"], "5083-A living D", after=True, left={1: 0.5}, minutes=95)
    s.clears(s["june"], "5083-A living C", after=True, left={1: 0.6}, by=["Lupe Santerre"])
    _ferris_steps_down(s)
    s.sync("bartolo", "june", "imke", "rosendo")
    coat_days.day_9(s)


def _two_opinions(s: Story) -> None:
    """Imke and Rosendo each call the same mark something else, neither having seen the other."""
    module, item = s.modules["5083-B"], s.items["5083-B bath_1 D"][0]
    s.no_signal("imke", "rosendo")
    s.passes(1200)
    s["imke"].amends(module, item, defect="lap_mark")
    s.passes(500)
    s["rosendo"].amends(module, item, defect="paint_peel_texture")


def _ferris_steps_down(s: Story) -> None:
    """Out of reach he still voids an item, as an inspector may; meanwhile the manager has taken that role away."""
    s.no_signal("ferris")
    s.passes(300)
    s.kept["void"] = s.items["5083-B bath_1 B"][1]
    s["ferris"].voids(s.modules["5083-B"], s.kept["void"], "Same nick written twice.")
    s.passes(1800)
    teodora = s["teodora"]
    teodora.sync()
    teodora.names("Ferris Oakey", ["crew_lead"], "trim", s.people["Ferris Oakey"])
    s.sync("teodora")


def day_10(s: Story) -> None:
    """5081-B gets ready, 5083-A nearly, and 5084-A is on a phone out of reach."""
    s.at(10, "07:00")
    opening.arrivals(s, 10)
    coat_days.arrive(s, 10)
    s.sync("imke", "rosendo", "bartolo", "june", "hollis", "ferris")
    s.closes(s["imke"], *of("5081-B"))
    s.sheet(s["imke"], "5081-B", "cleaning", CLEANING)
    s.sync("imke", "hollis")
    s.sheet(s["hollis"], "5081-B", "wrap_and_seal", WRAP)
    s.sync("hollis")
    coat_days.day_10(s)
    s.at(10, "10:20")
    _recheck_5083(s)
    _fix_5083(s)
    s.at(10, "14:30")
    _new_module(s)
    _out_of_reach(s)


def _recheck_5083(s: Story) -> None:
    s.closes(s["imke"], "5083-A living B", only=[0, 1])
    coat_days.day_10_found_wet(s)
    s.sends_back(s["imke"], "5083-A living D", 1, "shows_under_light")
    s.sends_back(s["imke"], "5083-A living C", 1, "colour_differs", "Shines from the door.")
    s.closes(s["imke"], "5083-A living C", only=[0])
    s.sheet(s["imke"], "5083-A", "cleaning", CLEANING)
    s.sync("imke", "june", "bartolo")


def _fix_5083(s: Story) -> None:
    s.clears(s["june"], "5083-A kitchen A", after=True, by=["Lupe Santerre"], minutes=30)
    module = s.modules["5083-B"]
    for item in s.items["5083-B bed_1 D"][:2]:
        s.passes(900)
        s["bartolo"].ticks(module, item, ["new_screw", "remove_screw", "coat"], [s.people["Dell Acker"]])
    s["bartolo"].ticks(module, s.items["5083-B bed_2 A"][0], ["patch", "tape"])
    s.clears(s["bartolo"], "5083-B bath_1 B", only=[0, 2], minutes=25)
    coat_days.day_10_rework(s)
    s.sync("june", "bartolo")
    coat_days.day_10_noon(s)


def _new_module(s: Story) -> None:
    imke, module = s["imke"], s.modules["5086-A"]
    s.sync("imke")
    s.writes_up(imke, *of("5086-A"))
    imke.adds_room(module, "porch", "Porch closet")
    s.passes(60)
    item = imke.logs_in_words(module, "overspray", "porch", "B", "left", "eye", crew="paint")
    s.items["5086-A porch B"] = [item]
    s.sync("imke")


def _out_of_reach(s: Story) -> None:
    """The first entries get through from the step of 5084-A; then the signal is gone, with the photos still to come."""
    s.at(10, "15:30")
    s.sync("rosendo")
    s.no_signal("rosendo")
    s.writes_up(s["rosendo"], *of("5084-A"))
    s["rosendo"].phone.signal = True
    s["rosendo"].sync(most=len(s["rosendo"].phone.outbox) - 3)
