"""Against C. C. Sleffel, Working in Metals (The Library of Work and Play), Doubleday, Page, 1911.

Kind: book. Read in the source. Sizes to eighths; metal is left in shoulders and scarfs, how much is not printed. Left
out: a link of 3/8 round from 6 in, which has no finished size in print.
"""

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec


@book("sleffel")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_rivet_by_the_shops_choice() -> None:
    """Tongs (read): a 3/8 rivet takes 3/8 for its head, 7/8 through 1/2; transcribed."""
    rules = shop_of("joints: {rivet: grip + 1 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=3 / 8 * INCH), rules, 7850.0, 0.5 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(7 / 8, abs=1e-9)
