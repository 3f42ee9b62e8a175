"""The cut plan of one or several jobs in words: what comes off which bar and sheet, what is short, what to buy."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from bickern.geometry.blank import min_blank
from bickern.geometry.pack.lengths.asked import Saw
from bickern.geometry.polygon import ArcSeg, bounds, seg_start
from bickern.iron.section import area
from bickern.iron.steel import density_of
from bickern.making.shop import Shop
from bickern.making.stock.cuts import BarCuts, Off, SectionCuts, length_of, running, saw_of
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.making.stock.sheet_cuts import GaugeCuts, PartLaid, SheetCuts
from bickern.making.stock.wants import SheetWant, Want
from bickern.making.stock.worth import metal
from bickern.making.work.caution import Caution
from bickern.measure.finding import Finding
from bickern.measure.money import say_money
from bickern.measure.units.say import (
    other_first,
    say_angle,
    say_both,
    say_box,
    say_length,
    say_percent,
    say_up_both,
)
from bickern.measure.units.words import INCH, MILLIMETRE, Style, System
from bickern.paper.furniture import letters
from bickern.paper.sheets import wording
from bickern.paper.views.nest import lowest, numbered


@dataclass(frozen=True, slots=True)
class CutCopy:
    """All that a cut list needs: the jobs' titles, the shop, the plans, cautions, findings, offers of other stock.

    `instead`: what other bars of the rack would make what is short, in words, each with the want it is for (by key).
    `printed` is the date to print, `version` of bickern. `drops`: once the plan is taken, the ids of what is left of
    each piece of stock, by its own id.
    """

    jobs: tuple[str, ...]
    shop: Shop
    bars: tuple[SectionCuts, ...]
    sheets: tuple[GaugeCuts, ...]
    cautions: tuple[Caution, ...] = ()
    findings: tuple[Finding, ...] = ()
    instead: tuple[tuple[str, str], ...] = ()
    printed: str = ""
    version: str = ""
    drops: tuple[tuple[str, tuple[str, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class CutLine:
    """One length on a bar: its letter, what it becomes, how long, where it ends from the first end; in words."""

    letter: str
    name: str
    long: str
    to: str


@dataclass(frozen=True, slots=True)
class BarWords:
    """One bar: its head, its cuts in order, and what is left of it."""

    head: str
    where: str
    lines: tuple[CutLine, ...]
    drop: str


def marks(style: Style) -> Style:
    """Running dimensions are told to half the tape's usual step, for each goes up, and what that takes adds up."""
    return replace(style, inch_denominator=max(32, style.inch_denominator))


def mark_step(style: Style) -> float:
    """How far the marks lie apart [m] that running dimensions are told by, on the tape of the style's first system."""
    fine = marks(style)
    return INCH / fine.inch_denominator if fine.first is System.INCH else fine.mm_step * MILLIMETRE


def marks_said(cut: BarCuts, copy: CutCopy) -> tuple[tuple[str, str], ...]:
    """Where each length ends, on a tape of the shop's first system and on one of the other: each counted by itself."""
    style = copy.shop.style
    first, other = (_running(cut, copy, way) for way in (style, other_first(style)))
    return tuple(zip(first, other, strict=True))


def _running(cut: BarCuts, copy: CutCopy, style: Style) -> list[str]:
    return [say_length(mark, marks(style)) for mark in running(cut, copy.shop.cutting, mark_step(style))]


def letters_of(copy: CutCopy) -> dict[str, str]:
    """A letter for each want that is cut or short, by its key: A, B, C ... bars first."""
    bars = [off.want.key for plan in copy.bars for bar in plan.bars for off in bar.offs]
    bars += [lack.want.key for plan in copy.bars for lack in plan.lacks]
    parts = [part.want.key for plan in copy.sheets for sheet in plan.sheets for part in sheet.parts]
    parts += [lack.want.key for plan in copy.sheets for lack in plan.lacks]
    return {key: letters(i).upper() for i, key in enumerate(dict.fromkeys((*bars, *parts)))}


def name_of(want: Want | SheetWant, copy: CutCopy) -> str:
    """What a cut becomes, and for which job where there are several."""
    return f"{want.name}, for {want.job}" if len(copy.jobs) > 1 else want.name


