"""Holes for rivets, screws and rings: how big they must be, and how the thing then fits."""

from dataclasses import dataclass
from enum import StrEnum
from math import hypot, inf, sqrt

from bickern.iron.section import Section
from bickern.measure.finding import NOWHERE, Finding, Where, stop, warn
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE, Kind, Source
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH, MILLIMETRE, Shape, Style


class Clearance(StrEnum):
    """The three series of holes for screws."""

    FINE = "fine"
    MEDIUM = "medium"
    COARSE = "coarse"


ISO_273 = Source(
    "ISO", "ISO 273 clearance holes for bolts and screws", 1979, "quoted by a secondary page", Kind.STANDARD
)
"""Where the rows of holes for screws come from."""

_SERIES = (Clearance.FINE, Clearance.MEDIUM, Clearance.COARSE)
SCREW_HOLES_IN_MM: dict[float, tuple[float, float, float]] = {
    2: (2.2, 2.4, 2.6),
    2.5: (2.7, 2.9, 3.1),
    3: (3.2, 3.4, 3.6),
    3.5: (3.7, 3.9, 4.2),
    4: (4.3, 4.5, 4.8),
    5: (5.3, 5.5, 5.8),
    6: (6.4, 6.6, 7.0),
    7: (7.4, 7.6, 8.0),
    8: (8.4, 9.0, 10.0),
    10: (10.5, 11.0, 12.0),
    12: (13.0, 13.5, 14.5),
    14: (15.0, 15.5, 16.5),
    16: (17.0, 17.5, 18.5),
}
"""Hole [mm], fine, medium and coarse, for a metric screw of that diameter [mm]."""

SMALL_RIVET_PLAY = Known(
    INCH / 32, "m", Source("", "note on boiler rivets", None, "not over 1/32 in, read in the source", Kind.COMMON)
)
"""Most a hole may be over a small rivet."""
HOT_RIVET_PLAY = Known(
    MILLIMETRE,
    "m",
    Source("Roloff/Matek", "rivets, hot", None, "d + 1 mm from 12 mm, quoted by a secondary page", Kind.HANDBOOK),
)
"""A hole over a hot steel rivet of 12 mm or more."""
HOT_RIVET_FROM = 12 * MILLIMETRE
"""Diameter [m] from which a rivet is driven hot."""
SWINGS_FROM = Known(INCH / 32, "m", COMMON_PRACTICE)
"""Play above which a ring swings freely; below it, it passes but may bind on a burr."""
SAME = 1e-6
"""Metres: sizes nearer than this are one size."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How a thing fits a hole: a word, and the play [m] (below nothing: by how much it jams)."""

    word: str
    play: float

    @property
    def passes(self) -> bool:
        """Whether it goes through at all."""
        return self.play > SAME


def rivet_play(diameter: float) -> Known:
    """The most [m] that a hole may be over a rivet of `diameter` [m], with its source.

    A limit, for rivets through bars as for any: a seam of sheet is drilled finer, by the shop's own clearance (see
    `parts/sheet`), since many small holes have to meet.
    """
    return HOT_RIVET_PLAY if diameter >= HOT_RIVET_FROM else SMALL_RIVET_PLAY


def hole_for_rivet(diameter: float) -> float:
    """The biggest hole [m] for a rivet [m]: 1/32 in over it when small, 1 mm over it when driven hot."""
    return diameter + rivet_play(diameter).value


def hole_for_screw(diameter: float, series: Clearance = Clearance.MEDIUM) -> float | None:
    """Clearance hole [m] by ISO 273 for a metric screw [m]; None for a size that has no row here."""
    row = SCREW_HOLES_IN_MM.get(round(diameter / MILLIMETRE, 3))
    return row[_SERIES.index(series)] * MILLIMETRE if row else None


