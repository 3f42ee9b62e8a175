"""The `d` of an SVG path as lines and arcs (SVG 1.1 / 2, section 9.3; arcs by appendix B.2 of SVG 2)."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from bickern.book.outline.loops import FLAT
from bickern.geometry.polygon import ArcSeg, Line, Point, Seg

Matrix = tuple[float, float, float, float, float, float]
_WANTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_TOKEN = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)|([\s,]+)")
LONGEST = 2_000_000
MOST = 20_000


class DrawingError(Exception):
    """A drawing that cannot be read; its text says why."""


def points_in(text: str) -> list[float]:
    """All numbers in an attribute."""
    found = [float(t.group(2)) for t in _TOKEN.finditer(text[:LONGEST]) if t.group(2)]
    if any(not math.isfinite(v) or abs(v) > 1e9 for v in found):
        raise DrawingError("a number in the drawing is too big")
    return found


@dataclass(slots=True)
class _Hand:
    """Where the drawing hand is, in the path's own numbers, and what it has drawn [m]."""

    matrix: Matrix
    here: complex = 0j
    start: complex = 0j
    control: complex = 0j
    last: str = ""
    segs: list[Seg] = field(default_factory=list)


def path_segs(text: str, matrix: Matrix) -> list[Seg]:
    """The lines and arcs of a path. Curves are drawn as straight pieces that stray at most 0.02 mm."""
    hand = _Hand(matrix)
    for letter, v in _commands(text):
        _draw(hand, letter, v)
        if len(hand.segs) > MOST:
            raise DrawingError("the path has too many pieces")
    return hand.segs


def _commands(text: str) -> Iterator[tuple[str, list[float]]]:
    """Letters with their numbers; a letter with more numbers than it wants is said again (M as L)."""
    if len(text) > LONGEST:
        raise DrawingError("the path is too long")
    letter, numbers, at = "", [], 0
    for token in [*_tokens(text), "end"]:
        if isinstance(token, float):
            numbers.append(token)
            continue
        if letter:
            yield from _said(letter, numbers)
        letter, numbers, at = token, [], at + 1
    if letter != "end":
        raise DrawingError("the path cannot be read")


def _tokens(text: str) -> Iterator[str | float]:
    at, letter, flags = 0, "", 0
    while at < len(text):
        if letter in ("A", "a") and flags % 7 in (3, 4) and text[at] in "01":
            # the two flags of an arc may be written without a blank between them
            yield float(text[at])
            at, flags = at + 1, flags + 1
            continue
        found = _TOKEN.match(text, at)
        if found is None:
            raise DrawingError(f"the path cannot be read at `{text[at : at + 10]}`")
        at = found.end()
        if found.group(1):
            letter, flags = found.group(1), 0
            yield letter
        elif found.group(2):
            value = float(found.group(2))
            if not math.isfinite(value) or abs(value) > 1e9:
                raise DrawingError("a number in the path is too big")
            flags += 1
            yield value


def _said(letter: str, numbers: list[float]) -> Iterator[tuple[str, list[float]]]:
    wants = _WANTS[letter.upper()]
    if wants == 0:
        if numbers:
            raise DrawingError("numbers behind Z in the path")
        yield letter, []
        return
    if not numbers or len(numbers) % wants:
        raise DrawingError(f"`{letter}` in the path wants {wants} numbers at a time")
    for i in range(0, len(numbers), wants):
        yield letter, numbers[i : i + wants]
        letter = {"M": "L", "m": "l"}.get(letter, letter)


def _draw(hand: _Hand, letter: str, v: list[float]) -> None:
    upper, base = letter.upper(), hand.here if letter.islower() else 0j
    if upper == "Z":
        _line(hand, hand.start)
    elif upper == "M":
        hand.here = hand.start = base + complex(v[0], v[1])
    elif upper in "LHV":
        to = complex(v[0], v[1]) if upper == "L" else complex(v[0], 0) if upper == "H" else complex(0, v[0])
        kept = (
            0j
            if letter.islower() or upper == "L"
            else complex(0, hand.here.imag)
            if upper == "H"
            else complex(hand.here.real, 0)
        )
        _line(hand, base + to + kept)
    elif upper == "A":
        _arc(hand, v, base + complex(v[5], v[6]))
    else:
        _curve(hand, upper, [base + complex(a, b) for a, b in zip(v[::2], v[1::2], strict=True)])
    hand.last = upper


