"""The bar before it is forged, and before it is bent, with its marks told from the datum end."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bickern.measure.units.say import other_first, say_both, say_length, say_up, say_up_both
from bickern.measure.units.words import Style
from bickern.paper.glyphs import plain
from bickern.paper.marks import (
    Anchor,
    Box,
    Drawing,
    Filled,
    Layer,
    Line,
    Mark,
    Point,
    Text,
    Tick,
    TickKind,
    Tone,
    Weight,
    corners,
    drawing,
    rectangle,
    text_width,
)
from bickern.paper.views.ruler import Ruler, levels, ruler
from bickern.parts.bar.result import BarResult, MarkKind
from bickern.parts.bar.result import Mark as BarMark

FIGURE = 0.0028
"""Capitals of a running dimension [m]."""
SMALL = 0.0024
"""Capitals of the second system and of remarks [m]."""
DEEPEST = 0.007
"""Thickest that a bar is drawn on the sheet [m]."""
LEVEL = 0.0075
"""Height of one level of running dimensions [m]."""
_TICKS = {MarkKind.PUNCH: TickKind.PUNCH, MarkKind.CHALK: TickKind.CHALK}


@dataclass(frozen=True, slots=True)
class Named:
    """A mark with the name it goes by on this sheet: P1 for a punch mark, C2 for chalk."""

    name: str
    mark: BarMark


def named_marks(marks: Sequence[BarMark], first: int = 1) -> tuple[Named, ...]:
    """The marks in order from the datum end, numbered from `first`; the letter says punch or chalk."""
    ordered = sorted(marks, key=lambda mark: mark.at)
    return tuple(Named(f"{_letter(mark.kind)}{number}", mark) for number, mark in enumerate(ordered, start=first))


def _letter(kind: MarkKind) -> str:
    return "P" if kind is MarkKind.PUNCH else "C"


def stock_strip(result: BarResult, wide: float, style: Style) -> Drawing:
    """The unforged bar, cut to length, with its marks as running dimensions from the datum end; `wide` [m] at most."""
    places = [mark.at for mark in result.marks_on_stock]
    rule = ruler(places, result.cut_this, wide - 2 * SIDE)
    return stock_on(result, rule, min(DEEPEST, result.stock_section.width), style)


def stock_on(result: BarResult, rule: Ruler, high: float, style: Style) -> Drawing:
    """The same with its places laid out by `rule`, and drawn `high` [m]."""
    marks = named_marks(result.marks_on_stock)
    box = Box(0.0, 0.0, rule.put(result.cut_this), high)
    grip: list[Mark] = []
    if result.grip > 0:
        held = Box(rule.put(max(0.0, result.cut_this - result.grip)), 0.0, box.right, high)
        grip = [
            Filled(corners(held), Tone.HATCHED),
            Text((held.centre[0], high + 0.0025), "grip", SMALL, Anchor.MIDDLE),
        ]
    ends = (*ends_of(box, "cut"), *running(marks, rule, result.cut_this, style))
    return drawing([rectangle(box), *grip, *_ticks(marks, rule, high), *ends])


SIDE = 0.012
"""Room kept beside a strip for the lettering of its ends [m]."""


def _ticks(marks: Sequence[Named], rule: Ruler, high: float) -> list[Mark]:
    """Each mark's own sign on the bar, and its name above."""
    found: list[Mark] = []
    for named in marks:
        x, size = rule.put(named.mark.at), min(0.005, max(0.003, high * 0.6))
        if named.mark.kind is MarkKind.CHALK:
            found.append(Tick((x, high / 2), TickKind.CHALK, high + 0.003))
        else:
            found += [Line((x, 0.0), (x, high), Layer.CENTRE), Tick((x, high / 2), _TICKS[named.mark.kind], size)]
    return [*found, *tags(marks, rule, high + 0.0025, FIGURE)]


