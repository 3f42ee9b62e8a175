"""Against Strength of Materials, Van Nostrand, about 1915.

Kind: book. Quoted by a secondary page; the scan's figures are doubtful: a snap head takes 1 1/4 to 1 1/2 diameters.
"""

import pytest
from chosen import shop_of

from bickern.measure.units.words import INCH
from bickern.parts.joint.heads import Head, head_length
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec


def test_a_snap_head_s_own_metal_lies_under_the_range() -> None:
    """A snap head takes 1 1/4 to 1 1/2 d (quoted; the scan is doubtful), and the shank must fill its hole too.

    So the head alone, by the proportions that Newnes has (exact mathematics), takes less, but more than one diameter.
    """
    assert 1.0 < head_length(Head.SNAP, INCH) / INCH < 1.25


def test_a_rivet_by_the_shops_choice() -> None:
    """A snap head takes 1 1/4 diameters at least (quoted; the scan is doubtful); transcribed."""
    rules = shop_of("joints: {rivet: grip + 1 1/4 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=1.0 * INCH), rules, 7850.0, 1.0 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(2.25, abs=1e-9)
