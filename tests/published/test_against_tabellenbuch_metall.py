"""Against Tabellenbuch Metall, Europa-Lehrmittel, blanks of bent parts with any angle.

Kind: handbook. Read in the source, a copy of the page (edition not shown). It measures legs of an acute bend to the
outside of the round, not to a corner: v = 2 (r + s) - length in the bend. For v it reads k = 0.7 off a diagram, where
its own formula gives 0.6896.
"""

from math import radians

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


def length() -> float:
    """Length [m] in the bend of the example: it turns by 120 degrees."""
    return of("bend '5 mm' 120 '6 mm'", "DIN 6935")


@book("tabellenbuch_metall", by="factor k")
def test_factor(row: Printed) -> None:
    """Found back from the length of the bend."""
    row.holds((length() / radians(120) - 0.006) / 0.0025)


@book("tabellenbuch_metall", by="v")
def test_deduction(row: Printed) -> None:
    row.holds(2 * 0.011 - length())


@book("tabellenbuch_metall", by="blank")
def test_blank(row: Printed) -> None:
    row.holds(0.016 + 0.021 - (2 * 0.011 - length()))
