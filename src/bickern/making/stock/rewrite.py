"""A piece written anew for another bar: what is kept as the bar was is kept of the new one, or forged from it.

Nothing here reckons: lengths and metal follow from what is written, by constant volume.
"""

from collections.abc import Callable
from dataclasses import replace

from bickern.iron.section import Section, area
from bickern.making.stock.alike import same_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec, Blank, Branch, Metal, SectionGoal, StraightLeg

Entry = Callable[[Metal], Metal]


def stood_in(spec: BarSpec, asked: Section, stock: Section) -> BarSpec:
    """The piece with bar that is near enough: what is of the `asked` section stays as the new bar comes."""
    return _for_bar(_mapped(spec, lambda entry: _of_new(entry, asked, stock)), asked, stock)


def drawn_to(spec: BarSpec, asked: Section, stock: Section) -> BarSpec | None:
    """The piece with what is kept of the `asked` bar forged to its section from the new one.

    None where the first stretch leans on the bar's own faces (`flush`, `offset`): they are others then.
    """
    at = _first_kept(spec)
    metal = spec.metal
    if at is not None:
        first = metal[at]
        if (first.flush is not None and first.end is not None) or first.offset != (0.0, 0.0):
            return None
        forged = replace(first, start=SectionGoal(asked), shoulder=0.0, flush=None)
        metal = (*metal[:at], forged, *metal[at + 1 :])
    branches = [_branch_drawn(branch, asked, stock) for branch in spec.branches]
    grown = tuple(b for b in branches if b is not None)
    if len(grown) < len(branches):
        return None
    return _for_bar(replace(spec, metal=metal, branches=grown), asked, stock)


def _branch_drawn(branch: Branch, asked: Section, stock: Section) -> Branch | None:
    """A limb that begins with the bar's own section, likewise; a branch of a bar of its own stays as it is."""
    if branch.bar.stock is not None and branch.at is not None:
        return branch
    if branch.at is None and _first_kept(branch.bar) == 0:
        return branch  # it begins with its share of what is split
    bar = drawn_to(branch.bar, asked, stock)
    if bar is None:
        return None
    return replace(branch, bar=replace(bar, stock=None) if branch.at is None else bar)


def _first_kept(spec: BarSpec) -> int | None:
    """The first stretch that has the bar's own section where it begins; an end with an outline has its own."""
    for i, entry in enumerate(spec.metal):
        if entry.outline is None:
            return i if entry.start is None else None
    return None


def keeps_the_bar(spec: BarSpec, asked: Section) -> tuple[Metal, ...]:
    """The stretches that hold the asked section from end to end: another bar changes them, or is forged to them."""
    carried: Section | None = asked
    found = []
    for entry in spec.metal:
        if entry.outline is not None:
            continue
        start = _whole(entry.start) if entry.start is not None else carried
        carried = _whole(entry.end) if entry.end is not None else start
        if start is not None and carried is not None and same_bar(start, asked) and same_bar(carried, asked):
            found.append(entry)
    return tuple(found)


def wants_the_bar(spec: BarSpec, asked: Section) -> bool:
    """Whether any of it, a blend's one end or a limb's too, is of the asked section."""
    goals = [goal for entry in spec.metal for goal in (entry.start, entry.end) if goal is not None]
    told = any(same_bar(goal.section, asked) for goal in goals if not goal.open_size)
    limbs = [b.bar for b in spec.branches if b.at is None or b.bar.stock is None]
    return _first_kept(spec) is not None or told or any(wants_the_bar(limb, asked) for limb in limbs)


def _whole(goal: SectionGoal | None) -> Section | None:
    return goal.section if goal is not None and not goal.open_size else None


def _mapped(spec: BarSpec, change: Entry) -> BarSpec:
    """Every stretch changed, of the bar and of its limbs; a branch of a bar of its own stays."""
    branches = tuple(
        b if b.at is not None and b.bar.stock is not None else replace(b, bar=_mapped(b.bar, change))
        for b in spec.branches
    )
    return replace(spec, metal=tuple(change(entry) for entry in spec.metal), branches=branches)


def _of_new(entry: Metal, asked: Section, stock: Section) -> Metal:
    """A stretch whose ends are of the asked section, with those ends of the new bar."""

    def new(goal: SectionGoal | None) -> SectionGoal | None:
        if goal is None or goal.open_size or not same_bar(goal.section, asked):
            return goal
        return SectionGoal(stock)

    return replace(entry, start=new(entry.start), end=new(entry.end))


def _for_bar(spec: BarSpec, asked: Section, stock: Section) -> BarSpec:
    """The stock put in; a length of stock that is told is told as the same metal."""
    long = spec.stock_length
    told = long if isinstance(long, Blank) else long * area(asked) / area(stock)
    return replace(spec, stock=stock, stock_length=told)


def settled(spec: BarSpec, bar: BarResult) -> BarSpec:
    """Where the length of the bar is told: the metal as it came out of it, and the length of another bar left open."""
    if isinstance(spec.stock_length, Blank):
        return spec
    runs = iter(bar.runs)
    metal = []
    for i, entry in enumerate(spec.metal):
        ramp = next(runs) if i > 0 and entry.shoulder > 0.0 and entry.start and not entry.outline else None
        run = next(runs)
        long = run.end - (ramp or run).start
        ends = [_came_out(goal, at) for goal, at in ((entry.start, run.a), (entry.end, run.b))]
        metal.append(replace(entry, length=long, start=ends[0], end=ends[1]))
    return replace(spec, metal=tuple(metal), stock_length=Blank.OPEN)


def _came_out(goal: SectionGoal | None, there: Section) -> SectionGoal | None:
    """A size that was left open, as it came out; corners as full as forging leaves them, whatever the bar."""
    if goal is None or not goal.open_size:
        return goal
    return SectionGoal(replace(there, fullness=1.0))


def loosened(spec: BarSpec, asked: Section) -> BarSpec | None:
    """The piece with its longest kept stretch, else its longest straight, left to take what the new bends leave.

    None where there is neither.
    """
    kept = [m for m in keeps_the_bar(spec, asked) if isinstance(m.length, float | int)]
    if kept:
        longest = max(kept, key=lambda m: m.length if isinstance(m.length, float | int) else 0.0)
        return replace(spec, metal=tuple(replace(m, length=Blank.REST) if m is longest else m for m in spec.metal))
    told = [g for g in spec.path if isinstance(g, StraightLeg) and isinstance(g.length, float | int)]
    if not told:
        return None
    straight = max(told, key=lambda g: g.length if isinstance(g.length, float | int) else 0.0)
    return replace(spec, path=tuple(replace(g, length=Blank.REST) if g is straight else g for g in spec.path))
