"""Against Formulas, width of sheet for a jeweller's tube round a rod, gravbiz.ru.

Kind: trade page. Read in the source (Russian). The rule is (0.466 x thickness + radius of the rod) x 6.283. A remark
and the second example go by 0.446, so one of the two coefficients is misprinted. Left out: that example (0.841 with
0.466, which gives 0.844).
"""

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("gravbiz", by="tube, line at 0.466")
def test_metric_tube(row: Printed) -> None:
    """Round in four quarters."""
    row.holds(4 * of("bend '0.8 mm' 90 '3 mm' --line 0.466", "length by the line"))
