"""Bars and sheet as they are ordered: `3/8 sq`, `1 x 1/4`, `1 x 1/8 tube`, `16 ga`, `16 SWG`."""

import re

from bickern.measure.finding import Finding, note, stop, warn
from bickern.measure.units.lengths import length_in, sizes_in
from bickern.measure.units.text import plain_text, shown
from bickern.measure.units.words import INCH, GaugeSystem, GaugeWords, Read, SectionWords, Shape, System

_SHAPES: dict[str, Shape] = {
    **dict.fromkeys(("sq", "square"), Shape.SQUARE),
    **dict.fromkeys(("rd", "rnd", "round", "dia", "diameter"), Shape.ROUND),
    **dict.fromkeys(("flat", "strip"), Shape.FLAT),
    **dict.fromkeys(("hex", "hexagon"), Shape.HEXAGON),
    **dict.fromkeys(("oct", "octagon"), Shape.OCTAGON),
    **dict.fromkeys(("half rd", "half rnd", "half round"), Shape.HALF_ROUND),
    **dict.fromkeys(("tube", "rd tube", "round tube"), Shape.TUBE),
    **dict.fromkeys(("sq tube", "square tube", "box"), Shape.SQUARE_TUBE),
    "oval": Shape.OVAL,
    "point": Shape.POINT,
}
_SHAPE = re.compile(
    r"(?<![a-z])(half[ -](?:round|rnd|rd)|(?:square|sq|round|rd)\.? tube|tube|pipe|square|sq|round|rnd|rd|diameter|dia"
    r"|flat|strip|hexagon|hex|octagon|oct|oval|point|box)(?![a-z])\.?(?: (?:bar|stock))?"
)
_ROLLED = re.compile(r"(?<![a-z])(angle|channel|tee|beam|joist|rail)(?: (?:iron|bar|section))?(?![a-z])")
_COUNT = {
    Shape.SQUARE: 1, Shape.ROUND: 1, Shape.HEXAGON: 1, Shape.OCTAGON: 1, Shape.HALF_ROUND: 1,
    Shape.FLAT: 2, Shape.TUBE: 2, Shape.SQUARE_TUBE: 2, Shape.OVAL: 2, Shape.POINT: 0,
}  # fmt: skip
_WANTED = {
    0: "no size", 1: "one size, as `3/8 {shape}`", 2: "two sizes, as `1 x 1/4 {shape}`",
}  # fmt: skip
_NAMED_UNIT = re.compile(r"""[a-wyz"']""")
_GAUGES: dict[str, GaugeSystem | None] = {
    **dict.fromkeys(("ga", "gauge", "gage"), None),
    **dict.fromkeys(("us", "uss", "msg"), GaugeSystem.US),
    **dict.fromkeys(("galvanised", "galvanized", "galv"), GaugeSystem.GALVANISED),
    "swg": GaugeSystem.SWG,
    "bwg": GaugeSystem.BWG,
    **dict.fromkeys(("awg", "b&s"), GaugeSystem.AWG),
}
_PIECE = re.compile(r"[a-z][a-z&]*|[0-9]+|[^a-z0-9 ]+")
_NOUGHTS = re.compile(r"(?<![0-9/])([2-7])/0(?![0-9/])")
_DIGITS = re.compile(r"[0-9]{1,9}")
_MOST_NOUGHTS = 7
BIGGEST_BAR = 3 * INCH
"""A bare inch size above this is asked about: a bar 10 in thick is nearly always 10 mm."""
GAUGE_LEAST, GAUGE_MOST = 4, 40
"""A bare whole number from here to there is asked about where sheet is wanted: 16 is nearly always 16 gauge.

Plate of 3 in and less is sold, and numbers above 40 are no gauge of any table.
"""
THICKEST_BENT = INCH / 2
"""Metres: plate above this is not bent cold in a small shop, and not called sheet."""


def read_section(text: object, system: System | None, *, as_lies: bool = False) -> Read[SectionWords]:
    """A bar's section. `?` leaves a size open.

    Flats and ovals: the greater size is the width; where it matters how the bar lies (`as_lies`), the first one is.
    """
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    shape, rest, fault = _shape_in(plain.value)
    if fault is not None:
        return Read(None, (fault,))
    if shape is Shape.POINT:
        return _point(plain.value, rest)
    gauge = _gauge_fault(plain.value)
    if gauge is not None:
        return Read(None, (gauge,))
    if not rest:
        return Read(None, (stop("no-size", f"{shown(text)} gives no size.", "Write the size before the shape."),))
    return _sized(shape, rest, plain.value, system, as_lies)


