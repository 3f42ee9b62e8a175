"""Slips of a unit or a digit in what is told of a piece of stock: 2000 inches of 10 mm bar, a sheet thick as a die."""

import re
from collections.abc import Iterator, Mapping, Sequence

from bickern.geometry.polygon import bounds
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.measure.finding import Finding, Where, stop, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style

LONGEST_SOLD = 13.0
"""Metres: mills sell bar of 6 m and 12 m, 20 ft and 40 ft; longer is wire in a coil, or a slip (common practice)."""
THICKEST = 0.1
"""Share of its lesser size that a sheet may be thick and still be sheet (our choice)."""
MOST_NAMED = 4
_BARE = re.compile(r"[x×\d\s./⁄¼½¾⅛⅜⅝⅞-]+")
_METRIC = re.compile(r"\d\s*(mm|cm|m)\b", re.IGNORECASE)


def bare_beside_metric(cells: Mapping[str, str], new: Mapping[str, str]) -> Finding | None:
    """A length without its unit beside a section in millimetres, where nobody said what bare numbers mean: 10 mm, 2000.

    `cells`: all that is told of the piece; `new`: what of it is told now.
    """
    for told, beside in (("length", "section"), ("size", "thickness")):
        bare, metric = new.get(told, ""), cells.get(beside, "")
        if bare and _BARE.fullmatch(bare) and _METRIC.search(metric):
            says = f"`{bare}` could be inches or millimetres: `{metric}` has its unit, and this has none"
            return stop("no-units-beside-metric", says, f"write `{bare} mm` or `{bare} in`", Where(path=told))
    return None


def slips(pieces: Sequence[StockBar | StockSheet], style: Style) -> Iterator[Finding]:
    """A warning for each kind of size that no dealer sells; the pieces are kept all the same."""
    long = [p for p in pieces if isinstance(p, StockBar) and p.length > LONGEST_SOLD]
    thick = [p for p in pieces if isinstance(p, StockSheet) and p.thick > THICKEST * _lesser(p)]
    if long:
        says = f"{_named(long)}: {_most([bar.length for bar in long], style)} long, and no dealer sells bar so long"
        yield warn("stock-very-long", says, "look for a slip of its unit: `bickern rack change` mends it")
    if thick:
        says = f"{_named(thick)}: {_most([one.thick for one in thick], style)} thick, which is a block and no sheet"
        yield warn("stock-very-thick", says, "look for a slip of a unit in its size or its thickness")


def _lesser(sheet: StockSheet) -> float:
    (left, low), (right, high) = bounds(sheet.outline)
    return min(right - left, high - low)


def _named(pieces: Sequence[StockBar | StockSheet]) -> str:
    names = [piece.id or "one" for piece in pieces]
    return ", ".join(names[:MOST_NAMED]) + (f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else "")


def _most(sizes: Sequence[float], style: Style) -> str:
    """`2000 in (50800 mm)`, `up to` where they are not alike."""
    return f"{'up to ' if min(sizes) < max(sizes) else ''}{say_both(max(sizes), style)}"
