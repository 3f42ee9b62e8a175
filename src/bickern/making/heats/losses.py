"""What the fire takes of each stretch of a bar, from the heats that it sits through."""

from collections.abc import Iterable, Iterator
from math import hypot, inf

from bickern.iron.scale import beside_steel
from bickern.iron.steel import MetalClass, find_steel
from bickern.making.heats.result import PiecePlan, Spell
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.volume import SCALE_CAP, own_scale

MOST_IN_PRINT = Known(
    0.075, "1", Source("", "the highest trade rule for scale that was found, 0.6 to 7.5 %", None, "", Kind.HANDBOOK)
)
WHY_HEATS = "scale: reckoned heat by heat for this fire's flame, not measured in it; heats may be out by a factor 1.8"


_NOTHING_LEARNT = BarRules()


def losses_of(
    plan: PiecePlan, result: BarResult, longest: float = inf, rules: BarRules = _NOTHING_LEARNT
) -> tuple[Spread, ...]:
    """Share of its metal that each run loses, (low, value, high); () where no heats are planned for the piece.

    `longest` [m]: the hot zone that the fire gives; of a longer one only that much is hot at once. `rules`: what the
    shop has learnt of its own fire multiplies the law, and the highest in print with it.

    A run that lies by a share o in the hot zone of a heat that takes l of what is hot keeps 1 - o l of its metal; n
    heats alike keep (1 - o l)^n, and all heats are multiplied. How many heats and how much each takes are faults of
    two kinds, so their ends are put together as the root of the sum of squares. No more is taken than any printed rule
    asks for (`MOST_IN_PRINT`), at the high end than `SCALE_CAP`: beyond, the count of heats is in doubt, not the iron.
    A run kept as it comes from the rack keeps what the shop's rule says of it: the fire thins it and leaves it as long
    as it was.
    """
    hot = [spell for spell in plan.spells if spell.hot and any(not work.child for work in spell.works)]
    if plan.refused or not hot:
        return ()
    steel = find_steel(result.spec.steel).value
    family = steel.family if steel is not None else MetalClass.MILD
    return tuple(
        run.loss if run.kept else _own(beside_steel(loss_of_run(run, hot, longest), family), rules)
        for run in result.runs
    )


def _own(loss: Spread, rules: BarRules) -> Spread:
    low, value, high = (min(SCALE_CAP, one) for one in own_scale((loss.low, loss.value, loss.high), rules))
    return Spread(value, min(low, value), max(value, high), loss.why)


def loss_of_run(run: MetalRun, hot: Iterable[Spell], longest: float = inf) -> Spread:
    """Share of one worked run lost in these heats."""
    sat = tuple(_sat_through(run, hot, longest))
    value = _taken((share * s.loss.value, s.times.value) for share, s in sat)
    more = hypot(
        _taken((share * s.loss.high, s.times.value) for share, s in sat) - value,
        _taken((share * s.loss.value, s.times.high) for share, s in sat) - value,
    )
    less = hypot(
        value - _taken((share * s.loss.low, s.times.value) for share, s in sat),
        value - _taken((share * s.loss.value, s.times.low) for share, s in sat),
    )
    capped = min(MOST_IN_PRINT.value, value)
    return Spread(capped, min(capped, max(0.0, value - less)), min(SCALE_CAP, value + more), (WHY_HEATS,))


def _sat_through(run: MetalRun, hot: Iterable[Spell], longest: float) -> Iterator[tuple[float, Spell]]:
    """The heats that a run sits through, each with the share of the run that is hot in one of them."""
    for spell in hot:
        share = hot_share(run, spell.zone) * _at_once(spell, longest)
        if share > 0.0:
            yield share, spell


def _at_once(spell: Spell, longest: float) -> float:
    """Share of a spell's zone that is hot in one of its heats; its length is half-way from before to after."""
    long = (spell.now[1] - spell.now[0] + spell.zone[1] - spell.zone[0]) / 2
    return min(1.0, longest / long) if long > 0.0 else 1.0


def hot_share(run: MetalRun, zone: tuple[float, float]) -> float:
    """Share of a run's length that lies within a zone [m] of the finished bar."""
    long = run.end - run.start
    if long <= 0.0:
        return 1.0 if zone[0] <= run.start <= zone[1] else 0.0
    return max(0.0, min(run.end, zone[1]) - max(run.start, zone[0])) / long


def _taken(heats: Iterable[tuple[float, float]]) -> float:
    """Share taken by heats, each as (share that one takes, how many alike)."""
    kept = 1.0
    for share, times in heats:
        kept *= max(0.0, 1.0 - share) ** times
    return 1.0 - kept
