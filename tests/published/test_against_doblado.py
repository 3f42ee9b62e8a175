"""Against Doblado, curvado y plegado, worked exercises of a Spanish trade course (DUCE), 2014/15, scribd 260701211.

Kind: course. Read in the source, in a copy: exercise 3, a U of 100 x 80 mm in 3 mm, inside radius 12 mm, line at 0.470
of the thickness from a table. Sizes are to the inside.
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("doblado")
def test_figure(row: Printed) -> None:
    row.holds()


@book("doblado", by="flat of the U")
def test_flat(row: Printed) -> None:
    """The straights are 80 and 100 mm less the inside radius at each bend."""
    row.holds(2 * 0.068 + 0.076 + 2 * of("bend '3 mm' 90 '12 mm' --line 0.47", "length by the line"))
