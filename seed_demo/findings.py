"""What the inspectors found, wall by wall: one write-up is one wall, its items and the photo that serves them all.

A write-up's name is "<serial> <room> <surface>"; lengths are millimetres along from the left and up from the floor.
"""

from __future__ import annotations

from dataclasses import dataclass

Mark = tuple[str, int, int]


@dataclass(frozen=True)
class WriteUp:
    """Items of one wall: which crew has them, how they were seen, and (defect, along, up) of each."""

    name: str
    crew: str
    light: str
    marks: tuple[Mark, ...]
    photo: bool = True

    @property
    def serial(self) -> str:
        """Of the module."""
        return self.name.split()[0]

    @property
    def room(self) -> str:
        """Key of the room."""
        return self.name.split()[1]

    @property
    def surface(self) -> str:
        """The wall's letter, ceiling, floor or trim."""
        return self.name.split()[2]


def _found(name: str, crew: str, light: str, marks: str, *, photo: bool = True) -> WriteUp:
    read = [one.split() for one in marks.split(";")]
    return WriteUp(name, crew, light, tuple((defect, int(along), int(up)) for defect, along, up in read), photo)


_ALL = (
    # 5077-A: through the yard in the first week
    _found("5077-A living D", "board", "raking", "screw_pop 3520 1640; screw_pop 3910 1210; ridging 3720 900"),
    _found("5077-A kitchen B", "paint", "normal", "missed_paint 2700 1500; run 3050 1180; lint 2880 820"),
    _found("5077-A bath_1 C", "board", "raking", "tape_blister 620 1850; nick 980 1420"),
    _found("5077-A bed_1 D", "paint", "raking", "joint_flashing 1620 1300; sanding_scratch 1990 1050"),
    # 5078-A
    _found("5078-A living B", "board", "raking", "dent 1280 1350; nick 1610 980; scratch 1480 720"),
    _found("5078-A living D", "board", "raking", "crack 900 2210; screw_pop 420 1790; crowned_joint 520 1200"),
    _found("5078-A living ceiling", "paint", "raking", "joint_flashing 2600 1900; lap_mark 3050 1500"),
    _found("5078-A kitchen C", "paint", "normal", "run 1900 1650; missed_paint 2260 1250; overspray 2100 950"),
    _found("5078-A kitchen B", "trim", "normal", "caulk_gap 2900 940; nick 3120 1380", photo=False),
    _found("5078-A utility D", "board", "raking", "hole 1300 1180; torn_paper 1560 1540"),
    _found("5078-A utility C", "paint", "normal", "burnish 400 1250"),
    # 5078-B
    _found("5078-B bed_1 B", "board", "raking", "screw_pop 600 1720; screw_pop 610 1300; nick 960 1080"),
    _found("5078-B bed_1 C", "board", "raking", "gouge 1700 640; dent 2050 890"),
    _found("5078-B bath_1 B", "paint", "normal", "stain_bleed 1760 2130; run 1900 1500"),
    _found("5078-B bed_2 D", "board", "raking", "starved_joint 1200 1250; pock_marks 1630 1380"),
    _found("5078-B bed_2 A", "trim", "normal", "caulk_gap 1230 830; nick 860 1020", photo=False),
    _found("5078-B bath_2 C", "paint", "raking", "sanding_scratch 520 1600; missed_paint 860 1900; nick 740 1130"),
    # 5081-A
    _found("5081-A living A", "board", "raking", "screw_pop 2280 1710; nick 2300 1310; nick 2660 1490; dent 2520 880"),
    _found("5081-A living B", "board", "raking", "dent 820 1180; tape_blister 1190 1480"),
    _found("5081-A kitchen D", "paint", "normal", "lap_mark 3650 1650; run 3800 1200; lint 3560 1050"),
    _found("5081-A kitchen ceiling", "paint", "raking", "joint_flashing 2100 1800; sanding_scratch 2480 2050"),
    _found("5081-A utility A", "board", "raking", "torn_paper 620 1780; nick 480 1250; gouge 780 950"),
    _found("5081-A utility B", "trim", "normal", "caulk_gap 1350 60", photo=False),
    # 5081-B
    _found("5081-B bed_1 A", "board", "raking", "ridging 1250 1350; nick 900 1560; screw_pop 1020 960"),
    _found("5081-B bed_1 D", "paint", "normal", "missed_paint 1400 2000; overspray 1750 1700"),
    _found("5081-B bath_1 A", "paint", "normal", "run 520 1500; stain_bleed 640 2080"),
    _found("5081-B bed_2 B", "board", "raking", "dent 400 1100; nick 560 1420; scratch 310 1350"),
    _found("5081-B bath_2 D", "paint", "raking", "texture_mismatch 1830 1480; pock_marks 1960 1050"),
    _found("5081-B bed_2 ceiling", "paint", "raking", "joint_flashing 1700 1500", photo=False),
    # 5083-A
    _found("5083-A living B", "board", "raking", "ridging 1350 1350; dent 900 1660; nick 1850 1080; nick 1000 1030"),
    _found("5083-A living C", "paint", "raking", "sanding_scratch 900 1500; burnish 1360 1260; lint 1080 950"),
    _found("5083-A living D", "board", "raking", "crack 3160 2230; dent 3520 1800"),
    _found("5083-A kitchen A", "paint", "normal", "missed_paint 3720 1650; run 3880 1180"),
    _found("5083-A kitchen B", "board", "raking", "screw_pop 700 1560; screw_pop 710 1160; torn_paper 1080 1340"),
    _found("5083-A utility C", "trim", "normal", "caulk_gap 1900 70; nick 2050 620", photo=False),
    _found("5083-A utility D", "board", "raking", "gouge 300 1320; nick 470 1680"),
    # 5083-B
    _found("5083-B bed_1 D", "board", "raking", "screw_pop 2900 1700; screw_pop 2910 1290; ridging 3240 1150"),
    _found("5083-B bed_1 B", "paint", "normal", "lap_mark 3400 1500; missed_paint 3330 1900; overspray 3600 1100"),
    _found("5083-B bath_1 B", "board", "raking", "nick 1640 1530; nick 1810 1320; scratch 1720 1010"),
    _found("5083-B bath_1 D", "paint", "normal", "run 1900 1250; stain_bleed 1740 1900"),
    _found("5083-B bed_2 A", "board", "raking", "hole 560 900; dent 860 1420"),
    _found("5083-B bath_2 B", "paint", "raking", "joint_flashing 1820 1250; pock_marks 1640 1640"),
    # 5084-A
    _found("5084-A living A", "board", "raking", "screw_pop 420 1650; nick 690 1310; scratch 500 960"),
    _found("5084-A living D", "board", "raking", "tape_blister 3600 1500; starved_joint 3950 1250"),
    _found("5084-A kitchen B", "paint", "normal", "run 2780 1600; missed_paint 3060 1240"),
    _found("5084-A bath_1 C", "board", "raking", "nick 420 1360; dent 760 1160; torn_paper 1020 1720"),
    _found("5084-A bed_1 B", "paint", "raking", "sanding_scratch 560 1260; lint 800 1500"),
    # 5086-A: came in on the last day
    _found("5086-A living B", "board", "raking", "dent 2500 1420; nick 2830 1180; screw_pop 2600 1720"),
    _found("5086-A bath_1 B", "paint", "normal", "missed_paint 1790 1500"),
    # What came to light later
    _found("5078-B bed_2 B", "board", "raking", "dent 2400 1240"),
    _found("5081-A living C", "board", "raking", "crack 3400 2180"),
)  # fmt: skip

WRITE_UPS: dict[str, WriteUp] = {one.name: one for one in _ALL}


def of(serial: str) -> list[str]:
    """Names of a module's write-ups, in the order of the round."""
    return [one.name for one in _ALL if one.serial == serial]
