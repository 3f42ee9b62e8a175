"""Marks and cut lengths at the steps of work, in the words of the mark-out that is printed on the same sheet."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from bickern.making.heats.lies import Lying
from bickern.making.heats.result import Spell
from bickern.making.shop import Shop
from bickern.making.work.result import Work
from bickern.measure.units.say import say_both, say_up_both
from bickern.measure.units.words import INCH, Style
from bickern.paper.copy import Copy
from bickern.paper.sheets.where_words import limbs
from bickern.paper.views.strip import Named, named_marks
from bickern.parts.bar.marks import drawn_place
from bickern.parts.bar.result import BarResult, BendSpan
from bickern.parts.bar.tracks import EyeLeg
from bickern.parts.bar.twist import shortening
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult

AGAIN = "again"
"""The case of marking a bar that has been drawn out."""
ONE_MARK = INCH / 32 + 2e-5
"""A place this near to a mark [m] is at it: marks nearer to one another are struck as one."""
_AT_MIDDLE = frozenset({"sharp", "close", "cold", ""})
"""Cases of bends that are laid by the mark of their middle; the others go from mark to mark."""
Place = tuple[str, ...]
"""A bar by its piece, and a limb of it by the names that lead to it."""


@dataclass(frozen=True, slots=True)
class Marking:
    """The bars of a job with the shop that they are marked in, and what each ring is cut to [m]."""

    shop: Shop
    bars: Mapping[Place, BarResult]
    rings: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Again:
    """When marks are struck that hold only once a bar is drawn out.

    `before`: works of marking before a spell, by its place in the order; `later`: names of the marks that are not
    struck with the first, of each bar; `hot`: keys of works whose marks fall in the heat that draws the bar out.
    `now`: by the key of a work, where its marks lie then [m], if that is not yet where they lie on the bar drawn out.
    """

    before: Mapping[int, tuple[Work, ...]]
    later: Mapping[Place, frozenset[str]]
    hot: frozenset[str]
    now: Mapping[str, Mapping[str, float]]


NOWHERE: Mapping[str, float] = {}
NOT_AGAIN = Again({}, {}, frozenset(), {})
"""All marks are struck before the fire."""


def marking_of(pieces: Iterable[PieceResult], shop: Shop) -> Marking:
    """What is marked and cut in a job."""
    bars: dict[Place, BarResult] = {}
    rings = {}
    for piece in pieces:
        if isinstance(piece, BarResult):
            bars.update(limbs(piece, (piece.spec.name,)))
        elif isinstance(piece, RingResult):
            rings[piece.spec.name] = piece.cut_this
    return Marking(shop, bars, rings)


def on_longer_bar(works: Iterable[Work], child: Place = ()) -> bool:
    """Whether a bar (or its limb) is never cut to length first, but cut off the longer bar that it is forged on."""
    done = {work.does for work in works if work.child == child}
    return "cut off" in done and "cut bar" not in done


def names_on_longer_bars(copy: Copy) -> frozenset[str]:
    """What is forged on a longer bar and cut off it, by the names in the table of what to cut; none without a plan."""
    if copy.plan is None:
        return frozenset()
    works = [work for piece in copy.plan.pieces for spell in piece.spells for work in spell.works]
    bars = marking_of(copy.pieces, copy.shop).bars
    found = set()
    for place, bar in bars.items():
        if on_longer_bar((work for work in works if work.piece == place[0]), place[1:]):
            found.add(place[0] if len(place) == 1 else f"{bars[place[:-1]].spec.name}: {bar.spec.name}")
    return frozenset(found)


def length_says(work: Work, marking: Marking) -> str:
    """To what a bar is cut; nothing for any other work, nor for a coil that gives many rings."""
    if work.does != "cut bar" or work.case == "coil":
        return ""
    bar = marking.bars.get(_place(work))
    cut = bar.cut_this if bar is not None else marking.rings.get(work.piece, 0.0)
    return f"{say_up_both(cut, marking.shop.style)} long" if cut > 0 else ""


def at_says(work: Work, marking: Marking, told: Again = NOT_AGAIN) -> str:
    """Where on the bar a hole, a bend or a twist is: `at P4, 13/16 in (20.5 mm)`, `P4 to P5, ... to ...`.

    What is wanted before the bar is drawn out is told where it lies then.
    """
    now = told.now.get(work.key, NOWHERE)
    says = _at_says(work, marking, now)
    return f"{says}, as the bar lies now: not as on the drawing" if says and now else says


def _at_says(work: Work, marking: Marking, now: Mapping[str, float]) -> str:
    bar = marking.bars.get(_place(work))
    if bar is None:
        return ""
    there, style = _there(bar, marking.shop, now), marking.shop.style
    if work.holes:
        return _at([there.mark(there.bar.holes[i].at) for i in work.holes], style)
    if work.twists:
        twist = bar.twists[work.twists[0]]
        return _from_to(there.mark(twist.start), there.mark(twist.end), style)
    return _bend_at(work, bar.bends[work.bends[0]], there, style) if work.bends else ""


def _bend_at(work: Work, bend: BendSpan, there: "_There", style: Style) -> str:
    """A close bend by its middle, an eye by where it begins, anything longer from mark to mark."""
    ends = there.mark(bend.start), there.mark(bend.end)
    if work.does == "bend" and work.case in _AT_MIDDLE and (middle := there.mark((bend.start + bend.end) / 2)):
        return f"middle {_at([middle], style)}"
    if work.does in ("curl", "scroll") and None in ends:
        return _at(ends, style)
    return "" if work.does == "hoop" else _from_to(*ends, style)


def marks_of(work: Work, marking: Marking) -> dict[Named, float]:
    """The marks on the drawn bar that a work goes by, each with its place on the finished bar [m]."""
    bar = marking.bars.get(_place(work))
    if bar is None:
        return {}
    there = _there(bar, marking.shop)
    places = [bar.holes[i].at for i in work.holes]
    spans = [(bar.twists[i].start, bar.twists[i].end) for i in work.twists]
    spans += [(bar.bends[i].start, bar.bends[i].end) for i in work.bends]
    places += [at for start, end in spans for at in (start, (start + end) / 2, end)]
    return {one: at for at in places if (one := there.mark(at)) is not None}


def again(spells: Sequence[Spell], marking: Marking) -> Again:
    """What must be marked again, and when: before the first work that goes by it, once the bar is drawn there."""
    before: dict[int, tuple[Work, ...]] = {}
    later: dict[Place, frozenset[str]] = {}
    hot: set[str] = set()
    now: dict[str, Mapping[str, float]] = {}
    marked = {_place(w) for spell in spells for w in spell.works if w.does == "mark"}
    for place in dict.fromkeys(_place(w) for spell in spells for w in spell.works):
        for group in _groups(spells, place, marking, drawn=place not in marked):
            now.update(dict.fromkeys(group.works, group.now) if group.now else {})
            later[place] = later.get(place, frozenset()) | {one.name for one in group.marks} | group.now.keys()
            hot.update(group.works if group.hot else ())
            if group.marks and not group.hot:
                before[group.index] = (*before.get(group.index, ()), _marked_again(place, group.marks))
    return Again(before, later, frozenset(hot), now)


@dataclass(frozen=True, slots=True)
class _Group:
    """Marks struck together before the spell `index`, for `works` by key; `hot`: in the very heat that draws the bar.

    `now`: marks that do not lie yet where they will when all is drawn out, by name, and where they lie then [m].
    """

    index: int
    marks: tuple[Named, ...]
    works: tuple[str, ...]
    hot: bool
    now: Mapping[str, float]


def _groups(spells: Sequence[Spell], place: Place, marking: Marking, *, drawn: bool) -> Iterator[_Group]:
    """One bar's marks after drawing, struck before its next drawing heat as far as they are wanted till then."""
    struck: set[str] = set()
    for i, spell in enumerate(spells):
        here = _forges(spell, place)
        drawn = drawn or here
        own = [w for w in spell.works if _place(w) == place and marks_of(w, marking)]
        if not own:
            continue
        till = i + 1 if here else next((j for j in range(i, len(spells)) if _forges(spells[j], place)), len(spells))
        wanted = [w for each in spells[i:till] for w in each.works if _place(w) == place]
        new = {one: at for w in wanted for one, at in marks_of(w, marking).items() if one.name not in struck}
        struck |= {one.name for one in new}
        now = _moved(spells[: i + 1 if here else i], place, new, marking)
        marks = tuple(sorted((one for one in new if one.name not in now), key=_number))
        if new and (drawn or now):
            yield _Group(i, marks if drawn else (), tuple(w.key for w in wanted), here, now)


