"""What is done to join pieces, read off what was reckoned."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import isclose, pi

from bickern.iron.section import Section, area, hydraulic
from bickern.making.shop import Shop
from bickern.making.work.fire import heated, stout_first, welded
from bickern.making.work.own_time import in_own_time
from bickern.making.work.paces import hands
from bickern.making.work.result import Work, unlike
from bickern.measure.spread import Spread
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.holes import HOT_RIVET_FROM
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult, Pieces
from bickern.parts.set.places import eye_named, one_of, piece_named, section_on, split_place
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder

JOINT_METAL = "mild"
"""Rivets, collars and wraps are taken as mild steel: a job does not say of what they are."""


def works_of_joint(result: JointResult, pieces: Pieces, shop: Shop) -> tuple[Work, ...]:
    """Works of one joint, all of its number together, in the order they are done; () for a hook hung on something.

    Rivets and the heads of tenons are closed cold below `HOT_RIVET_FROM`, hot from there; a collar is bent and closed
    hot, a wrap and a weld are made in one heat. Sheet without a hole named in it is drilled through what lies on it,
    and what a tenon goes through to the tenon. A pin that is drawn on a bar is hung on, never headed. A
    ring is only put through what it holds: closing it is the ring's own last work.
    """
    if result.spec.hooked:
        return ()
    return in_own_time(unlike(_BY_KIND[result.spec.kind](_Joint(result, pieces))), shop.hand)


@dataclass(frozen=True, slots=True)
class _Joint:
    """A joint and what it takes in."""

    result: JointResult
    pieces: Pieces

    @property
    def spec(self) -> JointSpec:
        return self.result.spec

    @property
    def places(self) -> tuple[str, ...]:
        ring = self.spec.ring if self.spec.kind is JointKind.RING else ""
        return (*((ring,) if ring else ()), *self.spec.through)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the pieces, each once."""
        named = (piece_named(place.partition(".")[0], self.pieces) for place in self.places)
        return tuple(dict.fromkeys(p.spec.name for p in named if p is not None))

    @property
    def copies(self) -> tuple[str, ...]:
        """The pieces as the joint names them, each once: two copies of one piece by their numbers."""
        return tuple(dict.fromkeys(place.partition(".")[0] for place in self.places))

    @property
    def called(self) -> str:
        """What tells this joint from all others: what it is and where."""
        return f"{self.spec.kind} {' + '.join(self.places)}"

    @property
    def so_many(self) -> str:
        """How many there are, where more than one (the number of a wrap is its turns)."""
        number = self.spec.number
        if number < 2:
            return ""
        return f"{number} turns" if self.spec.kind is JointKind.WRAP else f"{number} of them"

    def work(
        self,
        does: str,
        seconds: Spread,
        name: str = "",
        *,
        amount: float | None = None,
        thin: float = 0.0,
        case: str = "",
        says: str | None = None,
        whole: bool = False,
    ) -> Work:
        first, *others = self.names or ("",)
        if not (name or others) and len(self.copies) > 1:
            name, *others = self.copies
        made = Work(f"{self.called}: {does} {name}".rstrip(), first, does, name, seconds=seconds, thin=thin, case=case)
        size, told = self.spec.size if amount is None else amount, self.so_many if says is None else says
        return replace(made, amount=size, says=told, whole=whole, with_pieces=tuple(others))


_TURNS = re.compile(r"\b(pivot|hinge|swivel)", re.IGNORECASE)
"""Names of places where what is riveted is to turn."""
SAME_PIN = 0.15
"""Share by which a pin that is drawn on a bar may be over the size it is asked in (our choice)."""


def headed_hot(spec: JointSpec) -> bool:
    """Whether a rivet or the head of a tenon is closed hot."""
    return spec.kind in (JointKind.RIVET, JointKind.TENON) and spec.size >= HOT_RIVET_FROM


def _told(*said: str) -> str:
    """What there is to say of one work, run together."""
    return "; ".join(one for one in said if one)


def _rivet(joint: _Joint) -> Iterator[Work]:
    fit, works = _to_the_curve(joint), (*_through_sheet(joint), _headed(joint, ""))
    yield replace(works[0], says=_told(fit, works[0].says))
    yield from works[1:]


