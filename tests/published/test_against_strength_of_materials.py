"""Against Strength of Materials, Van Nostrand, about 1915.

Kind: book. Quoted by a secondary page; the scan's figures are doubtful: a snap head takes 1 1/4 to 1 1/2 diameters.
"""

import pytest
from chosen import shop_of

from bickern.measure.units.words import INCH
from bickern.parts.joint.heads import Head, head_length
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.rules import rivet_length
from bickern.parts.joint.spec import JointKind, JointSpec


def test_strength_of_materials_range_of_snap_heads_holds_the_default_and_the_volume():
    # Strength of Materials, Van Nostrand, about 1915 (quoted by a secondary page; the scan's figures are doubtful):
    # a snap head takes 1 1/4 to 1 1/2 d
    low, high = (rivet_length(rule, INCH, 0) / INCH for rule in ("grip + 1 1/4 d", "grip + 1 1/2 d"))
    assert (low, high) == pytest.approx((1.25, 1.5))
    # exact mathematics on the proportions in Newnes: the head alone takes less, for the shank must fill its hole too
    assert 1.0 < head_length(Head.SNAP, INCH) / INCH < low


def test_a_rivet_by_the_shops_choice() -> None:
    """A snap head takes 1 1/4 diameters at least (quoted; the scan is doubtful); transcribed."""
    rules = shop_of("joints: {rivet: grip + 1 1/4 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=1.0 * INCH), rules, 7850.0, 1.0 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(2.25, abs=1e-9)
