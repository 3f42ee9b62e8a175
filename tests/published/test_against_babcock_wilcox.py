"""Against Babcock and Wilcox, Steam: its Generation and Use, 35th ed., 1919.

Kind: book. Read in the source: table 9, heat colours after M. White and F. W. Taylor, degrees Fahrenheit. Our table is
a copy of it, so that each degree giving its word shows that it was copied rightly, no more. Its words stand up to 350 F
lower than those of other books: "orange" is 1650 F here and 2000 F in Ilgen. No word is printed without its book.
"""

import pytest

from bickern.iron.colour import colour_word

ROWS = [
    (1050, "dark red, blood red"),
    (1175, "dark cherry"),
    (1375, "full cherry red"),
    (1550, "light cherry"),
    (1650, "orange"),
    (1725, "light orange"),
    (1825, "yellow"),
    (1975, "light yellow"),
    (2200, "white"),
]


def kelvin(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9 + 273.15


@pytest.mark.parametrize(("fahrenheit", "word"), ROWS)
def test_heat_colour(fahrenheit: float, word: str) -> None:
    """Table 9 (read in the source): the word at its heat, and up to 15 F off it."""
    for off in (-15, 0, 15):
        assert colour_word("Babcock and Wilcox 1919", kelvin(fahrenheit + off)) == word


def test_one_word_is_two_heats() -> None:
    """Orange: 1650 F here, 2000 F in Ilgen, p. 94 (both read in the source)."""
    assert colour_word("Ilgen 1912", kelvin(1650)) != "orange"
    assert colour_word("Ilgen 1912", kelvin(2000)) == "orange"
