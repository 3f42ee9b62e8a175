"""Cards to cut out and hold against the iron: bends, tapers, thicknesses and twists, at full size."""

import math
from collections.abc import Sequence

from bickern.measure.units.say import say_angle, say_both, say_turns
from bickern.measure.units.words import INCH, Style
from bickern.paper.furniture import wrapped
from bickern.paper.marks import (
    Anchor,
    Arc,
    Drawing,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    bounds,
    circle,
    drawing,
    merge,
    moved,
)
from bickern.paper.pens.recorder import record
from bickern.paper.views.outline import Bent, bent, edges_at
from bickern.paper.views.profile import size_in
from bickern.parts.bar.result import BarResult, BendSpan, MetalRun, TwistCheck
from bickern.parts.bar.tracks import PathLeg, ScrollLeg, StraightLeg

LETTER = 0.0024
"""Capitals on a card [m]."""
ALLOWED = INCH / 64
"""How far a thickness may be off on a go and no-go card [m]: our choice, no standard."""
LARGEST = 0.050
"""Inside radius beyond which a bend gets no card: the full-size outline shows it [m]."""
SMALLEST = 0.0012
"""Sizes under this get no notch: paper is no gauge for them [m]."""


def bent_legs(bar: BarResult) -> tuple[tuple[BendSpan, PathLeg | None], ...]:
    """Each bend with the leg of the path that it was asked by (None where they do not answer one another)."""
    legs = [leg for leg in bar.spec.path if not isinstance(leg, StraightLeg)]
    if len(legs) != len(bar.bends):
        return tuple((bend, None) for bend in bar.bends)
    return tuple(zip(bar.bends, legs, strict=True))


def scroll_forms(bar: BarResult) -> tuple[Drawing, ...]:
    """For each scroll the line that a scroll form must have: the inside face of the bar, its thickness taken off."""
    line = bent(bar)
    return tuple(_form(line, bend) for bend, leg in bent_legs(bar) if isinstance(leg, ScrollLeg))


def _form(line: Bent, bend: BendSpan) -> Drawing:
    inner, outer = edges_at(line, bend.start, bend.end)
    name = f"{line.result.spec.name}, {bend.name or 'scroll'}: scroll form is the heavy line, the bar lies outside it"
    marks: list[Mark] = [Polyline(inner, layer=Layer.CUT), Polyline(outer, layer=Layer.HIDDEN)]
    marks += [Line(inner[i], outer[i], Layer.HIDDEN) for i in (0, -1)]
    picture = drawing(marks)
    words = Text((picture.bounds.left, picture.bounds.bottom - 0.006), name, LETTER)
    return merge(picture, drawing([words]))


def bend_card(bar: BarResult, numbers: Sequence[int], radius: float, angle: float, style: Style) -> Drawing:
    """A card that fills the inside of bends of `radius` [m] and `angle` [rad]; for a curl or an eye a round plug."""
    inside = f"{bar.spec.name} {', '.join(f'B{number}' for number in numbers)}: inside radius {say_both(radius, style)}"
    if angle > math.radians(150):
        return _lettered([circle((0.0, 0.0), radius, Layer.CUT)], [f"{inside}: plug"])
    leg = max(0.035, 1.5 * radius)
    end = (radius * math.sin(angle), radius * (1 - math.cos(angle)))
    tip = (end[0] + leg * math.cos(angle), end[1] + leg * math.sin(angle))
    marks: list[Mark] = [Line((-leg, 0.0), (0.0, 0.0), Layer.CUT)]
    if radius > 1e-5:
        marks.append(Arc((0.0, radius), radius, -math.pi / 2, angle, Layer.CUT))
    marks += [Line(end, tip, Layer.CUT), Line(tip, (-leg, 0.0), Layer.CUT)]
    return _lettered(marks, [inside, f"{say_angle(angle, style)}: the card fills the inside"])


