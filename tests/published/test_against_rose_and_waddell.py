"""Against J. Rose, Modern Machine-Shop Practice, and J. A. L. Waddell, De Pontibus, 1898, p. 165.

Kind: book. Read in the source: edge of riveted laps; their pitch in the Cyclopedia of Architecture, vol. 5. Not held,
since bickern chooses neither rivet nor pitch: which rivet for which plate (N. Hawkins, 1897, a table for boilers; 1.2
root t in an old cyclopaedia, whose own pitch of 2 3/8 its rule makes 2.24), rows of chain and zigzag riveting (Rose),
and what a hole takes off a plate (Waddell).
"""

from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import Cylinder, Seam, SeamKind, SheetSpec


def warnings(edge: float, pitch: float) -> set[str]:
    """What is said of a lap whose rivets of 1/8 stand so many diameters from the edge and from each other."""
    rivet = INCH / 8
    seam = Seam(SeamKind.RIVETED, 2 * edge * rivet, rivet, pitch * rivet)
    found = reckon_sheet(SheetSpec("s", 0.001, "S235JR", Cylinder(0.1, 0.1), seam=seam), SheetRules(), 7850.0).findings
    return {f.name for f in found if f.name.startswith("rivet")}


def test_edge_of_a_riveted_lap() -> None:
    """Rose (read): 1 1/2 d from the edge. Waddell, p. 165 (read): 1 1/2 d at least, better 2 d.

    Our default is the better one of Waddell's two; transcribed. Under the least of both books a lap is always told of.
    """
    assert "rivet-near-edge" in warnings(1.49, 3)
    assert "rivet-near-edge" in warnings(1.99, 3)
    assert warnings(2.0, 3) == set()


def test_pitch_of_a_riveted_lap() -> None:
    """Cyclopedia of Architecture, vol. 5 (read): 3 d apart at least; transcribed."""
    assert warnings(2, 2.99) == {"rivets-too-close"}
    assert warnings(2, 3.01) == set()
