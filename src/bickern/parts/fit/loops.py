"""Anything that is closed round something: a ring, one of several, a link of a chain, a bar bent to a hoop."""

from dataclasses import dataclass
from math import pi, sin

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import HoopLeg
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.set.pieces import PieceResult, Pieces
from bickern.parts.set.places import piece_named

ROUND = (Shape.ROUND, Shape.TUBE, Shape.OVAL)
"""Sections with no corner to catch."""


@dataclass(frozen=True, slots=True)
class Loop:
    """A ring as its fit sees it: `wire` with its thickness toward the middle, inside `across` and `long` [m].

    `opening`: strain where it is opened sideways by its own bar.
    """

    name: str
    wire: Section
    across: float
    long: float
    closing: Closing
    opening: float = 0.0

    @property
    def across_mean(self) -> float:
        """Diameter [m] of its middle line where it is round."""
        return self.across + self.wire.thick


def loop_named(name: str, pieces: Pieces) -> Loop | None:
    """The ring, link or hoop of that name; None where it is something else, or was not reckoned."""
    piece = piece_named(name, pieces)
    return loop_of(name, piece) if piece is not None else None


def loop_of(name: str, piece: PieceResult) -> Loop | None:
    """A piece as a loop, where it is one."""
    if isinstance(piece, RingResult):
        spec = piece.spec
        return Loop(name, spec.wire, piece.inside_across, piece.inside_long, spec.closing, piece.opening_strain)
    return _hoop(name, piece) if isinstance(piece, BarResult) else None


def _hoop(name: str, bar: BarResult) -> Loop | None:
    """A closed bar whose path is one hoop; its mean size is its length over pi."""
    leg = next((leg for leg in bar.spec.path if isinstance(leg, HoopLeg)), None)
    if leg is None or not bar.spec.closed:
        return None
    wire = toward_the_middle(bar.runs[0].a, leg.turn)
    inside = bar.length / pi - wire.thick
    return Loop(name, wire, inside, inside, Closing.WELDED if bar.spec.welded else Closing.BUTTED)


def toward_the_middle(section: Section, turn: float) -> Section:
    """The section with its thickness the way that the bar is bent [rad]: up or down its own, sideways its width."""
    if abs(sin(turn)) > 0.5:
        return section
    return Section(section.shape, section.thick, section.width, section.wall, section.fullness)
