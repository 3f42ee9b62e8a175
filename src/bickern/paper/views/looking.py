"""Which way a bent bar is looked at: along which axes it lies, and how a place in space falls on the paper."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.geometry.extent import main_axes
from bickern.geometry.path import START, Frame, Leg
from bickern.geometry.space import Vec, cross, dot, times
from bickern.paper.marks import Point
from bickern.paper.views.line import Station, uncut
from bickern.parts.bar.tracks import Overall

SQUARE = 0.9
"""Cosine above which the eye counts as square above the bar or square beside it."""


@dataclass(frozen=True, slots=True)
class View:
    """A way of looking: `right` and `upward` on the paper, and which overall size lies along each."""

    right: Vec
    upward: Vec
    along_right: Overall
    along_up: Overall

    def seen_from(self, start: Frame = START) -> str:
        """Where the eye is, told as the bar lies at the flag with its front face up; "" where it is neither."""
        above, aside = abs(dot(self.toward, start.up)), abs(dot(self.toward, start.left))
        return "from above" if above > SQUARE else "from the side" if aside > SQUARE else ""

    @property
    def toward(self) -> Vec:
        """Out of the paper, to the eye."""
        return cross(self.right, self.upward)

    def put(self, place: Vec) -> Point:
        """Where a place in space falls on the paper [m]."""
        return (dot(place, self.right), dot(place, self.upward))


def views(legs: Sequence[Leg], row: Sequence[Station], thick: float, start: Frame = START) -> tuple[View, ...]:
    """The broadest side first; a second view at right angles to it where the bar is not flat within `thick` [m]."""
    axes = main_axes(uncut(legs), start)
    wide, high = _extent(row, axes.across), _extent(row, axes.rise)
    flat = View(axes.reach, _from_above(axes.across, axes.rise, start.up), Overall.REACH, Overall.ACROSS)
    edge = View(axes.reach, _from_above(axes.rise, times(axes.across, -1.0), start.up), Overall.REACH, Overall.RISE)
    first, second, least = (flat, edge, high) if wide >= high - 1e-9 else (edge, flat, wide)
    return (first, second) if least > thick else (first,)


def _from_above(upward: Vec, toward: Vec, up: Vec) -> Vec:
    """Which of the two ways is up on the paper: the reference face looks at the eye, or else up the page."""
    face = dot(toward, up)
    sign = face if abs(face) > 1e-6 else dot(upward, up)
    return times(upward, -1.0) if sign < -1e-6 else upward


def _extent(row: Sequence[Station], axis: Vec) -> float:
    levels = [dot(station.at, axis) for station in row]
    return max(levels) - min(levels)
