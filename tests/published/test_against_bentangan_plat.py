"""Against Perhitungan bending plate, an Indonesian works sheet, pdfcoffee.com.

Kind: course. Read in the source, in a copy: legs of 40 and 60 mm outside, sheet of 0.8 mm, inside radius 1.2 mm, line
at 0.33; pi taken as 3.14.
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("bentangan_plat")
def test_figure(row: Printed) -> None:
    row.holds()


@book("bentangan_plat", by="long straight")
def test_long_straight(row: Printed) -> None:
    row.holds(0.060 - of("bend '0.8 mm' 90 '1.2 mm' --line 0.33", "setback"))


@book("bentangan_plat", by="short straight")
def test_short_straight(row: Printed) -> None:
    row.holds(0.040 - of("bend '0.8 mm' 90 '1.2 mm' --line 0.33", "setback"))


@book("bentangan_plat", by="full length")
def test_full_length(row: Printed) -> None:
    row.holds(0.100 - of("bend '0.8 mm' 90 '1.2 mm' --line 0.33", "take off by the line"))
