"""Seconds that iron takes to warm in a fire that is looked on as a hot room."""

from bickern.iron.heat.balance import nodes, seconds_at
from bickern.iron.heat.body import Body, Chamber
from bickern.iron.heat.loss import skin_gain
from bickern.measure.spread import Spread, sharp, within

STEPS = 32
"""Steps of a warming curve, whose end is slow: the error of the sum is then under 0.3 %."""
SAGS = "a small fire sags when it is loaded and shades the iron that lies on its floor"
UNCHECKED = "no measured warming was found to hold this against"


def warming_seconds(body: Body, start: float, stop: float, chamber: Chamber) -> float:
    """Seconds for the mean temperature to rise from start to stop [K]; 0 where it need not rise, or for a bare point.

    The room is ideal: as hot as it is told, and seen from all sides. `inf` where it is not hotter than the skin is to
    be.
    """
    if stop <= start or body.hydraulic <= 0:
        return 0.0
    return seconds_at(body, nodes(body, start, stop, lambda skin: skin_gain(skin, chamber), STEPS))[-1]


def warming_spread(body: Body, start: float, stop: float, chamber: Chamber) -> Spread:
    """The same as a range: from a fifth less to four fifths more, since fires are no ideal rooms."""
    seconds = warming_seconds(body, start, stop, chamber)
    return within(seconds, 0.8, 1.8, SAGS, UNCHECKED) if seconds else sharp(0.0)
