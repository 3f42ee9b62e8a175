"""What joins the pieces, in the order to close it: what is made for good first, then rings, then pins and screws.

A ring that hangs in one bar is welded before that bar is riveted to anything.

The same order as `parts/fit/order` says in words. A ring that must be threaded is closed here, not with its piece.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.making.shop import Shop
from bickern.making.work.joint_works import works_of_joint
from bickern.making.work.result import Work
from bickern.making.work.ring_works import works_of_ring
from bickern.parts.bar.result import BarResult
from bickern.parts.fit.order import LAST, RIGID, hung_first, in_turn
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.set.pieces import PieceResult, Pieces
from bickern.parts.set.places import number_of, piece_named

CLOSING = ("close ring", "weld")
"""What shuts a ring."""


@dataclass(frozen=True, slots=True)
class Joining:
    """Works that join, in order: one joint's, or the closing of one ring (`closes`); `count`: how often it is done."""

    works: tuple[Work, ...]
    count: int = 1
    closes: RingResult | None = None


def joinings(joints: Sequence[JointResult], pieces: Pieces, shop: Shop) -> tuple[Joining, ...]:
    """Everything that joins, in order."""

    def of(*kinds: JointKind) -> list[Joining]:
        return [Joining(works_of_joint(j, pieces, shop)) for kind in kinds for j in joints if j.spec.kind is kind]

    early = hung_first([j.spec for j in joints], pieces)
    rings = [j for j in joints if j.spec.kind is JointKind.RING and not j.spec.hooked]
    first, then = ([j for j in rings if (j.spec.ring in early) is so] for so in (True, False))
    made = (*of(RIGID[0]), *_rings(first, pieces, shop), *of(*RIGID[1:]), *_rings(then, pieces, shop), *of(*LAST))
    return tuple(j for j in made if j.works)


def heated_in(joining: Joining) -> dict[str, bool]:
    """The pieces that a joint heats themselves, and whether they are welded there; not what is only riveted to them."""
    found: dict[str, bool] = {}
    for work in joining.works if joining.closes is None else ():
        if work.does == "weld":
            found |= dict.fromkeys((work.piece, *work.with_pieces), True)
        elif work.hot and (work.does == "shoulder" or work.case == "tenon"):
            found.setdefault(work.piece, False)
    return found


def joined_to(name: str, rows: Sequence[Joining]) -> set[str]:
    """The piece and all that holds together with it when everything is joined."""
    sets = [{n for w in row.works for n in (w.piece, *w.with_pieces)} for row in rows]
    found, before = {name}, 0
    while len(found) > before:
        before = len(found)
        found = found.union(*(one for one in sets if one & found))
    return found


def left_open(ring: RingResult, joints: Sequence[JointResult], pieces: Pieces) -> int:
    """How many rings of a piece are closed only when they are threaded; links of chains are told with their chain."""
    if ring.chain is not None or ring.spec.closing is Closing.OPEN:
        return 0
    named = {j.spec.ring for j in joints if j.spec.kind is JointKind.RING and not j.spec.hooked}
    mine = [name for name in named if piece_named(name, pieces) is ring]
    return ring.spec.make if any(number_of(n) is None for n in mine) else min(ring.spec.make, len(mine))


def told_when(work: Work, ring: RingResult, waits: int, hung: Sequence[str] = ()) -> Work:
    """The same work with words on which rings it is done to now: each on the end of its chain, or those not joined.

    `hung`: what some links of the chain are put through besides, before they are closed.
    """
    if ring.chain is not None:
        last = "scarf" if ring.spec.closing is Closing.WELDED else "close ring"
        says = "; ".join(("each new link is put through the end link of the chain before it is closed", *hung))
    else:
        stay = "is" if waits == 1 else "are"
        last, says = "", f"{ring.spec.make - waits} of them now: {waits} {stay} left open to be threaded first"
    if work.does != last and (last or work.does not in CLOSING):
        return work
    return replace(work, says=f"{work.says}; {says}" if work.says else says)


def hung_links(ring: RingResult, joints: Sequence[JointResult], pieces: Pieces) -> tuple[str, ...]:
    """What links of a chain are put through besides their neighbours, in words: "links 1 through toggle.hole too"."""
    found = []
    for spec in (j.spec for j in joints if j.spec.kind is JointKind.RING and not j.spec.hooked):
        others = [p for p in spec.through if piece_named(p.partition(".")[0], pieces) is not ring]
        if piece_named(spec.ring, pieces) is ring and others:
            found.append(f"{spec.ring} through {' and '.join(others)} too")
    return tuple(found)


def _rings(joints: Sequence[JointResult], pieces: Pieces, shop: Shop) -> Iterator[Joining]:
    """Rings so that each comes after those it is threaded through."""
    wanted: dict[str, list[str]] = {}
    for joint in joints:
        wanted.setdefault(joint.spec.ring, []).extend(joint.spec.through)
    for name in in_turn(wanted):
        mine = [j for j in joints if j.spec.ring == name]
        threads = tuple(w for j in mine for w in works_of_joint(j, pieces, shop))
        piece = piece_named(name, pieces)
        if not isinstance(piece, RingResult) or piece.spec.closing is Closing.OPEN:
            yield Joining(threads)
        elif piece.chain is not None:
            says = "while the chain is made, before this link is closed; closing it is counted with the chain"
            yield Joining(tuple(replace(w, says=says) for w in threads))
        else:
            count = 1 if number_of(name) is not None else piece.spec.make
            closing = (replace(w, key=f"{name}: {w.does}", name=name) for w in closing_works(piece, shop))
            yield Joining((*threads, *closing), count, piece)


def closing_works(ring: RingResult, shop: Shop) -> tuple[Work, ...]:
    """The works that shut a ring: its last."""
    return tuple(w for w in works_of_ring(ring, shop) if w.does in CLOSING)


def in_making_order(pieces: Sequence[PieceResult], joints: Sequence[JointResult]) -> tuple[PieceResult, ...]:
    """The pieces as the job tells them, but a ring after what it goes through: its hole must be there to try it in.

    A chain comes after the rings it hangs in too: it is made from one end, and that end is closed in its ring.
    """
    named = {p.spec.name: p for p in pieces}
    after: dict[str, set[str]] = {name: set() for name in named}
    for joint in joints:
        ring = piece_named(joint.spec.ring, named) if joint.spec.kind is JointKind.RING else None
        if ring is None or joint.spec.hooked:
            continue
        through = (piece_named(place.partition(".")[0], named) for place in joint.spec.through)
        first = (BarResult, RingResult) if isinstance(ring, RingResult) and ring.chain is not None else BarResult
        after[ring.spec.name] |= {p.spec.name for p in through if isinstance(p, first)}
    done: list[PieceResult] = []
    left = list(named)
    while left:
        ready = next((n for n in left if not after[n] & set(left) - {n}), left[0])
        done.append(named[ready])
        left.remove(ready)
    return tuple(done)
