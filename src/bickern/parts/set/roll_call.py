"""Who is there: every single part of the set by its name, and whom a joint's names mean."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from bickern.geometry.space import ORIGIN, Vec
from bickern.parts.bar.result import BarResult
from bickern.parts.set.pieces import PieceResult, links_in, parts_in
from bickern.parts.set.result import Spot
from bickern.parts.set.room import Room, room_of
from bickern.parts.set.spots.spots import spot_on
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.result import SheetResult


@dataclass(frozen=True, slots=True)
class Single:
    """One part: `links 2` of the piece `links`; its `number` among them (0: there is but one), its place in its chain.

    `in_chain`: how many links one chain of these has (1: no chain).
    """

    name: str
    kind: str
    piece: PieceResult
    number: int = 0
    in_chain: int = 1


@dataclass(frozen=True, slots=True)
class At:
    """A place on a part, by the part's number in the set."""

    part: int
    spot: Spot


@dataclass(frozen=True, slots=True, eq=False)
class Roll:
    """Every single part, in the order of the job, and the shop's rules that places on sheet want."""

    singles: tuple[Single, ...]
    rules: SheetRules
    rooms: dict[str, Room] = field(default_factory=dict)  # a piece's room is looked at again and again
    found: dict[tuple[str, str, bool], tuple[Spot, ...]] = field(default_factory=dict)  # and so are its places
    numbers: dict[str, tuple[int, ...]] = field(default_factory=dict)  # of parts by the names that mean them

    def room(self, piece: PieceResult) -> Room:
        """The room that a part of a piece takes."""
        name = piece.spec.name
        if name not in self.rooms:
            self.rooms[name] = room_of(piece, self.rules)
        return self.rooms[name]

    def middle(self, piece: PieceResult) -> Vec:
        """Where a part of a piece balances [m]; sheet alone wants its skin for that."""
        if isinstance(piece, BarResult):
            return piece.centre_of_mass
        return self.room(piece).middle if isinstance(piece, SheetResult) else ORIGIN

    def parts(self, name: str) -> tuple[int, ...]:
        """The numbers of the parts that a name means: all of a piece, or one of several."""
        if not self.numbers:
            for i, single in enumerate(self.singles):
                for called in {single.kind, single.name}:
                    self.numbers[called] = (*self.numbers.get(called, ()), i)
        return self.numbers.get(name, ())

    def places(self, said: str, *, filled: bool = False) -> tuple[At, ...]:
        """Every place that `post.foot hole` means, part by part; none where there is no such place."""
        name, _, place = said.partition(".")
        parts = self.parts(name)
        if not parts:
            return ()
        one = self.singles[parts[0]]  # all are alike
        key = one.kind, place, filled
        if key not in self.found:
            self.found[key] = spot_on(one.piece, place, self.rules, filled=filled)
        return tuple(At(part, spot) for part in parts for spot in self.found[key])


def roll_call(pieces: Mapping[str, PieceResult], rules: SheetRules) -> Roll:
    """The single parts of one set: `make` of each piece, every link of a chain."""
    return Roll(tuple(s for name, piece in pieces.items() for s in _singles(name, piece)), rules)


def _singles(name: str, piece: PieceResult) -> Sequence[Single]:
    links, count = links_in(piece), parts_in(piece)
    if count == 1:
        return (Single(name, name, piece),)
    return tuple(Single(f"{name} {i}", name, piece, i, links) for i in range(1, count + 1))
