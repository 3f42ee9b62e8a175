"""A cut plan to look at: every bar with its lengths, every sheet with its parts, drawn, and the same told in words."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bickern.desk.cut.cut import CutPlan
from bickern.making.stock.cuts import BarCuts, SectionCuts
from bickern.making.stock.sheet_cuts import GaugeCuts, PartLaid, SheetCuts
from bickern.measure.units.say import say_both
from bickern.paper.marks import Drawing
from bickern.paper.pens.svg import ON_SCREEN, svg
from bickern.paper.sheets import wording
from bickern.paper.sheets.cut_words import (
    BarWords,
    CutCopy,
    bar_words,
    buy_rows,
    gauge_says,
    labels_of,
    letters_of,
    marks_said,
    name_of,
    paint_says,
    part_says,
    parts_in_order,
    proof_says,
    saw_says,
    section_head,
    sheet_head,
    sheet_says,
    short_rows,
    short_says,
    stock_where,
)
from bickern.paper.sheets.english import in_english
from bickern.paper.views.cut_bar import ROW, Length, cut_bar
from bickern.paper.views.cut_sheet import Shown, cut_sheet

WIDE, NARROW = 0.200, 0.072
"""How wide a drawing is on a bench's screen and on one held in a hand [m]."""
NARROW_ROW = 3
"""Lengths of one row where it is narrow: so many, and what is left, find room there."""
HIGHEST = 0.110
"""Height that a sheet with its parts is given [m]."""

Row = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """One drawing as SVG in the page's own ink, how wide it was drawn [m], and what it shows in words."""

    svg: str
    says: str
    wide: float


@dataclass(frozen=True, slots=True)
class StockCut:
    """One bar or sheet of the rack: its id, what it is, where it lies, its drawings, its cuts as rows.

    `wide` and `narrow`: the same drawn for two widths. `rows`: letter, what it becomes, how long or where it lies, how
    many. `left`: what is left of it; `paint`: what to paint on that.
    """

    id: str
    what: str
    where: str
    wide: tuple[Drawn, ...]
    narrow: tuple[Drawn, ...]
    rows: tuple[Row, ...]
    left: str
    paint: str


@dataclass(frozen=True, slots=True)
class Together:
    """The stock of one section or thickness that is cut, and how sure it is that no plan does better."""

    title: str
    sure: str
    kind: str
    stock: tuple[StockCut, ...]


@dataclass(frozen=True, slots=True)
class CutPictures:
    """A whole plan: what is cut, what is short, what other stock would do, what to buy; how to read the marks."""

    groups: tuple[Together, ...] = ()
    short: tuple[Row, ...] = ()
    short_says: tuple[str, ...] = ()
    instead: tuple[Row, ...] = ()
    buy: tuple[Row, ...] = ()
    marks: str = ""
    cautions: tuple[str, ...] = ()


def cut_pictures(plan: CutPlan) -> CutPictures:
    """The plan drawn and told; nothing where there is none."""
    copy = plan.copy
    if copy is None:
        return CutPictures()
    named, english = letters_of(copy), copy.shop.english
    bars = (_bars(section, copy, named) for section in copy.bars if section.bars)
    sheets = (_sheets(gauge, copy, named) for gauge in copy.sheets if gauge.sheets)
    return CutPictures(
        (*bars, *sheets),
        short_rows(copy, named),
        short_says(copy, named),
        tuple((named.get(key, ""), says) for key, says in copy.instead),
        buy_rows(copy),
        in_english(saw_says(copy), english) if any(section.bars for section in copy.bars) else "",
        tuple(in_english(one.says, english) for one in copy.cautions),
    )


# ---- bars


def _bars(section: SectionCuts, copy: CutCopy, named: Mapping[str, str]) -> Together:
    stock = tuple(_bar(cut, copy, named) for cut in section.bars)
    return Together(section_head(section, copy), proof_says(section, copy), "bar", stock)