def hole_needed(wire: float, inside_radius: float, plate: float) -> float:
    """Hole [m] that a ring just goes round in: d + R - sqrt(R^2 - (T/2)^2), in the plane of the ring (exact; ours).

    `wire` d, `inside_radius` R of the ring, `plate` T thickness [m]. At both faces of the plate the ring's inside
    has curved away from where it is in the middle. Infinite where the plate is as thick as the ring is wide inside.
    """
    if plate / 2 >= inside_radius:
        return inf
    return wire + inside_radius - sqrt(inside_radius**2 - (plate / 2) ** 2)


def hole_for_ring(bar: Section, inside_radius: float, plate: float) -> float:
    """Round hole [m] that a ring of any bar just goes round in: a bar with corners must clear those too.

    Seen along the hole, the part of the ring in the plate fills the bar's width by `hole_needed` of its thickness.
    Round bar needs that alone, any other the diagonal of both: exact for squares and flats, ample for the rest (ours).
    """
    high = hole_needed(bar.thick, inside_radius, plate)
    return high if bar.shape in (Shape.ROUND, Shape.TUBE) else hypot(bar.width, high)


def hole_to_swing(needed: float) -> float:
    """Hole [m] in which a ring that needs `needed` [m] swings freely."""
    return needed + SWINGS_FROM.value


def fit_word(hole: float, needed: float) -> Fit:
    """How a thing that needs `needed` [m] fits a `hole` [m]."""
    play = hole - needed
    if play <= SAME:
        return Fit("jams", play)
    return Fit("swings" if play >= SWINGS_FROM.value - SAME else "just clears", play)


def ring_in_hole(
    wire: float, inside_radius: float, plate: float, hole: float, where: Where = NOWHERE, style: Style | None = None
) -> tuple[Finding, ...]:
    """Faults of a ring of round bar through a hole: too thick, metal too thick, curve jammed, only just clear."""
    asked = RingInHole(wire, hole_needed(wire, inside_radius, plate), 2 * inside_radius, plate, hole)
    return tuple(f.at(where) for f in faults_in_hole(asked, style or Style()))


@dataclass(frozen=True, slots=True)
class RingInHole:
    """A ring put through a hole [m]: thickness of its bar, hole it needs, its inside, the metal's thickness, the hole.

    `plate` 0: the metal round the hole is round itself. `what`: how it is called, a ring or a hook.
    """

    wire: float
    needed: float
    inside: float
    plate: float
    hole: float
    what: str = "ring"


def faults_in_hole(ring: RingInHole, style: Style) -> tuple[Finding, ...]:
    """Faults of a ring of any bar through a hole, in the shop's own units."""

    def both(length: float) -> str:
        return say_both(length, style, fit=True)

    if ring.wire >= ring.hole - SAME:
        says = f"A {ring.what} of {both(ring.wire)} bar does not enter a hole of {both(ring.hole)}."
        return (stop("ring-fills-hole", says, _bigger(ring.needed, style)),)
    if ring.needed == inf:
        says = f"A {ring.what} {both(ring.inside)} inside does not go round metal {both(ring.plate)} thick."
        return (stop("ring-too-small-for-plate", says, f"Make the {ring.what} bigger, or the metal thinner."),)
    fit = fit_word(ring.hole, ring.needed)
    if not fit.passes:
        thick = f"metal {both(ring.plate)} thick" if ring.plate else "it"
        says = f"The {ring.what}'s curve jams in a hole of {both(ring.hole)}: {thick} needs {both(ring.needed)}."
        return (stop("ring-jams", says, _bigger(ring.needed, style)),)
    if fit.word != "swings":
        says = f"The {ring.what} clears its hole by {both(fit.play)} only: it passes but may not swing."
        return (warn("ring-just-clears", says, _bigger(ring.needed, style)),)
    return ()


def _bigger(needed: float, style: Style) -> str:
    """What to do about a small hole."""
    if needed == inf:
        return "Make the hole bigger, or what goes through it of thinner bar."
    swings = say_both(hole_to_swing(needed), style, fit=True)
    return f"Open the hole to {swings} for it to swing, or take thinner bar."
