"""What is printed: SI floats in the shop's own way, in the shop's system first and the other beside it.

Lengths round half up to the step of the shop's tape. A length that the step would change by more than an eighth of
itself takes the next finer step, so that no small size is printed as something else, and none but true nothing as 0.
What is printed without a decimal comma can be read back (`read_length(say_length(x))` is x for every x on the step).
"""

import math
from collections.abc import Callable, Iterable
from dataclasses import replace

from bickern.measure.units.scales import IMPERIAL_GALLON
from bickern.measure.units.words import FOOT, INCH, MILLIMETRE, POUND, ZERO_C, Shape, Style, System

NOTHING = 1e-9
"""Metres: below a nanometre a length is rounding dust of the reckoning and is printed as 0."""
FLUID_OUNCE = 231 * INCH**3 / 128
"""Cubic metres in a US fluid ounce: the US gallon is 231 cubic inches, exact."""
IN_FEET = 6 * FOOT
"""From here on a length is told in feet as well, where that is wanted: most tapes are marked so."""
_SAFE = 1e-9
_COARSE = 0.125
_FINER_INCH = (16, 32, 64)
_FINER_MM = (0.5, 0.1, 0.01)


def say_length(m: float, style: Style, *, fit: bool = False, unit: bool = True) -> str:
    """`3 1/4 in` or `82.5 mm`: a length [m] in the shop's first system; fits to 64ths with thousandths, or 0.1 mm."""
    return _in_system(m, style, style.first, fit, unit, _nearest)


def say_both(m: float, style: Style, *, fit: bool = False) -> str:
    """`3 1/4 in (82.5 mm)`; a fit is `17/32 in (.531) / 13.5 mm`. Each system is rounded from the true length."""
    return _pair(m, style, fit, _nearest)


def say_up(m: float, style: Style) -> str:
    """The next mark of the tape at or above a length [m]: what to cut."""
    return _in_system(m, style, style.first, False, True, _upward)


def say_up_both(m: float, style: Style) -> str:
    """What to cut, in both systems, each rounded up from the true length [m]."""
    return _pair(m, style, False, _upward)


def say_down_both(m: float, style: Style) -> str:
    """The most that a fit may be, in both systems, each rounded down from the true length [m]."""
    return _pair(m, style, True, _downward)


def up_to_step(m: float, style: Style) -> float:
    """The length [m] of the next mark of the shop's tape at or above `m`."""
    step = INCH / style.inch_denominator if style.first is System.INCH else style.mm_step * MILLIMETRE
    return _upward(m / step) * step


def _pair(m: float, style: Style, fit: bool, way: "Callable[[float], int]") -> str:
    other = System.MM if style.first is System.INCH else System.INCH
    first, second = (_in_system(m, style, s, fit, True, way) for s in (style.first, other))
    return f"{first} / {second}" if fit else f"{first} ({second})"


def _in_system(m: float, style: Style, system: System, fit: bool, unit: bool, way: "Callable[[float], int]") -> str:
    sign, size = ("-" if m < -NOTHING else ""), abs(m)
    way = _nearest if m < 0 else way
    if size < NOTHING:
        text = "0"
    elif system is System.INCH:
        text = _inch_text(size / INCH, style, fit, way)
    else:
        text = _mm_text(size / MILLIMETRE, style, fit, way)
    tail = f" {system}" if unit else ""
    if system is not System.INCH or size < NOTHING:
        return f"{sign}{text}{tail}"
    thousandths = f" ({sign}{_thousandths(size / INCH, way)})" if fit else ""
    in_feet = style.feet and unit and style.first is System.INCH and size >= IN_FEET - NOTHING
    return f"{sign}{text}{tail}{thousandths}{f' = {sign}{_feet(size, style, fit, way)}' if in_feet else ''}"


def _feet(m: float, style: Style, fit: bool, way: "Callable[[float], int]") -> str:
    """`35 ft 1 21/64 in`: whole feet, and the marks of the tape past them."""
    denominator = style.fit_denominator if fit else style.inch_denominator
    feet, marks = divmod(way(m / INCH * denominator), 12 * denominator)
    return f"{feet} ft {_fraction(marks, denominator)} in" if marks else f"{feet} ft"


def _inch_text(inches: float, style: Style, fit: bool, way: "Callable[[float], int]") -> str:
    coarsest = style.fit_denominator if fit else style.inch_denominator
    for denominator in (coarsest, *(d for d in _FINER_INCH if d > coarsest)):
        marks = way(inches * denominator)
        if _is_true(way, marks) or _near_enough(marks / denominator, inches):
            return _fraction(marks, denominator)
    return _significant(inches, 2)


def _mm_text(mm: float, style: Style, fit: bool, way: "Callable[[float], int]") -> str:
    coarsest = style.fit_mm_step if fit else style.mm_step
    for step in (coarsest, *(s for s in _FINER_MM if s < coarsest)):
        marks = way(mm / step)
        if _is_true(way, marks) or _near_enough(marks * step, mm):
            return _decimal(marks * step, _places(step), style.comma)
    return _significant(mm, 2, style.comma)


