"""Against Glencoe Geometry, McGraw-Hill: section 12-3, surface areas of pyramids, solutions manual.

Kind: school book. Read in the source: the publisher's own solutions, in a copy (scribd 451095511); rounded to tenths.
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("glencoe_pyramids")
def test_figure(row: Printed) -> None:
    row.holds()


@book("glencoe_pyramids", by="base of the pentagon")
def test_base(row: Printed) -> None:
    ask = "pyramid 5 7 0 9 --slant --of sides"
    row.holds(of(ask, "whole surface") - of(ask, "side"))
