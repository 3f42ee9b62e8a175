"""Figures that somebody printed, held against what is reckoned here: a book's examples as rows of a CSV file.

A row says what to ask (as behind `bickern ask`), which figure of the answer is meant, what the book prints, and in
which unit. The other columns may be left out: how far off the print may be, where it stands, how it is known.
"""

import csv
import io
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import isfinite, pi
from pathlib import Path

from bickern.desk.answer import Answer
from bickern.measure.figure import Figure
from bickern.measure.finding import NOWHERE, Finding, Where, stop
from bickern.measure.units.numbers import number_in
from bickern.measure.units.say import say_decimal
from bickern.measure.units.scales import SCALES, Scale
from bickern.measure.units.words import INCH, POUND, Read

NEEDED = ("ask", "answer", "printed", "unit")
"""Columns that a book of figures must have."""
OTHERS = ("topic", "within", "where", "known", "pi", "right", "note")
"""Columns that it may have."""
HAIR = 1e-9
"""Share by which a bound is widened: decimals have no exact binary fractions."""


@dataclass(frozen=True, slots=True)
class Printed:
    """One printed figure.

    `least`, `most`: what the true figure may be, in the printed unit; an allowance in the print widens one side.
    `pi` is the one that the book takes. `right` is what a misprint should say (None: no misprint). `place` is the
    row's own line.
    """

    ask: str
    answer: str
    printed: str
    unit: str
    least: float
    most: float
    topic: str = ""
    where: str = ""
    known: str = ""
    pi: float = pi
    right: float | None = None
    note: str = ""
    place: Where = NOWHERE
    bound: bool = False

    @property
    def value(self) -> float:
        """The figure as printed, in its unit."""
        return _number(self.printed)

    @property
    def scale(self) -> Scale:
        """Its unit."""
        return SCALES[self.unit]


@dataclass(frozen=True, slots=True)
class Held:
    """A printed figure beside ours, in the unit printed; `off` is the share by which the print differs."""

    row: Printed
    ours: float

    @property
    def off(self) -> float:
        """How far the print is from ours, as a share of ours (absolute where ours is nothing)."""
        aim = self.row.value if self.row.right is None else self.row.right
        return (aim - self.ours) / (abs(self.ours) or 1.0)

    @property
    def fits(self) -> bool:
        """Whether ours lies where the print and its rounding say; a misprint must also be clearly not ours."""
        wide = HAIR * max(abs(self.row.least), abs(self.row.most))
        inside = self.row.least - wide <= self.ours <= self.row.most + wide
        if self.row.right is None:
            return inside
        return inside and abs(self.ours - self.row.value) > _CLEARLY * (self.row.most - self.row.least) / 2


_CLEARLY = 3.0
"""A misprint is one where it is off by more than this many times what rounding allows."""


def read_book(path: Path) -> tuple[tuple[Printed, ...], tuple[Finding, ...]]:
    """The rows of a book of figures from its file, and what cannot be read."""
    from bickern.book.files import read_file

    found = read_file(path)
    if isinstance(found, Finding):
        return (), (found,)
    try:
        return read_printed(found.decode("utf-8"), path.name)
    except (UnicodeDecodeError, csv.Error) as fault:
        says = f"This is no CSV file of plain text ({fault})."
        return (), (stop("no-csv", says, "Save it as CSV, UTF-8, with commas.", Where(path.name)),)


def read_printed(text: str, file: str) -> tuple[tuple[Printed, ...], tuple[Finding, ...]]:
    """The rows of a book of figures, and what cannot be read."""
    reader = csv.DictReader(io.StringIO(text.removeprefix("\ufeff")), skipinitialspace=True)
    missing = [c for c in NEEDED if c not in (reader.fieldnames or ())]
    if missing:
        says = f"The columns {', '.join(missing)} are missing."
        known = f"Its first line names them: {', '.join(NEEDED)}; it may also have {', '.join(OTHERS)}."
        return (), (stop("columns-missing", says, known, Where(file, 1)),)
    reads = [_row(_plain(cells), Where(file, reader.line_num)) for cells in reader]
    return tuple(r.value for r in reads if r.value is not None), tuple(f for r in reads for f in r.findings)


