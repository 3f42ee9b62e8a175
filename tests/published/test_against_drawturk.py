"""Against Acilim boyu (tam boy) hesabi, drawturk.com.

Kind: lesson page. Read in the source (Turkish), example of fig. 1: thin wire, arcs of 60 mm radius, pi taken as 3.14.
"""

from math import pi

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("drawturk")
def test_figure(row: Printed) -> None:
    row.holds()


@book("drawturk", by="both arcs and 150 mm")
def test_whole(row: Printed) -> None:
    arcs = sum(of(f"curve '2 mm rd' '60 mm' {turn} --to middle", "along the middle") for turn in (120, 270))
    row.holds(arcs * 3.14 / pi + 0.150)
