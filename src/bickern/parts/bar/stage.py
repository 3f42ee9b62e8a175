"""The bar while it is being made: some of its stretches forged, some bends, twists and holes made, the rest to come."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from math import pi

from bickern.geometry.path import Arc, Kink, Leg, Spiral, Straight, Turned
from bickern.iron.section import Section, area
from bickern.measure.spread import sharp
from bickern.parts.bar.length import Bent
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import BarSpec, BendLeg, Blank, Corner, EyeLeg, PathLeg, StraightLeg

_TINY = 1e-9
Stretches = Sequence[tuple[float, float]]
"""Stretches of the finished bar, each from and to [m], in order and clear of one another."""


@dataclass(frozen=True, slots=True)
class Done:
    """What has been done so far, by the number of the entry in `BarResult.runs`, `.bends`, `.twists` and `.holes`."""

    runs: frozenset[int] = frozenset()
    bends: frozenset[int] = frozenset()
    twists: frozenset[int] = frozenset()
    holes: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Stage:
    """The bar as it lies at one moment. `bar` is drawn like any other: stretches still to be forged are stock of the
    same metal, bends still to be made are straight.

    `finished` and `now` [m], alike in number and rising: places along the finished bar, and where they are now.
    """

    bar: BarResult
    finished: tuple[float, ...]
    now: tuple[float, ...]

    def at(self, finished: float) -> float:
        """Where a place [m] along the finished bar lies now, told from the end as it is; evenly within a stretch."""
        return _across(self.finished, self.now, finished)

    def back(self, now: float) -> float:
        """The place [m] on the finished bar of a place along the bar as it lies."""
        return _across(self.now, self.finished, now)


def stage_of(result: BarResult, done: Done, left_out: Stretches = ()) -> Stage:
    """The bar with only what is `done` done to it.

    A stretch still to be forged is stock that holds its metal and what the fire will take of it; neighbours that are
    stock are one stretch. Metal kept as it comes is as long as it will be, save for what the fire takes, which goes
    when the last stretch is forged. A twist that takes up length has not taken it until it is made. A bend made in
    metal still to be drawn is so much smaller. At the ends lie, as stock, what a weld takes (until all bends of a
    closed bar, or that eye, are made), what split ends are made of, and the grip, until all is done; then the bar is
    `result` itself. Where the end is forged, what its weld takes is of the section there, and as long.

    Split ends and branches are not drawn before all is done to the bar that they grow from. Sizes, weights and
    findings stay those of the finished bar; `spec` keeps what was asked but the path. `left_out`: stretches that a
    picture leaves out, plain metal with nothing on it; then the metal of the stage is not that of the bar.
    """
    made = done.runs | _as_it_comes(result, done)
    whole = _all_is_done(result, done, made)
    if whole and not left_out:
        ends = (0.0, *(run.end for run in result.runs))
        return Stage(result, ends, ends)
    first, last = (0.0, 0.0) if whole else _for_welds(result, done)
    more = _for_twists(result, done)
    runs = [_as_it_is(run, i in made, more[i], result.stock_section) for i, run in enumerate(result.runs)]
    now = tuple(accumulate((run.end - run.start for run in runs), initial=first))
    places = Stage(result, (0.0, *(run.end for run in result.runs)), now)
    for start, end in reversed(left_out):
        places = _without(places, start, end)
    runs = [
        replace(run, start=places.at(one.start), end=places.at(one.end))
        for run, one in zip(runs, result.runs, strict=True)
    ]
    runs = _with_ends(runs, first, last, 0.0 if whole else result.grip + _for_split_ends(result), result.stock_section)
    bar = _laid(result, done, places, tuple(_joined(runs, result.stock_section)))
    return replace(places, bar=replace(bar, children=result.children if whole else ()))


def _across(one: tuple[float, ...], other: tuple[float, ...], at: float) -> float:
    """From one row of places to the other; beyond both ends length for length."""
    if at <= one[0]:
        return other[0] + at - one[0]
    if at >= one[-1]:
        return other[-1] + at - one[-1]
    i = bisect_right(one, at)
    long = one[i] - one[i - 1]
    share = (at - one[i - 1]) / long if long > 0.0 else 0.0
    return other[i - 1] + share * (other[i] - other[i - 1])


def _as_it_comes(result: BarResult, done: Done) -> frozenset[int]:
    """Stretches that count as made without being forged: those the fire takes nothing of, and, at the last, all."""
    to_forge = {i for i, run in enumerate(result.runs) if not run.kept}
    last = to_forge <= done.runs
    return frozenset(i for i, run in enumerate(result.runs) if run.kept and (last or run.loss.value == 0.0))


def _all_is_done(result: BarResult, done: Done, made: frozenset[int]) -> bool:
    return (
        len(made) >= len(result.runs)
        and len(done.bends) >= len(result.bends)
        and len(done.twists) >= len(result.twists)
        and len(done.holes) >= len(result.holes)
    )


def _for_welds(result: BarResult, done: Done) -> tuple[float, float]:
    """Stock [m] still there for a weld, before the datum end and behind the other."""
    if result.weld <= 0.0:
        return 0.0, 0.0
    if result.spec.closed:
        half = 0.0 if len(done.bends) >= len(result.bends) else result.weld / 2
        return half, half
    path = result.spec.path
    welded = [isinstance(leg, EyeLeg) and leg.welded for leg in (path[0], path[-1])] if path else [False, False]
    each = result.weld / max(1, sum(welded))
    open_ones = (0 not in done.bends, len(result.bends) - 1 not in done.bends)
    first, last = (each if one and wait else 0.0 for one, wait in zip(welded, open_ones, strict=True))
    return first, last


def _for_split_ends(result: BarResult) -> float:
    """Stock [m] that the split ends are made of."""
    split = result.children[: _splits(result.spec)]
    metal = sum(child.stock.value * area(child.stock_section) for child in split)
    return metal / area(result.stock_section)


def _for_twists(result: BarResult, done: Done) -> list[float]:
    """Metal [m3] in each stretch that twists still to be made will take up."""
    taken = result.stock_bare * area(result.stock_section) - result.worked_volume
    taken -= sum(c.stock_bare * area(c.stock_section) for c in result.children[: _splits(result.spec)])
    more = [0.0] * len(result.runs)
    if not result.twists or taken <= _TINY * result.worked_volume:
        return more
    zones = sum(twist.end - twist.start for twist in result.twists)
    for twist in (t for i, t in enumerate(result.twists) if i not in done.twists):
        for i, run in enumerate(result.runs):
            inside = min(run.end, twist.end) - max(run.start, twist.start)
            more[i] += taken * max(0.0, inside) / zones
    return more


def _splits(spec: BarSpec) -> int:
    return sum(branch.at is None for branch in spec.branches)


def _as_it_is(run: MetalRun, made: bool, more: float, stock: Section) -> MetalRun:
    """A stretch as it is now, told from 0: forged, or stock of as much metal as it takes."""
    long = run.end - run.start
    if made:
        grown = 1 + more / run.volume if run.volume > 0.0 else 1.0
        return replace(run, start=0.0, end=long * grown, volume=run.volume + more)
    metal = run.volume / (1 - run.loss.value) + more
    return MetalRun(run.name, 0.0, metal / area(stock), stock, stock, metal, run.loss, True)


def _without(places: Stage, start: float, end: float) -> Stage:
    """The places with one stretch of the finished bar brought to nothing."""
    low, high = places.at(start), places.at(end)
    rows = sorted({*zip(places.finished, places.now, strict=True), (start, low), (end, high)})
    now = tuple(at - min(max(0.0, at - low), high - low) for _, at in rows)
    return Stage(places.bar, tuple(at for at, _ in rows), now)


def _with_ends(runs: list[MetalRun], first: float, last: float, behind: float, stock: Section) -> list[MetalRun]:
    """The stretches, with what lies at both ends for welds, split ends and the grip."""
    found = list(runs)
    if first > 0.0:
        found.insert(0, _plain(0.0, first, runs[0].a))
    for long, section in ((last, runs[-1].b), (behind, stock)):
        if long > 0.0:
            found.append(_plain(found[-1].end, found[-1].end + long, section))
    return found


def _plain(start: float, end: float, section: Section) -> MetalRun:
    return MetalRun("", start, end, section, section, (end - start) * area(section), sharp(0.0), True)


def _joined(runs: Iterable[MetalRun], stock: Section) -> list[MetalRun]:
    """Neighbours that are stock and nothing else made one."""
    found: list[MetalRun] = []
    for run in runs:
        if found and _is_stock(found[-1], stock) and _is_stock(run, stock):
            before = found[-1]
            name = before.name if before.name == run.name else ""
            found[-1] = replace(before, name=name, end=run.end, volume=before.volume + run.volume)
        else:
            found.append(run)
    return found


def _is_stock(run: MetalRun, stock: Section) -> bool:
    plain = run.outline is None and not run.roll and run.offset_a == run.offset_b == (0.0, 0.0)
    return plain and same_section(run.a, stock) and same_section(run.b, stock)


def _laid(result: BarResult, done: Done, places: Stage, runs: tuple[MetalRun, ...]) -> BarResult:
    """The bar of these stretches, with the bends, twists and holes that are made in their places now."""
    at = places.at
    twists = tuple(
        replace(t, start=at(t.start), end=at(t.end)) for i, t in enumerate(result.twists) if i in done.twists
    )
    moved = replace(
        result,
        runs=runs,
        length=runs[-1].end,
        bends=tuple(
            replace(b, start=at(b.start), end=at(b.end)) for i, b in enumerate(result.bends) if i in done.bends
        ),
        twists=twists,
        holes=tuple(replace(h, at=at(h.at)) for i, h in enumerate(result.holes) if i in done.holes),
        spec=_asked(result, done),
        marks_on_stock=(),
        marks_on_drawn=(),
    )
    return replace(moved, legs=tuple(_legs(result, done, moved)))


def _asked(result: BarResult, done: Done) -> BarSpec:
    """What was asked, its path with the bends made and straights between, as many as `traced` looks for."""
    bends = [leg for leg in result.spec.path if not isinstance(leg, StraightLeg)]
    path: list[PathLeg] = [StraightLeg(Blank.OPEN)]
    for bend in (leg for i, leg in enumerate(bends) if i in done.bends):
        path += [bend, StraightLeg(Blank.OPEN)]
    closed = result.spec.closed and len(done.bends) >= len(result.bends)
    return replace(result.spec, path=tuple(path) if len(path) > 1 else (), closed=closed)


def _legs(result: BarResult, done: Done, moved: BarResult) -> list[Leg]:
    """The line as it is now: bends made as they will be, straights between them."""
    turns = [(twist.end, Turned(2 * pi * twist.twist.turns)) for twist in moved.twists]
    made = [(i, spot) for i, spot in enumerate(_legs_of_bends(result)) if i in done.bends]
    legs: list[Leg] = []
    at = 0.0
    for (i, (low, high)), bend in zip(made, moved.bends, strict=True):
        legs += _straight(at, bend.start, turns)
        long = result.bends[i].end - result.bends[i].start
        ratio = (bend.end - bend.start) / long if long > 0.0 else 1.0
        legs += [_sized(leg, ratio) for leg in result.legs[low:high]]
        legs += [turn for end, turn in turns if bend.start + _TINY < end <= bend.end + _TINY]
        at = bend.end
    return [*legs, *_straight(at, moved.length, turns)] or [Straight(moved.length)]


def _legs_of_bends(result: BarResult) -> list[tuple[int, int]]:
    """From and to which leg of the line each bend goes; a square corner has its straight tails, an eye its kink."""
    curved = iter([i for i, leg in enumerate(result.legs) if isinstance(leg, Arc | Spiral | Kink)])
    found = []
    for leg in result.spec.path:
        if isinstance(leg, StraightLeg):
            continue
        i = next(curved)
        found.append(_around(leg, i, curved))
    return found


def _around(leg: Bent, i: int, curved: Iterator[int]) -> tuple[int, int]:
    if isinstance(leg, BendLeg) and leg.corner is Corner.SQUARE:
        return i - 1, i + 2
    if isinstance(leg, EyeLeg) and leg.centred:
        return i, next(curved) + 1
    return i, i + 1


def _straight(start: float, end: float, turns: list[tuple[float, Turned]]) -> list[Leg]:
    """A straight from `start` to `end` [m], cut where a twist has turned the face."""
    inside = [(min(at, end), turn) for at, turn in turns if start + _TINY < at <= end + _TINY]
    legs: list[Leg] = []
    for (low, _), (high, turn) in pairwise([(start, None), *inside, (end, None)]):
        legs += [Straight(high - low)] if high - low > _TINY else []
        legs += [turn] if turn is not None else []
    return legs


def _sized(leg: Leg, ratio: float) -> Leg:
    """A leg of a bend made in metal that is `ratio` times as long as it will be."""
    if abs(ratio - 1) < _TINY:
        return leg
    if isinstance(leg, Straight):
        return Straight(leg.length * ratio)
    if isinstance(leg, Arc):
        return replace(leg, radius=leg.radius * ratio)
    if isinstance(leg, Spiral):
        return replace(leg, start_radius=leg.start_radius * ratio, end_radius=leg.end_radius * ratio)
    return leg
