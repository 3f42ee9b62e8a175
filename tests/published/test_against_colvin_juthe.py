"""Against F. H. Colvin and K. A. Juthe, The Working of Steel, 2nd ed., McGraw-Hill, about 1922.

Kind: book. Read in the source: table 26, heat colours; our table is a copy of it, so that each degree giving its word
shows that it was copied rightly, no more. The print's degrees are round in C (525, 700, 900 ... 1500), which checks the
print itself. It forges carbon tool steel at 1500 to 1550 F; ours, from memory of later tables, is pulled at 980 C
(1796 F) and worked down to 815 C (1499 F): they part in the heat to begin at, and agree about where to stop.
"""

import pytest
from beside import Beside

from bickern.iron.colour import colour_word
from bickern.iron.forging import forging_range
from bickern.iron.steel import STEELS

ROWS = [
    (975, 525, "red in daylight"),
    (1292, 700, "dark red"),
    (1652, 900, "cherry red"),
    (1832, 1000, "bright cherry red"),
    (2012, 1100, "orange red"),
    (2192, 1200, "orange yellow"),
    (2372, 1300, "yellow white"),
    (2552, 1400, "white welding heat"),
    (2732, 1500, "brilliant white"),
]


def kelvin(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9 + 273.15


@pytest.mark.parametrize(("fahrenheit", "celsius", "word"), ROWS)
def test_heat_colour(fahrenheit: float, celsius: float, word: str) -> None:
    """Table 26 (read in the source): the word at its heat, and up to 15 F off it."""
    for off in (-15, 0, 15):
        assert colour_word("Colvin and Juthe 1922", kelvin(fahrenheit + off)) == word
    assert kelvin(fahrenheit) - 273.15 == pytest.approx(celsius, abs=1.2)


def test_tool_steel_is_forged_hotter_here_and_stopped_as_there() -> None:
    """Chapter on forging (read in the source): 1500 to 1550 F. Ours begins hotter by 246 F: a disagreement, stated."""
    row = forging_range(STEELS["W1"])
    assert row.start > kelvin(1550)
    assert row.stop == pytest.approx(kelvin(1525), abs=25)


def beside() -> list[Beside]:
    """The heats of the chapter on forging, and ours."""
    row = forging_range(STEELS["W1"])
    start, stop = (1.8 * (kelvin - 273.15) + 32 for kelvin in (row.start, row.stop))
    return [
        Beside("heat at which carbon tool steel is begun, at most", "F", 1550, start, "**disagrees**: ours is hotter"),
        Beside("heat at which it is forged, at least", "F", 1500, stop, "ours stops there"),
    ]