def _is_true(way: "Callable[[float], int]", marks: int) -> bool:
    """Whether a mark is kept however coarse it is: upward always, downward where it is not nothing."""
    return way is _upward or (way is _downward and marks > 0)


def _near_enough(printed: float, true: float) -> bool:
    return abs(printed - true) <= _COARSE * true


def _nearest(marks: float) -> int:
    return math.floor(marks + 0.5 + _SAFE)


def _upward(marks: float) -> int:
    return math.ceil(marks - _SAFE * max(1.0, abs(marks)))


def _downward(marks: float) -> int:
    return math.floor(marks + _SAFE * max(1.0, abs(marks)))


def _fraction(marks: int, denominator: int) -> str:
    """`3 1/4` from 52 sixteenths."""
    whole, top = divmod(marks, denominator)
    if top == 0:
        return str(whole)
    shared = math.gcd(top, denominator)
    part = f"{top // shared}/{denominator // shared}"
    return f"{whole} {part}" if whole else part


def _thousandths(inches: float, way: "Callable[[float], int]") -> str:
    """`.531`, `1.063`, as a micrometer is read."""
    return f"{way(inches * 1000) / 1000:.3f}".removeprefix("0")


def _decimal(value: float, places: int, comma: bool = False) -> str:
    """Rounded half up, no idle noughts behind the point."""
    scale = 10**places
    text = f"{math.copysign(math.floor(abs(value) * scale + 0.5 + _SAFE) / scale, value):.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text == "-0" else text
    return text.replace(".", ",") if comma else text


def _places(step: float) -> int:
    return max(0, -math.floor(math.log10(step) + _SAFE))


def _significant(value: float, figures: int, comma: bool = False) -> str:
    places = figures - 1 - math.floor(math.log10(abs(value))) if value else 0
    return _decimal(value, max(0, places), comma)


def say_section(shape: Shape, sizes: Iterable[float | None], style: Style, *, unit: bool = True) -> str:
    """`3/8 in sq`, `1 x 1/4 in`, `25 x 6 mm`, `8 mm rd`, `1 x 1/8 in tube`, `point`; an open size is `?`.

    A bar keeps its own system: 8 mm round is no 5/16, so sizes that only the other system has a mark for stay there.
    """
    held = tuple(sizes)
    own = _own_system(held, style)
    return _section(shape, held, style, own, unit or own is not style.first)


def say_section_both(shape: Shape, sizes: Iterable[float | None], style: Style) -> str:
    """`3/8 in sq (9.5 mm)`: the section in its own system, the other system's sizes beside it."""
    held = tuple(sizes)
    own = _own_system(held, style)
    other = System.MM if own is System.INCH else System.INCH
    if not held:
        return str(shape)
    return f"{_section(shape, held, style, own, True)} ({_sizes(held, style, other)} {other})"


def _own_system(sizes: tuple[float | None, ...], style: Style) -> System:
    steps = {System.INCH: INCH / style.fit_denominator, System.MM: style.fit_mm_step * MILLIMETRE}
    on_mark = {
        system: all(abs(s / step - round(s / step)) < 1e-6 for s in sizes if s is not None)
        for system, step in steps.items()
    }
    other = System.MM if style.first is System.INCH else System.INCH
    return other if on_mark[other] and not on_mark[style.first] else style.first


def _section(shape: Shape, sizes: tuple[float | None, ...], style: Style, system: System, unit: bool) -> str:
    if not sizes:
        return str(shape)
    name = "" if shape is Shape.FLAT else f" {shape}"
    return f"{_sizes(sizes, style, system)}{f' {system}' if unit else ''}{name}"


def _sizes(sizes: tuple[float | None, ...], style: Style, system: System) -> str:
    """Bars are printed to the fine step: 3/32 is a size of bar, and a reduced fraction costs nothing."""
    fine = Style(style.first, style.fit_denominator, style.fit_mm_step, comma=style.comma)
    return " x ".join("?" if s is None else _in_system(s, fine, system, False, False, _nearest) for s in sizes)


def say_angle(rad: float, style: Style | None = None) -> str:
    """Degrees to a tenth: `178.6°`, `90°`."""
    return f"{_decimal(math.degrees(rad), 1, _comma(style))}°"


def say_turns(turns: float, style: Style | None = None) -> str:
    """`1 1/2 turns`, `1/4 turn`; turns that are no eighth are a decimal."""
    eighths = _nearest(abs(turns) * 8)
    exact = abs(eighths / 8 - abs(turns)) < 1e-6
    sign = "-" if turns < 0 else ""
    text = sign + _fraction(eighths, 8) if exact and eighths else _decimal(turns, 2, _comma(style))
    return f"{text} {'turn' if abs(turns) <= 1 + 1e-6 and eighths else 'turns'}"


def say_percent(share: float, style: Style | None = None) -> str:
    """A share as `2.5 %`; shares under a thousandth keep two figures."""
    percent = share * 100
    small = 0 < abs(percent) < 0.1
    return f"{_significant(percent, 2, _comma(style)) if small else _decimal(percent, 1, _comma(style))} %"


