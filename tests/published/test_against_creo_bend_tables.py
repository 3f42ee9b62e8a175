"""Against E. Oberg and others, Machinery's Handbook, 28th edition: bend table 2, soft steel.

Kind: handbook. Quoted by a secondary page (PTC Creo documentation, About Bend Tables): 0.64 of the thickness in a right
angle, also printed as a share K. Our rule has the same 0.64.
"""

from math import pi

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("creo_bend_tables", by="share of soft steel")
def test_share(row: Printed) -> None:
    """Found back from a bend of one inch round one inch."""
    taken = of("bend 1 90 1", "Machinery's Handbook, soft steel") / 0.0254
    row.holds(taken / (pi / 2) - 1)