def _shape_in(text: str) -> tuple[Shape | None, str, Finding | None]:
    """The shape named anywhere in the text (`1 tube x 1/8`), and the text without it."""
    words = {m.group(1).replace("-", " ").replace(".", "") for m in _SHAPE.finditer(text)}
    rest = " ".join(_SHAPE.sub(" ", text).split())
    if "pipe" in words:
        says = "pipe is sold by a name, not by a size: 1/2 pipe measures 0.84 in outside."
        return None, rest, stop("pipe-size", f"{shown(text)}: {says}", "Measure it: `outside x wall tube`.")
    if rolled := _ROLLED.search(text):
        says = f"{shown(text)}: {rolled[1]} is not known here, only squares, rounds, flats, hexagons, ovals and tubes."
        return None, rest, stop("rolled-section", says, "Weigh a length of it, or reckon its legs as two flats.")
    shapes = {_SHAPES[w] for w in words}
    if len(shapes) > 1:
        named = ", ".join(sorted(words))
        return None, rest, stop("two-shapes", f"{shown(text)} names more than one shape: {named}.", "Name one.")
    return (shapes.pop() if shapes else None), rest, None


def _point(text: str, rest: str) -> Read[SectionWords]:
    if rest:
        says = f"{shown(text)}: a point has no size."
        return Read(None, (stop("sized-point", says, "Write `point`, or the end's size as `1/16 rd`."),))
    return Read(SectionWords(Shape.POINT, ()))


def _sized(shape: Shape | None, rest: str, text: str, system: System | None, as_lies: bool) -> Read[SectionWords]:
    sizes = sizes_in(rest, system, open_allowed=True)
    if sizes.value is None:
        return Read(None, sizes.findings)
    words = _words(shape, sizes.value, text, as_lies)
    bare = None if _NAMED_UNIT.search(rest) else _unit_slip(sizes.value, text, system)
    findings = (*sizes.findings, *words.findings, *((bare,) if bare else ()))
    return Read(None if any(f.stops for f in findings) else words.value, findings)


def _words(shape: Shape | None, sizes: tuple[float | None, ...], text: str, as_lies: bool) -> Read[SectionWords]:
    if shape is None and len(sizes) == 1:
        says = f"{shown(text)} does not say what shape the bar is."
        return Read(None, (stop("no-shape", says, f"Write `{text} sq`, `{text} rd` or two sizes for a flat."),))
    shape = shape or Shape.FLAT
    count = _COUNT[shape]
    if count == 1 and len(sizes) == 2 and sizes[0] == sizes[1]:
        sizes = sizes[:1]
    if len(sizes) != count:
        says = f"{shown(text)}: {shape} takes {_WANTED[count].format(shape=shape)}, here are {len(sizes)}."
        return Read(None, (stop("sizes-for-shape", says, "Write the sizes that the shape takes."),))
    if sum(s == 0 for s in sizes) > (1 if shape is Shape.FLAT else 0):
        return Read(None, (stop("zero-size", f"{shown(text)} has a size of nothing.", "Write a size above 0."),))
    return Read(_in_order(shape, sizes, as_lies))


def _in_order(shape: Shape, sizes: tuple[float | None, ...], as_lies: bool) -> SectionWords:
    """Flats and ovals with the greater size first unless they stay as told; a flat of two equal sizes is a square."""
    if shape not in (Shape.FLAT, Shape.OVAL) or sizes[0] is None or sizes[1] is None:
        return SectionWords(shape, sizes)
    if shape is Shape.FLAT and sizes[0] == sizes[1]:
        return SectionWords(Shape.SQUARE, sizes[:1])
    return SectionWords(shape, sizes if as_lies else (max(sizes[0], sizes[1]), min(sizes[0], sizes[1])))


