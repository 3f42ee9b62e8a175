"""How a hook hangs with a load in it: much heavier than itself, so that the load decides."""

import math
from collections.abc import Iterator
from dataclasses import replace

from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BendLeg
from bickern.parts.hang.settle import Hung, Load, Rest, settle
from bickern.parts.hang.track import Track, track_of
from bickern.parts.set.result import Part
from bickern.parts.set.spots.seats import moved_seat
from bickern.parts.set.spots.spots import spot_on

HOOKED = math.radians(150)
"""What is bent so far can carry."""
HEAVY = 100.0
"""How many times as heavy as all that hangs there the load is taken to be: its own weight then turns nothing."""


def loaded(hung: Hung, part: Part, carried_by: str) -> Iterator[tuple[str, Rest]]:
    """The name of each bend of a hung bar that holds a load, and how it then rests; `carried_by`: what it hangs by."""
    for name, track in _hooks(part, carried_by):
        rest = settle(replace(hung, loads=(*hung.loads, Load(HEAVY * hung.total, track))))
        if rest is not None:
            yield name, rest


def _hooks(part: Part, carried_by: str) -> Iterator[tuple[str, Track]]:
    bar = part.piece
    if not isinstance(bar, BarResult):
        return
    bends = [leg for leg in bar.spec.path if isinstance(leg, BendLeg) and leg.angle >= HOOKED and leg.name]
    for bend in bends:
        spot = next(iter(spot_on(bar, bend.name)), None) if bend.name != carried_by else None
        if spot is not None and spot.seat is not None:
            yield bend.name, track_of(moved_seat(spot.seat, part.pose), spot)
