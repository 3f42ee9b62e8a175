"""A piece of stock as a row of the table, and back. Floats come back as they went in, to the last bit."""

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import Any

from bickern.book.rack.outlines import closes, crosses, holds, loops_in, outline_text
from bickern.iron.section import Section
from bickern.making.stock.rack import Stock, StockBar, StockSheet
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.money import Money
from bickern.measure.units.words import Shape

COLUMNS = (
    "id", "kind", "number", "version", "gone", "shape", "width", "thick", "wall", "fullness", "length", "outline",
    "gauge", "grain", "steel", "coating", "place", "price", "currency", "offcut", "of", "remark",
)  # fmt: skip
"""The table's columns, in the order in which a row is read."""
KEPT = tuple(name for name in COLUMNS if name not in ("id", "kind", "number", "version"))
"""Columns that a change may change; the others are what a piece is known by."""
LONGEST_TEXT = 200
"""Signs kept of a text."""


def row_of(piece: Stock) -> dict[str, Any]:
    """The columns of a piece but for those that the rack gives it (id, number, version)."""
    price = piece.price
    row: dict[str, Any] = {
        **dict.fromkeys(("steel", "coating", "place", "remark"), ""),
        **{name: clean(getattr(piece, name)) for name in ("steel", "coating", "place", "remark")},
        "gone": "",
        "price": "" if price is None else str(price.amount),
        "currency": "" if price is None else clean(price.currency),
        "offcut": int(piece.offcut),
        "of": piece.of or None,
    }
    return row | (_bar_row(piece) if isinstance(piece, StockBar) else _sheet_row(piece))


def _bar_row(bar: StockBar) -> dict[str, Any]:
    section = bar.section
    sizes = {name: float(getattr(section, name)) for name in ("width", "thick", "wall", "fullness")}
    about = {"shape": str(section.shape), "length": float(bar.length), "outline": "", "gauge": "", "grain": None}
    return {"kind": "bar", **sizes, **about}


def _sheet_row(sheet: StockSheet) -> dict[str, Any]:
    return {
        "kind": "sheet",
        "shape": "sheet",
        **dict.fromkeys(("width", "wall", "length"), 0.0),
        "fullness": 1.0,
        "thick": float(sheet.thick),
        "outline": outline_text((sheet.outline, *sheet.cutouts)),
        "gauge": clean(sheet.gauge),
        "grain": sheet.grain,
    }


def clean(text: str) -> str:
    """One line of printable signs: no database and no terminal chokes on it."""
    return " ".join("".join(c if c.isprintable() else " " for c in str(text)).split())[:LONGEST_TEXT].rstrip()


def id_of(said: str) -> str:
    """An id as it is painted on: `b12 ` is B12."""
    return clean(said).upper()


def too_long(text: str, what: str) -> Finding | None:
    """That not all of a text is kept."""
    if len(" ".join(text.split())) <= LONGEST_TEXT:
        return None
    says = f"only the first {LONGEST_TEXT} signs of the {what} are kept"
    return warn("text-cut-short", says, "say it in fewer words")


def piece_of(row: Sequence[Any]) -> Stock:
    """The piece in a row of all columns, in their order."""
    piece_id, kind, _, version, _, shape, width, thick, wall, fullness, length, outline, gauge, grain, *rest = row
    steel, coating, place, price, currency, offcut, of, remark = rest
    money = _money(price, currency) if price else None
    if kind == "bar":
        section = _section(shape, width, thick, wall, fullness)
        return StockBar(
            piece_id, section, length, steel, coating, place, money, bool(offcut), of or "", remark, version
        )
    outer, *cutouts = loops_in(outline)
    about = (steel, coating, place, money, bool(offcut), of or "", remark)
    return StockSheet(piece_id, thick, outer, tuple(cutouts), *about, gauge, grain, version)


@lru_cache(maxsize=512)
def _section(shape: str, width: float, thick: float, wall: float, fullness: float) -> Section:
    """Kept: a rack holds few sections, many times each."""
    return Section(Shape(shape), width, thick, wall, fullness)


@lru_cache(maxsize=512)
def _money(amount: str, currency: str) -> Money:
    return Money(Decimal(amount), currency)


def wrong_piece(piece: Stock) -> Finding | None:
    """Why something cannot lie in a rack: a size that is none, or an outline that crosses itself."""
    sizes = [piece.length, *_section_sizes(piece.section)] if isinstance(piece, StockBar) else [piece.thick]
    if not (all(math.isfinite(size) and size > 0 for size in sizes) and _has_outline(piece)):
        says = f"a piece with a size of nothing, or less, cannot lie in the rack ({clean(piece.id) or 'a new one'})"
        return stop("impossible-stock", says, "look at its length, its section or its outline")
    if isinstance(piece, StockSheet) and crosses(piece.outline, piece.cutouts):
        return crossed(clean(piece.id) or "a new one")
    return None


def crossed(name: str) -> Finding:
    """That nobody can say what of a sheet is metal."""
    says = f"a sheet whose outline or hole crosses or touches itself, or one the other, cannot lie in the rack ({name})"
    way = "go round it corner by corner; a bite that runs out to the edge is part of the outline"
    return stop("impossible-outline", says, way)


def _section_sizes(section: Section) -> tuple[float, ...]:
    return section.width, section.thick, section.fullness, *((section.wall,) if section.wall else ())


def _has_outline(piece: Stock) -> bool:
    if isinstance(piece, StockBar):
        return True
    return all(closes(loop) for loop in (piece.outline, *piece.cutouts)) and holds(piece.outline, piece.cutouts)


def differences(before: Mapping[str, Any], after: Mapping[str, Any]) -> dict[str, Any]:
    """The columns that a change changes, with what they become."""
    return {name: after[name] for name in KEPT if before[name] != after[name]}
