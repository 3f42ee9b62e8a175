"""Against US Navy, NAVEDTRA 14119, Hull Maintenance Technician, as shown on tpub.com.

Kind: manual. Read in the source: chapter 2 on the weight of metal, fig. 16-3, and p. 13-43. Steel at 0.284 lb a cubic
inch, or 40.9 lb a square foot and inch. Bends go by the middle of plate or pipe, with 1.57 and 3.14.
"""

from math import pi

import pytest
from chosen import inches_by, reckoned_by
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult


@book("navedtra_14119")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_fold_by_the_shops_choice() -> None:
    """P. 13-43, example 1, fig. 13-49 (read): 1/2 plate through 90 degrees round 3 takes 5.10, with 3.14 for pi."""
    ours = inches_by("sheet: {fold: middle}", "bend 0.5 90 3", "length in the bend")
    assert ours * 3.14 / pi == pytest.approx(5.10, abs=0.005)


def test_a_bend_in_a_bar_by_the_shops_choice() -> None:
    """P. 13-43, example 2, fig. 13-50 (read): a U of 1/2 round, 1 inside, takes 3.925 with 3.14 for pi."""
    path = "path: [{straight: 2}, {bend: 180, inside radius: 1, turn: up}, {straight: 2}]"
    pieces = f"  bolt: {{bar: 1/2 rd, steel: S235JR, metal: [{{keep: rest}}], {path}}}"
    done = reckoned_by("bars: {bend: centre line}", pieces)
    assert done.copy is not None
    (bolt,) = done.copy.pieces
    assert isinstance(bolt, BarResult)
    assert (bolt.length / INCH - 4) * 3.14 / pi == pytest.approx(3.925, abs=0.0005)