def tags(marks: Sequence[Named], rule: Ruler, low: float, height: float) -> list[Mark]:
    """The names of marks, from `low` [m] up, on as many levels as keep them clear of one another."""
    plain = [tag((rule.put(named.mark.at), low), named, height) for named in marks]
    halves = [text_width(one.says, height) / 2 for one in plain]
    spans = [(one.at[0] - half, one.at[0] + half) for one, half in zip(plain, halves, strict=True)]
    found: list[Mark] = []
    for one, level in zip(plain, levels(spans, 0.0008), strict=True):
        found.append(replace(one, at=(one.at[0], low + level * RISE * height)))
        if level:
            found.append(Line((one.at[0], low - 0.001), (one.at[0], low + level * RISE * height), Layer.DIMENSION))
    return found


RISE = 1.5
"""From one level of names to the next, in capitals."""


def tag(at: Point, named: Named, height: float) -> Text:
    """A mark's name over its sign; at the datum end it stands clear of the flag."""
    x = at[0] if named.mark.at > 1e-4 else at[0] - 0.0045
    return Text((x, at[1]), named.name, height, Anchor.MIDDLE, weight=Weight.BOLD)


def ends_of(box: Box, cut: str) -> list[Mark]:
    """The datum flag at the left end, and what the other end is."""
    marks: list[Mark] = [Tick((box.left, box.top + 0.0022), TickKind.DATUM, 0.006)]
    if cut:
        marks.append(Tick((box.right, box.height / 2), TickKind.CHISEL, box.height + 0.005))
        marks.append(Text((box.right + 0.0025, box.height / 2 - SMALL / 2), cut, SMALL, weight=Weight.BOLD))
    return marks


def running(marks: Sequence[Named], rule: Ruler, end: float, style: Style) -> list[Mark]:
    """Running dimensions below: the distance from the datum end at each mark and at the end, in both systems."""
    places = [*(named.mark.at for named in marks if named.mark.at > 1e-9), end]
    return dimensions_below([(rule.put(place), place) for place in places], style, cut=True)


def dimensions_below(places: Sequence[tuple[float, float]], style: Style, cut: bool = False) -> list[Mark]:
    """Figures under a bar: (place on paper, length to say) [m], on as many levels as keep them clear of one another.

    `cut`: the last of them is where the bar is cut, and is rounded up.
    """
    how = [say_up if cut and i == len(places) - 1 else say_length for i in range(len(places))]
    said = [(say(s, style), say(s, other_first(style))) for (_, s), say in zip(places, how, strict=True)]
    return figures_below([(x, one, two) for (x, _), (one, two) in zip(places, said, strict=True)])


def figures_below(places: Sequence[tuple[float, str, str]]) -> list[Mark]:
    """The same of what is said already: place on paper [m], in the shop's own system, and in the other below it."""
    widths = [max(text_width(one, FIGURE), text_width(two, SMALL)) for _, one, two in places]
    spans = [(x - wide / 2, x + wide / 2) for (x, _, _), wide in zip(places, widths, strict=True)]
    found: list[Mark] = [Tick((0.0, 0.0), TickKind.CHALK, 0.004)] if places else []
    for (x, one, two), level in zip(places, levels(spans), strict=True):
        top = -0.0045 - LEVEL * level
        found.append(Line((x, -0.001), (x, top), Layer.DIMENSION))
        found.append(Text((x, top - FIGURE - 0.0008), one, FIGURE, Anchor.MIDDLE, weight=Weight.BOLD))
        found.append(Text((x, top - FIGURE - SMALL - 0.0018), two, SMALL, Anchor.MIDDLE))
    return found


STRIP = 0.012
"""Least height of a full-size strip [m]."""
PLAIN = 0.0020
"""Capitals on a full-size strip [m]: it is read at the bench, not at arm's length."""
LINE = 0.0042
"""Height of one line of lettering on a full-size strip [m]."""


CUT_HERE = "cut here"
"""What the end of a rule for the stock is."""


