"""What is done to join pieces, read off what was reckoned."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import pi

from bickern.iron.section import Section, area, hydraulic
from bickern.making.shop import Shop
from bickern.making.work.anvil import unlike
from bickern.making.work.fire import heated, welded
from bickern.making.work.rates import time_of
from bickern.making.work.result import Work
from bickern.making.work.times import hands
from bickern.measure.spread import Spread
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.holes import HOT_RIVET_FROM
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult, Pieces
from bickern.parts.set.places import piece_named, section_on, split_place
from bickern.parts.sheet.result import SheetResult

JOINT_METAL = "mild"
"""Rivets, collars and wraps are taken as mild steel: a job does not say of what they are."""


def works_of_joint(result: JointResult, pieces: Pieces, shop: Shop) -> tuple[Work, ...]:
    """Works of one joint, all of its number together, in the order they are done; () for a hook hung on something.

    Rivets and the heads of tenons are closed cold below `HOT_RIVET_FROM`, hot from there; a collar is bent and closed
    hot, a wrap and a weld are made in one heat. Sheet without a hole named in it is drilled through what lies on it. A
    ring is only put through what it holds: closing it is the ring's own last work.
    """
    if result.spec.hooked:
        return ()
    return unlike(_BY_KIND[result.spec.kind](_Joint(result, pieces)))


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
        made = Work(f"{self.called}: {does} {name}".rstrip(), first, does, name, seconds=seconds, thin=thin, case=case)
        size, told = self.spec.size if amount is None else amount, self.so_many if says is None else says
        return replace(made, amount=size, says=told, whole=whole, with_pieces=tuple(others))


def headed_hot(spec: JointSpec) -> bool:
    """Whether a rivet or the head of a tenon is closed hot."""
    return spec.kind in (JointKind.RIVET, JointKind.TENON) and spec.size >= HOT_RIVET_FROM


def _rivet(joint: _Joint) -> Iterator[Work]:
    yield from _through_sheet(joint)
    yield _headed(joint, "")


def _through_sheet(joint: _Joint) -> Iterator[Work]:
    """A sheet with no hole named is drilled through the hole of what lies on it, so that the two meet."""
    for place in joint.spec.through:
        piece, spot = split_place(place, joint.pieces)
        if isinstance(piece, SheetResult) and not spot:
            name, number = piece.spec.name, joint.spec.number
            says = f"mark the {name} through the holes of what lies on it, one first; rivet that, then drill the rest"
            yield joint.work("drill", time_of("drill a hole in sheet", number), name, says=says)


def _headed(joint: _Joint, metal: str) -> Work:
    spec = joint.spec
    case = "tenon" if spec.kind is JointKind.TENON else ""
    if not headed_hot(spec):
        return joint.work("rivet", time_of("rivet cold", spec.number), case=case)
    thin = hydraulic(Section(Shape.ROUND, spec.size, spec.size))
    work = joint.work("rivet hot", time_of("head a hot rivet", spec.number), thin=thin, case=case, whole=True)
    return heated(work, metal or JOINT_METAL)


def _tenon(joint: _Joint) -> Iterator[Work]:
    piece, section = _first_bar(joint)
    metal = piece.spec.steel if piece is not None else JOINT_METAL
    thin = hydraulic(section) if section is not None else 0.0
    says = "heat no more than the tenon and its shoulder"
    yield heated(joint.work("shoulder", time_of("true a shoulder"), case="tenon", thin=thin, says=says), metal)
    yield _headed(joint, metal)


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
    bend = joint.work("bend", time_of("bend a U", number), "collar", amount=pi, case="collar", thin=thin)
    yield heated(bend, JOINT_METAL)
    close = joint.work("collar", time_of("close a collar", number), amount=0.0, thin=thin, whole=True)
    yield heated(close, JOINT_METAL)


def _wrap(joint: _Joint) -> Iterator[Work]:
    section, turns = joint.spec.section, joint.spec.number
    cut = hands("saw", area(section) if section else 0.0)
    yield joint.work("cut bar", cut, "wrap", amount=0.0)
    thin = hydraulic(section) if section else 0.0
    seconds = time_of("lay one turn of a wrap", turns)
    work = joint.work("bend", seconds, amount=2 * pi * turns, case="wrap", thin=thin, whole=True)
    yield heated(work, JOINT_METAL)


def _weld(joint: _Joint) -> Iterator[Work]:
    bars = [piece for place in joint.spec.through if (piece := split_place(place, joint.pieces)[0]) is not None]
    thin = min((_thin_of(piece) for piece in bars), default=0.0)
    for piece in bars:
        work = joint.work("scarf", time_of("scarf one end"), piece.spec.name, thin=thin)
        yield heated(work, piece.spec.steel)
    metal = bars[0].spec.steel if bars else JOINT_METAL
    seconds = hands("weld").times(joint.spec.number)
    yield welded(joint.work("weld", seconds, amount=joint.result.metal, thin=thin), metal)


def _thin_of(piece: PieceResult) -> float:
    if isinstance(piece, BarResult):
        return hydraulic(piece.stock_section)
    return hydraulic(piece.spec.wire) if isinstance(piece, RingResult) else piece.spec.thick / 2


def _ring(joint: _Joint) -> Iterator[Work]:
    *most, last = joint.spec.through
    says = f"through {', '.join(most)} and {last}" if most else f"through {last}"
    yield joint.work("thread", time_of("thread a ring", len(joint.spec.through)), joint.spec.ring, says=says)


def _screw(joint: _Joint) -> Iterator[Work]:
    yield joint.work("screw", time_of("drive a screw", joint.spec.number))


def _pin(joint: _Joint) -> Iterator[Work]:
    yield joint.work("pin", time_of("set a pin", joint.spec.number))


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
