"""Short pieces: forged on the end of a longer bar, which is the handle, and cut off last."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.iron.section import area, hydraulic
from bickern.making.heats.checks import on_a_longer_bar
from bickern.making.heats.hold import LOOSE, SHORT, Handle
from bickern.making.heats.lies import thickness
from bickern.making.heats.result import End
from bickern.making.shop import Shop
from bickern.making.work.bar_works import cut_off
from bickern.making.work.result import Work
from bickern.measure.finding import Finding
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import EyeLeg, ScrollLeg


@dataclass(frozen=True, slots=True)
class Handled:
    """One way to hold a piece: its works with that, and what there is to say. `last`: there is no other."""

    handle: Handle
    works: tuple[Work, ...]
    findings: tuple[Finding, ...] = ()
    last: bool = True


def handled(bar: BarResult, works: Sequence[Work], shop: Shop) -> Iterator[Handled]:
    """Ways to hold a bar, the best first: cut to length while there is enough to hold, else on a longer bar."""
    if bar.grip > 0:
        yield Handled(Handle(End.OTHER), tuple(works))
        return
    hot = any(w.hot for w in works)
    long_enough = bar.stock.value >= SHORT.value
    if not hot or long_enough or bar.spec.closed:
        yield Handled(LOOSE, tuple(works), last=not hot or bar.spec.closed)
    if hot and not bar.spec.closed:
        end = handle_end(bar)
        left = tuple(w for w in works if w.does != "cut bar" or w.child)
        yield Handled(Handle(end), (*left, _cut_off(bar, end, shop)), (on_a_longer_bar(bar, bar.stock.value, shop),))


def handle_end(bar: BarResult) -> End:
    """The end that goes on into the longer bar: the stouter, and not one that is turned up or split."""
    path = bar.spec.path
    curled = [isinstance(leg, EyeLeg | ScrollLeg) for leg in (path[0], path[-1])] if path else [False, False]
    split = any(b.at is None for b in bar.spec.branches)
    ends = (bar.runs[0], bar.runs[-1])
    sections = (ends[0].a, ends[1].b)
    sizes = [
        -1.0 if curled[i] or ends[i].outline is not None else hydraulic(s) if area(s) else 0.0
        for i, s in enumerate(sections)
    ]
    return End.DATUM if split or sizes[0] > sizes[1] else End.OTHER


def _cut_off(bar: BarResult, end: End, shop: Shop) -> Work:
    work = cut_off(bar, shop)
    if end is End.OTHER:
        return work
    section = bar.runs[0].a
    long = min(bar.length, max(thickness(bar.stock_section), 0.0))
    return replace(work, zone=(0.0, long), before=section, after=section)
