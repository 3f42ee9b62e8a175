"""Holes, eyes, lugs and rings that a thing is put through: how wide, and what metal stands round them."""

from collections import Counter
from dataclasses import dataclass, replace
from math import hypot

from bickern.iron.section import Section
from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.bar.tracks import HoleBy
from bickern.parts.fit.loops import ROUND, loop_of, toward_the_middle
from bickern.parts.joint.spec import JointSpec
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.grip import plate_round
from bickern.parts.set.pieces import Pieces
from bickern.parts.set.places import (
    eye_named,
    number_of,
    one_of,
    piece_named,
    section_at_place,
    section_of_eye,
    split_place,
)
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Cone, Cylinder

AT_THE_END = 1.5
"""A hole this many widths of its bar from the end, or nearer, is meant to stand at the end (chosen here)."""


@dataclass(frozen=True, slots=True)
class Opening:
    """An opening at `place` [m]: `across`, `long` (the same where it is round), the metal round it.

    `plate`: how thick that metal is along the way through. `wall`: the least metal between the opening and an edge;
    `end`: what a ring must get over to pass the end of the bar; None where there is none, or it is not known.
    `rounded`: the metal has no corner there. `tool`: what makes the opening. `number`: how many the place stands for.
    """

    place: str
    across: float
    long: float
    plate: float
    wall: float | None
    end: float | None = None
    rounded: bool = False
    tool: str = "drift"
    number: int = 1

    @property
    def sharp(self) -> float:
        """Thickness [m] of metal with corners that a curved bar must clear."""
        return 0.0 if self.rounded else self.plate


def openings_at(place: str, pieces: Pieces, *, filled: bool = False) -> tuple[Opening, ...]:
    """The openings of that name, one for each kind (holes alike are told once); none where the place is no opening.

    `filled`: what goes there fills a hole, so that the stretch of a bar that a hole stands on means that hole.
    """
    piece, spot = split_place(place, pieces)
    if piece is None:
        return ()
    if isinstance(piece, SheetResult):
        return _in_sheet(place, piece, spot)
    ring = loop_of(place, piece)
    if ring is not None and spot in ("", "inside", "joint"):
        return (_ring(place, ring.wire, ring.across, ring.long),)
    return _in_bar(place, piece, spot, filled=filled) if isinstance(piece, BarResult) else ()


def _ring(place: str, wire: Section, across: float, long: float) -> Opening:
    return Opening(place, across, long, wire.width, wire.thick, None, wire.shape in ROUND, "inside")


def _in_bar(place: str, bar: BarResult, spot: str, *, filled: bool) -> tuple[Opening, ...]:
    holes = holes_meant(bar, spot, filled=filled)
    if holes:
        return _alike([o for c in holes if (o := _hole(place, bar, c)) is not None])
    eye = eye_named(bar, spot)
    if eye is None:
        return ()
    wire = toward_the_middle(section_of_eye(bar, eye), eye.turn)
    inside = eye.inside_across
    return (Opening(place, inside, inside, wire.width, wire.thick, None, wire.shape in ROUND, "eye"),)


def holes_meant(bar: BarResult, spot: str, *, filled: bool = False) -> tuple[HoleCheck, ...]:
    """Holes of a bar by their name, or one of several (`holes 2`); where it is `filled`, by the stretch they are on."""
    exact = tuple(c for c in bar.holes if spot and (spot == c.hole.name or (filled and spot == c.hole.at.name)))
    if exact or spot == "holes":
        return exact or bar.holes
    several = tuple(c for c in bar.holes if one_of(spot, c.hole.name) or one_of(spot, "holes"))
    which = number_of(spot)
    return several[which - 1 : which] if which else several


def one_each(joint: JointSpec, pieces: Pieces) -> bool:
    """Whether a ring of several is meant without saying which: then each goes through one of several openings."""
    ring = piece_named(joint.ring, pieces)
    return ring is not None and ring.spec.make > 1 and number_of(joint.ring) is None


