"""Edges and seams against US Navy, NAVEDTRA 14251 Steelworker vol. 2, 1996, fig. 2-54 to 2-58.

Read in the source, but for the grooved seam's 3 W, which a tinsmith's page quotes and the Navy's figures agree with.

Standing seams (1 1/4 and 1 1/2 with a fold of 1/4, cleats a foot apart; Henley's formulas, roofing, read) are roof work
and not laid out here. Blanks told off a sheet (38 rows of 7 are 266; LON p. 25 ex. 4E) belong to cutting plans.
"""

import pytest

from bickern.geometry.polygon import bounds
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import GrooveRule, SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import Pattern
from bickern.parts.sheet.spec import Cylinder, Edge, EdgeKind, Seam, SeamKind, SheetSpec

W = INCH / 4


def cut(seam: Seam = Seam(), edges: tuple[Edge, ...] = (), rules: SheetRules = SheetRules()) -> Pattern:  # noqa: B008
    spec = SheetSpec("pipe", 0.0005, "S235JR", Cylinder(6 * INCH, 8 * INCH), seam=seam, edges=edges)
    result = reckon_sheet(spec, rules, 7850.0).value
    assert result is not None
    return result.patterns[0]


def size(pattern: Pattern) -> tuple[float, float]:
    (x0, y0), (x1, y1) = bounds(pattern.outline)
    return (x1 - x0) / INCH, (y1 - y0) / INCH


def test_wire_edge_takes_two_and_a_half_diameters() -> None:
    """1/8 wire: .3125."""
    added = size(cut(edges=(Edge("top", EdgeKind.WIRED, INCH / 8),)))[1] - size(cut())[1]
    assert added == pytest.approx(0.3125, abs=1e-4)


@pytest.mark.parametrize(("kind", "widths"), [(EdgeKind.HEM, 1), (EdgeKind.DOUBLE_HEM, 2)])
def test_hems(kind: EdgeKind, widths: int) -> None:
    """A single hem of width W takes W, a double hem 2 W."""
    added = size(cut(edges=(Edge("bottom", kind, W),)))[1] - size(cut())[1]
    assert added == pytest.approx(widths * 0.25, abs=1e-9)


@pytest.mark.parametrize("groove", list(GrooveRule))
def test_grooved_seam_takes_three_widths(groove: GrooveRule) -> None:
    """However it is shared: 3 W in all; a shop that wants "a smidgen" for the bends says how much."""
    seam = Seam(SeamKind.GROOVED, W)
    added = size(cut(seam, rules=SheetRules(groove=groove)))[0] - size(cut())[0]
    assert added == pytest.approx(0.75, abs=1e-9)
    more = size(cut(seam, rules=SheetRules(groove=groove, groove_extra=2.0)))[0] - size(cut())[0]
    assert more == pytest.approx(0.75 + 2 * 0.0005 / INCH, abs=1e-9)


def test_plain_lap_takes_its_width() -> None:
    assert size(cut(Seam(SeamKind.LAP, W)))[0] - size(cut())[0] == pytest.approx(0.25, abs=1e-9)
