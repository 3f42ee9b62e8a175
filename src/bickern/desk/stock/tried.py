"""One piece and one bar of the rack: reckoned by itself from that bar, its heats counted, set beside the asked.

What is wrong with the piece as asked is not laid at the bar's door: only what is new with it counts.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from bickern.book.job.asked import Job, Spec
from bickern.desk.reckon import Reckoning, reckon_job
from bickern.desk.work.heats import planned
from bickern.iron.section import Section, area
from bickern.iron.steel import density_of, find_steel
from bickern.making.shop import Shop
from bickern.making.stock.become import How, Turned
from bickern.making.stock.eaten import more, shared
from bickern.making.stock.rewrite import loosened, settled
from bickern.making.stock.steel_match import Match, Matched
from bickern.making.stock.swell import not_upset, upset_said
from bickern.making.work.operations import of_any, of_finish, of_joint
from bickern.making.work.result import NO_TIME
from bickern.measure.finding import Finding, Weight
from bickern.measure.money import Money
from bickern.measure.spread import Spread
from bickern.measure.units.say import other_first, say_both, say_length
from bickern.measure.units.words import MILLIMETRE, Style
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.says import both
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.ring.lengths import cut_at_once
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import parts_in
from bickern.parts.set.places import split_place
from bickern.parts.sheet.offers import is_hot
from bickern.parts.sheet.result import SheetResult

SHOWS = 0.5 * MILLIMETRE
"""A finished size that comes out otherwise by less [m] is not worth a word."""


@dataclass(frozen=True, slots=True)
class Made:
    """A piece by itself: the result, heats and seconds of one copy in its lot, what was found, why it gets no heats."""

    piece: PieceResult
    heats: Spread
    seconds: Spread
    findings: tuple[Finding, ...]
    refused: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """A piece as asked: the job's copy, the bar asked for (None: sheet), the piece made of it, whether it sees fire.

    `buy`: what the asked bar costs for one copy (None: not told).
    """

    copy: Copy
    spec: Spec
    asked: Section | None
    base: Made
    hot: bool
    buy: Money | None = None

    @property
    def shop(self) -> Shop:
        """The shop it is made in."""
        return self.copy.shop

    @property
    def cut(self) -> float:
        """The length to cut [m] of the asked bar; 0 of sheet."""
        return cut_of(self.base.piece, self.shop)

    @property
    def settled(self) -> Spec:
        """The piece as it comes out of the asked bar: where that bar's length is told, what it left open is fixed."""
        bar = self.base.piece
        if isinstance(bar, BarResult) and isinstance(self.spec, BarSpec):
            return settled(self.spec, bar)
        return self.spec

    @property
    def metal(self) -> float:
        """The least metal [m3] that a bar must hold for one copy."""
        piece = self.base.piece
        if isinstance(piece, BarResult):
            return piece.stock_bare * area(piece.stock_section)
        if isinstance(piece, RingResult):
            return (piece.taken if piece.coil is None else piece.coil.wire) * area(piece.spec.wire)
        return 0.0

    @property
    def mass(self) -> float:
        """What one copy's bar weighs [kg], as asked."""
        piece = self.base.piece
        if isinstance(piece, BarResult):
            return piece.stock_mass
        wanted = wire_of(piece) * area(piece.spec.wire) if isinstance(piece, RingResult) else 0.0
        return wanted * density_of(piece.spec.steel)


@dataclass(frozen=True, slots=True)
class Tried:
    """A bar tried: how, the piece as it is then asked, the length to cut [m], what it takes, and what to say of it."""

    how: How
    spec: Spec
    first: BarSpec | None
    cut: float
    heats: Spread
    seconds: Spread
    says: tuple[str, ...]
    result: BarResult | None


def cut_of(piece: PieceResult, shop: Shop) -> float:
    """The length to cut [m]: of rings that are wound the wire for one coil; 0 of sheet."""
    if isinstance(piece, RingResult):
        return cut_at_once(piece, shop.ring.tape)
    return 0.0 if isinstance(piece, SheetResult) else piece.cut_this


def wire_of(ring: RingResult) -> float:
    """Bar [m] for one ring, or for one coil of them."""
    return ring.stock.value if ring.coil is None else ring.coil.wire


