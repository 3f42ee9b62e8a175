"""Against J. B. Stokes, Intermediate Blacksmithing, FAO Agricultural Services Bulletin 88/2, 1992.

Kind: manual. Read in the source. An S-link of 8 mm from 200 mm and a welded ring of 16 mm from 110 mm have no finished
size. Orders of work, read: a link (job 7) is bent to a U, scarfed, closed over the next link, welded in about ten
seconds from the fire to the round; the barbed gate hook (job 5) has its eye before its hook: the plan agrees. A ring
(job 15) is bent to a U before its ends are scarfed, **where the plan scarfs the straight bar**; its ends are upset
first, which the plan only says in words.
"""

from math import pi

import pytest
from sequences import LINK_STEPS, Told, heats_with, link, ring

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Corner,
    Metal,
    StraightLeg,
)

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def test_upset_corner_takes_a_quarter_thickness_more() -> None:
    """J. B. Stokes, Intermediate Blacksmithing, FAO Bulletin 88/2, 1992 (read): + 1/4 t for each upset bend.

    Transcribed: it is our rule of an upset corner.
    """

    def bent(corner: Corner) -> float:
        path = (StraightLeg(4 * INCH), BendLeg(pi / 2, 0.5 * INCH, corner=corner), StraightLeg(4 * INCH))
        return reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)).stock_bare / INCH

    assert bent(Corner.UPSET) - bent(Corner.NONE) == pytest.approx(0.125, rel=1e-9)


GATE_HOOK = """pieces:
  hook:
    bar: 8 mm rd
    metal: [{keep: 200 mm, name: shank}, {to: 2 mm rd, over: 50 mm, name: point}]
    path: [{eye: 12 mm, turn: left, name: eye}, {straight: rest},
      {bend: 90, inside radius: 6 mm, turn: left, name: hook}, {straight: 70 mm}]
"""
LINK = link("8 mm rd", "20 mm", "50 mm")
ORDERS = [
    Told("job 5, gate hook", "read", GATE_HOOK, (("curl eye", "bend hook"), ("taper point", "bend hook"))),
    Told("job 7, chain link", "read", LINK, LINK_STEPS),
    Told(
        "job 15, ring", "read", ring("16 mm rd", "20 mm"), (("scarf", "weld"), ("bend", "weld")), (("bend", "scarf"),),
        "a straight bar lies better on the edge of the anvil, and another book scarfs it so (Drew 1918)",
    ),
]  # fmt: skip
"""Orders of work in the book."""


@pytest.mark.parametrize("told", ORDERS, ids=lambda t: t.where)
def test_the_order_of_work(told: Told) -> None:
    """Each step before the next, as the book has it; where the plan parts from it, that is told."""
    told.holds()


def test_the_next_link_is_hung_in_before_the_scarfs_are_closed() -> None:
    """Job 7 (read): slipped on when the scarfs are formed, before they are bent to be welded."""
    (scarf,) = heats_with(LINK, "scarf")
    (work,) = scarf.works
    assert "before it is closed" in work.says


def test_a_weld_has_its_ten_seconds() -> None:
    """Job 7 (read): welded and rounded up in about ten seconds; a heat gives so many, and they are asked for."""
    (weld,) = heats_with(LINK, "weld")
    assert weld.times.value == 1
    assert weld.wants.low < 10.0 < weld.gives.low