def bar_words(cut: BarCuts, copy: CutCopy, named: Mapping[str, str]) -> BarWords:
    """One bar in words."""
    style, cutting = copy.shop.style, copy.shop.cutting
    lines = tuple(
        CutLine(
            named[off.want.key],
            name_of(off.want, copy),
            say_up_both(length_of(off.want, cutting), style),
            f"{first} ({other})",
        )
        for off, (first, other) in zip(cut.offs, marks_said(cut, copy), strict=True)
    )
    return BarWords(bar_head(cut.stock, style), stock_where(cut.stock), lines, drop_says(cut, copy))


def bar_head(bar: StockBar, style: Style) -> str:
    """`B12  3/8 in sq (9.5 mm) x 72 in (1829 mm)`."""
    return f"{bar.id}  {wording.section(bar.section, style)} x {say_both(bar.length, style)}"


def stock_where(stock: StockBar | StockSheet) -> str:
    """Where a piece of stock lies, what steel it is, and whether it is an offcut."""
    told = (stock.place, stock.steel or "steel not known", "offcut" if stock.offcut else "", stock.remark)
    return ", ".join(one for one in told if one)


def drop_says(cut: BarCuts, copy: CutCopy) -> str:
    """What is left of a bar and what becomes of it."""
    style = copy.shop.style
    full = f"; {TIGHT}" if cut.tight else ""
    if cut.drop < _NOTHING:
        return f"nothing{full}"
    left = say_both(cut.drop, style)
    if cut.kept:
        return f"{left}: mark its length on it, it goes back into the rack{full}"
    return f"{left}, too short to keep{full}"


TIGHT = "too full for marks that all go up: measure each length anew from the cut before it"
"""Of a bar where running marks could leave a piece a mark of the tape short."""


_NOTHING = 5e-5


def paint_says(stock: StockBar | StockSheet, kept: int, copy: CutCopy) -> str:
    """What is to be painted on the `kept` pieces that are left: their ids once it is taken, else a place to write."""
    ids = dict(copy.drops).get(stock.id, ())
    if not kept:
        return ""
    if ids:
        return f"Paint on {'it' if kept == 1 else 'them, in this order'}: {', '.join(ids)}"
    return f"New id{'' if kept == 1 else 's'}: {'  '.join(['________'] * kept)}"


def proof_says(plan: SectionCuts, copy: CutCopy) -> str:
    """How sure it is that no plan does better, by what a plan is weighed."""
    if plan.proven:
        fewer = "leaves fewer short, or " if plan.lacks else ""
        return f"proven: no plan from this rack {fewer}loses less bar, {WEIGHED}"
    most = f"another plan could lose at most {say_up_both(plan.spared, copy.shop.style)} of bar less, {WEIGHED}"
    return "; ".join(one for one in (f"not proven: {most}", plan.why) if one)


WEIGHED = "a drop that is kept counted at nine tenths"
"""What a plan is weighed by, in short."""


def section_head(plan: SectionCuts, copy: CutCopy) -> str:
    """`3/8 in sq (9.5 mm)`, and its steel."""
    return ", ".join(one for one in (wording.section(plan.section, copy.shop.style), plan.steel) if one)


def saw_says(copy: CutCopy) -> str:
    """What each cut of this shop loses, and so what the marks hold."""
    cutting, style = copy.shop.cutting, copy.shop.style
    if cutting.hot:
        told = f"Cut hot: {say_both(cutting.dress, style, fit=True)} of each length is for dressing its end."
    elif saw_of(cutting).kerf > 0:
        told = (
            f"Each cut loses {say_both(cutting.kerf, style, fit=True)}: the saw goes past the mark, away from the end."
        )
    else:
        told = "No kerf is counted."
    grip = f" The vise holds the last {say_both(cutting.grip, style)}." if cutting.grip > 0 else ""
    return f"Each mark is told from the end that is cut first, and ends a length. {told}{grip} {UP}"


UP = "Marks go up, each from the one before, so that no piece lacks any of its length: keep to one tape throughout."
"""How marks are rounded."""


def _of_bar(want: Want, copy: CutCopy) -> str:
    """The section and the length that a want takes of it."""
    style = copy.shop.style
    return f"{wording.section(want.section, style)} x {say_up_both(length_of(want, copy.shop.cutting), style)}"