def cuts_in(piece: PieceResult) -> int:
    """How often that is cut for one set: a coil once, however many rings come off it."""
    return 1 if isinstance(piece, RingResult) and piece.coil is not None else parts_in(piece)


def made(copy: Copy, spec: Spec, *, counted: bool = True) -> Made | tuple[Finding, ...]:
    """A piece by itself, its heats `counted`; what stops it, where something does."""
    alone = Job(copy.job.title, copy.job.units, (spec,), make=copy.job.make, file=copy.job.file)
    done = reckon_job(alone, copy.shop)
    stops = tuple(f for f in done.findings if f.stops)
    if done.copy is None or not done.copy.pieces or stops:
        return stops
    return _counted(done) if counted else Made(done.copy.pieces[0], NO_TIME, NO_TIME, done.findings)


def _counted(done: Reckoning) -> Made:
    done = planned(done)
    assert done.copy is not None
    assert done.copy.plan is not None
    (piece,), (plan, *_) = done.copy.pieces, done.copy.plan.pieces
    seconds = shared(plan.lot.seconds, plan.make)
    return Made(piece, plan.heats, seconds, done.findings, plan.refused)


def sees_fire(copy: Copy, piece: PieceResult) -> bool:
    """Whether a piece sees fire: by itself, in a joint, in its finish, or where it is used."""
    if isinstance(piece, SheetResult) and is_hot(piece.spec):
        return True
    named = {p.spec.name: p for p in copy.pieces}
    mine = (j for j in copy.joints if any(_is(place, named, piece) for place in (*j.spec.through, j.spec.ring)))
    done = of_any(piece, copy.shop) | of_finish(copy.job.finish, (piece,), copy.shop)
    return "heat" in done.union(*(of_joint(j, named, copy.shop) for j in mine))


def _is(place: str, named: dict[str, PieceResult], piece: PieceResult) -> bool:
    found = split_place(place, named)[0] if place else None
    return found is not None and found.spec.name == piece.spec.name


def of_steel(spec: Spec, steel: str, matched: Matched) -> Spec:
    """The piece of the steel that is there, by the name that the table of metals has for it."""
    if matched.match is Match.SAME:
        return spec
    known = find_steel(steel).value
    return replace(spec, steel=known.name if known is not None else "unknown")


def tried(ask: Ask, turned: Turned) -> Tried | str:
    """A piece from a bar, reckoned and its heats counted; in words why not, where something new stops it."""
    spec = turned.spec
    if turned.how is How.AS_IS and spec.steel == ask.spec.steel:
        result = ask.base.piece if isinstance(ask.base.piece, BarResult) else None
        return Tried(turned.how, spec, None, ask.cut, NO_TIME, NO_TIME, turned.says, result)
    if turned.first is not None:
        return _drawn_first(ask, turned, spec, turned.first)
    laid = _laid(ask.copy, spec)
    if not isinstance(laid.done, Made):
        return laid.done[0].says if laid.done else NOT_RECKONED
    if why := _against(ask, turned, laid.done):
        return why
    done = made(ask.copy, laid.spec)
    return _judged(ask, turned, laid, done) if isinstance(done, Made) else NOT_RECKONED


WITH_IT = ("wants-upset",)
"""Warnings of the piece that the way itself tells."""
NOT_RECKONED = "it cannot be reckoned from that bar"


@dataclass(frozen=True, slots=True)
class _Laid:
    """The piece as it was asked of the new bar, what came of it (or what stops it), and what was left open for it."""

    spec: Spec
    done: Made | tuple[Finding, ...]
    says: tuple[str, ...] = ()


def _laid(copy: Copy, spec: Spec) -> _Laid:
    """The piece from the new bar, before its heats; where its tracks differ, with its longest stretch left open."""
    done = made(copy, spec, counted=False)
    differ = not isinstance(done, Made) and any(f.name == "tracks-differ" for f in done)
    loose = loosened(spec, spec.stock) if differ and isinstance(spec, BarSpec) and spec.stock is not None else None
    if loose is None:
        return _Laid(spec, done)
    return _Laid(
        loose, made(copy, loose, counted=False), ("its longest stretch takes what the bends of the new bar leave",)
    )


