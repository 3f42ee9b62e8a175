"""Against Fattore K, an Italian shop note, scribd 352607068.

Kind: course. Read in the source, in a copy: straight parts of 44 mm, sheet of 3 mm bent round 3 mm, with the line
inside (0) and outside (1). One length has lost a figure. Left out: a trial bend whose line is found back from a length
that is given.
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("fattore_k", by="flat, line inside")
def test_line_inside(row: Printed) -> None:
    row.holds(2 * 0.044 + of("bend '3 mm' 90 '3 mm' --line 0", "length by the line"))


@book("fattore_k", by="flat, line outside")
def test_line_outside(row: Printed) -> None:
    row.holds(2 * 0.044 + of("bend '3 mm' 90 '3 mm' --line 1", "length by the line"))
