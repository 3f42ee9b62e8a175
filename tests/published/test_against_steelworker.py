"""Against US Navy, NAVEDTRA 14251 Steelworker vol. 2, 1996, fig. 2-54 to 2-58.

Kind: manual. Read in the source. Our rules for wired edges and hems were copied from it. The grooved seam's three
widths are quoted by a tinsmith's page; the Navy's figures agree.
"""

import pytest
from chosen import inches_by, shop_of
from shelf import Printed, book

from bickern.geometry.polygon import bounds
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import GrooveRule, SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import Pattern
from bickern.parts.sheet.spec import Cylinder, Edge, EdgeKind, Seam, SeamKind, SheetSpec


def cut(seam: Seam = Seam(), edges: tuple[Edge, ...] = (), rules: SheetRules = SheetRules()) -> Pattern:  # noqa: B008
    spec = SheetSpec("pipe", 0.0005, "S235JR", Cylinder(6 * INCH, 8 * INCH), seam=seam, edges=edges)
    result = reckon_sheet(spec, rules, 7850.0).value
    assert result is not None
    return result.patterns[0]


def size(pattern: Pattern) -> tuple[float, float]:
    (x0, y0), (x1, y1) = bounds(pattern.outline)
    return (x1 - x0) / INCH, (y1 - y0) / INCH


W = INCH / 4


@book("steelworker")
def test_figure(row: Printed) -> None:
    row.holds()


@pytest.mark.parametrize(("kind", "widths"), [(EdgeKind.HEM, 1), (EdgeKind.DOUBLE_HEM, 2)])
def test_hems(kind: EdgeKind, widths: int) -> None:
    """A single hem of width W takes W, a double hem 2 W (read); transcribed."""
    added = size(cut(edges=(Edge("bottom", kind, W),)))[1] - size(cut())[1]
    assert added == pytest.approx(widths * 0.25, abs=1e-9)


@pytest.mark.parametrize("groove", list(GrooveRule))
def test_grooved_seam_takes_three_widths(groove: GrooveRule) -> None:
    """However it is shared: 3 W in all (quoted, the Navy's figures agree); transcribed."""
    added = size(cut(Seam(SeamKind.GROOVED, W), rules=SheetRules(groove=groove)))[0] - size(cut())[0]
    assert added == pytest.approx(0.75, abs=1e-9)


def test_a_wired_edge_by_the_shops_choice() -> None:
    """Fig. 2-54 to 2-58 (read): 1/8 wire takes .3125; transcribed. A number of the shop's own says the same."""
    for rule in ("2 1/2 d", "2.5"):
        rules = shop_of(f"sheet: {{wire: {rule}}}").sheet
        wired = size(cut(edges=(Edge("top", EdgeKind.WIRED, INCH / 8),), rules=rules))[1]
        assert wired - size(cut())[1] == pytest.approx(0.3125, abs=1e-4)


@pytest.mark.parametrize("groove", ["half on each edge", '"one width on one edge, two on the other"'])
def test_a_grooved_seam_by_the_shops_choice(groove: str) -> None:
    """Grooved seam (quoted, the Navy's figures agree): 1/4 wide takes .75 in all; transcribed."""
    assert inches_by(f"sheet: {{groove: {groove}}}", "edge grooved 1/4", "added") == pytest.approx(0.75, abs=0.001)
