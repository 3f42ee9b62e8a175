"""The pieces put together by their joints: the set, how far it swings, how it hangs.

It takes longer than the reckoning of the pieces and loads what is heavy, so it is done only where it is asked for.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from bickern.book.job.asked import Hang
from bickern.desk.reckon import Reckoning
from bickern.desk.standing import stood
from bickern.geometry.pose import Pose, put_all, then
from bickern.geometry.solid.solid import Fineness, Named, Solid, moved
from bickern.measure.finding import Finding, stop
from bickern.paper.copy import Copy
from bickern.parts.fit.result import Swing
from bickern.parts.set.result import SetResult

FIT_UNPROVED = "What a hand may be out by in a fit, 1/64 in, is common practice: nothing in print was found for it."
HANG_UNPROVED = "How it swings and hangs is reckoned on the pieces as drawn: no finished set was measured against it."
"""Said on the sheet and on the terminal: what no printed figure has confirmed."""
HAND = "hand"
"""What a set is held by that is held at an angle."""
UPRIGHT = 90.0
"""Degrees: a handle is held between straight down and straight up."""


def put_together(done: Reckoning) -> Reckoning:
    """The job with its set put together, swung and hung; as it was where something stops it."""
    if done.copy is None or done.stops:
        return done
    return _again(done, assembled(done.copy))


def for_packet(done: Reckoning, audience: str) -> Reckoning:
    """The job with all that a packet wants; a customer is not told how it goes together."""
    if done.copy is None or done.stops or audience == "customer":
        return done
    return _again(done, _made(assembled(done.copy)))


def hung(done: Reckoning, held: float | None = None) -> Reckoning:
    """The job with its set hung, not swung; held in the hand at `held` [degrees] where that is told."""
    if done.copy is None or done.stops:
        return done
    return _again(done, _honest(_hung(done.copy, None if held is None else math.radians(held))))


def wrong_hold(degrees: float | None) -> Finding | None:
    """What is wrong with the angle that a handle is held at; None where nothing is."""
    if degrees is None or -UPRIGHT <= degrees <= UPRIGHT:
        return None
    return stop("held-beyond-upright", f"nothing is held at {degrees:g} degrees", "say an angle from -90 to 90")


def _again(done: Reckoning, copy: Copy) -> Reckoning:
    """The reckoning with another copy, and all findings of it in order."""
    found = dict.fromkeys((*done.findings, *copy.findings))
    in_order = tuple(sorted(found, key=lambda f: (f.where.file, f.where.line, -f.weight)))
    return Reckoning(done.job, replace(copy, findings=in_order), in_order)


def assembled(copy: Copy) -> Copy:
    """The copy with its set, how it hangs, its solids as they hang or stand, and its swings."""
    copy = _honest(_hung(copy))
    if copy.set is None or (copy.hang is None and len(copy.set.bodies) > 1):
        return copy  # nobody says how bodies that hang loosely lie
    from bickern.parts.set.solids import piece_solid

    coarse = {p.spec.name: piece_solid(p, Fineness.PREVIEW, copy.shop.sheet) for p in copy.pieces}
    parts = [coarse[part.piece.spec.name] for part in copy.set.parts]
    poses = copy.hang.poses if copy.hang is not None else (_stood(copy.set, parts),)
    there = _reached(copy.set)
    solids = tuple(
        Named(part.name, moved(solid, then(poses[part.body], part.pose)))
        for part, solid in zip(copy.set.parts, parts, strict=True)
        if part.body in there
    )
    return replace(copy, solids=solids, swings=_swings(copy, parts))


def _honest(copy: Copy) -> Copy:
    """The copy with what nothing printed confirms about fit and hang."""
    fit = (FIT_UNPROVED,) if copy.fit.rows else ()
    return replace(
        copy, not_validated=(*copy.not_validated, *fit, *((HANG_UNPROVED,) if copy.hang is not None else ()))
    )


def _made(copy: Copy) -> Copy:
    """The copy with each piece as a solid by itself, as fine as files want it."""
    from bickern.parts.set.solids import piece_solid

    pieces = [(p.spec.name, piece_solid(p, Fineness.FINE, copy.shop.sheet)) for p in copy.pieces]
    return replace(copy, made=tuple(Named(name, solid) for name, solid in pieces))


def _swings(copy: Copy, parts: Sequence[Solid]) -> tuple[Swing, ...]:
    """How far each joint swings from how the set hangs; nothing is known of a set that does not hang."""
    if copy.set is None or copy.hang is None:
        return ()
    from bickern.parts.fit.swing import swings

    return swings(copy.set, copy.hang.poses, parts)


def _reached(whole: SetResult) -> frozenset[int]:
    """The bodies that hang together with the one that is held; all of them where none is."""
    if whole.held is None:
        return frozenset(range(len(whole.bodies)))
    joined = [{link.first, link.second} for link in whole.links]
    joined += [{pivot.first, pivot.second} for pivot in whole.pivots]
    found = {whole.held.body}
    for _ in joined:
        found |= {body for pair in joined if pair & found for body in pair}
    return frozenset(found)


def _stood(whole: SetResult, parts: Sequence[Solid]) -> Pose:
    """How the only body of a set that does not hang is stood."""
    import numpy as np

    placed = [put_all(part.pose, solid.points) for part, solid in zip(whole.parts, parts, strict=True)]
    return stood(np.vstack(placed), whole.bodies[0].centre)


def _hung(copy: Copy, held: float | None = None) -> Copy:
    """The copy with its set and how it hangs; as it was where it has neither joints nor a place to hang from."""
    if not copy.job.joints and copy.job.hang is None:
        return copy
    put = _put(copy, in_hand=held is not None)
    found = (*copy.findings, *put.findings)
    if put.held is None:
        return replace(copy, set=put, findings=found)
    from bickern.parts.hang.hang import hang, held_at

    rest = hang(put, style=copy.shop.style) if held is None else held_at(put, held)
    return replace(copy, set=put, hang=rest, findings=(*found, *rest.findings))


def _put(copy: Copy, *, in_hand: bool = False) -> SetResult:
    """The set put together; held in the hand, whatever the job says, where that is asked."""
    from bickern.parts.set.assemble import assemble

    pieces = {piece.spec.name: piece for piece in copy.pieces}
    held = copy.job.hang or Hang("")
    rules, asked, on = copy.shop.sheet, copy.job.joints, HAND if in_hand else held.on
    return assemble(pieces, asked, copy.joints, hung_from=held.place, on=on, where=held.where, rules=rules)