def _at(m: Matrix, z: complex) -> Point:
    return m[0] * z.real + m[2] * z.imag + m[4], m[1] * z.real + m[3] * z.imag + m[5]


def _line(hand: _Hand, to: complex) -> None:
    a, b = _at(hand.matrix, hand.here), _at(hand.matrix, to)
    if math.dist(a, b) > 1e-9:
        hand.segs.append(Line(a, b))
    hand.here = to


def _curve(hand: _Hand, letter: str, p: list[complex]) -> None:
    """Cubic and quadratic curves, the smooth ones with their control point mirrored."""
    kin = "CS" if letter in "CS" else "QT"
    mirrored = 2 * hand.here - hand.control if hand.last and hand.last in kin else hand.here
    if letter in "ST":
        p = [mirrored, *p]
    hand.control = p[-2]
    if letter in "QT":
        p = [hand.here + (p[0] - hand.here) * 2 / 3, p[1] + (p[0] - p[1]) * 2 / 3, p[1]]
    ends = [hand.here, *p]
    bend = max(abs(ends[i] - 2 * ends[i + 1] + ends[i + 2]) for i in (0, 1)) * _size(hand.matrix)
    # a cubic strays from n chords by at most 3/4 of its second difference over n squared (mathematics)
    n = min(2000, max(1, math.ceil(math.sqrt(0.75 * bend / FLAT))))
    for i in range(1, n + 1):
        t = i / n
        _line(
            hand,
            (1 - t) ** 3 * ends[0] + 3 * (1 - t) ** 2 * t * ends[1] + 3 * (1 - t) * t**2 * ends[2] + t**3 * ends[3],
        )


def _size(m: Matrix) -> float:
    """The most that the matrix lengthens anything."""
    return math.sqrt(m[0] ** 2 + m[1] ** 2 + m[2] ** 2 + m[3] ** 2)


def _arc(hand: _Hand, v: list[float], to: complex) -> None:
    """An elliptical arc: a true arc where it stays round, else straight pieces."""
    rx, ry, tilt, large, clockwise = abs(v[0]), abs(v[1]), math.radians(v[2]), v[3] != 0, v[4] != 0
    if rx == 0 or ry == 0 or hand.here == to:
        _line(hand, to)
        return
    turn = complex(math.cos(tilt), math.sin(tilt))
    half = (hand.here - to) / 2 / turn
    grow = math.hypot(half.real / rx, half.imag / ry)
    rx, ry = rx * max(1.0, grow), ry * max(1.0, grow)
    x, y = half.real / rx, half.imag / ry
    reach = math.sqrt(max(0.0, 1 / max(x * x + y * y, 1e-300) - 1)) * (-1 if large == clockwise else 1)
    middle = complex(reach * y, -reach * x)
    first, last = math.atan2(y - middle.imag, x - middle.real), math.atan2(-y - middle.imag, -x - middle.real)
    sweep = (last - first) % (2 * math.pi)
    sweep = sweep if clockwise else sweep - 2 * math.pi
    centre = complex(middle.real * rx, middle.imag * ry) * turn + (hand.here + to) / 2
    m = hand.matrix
    if abs(rx - ry) < 1e-9 * rx and _keeps_round(m):
        _true_arc(hand, centre, rx, first + tilt, sweep)
    else:
        n = min(2000, max(4, math.ceil(abs(sweep) / (2 * math.acos(1 - min(0.5, FLAT / (max(rx, ry) * _size(m))))))))
        for i in range(1, n):
            a = first + sweep * i / n
            _line(hand, centre + complex(rx * math.cos(a), ry * math.sin(a)) * turn)
        _line(hand, to)
    hand.here = to


def _keeps_round(m: Matrix) -> bool:
    a, b = math.hypot(m[0], m[1]), math.hypot(m[2], m[3])
    return abs(a - b) < 1e-9 * a and abs(m[0] * m[2] + m[1] * m[3]) < 1e-9 * a * a


def _true_arc(hand: _Hand, centre: complex, radius: float, start: float, sweep: float) -> None:
    m = hand.matrix
    here = _at(m, centre)
    begin = _at(m, centre + radius * complex(math.cos(start), math.sin(start)))
    way = 1.0 if m[0] * m[3] - m[1] * m[2] > 0 else -1.0
    size = radius * math.hypot(m[0], m[1])
    hand.segs.append(ArcSeg(here, size, math.atan2(begin[1] - here[1], begin[0] - here[0]), way * sweep))