def _moved(spells: Sequence[Spell], place: Place, marks: Mapping[Named, float], marking: Marking) -> dict[str, float]:
    """The marks that do not lie, after these spells, where the drawing has them; and where they lie [m]."""
    works = [w for spell in spells for w in spell.works if _place(w) == place]
    stage = Lying(marking.bars[place]).after(replace(w, bends=(), twists=(), holes=()) for w in works).stage
    lies = {one: stage.at(at) for one, at in marks.items()}
    return {one.name: at for one, at in lies.items() if abs(at - one.mark.at) > 2 * ONE_MARK}


def _forges(spell: Spell, place: Place) -> bool:
    return any(work.hot and work.runs and _place(work) == place for work in spell.works)


def _marked_again(place: Place, marks: Sequence[Named]) -> Work:
    key = f"{place[0]}: mark {listed(marks)}"
    return Work(key, place[0], "mark", name=listed(marks), child=place[1:], case=AGAIN)


def with_marks(spells: Sequence[Spell], told: Again) -> Iterator[Spell]:
    """The spells with a turn at the bench before each that goes by marks not struck yet."""
    for i, spell in enumerate(spells):
        if i in told.before:
            yield Spell(spell.piece, told.before[i], hot=False)
        yield spell


def first_marks(work: Work, marking: Marking, told: Again, longer: bool) -> str:
    """What is marked before the fire, where not all of it is; how much of a longer bar a piece takes."""
    bar = marking.bars.get(_place(work))
    if bar is None or work.does != "mark" or work.case == AGAIN:
        return ""
    takes = f"{say_up_both(bar.cut_this, marking.shop.style)} of the longer bar is for it" if longer else ""
    left = told.later.get(_place(work), frozenset())
    if not left:
        return takes
    now = [*named_marks(bar.marks_on_stock)]
    now += [one for one in _there(bar, marking.shop).marks if one.name not in left]
    says = f"now only {listed(now)}" if now else "now only the datum end"
    return "; ".join(one for one in (takes, says) if one)


