"""Constant volume: what each run of metal holds, what the fire takes, and so the stock."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import pi

from bickern.iron.blend import blend_volume
from bickern.iron.section import Section, area, perimeter
from bickern.measure.spread import Spread
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import EndOutline, EndShape

SCALE_POWER = 0.6
"""How scale loss grows as a bar gets thinner: loss ~ (A/P)^-0.6, between 0.43 (lean) and 0.7 (oxidising flame)."""
SCALE_CAP = 0.2
"""No prior loss is taken above this share: by then the tip has burnt, and no rule holds."""
_AP_THREE_EIGHTHS = 0.009525 / 4
"""A/P [m] of 3/8 in square, the bar that the priors are told for."""

WHY_SCALE = "scale: an estimate, not measured in your fire; printed trade rules run 0.6 to 7.5 %"

_SHARES = {EndShape.LEAF: 2 / 3, EndShape.SPADE: 5 / 6, EndShape.SPOON: pi / 4}
_BALANCES = {EndShape.LEAF: 0.5, EndShape.SPADE: 0.425, EndShape.SPOON: 0.5}
"""Centroid from the inner end as a share of length. Spade: (1/2 x 1/4 + 1/3 x 11/16) / (5/6), exact mathematics."""


@dataclass(frozen=True, slots=True)
class Extras:
    """What the stock wants beyond the metal of the runs: lengths of stock [m], and volume [m^3] a twist takes up.

    `first` [m] of `weld` lies before the datum end, the rest behind the other end.
    """

    weld: float = 0.0
    first: float = 0.0
    grip: float = 0.0
    kerf: float = 0.0
    twist: float = 0.0
    children: tuple[BarResult, ...] = ()


def outline_share(outline: EndOutline) -> float:
    """Area of an outlined end as a share of its rectangle."""
    if outline.shape is not EndShape.FREE:
        return _SHARES[outline.shape]
    points = outline.profile
    return sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in pairwise(points))


def outline_balance(outline: EndOutline) -> float:
    """Where an outlined end balances, as a share of its length from the end that joins the bar."""
    if outline.shape is not EndShape.FREE:
        return _BALANCES[outline.shape]
    moment = 0.0
    for (x0, w0), (x1, w1) in pairwise(outline.profile):
        moment += (x1 - x0) * (x0 * (2 * w0 + w1) + x1 * (w0 + 2 * w1)) / 6
    return moment / (outline_share(outline) or 1.0)


def run_volume(a: Section, b: Section, length: float, outline: EndOutline | None = None) -> float:
    """Metal [m^3] in a run of `length` [m] from section `a` to `b`, or under an outline of even thickness."""
    if outline is None:
        return length * _volume_of_a_metre(a, b)
    return outline_share(outline) * length * outline.width * outline.thick


@lru_cache(maxsize=1024)
def _volume_of_a_metre(a: Section, b: Section) -> float:
    return blend_volume(a, b, 1.0)


def scale_loss(volume: float, length: float, ends: tuple[Section, Section], kept: bool, rules: BarRules) -> Spread:
    """Prior share of this run lost to the fire; thin runs lose more (`SCALE_POWER`), never above `SCALE_CAP`."""
    low, value, high = own_scale(rules.scale_kept if kept else rules.scale_worked, rules)
    rim = _mean_rim(*ends)
    if high == 0.0 or length == 0.0 or volume <= 0.0 or rim <= 0.0:
        return Spread(value, low, high, ()) if high == 0.0 else Spread(value, low, high, (WHY_SCALE,))
    factor = (_AP_THREE_EIGHTHS * rim * length / volume) ** SCALE_POWER
    value, low, high = (min(SCALE_CAP, share * factor) for share in (value, low, high))
    return Spread(value, low, high, (WHY_SCALE,))


def own_scale(shares: tuple[float, float, float], rules: BarRules) -> tuple[float, float, float]:
    """Shares lost to the fire (low, value, high) as this shop has learnt them: so many times, with less doubt."""
    low, value, high = (share * rules.scale_times for share in shares)
    return value - (value - low) * rules.scale_doubt, value, value + (high - value) * rules.scale_doubt


@lru_cache(maxsize=1024)
def _mean_rim(a: Section, b: Section) -> float:
    return (perimeter(a) + perimeter(b)) / 2


def bare_volume(runs: Iterable[MetalRun], extras: Extras) -> float:
    """All metal [m^3] that comes out of the stock, before scale: runs, twists and split-off children."""
    children = sum(c.stock_bare * area(c.stock_section) for c in extras.children)
    return sum(r.volume for r in runs) + extras.twist + children


def stock_spread(runs: tuple[MetalRun, ...], stock_area: float, extras: Extras) -> Spread:
    """Stock length [m] with scale, weld, grip and kerf, and how sure it is."""
    ends = [0.0, 0.0, 0.0]
    for run in runs:
        for i, loss in enumerate((run.loss.value, run.loss.low, run.loss.high)):
            ends[i] += run.volume / (1 - loss)
    for child in extras.children:
        share = area(child.stock_section)
        for i, length in enumerate((child.stock.value, child.stock.low, child.stock.high)):
            ends[i] += length * share
    fixed = extras.weld + extras.grip + extras.kerf
    value, low, high = ((v + extras.twist) / stock_area + fixed for v in ends)
    why = (w for spread in (*(r.loss for r in runs), *(c.stock for c in extras.children)) for w in spread.why)
    return Spread(value, min(low, value), max(high, value), tuple(dict.fromkeys(why)) if high > low else ())


def stock_positions(runs: tuple[MetalRun, ...], stock_area: float, first: float) -> tuple[float, ...]:
    """Where each run's start, and the last one's end, lies on the unforged bar [m], `first` [m] in for a scarf."""
    spots = [first]
    for run in runs:
        spots.append(spots[-1] + run.volume / (1 - run.loss.value) / stock_area)
    return tuple(spots)
