"""The rack in words: lists to be read at the anvil, what is looked for, histories, and the same as JSON."""

import json
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Any

from bickern.book.rack.history import Change, History
from bickern.book.rack.outlines import outline_text
from bickern.book.rack.rows import COLUMNS, KEPT, piece_of
from bickern.desk.rack.rack import Keeper, in_book
from bickern.geometry.polygon import Line, Loop, Point, bounds
from bickern.iron.section import Section, words_of
from bickern.making.stock.fire import may_be_heated
from bickern.making.stock.rack import Rack, Stock, StockBar, StockSheet
from bickern.measure.finding import Finding
from bickern.measure.units.say import say_area_both, say_both, say_box, say_section_both
from bickern.measure.units.words import INCH, MILLIMETRE, Shape, Style

HEADS = ("id", "stock", "size", "steel", "where it lies, and what to mind")
"""Over the columns of a list."""
_SHAPES = tuple(Shape)


def in_order(rack: Rack) -> tuple[Stock, ...]:
    """Bars by shape and size, the longest first, then sheets by thickness: as a smith looks for them."""
    bars = sorted(rack.bars, key=lambda bar: (*_by_size(bar.section), -bar.length))
    return (*bars, *sorted(rack.sheets, key=lambda sheet: sheet.thick))


def of_kinds(pieces: Iterable[Stock]) -> tuple[tuple[Stock, ...], tuple[Stock, ...]]:
    """Bars and sheets, each in the order in which they come."""
    kept = tuple(pieces)
    return tuple(p for p in kept if isinstance(p, StockBar)), tuple(p for p in kept if isinstance(p, StockSheet))


@lru_cache(maxsize=512)
def _by_size(section: Section) -> tuple[float, ...]:
    return _SHAPES.index(section.shape), section.width, section.thick, section.wall


def list_rows(pieces: Iterable[Stock], style: Style) -> tuple[tuple[str, ...], ...]:
    """A row for each piece under `HEADS`: sizes in both systems, and what stands against heating it."""
    return tuple(
        (p.id, stock_says(p, style), size_says(p, style), p.steel or "not known", "; ".join(_beside(p))) for p in pieces
    )


def _beside(piece: Stock) -> list[str]:
    return [says for says in (piece.place, mind_says(piece)) if says]


def stock_says(piece: Stock, style: Style) -> str:
    """`3/8 in sq (9.5 mm)`, `18 ga, 0.048 in (1.21 mm)`."""
    if isinstance(piece, StockBar):
        return _section_says(piece.section, style)
    thick = f"{piece.thick / INCH:.3f} in ({piece.thick / MILLIMETRE:.2f} mm)"
    return f"{piece.gauge}, {thick}" if piece.gauge else f"sheet, {thick}"


@lru_cache(maxsize=512)
def _section_says(section: Section, style: Style) -> str:
    words = words_of(section)
    return say_section_both(words.shape, words.sizes, style)


def size_says(piece: Stock, style: Style) -> str:
    """The length of a bar, both sizes of a sheet; an odd sheet by the size that holds it, and what is left of it."""
    if isinstance(piece, StockBar):
        return _length_says(piece.length, style)
    (left, low), (right, high) = _box(piece.outline)
    size = _sizes_say(right - left, high - low, style)
    there = piece.area
    odd = there < 0.999 * (right - left) * (high - low)
    return f"odd, in {size}, {say_area_both(there, style)}" if odd else size


def _box(outline: Loop) -> tuple[Point, Point]:
    """The upright box round an outline; most sheets are rectangles, whose corners are told as they are."""
    corners = [seg.start for seg in outline.segs if isinstance(seg, Line)]
    if len(corners) < len(outline.segs):
        return bounds(outline)
    across, up = zip(*corners, strict=True)
    return (min(across), min(up)), (max(across), max(up))


@lru_cache(maxsize=512)
def _sizes_say(wide: float, high: float, style: Style) -> str:
    """`48 x 24 in (1219 x 609.5 mm)`."""
    return say_box(wide, high, style)


@lru_cache(maxsize=4096)
def _length_says(length: float, style: Style) -> str:
    return say_both(length, style)


def mind_says(piece: Stock) -> str:
    """What stands against heating it, first of all; then that it is an offcut, its coating, and what was remarked."""
    fire = may_be_heated(piece)
    told = [] if fire is None else [fire_says(fire)]
    told += [f"left of {piece.of}" if piece.of else "offcut"] if piece.offcut else []
    told += [piece.coating] if piece.coating and fire is None and piece.coating != "none" else []
    return "; ".join([*told, *([piece.remark] if piece.remark else [])])