@dataclass(frozen=True, slots=True)
class _There:
    """One bar with its marks after drawing, and where places on the finished bar lie before it is twisted and bent.

    `now` [m]: marks that do not lie there yet.
    """

    bar: BarResult
    marks: tuple[Named, ...]
    lost: tuple[float, ...]
    now: Mapping[str, float]

    def mark(self, finished: float) -> Named | None:
        """The mark at a place [m] on the finished bar, if it has one."""
        at = drawn_place(self.bar.twists, self.lost, _first(self.bar))(finished)
        near = min(self.marks, key=lambda one: abs(one.mark.at - at), default=None)
        if near is None or abs(near.mark.at - at) >= ONE_MARK:
            return None
        return replace(near, mark=replace(near.mark, at=self.now.get(near.name, near.mark.at)))


def _there(bar: BarResult, shop: Shop, now: Mapping[str, float] = NOWHERE) -> _There:
    marks = named_marks(bar.marks_on_drawn, len(bar.marks_on_stock) + 1)
    return _There(bar, marks, shortening(bar.twists, shop.bar), now)


def _first(bar: BarResult) -> float:
    """What is left for a weld before the datum end [m]: half of a hoop's, all of an eye's."""
    if bar.spec.closed:
        return bar.weld / 2
    ends = [isinstance(leg, EyeLeg) and leg.welded for leg in (*bar.spec.path[:1], *bar.spec.path[-1:])]
    return bar.weld / sum(ends) if ends and ends[0] else 0.0


def _place(work: Work) -> Place:
    return (work.piece, *work.child)


def _number(one: Named) -> int:
    return int(one.name[1:])


def _at(marks: Sequence[Named | None], style: Style) -> str:
    found = [one for one in marks if one is not None]
    if not found:
        return ""
    if len(found) > MOST:
        return f"at {listed(found)}"
    return f"at {listed(found)}, {_and([say_both(one.mark.at, style) for one in found])}"


MOST = 4
"""Most marks whose distances are told at one step: those of more stand on the drawing."""


def _from_to(first: Named | None, last: Named | None, style: Style) -> str:
    """From mark to mark; an end of the bar has none."""
    if first is None and last is None:
        return ""
    if first is None or last is None:
        inner = first or last
        told = f"{inner.name}, {say_both(inner.mark.at, style)}" if inner is not None else ""
        return f"from the datum end to {told}" if last is not None else f"from {told}, to its end"
    return f"{first.name} to {last.name}, {say_both(first.mark.at, style)} to {say_both(last.mark.at, style)}"


def listed(marks: Sequence[Named]) -> str:
    """`P4 and C5`, `P4 to C8`, `P2, P4 and C7`: names of marks, three or more that follow one another as a stretch."""
    groups: list[list[Named]] = []
    for one in sorted(marks, key=_number):
        if groups and _number(one) == _number(groups[-1][-1]) + 1:
            groups[-1].append(one)
        else:
            groups.append([one])
    said: list[str] = []
    for group in groups:
        said += [f"{group[0].name} to {group[-1].name}"] if len(group) > 2 else [one.name for one in group]
    return _and(said)


def _and(said: Sequence[str]) -> str:
    return " and ".join([*([", ".join(said[:-1])] if len(said) > 1 else []), *said[-1:]])
