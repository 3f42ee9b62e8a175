"""One block of the shop sheet for each piece: its drawings and all that is wanted to make it."""

from collections.abc import Sequence

from bickern.geometry.blank import min_blank
from bickern.measure.figure import Figure
from bickern.measure.units.say import say_both, say_mass_both, say_percent, say_turns, say_up_both
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.marks import Drawing
from bickern.paper.sheets import wording
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.setting import (
    NOTHING,
    SMALL,
    Part,
    beside,
    bullets,
    caption,
    heading,
    keep,
    picture,
    row,
    stack,
    words,
)
from bickern.paper.sheets.sheetsizes import on_the_metal, sheet_size, told_of
from bickern.paper.views.bar import bar_side
from bickern.paper.views.outline import bent_from, bent_sizes, bent_views
from bickern.paper.views.profile import as_drawn
from bickern.paper.views.ring import ring_view
from bickern.paper.views.scale import fitting, say_scale
from bickern.paper.views.sheet import pattern_view
from bickern.paper.views.strip import Named, named_marks, stock_strip
from bickern.parts.bar.also import ALONG
from bickern.parts.bar.result import BarResult, BendSpan, MetalRun, Solved
from bickern.parts.ring.rules import held_weld
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import Pattern, SheetResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Pan, SeamKind, Surface

SIZES = 0.022
"""Room that the dimensions of a drawing take along each side of it [m]."""


def piece_block(piece: PieceResult, copy: Copy, wide: float) -> Part:
    """Everything about one piece, over `wide` [m]."""
    if isinstance(piece, BarResult):
        return bar_block(piece, copy, wide)
    return ring_block(piece, copy, wide) if isinstance(piece, RingResult) else sheet_block(piece, copy, wide)


def _title(piece: PieceResult, copy: Copy) -> Part:
    made = wording.count(piece, copy)
    stock = wording.from_what(piece, copy.shop.style)
    told = f"{piece.spec.sized} sizes" if isinstance(piece, SheetResult) else piece.spec.steel
    return heading(piece.spec.name, f"{stock},  {told},  {made} to make")


def named(name: str, says: str) -> Part:
    """A short bold name and what it stands for."""
    return row(words(f"{name}  ", SMALL, bold=True), words(says, SMALL))


def bar_block(bar: BarResult, copy: Copy, wide: float, branch_of: str = "") -> Part:
    """A bar: the finished shape, the stock with its marks, the drawn bar with its sections and marks."""
    return stack(*bar_halves(bar, copy, wide, branch_of)[:2], gap=4)


def bar_halves(bar: BarResult, copy: Copy, wide: float, branch_of: str = "") -> tuple[Part, Part, Part]:
    """The finished shape with the stock, the drawn bar, and the drawn bar once more where it says whose it is."""
    style = copy.shop.style
    before = named_marks(bar.marks_on_stock)
    after = named_marks(bar.marks_on_drawn, len(before) + 1)
    stock = NOTHING
    if before or bar.grip > 0:
        stock = _strip(f"Cut and marked, {_holds(before) or 'before the fire'}", stock_strip(bar, wide, style), before)
    children = [bar_block(child, copy, wide, _from(bar, i)) for i, child in enumerate(bar.children)]
    plain, named = (stack(drawn, *children, gap=4) for drawn in _drawn_strips(bar, after, copy, wide))
    return stack(_shape(bar, copy, wide, branch_of), stock, gap=4), plain, named


def _drawn_strips(bar: BarResult, marks: Sequence[Named], copy: Copy, wide: float) -> tuple[Part, Part]:
    """The bar drawn out, and the same with its name in the caption; nothing where it stays as it comes."""
    if not marks and len(bar.runs) < 2 and not bar.holes and not bar.twists:
        return NOTHING, NOTHING
    sections = _section_lines(bar, copy.shop.style) if len(bar.runs) > 1 else []
    says = in_english(_drawn_says(bar, marks), copy.shop.english)
    drawing = bar_side(bar, marks, wide, copy.shop.style)
    named = f"{bar.spec.name}: {says[:1].lower()}{says[1:]}"
    return _strip(says, drawing, marks, sections), _strip(named, drawing, marks, sections)


def _from(bar: BarResult, index: int) -> str:
    """Where a split end or a branch comes from."""
    branches = bar.spec.branches
    welded = index < len(branches) and branches[index].at is not None
    return f"welded on to {bar.spec.name}" if welded else f"split from the end of {bar.spec.name}"


def _strip(says: str, drawing: Drawing, marks: Sequence[Named], sections: Sequence[Part] = ()) -> Part:
    """A strip under its caption, what its sections and marks are below."""
    notes = (bullets(sections, 2), bullets(_mark_lines(marks), 3))
    return keep(stack(caption(says), picture(drawing), *notes, gap=1.5))


