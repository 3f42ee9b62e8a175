"""Works at this smith's own speed: the seconds of the rows times what the day book has taught."""

from collections.abc import Iterable
from dataclasses import replace

from bickern.making.shop import Hand
from bickern.making.work.result import Work
from bickern.measure.spread import Spread


def in_own_time(works: Iterable[Work], hand: Hand) -> tuple[Work, ...]:
    """The works with the seconds of this smith: all of them by `Hand.slow`, one operation by its own factor too."""
    if hand.slow == 1.0 and hand.doubt == 1.0 and not hand.slow_at:
        return tuple(works)
    at = dict(hand.slow_at)
    return tuple(replace(w, seconds=own(w.seconds, hand.slow * at.get(w.does, 1.0), hand.doubt)) for w in works)


def own(seconds: Spread, slow: float, doubt: float) -> Spread:
    """Seconds so many times as long, with that share of their doubt."""
    value, low, high = seconds.value * slow, seconds.low * slow, seconds.high * slow
    return Spread(value, value - (value - low) * doubt, value + (high - value) * doubt, seconds.why)