def fire_says(fire: Finding) -> str:
    """`NEVER IN THE FIRE: ...` or what to look at first."""
    says = fire.says.removeprefix("This metal is ").removesuffix(" It never goes in the fire.").rstrip(".")
    return f"NEVER IN THE FIRE: {says}" if fire.stops else f"before any fire: {says[:1].lower()}{says[1:]}"


def rack_json(pieces: Iterable[Stock], style: Style) -> str:
    """The pieces as JSON; every number has its unit in its key."""
    told = {"schema": "bickern rack", "schema_version": 1, "pieces": [_told(piece, style) for piece in pieces]}
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"


def _told(piece: Stock, style: Style) -> dict[str, Any]:
    fire = may_be_heated(piece)
    texts = {name: getattr(piece, name) for name in ("id", "steel", "coating", "place", "remark", "of", "version")}
    price = None if piece.price is None else {"amount": str(piece.price.amount), "currency": piece.price.currency}
    heated = "yes" if fire is None else "never" if fire.stops else "not known"
    about = {"price": price, "offcut": piece.offcut, "may_be_heated": heated, "why_not": fire.says if fire else ""}
    said = {"stock": stock_says(piece, style), "size_said": size_says(piece, style)}
    return texts | about | said | (_bar_told(piece) if isinstance(piece, StockBar) else _sheet_told(piece))


def _bar_told(bar: StockBar) -> dict[str, Any]:
    section = bar.section
    sizes = {"width_m": section.width, "thick_m": section.thick, "wall_m": section.wall}
    return {"kind": "bar", "shape": str(section.shape), **sizes, "length_m": bar.length}


def _sheet_told(sheet: StockSheet) -> dict[str, Any]:
    loops = json.loads(outline_text((sheet.outline, *sheet.cutouts)))
    grain = {} if sheet.grain is None else {"grain_rad": sheet.grain}
    return {"kind": "sheet", "thick_m": sheet.thick, "gauge": sheet.gauge, "outline_m": loops, **grain}


def history_of(by: Keeper, piece_id: str) -> History | Finding:
    """All that happened to one piece."""
    from bickern.book.rack.history import history

    return in_book(by.where, lambda book: history(book, piece_id))


def history_rows(told: History, style: Style) -> tuple[tuple[str, ...], ...]:
    """A row for each change: when, who, and what."""
    rows, was = [], dict.fromkeys(KEPT)
    for change in told.changes:
        when = f"{change.at[:10]} {change.at[11:16]} UTC"
        rows.append((when, change.who, _what(change, was, told.left, style)))
        was |= change.fields
    return tuple(rows)


def _what(change: Change, was: Mapping[str, Any], left: Sequence[str], style: Style) -> str:
    """`cut for hook into ...; left of it: B31`, `place: floor (was left wall)`."""
    says = f": {change.says}" if change.says else ""
    match change.what:
        case "cut":
            kept = f"; left of it: {', '.join(left)}" if left else "; nothing kept of it"
            into = f" into {', '.join(change.cuts)}" if change.cuts else ""
            return f"cut for {', '.join(change.jobs) or 'nothing that was told'}{into}{kept}"
        case "added" | "drop":
            return f"{'added' if change.what == 'added' else 'a drop'}{says}: {_first(change, style)}"
        case "removed":
            return f"removed{says}"
    return "; ".join([f"{change.what}{says}", *_differences(change.fields, was, style)])


def _first(change: Change, style: Style) -> str:
    """What it was when it came into the rack."""
    known = {"id": change.piece, "version": change.version, **change.fields}
    piece = piece_of([known.get(name) for name in COLUMNS])
    told = (stock_says(piece, style), size_says(piece, style), piece.steel, piece.coating, piece.place)
    return ", ".join(says for says in told if says)


def _differences(fields: Mapping[str, Any], was: Mapping[str, Any], style: Style) -> list[str]:
    shown = [name for name in fields if name not in ("currency", "fullness", "wall", "thick")] or list(fields)
    return [
        f"{_NAMES.get(name, name)} {_field(name, fields[name], style)} (was {_field(name, was.get(name), style)})"
        for name in shown
    ]


_NAMES = {"width": "section", "outline": "outline", "of": "left of"}
_SIZES = ("length", "width", "thick", "wall")


def _field(name: str, value: Any, style: Style) -> str:
    if name in _SIZES and isinstance(value, float):
        return say_both(value, style)
    return "another" if name == "outline" else str(value or "not told")
