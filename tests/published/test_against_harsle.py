"""Against HARSLE, Bend Allowance Calculation Guide for Press Brakes, harsle.com.

Kind: maker's page. Read in the source: one bracket with legs of 2 and 3 in, worked by hand; text much like that of
sheetmetalguy.com, with other sizes.
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("harsle")
def test_figure(row: Printed) -> None:
    row.holds()


@book("harsle", by="flat of the short leg")
def test_short_leg(row: Printed) -> None:
    row.holds(2 * 0.0254 - of("bend 0.125 90 0.25 --line 0.42", "setback"))


@book("harsle", by="flat of the long leg")
def test_long_leg(row: Printed) -> None:
    row.holds(3 * 0.0254 - of("bend 0.125 90 0.25 --line 0.42", "setback"))


@book("harsle", by="flat length")
def test_flat_length(row: Printed) -> None:
    row.holds(5 * 0.0254 - of("bend 0.125 90 0.25 --line 0.42", "take off by the line"))
