"""Against Math Central, University of Regina, Quandaries & Queries: patterns asked by makers, 2006 to 2011.

Kind: question page. Read in the source: pages QQ.09.06 sash, QQ.09.07 al, QQ.09.08 tom and QQ.09.11 fleur. At the end
of the last one the inner radius is taken wrongly: 33 less 26.25 (the height) for 33 less 26.4.
"""

from math import asin, pi, sqrt

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("math_central")
def test_figure(row: Printed) -> None:
    row.holds()


@book("math_central", by="height of the whole cone")
def test_whole_height(row: Printed) -> None:
    row.holds(sqrt(of("cone '40 cm' '8 cm' '21 cm'", "large radius R") ** 2 - 0.20**2))


@book("math_central", by="wedge cut away")
def test_wedge(row: Printed) -> None:
    row.holds(2 * pi - of("cone '40 cm' '8 cm' '21 cm'", "angle"))


@book("math_central", by="half the rise of the cut")
def test_half_rise(row: Printed) -> None:
    ask = "pipe '200 mm' '300 mm' --cut 45"
    row.holds((of(ask, "height at the long side") - of(ask, "height at the short side")) / 2)


@book("math_central", by="lean of the ends")
def test_lean_of_the_ends(row: Printed) -> None:
    """The walls that come in by 15 have the longer slant."""
    row.holds(asin(16 * 0.0254 / max(slants())))


@book("math_central", by="lean of the sides")
def test_lean_of_the_sides(row: Printed) -> None:
    row.holds(asin(16 * 0.0254 / min(slants())))


def slants() -> tuple[float, float]:
    """Slants [m] of the flat-topped pyramid."""
    ask = "pyramid 4 28 6 16 --long 36 6"
    return of(ask, "slant in the middle of a side"), of(ask, "slant in the middle of an end")
