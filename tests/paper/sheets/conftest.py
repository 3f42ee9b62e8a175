"""A plan with every field filled by hand, so that its words and cards are tested apart from how it is found."""

import math
from dataclasses import replace

import pytest

from bickern.iron.section import Section
from bickern.making.heats.result import End, Grip, Hold, Lot, PiecePlan, Plan, Spell, ToolFirst
from bickern.making.heats.unproved import HEATS_UNPROVED
from bickern.making.work.cautions import CAUTIONS
from bickern.making.work.result import Work
from bickern.measure.spread import Spread, sharp
from bickern.measure.units.words import INCH, Shape

ZERO_C = 273.15
SQ = Section(Shape.SQUARE, INCH / 2, INCH / 2)
TIP = Section(Shape.ROUND, INCH / 8, INCH / 8)
PALM = Section(Shape.FLAT, INCH, INCH / 4)
GIVES, WARMS = Spread(25, 18, 33), Spread(90, 60, 160)


def hot(number, works, zone, now, end, hold, **more):
    told = {"start": 1150 + ZERO_C, "stop": 800 + ZERO_C, "gives": GIVES, "warms": WARMS, **more}
    return Spell("arm", works, True, number, zone=zone, now=now, told_from=end, hold=hold, **told)


def arm_plan():
    def work(key, does, **more):
        return Work(f"arm: {key}", "arm", does, **more)

    taper = work("tip", "taper", name="tip", zone=(0, 4 * INCH), hot=True, before=SQ, after=TIP, runs=(0,))
    palm = work("palm", "draw", name="palm", zone=(13 * INCH, 15.5 * INCH), hot=True, after=PALM, runs=(2, 3))
    twist = work("twist", "twist", name="stem", zone=(8 * INCH, 12 * INCH), hot=True, amount=-1.5, twists=(0,))
    bend = work("elbow", "bend", name="elbow", zone=(13 * INCH, 14 * INCH), hot=True, amount=math.pi / 2)
    again = replace(bend, key="arm: again", name="foot")
    drill = work("hole", "drill", name="upper screw", amount=INCH / 4, holes=(0,))
    tongs = Hold(End.DATUM, Grip.TONGS, SQ, 4 * INCH, tongs_there=False)
    hand, vise, cold = Hold(End.OTHER, Grip.HAND), Hold(End.OTHER, Grip.VISE), ("the mark of the shoulder",)
    spells = (
        Spell("arm", (work("cut", "cut bar"), work("mark", "mark")), False, wants=Spread(300, 200, 500)),
        hot(
            1, (taper,), (0, 4 * INCH), (0, 1.5 * INCH), End.DATUM, hand,
            times=Spread(3, 2, 6), wants=Spread(60, 40, 90), cool=cold,
        ),
        hot(
            4, (palm,), (13 * INCH, 15.5 * INCH), (0, 2 * INCH), End.OTHER, tongs,
            times=Spread(2, 1, 4), done_before=("arm: cut", "arm: tip"),
        ),
        hot(
            6, (twist, bend, again), (8 * INCH, 14 * INCH), (8 * INCH, 14 * INCH), End.DATUM, vise,
            times=Spread(1, 1, 2), done_before=("arm: cut", "arm: tip", "arm: palm"),
        ),
        Spell("arm", (drill,), False, wants=Spread(120, 60, 200)),
    )  # fmt: skip
    lot = Lot("arm", 3, 2, True, Spread(4800, 3000, 8000), "the irons wait hot")
    numbers = {"heats": Spread(6, 4, 12), "seconds": Spread(2400, 1500, 4800), "lot": lot}
    cuts = {"first_cut": 14.25 * INCH, "last_cut": 14.375 * INCH}
    return PiecePlan("arm", 3, spells, **numbers, test_first="the twist stretches by a figure not yet trusted", **cuts)


def bench_plan(name, make, works):
    spell = Spell(name, works, False, wants=Spread(600, 400, 900))
    return PiecePlan(name, make, (spell,), sharp(0), spell.wants, Lot(name, make, 1, True, spell.wants, ""))


def invented_plan():
    wind = Work("links: wind", "links", "wind", radius=3 / 8 * INCH)
    links = bench_plan("links", 13, (wind, Work("links: cut", "links", "cut bar")))
    lot = Lot("hood", 1, 1, False, sharp(0), "")
    hood = PiecePlan("hood", 1, (), sharp(0), sharp(0), lot, refused="the sheet is galvanised: never heat it")
    rivet = Work("rivet", "hood", "rivet", amount=INCH / 8, with_pieces=("tray",))
    joining = (Spell("hood", (rivet,), False, wants=Spread(300, 200, 600)),)
    tools = (ToolFirst("drift", INCH / 4, "arm", "none on the wall"),)
    return Plan((arm_plan(), links, hood), tools, joining, (), Spread(6, 4, 12), Spread(4800, 3000, 9000))


@pytest.fixture
def planned(lantern):
    proved = (HEATS_UNPROVED, "Something else is not confirmed.")
    return replace(lantern, plan=invented_plan(), cautions=CAUTIONS, not_validated=proved)