def how_many(joint: JointSpec, place: str, pieces: Pieces) -> tuple[int, int]:
    """How many such places one ring of a joint goes through, and how many such rings go through one of the places."""
    rings = _parts(joint.ring, pieces)
    places = _parts(place, pieces) * max(1, sum(o.number for o in openings_at(place, pieces)))
    return (places if rings == 1 else 1), (1 if rings == places else rings)


def _parts(said: str, pieces: Pieces) -> int:
    """How many parts a name means: all of a piece, or one of several."""
    piece = pieces.get(said.partition(".")[0])
    return piece.spec.make if piece is not None else 1


def neighbours(name: str, pieces: Pieces) -> tuple[str, ...]:
    """The links beside one link of a chain, by name; of several chains alike the links are numbered on."""
    piece, number = piece_named(name, pieces), number_of(name)
    if not isinstance(piece, RingResult) or piece.chain is None or number is None:
        return ()
    head, links = name.rpartition(" ")[0], piece.chain.links
    return tuple(f"{head} {n}" for n in (number - 1, number + 1) if n > 0 and (n - 1) // links == (number - 1) // links)


def _hole(place: str, bar: BarResult, check: HoleCheck) -> Opening | None:
    """A hole in a bar; what is slit and drifted keeps its metal, which goes round the drift."""
    section, plate, hole = section_at_place(bar.runs, check.at), plate_round(bar, check), check.hole
    if section is None or plate is None:
        return None
    wide = section.width if plate == section.thick else section.thick
    beside = wide / 2 if hole.by is HoleBy.SLIT else (wide - hole.size) / 2
    long = hole.long or hole.size
    to_end = min(check.at, bar.length - check.at)
    at_end = not bar.spec.closed and to_end <= AT_THE_END * wide
    end = hypot(beside + hole.size / 2, to_end) - hole.size / 2 if at_end else None
    wall = min(beside, to_end - long / 2) if at_end else beside
    tool = "drill" if hole.by is HoleBy.DRILL else "punch" if hole.by is HoleBy.PUNCH else "drift"
    return Opening(place, min(hole.size, long), long, plate, max(0.0, wall), end, False, tool)


def _alike(holes: list[Opening]) -> tuple[Opening, ...]:
    """Holes that are the same told once, with how many there are."""
    return tuple(replace(hole, number=n) for hole, n in Counter(holes).items())


def _in_sheet(place: str, sheet: SheetResult, spot: str) -> tuple[Opening, ...]:
    thick = sheet.spec.thick
    lugs = [g for g in sheet.spec.lugs if g.eye and (spot == "lugs" or one_of(spot, g.name))]
    all_of_them = number_of(spot) is None
    eyes = [
        Opening(place, g.eye, g.eye, g.width, thick, None, False, "eye", g.number if all_of_them else 1) for g in lugs
    ]
    drilled = [h for h in sheet.spec.holes if spot == "holes" or one_of(spot, h.name)]
    holes = [
        Opening(
            place,
            h.size,
            h.size,
            thick,
            _to_edge(sheet, h.up, h.size),
            None,
            False,
            "drill",
            h.number if all_of_them else 1,
        )
        for h in drilled
    ]
    return (*eyes, *holes)


def _to_edge(sheet: SheetResult, up: float, size: float) -> float | None:
    """Sheet [m] between a hole and the nearer edge, up or down the skin; None where that is not so simply told."""
    surface = sheet.spec.surface
    if isinstance(surface, Cone) and surface.offset == (0.0, 0.0):
        slant = hypot(surface.height, (surface.base - surface.top) / 2)
        return max(0.0, min(up, slant - up) - size / 2)
    if isinstance(surface, Cylinder):
        return max(0.0, min(up, surface.height - up) - size / 2) if not surface.cut else up - size / 2
    return None
