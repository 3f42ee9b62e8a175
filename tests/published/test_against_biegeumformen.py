"""Against Biegeumformen, Zuschnittsermittlung fuer 90-Biegeteile, a works sheet, scribd 74375167.

Kind: course. Read in the source, in a copy. Its rule v = 0.43 r + 1.48 s is a line at (2 - 1.48)/(pi/2) = 0.331 of the
thickness, inside of where DIN 6935 has it for this bend (0.41).
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("biegeumformen")
def test_figure(row: Printed) -> None:
    row.holds()


def flat() -> float:
    """Sum of the legs [m] less two deductions."""
    return 0.655 - 2 * of("bend '3.18 mm' 90 '7 mm' --line 0.331", "take off by the line")


@book("biegeumformen", by="legs of 50 and 605, two bends")
def test_flat(row: Printed) -> None:
    row.holds(flat())
