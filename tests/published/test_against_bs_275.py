"""Against BS 275:1927, BS 425:1943 and BS 4620:1970, solid rivets: what shank a head takes, as a rivet maker prints it.

Kind: standard. Quoted by a secondary page: Sapphire Products, The Rivet Supply Company. The setting allowance S is the
shank that fills the head by volume, in diameters D; a countersunk head has its own depth of shank in the grip already.
The pan head's two tables have a coned neck under the head, the countersunk ones a rounded top, which the heads here
have not: those are added as exact solids. BS 275 itself, in Machinery's Handbook, 31st ed., p. 1877, has the same
proportions. DIN 661 has another countersunk head, 1.75 d at 75 degrees.
"""

from math import pi, radians, tan

from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.joint.heads import Head, cap_volume, frustum_volume, head_length, shank_for

D = INCH


@book("bs_275")
def test_figure(row: Printed) -> None:
    row.holds()


@book("bs_275_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


def neck(across: float, deep: float) -> float:
    """What a coned neck of `across` at the head, `deep` down the shank, adds to the shank [m]."""
    return shank_for(frustum_volume(across, D, deep), D) - deep


@book("bs_275", by="pan, neck of 60 degrees")
def test_pan_head(row: Printed) -> None:
    row.holds(head_length(Head.PAN, D) + neck(D + 2 * D / 8 * tan(radians(30)), D / 8))


@book("bs_275", by="pan, neck of 15 degrees")
def test_pan_head_with_a_long_neck(row: Printed) -> None:
    row.holds(head_length(Head.PAN, D) + neck(D + 2 * D / 2 * tan(radians(7.5)), D / 2))


@book("bs_275", by="rounded countersunk of 60 degrees")
def test_countersunk_head(row: Printed) -> None:
    row.holds(head_length(Head.COUNTERSUNK, D) + shank_for(cap_volume(1.5 * D, 0.201 * D), D))


@book("bs_275", by="rounded countersunk of 45 degrees")
def test_deeper_countersunk_head(row: Printed) -> None:
    deep = 0.604 * D
    row.holds(shank_for(frustum_volume(1.5 * D, D, deep) + cap_volume(1.5 * D, 0.201 * D), D) - deep)


@book("bs_275", by="countersunk of 90 degrees")
def test_flat_countersunk_head(row: Printed) -> None:
    row.holds(shank_for(frustum_volume(2 * D, D, D / 2) - pi / 4 * D**2 * D / 2, D))