def _drawn_says(bar: BarResult, marks: Sequence[Named]) -> str:
    drawn = any(not run.kept for run in bar.runs) or bool(bar.twists)
    holds = _holds(marks)
    if not drawn:
        head = "Marked, before bending" if bar.bends else f"Marked, {holds}" if holds else "As it comes"
        return f"{head} (not to one scale: work from the figures)"
    bends = ", still straight" if bar.bends else ""
    when = f"; marked {holds}" if holds and bar.bends else ""
    return f"Drawn out{bends}{when} (not to one scale: work from the figures)"


def _holds(marks: Sequence[Named]) -> str:
    """When most of the marks hold: said once, above them."""
    said = [one.mark.holds for one in marks]
    return max(said, key=said.count) if said else ""


def _shape(bar: BarResult, copy: Copy, wide: float, branch_of: str) -> Part:
    """The title with the finished outline, and beside it or under it what it comes to."""
    title = heading(bar.spec.name, branch_of) if branch_of else _title(bar, copy)
    full, high, count = bent_sizes(bar)
    scale = fitting(full, high, (wide * 0.5 - SIZES, 0.046 if count == 1 else 0.064))
    views = zip(bent_views(bar, scale, copy.shop.style), bent_from(bar), strict=True)
    drawn = [stack(picture(view), words(_seen(scale, side), SMALL), gap=3) for view, side in views]
    facts = _facts(bar, copy)
    if count > 1:
        return keep(stack(title, beside(drawn, ["auto"] * len(drawn), gap=24), bullets(facts, 2), gap=3))
    shown = stack(*drawn, gap=3)
    return keep(stack(title, beside([shown, bullets(facts)], ["auto", "1fr"]), gap=3))


def _straights(bar: BarResult, style: Style) -> list[Part]:
    """How long the bar stays straight before, between and after its bends, where there are several."""
    if len(bar.bends) < 2:
        return []
    ends = [0.0, *(place for bend in bar.bends for place in (bend.start, bend.end)), bar.length]
    spans = [(end - start) for start, end in zip(ends[::2], ends[1::2], strict=True)]
    said = [
        f"{_beside_bends(i, len(bar.bends))} {say_both(long, style)}" for i, long in enumerate(spans) if long > NEAR
    ]
    return [named("Straight", "; ".join(said))] if said else []


def _beside_bends(index: int, many: int) -> str:
    """Where a straight lies among the bends of a bar."""
    if index == 0:
        return "before B1"
    return f"after B{many}" if index == many else f"B{index} to B{index + 1}"


def _bends_by(bar: BarResult, copy: Copy) -> str:
    """The rule that bends are reckoned by, where another one would come to something else."""
    by_another = any(label.startswith(f"{ALONG} by") for label, _, _ in bar.also)
    return f" (bends by the rule: {copy.shop.bar.bend})" if by_another else ""


def _seen(scale: float, side: str) -> str:
    return f"Finished, {side}, {say_scale(scale)}" if side else f"Finished, {say_scale(scale)}"


def _facts(bar: BarResult, copy: Copy) -> list[Part]:
    style, english = copy.shop.style, copy.shop.english
    found = [
        named("Overall" if not bar.children else "Overall, itself", wording.overall(bar, style)),
        named("Along the bar", f"{say_both(bar.length, style)}{_bends_by(bar, copy)}"),
    ]
    found += [named(f"{_head(s.name)} comes out at", say_both(s.value, style, fit=True)) for s in _worked_out(bar)]
    found += _straights(bar, style)
    for number, bend in enumerate(bar.bends, start=1):
        where = "" if _marked(bar, bend.start, bend.end) else f": {_from_to(bend.start, bend.end, style)} drawn out"
        inside = f"inside radius {say_both(bend.inside_radius, style)}" if bend.inside_radius > 0 else "sharp inside"
        lies = " (as the bar lies after the twist)" if _after_twist(bar, bend) else ""
        found.append(named(f"B{number}", f"{in_english(bend.says, english)}{lies}, {inside}{where}"))
    found += [_twist(bar, i, style) for i in range(len(bar.twists))]
    found += [_hole(bar, i, style) for i in range(len(bar.holes))]
    if bar.grip > 0:
        found.append(named("Grip", f"{say_both(bar.grip, style)}, held and cut off afterwards"))
    return [*found, named("Weighs", say_mass_both(bar.mass, style))]


def _after_twist(bar: BarResult, bend: BendSpan) -> bool:
    """Whether a twist lies between the flag and the bend and leaves the bar's faces turned."""
    return any(twist.end <= bend.start + NEAR for twist in bar.twists)


