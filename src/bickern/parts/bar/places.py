"""Places along the finished bar: a distance from either end, or a named entry's start, middle or end."""

from collections.abc import Iterable
from dataclasses import dataclass

from bickern.measure.finding import NOWHERE, Finding, Where, stop
from bickern.parts.bar.length import Span
from bickern.parts.bar.resolve import Laid, Stretch
from bickern.parts.bar.tracks import Anchor, Place


@dataclass(frozen=True, slots=True)
class Map:
    """All that has a name on one bar, and the bar's length [m]; the metal's names come before the path's."""

    named: tuple[Stretch, ...]
    length: float

    def stretch(self, name: str) -> Stretch | None:
        """The named entry, if there is one."""
        return next((s for s in self.named if s.name == name), None)

    def with_names(self, more: Iterable[Stretch]) -> "Map":
        """The same bar with more names on it."""
        return Map((*self.named, *(s for s in more if s.name)), self.length)


def map_of(laid: Laid, spans: tuple[Span, ...]) -> Map:
    """Names of the metal and of the path."""
    stretches = (*laid.entries, *(s.stretch for s in spans))
    return Map(tuple(s for s in stretches if s.name), laid.length)


def spot(place: Place, names: Map) -> float | None:
    """Distance [m] of a place from the datum end; None where its name is not on the bar."""
    if place.anchor is Anchor.DATUM:
        return place.plus
    if place.anchor is Anchor.END:
        return names.length + place.plus
    stretch = names.stretch(place.name)
    if stretch is None:
        return None
    share = {Anchor.START_OF: 0.0, Anchor.MIDDLE_OF: 0.5, Anchor.END_OF: 1.0}[place.anchor]
    return stretch.start + share * (stretch.end - stretch.start) + place.plus


def no_such_name(name: str, names: Map, where: Where = NOWHERE) -> Finding:
    """The finding for a place told by a name that is not on the bar."""
    from difflib import get_close_matches

    known = sorted({s.name for s in names.named})
    near = get_close_matches(name, known, 1)
    hint = f'did you mean "{near[0]}"? ' if near else ""
    there = ", ".join(known) if known else "none"
    return stop("no-such-place", f'nothing on this bar is called "{name}"', f"{hint}names on it: {there}", where)
