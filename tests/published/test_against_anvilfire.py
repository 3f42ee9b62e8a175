"""Against J. Dempsey, Cones (1999) and Slitting Holes (2000), 21st Century Blacksmithing, anvilfire.com.

Kind: trade page. Read in the source. Slitting Holes, of 9 August 2000, has three times the radius for a round hole in
fig. 18; our rule of slits goes back to it.
"""

import pytest
from chosen import reckoned_by
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult


@book("anvilfire")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_slit_by_the_shops_choice() -> None:
    """Slitting Holes, fig. 18 (read): three times the radius, 1 1/2 for a round hole of 1; transcribed, pi cut to 3."""
    holes = "holes: [{size: 1, by: slit and drift, at: 3, face: front, name: eye}]"
    pieces = f"  bar: {{bar: 1 1/2 x 1/2, steel: S235JR, metal: [{{keep: 6}}], {holes}}}"
    done = reckoned_by("bars: {slit: half the rim less 5 %}", pieces)
    assert done.copy is not None
    (made,) = done.copy.pieces
    assert isinstance(made, BarResult)
    assert made.holes[0].slit == pytest.approx(1.5 * INCH, abs=0.01 * INCH)
