"""What jobs want cut: lengths of bar and flat patterns, each with its metal and whether it goes into the fire."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TypeVar

from bickern.iron.coating import coating_finding
from bickern.iron.section import Section
from bickern.making.shop import Shop
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.heads import Head, head_length
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.lengths import cut_at_once, up_to
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.sheet.result import Pattern, SheetResult


@dataclass(frozen=True, slots=True)
class Want:
    """A length of bar that a job wants `count` times [m]; `key` is unlike all others.

    `name` is what it becomes, `job` the title it is for. `hot`: it goes into the fire. `bought`: it is mostly bought
    ready (a rivet), and is only cut where bar for it lies in the rack. `says`: what else is to be known of it.
    `coated`: the job asks for metal with a coat that no fire may see, for work that is all cold.
    """

    key: str
    name: str
    job: str
    section: Section
    steel: str
    length: float
    count: int
    hot: bool = True
    bought: bool = False
    says: str = ""
    coated: bool = False


@dataclass(frozen=True, slots=True)
class SheetWant:
    """A flat pattern that a job wants `count` times, of sheet `thick` [m]; the rest as of a bar."""

    key: str
    name: str
    job: str
    pattern: Pattern
    thick: float
    gauge: str
    steel: str
    count: int
    hot: bool = False
    coated: bool = False


AnyWant = TypeVar("AnyWant", Want, SheetWant)


@dataclass(frozen=True, slots=True)
class Wanted:
    """All that several jobs want."""

    bars: tuple[Want, ...] = ()
    sheets: tuple[SheetWant, ...] = ()


@dataclass(frozen=True, slots=True)
class ToCut:
    """A piece as reckoned, what it is called, how many the whole job wants of it, and whether it goes into the fire."""

    piece: PieceResult
    name: str
    count: int
    hot: bool


def wanted(job: str, key: str, make: int, cuts: Iterable[ToCut], joints: Iterable[JointResult], shop: Shop) -> Wanted:
    """What one job wants: `job` its title, `key` a name that no other job of the plan has, `make` how many sets."""
    bars: list[Want] = []
    sheets: list[SheetWant] = []
    for cut in cuts:
        if isinstance(cut.piece, SheetResult):
            sheets += _patterns(cut, cut.piece, job, key)
        else:
            bars.append(_length(cut, cut.piece, job, key, make, shop))
    bars += _of_joints(joints, job, key, make, shop)
    return Wanted(_numbered(bars), _numbered(sheets))


def together(each: Iterable[Wanted]) -> Wanted:
    """The wants of several jobs as one."""
    every = tuple(each)
    return Wanted(tuple(w for one in every for w in one.bars), tuple(w for one in every for w in one.sheets))


def _length(cut: ToCut, piece: BarResult | RingResult, job: str, key: str, make: int, shop: Shop) -> Want:
    """One bar piece; rings wound on a mandrel are one length of wire for all that one coil gives."""
    name, coated = f"{key}/{cut.name}", _coated(piece)
    if isinstance(piece, BarResult):
        section, steel = piece.stock_section, piece.spec.steel
        grip = "with an end to hold it by, cut off when done" if piece.grip > 0 else ""
        return Want(name, cut.name, job, section, steel, piece.cut_this, cut.count, cut.hot, False, grip, coated)
    section, steel = piece.spec.wire, piece.spec.steel
    if piece.coil is None:
        return Want(name, cut.name, job, section, steel, piece.cut_this, cut.count, cut.hot, coated=coated)
    coil = cut_at_once(piece, shop.ring.tape)
    says = f"wire for one coil, {cut.count // make} rings"
    return Want(name, cut.name, job, section, steel, coil, make, cut.hot, False, says, coated)


def _coated(piece: PieceResult) -> bool:
    """Whether the job asks for coated metal."""
    found = coating_finding(piece.spec.coating) if piece.spec.coating else None
    return found is not None and found.stops


def _patterns(cut: ToCut, sheet: SheetResult, job: str, key: str) -> Iterator[SheetWant]:
    """Every pattern of a sheet piece."""
    for pattern in sheet.patterns:
        alone = len(sheet.patterns) == 1 or pattern.name == cut.name
        name = cut.name if alone else f"{cut.name} {pattern.name}"
        spec, count, coated = sheet.spec, cut.count * pattern.make, _coated(sheet)
        yield SheetWant(f"{key}/{name}", name, job, pattern, spec.thick, spec.gauge, spec.steel, count, cut.hot, coated)


def _of_joints(joints: Iterable[JointResult], job: str, key: str, make: int, shop: Shop) -> Iterator[Want]:
    """Rivets, collars, wraps and pins: lengths of bar of their own. Their metal is taken for mild, and for hot work.

    A rivet is told past its first head; cut from plain bar, that head is to be made too. Of a wrap the metal of all
    turns is one length. All go up to the next mark of the tape, like every other length that is cut.
    """
    for joint in joints:
        spec = joint.spec
        if joint.metal <= 0 or spec.kind in (JointKind.RING, JointKind.TENON, JointKind.WELD, JointKind.SCREW):
            continue
        rivet, wrap = spec.kind is JointKind.RIVET, spec.kind is JointKind.WRAP
        head = head_length(Head.SNAP, spec.size) if rivet else 0.0
        length = up_to(joint.metal + head, shop.bar.tape)
        section = spec.section or Section(Shape.ROUND, spec.size, spec.size)
        name = f"{spec.kind} through {' and '.join(_place(one) for one in spec.through)}"
        says = "with metal for its first head too" if rivet else ""
        count = make * (1 if wrap else spec.number)
        yield Want(f"{key}/{name}", name, job, section, "", length, count, bought=rivet, says=says)


def _place(named: str) -> str:
    """`boss of half 1` from `half 1.boss`."""
    piece, _, part = named.partition(".")
    return f"{part} of {piece}" if part else piece


def _numbered(wants: Iterable[AnyWant]) -> tuple[AnyWant, ...]:
    """The same with keys that are unlike one another."""
    seen: dict[str, int] = {}
    found: list[AnyWant] = []
    for want in wants:
        times = seen[want.key] = seen.get(want.key, 0) + 1
        found.append(want if times == 1 else replace(want, key=f"{want.key} ({times})"))
    return tuple(found)
