"""How one section stands to another: the same bar, near enough to stand in, heavy enough to be drawn down, or none.

The limits here are choices of ours from common practice; the volume that follows from them is exact.
"""

from math import sqrt

from bickern.iron.section import Section, area
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.units.words import Shape
from bickern.parts.bar.says import bar, both

SAME = Known(5e-5, "m", COMMON_PRACTICE)
"""Two bars whose sizes differ by no more are one size: no mill rolls closer."""
SAME_GAUGE = Known(0.03, "1", COMMON_PRACTICE)
"""Sheets whose thickness differs by no more than this share are of one gauge: no mill rolls closer."""
NEAR = Known(0.08, "1", COMMON_PRACTICE)
"""A bar stands in for another of its shape whose sizes differ by no more than this share: 12 mm for 1/2 in, 10 mm for
3/8 in, 6 mm for 1/4 in (5 to 6 %); the next size of either row (12 %) does not."""
MOST_DRAWN = Known(9.0, "1", COMMON_PRACTICE)
"""Bar of more than so many times the section, three times as thick, is not drawn down to a length of it by hand."""
MOST_SPREAD = Known(1.5, "1", COMMON_PRACTICE)
"""A long stretch is not spread wider, nor driven thicker, than so many times what its bar measures."""
ON_EDGE = Known(3.0, "1", COMMON_PRACTICE)
"""Flat bar wider than so many thicknesses buckles when it is driven on its edge."""
ALMOST = Known(0.03, "1", COMMON_PRACTICE)
"""So small a share of the section that is missing shows as a size 1 1/2 % bare, and no more."""
DRAWN_TO = (Shape.SQUARE, Shape.ROUND, Shape.FLAT, Shape.OCTAGON, Shape.OVAL)
"""Shapes that hammer and anvil make of any solid bar; a hexagon or a half-round wants a swage of its size."""
HOLLOW = (Shape.TUBE, Shape.SQUARE_TUBE)
_ROUNDISH = (Shape.ROUND, Shape.HEXAGON, Shape.OCTAGON, Shape.OVAL, Shape.HALF_ROUND)


def turned_as(stock: Section, asked: Section) -> Section:
    """A flat from the rack, turned to lie as the asked one does: wide way up and down where that is told on edge."""
    flat = (Shape.FLAT, Shape.OVAL)
    if stock.shape not in flat or asked.shape not in flat:
        return stock
    wide, thin = max(stock.width, stock.thick), min(stock.width, stock.thick)
    upright = asked.thick > asked.width
    return Section(stock.shape, thin if upright else wide, wide if upright else thin, stock.wall, stock.fullness)


def same_bar(stock: Section, asked: Section) -> bool:
    """Whether both are one bar, as it lies."""
    return stock.shape is asked.shape and all(abs(a - b) <= SAME.value for a, b in _sizes(stock, asked))


def same_section(one: Section, other: Section) -> bool:
    """Whether two bars are of one section, as near as bars are rolled and however a flat lies."""
    return same_bar(turned_as(one, other), other)


def near_bar(stock: Section, asked: Section) -> bool:
    """Whether a bar of the same shape is near enough to stand in, as it lies."""
    return stock.shape is asked.shape and all(abs(a - b) <= NEAR.value * b + 1e-12 for a, b in _sizes(stock, asked))


def _sizes(stock: Section, asked: Section) -> tuple[tuple[float, float], ...]:
    return (stock.width, asked.width), (stock.thick, asked.thick), (stock.wall, asked.wall)


def same_gauge(thick: float, asked: float) -> bool:
    """Whether two thicknesses of sheet are of one gauge."""
    return abs(thick - asked) <= SAME_GAUGE.value * asked


def never(stock: Section, asked: Section) -> str:
    """Why no hammer makes the one from the other, by shape and weight alone; "" where it may."""
    if stock.shape in HOLLOW or asked.shape in HOLLOW:
        return "tube is neither forged down to another size nor made from solid bar"
    if area(stock) > MOST_DRAWN.value * area(asked) * (1 + 1e-9):
        return f"{_times(stock, asked)} times as heavy: nobody draws that down by hand"
    return ""


def _times(stock: Section, asked: Section) -> str:
    return f"{area(stock) / area(asked):.0f}"


def not_drawn(stock: Section, asked: Section) -> str:
    """Why a whole length of the asked section is not forged from such bar; "" where it is."""
    if (no := never(stock, asked)) or asked.shape not in DRAWN_TO:
        return no or f"a length of {asked.shape} is not forged without a swage of its size"
    if _grows(stock, asked):
        wide, thick = sqrt(area(asked) / area(stock)), bar(asked)
        return f"too thin: {thick} wants it {wide:.2f} times as thick all along" if wide > 1.0 else _not_so_wide(asked)
    return ""


def _not_so_wide(asked: Section) -> str:
    return f"it would have to be driven too far out of its shape to come to {bar(asked)}"


def _grows(stock: Section, asked: Section) -> bool:
    """Whether a side would have to grow further than it is driven, or there is less metal than is asked for."""
    (big, small), (wide, thin) = _sides(asked), _sides(stock)
    if area(stock) < area(asked) * (1 - ALMOST.value):
        return True
    if big > MOST_SPREAD.value * wide or small > MOST_SPREAD.value * thin:
        return True
    return small > thin * (1 + NEAR.value) and wide > ON_EDGE.value * thin


def _sides(section: Section) -> tuple[float, float]:
    return max(section.width, section.thick), min(section.width, section.thick)


def how_drawn(stock: Section, asked: Section) -> str:
    """The way from one section to the other, in words: of what is round, everything is set square first."""
    first = "set it square first" if stock.shape in _ROUNDISH else "draw it square"
    if _sides(asked)[1] > _sides(stock)[1] * (1 + NEAR.value):
        first = f"drive it on edge first, then flat, by turns, till it is {both(_sides(asked)[1])} thick"
        return first if asked.shape in (Shape.SQUARE, Shape.FLAT) else f"{first}; then eight sides, then round"
    if asked.shape in (Shape.ROUND, Shape.OVAL):
        return f"{first}, down to size by fours, then eight sides, then round"
    if asked.shape is Shape.SQUARE and stock.shape is Shape.SQUARE:
        return "draw it square all the way"
    return f"{first}, then draw it to {bar(asked)}" if stock.shape in _ROUNDISH else f"draw it to {bar(asked)}"
