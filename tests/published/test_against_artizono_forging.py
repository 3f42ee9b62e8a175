"""Against Artizono, forging temperatures, table 1, artizono.com, and the article Forging temperature of Wikipedia.

Kind: trade page. Quoted by secondary pages, without the handbooks that they follow: the greatest heat to begin at and
the least to end at. Our own heats are from memory of other tables, and are to lie within these bounds: a smith who
keeps ours keeps theirs.
"""

import pytest

from bickern.iron.forging import forging_range
from bickern.iron.steel import STEELS

ROWS = [
    ("S235JR", "Q235", 1250, 700),
    ("1018", "C10 to C30", 1250, 800),
    ("1020", "C10 to C30", 1250, 800),
    ("1045", "C40 to C60", 1200, 800),
    ("4140", "42CrMo", 1150, 850),
]


@pytest.mark.parametrize(("ours", "theirs", "most", "least"), ROWS)
def test_ours_lies_within(ours: str, theirs: str, most: float, least: float) -> None:
    """Table 1, degrees C (quoted): within, and not so far within that no time is left to forge."""
    row = forging_range(STEELS[ours])
    assert least <= row.stop - 273.15 < row.start - 273.15 <= most, theirs
    assert row.start - row.stop > 0.5 * (most - least), theirs


@pytest.mark.parametrize(("metal", "most"), [("S235JR", 1230), ("copper", 900), ("brass", 815)])
def test_ours_begins_no_hotter(metal: str, most: float) -> None:
    """Wikipedia (quoted), degrees C: carbon steel, copper, brass."""
    assert most - 110 <= forging_range(STEELS[metal]).start - 273.15 <= most