def _to_the_curve(joint: _Joint) -> str:
    """Words on bar that lies on a round sheet: flat iron does not lie on it."""
    there = [split_place(place, joint.pieces)[0] for place in joint.spec.through]
    bars = [piece.spec.name for piece in there if isinstance(piece, BarResult)]
    round_ = [p for p in there if isinstance(p, SheetResult) and isinstance(p.spec.surface, Bowl | Cone | Cylinder)]
    if not bars or not round_:
        return ""
    return f"the {bars[0]} is fitted to the curve of the {round_[0].spec.name} first, hot, till no light shows under it"


def _through_sheet(joint: _Joint) -> Iterator[Work]:
    """A sheet with no hole named is drilled through the hole of what lies on it, so that the two meet."""
    for place in joint.spec.through:
        piece, spot = split_place(place, joint.pieces)
        if isinstance(piece, SheetResult) and not spot:
            name, number = piece.spec.name, joint.spec.number
            says = f"mark the {name} through the holes of what lies on it, one first; rivet that, then drill the rest"
            yield joint.work("drill", hands("drill a hole in sheet", number), name, says=says)


def _headed(joint: _Joint, metal: str) -> Work:
    spec, tenon = joint.spec, joint.spec.kind is JointKind.TENON
    case = "tenon" if tenon else "pivot" if _turns(joint) else ""
    if not headed_hot(spec):
        may = "if it is to turn, try it after every few blows" if _may_turn(joint) else ""
        return joint.work("rivet", hands("rivet cold", spec.number), case=case, says=_told(joint.so_many, may))
    may = "if it is to turn, work it to and fro while it cools" if _may_turn(joint) else ""
    again = "put it together first, then heat the end of the tenon again" if tenon else ""
    thin, says = hydraulic(Section(Shape.ROUND, spec.size, spec.size)), _told(joint.so_many, again, may)
    work = joint.work("rivet hot", hands("head a hot rivet", spec.number), thin=thin, case=case, says=says, whole=True)
    return heated(work, metal or JOINT_METAL)


def _turns(joint: _Joint) -> bool:
    """Whether a place that is riveted is called after what turns."""
    spots = (place.partition(".")[2] for place in joint.spec.through)
    return joint.spec.kind is JointKind.RIVET and any(_TURNS.search(spot) for spot in spots)


def _may_turn(joint: _Joint) -> bool:
    """Whether one rivet alone goes through bars only: a job does not say whether that is a pivot."""
    there = [split_place(place, joint.pieces)[0] for place in joint.spec.through]
    single = joint.spec.kind is JointKind.RIVET and joint.spec.number == 1 and len(there) > 1
    return single and not _turns(joint) and all(isinstance(piece, BarResult) for piece in there)


def _tenon(joint: _Joint) -> Iterator[Work]:
    piece, section = _first_bar(joint)
    metal = piece.spec.steel if piece is not None else JOINT_METAL
    thin = hydraulic(section) if section is not None else 0.0
    says = "heat no more than the tenon and its shoulder"
    yield from _holes_for(joint, section)
    true = joint.work("shoulder", hands("true a shoulder"), case="tenon", thin=thin, says=says, whole=True)
    yield heated(true, metal)  # a heat of its own: before the tenon is headed it is put into its hole
    yield _headed(joint, metal)


def _holes_for(joint: _Joint, section: Section | None) -> Iterator[Work]:
    """A hole for the tenon where none is told: the first place without one is the tenon itself."""
    there = [split_place(place, joint.pieces) for place in joint.spec.through]
    shaped = section is not None and not isclose(section.width, section.thick)
    blank = [piece for piece, spot in there if piece is not None and not _has_hole(piece, spot)]
    for piece in blank[1:]:
        says = "no hole is told there: make it before the piece is bent or finished, and try the tenon in it"
        filed = "drilled within its outline, then filed out to the tenon" if shaped else ""
        bored = hands("drill", pi / 4 * joint.spec.size**2 * joint.result.grip)
        seconds = hands("drill a hole in sheet") if isinstance(piece, SheetResult) else bored
        yield joint.work("drill", seconds, f"{piece.spec.name} for the tenon", says=_told(filed, says))


