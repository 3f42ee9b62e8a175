"""Against NCERT, Mathematics, textbook for class X, chapter 13, exercises 13.2, 13.4, 13.5, and Exemplar Problems.

Kind: school book. Quoted by secondary pages that work its questions, not read in the book: lidolearning.com,
wna24.com, mycbseguide.com, cuemath.com, teachoo.com, byjus.com, sarthaks.com, myaptitude.in. 22/7 or 3.14 as marked;
turns of wire lie on the cylinder, without slope and thickness.
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("ncert_ten")
def test_figure(row: Printed) -> None:
    row.holds()


@book("ncert_ten", by="sheet of the funnel")
def test_funnel(row: Printed) -> None:
    row.holds(of("cone '18 cm' '8 cm' '12 cm'", "side") + of("pipe '8 cm' '10 cm'", "side"))
