"""Against F. Whitaker, The Blacksmith's Cookbook.

Kind: book. Quoted by a secondary page (iforgeiron.com, topic 24347): a lapped collar takes the perimeter and 2 1/2
thicknesses. Our rule was copied from it.
"""

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec


@book("whitaker")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_collar_by_the_shops_choice() -> None:
    """Collar rule (quoted) on two 1/2 squares and a collar 1/8 thick: 3 5/16; transcribed."""
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.FLAT, 0.5 * INCH, 0.125 * INCH))
    made = reckon_joint(spec, shop_of("joints: {collar: perimeter + 2 1/2 t}").joint, 7850.0, None, 3 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(3 + 5 / 16)
