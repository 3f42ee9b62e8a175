"""The order of work for a job: heats and what the fire takes hang on each other, so both are reckoned in turn.

First the heats for the stock as reckoned, then the stock with what those heats take, and so on until no cut moves by a
mark of the tape, three times at most. The heats of a piece only rise on the way.
"""

from dataclasses import dataclass, replace

from bickern.desk.forge_fit import forge_findings
from bickern.desk.reckon import Reckoning, fit_of, joint_of, mass_of
from bickern.iron.steel import density_of
from bickern.making.heats.losses import losses_of
from bickern.making.heats.lots import lot_of
from bickern.making.heats.pack import zone_of
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import PiecePlan, Plan
from bickern.making.shop import Shop
from bickern.making.work.result import NO_TIME
from bickern.measure.finding import Finding, Where, note, stop, warn
from bickern.measure.units.words import MILLIMETRE
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.joint.spec import JointResult
from bickern.parts.set.places import split_place

MOST_PASSES = 3
"""How often heats are counted: by then nothing moves that a tape could show."""
SAME_CUT = 0.01 * MILLIMETRE
"""Two lengths to cut within this are one [m]; both stand on marks of the tape."""
HEATS_UNPROVED = (
    "Blows, heats and minutes are not validated by anything printed: order of magnitude, x/÷1.6 on blows, x/÷1.8 on "
    "heats; count your own."
)
COOLING_UNPROVED = (
    "Cooling in still air agrees with the methods of textbooks; contact with the anvil has no measurement. Measured "
    "bars cooled 8 % faster than reckoned, one that was handed over 55 % faster."
)
"""Said on the sheet and on the terminal: what no print has confirmed about the order of work."""
STOPPED = "something stops this piece: see what was found"
"""Why no order of work is offered for it."""

Pieces = tuple[PieceResult, ...]


@dataclass(frozen=True, slots=True)
class _Pass:
    """The pieces as reckoned, and the order of work that was found for them."""

    pieces: Pieces
    plan: Plan


def planned(done: Reckoning) -> Reckoning:
    """The job with its order of work, its pieces reckoned with what the heats take; as it was where none can be read.

    A piece that something stops gets no order of work, and its stock stays as reckoned.
    """
    copy = done.copy
    if copy is None or not copy.pieces:
        return done
    last, passes, found = _settled(copy)
    pieces = tuple(_told(one, copy, last.pieces) for one in last.plan.pieces)
    plan = replace(last.plan, pieces=(*pieces, *_refused(copy)), passes=passes)
    return _with_plan(done, last.pieces, plan, found)


def _settled(copy: Copy) -> tuple[_Pass, int, tuple[Finding, ...]]:
    """Heats and loss in turn until the cuts agree: the last of them, how often heats were counted, what was found."""
    now = _Pass(copy.pieces, _plan(copy, copy.pieces))
    if _told_its_scale(copy.shop):
        return now, 1, (_as_told(copy),)
    for passes in range(1, MOST_PASSES + 1):
        pieces, found = _with_losses(copy, now)
        if passes == MOST_PASSES or _same_cuts(now.pieces, pieces):
            return _Pass(pieces, now.plan), passes, found
        now = _rising(copy, now, pieces)
    raise AssertionError("the passes end above")


def _rising(copy: Copy, before: _Pass, pieces: Pieces) -> _Pass:
    """The next order of work; pieces that would then want fewer heats stay as they were counted."""
    plan = _plan(copy, pieces)
    counted = {one.piece: one.heats.value for one in before.plan.pieces}
    fell = {one.piece for one in plan.pieces if one.heats.value < counted.get(one.piece, 0.0)}
    if not fell:
        return _Pass(pieces, plan)
    kept = {piece.spec.name: piece for piece in before.pieces if piece.spec.name in fell}
    pinned = tuple(kept.get(piece.spec.name, piece) for piece in pieces)
    return _Pass(pinned, _plan(copy, pinned))


def _plan(copy: Copy, pieces: Pieces) -> Plan:
    """The order of work for all sets of the job, without the pieces that something stops."""
    able = [piece for piece in pieces if not _stopped(piece, copy.shop)]
    there = {piece.spec.name: piece for piece in able}
    joints = [joint for joint in copy.joints if _all_there(joint, there)]
    return plan_of(able, joints, copy.job.finish, copy.shop, copy.job.make)


def _stopped(piece: PieceResult, shop: Shop) -> bool:
    return any(f.stops for f in (*piece.findings, *forge_findings(piece, shop)))


def _all_there(joint: JointResult, there: dict[str, PieceResult]) -> bool:
    """Whether every piece that a joint takes in is among those that are made."""
    places = (*joint.spec.through, joint.spec.ring)
    return all(split_place(place, there)[0] is not None for place in places if place)


def _with_losses(copy: Copy, now: _Pass) -> tuple[Pieces, tuple[Finding, ...]]:
    """The pieces reckoned anew with what the heats of their plan take, and what was found on the way."""
    plans = {one.piece: one for one in now.plan.pieces}
    reads = [_with_loss(copy, piece, plans.get(piece.spec.name)) for piece in now.pieces]
    return tuple(piece for piece, _ in reads), tuple(f for _, found in reads for f in found)