def _lettered(marks: Sequence[Mark], lines: Sequence[str]) -> Drawing:
    """Marks with lines of lettering under them."""
    picture = drawing(marks)
    box = picture.bounds
    words = [Text((box.left, box.bottom - 0.0045 * (i + 1)), says, LETTER) for i, says in enumerate(lines)]
    return merge(picture, drawing(words))


def taper_card(bar: BarResult, run: MetalRun, style: Style) -> Drawing:
    """A card with the taper's own outline cut out of it, its wide view and, where it differs, its thin one."""
    cards = [_taper(run, over) for over in (True, False) if over or abs(_taper_unlike(run)) > 1e-6]
    says = (
        f"{bar.spec.name}, {run.name or 'taper'}: {say_both(run.end - run.start, style)} long. Light even both sides."
    )
    placed, level = [], 0.0
    for marks in cards:
        picture = drawing(marks)
        placed += [_down(mark, level - picture.bounds.top) for mark in marks]
        level -= picture.bounds.height + 0.003
    return _lettered(placed, [says])


def _down(mark: Polyline, by: float) -> Polyline:
    return Polyline(tuple((x, y + by) for x, y in mark.points), mark.closed, mark.layer)


def _taper_unlike(run: MetalRun) -> float:
    return max(abs(run.a.width - run.a.thick), abs(run.b.width - run.b.thick))


def _taper(run: MetalRun, over: bool) -> list[Polyline]:
    ends = [size_in(run, s) for s in (run.start, run.end)]
    halves = [(size.width if over else size.thick) / 2 for size in ends]
    long, half = run.end - run.start, max(halves) + 0.008
    notch: list[Point] = [(0.0, halves[0]), (long, halves[1]), (long, -halves[1]), (0.0, -halves[0])]
    card = ((-0.008, half), (long + 0.008, half), (long + 0.008, -half), (-0.008, -half))
    return [Polyline(tuple(notch), closed=True, layer=Layer.CUT), Polyline(card, closed=True, layer=Layer.CUT)]


def thickness_card(bar: BarResult, name: str, size: float, style: Style) -> Drawing:
    """Two notches: the iron must go into the wide one and not into the narrow one."""
    high, deep = 0.020, 0.012
    go, no = size + ALLOWED, size - ALLOWED
    x1, x2 = 0.010, 0.010 + go + 0.016
    right = x2 + no + 0.014
    card: list[Point] = [(0.0, 0.0), (right, 0.0), (right, high), (x2 + no, high), (x2 + no, high - deep)]
    card += [(x2, high - deep), (x2, high), (x1 + go, high), (x1 + go, high - deep), (x1, high - deep), (x1, high)]
    card.append((0.0, high))
    marks: list[Mark] = [Polyline(tuple(card), closed=True, layer=Layer.CUT)]
    for x, says in ((x1 + go / 2, "GO"), (x2 + no / 2, "NO GO")):
        marks.append(Text((x, 0.003), says, LETTER, Anchor.MIDDLE))
    return _lettered(marks, [f"{bar.spec.name}, {name}: {say_both(size, style)}", f"within {say_both(ALLOWED, style)}"])


def twist_card(bar: BarResult, twist: TwistCheck, style: Style) -> Drawing:
    """A rule as long as the twist with a line at every quarter turn: a corner of the bar comes up at each."""
    long, turns = twist.end - twist.start, abs(twist.twist.turns)
    high = 0.010
    marks: list[Mark] = [Polyline(((0.0, 0.0), (long, 0.0), (long, high), (0.0, high)), closed=True, layer=Layer.CUT)]
    for quarter in range(1, math.floor(4 * turns + 1e-6) + 1):
        x = long * quarter / (4 * turns)
        marks.append(Line((x, 0.0), (x, high * (0.9 if quarter % 4 == 0 else 0.5)), Layer.MARK))
    hand = "left" if twist.twist.turns < 0 else "right"
    words = f"{bar.spec.name}, twist: {say_turns(turns, style)}, {hand} hand; a line each quarter turn"
    return _lettered(marks, [words])


