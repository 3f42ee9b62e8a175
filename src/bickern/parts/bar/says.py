"""Lengths and bars inside the words of a finding, always in both systems."""

from math import ceil, sqrt

from bickern.iron.section import Section
from bickern.measure.units.say import say_both, say_section_both
from bickern.measure.units.words import INCH, Shape, Style
from bickern.parts.bar.tracks import PathLeg, StraightLeg

_STYLE = Style()
_WALLED = (Shape.TUBE, Shape.SQUARE_TUBE)
_TWO_SIZES = (Shape.FLAT, Shape.OVAL)
_ORDER = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def both(length: float) -> str:
    """A length [m] in inches and millimetres."""
    return say_both(length, _STYLE)


def bar(section: Section) -> str:
    """A section as it is called in the rack, in both systems."""
    if section.shape in _WALLED:
        sizes: tuple[float, ...] = (section.width, section.wall)
    elif section.shape in _TWO_SIZES:
        sizes = (section.width, section.thick)
    else:
        sizes = (section.width,)
    return say_section_both(section.shape, sizes, _STYLE)


def thicker(section: Section, times_area: float) -> str:
    """The next bar of this shape, in steps of 1/16 in, that holds `times_area` times the metal."""
    grown = section.width * sqrt(times_area)
    size = ceil(round(grown / INCH * 16, 6)) * INCH / 16
    share = size / section.width
    wall = section.wall * share
    return bar(Section(section.shape, size, section.thick * share, wall))


def called(name: str, otherwise: str) -> str:
    """A name in quotes, or what to call a thing that has none."""
    return f'"{name}"' if name else otherwise


def leg_words(leg: PathLeg) -> str:
    """What a smith calls a leg of the path."""
    return called(leg.name, f"the {type(leg).__name__.removesuffix('Leg').lower()}")


def leg_called(path: tuple[PathLeg, ...], index: int) -> str:
    """A leg by its name, else by what stands beside it: `the straight after the second bend`."""
    leg = path[index]
    if leg.name or not isinstance(leg, StraightLeg):
        return leg_words(leg) if leg.name else counted(path, index)
    if len(path) == 1:
        return "the bar"
    before = path[index - 1] if index else None
    after = path[index + 1] if index + 1 < len(path) else None
    if before is not None and (before.name or not isinstance(before, StraightLeg)):
        return f"the straight after {leg_called(path, index - 1)}"
    if after is not None and after.name:
        return f"the straight before {leg_words(after)}"
    return counted(path, index)


def counted(path: tuple[PathLeg, ...], index: int) -> str:
    """A leg by its place among those of its kind: `the second bend`, or `the eye` where there is one alone."""
    leg = path[index]
    alike = [i for i, other in enumerate(path) if type(other) is type(leg)]
    if len(alike) == 1 and (index or not isinstance(leg, StraightLeg)):
        return leg_words(leg)
    number = alike.index(index) + 1
    which = _ORDER[number - 1] if number <= len(_ORDER) else f"{number}"
    what = type(leg).__name__.removesuffix("Leg").lower()
    return f"the {which} {what}" if number <= len(_ORDER) else f"{what} {which}"
