"""Rows of words become pieces of stock: of a list, or of what is typed for one piece."""

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from typing import TypeVar

from bickern.book.files import Fetch, no_files
from bickern.book.outline.read import read_outline
from bickern.book.rack.cells import Line, cells_of
from bickern.book.rack.outlines import crosses, holds, loops_in
from bickern.book.rack.rows import clean, crossed, too_long
from bickern.geometry.polygon import Loop, rectangle
from bickern.iron.coating import coating_finding
from bickern.iron.gauge import resolve
from bickern.iron.section import section_from
from bickern.making.stock.rack import Stock, StockBar, StockSheet
from bickern.measure.finding import Finding, Where, note, stop
from bickern.measure.money import read_money
from bickern.measure.units.read import (
    read_angle,
    read_count,
    read_length,
    read_section,
    read_sizes,
    read_thickness,
)
from bickern.measure.units.words import GaugeSystem, Read, System

V = TypeVar("V")
P = TypeVar("P", StockBar, StockSheet)

MOST_FAULTS = 200
"""Faults of one list that are told of at once."""
MOST_PIECES = 20_000
"""Pieces of one list: more is no rack of a small shop."""
_YES, _NO = ("yes", "y", "true", "1", "x", "offcut", "drop"), ("no", "n", "false", "0", "-")
_COMMA = re.compile(r"(?<![\d.,])(\d+),(\d{1,2}|\d{4,})(?![\d.,])")


@dataclass(frozen=True, slots=True)
class Meant:
    """What words mean in this shop: a bare number (None: nothing), a bare gauge, a bare price; where files lie."""

    system: System | None = None
    gauge: GaugeSystem = GaugeSystem.US
    currency: str | None = None
    fetch: Fetch = no_files


@dataclass(frozen=True, slots=True)
class Listed:
    """The pieces of a list in its order, from how many rows, and what was found; any stop: none may be put in."""

    pieces: tuple[Stock, ...]
    rows: int
    findings: tuple[Finding, ...]


@dataclass(slots=True)
class _Row:
    """One row being read: its words, and the faults found in it."""

    cells: Mapping[str, str]
    meant: Meant
    where: Where
    found: list[Finding] = field(default_factory=list)

    def take(self, read: Read[V], column: str) -> V | None:
        """The value of a cell; what was found in it gets its place."""
        here = replace(self.where, path=column)
        # a gauge without its system is said once, and notes on every row of a long list help nobody
        self.found += [_of_a_list(f).at(here) for f in read.findings if f.name != "gauge-system-not-named"]
        return read.value

    def fault(self, fault: Finding, column: str) -> None:
        """Notes one fault of a cell."""
        self.found.append(fault.at(replace(self.where, path=column)))

    def need(self, column: str, of: str) -> str:
        """A cell that must be filled."""
        if column not in self.cells:
            says = f"a {of} without its {column}"
            self.fault(stop("stock-not-told", says, f"write its {column}"), column)
        return self.cells.get(column, "")


def _of_a_list(fault: Finding) -> Finding:
    if fault.name != "no-units":
        return fault
    says = fault.says.replace("the job does not say", "nothing says which")
    return replace(
        fault,
        says=says,
        try_this="say whether bare numbers are in or mm (--units on a terminal), or add a column `units`",
    )


def read_list(data: bytes, file: str, meant: Meant) -> Listed:
    """Every piece of a list in CSV, and every fault of it, by line and column; never raises."""
    cells = cells_of(data, file)
    found = list(cells.findings)
    doubts: set[str] = set()
    pieces: list[Stock] = []
    if any(f.stops for f in found):
        return Listed((), 0, tuple(found))
    for line in cells.lines:
        read = pieces_of(_with_points(line, cells.comma), meant, Where(file, line.number))
        found += _not_yet_said(read.findings, doubts)
        pieces += read.value or ()
        if len(found) > MOST_FAULTS or len(pieces) > MOST_PIECES:
            found.append(_too_much(len(pieces), Where(file, line.number)))
            break
    return Listed(tuple(pieces), len(cells.lines), (*found, *_told_once(cells.lines, file)))