def cards(bar: BarResult, style: Style) -> tuple[Drawing, ...]:
    """Every card for one bar: bends, tapers, thicknesses, twists."""
    alike: dict[tuple[int, int], list[int]] = {}
    for number, (bend, leg) in enumerate(bent_legs(bar), start=1):
        if not isinstance(leg, ScrollLeg) and bend.inside_radius < LARGEST:
            angle = getattr(leg, "angle", 2 * math.pi)
            alike.setdefault((round(bend.inside_radius * 1e6), round(angle * 1e6)), []).append(number)
    found = [bend_card(bar, numbers, radius * 1e-6, angle * 1e-6, style) for (radius, angle), numbers in alike.items()]
    forged = [run for run in bar.runs if not run.kept and run.outline is None]
    found += [taper_card(bar, run, style) for run in forged if _tapers(run)]
    found += [thickness_card(bar, name, size, style) for name, size in _thicknesses(bar, forged)]
    return (*found, *(twist_card(bar, twist, style) for twist in bar.twists))


def _tapers(run: MetalRun) -> bool:
    return max(abs(run.a.width - run.b.width), abs(run.a.thick - run.b.thick)) > 1e-4


def _thicknesses(bar: BarResult, runs: Sequence[MetalRun]) -> list[tuple[str, float]]:
    """Forged end sizes worth a notch, each once; a size that the bar has as it comes is worth none."""
    found: dict[int, tuple[str, float]] = {}
    comes = (bar.stock_section.width, bar.stock_section.thick)
    for run in runs:
        for size in (run.b.width, run.b.thick, run.a.thick):
            if SMALLEST < size < 0.06 and all(abs(size - one) > 1e-5 for one in comes):
                found.setdefault(round(size * 1e6), (run.name or "section", size))
    return list(found.values())


def merged(found: Sequence[Drawing]) -> tuple[Drawing, ...]:
    """Cards that are cut alike and say alike made into one, lettered with the names of all that it is for."""
    groups: list[tuple[Drawing, list[str], list[str]]] = []
    for one in found:
        card = _from_its_corner(one)
        first, *lines = [mark.says for mark in card.marks if isinstance(mark, Text) and _captioned(mark)]
        name, _, said = first.partition(": ")
        says = [said, *lines]
        alike = next((group for group in groups if group[2] == says and _cut_alike(group[0], card)), None)
        if alike is None:
            groups.append((card, [name], says))
        else:
            alike[1].append(name)
    return tuple(_for_all([m for m in card.marks if not _captioned(m)], names, says) for card, names, says in groups)


def _cut_alike(one: Drawing, two: Drawing) -> bool:
    """Whether no place of one card's lines lies farther than a hair from the other's."""
    import shapely

    lines = []
    for card in (one, two):
        shape = [mark for mark in card.marks if mark.layer not in BESIDE]
        strokes = [stroke.points for stroke in record(Drawing(tuple(shape), card.bounds)) if len(stroke.points) > 1]
        lines.append(shapely.MultiLineString(strokes))
    return bool(shapely.hausdorff_distance(*lines) < HAIR)


HAIR = 0.0001
"""Lines nearer than this to one another are one [m]: less than a printer's line is wide."""


def _from_its_corner(card: Drawing) -> Drawing:
    """A card moved so that the lower left corner of its shape, without what stands beside it, is the origin."""
    box = bounds([mark for mark in card.marks if mark.layer not in BESIDE])
    return moved(card, -box.left, -box.bottom)


BESIDE = (Layer.DIMENSION, Layer.TEXT)
"""Layers of what stands beside the shape itself."""


def _captioned(mark: Mark) -> bool:
    """Whether a mark is a line of lettering under a card."""
    return isinstance(mark, Text) and mark.anchor is Anchor.START


def _for_all(shape: list[Mark], names: list[str], says: list[str]) -> Drawing:
    head = wrapped(f"{'; '.join(dict.fromkeys(names))}: {says[0]}", LETTER, max(WIDEST, drawing(shape).bounds.width))
    return _lettered(shape, [*head, *says[1:]])


WIDEST = 0.085
"""Width to which lettering under a card is broken [m], where the card is no wider."""