def _of_sheet(want: SheetWant, copy: CutCopy) -> str:
    """The thickness, and the size that one pattern lies in: what to look for at the dealer's."""
    style, blank = copy.shop.style, min_blank(want.pattern.outline)
    box = " x ".join(say_up_both(side, style) for side in (blank.width, blank.height))
    margin = say_both(copy.shop.cutting.margin, style)
    return f"{wording.thickness(want.thick, want.gauge, style)}: each lies in {box}, and {margin} more all round"


def short_rows(copy: CutCopy, named: Mapping[str, str]) -> tuple[tuple[str, str, str, str], ...]:
    """What no stock is left for: letter, name, how many, of what."""
    bars = [
        (
            named[one.want.key],
            name_of(one.want, copy),
            f"{one.count} of {one.want.count} short",
            _of_bar(one.want, copy),
        )
        for plan in copy.bars
        for one in plan.lacks
        if not one.want.bought  # what is bought ready made stands among what to buy
    ]
    sheets = [
        (
            named[one.want.key],
            name_of(one.want, copy),
            f"{one.count} of {one.want.count} short",
            _of_sheet(one.want, copy),
        )
        for plan in copy.sheets
        for one in plan.lacks
    ]
    return (*bars, *sheets)


def short_says(copy: CutCopy, named: Mapping[str, str]) -> tuple[str, ...]:
    """By what rule pieces are short, where others were cut; and what would have to give way for the longest of them."""
    plans = [plan for plan in copy.bars if plan.bars and any(not lack.want.bought for lack in plan.lacks)]
    told = (_gives_way(plan, copy, named) for plan in plans)
    return (FEWEST, *(says for says in told if says)) if plans else ()


FEWEST = "The rule was as few pieces short as can be, a long one counted like a short one."
"""What comes before all else in a plan for bars."""
MOST_GIVEN = 3
"""Pieces that may give way for one: a trade of more is not told, for it is a plan of its own."""


def _gives_way(plan: SectionCuts, copy: CutCopy, named: Mapping[str, str]) -> str:
    """`To have one A, leave out 2 of B on B12.`: the fewest shorter pieces of one bar; "" where it is no such trade."""
    cutting = copy.shop.cutting
    want = max((lack.want for lack in plan.lacks if not lack.want.bought), key=lambda one: one.length)
    trades = (_trade(cut, length_of(want, cutting), saw_of(cutting)) for cut in plan.bars)
    counts = [(len(out), cut.stock.id, out) for cut, out in zip(plan.bars, trades, strict=True) if out]
    if not counts or (best := min(counts, key=lambda one: one[0]))[0] > MOST_GIVEN:
        return ""
    _, bar, out = best
    letters_out = [named[off.want.key] for off in out]
    which = " and ".join(f"{letters_out.count(one)} of {one}" for one in dict.fromkeys(letters_out))
    return f"To have one {named[want.key]}, leave out {which} on {bar}."


def _trade(cut: BarCuts, length: float, saw: Saw) -> tuple[Off, ...]:
    """The shorter pieces to leave out of a bar, the longest first, for one of this length [m]; () where none do."""
    shorter = sorted((off for off in cut.offs if off.end - off.start < length), key=lambda off: off.start - off.end)
    room = cut.drop - saw.grip
    for count, off in enumerate(shorter, 1):
        room += off.end - off.start + saw.kerf
        if room >= length + saw.kerf:
            return tuple(shorter[:count])
    return ()


def buy_rows(copy: CutCopy) -> tuple[tuple[str, str], ...]:
    """What to buy for it: how much, and of what."""
    return tuple(row for plan in copy.bars for row in _buy(plan, copy))


def _buy(plan: SectionCuts, copy: CutCopy) -> Iterator[tuple[str, str]]:
    style, what = copy.shop.style, section_head(plan, copy)
    for lack in plan.lacks:
        if lack.want.bought:
            of = f"{lack.want.name}, or {what} to cut them from, {say_up_both(lack.want.length, style)} each"
            yield f"{lack.count} ready made", of
    for one in plan.buy:
        much = _price(plan, one.length * one.count, copy.shop)
        yield f"{one.count} of {say_both(one.length, style)}", f"{what}{much}"
    if not plan.buy and any(not lack.want.bought for lack in plan.lacks):
        much = _price(plan, plan.metres, copy.shop)
        yield f"{say_up_both(plan.metres, style)} in all", f"{what}{much}: what the dealer sells it in is not told"


