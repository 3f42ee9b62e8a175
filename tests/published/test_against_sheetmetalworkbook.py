"""Against SheetMetalWorkBook.com, 6th ed., 2012, 90 Degree Bends and Neutral Line Theory.

Kind: lesson page. Read in the source. Its allowance is 0.0078 T + 0.01743 R a degree, which is a line at 0.4469 of the
thickness; each step is rounded to a thousandth. Elsewhere it puts 16 gauge cold-rolled steel at 43 %.
"""

from math import pi, radians

from shelf import Printed, book, quick_answer

from bickern.parts.sheet.allowances import FoldRule
from bickern.parts.sheet.bends import fold_length


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("sheetmetalworkbook")
def test_figure(row: Printed) -> None:
    row.holds()


@book("sheetmetalworkbook", by="two setbacks")
def test_two_setbacks(row: Printed) -> None:
    row.holds(2 * of("bend 0.050 90 0.032 --line 0.4469", "setback"))


@book("sheetmetalworkbook", by="four legs less three deductions")
def test_stretch_out(row: Printed) -> None:
    legs = (0.740 + 0.420 + 1.050 + 1.000) * 0.0254
    row.holds(legs - 3 * of("bend 0.050 90 0.032 --line 0.4469", "take off by the line"))


def test_sixteen_gauge_at_forty_three_hundredths() -> None:
    """The page "Neutral Line Theory": a bound, over the standard's 0.325 and the handbook's 0.41, under the middle."""
    printed = radians(90) * (0.0598 + 0.43 * 0.0598)
    soft = fold_length(0.0598, 0.0598, pi / 2, FoldRule.HANDBOOK_SOFT)
    assert soft <= printed <= fold_length(0.0598, 0.0598, pi / 2, FoldRule.MIDDLE)
    assert printed - soft < 0.05 * 0.0598