def _unit_slip(sizes: tuple[float | None, ...], text: str, system: System | None) -> Finding | None:
    known = [s for s in sizes if s]
    if system is System.INCH and known and min(known) > BIGGEST_BAR:
        says = f"{shown(text)} would be {min(known) / INCH:g} inches thick: that looks like millimetres."
        return stop("looks-like-mm", says, "Write `mm` or `in` behind the size.")
    if system is System.MM and known and max(known) < 0.001:
        says = f"{shown(text)} would be under a millimetre: that looks like inches."
        return warn("looks-like-inches", says, "Write `mm` or `in` behind the size.")
    return None


def _gauge_fault(text: str) -> Finding | None:
    if not _is_gauge(text):
        return None
    says = f"{shown(text)} gives a gauge number inside a bar's section."
    return stop("gauge-in-section", says, "Write the thickness itself, as `1 x 1/16` or `25 x 1.5 mm`.")


def read_thickness(text: object, system: System | None, *, bent: bool = False) -> Read[float | GaugeWords]:
    """The thickness of sheet: a length in metres, or gauge words that `iron.gauge` turns into one.

    `bent`: what is asked for is bent, so a bare number of millimetres above what bends may be a gauge, too.
    """
    plain = plain_text(text)
    if plain.value is None:
        return Read(None, plain.findings)
    if _is_gauge(plain.value):
        return _gauge(plain.value)
    length = length_in(plain.value, system)
    if length.value is None or _NAMED_UNIT.search(plain.value):
        return Read(length.value, length.findings)
    slip = _gauge_slip(plain.value, length.value, system, bent)
    thick = _thick_slip(plain.value, length.value, system) if bent and not slip else None
    found = tuple(f for f in (*length.findings, slip, thick) if f)
    return Read(None if slip else length.value, found)


def _thick_slip(text: str, metres: float, system: System | None) -> Finding | None:
    if metres <= THICKEST_BENT * (1 + 1e-9):
        return None
    unit = "mm" if system is System.MM else "in"
    says = f"{shown(text)} is read as {text} {unit}: plate so thick is not bent cold in a small shop."
    return warn("thick-for-sheet", says, f"Write `{text} {unit}` to be sure, or the gauge as `16 ga`.")


def _gauge_slip(text: str, metres: float, system: System | None, bent: bool) -> Finding | None:
    """`16` where sheet is wanted: 16 inches is none, and 16 mm is plate that is weighed and not bent."""
    if not (_DIGITS.fullmatch(text) and GAUGE_LEAST <= int(text) <= GAUGE_MOST):
        return None
    if system is System.MM and not (bent and metres > THICKEST_BENT):
        return None
    unit = "mm" if system is System.MM else "inches"
    says = f"{shown(text)} would be sheet {int(text)} {unit} thick: that looks like a gauge."
    return stop("looks-like-gauge", says, f"Did you mean `{int(text)} ga`? Else write `{int(text)} {system or 'in'}`.")


def _is_gauge(text: str) -> bool:
    return any(word in _GAUGES for word in _PIECE.findall(text))


def _gauge(text: str) -> Read[float | GaugeWords]:
    pieces = _PIECE.findall(_NOUGHTS.sub(lambda found: "0" * int(found[1]), text))
    numbers = [p for p in pieces if _DIGITS.fullmatch(p)]
    systems = {_GAUGES[p] for p in pieces if p in _GAUGES} - {None}
    strange = [p for p in pieces if p not in numbers and p not in _GAUGES and p not in ("sheet", "#", "no", ".")]
    if len(numbers) != 1 or not _is_number(numbers[0]) or strange or len(systems) > 1:
        says = f"{shown(text)} cannot be read as one gauge number and one system."
        return Read(None, (stop("not-a-gauge", says, "Write `16 ga`, `16 SWG` or the thickness itself."),))
    words = GaugeWords(int(numbers[0]) or 1 - len(numbers[0]), systems.pop() if systems else None)
    if words.system is not None:
        return Read(words)
    says = f"{shown(text)} names no gauge system: the shop's own is taken (US unless the shop file says otherwise)."
    return Read(words, (note("gauge-system-not-named", says, "Write `16 US ga` or `16 SWG` to be sure."),))


def _is_number(digits: str) -> bool:
    """`16`, `0`, or `0000`, which is also written 4/0."""
    return len(digits) <= 2 or (int(digits) == 0 and len(digits) <= _MOST_NOUGHTS)