def _marked(bar: BarResult, *places: float) -> bool:
    """Whether each of these places [m] is an end of the drawn bar or marked on it, and need not be told again."""
    before = (as_drawn(bar).length - bar.length) / 2
    there = [0.0, bar.length, *(mark.at - before for mark in bar.marks_on_drawn)]
    return all(any(abs(one - at) < NEAR for one in there) for at in places)


NEAR = 0.0002
"""Places nearer than this are one [m]."""


def _from_to(start: float, end: float, style: Style) -> str:
    return f"{say_both(start, style)} to {say_both(end, style)}"


def _head(says: str) -> str:
    """Words with a capital at their head."""
    return says[:1].upper() + says[1:]


def _worked_out(bar: BarResult) -> list[Solved]:
    """Answers to what was left open; the stock has its own place under CUT THIS."""
    return [solved for solved in bar.solved if "stock" not in solved.name]


def _twist(bar: BarResult, index: int, style: Style) -> Part:
    twist = bar.twists[index]
    hand = "left hand" if twist.twist.turns < 0 else "right hand"
    turns = say_turns(abs(twist.twist.turns), style)
    where = "" if _marked(bar, twist.start, twist.end) else f", {_from_to(twist.start, twist.end, style)}"
    return named("Twist", f"{turns}, {hand}{where}; corners stretch {say_percent(twist.corner_strain, style)}")


def _hole(bar: BarResult, index: int, style: Style) -> Part:
    check = bar.holes[index]
    by = f"{say_both(check.hole.size, style, fit=True)}, {check.hole.by}, {check.hole.face} face"
    slit = f", slit {say_both(check.slit, style)} long" if check.slit is not None else ""
    wall = f"; wall left {say_both(check.wall, style)}"
    where = "" if _marked(bar, check.at) else f" at {say_both(check.at, style)}"
    return named(check.hole.name or "Hole", f"{by}{where}{slit}{wall}")


def _section_lines(bar: BarResult, style: Style) -> list[Part]:
    return [named(f"S{i}", _run_says(run, style)) for i, run in enumerate(bar.runs, start=1)]


def _run_says(run: MetalRun, style: Style) -> str:
    """A stretch by its name, unless it is named by what it is."""
    says = wording.stretch(run, style)
    return says if not run.name or says.startswith(f"{run.name},") else f"{run.name}: {says}"


def _mark_lines(marks: Sequence[Named]) -> list[Part]:
    usual = _holds(marks)
    lines = []
    for one in marks:
        holds = f" ({one.mark.holds})" if one.mark.holds and one.mark.holds != usual else ""
        lines.append(named(one.name, f"{one.mark.says}{holds}"))
    return lines


HALF = 9
"""Most facts that a piece has which takes half of the page's width."""


def is_small(piece: PieceResult, copy: Copy) -> bool:
    """Whether a piece is told in few enough words to stand beside another."""
    plain = (isinstance(piece, RingResult) and piece.coil is None) or (
        isinstance(piece, SheetResult) and len(piece.patterns) == 1
    )
    return plain and facts_of(piece, copy) <= HALF


def facts_of(piece: PieceResult, copy: Copy) -> int:
    """How many facts stand beside a piece's drawing."""
    if isinstance(piece, BarResult):
        return len(_facts(piece, copy))
    style = copy.shop.style
    return len(_ring_facts(piece, copy) if isinstance(piece, RingResult) else _sheet_facts(piece, style))


def ring_block(ring: RingResult, copy: Copy, wide: float) -> Part:
    """A ring, link or chain: drawn closed, with its sizes, its mandrel and how much it is strained."""
    style = copy.shop.style
    scale = fitting(ring.outside_long, ring.outside_across, (wide * 0.3, 0.026))
    columns = 2 if wide > 0.15 else 1
    drawn = stack(picture(ring_view(ring, scale, style)), words(f"Closed, {say_scale(scale)}", SMALL), gap=3)
    return keep(
        stack(_title(ring, copy), beside([drawn, bullets(_ring_facts(ring, copy), columns)], ["auto", "1fr"]), gap=3)
    )