def _bar(cut: BarCuts, copy: CutCopy, named: Mapping[str, str]) -> StockCut:
    told = bar_words(cut, copy, named)
    name, _, what = told.head.partition("  ")
    marks = zip(cut.offs, marks_said(cut, copy), strict=True)
    lengths = [Length(named[off.want.key], off.start, off.end, mark) for off, mark in marks]
    left = f"left {say_both(cut.drop, copy.shop.style)}" if cut.kept else ""

    def drawn(wide: float, most: int) -> tuple[Drawn, ...]:
        rows = cut_bar(cut.stock.length, lengths, left, wide, most)
        return tuple(_drawn(row, says) for row, says in zip(rows, _told(told, len(rows)), strict=True))

    kinds = tuple(_kinds(cut, told, named))
    paint = paint_says(cut.stock, int(cut.kept), copy)
    return StockCut(name, what, told.where, drawn(WIDE, ROW), drawn(NARROW, NARROW_ROW), kinds, told.drop, paint)


def _told(told: BarWords, rows: int) -> Iterator[str]:
    """Each row of a bar's drawing in words: its marks from the end that is cut first, and at the end what is left."""
    share = -(-len(told.lines) // rows) if told.lines else 1
    for turn in range(rows):
        lines = told.lines[turn * share : (turn + 1) * share]
        cuts = "; ".join(f"{one.letter}, mark at {one.to}" for one in lines)
        which = f", row {turn + 1} of {rows}" if rows > 1 else ""
        left = f". Left over: {told.drop}" if turn == rows - 1 else ""
        yield f"{told.head}{which}. {'It goes on' if turn else 'From the end that is cut first'}: {cuts}{left}."


def _kinds(cut: BarCuts, told: BarWords, named: Mapping[str, str]) -> Iterator[Row]:
    """A row for each kind of length on a bar: letter, what it becomes, how long, how many."""
    said = {named[off.want.key]: off.want.says for off in cut.offs}
    counts = Counter((one.letter, one.name, one.long) for one in told.lines)
    for (letter, name, long), count in counts.items():
        yield letter, f"{name}, {said[letter]}" if said[letter] else name, long, f"{count} of them" if count > 1 else ""


def _drawn(picture: Drawing, says: str) -> Drawn:
    return Drawn(svg(picture, look=ON_SCREEN), says, picture.bounds.width)


# ---- sheets


def _sheets(gauge: GaugeCuts, copy: CutCopy, named: Mapping[str, str]) -> Together:
    title = f"sheet, {wording.thickness(gauge.thick, gauge.gauge, copy.shop.style)}"
    return Together(title, gauge_says(gauge), "sheet", tuple(_sheet(cut, copy, named) for cut in gauge.sheets))


def _sheet(cut: SheetCuts, copy: CutCopy, named: Mapping[str, str]) -> StockCut:
    style = copy.shop.style
    name, _, what = sheet_head(cut, style).partition("  ")
    rows = tuple(_part_row(label, part, cut, copy) for label, part in parts_in_order(cut, named))
    lies = "; ".join(f"{label}, {becomes}, {where}" for label, becomes, where, _ in rows)
    left = sheet_says(cut, style)
    says = f"{name}, {what}, in small. From the flag at its lower left: {lies}. {left}."
    labels = labels_of(cut, named)

    def drawn(wide: float) -> tuple[Drawn, ...]:
        return (_drawn(_small(cut, labels, wide), says),)

    paint = paint_says(cut.stock, len(cut.left), copy)
    return StockCut(name, what, stock_where(cut.stock), drawn(WIDE), drawn(NARROW), rows, left, paint)


def _part_row(label: str, part: PartLaid, cut: SheetCuts, copy: CutCopy) -> Row:
    way, lowest = part_says(part, cut.stock, copy.shop.style)
    return label, name_of(part.want, copy), f"lowest point {lowest}", way


def _small(cut: SheetCuts, labels: Sequence[str], wide: float) -> Drawing:
    """The sheet with its parts, as large as there is room for."""
    parts = [Shown(label, part.outline, part.cutouts) for label, part in zip(labels, cut.parts, strict=True)]
    return cut_sheet(cut.stock.outline, cut.stock.cutouts, parts, (wide, HIGHEST))
