"""The order of work for a job: heats and what the fire takes hang on each other, so both are reckoned in turn.

First the heats for the stock as reckoned, then the stock with what those heats take, and so on until no cut moves by a
mark of the tape, three times at most. The heats of a piece only rise on the way.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bickern.desk.forge_fit import forge_findings
from bickern.desk.reckon import Reckoning, fit_of, joint_of, mass_of
from bickern.desk.work.makeable import STOPPED, able, joints_left_out, joints_of, refused
from bickern.iron.steel import density_of
from bickern.making.heats.losses import losses_of
from bickern.making.heats.lots import lot_of
from bickern.making.heats.pack import zone_of
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import PiecePlan, Plan
from bickern.making.heats.unproved import ABOUT_HEATS
from bickern.making.shop import Fire, Shop
from bickern.making.work.result import NO_TIME
from bickern.measure.finding import Finding, Where, note, stop, warn
from bickern.measure.units.say import say_temperature
from bickern.measure.units.words import MILLIMETRE
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec

MOST_PASSES = 3
"""How often heats are counted: by then nothing moves that a tape could show."""
SAME_CUT = 0.01 * MILLIMETRE
"""Two lengths to cut within this are one [m]; both stand on marks of the tape."""
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
    found = (*found, *joints_left_out(copy), *_too_cold(last.plan, copy))
    pieces = tuple(_told(one, copy, last.pieces) for one in last.plan.pieces)
    plan = replace(last.plan, pieces=(*pieces, *_without_work(copy)), passes=passes)
    return _with_plan(done, last.pieces, plan, found)


def _settled(copy: Copy) -> tuple[_Pass, int, tuple[Finding, ...]]:
    """Heats and loss in turn until the cuts agree: the last of them, how often heats were counted, what was found."""
    now, before = _Pass(copy.pieces, _plan(copy, copy.pieces)), copy.pieces
    if _told_its_scale(copy.shop):
        return now, 1, (_as_told(copy),)
    for passes in range(1, MOST_PASSES + 1):
        pieces, found = _with_losses(copy, now)
        moving = _moved(before, pieces)
        if passes == MOST_PASSES or not moving:
            return _Pass(pieces, now.plan), passes, (*found, *(_unsettled(bar) for bar in moving))
        now, before = _rising(copy, now, pieces), pieces
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
    there = able(copy, pieces)
    return plan_of(list(there.values()), joints_of(copy, there), copy.job.finish, copy.shop, copy.job.make)


def _too_cold(plan: Plan, copy: Copy) -> tuple[Finding, ...]:
    """A fire that the shop file tells as colder than a heat that is asked of it; the seconds count it as hot enough."""
    fire, style = copy.shop.fire.temperature, copy.shop.style
    every = (*(s for one in plan.pieces for s in one.spells), *plan.joining, *plan.finish)
    hottest = max((spell.start for spell in every if spell.hot), default=0.0)
    if fire == Fire().temperature or hottest <= fire:
        return ()
    says = (
        f"the fire is told as {say_temperature(fire, style)} hot, and {say_temperature(hottest, style)} is asked of it"
    )
    way = "a deeper fire, more air, or mend `temperature` in the shop file; the seconds count it as hot enough"
    return (warn("fire-too-cold", says, way, Where(copy.job.file)),)


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
    losses = losses_of(plan, piece, zone_of(copy.shop), copy.shop.bar)
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


def _moved(before: Pieces, now: Pieces) -> tuple[BarResult, ...]:
    """The bars of now whose length to cut was another before."""
    cuts = _cuts(before)
    bars = (piece for piece in now if isinstance(piece, BarResult))
    return tuple(bar for bar in bars if abs(bar.cut_this - cuts[bar.spec.name]) > SAME_CUT)


def _unsettled(bar: BarResult) -> Finding:
    says = f"the length to cut for “{bar.spec.name}” still moves after its heats were counted {MOST_PASSES} times"
    return note("cut-not-settled", says, "leave a mark or two of the tape more", bar.spec.where)


def _told(plan: PiecePlan, copy: Copy, pieces: Pieces) -> PiecePlan:
    """A piece's plan with its cut before the heats were counted and with them."""
    first, last = _cuts(copy.pieces), _cuts(pieces)
    return replace(plan, first_cut=first.get(plan.piece, 0.0), last_cut=last.get(plan.piece, 0.0))


def _without_work(copy: Copy) -> Iterator[PiecePlan]:
    """The pieces that no order of work is offered for, each with the reason."""
    reasons = refused(copy)
    for spec in copy.job.pieces:
        if spec.name in reasons:
            make = spec.make * copy.job.make
            lot = replace(lot_of(make, (), copy.shop), piece=spec.name)
            yield PiecePlan(spec.name, make, (), NO_TIME, NO_TIME, lot, refused=reasons[spec.name])
    there = {spec.name for spec in copy.job.pieces}
    stopped = (f.where.path.split(".") for f in copy.findings if f.stops and f.where)
    for name in dict.fromkeys(path[1] for path in stopped if path[0] == "pieces" and len(path) > 1):
        if name not in there:  # so stopped that it was not even read as a piece: what is coated with zinc, say
            lot = replace(lot_of(copy.job.make, (), copy.shop), piece=name)
            yield PiecePlan(name, copy.job.make, (), NO_TIME, NO_TIME, lot, refused=STOPPED)


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
    not_validated = (*copy.not_validated, *ABOUT_HEATS)
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
        return no_such_piece(piece, [one.piece for one in copy.plan.pieces])
    one = mine[0]
    tools = tuple(tool for tool in copy.plan.tools if piece in tool.of.split(", "))
    heats, seconds = one.heats.times(one.make), one.lot.seconds
    alone = replace(copy.plan, pieces=mine, tools=tools, joining=(), finish=(), heats=heats, seconds=seconds)
    return replace(done, copy=replace(copy, plan=alone))


def no_such_piece(piece: str, names: Sequence[str]) -> Finding:
    """The finding for a piece that a job does not have, with the one that is most likely meant."""
    from difflib import get_close_matches

    near = get_close_matches(piece.strip().casefold(), names, 1)
    meant = f"did you mean “{near[0]}”? " if near else ""
    says = f"there is no piece “{piece[:40]}” in this job"
    return stop("no-such-piece", says, f"{meant}its pieces: {', '.join(names)}")