def say_mass(kg: float, style: Style) -> str:
    """`8 1/2 oz`, `1 lb 8 oz`, `25 lb`; `240 g`, `1.36 kg`."""
    return _pounds(kg) if style.first is System.INCH else _kilograms(kg, style.comma)


def say_mass_both(kg: float, style: Style) -> str:
    """A mass in both systems, the shop's first: `1 lb 8 oz (0.68 kg)` is printed `1 lb 8 oz (680 g)`."""
    pounds, kilos = _pounds(kg), _kilograms(kg, style.comma)
    return f"{pounds} ({kilos})" if style.first is System.INCH else f"{kilos} ({pounds})"


def _pounds(kg: float) -> str:
    halves = _nearest(kg / POUND * 32)
    if halves < 32:
        return f"{_fraction(halves, 2)} oz" if halves or kg == 0 else f"{_significant(kg / POUND * 16, 2)} oz"
    if kg >= 20 * POUND:
        return f"{_nearest(kg / POUND)} lb"
    pounds, ounces = divmod(_nearest(kg / POUND * 16), 16)
    return f"{pounds} lb {ounces} oz" if ounces else f"{pounds} lb"


def _kilograms(kg: float, comma: bool) -> str:
    if kg >= 1:
        return f"{_decimal(kg, 2 if kg < 10 else 1, comma)} kg"
    grams = kg * 1000
    return f"{_decimal(grams, 0, comma) if grams >= 10 or grams == 0 else _significant(grams, 2, comma)} g"


def say_area(m2: float, style: Style) -> str:
    """Sheet: `12.4 sq in`, `3.2 sq ft`; `80 sq cm`, `0.3 sq m`, three figures."""
    if style.first is System.INCH:
        inner, outer, limit = INCH**2, FOOT**2, FOOT**2
        names = ("sq in", "sq ft")
    else:
        inner, outer, limit = 1e-4, 1.0, 0.1
        names = ("sq cm", "sq m")
    small = m2 < limit
    return f"{_significant(m2 / (inner if small else outer), 3, style.comma)} {names[0 if small else 1]}"


def say_box(wide: float, high: float, style: Style) -> str:
    """Two sizes [m] in both systems: `48 x 24 in (1219 x 609.5 mm)`."""
    one, two = (
        f"{say_length(wide, way, unit=False)} x {say_length(high, way, unit=False)} {way.first}"
        for way in (style, other_first(style))
    )
    return f"{one} ({two})"


def say_area_both(m2: float, style: Style) -> str:
    """An area in both systems, the shop's first."""
    return f"{say_area(m2, style)} ({say_area(m2, other_first(style))})"


def say_volume(m3: float, style: Style) -> str:
    """What a bowl holds: `4.9 US fl oz` or `145 ml`; a gallon or a litre and more in those."""
    if style.first is System.INCH and style.imperial:
        return _imperial(m3, style.comma)
    if style.first is System.INCH:
        gallons = m3 / (128 * FLUID_OUNCE)
        if gallons >= 1.0:
            return f"{_significant(gallons, 3, style.comma)} US gal"
        return f"{_significant(m3 / FLUID_OUNCE, 2, style.comma)} US fl oz"
    litres = m3 * 1e3
    return (
        f"{_significant(litres, 3, style.comma)} l" if litres >= 1.0 else f"{_significant(m3 * 1e6, 3, style.comma)} ml"
    )


def _imperial(m3: float, comma: bool) -> str:
    """`12 UK fl oz`, `3.2 UK pints`, `1.5 UK gal`: 160 fluid ounces, 8 pints in a gallon."""
    for name, size, least, figures in (("gal", 1, 1, 3), ("pints", 8, 1, 2), ("fl oz", 160, 0, 2)):
        number = m3 / IMPERIAL_GALLON * size
        if number >= least:
            return f"{_significant(number, figures, comma)} UK {name}"
    return "0 UK fl oz"


def say_volume_both(m3: float, style: Style) -> str:
    """A volume in both systems, the shop's first."""
    return f"{say_volume(m3, style)} ({say_volume(m3, other_first(style))})"


def say_temperature(kelvin: float, style: Style) -> str:
    """`2100 °F (1150 °C)`, both to the nearest 5 degrees of its own scale: no colour is sharper."""
    celsius = _nearest((kelvin - ZERO_C) / 5) * 5
    fahrenheit = _nearest((kelvin * 1.8 - 459.67) / 5) * 5
    first, second = f"{celsius} °C", f"{fahrenheit} °F"
    return f"{second} ({first})" if style.first is System.INCH else f"{first} ({second})"


def say_decimal(value: float, places: int, style: Style | None = None) -> str:
    """A plain number rounded half up to `places`, without idle noughts, with the shop's decimal mark."""
    return _decimal(value, places, _comma(style))


def other_first(style: Style) -> Style:
    """The same shop with the other system in front."""
    return replace(style, first=System.MM if style.first is System.INCH else System.INCH)


def _comma(style: Style | None) -> bool:
    return style is not None and style.comma