def _has_hole(piece: PieceResult | None, spot: str) -> bool:
    """Whether a place is a hole, or an eye, that is told."""
    if isinstance(piece, BarResult):
        named = any(one_of(spot, check.hole.name) or spot == "holes" for check in piece.holes)
        return named or eye_named(piece, spot) is not None
    return isinstance(piece, RingResult) or bool(spot)


def _first_bar(joint: _Joint) -> tuple[BarResult | None, Section | None]:
    """The bar named first, and its section there."""
    for place in joint.spec.through:
        piece, spot = split_place(place, joint.pieces)
        if isinstance(piece, BarResult):
            return piece, section_on(piece, spot)
    return None, None


def _collar(joint: _Joint) -> Iterator[Work]:
    section, number = joint.spec.section, joint.spec.number
    thin = hydraulic(section) if section else 0.0
    cut = hands("saw", number * (area(section) if section else 0.0))
    yield joint.work("cut bar", cut, "collar", amount=0.0)
    bend = joint.work("bend", hands("bend a U", number), "collar", amount=pi, case="collar", thin=thin)
    yield heated(bend, JOINT_METAL)
    close = joint.work("collar", hands("close a collar", number), amount=0.0, thin=thin, whole=True)
    yield heated(close, JOINT_METAL)


def _wrap(joint: _Joint) -> Iterator[Work]:
    section, turns = joint.spec.section, joint.spec.number
    cut = hands("saw", area(section) if section else 0.0)
    yield joint.work("cut bar", cut, "wrap", amount=0.0)
    thin = hydraulic(section) if section else 0.0
    seconds = hands("lay one turn of a wrap", turns)
    work = joint.work("bend", seconds, amount=2 * pi * turns, case="wrap", thin=thin, whole=True)
    yield heated(work, JOINT_METAL)


def _weld(joint: _Joint) -> Iterator[Work]:
    bars = [piece for place in joint.spec.through if (piece := split_place(place, joint.pieces)[0]) is not None]
    thin = min((_thin_of(piece) for piece in bars), default=0.0)
    for piece in bars:
        work = joint.work("scarf", hands("scarf one end"), piece.spec.name, thin=thin)
        yield heated(work, piece.spec.steel)
    metal = bars[0].spec.steel if bars else JOINT_METAL
    first = stout_first([(piece.spec.name, _thin_of(piece)) for piece in bars])
    seconds, says = hands("weld").times(joint.spec.number), _told(joint.so_many, first)
    yield welded(joint.work("weld", seconds, amount=joint.result.metal, thin=thin, says=says), metal)


def _thin_of(piece: PieceResult) -> float:
    if isinstance(piece, BarResult):
        return hydraulic(piece.stock_section)
    return hydraulic(piece.spec.wire) if isinstance(piece, RingResult) else piece.spec.thick / 2


def _ring(joint: _Joint) -> Iterator[Work]:
    *most, last = joint.spec.through
    says = f"through {', '.join(most)} and {last}" if most else f"through {last}"
    yield joint.work("thread", hands("thread a ring", len(joint.spec.through)), joint.spec.ring, says=says)


def _screw(joint: _Joint) -> Iterator[Work]:
    yield joint.work("screw", hands("drive a screw", joint.spec.number))


def _pin(joint: _Joint) -> Iterator[Work]:
    drawn = any(_is_drawn(place, joint) for place in joint.spec.through)
    seconds = hands("thread a ring" if drawn else "set a pin", joint.spec.number)
    yield joint.work("pin", seconds, case="drawn" if drawn else "")


def _is_drawn(place: str, joint: _Joint) -> bool:
    """Whether a pin is the end of a bar itself: of its size, and no hole."""
    piece, spot = split_place(place, joint.pieces)
    if not isinstance(piece, BarResult) or not spot or _has_hole(piece, spot):
        return False
    section = section_on(piece, spot)
    return section is not None and section.width <= joint.spec.size * (1 + SAME_PIN)


_BY_KIND: dict[JointKind, Callable[[_Joint], Iterator[Work]]] = {
    JointKind.RIVET: _rivet,
    JointKind.TENON: _tenon,
    JointKind.COLLAR: _collar,
    JointKind.WRAP: _wrap,
    JointKind.WELD: _weld,
    JointKind.RING: _ring,
    JointKind.SCREW: _screw,
    JointKind.PIN: _pin,
}
