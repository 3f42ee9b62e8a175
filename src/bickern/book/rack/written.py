"""The rack as a list in CSV that reads in again the same: sizes in the shop's notation where that is exact."""

import csv
import io
import math
from collections.abc import Callable, Iterable
from decimal import Decimal

from bickern.book.rack.outlines import outline_text
from bickern.geometry.polygon import rectangle, seg_start
from bickern.iron.section import Section, section_from, words_of
from bickern.making.stock.rack import Stock, StockBar, StockSheet
from bickern.measure.units.read import read_angle, read_length, read_section
from bickern.measure.units.say import other_first, say_angle, say_length, say_section
from bickern.measure.units.words import Style

WRITTEN = (
    "id", "kind", "section", "length", "thickness", "size", "outline", "steel", "coating", "place", "price", "remark",
    "offcut", "of", "grain", "gauge",
)  # fmt: skip
"""The columns that are written, in their order; every size has its unit with it."""


def list_text(pieces: Iterable[Stock], style: Style) -> str:
    """The list, one piece a row."""
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, WRITTEN, lineterminator="\n")
    writer.writeheader()
    for piece in pieces:
        writer.writerow(row_of_list(piece, style))
    return out.getvalue()


def row_of_list(piece: Stock, style: Style) -> dict[str, str]:
    """One piece by the columns of a list; only the system that the shop prints first is its own choice here."""
    style = Style(style.first, 64, 0.1, fit_mm_step=0.01)
    about = {name: getattr(piece, name) for name in ("id", "steel", "coating", "place", "remark", "of")}
    price = "" if piece.price is None else f"{piece.price.amount:f} {piece.price.currency}"
    row = about | {"price": price, "offcut": "yes" if piece.offcut else ""}
    return row | (_of_bar(piece, style) if isinstance(piece, StockBar) else _of_sheet(piece, style))


def _of_bar(bar: StockBar, style: Style) -> dict[str, str]:
    return {"kind": "bar", "section": exact_section(bar.section, style), "length": exact_length(bar.length, style)}


def _of_sheet(sheet: StockSheet, style: Style) -> dict[str, str]:
    width, height = (max(seg_start(seg)[i] for seg in sheet.outline.segs) for i in (0, 1))
    plain = not sheet.cutouts and rectangle(width, height) == sheet.outline
    size = f"{exact_length(width, style)} x {exact_length(height, style)}" if plain else ""
    return {
        "kind": "sheet",
        "thickness": exact_length(sheet.thick, style),
        "size": size,
        "outline": "" if plain else outline_text((sheet.outline, *sheet.cutouts)),
        "grain": _grain(sheet.grain),
        "gauge": sheet.gauge,
    }


def exact_length(m: float, style: Style) -> str:
    """A length in the first notation that is read again to the last bit; in the end as metres in full."""
    ways: list[Callable[[], str]] = [lambda: say_length(m, style), lambda: say_length(m, other_first(style))]
    for way in ways:
        if read_length(said := way(), None).value == m:
            return said
    return f"{_full(m)} m"


def exact_section(section: Section, style: Style) -> str:
    """The same of a section."""
    words = words_of(section)
    said = say_section(words.shape, words.sizes, style)
    back = read_section(said, None)
    if back.value is not None and section_from(back.value).value == section:
        return said
    sizes = " x ".join(_full(size) for size in words.sizes if size is not None)
    return f"{sizes} m {words.shape}"


def _full(number: float) -> str:
    return f"{Decimal(repr(number)):f}"


def _grain(rad: float | None) -> str:
    if rad is None:
        return ""
    if rad in (0.0, math.pi / 2):
        return "across" if rad else "along"
    said = say_angle(rad)
    return said if read_angle(said, signed=True).value == rad else f"{rad!r} rad"
