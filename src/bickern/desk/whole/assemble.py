"""The pieces put together by their joints: the set, how far it swings, how it hangs.

It takes longer than the reckoning of the pieces and loads what is heavy, so it is done only where it is asked for.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from bickern.book.job.asked import Hang
from bickern.desk.reckon import Reckoning
from bickern.desk.whole.lots import lots_of, set_out
from bickern.geometry.solid.solid import Fineness, Named, Solid, moved
from bickern.measure.finding import Finding, Where, note, stop
from bickern.paper.copy import Copy
from bickern.parts.fit.result import Swing
from bickern.parts.hang.result import HangResult
from bickern.parts.set.pieces import parts_in
from bickern.parts.set.result import SetResult

FIT_UNPROVED = "What a hand may be out by in a fit, 1/64 in, is common practice: nothing in print was found for it."
HANG_UNPROVED = "How it swings and hangs is reckoned on the pieces as drawn: no finished set was measured against it."
"""Said on the sheet and on the terminal: what no printed figure has confirmed."""
HAND = "hand"
"""What a set is held by that is held at an angle."""
UPRIGHT = 90.0
"""Degrees: a handle is held between straight down and straight up."""


MOST_PARTS = 600
"""Single parts of a set that is put together: a chain of so many links is longer than any that hangs."""


def put_together(done: Reckoning) -> Reckoning:
    """The job with its set put together, swung and hung; as it was where a piece of it cannot be made."""
    if done.copy is None or not can_go_together(done):
        return done
    return _again(done, assembled(done.copy))


def for_packet(done: Reckoning, audience: str) -> Reckoning:
    """The job with all that a packet wants; a customer is not told how it is made and goes together."""
    if audience == "customer":
        return done
    from bickern.desk.work.heats import planned

    done = planned(done)
    if done.copy is None or not can_go_together(done):
        return done
    return _again(done, _made(assembled(done.copy)))


def hung(done: Reckoning, held: float | None = None) -> Reckoning:
    """The job with its set hung, not swung; held in the hand at `held` [degrees] where that is told."""
    if done.copy is None or not can_go_together(done):
        return done
    return _again(done, _honest(_hung(done.copy, None if held is None else math.radians(held))))


def can_go_together(done: Reckoning) -> bool:
    """Whether nothing but a joint that does not fit stops the job: how it would hang is told all the same."""
    fits = frozenset(done.copy.fit.findings) if done.copy is not None else frozenset()
    return all(f in fits for f in done.findings if f.stops)


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
    if copy.set is None:
        return copy
    from bickern.parts.set.solids import body_solids, kept_solid

    parts = [kept_solid(part.piece, copy.shop.sheet) for part in copy.set.parts]
    own = body_solids(copy.set, parts)
    poses = dict(enumerate(copy.hang.poses)) if copy.hang is not None else set_out(copy.set, own)
    lying = {b: [Named(one.name, moved(one.solid, poses[b])) for one in own[b]] for b in sorted(_there(copy.set))}
    shown = tuple(tuple(one for body in lot for one in lying[body]) for lot in _drawn(copy.set))
    solids = tuple(one for row in lying.values() for one in row)
    return replace(copy, solids=solids, shown=shown, swings=_swings(copy, parts))


def _there(whole: SetResult) -> frozenset[int]:
    """The bodies that the files hold: of a set that hangs those that hang together with what is held."""
    held = whole.held
    return frozenset(range(len(whole.bodies)) if held is None else _drawn(whole)[0])


def _drawn(whole: SetResult) -> tuple[tuple[int, ...], ...]:
    """The lots of bodies that the sheet shows: what hangs; of what stands all but single parts joined to nothing."""
    lots = lots_of(whole)
    if whole.held is not None:
        return tuple(lot for lot in lots if whole.held.body in lot)
    return tuple(lot for lot in lots if sum(len(whole.bodies[body].parts) for body in lot) > 1)


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
    if copy.set is None or copy.hang is None or copy.set.held is None or unrested(copy.hang):
        return ()
    from bickern.parts.fit.swing.swing import swings
    from bickern.parts.hang.held import wall_face

    wall = wall_face(copy.set, copy.set.held, copy.hang.poses[copy.set.held.body])
    return swings(copy.set, copy.hang.poses, parts, wall)


def unrested(rest: HangResult) -> bool:
    """Whether something in it hangs nowhere: how it lies then says nothing."""
    return any(f.name in ("finds-no-rest", "slides-off", "tied-round") for f in rest.findings)


def _hung(copy: Copy, held: float | None = None) -> Copy:
    """The copy with its set and how it hangs; as it was where it has neither joints nor a place to hang from."""
    if not copy.job.joints and copy.job.hang is None:
        return copy
    if (count := sum(parts_in(piece) for piece in copy.pieces)) > MOST_PARTS:
        return replace(copy, findings=(*copy.findings, too_many(count, copy.job.file)))
    put = _put(copy, in_hand=held is not None)
    found = (*copy.findings, *put.findings)
    if put.held is None:
        return replace(copy, set=put, findings=found)
    from bickern.parts.hang.hang import hang, held_at

    rest = hang(put, style=copy.shop.style) if held is None else held_at(put, held)
    told = tuple(f.at(copy.job.hang.where) for f in rest.findings) if copy.job.hang else rest.findings
    return replace(copy, set=put, hang=replace(rest, findings=told), findings=(*found, *told))


def too_many(count: int, file: str) -> Finding:
    """Told of a job of which no set is put together."""
    says = f"one set has {count} parts: how they hang together is not looked at beyond {MOST_PARTS}"
    return note("set-too-large", says, "is a `make:` meant for the whole job? Else try a shorter chain", Where(file))


def _put(copy: Copy, *, in_hand: bool = False) -> SetResult:
    """The set put together; held in the hand, whatever the job says, where that is asked."""
    from bickern.parts.set.assemble import assemble

    pieces = {piece.spec.name: piece for piece in copy.pieces}
    held = copy.job.hang or Hang("")
    rules, asked, on = copy.shop.sheet, copy.job.joints, HAND if in_hand else held.on
    return assemble(pieces, asked, copy.joints, hung_from=held.place, on=on, where=held.where, rules=rules)
