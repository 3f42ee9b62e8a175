"""Against E. A. Atkins, Practical Sheet and Plate Metal Work, Pitman.

Kind: book. Read in the source: single pages (chestofbooks.com copy), a hood for a smith's hearth and the mitre of a
square pipe, where tan 30 is taken as .58. Its allowance for a wired edge, twice the wire and four thicknesses of the
sheet, is another rule than ours.
"""

import pytest
from chosen import shop_of
from shelf import Printed, book, quick_answer

from bickern.geometry.polygon import bounds
from bickern.measure.units.words import INCH
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import Cylinder, Edge, EdgeKind, SheetSpec


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("atkins")
def test_figure(row: Printed) -> None:
    row.holds()


@book("atkins", by="rise of the cut")
def test_rise(row: Printed) -> None:
    """A flat-sided pipe rises across its width as a round one does across its diameter."""
    ask = "pipe 5 10 --cut 30"
    row.holds(of(ask, "height at the long side") - of(ask, "height at the short side"))


def test_a_wired_edge_by_the_shops_choice() -> None:
    """Wired edges (read): 1/4 wire on 1/16 sheet takes 3/4, two wires and four sheets; transcribed."""
    rules = shop_of("sheet: {wire: 2 wires + 4 sheets}").sheet

    def high(*edges: Edge) -> float:
        spec = SheetSpec("pipe", INCH / 16, "S235JR", Cylinder(6 * INCH, 8 * INCH), edges=edges)
        made = reckon_sheet(spec, rules, 7850.0).value
        assert made is not None
        (_, low), (_, top) = bounds(made.patterns[0].outline)
        return (top - low) / INCH

    assert high(Edge("top", EdgeKind.WIRED, INCH / 4)) - high() == pytest.approx(0.75, abs=1e-9)