def rule_strip(title: str, length: float, marks: Sequence[Named], style: Style, end: str = "") -> Drawing:
    """A paper rule at full size to lay on the bar: its lower edge goes on the iron, its left end on the datum end.

    The paper may run on past the end of the bar, to hold the lettering; a heavy line across is the end itself, and is
    where the bar is cut unless `end` says what else it is.
    """
    lettered = [(n.mark.at, _words(n, min(LONGEST, length + PAST - n.mark.at), style)) for n in marks]
    says = say_both if end else say_up_both
    lettered.append((length, f"{end or CUT_HERE}  {says(length, style)}"))
    rows = _from_the_right(lettered)
    high = max(STRIP, 0.007 + LINE * (2 + max(rows)))
    right = max(at + LEAD + text_width(words, PLAIN) for at, words in lettered) + 0.002
    head = f"{title}: datum end here, this edge on the iron"
    edge = Box(0.0, 0.0, max(right, text_width(head, SMALL) + 0.012), high)
    found: list[Mark] = [rectangle(edge, Layer.DIMENSION)]
    found.append(Text((0.008, high - 0.0035), head, SMALL, weight=Weight.BOLD))
    found += [Line((0.0, 0.0), (length, 0.0), Layer.CUT), Line((length, 0.0), (length, 0.0095), Layer.CUT)]
    found += [Line((0.0, 0.0), (0.0, high), Layer.CUT), Tick((0.0, 0.003), TickKind.DATUM, 0.006)]
    found += [_words_at(at, words, row) for (at, words), row in zip(lettered, rows, strict=True)]
    for named, row in zip(marks, rows, strict=False):
        found += _rule_mark(named, 0.007 + LINE * row)
    # spelled out, so that no room is kept for a tick: the paper's edge is the iron's, its corner the datum end
    return drawing(plain(found))


PAST = 0.055
"""How far lettering may run on past the end of the bar [m]."""
LONGEST = 0.050
"""Longest line of lettering at a mark: a joint of strips must find room beside it [m]."""
LEAD = 0.0012
"""From a mark to its lettering [m]."""


def _words(named: Named, room: float, style: Style) -> str:
    """A mark's name, its place, and what it is where there is room; the sheet says it in full under the same name."""
    place = f"{named.name}  {say_both(named.mark.at, style)}"
    full = f"{place}  {named.mark.says}"
    return full if text_width(full, PLAIN) <= room else place


def _from_the_right(lettered: Sequence[tuple[float, str]]) -> list[int]:
    """The level of each line of lettering; taken from the right, no mark's stroke runs through another's words."""
    spans = [(-(at + LEAD + text_width(words, PLAIN)), -at) for at, words in lettered]
    order = sorted(range(len(spans)), key=lambda i: spans[i][1])
    found = [0] * len(spans)
    for i, level in zip(order, _rising([spans[i] for i in order]), strict=True):
        found[i] = level
    return found


def _rising(spans: Sequence[tuple[float, float]]) -> list[int]:
    """Levels for spans whose right ends rise: each above every one whose mark it reaches over."""
    found: list[int] = []
    for i, (left, _) in enumerate(spans):
        under = [found[j] for j in range(i) if -spans[j][1] < -left + 0.002]
        found.append(1 + max(under) if under else 0)
    return found


def _words_at(at: float, words: str, row: int) -> Text:
    return Text((at + LEAD, 0.007 + LINE * row), words, PLAIN)


def _rule_mark(named: Named, level: float) -> list[Mark]:
    x = named.mark.at
    kind = _TICKS[named.mark.kind]
    sign = Tick((x, 0.0025), kind, 0.005) if kind is TickKind.CHALK else Tick((x, 0.0035), kind, 0.003)
    stroke = Line((x, 0.0), (x, level + PLAIN), Layer.MARK)
    return [stroke, sign] if x > 1e-4 else [stroke]
