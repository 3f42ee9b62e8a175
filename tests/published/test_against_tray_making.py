"""Against Rectangular Tray Making, workshop manual of an Indian college (scribd.com 578606676).

Kind: course. Read in the source, in a copy. A tray of galvanised sheet with hems of 10 mm on the ends and 5 mm on the
sides. Layout lines are to a millimetre, the thickness is left out (33 gauge, about 0.2 mm).
"""

from shelf import Printed, book, quick_answer

TRAY = "pan '120 mm' '80 mm' '30 mm' --sheet '0.2 mm' --sizes inside"


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


def hemmed(way: str, hem: int) -> float:
    """The tray laid flat [m] with a hem on both edges."""
    return of(TRAY, way) + 2 * of(f"edge hem '{hem} mm'", "added")


@book("tray_making", by="long")
def test_long(row: Printed) -> None:
    row.holds(hemmed("flat, front to back", 10))


@book("tray_making", by="wide")
def test_wide(row: Printed) -> None:
    row.holds(hemmed("flat, left to right", 5))
