"""The cut list: bar by bar and sheet by sheet what to mark and cut, large enough to be read at arm's length."""

from collections.abc import Mapping, Sequence

from bickern.making.stock.cuts import BarCuts, SectionCuts
from bickern.making.stock.rack import StockSheet
from bickern.making.stock.sheet_cuts import GaugeCuts, PartLaid, SheetCuts
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Style
from bickern.paper.marks import Drawing
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets.cut_words import (
    CutCopy,
    bar_head,
    bar_words,
    buy_rows,
    drop_says,
    far_says,
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
from bickern.paper.sheets.setting import (
    BODY,
    FINE,
    NOTHING,
    SMALL,
    Part,
    Sign,
    bullets,
    document,
    heading,
    keep,
    picture,
    row,
    ruled,
    stack,
    table,
    ticked,
    words,
)
from bickern.paper.sheets.wording import finding, thickness
from bickern.paper.views.cut_bar import ROW, Length, cut_bar
from bickern.paper.views.cut_sheet import Shown, cut_sheet

BIG = 15.0
"""Type of a bar's id and of a length to cut [pt]."""
HIGHEST_NEST = 0.09
"""Height that a sheet with its parts is given [m]."""
MOST_WHOLE = 0.18
"""How high a bar may be that is kept on one page [m]."""
DRAWN, LINE = 0.032, 0.008
"""About how high a row of a bar's drawing is, and a line under it [m]."""


def cut_list(copy: CutCopy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the cut list."""
    named, wide = letters_of(copy), paper.width - 2 * MARGIN
    blocks = [block for plan in copy.bars for block in _section(plan, copy, named, wide)]
    blocks += [block for plan in copy.sheets for block in _gauge(plan, copy, named, wide)]
    body = stack(_title(copy), _found(copy), *blocks, _short(copy, named), _buy(copy), _cautions(copy), gap=5)
    made = f"bickern {copy.version}" if copy.version else "bickern"
    foot = ", ".join(one for one in (copy.shop.name, copy.printed, made) if one)
    return document(body, paper, f"Cut list: {', '.join(copy.jobs)}", foot)


def _title(copy: CutCopy) -> Part:
    lines = [words("Cut list", 22, bold=True), words(", ".join(copy.jobs), BODY, bold=True)]
    if any(plan.bars for plan in copy.bars):
        lines.append(words(in_english(saw_says(copy), copy.shop.english), SMALL))
    return stack(*lines, gap=2)


def _section(plan: SectionCuts, copy: CutCopy, named: Mapping[str, str], wide: float) -> list[Part]:
    """A heading for one section, then its bars."""
    if not plan.bars:
        return []
    first, *rest = plan.bars
    head = stack(heading(section_head(plan, copy), proof_says(plan, copy)), _bar(first, copy, named, wide), gap=3)
    return [_whole(head, first), *(_whole(_bar(cut, copy, named, wide), cut) for cut in rest)]


def _whole(part: Part, cut: BarCuts) -> Part:
    """A bar on one page, as long as it is not so high that it would run off it."""
    kinds = len({off.want.key for off in cut.offs})
    return keep(part) if len(cut.offs) / ROW * DRAWN + kinds * LINE <= MOST_WHOLE else part


def _bar(cut: BarCuts, copy: CutCopy, named: Mapping[str, str], wide: float) -> Part:
    """One bar: its id large, the bar with its letters and marks, and a line to tick for each kind of length."""
    style = copy.shop.style
    name, _, what = bar_head(cut.stock, style).partition("  ")
    head = row(words(f"{name}  ", BIG, bold=True), words(f"{what}  ", BODY, bold=True), words(stock_where(cut.stock)))
    told = zip(cut.offs, marks_said(cut, copy), strict=True)
    lengths = [Length(named[off.want.key], off.start, off.end, mark) for off, mark in told]
    left = f"left {say_both(cut.drop, style)}" if cut.kept else ""
    drawn = [keep(picture(row)) for row in cut_bar(cut.stock.length, lengths, left, wide)]
    kinds = table(["auto", "1fr", "auto", "45mm"], (), _kinds(cut, copy, named))
    paint = paint_says(cut.stock, int(cut.kept), copy)
    over = row(words("Left over: ", BODY, bold=True), words(drop_says(cut, copy), BODY), *_painted(paint))
    return ruled(stack(head, *drawn, kinds, over, gap=3))


def _painted(says: str) -> list[Part]:
    return [words(f". {says}", BODY, bold=True)] if says else []


def _kinds(cut: BarCuts, copy: CutCopy, named: Mapping[str, str]) -> list[list[Part]]:
    """For each kind of length on the bar: letter, what it becomes, how long, and a box for each to tick."""
    lines = bar_words(cut, copy, named).lines
    counts: dict[tuple[str, str, str], int] = {}
    for one in lines:
        counts[(one.letter, one.name, one.long)] = counts.get((one.letter, one.name, one.long), 0) + 1
    said = {named[off.want.key]: off.want.says for off in cut.offs}
    return [
        [
            words(letter, BIG, bold=True),
            words(f"{name}, {said[letter]}" if said[letter] else name, BODY),
            words(f"{long}{f', {count} of them' if count > 1 else ''}", 13, bold=True),
            ticked(words(""), count),
        ]
        for (letter, name, long), count in counts.items()
    ]


def _gauge(plan: GaugeCuts, copy: CutCopy, named: Mapping[str, str], wide: float) -> list[Part]:
    if not plan.sheets:
        return []
    shown = [_sheet(cut, copy, named, wide) for cut in plan.sheets]
    return [
        keep(
            stack(
                heading(f"Sheet, {thickness(plan.thick, plan.gauge, copy.shop.style)}", gauge_says(plan)),
                shown[0],
                gap=3,
            )
        ),
        *(keep(one) for one in shown[1:]),
    ]


def _sheet(cut: SheetCuts, copy: CutCopy, named: Mapping[str, str], wide: float) -> Part:
    """One sheet small with its parts, and where each lies."""
    style, small = copy.shop.style, picture(_small(cut, labels_of(cut, named), wide))
    name, _, what = sheet_head(cut, style).partition("  ")
    head = row(words(f"{name}  ", BIG, bold=True), words(f"{what}  ", BODY, bold=True), words(stock_where(cut.stock)))
    rows = [
        [ticked(words(label, BIG, bold=True)), words(name_of(part.want, copy)), *_lies(part, cut.stock, style)]
        for label, part in parts_in_order(cut, named)
    ]
    heads = ["", "part", "its lowest point, from the flag", "its corner farthest from that", "lies"]
    told = table(["auto", "1fr", "auto", "auto", "auto"], heads, rows)
    paint = paint_says(cut.stock, len(cut.left), copy)
    over = row(words("Left over: ", BODY, bold=True), words(sheet_says(cut, style)), *_painted(paint))
    return ruled(stack(head, small, told, over, gap=3))


def _lies(part: PartLaid, stock: StockSheet, style: Style) -> list[Part]:
    """Where two points of a part lie, and how it is turned."""
    way, low = part_says(part, stock, style)
    two = (says.replace("right, ", "right,\n") for says in (low, far_says(part, stock, style)))
    return [*(words(says) for says in two), words(way)]


def _small(cut: SheetCuts, labels: Sequence[str], wide: float) -> Drawing:
    """The sheet with its parts, as large as the page has room for."""
    parts = [Shown(label, part.outline, part.cutouts) for label, part in zip(labels, cut.parts, strict=True)]
    return cut_sheet(cut.stock.outline, cut.stock.cutouts, parts, (wide - 0.012, HIGHEST_NEST))


def _short(copy: CutCopy, named: Mapping[str, str]) -> Part:
    """What no stock is left for, and what else would do."""
    instead: dict[str, list[str]] = {}
    for key, says in copy.instead:
        instead.setdefault(named.get(key, ""), []).append(says)
    short = short_rows(copy, named)
    if not short:
        return NOTHING
    rows = [[words(a, BIG, bold=True), words(b), words(many, BODY, bold=True), words(of)] for a, b, many, of in short]
    rule = [words(says, SMALL) for says in short_says(copy, named)]
    told = stack(table(["auto", "1fr", "auto", "auto"], ["", "piece", "short", "of"], rows), *rule, gap=3)
    told = _under("Short", told, len(rows) + len(rule))
    if not instead:
        return told
    lines = [
        row(words(f"{key}: ", BODY, bold=True), words(says, SMALL)) for key, every in instead.items() for says in every
    ]
    return stack(told, _under("Other stock that would do", bullets(lines), 2 * len(lines)), gap=5)


def _under(name: str, part: Part, lines: int) -> Part:
    """A part under its heading, on one page with it where it is not too long for that."""
    whole = stack(heading(name), part)
    return keep(whole) if lines * LINE <= MOST_WHOLE else whole


def _buy(copy: CutCopy) -> Part:
    rows = [[ticked(words("")), words(much, BODY, bold=True), words(what)] for much, what in buy_rows(copy)]
    return _under("To buy", table(["auto", "auto", "1fr"], (), rows), len(rows)) if rows else NOTHING


def _found(copy: CutCopy) -> Part:
    """What to think of before the saw is started."""
    lines = [finding(one) for one in sorted(copy.findings, key=lambda one: -one.weight)]
    told = [row(words(f"{weight}: ", SMALL, bold=True), words(says, SMALL)) for weight, says in lines]
    return _under("Before the first cut", bullets(told), len(told)) if told else NOTHING


def _cautions(copy: CutCopy) -> Part:
    lines = [words(in_english(one.says, copy.shop.english), FINE) for one in copy.cautions]
    return _under("Cautions for cutting", bullets(lines, 2, Sign.DASH), len(lines)) if lines else NOTHING