def _with_loss(copy: Copy, piece: PieceResult, plan: PiecePlan | None) -> tuple[PieceResult, tuple[Finding, ...]]:
    """One piece reckoned anew; as it was where it does not go into the fire or where what is left does not do."""
    spec = copy.job.piece(piece.spec.name)
    if plan is None or not isinstance(piece, BarResult) or not isinstance(spec, BarSpec):
        return piece, ()
    losses = losses_of(plan, piece, zone_of(copy.shop))
    if not losses or losses == tuple(run.loss for run in piece.runs):
        return piece, ()
    read = reckon_bar(spec, copy.shop.bar, density_of(spec.steel), stock=piece.stock_section, losses=losses)
    if read.value is None or any(f.stops for f in read.findings):
        return piece, (_too_little(plan, spec),)
    return read.value, ()


def _too_little(plan: PiecePlan, spec: BarSpec) -> Finding:
    says = f"“{plan.piece}” does not come out of its stock by what {plan.heats.value:.0f} heats would take of it"
    return warn("heats-take-too-much", says, "take longer stock, or do it in fewer heats", spec.where)


def _told_its_scale(shop: Shop) -> bool:
    """Whether the shop has a figure of its own for what the fire takes."""
    return shop.bar.scale_worked != BarRules().scale_worked


def _as_told(copy: Copy) -> Finding:
    says = "what the fire takes goes by the shop file (scale worked), not by the heats that are counted"
    return note("scale-as-told", says, "leave it out of the shop file to have it reckoned", Where(copy.job.file))


def _cuts(pieces: Pieces) -> dict[str, float]:
    """The length to cut of every bar [m]."""
    return {piece.spec.name: piece.cut_this for piece in pieces if isinstance(piece, BarResult)}


def _same_cuts(one: Pieces, other: Pieces) -> bool:
    first, second = _cuts(one), _cuts(other)
    return all(abs(first[name] - second[name]) <= SAME_CUT for name in first)


def _told(plan: PiecePlan, copy: Copy, pieces: Pieces) -> PiecePlan:
    """A piece's plan with its cut before the heats were counted and with them."""
    first, last = _cuts(copy.pieces), _cuts(pieces)
    return replace(plan, first_cut=first.get(plan.piece, 0.0), last_cut=last.get(plan.piece, 0.0))


def _refused(copy: Copy) -> tuple[PiecePlan, ...]:
    """The pieces that no order of work is offered for, since something stops them."""
    made = {piece.spec.name for piece in copy.pieces if not _stopped(piece, copy.shop)}
    out = [spec for spec in copy.job.pieces if spec.name not in made]
    return tuple(_without_work(spec.name, spec.make * copy.job.make, copy.shop) for spec in out)


def _without_work(name: str, make: int, shop: Shop) -> PiecePlan:
    lot = replace(lot_of(make, (), shop), piece=name)
    return PiecePlan(name, make, (), NO_TIME, NO_TIME, lot, refused=STOPPED)


def _with_plan(done: Reckoning, pieces: Pieces, plan: Plan, found: tuple[Finding, ...]) -> Reckoning:
    """The reckoning with its plan; joints and fit anew where a finished piece came out otherwise."""
    copy = done.copy
    assert copy is not None
    new = replace(copy, pieces=pieces, plan=plan)
    if [_finished(piece) for piece in copy.pieces] != [_finished(piece) for piece in pieces]:
        joints = tuple(
            r.value for r in (joint_of(pieces, j, copy.shop) for j in copy.job.joints) if r.value is not None
        )
        new = replace(new, joints=joints, fit=fit_of(pieces, joints, copy.shop))
    mass = sum(mass_of(p) for p in pieces) + sum(j.mass for j in new.joints)
    gone = frozenset(_findings_of(copy)) - frozenset(_findings_of(new))
    kept = [f for f in done.findings if f not in gone]
    at = Where(copy.job.file)
    every = dict.fromkeys((*kept, *_findings_of(new), *found, *(f.at(at) for f in plan.findings)))
    in_order = tuple(sorted(every, key=lambda f: (f.where.file, f.where.line, -f.weight)))
    not_validated = (*copy.not_validated, HEATS_UNPROVED, COOLING_UNPROVED)
    return Reckoning(done.job, replace(new, mass=mass, findings=in_order, not_validated=not_validated), in_order)


def _finished(piece: PieceResult) -> tuple[float, float]:
    """What shows whether a finished piece came out otherwise: its length and its mass."""
    return (piece.length, piece.mass) if isinstance(piece, BarResult) else (0.0, piece.mass)


def _findings_of(copy: Copy) -> tuple[Finding, ...]:
    """What was found of pieces, joints and fit, each at its own line."""
    return (
        *(f.at(p.spec.where) for p in copy.pieces for f in (*p.findings, *forge_findings(p, copy.shop))),
        *(f.at(j.spec.where) for j in copy.joints for f in j.findings),
        *copy.fit.findings,
    )


def only(done: Reckoning, piece: str) -> Reckoning | Finding:
    """The job with the order of work of one piece alone; a finding where there is no such piece."""
    copy = done.copy
    if copy is None or copy.plan is None:
        return done
    mine = tuple(one for one in copy.plan.pieces if one.piece == piece)
    if not mine:
        names = ", ".join(one.piece for one in copy.plan.pieces)
        return stop("no-such-piece", f"there is no piece “{piece}” in this job", f"its pieces: {names}")
    one = mine[0]
    tools = tuple(tool for tool in copy.plan.tools if piece in tool.of.split(", "))
    heats, seconds = one.heats.times(one.make), one.lot.seconds
    alone = replace(copy.plan, pieces=mine, tools=tools, joining=(), finish=(), heats=heats, seconds=seconds)
    return replace(done, copy=replace(copy, plan=alone))