def _ring_facts(ring: RingResult, copy: Copy) -> list[Part]:
    style = copy.shop.style
    inside = say_both(ring.inside_across, style)
    if ring.inside_long - ring.inside_across > 1e-6:
        inside = f"{inside} x {say_both(ring.inside_long, style)}"
    ends = str(ring.spec.closing)
    if ring.weld:
        ends += f", {say_both(ring.weld, style)} of the cut is for it (the shop's rule: {_weld_rule(ring, copy)})"
    line = say_both(ring.bare, style)
    if abs(ring.taken - ring.bare) > NEAR:
        line += f"; {say_both(ring.taken, style)} of bar by the shop's rule: {ring.rule}"
    facts = [named("Inside", inside), named("Middle line", line), named("Ends", ends)]
    strain = f"bent {say_percent(ring.strain, style)}; opened and closed {say_percent(ring.opening_strain, style)}"
    facts.append(named("Outside stretches", strain))
    if ring.coil is not None:
        coil = ring.coil
        says = f"{coil.turns} turns on a mandrel of {say_both(coil.mandrel, style, fit=True)}, "
        says += f"{say_both(coil.wire, style)} of bar; inside after the cut {say_both(coil.inside_after_cut, style)}"
        facts.append(named("Wound", says))
    if ring.chain is not None:
        chain = ring.chain
        says = f"{chain.links} links, {say_both(chain.length, style)} inside to inside of the end links, "
        says += f"{say_both(chain.outside, style)} over all, {say_up_both(chain.bar, style)} of bar, "
        says += f"{say_mass_both(chain.mass, style)}; the last link lies {chain.last_lies}"
        facts.append(named("Chain", says))
    return [*facts, named("Weighs", say_mass_both(ring.mass, style))]


def _weld_rule(ring: RingResult, copy: Copy) -> str:
    """The rule that the weld goes by: the one for the length where that holds a weld itself."""
    return copy.shop.ring.weld if held_weld(ring.rule, 1.0) is None else ring.rule


def sheet_block(sheet: SheetResult, copy: Copy, wide: float) -> Part:
    """A sheet piece: its patterns with all that they are laid out by."""
    style = copy.shop.style
    drawn = [_pattern(pattern, style, wide * (0.45 if wide > 0.15 else 0.5)) for pattern in sheet.patterns]
    shown = stack(*drawn, gap=6)
    body = beside([shown, bullets(_sheet_facts(sheet, style), 2 if wide > 0.15 else 1)], ["auto", "1fr"])
    return stack(keep(stack(_title(sheet, copy), body, gap=3)) if len(drawn) < 3 else stack(_title(sheet, copy), body))


def _pattern(pattern: Pattern, style: Style, wide: float) -> Part:
    blank = min_blank(pattern.outline)
    scale = fitting(blank.width, blank.height, (wide - SIZES, 0.046))
    made = f", cut {pattern.make}" if pattern.make > 1 else ""
    says = f"Pattern {pattern.name}{made} in its blank, {say_scale(scale)}"
    return keep(stack(picture(pattern_view(pattern, scale, style)), words(says, SMALL), gap=3))


def _sheet_facts(sheet: SheetResult, style: Style) -> list[Part]:
    surface = sheet.spec.surface
    sized = f", {sheet.spec.sized} sizes" if told_of(surface) else ""
    facts = [named("Finished", f"{sheet_size(sheet, style)}{sized}")]
    facts += [named(_head(f.name), wording.figure(f, style)) for f in sheet.figures if _worth_telling(f, surface)]
    facts += [named(_head(name), says) for name, says in on_the_metal(sheet, style)]
    if max(abs(a - b) for a, b in zip(sheet.blank, sheet.blank_cut, strict=True)) > 1e-6:
        facts.append(named("Blank without seam", _sized(sheet.blank, style)))
    if len(sheet.patterns) > 1:  # of a single one the drawing tells it
        facts.append(named("Largest blank", " x ".join(say_up_both(one, style) for one in sheet.blank_cut)))
    if sheet.spec.seam.kind is not SeamKind.NONE and not isinstance(surface, Bowl | Pan | FlatOutline):
        facts.append(named("Seam gap when rolled up", say_both(sheet.seam_gap, style, fit=True)))
    if sheet.stray > 0:
        facts.append(named("Flat triangles leave the true surface by", say_both(sheet.stray, style, fit=True)))
    for fit in sheet.fits:
        short = f"too small by {_sized((max(fit.short_wide, 0), max(fit.short_high, 0)), style)}"
        answer = fit.refused or ("fits" if fit.fits else short)
        facts.append(named(f"From {_sized((fit.offered.wide, fit.offered.high), style)}", answer))
    return [*facts, named("Weighs", say_mass_both(sheet.mass, style))]


def _worth_telling(one: Figure, surface: Surface) -> bool:
    """Not what stands elsewhere; and what a piece holds only where it has a bottom."""
    holds = one.name.startswith("holds") and not isinstance(surface, Bowl | Pan)
    return one.name not in ELSEWHERE and not holds


ELSEWHERE = ("thickness", "laid evenly, wide", "laid evenly, high", "flat, left to right", "flat, front to back")
"""Figures that stand in the title, or are the blank over again."""


def _sized(size: tuple[float, float], style: Style) -> str:
    return " x ".join(say_both(one, style) for one in size)
