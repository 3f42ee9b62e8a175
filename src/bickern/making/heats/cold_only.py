"""What must not go in the fire: how far such a piece is made without it, and what may not be joined to it hot."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from bickern.making.work.refusal import is_shut, vents
from bickern.making.work.result import Work
from bickern.measure.finding import Finding, warn
from bickern.parts.bar.result import BarResult
from bickern.parts.set.pieces import PieceResult

TORCH = ("braze",)
"""Work that heats without the forge."""
IN_THE_FIRE = ("weld", "close ring", "scarf", "shoulder", "brush")
"""Hot work on a joint for which what is joined already goes into the fire too, and not a rivet or a collar alone."""


def wants_fire(work: Work) -> bool:
    """Whether a work heats the iron, in the forge or by torch."""
    return work.hot or work.does in TORCH


def vented(bar: BarResult, works: Sequence[Work]) -> tuple[Work, ...]:
    """The works of a bar in order; of a tube that is forged shut, its holes before the first heat."""
    through = vents(bar) if is_shut(bar) else frozenset()
    first = [w for w in works if not w.hot and not w.child and through & set(w.holes)]
    if not first:
        return tuple(works)
    says = "before the ends are shut: the hollow breathes through it"
    told = tuple(replace(w, says=f"{w.says}; {says}" if w.says else says) for w in first)
    rest = [w for w in works if w not in first]
    at = next((i for i, w in enumerate(rest) if w.hot), len(rest))
    return (*rest[:at], *told, *rest[at:])


def as_far_as_cold(works: Sequence[Work]) -> tuple[Work, ...]:
    """Works in order up to the first that wants the fire: what comes after it leans on it."""
    return tuple(works[: next((i for i, w in enumerate(works) if wants_fire(w)), len(works))])


@dataclass
class ColdOnly:
    """The pieces of a job that are kept from the fire, and why; those that cannot be made so (`unmade`); what holds
    together by now (`sets`); what was found."""

    refused: dict[str, str]
    unmade: set[str] = field(default_factory=set)
    sets: list[set[str]] = field(default_factory=list)
    found: list[Finding] = field(default_factory=list)

    def piece(self, piece: PieceResult, works: Sequence[Work]) -> tuple[Work, ...]:
        """Works of one piece in order, as far as they go without fire where it must have none."""
        name = piece.spec.name
        if name not in self.refused:
            return tuple(works)
        cold = as_far_as_cold(works)
        if len(cold) < len(works):
            self.unmade.add(name)
            hot = works[len(cold)]
            says = f"{name} cannot be made cold: {hot.does} {hot.name}".rstrip() + " wants the fire"
            tries = "take bare metal, open and known; never burn a coating off"
            self.found.append(warn("piece-kept-cold", says, tries).at(piece.spec.where))
        return cold

    def joint(self, works: Sequence[Work]) -> tuple[Work, ...]:
        """Works of one joint, all or none: none where they would heat what must not be, or one piece is not made."""
        names = set(_named(works))
        if names & self.unmade:
            return ()
        hot = next((w for w in works if wants_fire(w) and self._heats(w, names)), None)
        if hot is not None:
            says = f"{hot.key} would heat a piece that must not go in the fire"
            self.found.append(
                warn("joint-kept-cold", says, "join it cold: rivet it thin, screw it, or take bare metal")
            )
            return ()
        self._hold_together(names)
        return tuple(works)

    def _heats(self, work: Work, names: set[str]) -> bool:
        """Whether a work of this joint heats what must be kept cold: what it joins, or what hangs on that already."""
        there = set(names)
        if work.does in IN_THE_FIRE:
            there = there.union(*(one for one in self.sets if one & names))
        return bool(there & self.refused.keys())

    def _hold_together(self, names: set[str]) -> None:
        touched = [one for one in self.sets if one & names]
        self.sets = [one for one in self.sets if not one & names] + [names.union(*touched)]


def _named(works: Iterable[Work]) -> Iterator[str]:
    for work in works:
        yield work.piece
        yield from work.with_pieces
