"""Cones and frusta that other people worked out, as whole sheet pieces.

- CEE: ceemrr.com, Geometry 2, "The Net of a Frustum". Read in the source.
- BUT: I. R. Butt, The Tinman's Manual, rule for striking out a cone. Read in the source.
- LON: E. M. Longfield, Sheet Metal Drafting, 1921, pp. 25, 128 and ch. V. Read in the source; the
  holder's and the funnel's answers are not printed (or lost in the scan): exact mathematics of the printed sizes.
- MENS1, MENS2, MENS3: mensuration books of the 18th and 19th century (title pages not seen), pp. 76, 174, 187. Read in
  the source; MENS1 takes 22/7 for pi, MENS2 and MENS3 3.1416.
- BC3: Building Construction vol. 3, tin roofing table 5. Read in the source, to half an inch or so.
The thickness is set to almost nothing: the books know none.
"""

from math import degrees, pi

import pytest

from bickern.geometry.polygon import area, from_points
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Cone, Cylinder, FlatOutline, SheetSpec, Surface

THIN = 1e-9


def made(surface: Surface) -> SheetResult:
    result = reckon_sheet(SheetSpec("piece", THIN, "S235JR", surface), SheetRules(), 7850.0).value
    assert result is not None
    return result


def cone(base: float, top: float, height: float) -> SheetResult:
    return made(Cone(base * INCH, top * INCH, height * INCH))


def figure(result: SheetResult, name: str) -> float:
    return next(f.value for f in result.figures if f.name == name)


def on_slant(base: float, top: float, slant: float) -> SheetResult:
    return cone(base, top, (slant**2 - ((base - top) / 2) ** 2) ** 0.5)


def net_area(result: SheetResult) -> float:
    return sum(p.make * area(p.outline) for p in result.net) / INCH**2


def test_cee_net_of_a_frustum() -> None:
    """Diameters 5 and 8, height 4: radii 7.12 and 11.39, sector 126.4 degrees (printed to the last place shown)."""
    small = cone(8, 5, 4)
    assert figure(small, "small radius r") / INCH == pytest.approx(7.12, abs=0.005)
    assert figure(small, "large radius R") / INCH == pytest.approx(11.39, abs=0.005)
    assert degrees(figure(small, "angle")) == pytest.approx(126.4, abs=0.05)


def test_butt_slant_of_six_radii() -> None:
    """A cone whose slant is six times the radius of its base is a sector of 60 degrees."""
    assert degrees(figure(on_slant(2, 0, 6), "angle")) == pytest.approx(60, abs=1e-6)


def test_longfield_flower_holder_and_funnel() -> None:
    """Base 4, altitude 7: slant 7.280; funnel 6 to 3, altitude 3: 3.354, 47.42 sq in."""
    holder, funnel = cone(4, 0, 7), cone(6, 3, 3)
    assert figure(holder, "slant") / INCH == pytest.approx(53**0.5, rel=1e-6)
    assert degrees(figure(holder, "angle")) == pytest.approx(360 * 2 / 53**0.5, rel=1e-6)
    assert figure(funnel, "slant") / INCH == pytest.approx(11.25**0.5, rel=1e-6)
    assert net_area(funnel) == pytest.approx(pi * (3 + 1.5) * 11.25**0.5, rel=1e-6)


def test_longfield_end_blank() -> None:
    """LON p. 25 ex. 4G: a trapezoid of 4 1/2 and 3 1/2, 2 1/2 high, has 10 sq in."""
    corners = [(0.0, 0.0), (4.5, 0.0), (4.0, 2.5), (0.5, 2.5)]
    result = made(FlatOutline(from_points([(x * INCH, y * INCH) for x, y in corners])))
    assert result.area / INCH**2 == pytest.approx(10, abs=0.001)


CURVED = [
    ("MENS1 q. 5: 5 ft 4 and 8 ft 3, slant 10 ft 6", 64, 99, 126, 224 * 144, 0.5 * 144, 22 / 7),
    ("MENS2 ex. 1: girths 8.4 and 6, slant 12.5", 8.4 / pi, 6 / pi, 12.5, 90, 0.001, pi),
    ("MENS2 ex. 2: radii 2 and 3, slant 16, ends taken off", 6, 4, 16, 292.169 - 13 * 3.1416, 5e-4, 3.1416),
    ("MENS2 ex. 4: 8 and 4, slant 20, ends taken off", 8, 4, 20, 439.824 - 20 * 3.1416, 5e-4, 3.1416),
]


@pytest.mark.parametrize(("source", "a", "b", "slant", "printed", "tolerance", "its_pi"), CURVED)
def test_area_of_the_net(
    source: str, a: float, b: float, slant: float, printed: float, tolerance: float, its_pi: float
) -> None:
    ours = net_area(on_slant(max(a, b), min(a, b), slant)) * its_pi / pi
    assert ours == pytest.approx(printed, abs=tolerance), source


def test_area_by_height() -> None:
    """MENS1 q. 2: 19 ft 2 and 21 ft high, a cone: 695 sq ft. q. 6: 15 ft 4 and 26 ft 8, 23 ft 9 deep: 1611 sq ft."""
    assert net_area(cone(230, 0, 252)) / 144 * (22 / 7) / pi == pytest.approx(695, abs=0.5)
    assert net_area(cone(320, 184, 285)) / 144 * (22 / 7) / pi == pytest.approx(1611, abs=1)


def test_what_a_frustum_holds() -> None:
    """MENS3 ex. 3: 4 and 2, 9 high: 65.9736; ex. 4: 16 and 9, 38 high: 4785.18 (pi 3.1416, to the last place)."""
    for a, b, h, printed, tolerance in ((4, 2, 9, 65.9736, 2e-4), (16, 9, 38, 4785.18, 0.02)):
        holds = figure(cone(a, b, h), "holds, level full") / INCH**3
        assert holds * 3.1416 / pi == pytest.approx(printed, abs=tolerance)


def test_round_of_a_leader_pipe() -> None:
    """BC3 table 5: a 4 in leader pipe takes 12 1/2 in of tin; exact is 12.566, the table keeps halves."""
    assert figure(made(Cylinder(4 * INCH, INCH)), "round, length flat") / INCH == pytest.approx(12.5, abs=0.1)