def _against(ask: Ask, turned: Turned, done: Made) -> str:
    """Why no smith would do it, before its heats are counted; "" where one would."""
    base = ask.base.piece if isinstance(ask.base.piece, BarResult) else None
    if not isinstance(done.piece, BarResult) or turned.how is How.AS_IS:
        return ""
    return not_upset(done.piece, base)


def _judged(ask: Ask, turned: Turned, laid: _Laid, done: Made) -> Tried | str:
    """What came of it set beside the piece as asked; in words why not, where it does not go together any more."""
    bar = done.piece if isinstance(done.piece, BarResult) else None
    new = in_job(ask, laid.spec) if turned.how is How.NEAR else ()
    if stop := next((f for f in new if f.stops), None):
        return stop.says
    upset = upset_said(bar) if bar is not None and turned.how is How.DRAWN else ()
    found = [f for f in (*done.findings, *new) if f.name not in WITH_IT]
    says = (*(upset or turned.says), *laid.says, *_otherwise(ask, done.piece), *_new(ask, found))
    return Tried(
        How.UPSET if upset else turned.how,
        laid.spec,
        None,
        cut_of(done.piece, ask.shop),
        more(done.heats, ask.base.heats),
        more(done.seconds, ask.base.seconds),
        tuple(dict.fromkeys(says)),
        bar,
    )


def _drawn_first(ask: Ask, turned: Turned, spec: Spec, even: BarSpec) -> Tried | str:
    """A ring whose even bar is drawn first: that bar's heats come on top of the ring's own."""
    assert isinstance(ask.base.piece, RingResult)
    length = replace(even.metal[0], length=wire_of(ask.base.piece))
    first = replace(even, metal=(length,), steel=spec.steel, make=cuts_in(ask.base.piece))
    done = made(ask.copy, first)
    if not isinstance(done, Made):
        return done[0].says if done else NOT_RECKONED
    return Tried(turned.how, spec, first, cut_of(done.piece, ask.shop), done.heats, done.seconds, turned.says, None)


def in_job(ask: Ask, spec: Spec) -> tuple[Finding, ...]:
    """What is found in the whole job when the piece is of the other bar, and was not before: joints and fit count."""
    job = ask.copy.job
    pieces = tuple(spec if one.name == spec.name else one for one in job.pieces)
    known = {(_key(f), f.weight) for f in ask.copy.findings}
    found = reckon_job(replace(job, pieces=pieces), ask.shop).findings
    return tuple(f for f in found if (_key(f), f.weight) not in known)


def _key(found: Finding) -> tuple[str, int, str]:
    return found.name, found.where.line, found.where.path


def _new(ask: Ask, found: Iterable[Finding]) -> Iterator[str]:
    """Warnings that the piece as asked does not have."""
    known = {_key(f) for f in ask.base.findings}
    yield from dict.fromkeys(f.says for f in found if f.weight is Weight.WARN and _key(f) not in known)


def _otherwise(ask: Ask, piece: PieceResult) -> Iterator[str]:
    """What comes out otherwise: what was left open, and the length along the bar."""
    base = ask.base.piece
    if not isinstance(base, BarResult) or not isinstance(piece, BarResult):
        return
    before = {one.name: one.value for one in base.solved}
    for one in piece.solved:
        was = before.get(one.name, one.value)
        if abs(one.value - was) > SHOWS and both(one.value) != both(was):
            now, then = _apart(one.value, was, ask.shop.style)
            yield f"{one.name} comes out {now}, not {then}"
    if abs(piece.length - base.length) > SHOWS and not piece.solved:
        now, then = _apart(piece.length, base.length, ask.shop.style)
        yield f"it comes out {now} along the bar, not {then}"


def _apart(now: float, then: float, style: Style) -> tuple[str, str]:
    """Two lengths in the shop's own way, told finer where they would read alike in either system."""
    said = (say_both(now, style), say_both(then, style))
    ways = (style, other_first(style))
    alike = any(say_length(now, way) == say_length(then, way) for way in ways)
    return (say_both(now, style, fit=True), say_both(then, style, fit=True)) if alike else said
