"""The figures that a day book moves: where each stands in a shop, how sure it is without records, how far it goes."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from math import exp, log
from typing import Any

from bickern.making.lessons.kinds import AT
from bickern.making.shop import Shop
from bickern.making.work.ways import WAYS
from bickern.measure.learned import Belief
from bickern.measure.source import COMMON_PRACTICE, Kind, Source


def _guess(title: str, where: str) -> Source:
    return Source("", title, None, where, Kind.MEMORY)


@dataclass(frozen=True, slots=True)
class Learnable:
    """One figure. `where`: the rooms of the shop and the fields it stands in. `says`: what it is, in words.

    `spread`: one standard deviation without any record, of its natural logarithm where it is `positive`, else of
    itself; it is never taken to be under `least` or over `most`. `source`: of that spread; the value's own stands in
    the shop.
    """

    key: str
    says: str
    where: tuple[tuple[str, str], ...]
    spread: float
    positive: bool
    least: float
    most: float
    source: Source


_WELD = (("bar", "weld_times"), ("ring", "weld_times"), ("joint", "weld_times"))
COMMON: tuple[Learnable, ...] = (
    Learnable(
        "scale", "what the fire takes, times what is reckoned", (("bar", "scale_times"),), log(2.0), True, 0.05, 10.0,
        _guess("scale: trade rules and the law, each for its own fire", "half to twice what is reckoned"),
    ),
    Learnable(
        "corners", "how full forged corners come out", (("bar", "corner_fullness"),), 0.08, True, 0.7, 1.0,
        _guess("corners of a forged square", "one lesson has 94 %; a round in the square would be 79 %"),
    ),
    Learnable(
        "weld", "what a weld takes up, times the shop's rule", _WELD, log(1.6), True, 0.05, 5.0,
        _guess("published weld allowances", "0 to 1 1/2 thicknesses"),
    ),
    Learnable(
        "collar", "more bar in a collar than the shop's rule, in thicknesses", (("joint", "collar_more"),), 0.5, False,
        -3.0, 3.0, _guess("published collar lengths", "1 to pi thicknesses past the girth"),
    ),
    Learnable(
        "twist", "share of its length that a twist loses", (("bar", "twist_shortening"),), 0.02, False, -0.2, 0.2,
        _guess("length lost in a twist", "none in print; a few hundredths at most"),
    ),
    Learnable(
        "useful", "joules of a blow that are left as work in the iron", (("hand", "useful"),), log(1.6), True,
        0.02, 0.95, _guess("blows by the useful share of one", "within x/: 1.6, our estimate"),
    ),
    Learnable(
        "contact", "heat to the anvil while hammering", (("hand", "contact"),), log(2.0), True, 1.0, 5000.0,
        _guess("iron to anvil while hammering", "50 to 150 W/m2K over the whole skin; not measured"),
    ),
    Learnable(
        "fire", "minutes in the fire, times what is reckoned", (("fire", "slow"),), log(1.4), True, 0.1, 10.0,
        _guess("warming of iron in a forge", "up to 80 % longer than in an even chamber, our estimate"),
    ),
    Learnable(
        "hands", "minutes of these hands, times what is reckoned", (("hand", "slow"),), log(1.5), True, 0.1, 10.0,
        _guess("times at bench and anvil", "half to twice, from memory, not timed"),
    ),
    Learnable(
        "learning", "share of the hand's time that is left when the count doubles", (("terms", "learns"),), 0.08, True,
        0.5, 1.0, _guess("learning curves of handwork", "80 to 100 % for each doubling"),
    ),
)  # fmt: skip
"""Rows that every shop has; those of single operations are made from the table of ways (`of_operation`)."""


def of_operation(does: str) -> Learnable:
    """The figure of one operation: its minutes, beside those of these hands in all."""
    says = f"minutes of “{does}”, beside these hands in all"
    return Learnable(f"{AT}{does}", says, (("hand", "slow_at"),), log(1.5), True, 0.1, 10.0, COMMON_PRACTICE)


@cache
def all_figures() -> Mapping[str, Learnable]:
    """Every figure by its key: the common ones first, then operation by operation."""
    operations = (of_operation(does) for does in sorted({way.does for way in WAYS}))
    return {one.key: one for one in (*COMMON, *operations)}


def value_in(shop: Shop, figure: Learnable) -> float:
    """What a shop has for a figure; of a weld, that of its bars."""
    if figure.key.startswith(AT):
        return dict(shop.hand.slow_at).get(figure.key.removeprefix(AT), 1.0)
    room, field = figure.where[0]
    value: float = getattr(getattr(shop, room), field)
    return value


def with_value(shop: Shop, figure: Learnable, value: float) -> Shop:
    """The shop with another value for a figure, kept within its bounds, or where the shop has it now past them."""
    now = value_in(shop, figure)
    held = min(max(figure.most, now), max(min(figure.least, now), value))
    if figure.key.startswith(AT):
        does = figure.key.removeprefix(AT)
        others = tuple(one for one in shop.hand.slow_at if one[0] != does)
        return replace(shop, hand=replace(shop.hand, slow_at=tuple(sorted((*others, (does, held))))))
    changed: dict[str, Any] = {room: replace(getattr(shop, room), **{field: held}) for room, field in figure.where}
    return replace(shop, **changed)


def mean_of(figure: Learnable, value: float) -> float:
    """A value on the scale that is learnt on."""
    return log(value) if figure.positive else value


def value_of(figure: Learnable, mean: float) -> float:
    """What a place on that scale stands for."""
    return exp(mean) if figure.positive else mean


def priors(shop: Shop) -> dict[str, Belief]:
    """What is held without any record: the shop file's own figures, or the house's, each with its spread.

    A positive figure that the shop file tells as nothing (no heat to the anvil at all) is left as told.
    """
    told = ((one, value_in(shop, one)) for one in all_figures().values())
    return {f.key: _prior(f, value) for f, value in told if value > 0.0 or not f.positive}


def _prior(figure: Learnable, value: float) -> Belief:
    """A shop file's figure is believed though it lies past the bounds; records take it no further."""
    least, most = (mean_of(figure, end) for end in (min(figure.least, value), max(figure.most, value)))
    return Belief(mean_of(figure, value), figure.spread, least, most)


def figures_in(shop: Shop) -> dict[str, float]:
    """Where every figure stands in this shop, on the scale that it is learnt on."""
    return {key: belief.mean for key, belief in priors(shop).items()}