def _not_yet_said(found: Iterable[Finding], said: set[str]) -> Iterator[Finding]:
    """Faults of one row; what a gauge is taken as is told once for each gauge: no list is too long for that."""
    for fault in found:
        if fault.name != "gauge-system" or fault.says not in said:
            yield fault
        if fault.name == "gauge-system":
            said.add(fault.says)


def _with_points(line: Line, comma: bool) -> Mapping[str, str]:
    """Where a comma cannot stand between cells it may be a decimal comma: `12,5`, but not `1,250`."""
    if not comma:
        return line.cells
    numbers = ("section", "length", "thickness", "size", "price", "grain")
    return {name: _COMMA.sub(r"\1.\2", cell) if name in numbers else cell for name, cell in line.cells.items()}


def _too_much(pieces: int, where: Where) -> Finding:
    if pieces > MOST_PIECES:
        says = f"this list holds more than {MOST_PIECES} pieces"
        return stop("too-many-pieces", says, "look at its counts", where)
    says = f"there are more than {MOST_FAULTS} faults: what follows was not read"
    return stop("too-many-faults", says, "mend these first", where)


def _told_once(lines: Iterable[Line], file: str) -> Iterator[Finding]:
    if any("id" in line.cells for line in lines):
        says = "ids in a list are not read: every piece gets a new one"
        yield note("ids-given-anew", says, "paint the new ids on; `bickern rack label` prints them", Where(file))


def pieces_of(cells: Mapping[str, str], meant: Meant, where: Where) -> Read[tuple[Stock, ...]]:
    """The pieces of one row, by column: as many alike as its `count` says; none where anything in it stops."""
    row = _Row(cells, meant, where)
    row.meant = _for_row(row)
    count = row.take(read_count(cells["count"], most=1000), "count") if "count" in cells else 1
    made = _sheet(row) if _is_sheet(row) else _bar(row)
    if made is None or count is None or any(f.stops for f in row.found):
        return Read(None, tuple(row.found))
    return Read((made,) * count, tuple(row.found))


_SYSTEMS = {
    **dict.fromkeys(("in", "ins", "inch", "inches", '"'), System.INCH),
    **dict.fromkeys(("mm", "millimetres", "millimeters"), System.MM),
}


def _for_row(row: _Row) -> Meant:
    """What bare numbers of the row mean: what it says itself goes first."""
    said = row.cells.get("units", "").casefold().strip(". ")
    if said and said not in _SYSTEMS:
        row.fault(stop("unknown-unit", f"`{said[:40]}` is no unit for a whole row", "write in or mm"), "units")
    return replace(row.meant, system=_SYSTEMS.get(said, row.meant.system))


def _is_sheet(row: _Row) -> bool:
    kind = row.cells.get("kind", "").casefold()
    if kind in ("bar", "bars"):
        return False
    if kind in ("sheet", "sheets", "plate"):
        return True
    if kind:
        fault = stop("unknown-stock-kind", f"`{kind[:40]}` is neither bar nor sheet", "write `bar` or `sheet`")
        row.fault(fault, "kind")
    return "section" not in row.cells and ("size" in row.cells or "outline" in row.cells)


def _bar(row: _Row) -> StockBar | None:
    system, section = row.meant.system, None
    words = row.take(read_section(said, system), "section") if (said := row.need("section", "bar")) else None
    if words is not None:
        section = row.take(section_from(words), "section")
    length = row.take(read_length(said, system), "length") if (said := row.need("length", "bar")) else None
    return None if section is None or length is None else _with_rest(row, StockBar("", section, length))


def _sheet(row: _Row) -> StockSheet | None:
    thick, gauge = _thickness(row)
    loops = _loops(row)
    if thick is None or loops is None:
        return None
    sheet = StockSheet("", thick, loops[0], loops[1:], gauge=gauge, grain=_grain(row))
    return _with_rest(row, sheet)


