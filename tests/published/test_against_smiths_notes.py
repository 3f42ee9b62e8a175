"""Against short figures on smiths' pages and mailing lists: collars, stock, tapers.

Kind: question page. Quoted by secondary pages, and heaped from several: B. Freeman on theforge list (March 2002),
another letter of that list (July 2004), and pages of notes on stock, collars and slits, of which no address is kept.
Shop lengths, to a sixteenth at best.
"""

import pytest
from chosen import reckoned_by, shop_of
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    Blank,
    Metal,
    SectionGoal,
)
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def drawn(stock: Section, length: float, start: Section, end: Section | None = None) -> float:
    goal = SectionGoal(end) if end else None
    asked = Metal(Blank.OPEN, start=SectionGoal(start), end=goal, name="drawn")
    return reckoned(BarSpec("b", stock, "mild", (asked,), stock_length=length * INCH)).solved[0].value / INCH


@book("smiths_notes")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_taper_one_way() -> None:
    """B. Freeman, theforge list, March 2002 (quoted): a bar doubles when it is drawn to a wedge of its own width."""
    assert drawn(sq(0.5), 1.0, sq(0.5), Section(Shape.FLAT, 0.5 * INCH, 0.0)) == pytest.approx(2.0, rel=1e-12)


def collar_by(rule: str, thick: float) -> float:
    """Collar bar [in] less the girth of the bundle, which is 3 in, by a shop of this rule."""
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.FLAT, 0.5 * INCH, thick * INCH))
    made = reckon_joint(spec, shop_of(f"joints: {{collar: {rule}}}").joint, 7850.0, None, 3 * INCH).value
    assert made is not None
    return made.metal / INCH - 3


def test_a_collar_by_the_shops_choice_of_the_middle_of_a_range() -> None:
    """Smiths' general figure (quoted): 2 1/2 to 3 thicknesses past the girth; the middle of it is transcribed."""
    assert 2.5 / 8 < collar_by("perimeter + 2 3/4 t", 1 / 8) < 3 / 8


def test_a_collar_by_the_shops_choice_of_tapered_laps() -> None:
    """A smith's page (quoted): with tapered laps one thickness is enough; transcribed."""
    assert collar_by("perimeter + 1 t", 1 / 8) == pytest.approx(1 / 8)


def test_a_slit_by_the_shops_choice() -> None:
    """A smith's page (quoted): half the rim less 5 %, .95 for an opening of 3/4 x 1/4; transcribed."""
    holes = "holes: [{size: 1/4, long: 3/4, by: slit and drift, at: 3, face: front, name: eye}]"
    pieces = f"  bar: {{bar: 1 x 1/2, steel: S235JR, metal: [{{keep: 6}}], {holes}}}"
    done = reckoned_by("bars: {slit: half the rim less 5 %}", pieces)
    assert done.copy is not None
    (made,) = done.copy.pieces
    assert isinstance(made, BarResult)
    assert made.holes[0].slit == pytest.approx(0.95 * INCH)
