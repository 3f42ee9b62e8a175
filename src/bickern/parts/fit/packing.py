"""How wide a ring must be inside to hold several bars side by side: circles in a circle."""

from collections.abc import Sequence
from math import acos, hypot, inf, pi, sqrt

_HALVINGS = 40
"""Of the width: enough for a part in a million million."""


def circle_for(across: Sequence[float]) -> float:
    """Inside diameter [m] of the ring that just holds round bars of these diameters [m], all against its inside.

    Exact for one, two (their sum) and three; for more it is ample: they lie along the inside in one order, none in the
    middle, as things do that pull on a ring (found by halving; ours).
    """
    radii = sorted((d / 2 for d in across if d > 0), reverse=True)
    if len(radii) < 3:
        return 2 * sum(radii)
    if len(radii) == 3:
        return 2 * _round_three(*radii)
    low, high = radii[0] + radii[1], sum(radii)
    if _goes(radii, low):
        return 2 * low
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if _goes(radii, middle) else (middle, high)
    return 2 * high


def _round_three(big: float, middle: float, small: float) -> float:
    """Radius [m] of the circle round three: Descartes' theorem, or the two larger where the third lies beside them."""
    a, b, c = 1 / big, 1 / middle, 1 / small
    if c >= a + b - 1 / (big + middle):
        return big + middle
    return 1 / (2 * sqrt(a * b + b * c + c * a) - a - b - c)


def _goes(radii: Sequence[float], ring: float) -> bool:
    """Whether circles, laid one after the other against the inside of a circle, come round without overlap."""
    places: list[float] = []
    for i, r in enumerate(radii):
        places.append(max((at + _apart(radii[j], r, ring) for j, at in enumerate(places)), default=0.0))
        if any(2 * pi - (places[i] - at) < _apart(radii[j], r, ring) - 1e-12 for j, at in enumerate(places[:i])):
            return False
    return True


def _apart(a: float, b: float, ring: float) -> float:
    """Angle [rad] at the ring's centre between two circles that touch it inside and one another: the law of cosines."""
    far_a, far_b = ring - a, ring - b
    if far_a <= 0 or far_b <= 0:
        return pi if far_a + far_b < a + b else 0.0
    share = (far_a**2 + far_b**2 - (a + b) ** 2) / (2 * far_a * far_b)
    return acos(max(-1.0, min(1.0, share)))


def room_for_box(wide: float, thick: float, across: float, long: float) -> float:
    """What is left over [m] where a box stands in a ring or link, below nothing where it does not go in.

    `wide` x `thick` [m] the box, `across` the ring's inside and `long` that of a link (the same as across: a ring).
    In a round ring the diagonal counts (exact); in a link the box may stand along it, its corners in the round ends
    (ample: it might go in aslant where it does not so).
    """
    low, high = sorted((wide, thick))
    round_end = across - hypot(low, high)
    if long <= across or low > across:
        return round_end
    along = min(across - low, long - across + sqrt(across**2 - low**2) - high)
    return max(round_end, along)


def room_in_link(parts: Sequence[float], across: float, long: float) -> float:
    """What is left over [m] where round bars [m] lie in a ring, or in line along a link: exact for two, else ample."""
    packed = across - circle_for(parts)
    in_line = min(across - max(parts, default=0.0), long - sum(parts)) if long > across else -inf
    return max(packed, in_line)


def depth_of_box(wide: float, thick: float, across: float) -> float:
    """How far [m] a box that bears on a ring's inside by two corners reaches toward the middle, the better way round.

    Under the crown of the ring: R - sqrt(R^2 - (w/2)^2), and then its own thickness (exact).
    """
    radius = across / 2
    ways = ((w, t) for w, t in ((wide, thick), (thick, wide)) if w <= across)
    return min((radius - sqrt(radius**2 - w**2 / 4) + t for w, t in ways), default=inf)
