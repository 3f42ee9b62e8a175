"""What a bar is, and how thick a sheet is, in words of both systems; sheet finer than a tape reads."""

from bickern.iron.section import Section, words_of
from bickern.measure.units.say import say_decimal, say_section_both
from bickern.measure.units.words import INCH, MILLIMETRE, Style, System


def said_thickness(t: float, style: Style) -> str:
    """A thickness of sheet [m] as a micrometer reads it: `0.0598 in (1.52 mm)`."""
    inches, mm = f"{say_decimal(t / INCH, 4, style)} in", f"{say_decimal(t / MILLIMETRE, 2, style)} mm"
    return f"{inches} ({mm})" if style.first is System.INCH else f"{mm} ({inches})"


def said_section(section: Section, style: Style) -> str:
    """A section in the shop's own words, with the other system behind it."""
    words = words_of(section)
    return say_section_both(words.shape, words.sizes, style)