def _price(plan: SectionCuts, length: float, shop: Shop) -> str:
    """What so much of a section costs by the shop's own prices; "" where they do not tell."""
    mass = area(plan.section) * length * density_of(plan.steel)
    cost = metal(mass, plan.section, shop, plan.steel)
    return "" if cost is None else f", about {say_money(cost, comma=shop.style.comma)}"


def sheet_head(cut: SheetCuts, style: Style) -> str:
    """`S2  18 ga, .048 in (1.21 mm), 48 x 24 in (1219 x 609.5 mm)`; an odd sheet by the size that holds it."""
    stock = cut.stock
    thick = wording.thickness(stock.thick, stock.gauge, style)
    return f"{stock.id}  {thick}, {'odd, within ' if _is_odd(stock) else ''}{size_says(stock, style)}"


def _is_odd(sheet: StockSheet) -> bool:
    """Whether a sheet is anything but a whole rectangle."""
    (left, low), (right, high) = bounds(sheet.outline)
    return sheet.area < 0.999 * (right - left) * (high - low)


def size_says(sheet: StockSheet, style: Style) -> str:
    """The box that a sheet fills: `48 x 24 in (1219 x 609.5 mm)`."""
    (left, low), (right, high) = bounds(sheet.outline)
    return say_box(right - left, high - low, style)


def labels_of(cut: SheetCuts, named: Mapping[str, str]) -> tuple[str, ...]:
    """`A` for the only part of its letter on a sheet, `A1`, `A2` for several, as the nest's drawing has them."""
    return tuple(numbered([named[part.want.key] for part in cut.parts]))


def part_says(part: PartLaid, sheet: StockSheet, style: Style) -> tuple[str, str]:
    """Where a part lies: how it is turned, and its lowest point from the leftmost and lowest of the sheet."""
    (left, low), _ = bounds(sheet.outline)
    x, y = lowest(part.outline)
    turned = say_angle(part.laid.turn % _FULL, style)
    way = "as drawn" if turned in ("0°", "360°") else f"turned {turned}"
    return way, f"{say_both(x - left, style)} right, {say_both(y - low, style)} up"


def parts_in_order(cut: SheetCuts, named: Mapping[str, str]) -> tuple[tuple[str, PartLaid], ...]:
    """The parts of a sheet by their letters, with their labels: as a list is looked through."""
    order = {key: i for i, key in enumerate(named)}
    labelled = zip(labels_of(cut, named), cut.parts, strict=True)
    return tuple(sorted(labelled, key=lambda one: order[one[1].want.key]))


def far_says(part: PartLaid, sheet: StockSheet, style: Style) -> str:
    """Where the corner of a part lies that is farthest from its lowest point; "" for one without corners.

    With the lowest point it fixes how a part lies, which degrees on a sheet do not.
    """
    (left, low), _ = bounds(sheet.outline)
    at = lowest(part.outline)
    segs = part.outline.segs
    if all(isinstance(seg, ArcSeg) for seg in segs):
        return ""
    x, y = max((seg_start(seg) for seg in segs), key=lambda point: math.dist(point, at))
    return f"{say_both(x - left, style)} right, {say_both(y - low, style)} up"


_FULL = 2 * math.pi


def sheet_says(cut: SheetCuts, style: Style) -> str:
    """How much of a sheet goes into its parts, and what is left that is worth keeping."""
    left = "; ".join(size_says(one, style) for one in cut.left)
    kept = f"what is left goes back into the rack, within {left}" if left else "nothing left is worth keeping"
    return f"{say_percent(cut.used, style)} of it goes into the parts; {kept}"


def gauge_says(plan: GaugeCuts) -> str:
    """How a nest was found: nobody can prove one the best."""
    search = "the search was stopped before it was through" if plan.cut_short else ""
    told = (search, plan.why, "a search, not a proof that it cannot be done on less")
    return "; ".join(one for one in told if one)