def _thickness(row: _Row) -> tuple[float | None, str]:
    """Thickness [m], and the gauge as it was written."""
    cells = row.cells
    column = "thickness" if "thickness" in cells or "gauge" not in cells else "gauge"
    said = row.need(column, "sheet")
    read = row.take(read_thickness(said or None, row.meant.system), column) if said else None
    if read is None or isinstance(read, float):
        return read, clean(cells.get("gauge", ""))
    coated = coating_finding(cells.get("coating", ""))
    thick = row.take(resolve(read, row.meant.gauge, coated is not None and coated.stops), column)
    return thick, clean(cells.get("gauge", said))


def _loops(row: _Row) -> tuple[Loop, ...] | None:
    if "outline" in row.cells:
        loops = _outline(row, row.cells["outline"])
        if loops is not None and crosses(loops[0], loops[1:]):
            row.fault(crossed("a new one"), "outline")
            return None
        return loops
    said = row.need("size", "sheet")
    sizes = row.take(read_sizes(said, row.meant.system), "size") if said else None
    if sizes is None:
        return None
    if len(sizes) != 2:
        row.fault(stop("sheet-size", f"`{said[:40]}` is not two sizes", "write it as `48 x 24`"), "size")
        return None
    return (rectangle(sizes[0], sizes[1]),)


def _outline(row: _Row, said: str) -> tuple[Loop, ...] | None:
    if said.startswith("["):
        return _written_outline(row, said)
    data = row.meant.fetch(said)
    if isinstance(data, Finding):
        row.fault(data, "outline")
        return None
    system = row.meant.system
    read = row.take(read_outline(said, data, None if system is None else str(system)), "outline")
    return None if read is None else (read.outer, *read.holes)


def _written_outline(row: _Row, said: str) -> tuple[Loop, ...] | None:
    """An outline as this tool writes it: it is read as exactly, but may have been cut short or changed since."""
    with suppress(ValueError):
        loops = loops_in(said)
        if holds(loops[0], loops[1:]):
            return loops
    says = "the outline in this cell cannot be read: cut short, not closed, or with holes that are not in it"
    row.fault(stop("outline-not-read", says, "name a DXF or SVG file in its place"), "outline")
    return None


def _grain(row: _Row) -> float | None:
    said = row.cells.get("grain", "").casefold().strip()
    if said in ("", "-", "none", "not told"):
        return None
    if said in ("along", "across"):
        return 0.0 if said == "along" else math.pi / 2
    exact = re.fullmatch(r"(-?\d+(?:\.\d+)?(?:e-?\d+)?) rad", said)
    return float(exact[1]) if exact else row.take(read_angle(said, signed=True), "grain")


def _with_rest(row: _Row, piece: P) -> P:
    """The piece with all that is told of bars and sheets alike."""
    cells = row.cells
    price = row.take(read_money(cells["price"], row.meant.currency), "price") if "price" in cells else None
    if "coating" in cells:
        fault = coating_finding(cells["coating"])
        if fault is not None and not fault.stops:
            row.fault(fault, "coating")
    for column in ("steel", "coating", "place", "remark"):
        fault = too_long(cells.get(column, ""), column)
        if fault is not None:
            row.fault(fault, column)
    steel, coating, place, remark = (clean(cells.get(name, "")) for name in ("steel", "coating", "place", "remark"))
    told = replace(piece, steel=steel, coating=coating, place=place, remark=remark)
    return replace(told, price=price, offcut=_offcut(row))


def _offcut(row: _Row) -> bool:
    said = row.cells.get("offcut", "no").casefold()
    if said not in (*_YES, *_NO):
        row.fault(stop("not-yes-or-no", f"`{said[:40]}` is neither yes nor no", "write yes or no"), "offcut")
    return said in _YES
