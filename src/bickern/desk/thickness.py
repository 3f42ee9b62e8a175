"""How thick a sheet is, in words: finer than a tape, in both systems."""

from bickern.measure.units.say import say_decimal
from bickern.measure.units.words import INCH, MILLIMETRE, Style, System


def said_thickness(t: float, style: Style) -> str:
    """A thickness of sheet [m] as a micrometer reads it: `0.0598 in (1.52 mm)`."""
    inches, mm = f"{say_decimal(t / INCH, 4, style)} in", f"{say_decimal(t / MILLIMETRE, 2, style)} mm"
    return f"{inches} ({mm})" if style.first is System.INCH else f"{mm} ({inches})"
