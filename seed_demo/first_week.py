"""The first week: one module goes all the way, the next ones start."""

from __future__ import annotations

from datetime import timedelta

from seed_demo import coat_days, opening
from seed_demo.findings import of
from seed_demo.moves import CLEANING, WRAP, releases
from seed_demo.story import Story


def day_1(s: Story) -> None:
    """People get their phones; three modules come in; the first round with the light."""
    s.at(1, "06:40")
    opening.people(s)
    opening.helpers(s)
    opening.plans(s)
    opening.arrivals(s, 1)
    coat_days.opening(s)
    coat_days.arrive(s, 1)
    s["imke"].phone.clock_error = timedelta(minutes=-4)
    s.sync("imke", "rosendo")
    s.at(1, "09:10")
    s.writes_up(s["imke"], *of("5077-A"))
    s.at(1, "13:15")
    s.writes_up(s["rosendo"], *of("5078-A"))
    s.sync("imke", "rosendo")


def day_2(s: Story) -> None:
    """The crews clear 5077-A; two things go back. Imke writes up 5078-B where there is no signal."""
    s.at(2, "07:05")
    s.sync("bartolo", "june", "imke", "rosendo")
    s.no_signal("imke")
    s.at(2, "08:00")
    s.clears(s["bartolo"], "5077-A living D", by=["Dell Acker"], minutes=50)
    s.clears(s["bartolo"], "5077-A bath_1 C", after=True, left={1: 0.6}, by=["Ximena Prado"], minutes=85)
    s.clears(s["june"], "5077-A kitchen B", minutes=25)
    s.clears(s["june"], "5077-A bed_1 D", after=True, left={0: 0.5}, by=["Lupe Santerre"])
    s.at(2, "09:30")
    s.writes_up(s["imke"], *of("5078-B")[:-1])
    s.sync("bartolo", "june", "rosendo")
    s.at(2, "15:20")
    s.closes(s["rosendo"], "5077-A living D", "5077-A kitchen B")
    s.closes(s["rosendo"], "5077-A bath_1 C", only=[0])
    s.sends_back(s["rosendo"], "5077-A bath_1 C", 1, "shows_under_light")
    s.sends_back(s["rosendo"], "5077-A bed_1 D", 0, "colour_differs", "Wider, out to the corner.")
    s.closes(s["rosendo"], "5077-A bed_1 D", only=[1])
    s.at(2, "17:05")
    s.sync("rosendo", "imke")


def day_3(s: Story) -> None:
    """5077-A is fixed again, cleaned, wrapped and released. The 5081 home comes in."""
    s.at(3, "07:00")
    opening.arrivals(s, 3)
    coat_days.arrive(s, 3)
    s.sync("bartolo", "june")
    s.at(3, "08:10")
    s.clears(s["bartolo"], "5077-A bath_1 C", only=[1], after=True, by=["Dell Acker"], minutes=20)
    s.clears(s["june"], "5077-A bed_1 D", only=[0], after=True, minutes=40)
    s.sync("bartolo", "june", "rosendo", "imke")
    s.at(3, "11:00")
    s.closes(s["rosendo"], "5077-A bath_1 C", only=[1])
    s.closes(s["rosendo"], "5077-A bed_1 D", only=[0])
    s.sync("rosendo", "imke")
    _glass_not_clean(s)
    s.at(3, "15:40")
    s.sync("hollis")
    s.sheet(s["hollis"], "5077-A", "wrap_and_seal", WRAP)
    releases(s, "5077-A")


def _glass_not_clean(s: Story) -> None:
    """A *no* on the cleaning sheet is an item; once it is fixed and closed the line is answered again and signed."""
    imke, module = s["imke"], s.modules["5077-A"]
    s.at(3, "12:30")
    others = {line: by_room for line, by_room in CLEANING.items() if line != "glass"}
    s.sheet(imke, "5077-A", "cleaning", others, sign=False)
    item = imke.logs(module, "dirt", ("bath_1", "A", 1250, 1650), light="normal", crew="clean")
    s.items["5077-A bath_1 glass"] = [item]
    imke.answers(module, "cleaning", "glass", s.rooms("5077-A"), but=[{"room": "bath_1", "value": "no", "item": item}])
    s.sync("imke", "ferris")
    s.passes(1800)
    s["ferris"].clears(module, item, minutes=5)
    s.sync("ferris", "imke")
    s.passes(600)
    imke.closes(module, item)
    imke.answers(module, "cleaning", "glass", ["bath_1"])
    imke.signs(module, "cleaning")
    s.sync("imke")


def day_4(s: Story) -> None:
    """5077-A leaves. Rosendo writes up 5081-A out of reach, and the answer to his push gets lost."""
    s.at(4, "06:50")
    hollis = s["hollis"]
    hollis.moves(s.modules["5077-A"], "Staging 1")
    s.passes(1500)
    hollis.lets_leave(s.modules["5077-A"], "Driver pickup")
    s.sync("hollis", "bartolo", "rosendo")
    s.no_signal("rosendo")
    s.at(4, "08:30")
    s.clears(s["bartolo"], "5078-A living B", by=["Dell Acker"], minutes=45)
    s.clears(s["bartolo"], "5078-A living D", "5078-A utility D", after=True, by=["Ximena Prado"], minutes=110)
    s.writes_up(s["rosendo"], *of("5081-A")[:-1])
    s.sync("bartolo")
    s.at(4, "16:45")
    s["rosendo"].phone.signal = True
    s["rosendo"].sync(lose_reply=True)
    s.passes(30)
    s.sync("rosendo")


def day_5(s: Story) -> None:
    """Paint and trim on 5078-A; Imke looks with the light, voids one and sends two back. 5081-B is written up."""
    s.at(5, "07:10")
    s.sync("june", "ferris", "imke")
    s.clears(s["june"], "5078-A living ceiling", "5078-A kitchen C", after=True, by=["Lupe Santerre"], minutes=70)
    s.clears(s["june"], "5078-A utility C", minutes=15)
    s.clears(s["ferris"], "5078-A kitchen B", only=[0], by=["Wick Amadi"])
    s.sync("june", "ferris", "imke")
    s.at(5, "10:30")
    s.closes(s["imke"], "5078-A living B", only=[1, 2])
    s.sends_back(s["imke"], "5078-A living B", 0, "shows_under_light", "Still hollow in the middle.")
    s.closes(s["imke"], "5078-A living D", "5078-A kitchen C", "5078-A utility D", "5078-A utility C")
    s.closes(s["imke"], "5078-A living ceiling", only=[1])
    s.sends_back(s["imke"], "5078-A living ceiling", 0, "colour_differs")
    s.closes(s["imke"], "5078-A kitchen B", only=[0])
    nick = s.items["5078-A kitchen B"][1]
    s["imke"].voids(s.modules["5078-A"], nick, "It is in the film on the cabinet, not in the wall.")
    s.at(5, "13:20")
    s.writes_up(s["imke"], *of("5081-B"))
    coat_days.day_5(s)
