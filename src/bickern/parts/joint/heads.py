"""Rivet heads: their shapes and volumes, and how much shank fills one."""

from dataclasses import dataclass
from enum import StrEnum
from math import pi

from bickern.measure.source import Kind, Source


class Head(StrEnum):
    """Shapes of head a smith forms."""

    SNAP = "snap"  # half-round, button
    ROUND = "round"  # a deeper snap, that of the old British standard
    PAN = "pan"
    CONE = "cone"
    COUNTERSUNK = "countersunk"
    FLAT = "flat"


@dataclass(frozen=True, slots=True)
class HeadShape:
    """A head in shank diameters: `across` at its widest, `high`, and `top` across where it is flat on top."""

    across: float
    high: float
    top: float
    source: Source


_NEWNES = Source(
    "Newnes", "Mechanical Engineer's Pocket Book, 3rd ed.", None, "s. 4.2, read in the source", Kind.HANDBOOK
)
_AN430 = Source("Curtiss", "P-40 repair manual", None, "page 8, AN430 formed head, read in the source", Kind.HANDBOOK)
_BS_275 = Source(
    "BSI", "BS 275", 1927, "as Machinery's Handbook, 31st ed., p. 1877 prints it, read in the source", Kind.STANDARD
)
_MEMORY = Source("", "heads of structural rivets in handbooks", None, "", Kind.MEMORY)

HEADS: dict[Head, HeadShape] = {
    Head.SNAP: HeadShape(1.75, 0.6, 0.0, _NEWNES),
    Head.ROUND: HeadShape(1.6, 0.7, 0.0, _BS_275),
    Head.PAN: HeadShape(1.6, 0.7, 1.0, _BS_275),
    Head.CONE: HeadShape(1.75, 0.875, 0.0, _MEMORY),
    Head.COUNTERSUNK: HeadShape(1.5, 0.433, 1.0, _BS_275),
    Head.FLAT: HeadShape(1.5, 0.5, 1.5, _AN430),
}
"""Proportions of each head. The countersink is one of 60 degrees: it narrows to the shank within the plate."""


def cap_volume(across: float, high: float) -> float:
    """Volume [m3] of a slice of a ball, `across` its flat and `high` [m]: pi h (3 a^2 + h^2)/6 (exact)."""
    return pi * high * (3 * (across / 2) ** 2 + high**2) / 6


def frustum_volume(bottom: float, top: float, high: float) -> float:
    """Volume [m3] of a cone cut off: diameters and height [m] (exact)."""
    return pi * high * (bottom**2 + bottom * top + top**2) / 12


def head_volume(head: Head, diameter: float) -> float:
    """Metal [m3] a head takes beyond the shank in the hole, for a rivet of `diameter` [m].

    A countersunk head counts only the ring round the shank: the shank itself is in the grip already.
    """
    shape = HEADS[head]
    across, high, top = shape.across * diameter, shape.high * diameter, shape.top * diameter
    if head in (Head.SNAP, Head.ROUND):
        return cap_volume(across, high)
    whole = frustum_volume(across, top, high)
    return whole - pi / 4 * diameter**2 * high if head is Head.COUNTERSUNK else whole


def head_sizes(head: Head, diameter: float) -> tuple[float, float]:
    """How wide and how high [m] a head is for a rivet of `diameter` [m]."""
    shape = HEADS[head]
    return shape.across * diameter, shape.high * diameter


def shank_for(volume: float, diameter: float) -> float:
    """Length [m] of shank of `diameter` [m] that holds `volume` [m3]."""
    return volume / (pi / 4 * diameter**2)


def head_length(head: Head, diameter: float) -> float:
    """Length [m] of shank that fills a head by volume, with nothing lost."""
    return shank_for(head_volume(head, diameter), diameter)


def filling_length(diameter: float, hole: float, grip: float) -> float:
    """Length [m] of shank that swells to fill a hole a little bigger than the rivet, over the grip (all [m])."""
    return grip * ((hole / diameter) ** 2 - 1)
