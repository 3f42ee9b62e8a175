"""Against Egme Bukme, a Turkish vocational module on bending, issuu.com/motorsitem.

Kind: course. Read in the source: page 6, example 2. Material of 10 mm bent round 60 mm, turns of 90, 90 and 45 degrees,
straights of 150, 200, 200 and 170 mm, pi taken as 3.14.
"""

from math import pi

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("egme_bukme", by="whole length")
def test_whole(row: Printed) -> None:
    arcs = sum(of(f"curve '10 mm sq' '60 mm' {turn} --to inside", "along the middle") for turn in (90, 90, 45))
    row.holds(arcs * 3.14 / pi + 0.150 + 0.200 + 0.200 + 0.170)
