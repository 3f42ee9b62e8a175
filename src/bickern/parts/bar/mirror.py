"""The other hand: a bar seen in a mirror, left and right changed over."""

from dataclasses import replace
from math import pi

from bickern.parts.bar.hole import swapped
from bickern.parts.bar.tracks import BarSpec, Branch, Face, Metal, PathLeg, StraightLeg

_OTHER = {Face.LEFT: Face.RIGHT, Face.RIGHT: Face.LEFT}


def right_handed(spec: BarSpec) -> BarSpec:
    """The same bar told right-handed: a left-hand one is mirrored, twists, faces, offsets and branches too."""
    return mirrored(spec) if spec.hand == "left" else spec


def mirrored(spec: BarSpec) -> BarSpec:
    """The bar with left and right changed over (up and down stay)."""
    return replace(
        spec,
        hand="right" if spec.hand == "left" else "left",
        metal=tuple(map(_metal, spec.metal)),
        path=tuple(map(_leg, spec.path)),
        twists=tuple(replace(t, turns=-t.turns) for t in spec.twists),
        holes=tuple(map(swapped, spec.holes)),
        branches=tuple(Branch(b.name, _child(b.bar), b.at) for b in spec.branches),
    )


def _child(spec: BarSpec) -> BarSpec:
    """A branch is told by its own hand first, then mirrored with the bar it grows from."""
    return replace(mirrored(right_handed(spec)), hand="right")


def _metal(entry: Metal) -> Metal:
    flush = _OTHER.get(entry.flush, entry.flush) if entry.flush is not None else None
    return replace(entry, flush=flush, offset=(-entry.offset[0], entry.offset[1]), roll=-entry.roll)


def _leg(leg: PathLeg) -> PathLeg:
    if isinstance(leg, StraightLeg):
        return leg
    return replace(leg, turn=pi - leg.turn, aside=None if leg.aside is None else pi - leg.aside)