def _plain(cells: dict[str | None, str | list[str] | None]) -> dict[str, str]:
    """Cells by column; what stands beyond the last column is left out."""
    return {k: v.strip() if isinstance(v, str) else "" for k, v in cells.items() if k}


def _row(cells: dict[str, str], place: Where) -> Read[Printed]:
    if cells["unit"] not in SCALES:
        says = f"“{cells['unit']}” is not a unit that is known."
        return Read(None, (stop("no-such-unit", says, "Write one of " + ", ".join(u for u in SCALES if u), place),))
    try:
        aim = _number(cells.get("right") or cells["printed"])
        least, most, bound = _bounds(cells["printed"], aim, cells.get("within", ""))
        right = aim if cells.get("right") else None
        of_pi = _pi(cells.get("pi", ""))
    except (ValueError, ZeroDivisionError):
        says = f"One of “{cells['printed']}”, “{cells.get('within', '')}”, “{cells.get('pi', '')}” is no number."
        return Read(None, (stop("no-number", says, "Write figures as printed: `34.57`, `5 1/2`, `22/7`.", place),))
    words = {name: cells.get(name, "") for name in ("topic", "where", "known", "note")}
    asked = (cells["ask"], cells["answer"], cells["printed"], cells["unit"])
    return Read(Printed(*asked, least, most, pi=of_pi, right=right, place=place, bound=bound, **words))


def _bounds(printed: str, aim: float, within: str) -> tuple[float, float, bool]:
    """Least and most that the true figure may be: half a unit of the last place, or what the row says."""
    if not within:
        half = 0.5 * 10.0 ** -len(printed.partition(".")[2])
        return aim - half, aim + half, False
    room = float(within)
    if not isfinite(room):
        raise ValueError(within)
    if within.startswith("+"):
        return aim - room, aim, True
    if within.startswith("-"):
        return aim, aim - room, True
    return aim - room, aim + room, False


def _number(text: str) -> float:
    plain = text.replace(",", "")
    if re.fullmatch(r"-?[\d.]+", plain):
        return float(plain)
    found = number_in(plain)
    if found.value is None:
        raise ValueError(text)
    return float(found.value.value)


def _pi(text: str) -> float:
    if text == "0.7854":
        return 4 * 0.7854
    return float(Fraction(text)) if text else pi


def held(row: Printed, ours: Figure) -> Read[Held]:
    """A printed figure beside ours; a finding where the two are not the same kind of thing."""
    if ours.unit.replace("share", "") != row.scale.unit:
        says = f"“{ours.name}” is told in {ours.unit or 'pure numbers'}, and {row.unit} cannot be held against that."
        return Read(None, (stop("another-kind", says, "Look at the unit.", row.place),))
    return Read(Held(row, row.scale.printed(ours.value) * row.pi / pi))


def hold(row: Printed, answer_of: Callable[[str], Answer]) -> Read[Held]:
    """Asks what the row says and holds the answer against the print."""
    told = answer_of(row.ask)
    found = told.figure(row.answer)
    if found is not None:
        return held(row, found)
    stops = tuple(f for f in told.findings if f.stops)
    says = f"The answer to “{row.ask}” has no figure “{row.answer}”."
    names = ", ".join(f.name for f in told.figures)
    return Read(None, stops or (stop("no-such-figure", says, f"It has {names or 'none'}.", row.place),))


_IN_INCHES = {"m": ("in", INCH), "m2": ("sq in", INCH**2), "m3": ("cu in", INCH**3), "kg": ("lb", POUND)}


def digits(figure: Figure) -> str:
    """A figure in full, in SI and in inches or pounds."""
    plain = f"{figure.value:.9g} {figure.unit}".strip()
    if figure.unit not in _IN_INCHES:
        return plain
    name, size = _IN_INCHES[figure.unit]
    return f"{figure.value / size:.7g} {name} = {plain}"


def told(one: Held) -> tuple[str, str]:
    """A row to show: what was asked, then what is printed, ours, and whether they agree."""
    unit = "" if one.row.unit == "1" else f" {one.row.unit}"
    agrees = "agrees" if one.fits else f"off by {say_decimal(100 * one.off, 2)} %"
    return f"{one.row.ask}: {one.row.answer}", f"printed {one.row.printed}{unit}, ours {one.ours:.6g}{unit}: {agrees}"
