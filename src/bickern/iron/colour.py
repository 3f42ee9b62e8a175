"""Words for the colour of hot iron. Books differ by up to 190 K over one word: so the table is always named with it.

A colour is judged in the shade; by daylight the same iron looks colder. Whoever prints a word prints table and degrees.
"""

from dataclasses import dataclass

from bickern.measure.source import Kind, Source


@dataclass(frozen=True, slots=True)
class ColourTable:
    """One book's words, coldest first: pairs of temperature [K] and word."""

    name: str
    rows: tuple[tuple[float, str], ...]
    source: Source


def _fahrenheit(degrees: float) -> float:
    return (degrees + 459.67) / 1.8


def _table(name: str, source: Source, *rows: tuple[float, str]) -> ColourTable:
    """A table printed in degrees Fahrenheit, as all of these are."""
    return ColourTable(name, tuple((_fahrenheit(f), word) for f, word in rows), source)


_ILGEN = Source("W. L. Ilgen", "Forge Work", 1912, "p. 94, heat colours", Kind.HANDBOOK)
_COLVIN = Source("F. H. Colvin, K. A. Juthe", "The Working of Steel", 1922, "table 26", Kind.HANDBOOK)
_WHITE = Source(
    "M. White, F. W. Taylor", "in Babcock and Wilcox, Steam, its Generation and Use, 35th ed.", 1919, "table 9",
    Kind.HANDBOOK,
)  # fmt: skip

TABLES: dict[str, ColourTable] = {
    t.name: t
    for t in (
        _table(
            "Ilgen 1912", _ILGEN,
            (970, "dark red, hardly visible in daylight"), (1070, "red, visible by daylight"), (1300, "brighter red"),
            (1450, "cherry red"), (1650, "bright cherry"), (1800, "light cherry"), (2000, "orange"), (2150, "yellow"),
            (2350, "white heat"), (2600, "white welding heat"), (2800, "white welding heat, dazzling"),
        ),
        _table(
            "Colvin and Juthe 1922", _COLVIN,
            (975, "red in daylight"), (1292, "dark red"), (1652, "cherry red"), (1832, "bright cherry red"),
            (2012, "orange red"), (2192, "orange yellow"), (2372, "yellow white"), (2552, "white welding heat"),
            (2732, "brilliant white"),
        ),
        _table(
            "Babcock and Wilcox 1919", _WHITE,
            (1050, "dark red, blood red"), (1175, "dark cherry"), (1375, "full cherry red"), (1550, "light cherry"),
            (1650, "orange"), (1725, "light orange"), (1825, "yellow"), (1975, "light yellow"), (2200, "white"),
        ),
    )
}  # fmt: skip
"""By the name that a shop file chooses and a sheet prints."""
DARK = 50.0
"""K under a table's first word from which iron is called black (our choice)."""
BLACK = "black"


def colour_word(table: str, temperature: float) -> str:
    """The word of that table whose temperature [K] is nearest; "black" well under its first word."""
    rows = TABLES[table].rows
    if temperature < rows[0][0] - DARK:
        return BLACK
    return min(rows, key=lambda row: abs(row[0] - temperature))[1]
