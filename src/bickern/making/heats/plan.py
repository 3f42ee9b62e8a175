"""The plan of a whole job: each piece's works in order, packed into heats; then what joins them; then the finish."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from bickern.iron.section import Section, hydraulic
from bickern.making.heats.checks import on_a_longer_bar, spell_findings
from bickern.making.heats.cold_only import ColdOnly, vented
from bickern.making.heats.handle import Handled, handled, limbs_on_bars
from bickern.making.heats.joining import (
    CLOSING,
    Joining,
    heated_in,
    hung_links,
    in_making_order,
    joined_to,
    joinings,
    left_open,
    told_when,
)
from bickern.making.heats.lots import lot_of
from bickern.making.heats.order import ordered
from bickern.making.heats.pack import Bench, bench_of, grows_out, held_thin, packed
from bickern.making.heats.result import End, PiecePlan, Plan, Spell
from bickern.making.heats.tools_first import tools_of
from bickern.making.heats.trust import test_first
from bickern.making.heats.warmth import summed
from bickern.making.shop import Shop
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.finish_works import works_of_finish
from bickern.making.work.refusal import refusal
from bickern.making.work.result import NO_TIME, Work
from bickern.making.work.ring_works import is_link, works_of_ring
from bickern.making.work.sheet_works import works_of_sheet
from bickern.measure.finding import Finding
from bickern.measure.spread import Spread
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult, Pieces, parts_in


@dataclass
class _Job:
    """What is planned: pieces by name, joints, shop; what is kept from the fire (`cold`), what was found.

    `joinings`: what joins the pieces, in order.
    """

    pieces: Pieces
    joints: Sequence[JointResult]
    shop: Shop
    sets: int
    finish: tuple[Work, ...]
    cold: ColdOnly
    joinings: tuple[Joining, ...] = ()
    found: list[Finding] = field(default_factory=list)

    def last_heated(self, name: str, *, welded: bool = False) -> Joining | None:
        """The last joint that heats a piece again (or welds it); none where it holds to what must not be heated."""
        if joined_to(name, self.joinings) & self.cold.refused.keys():
            return None
        told = ((j, heated_in(j)) for j in reversed(self.joinings))
        return next((j for j, heated in told if name in heated and (heated[name] or not welded)), None)


def plan_of(
    pieces: Sequence[PieceResult], joints: Sequence[JointResult], finish: str, shop: Shop, sets: int = 1
) -> Plan:
    """The order of work for a job that is made `sets` times; heats and seconds of the plan count every copy.

    Nothing coated, sealed or not known is heated, nor what it is joined to: such a piece keeps the cold work that comes
    before its first heat, and `refused` says why.
    """
    named = {p.spec.name: p for p in pieces}
    refused = {p.spec.name: says for p in pieces if (says := refusal(p))}
    finishing, joining = works_of_finish(finish, pieces, shop), joinings(joints, named, shop)
    job = _Job(named, joints, shop, sets, finishing, ColdOnly(refused), joining)
    plans = [_piece_plan(piece, job) for piece in in_making_order(pieces, joints)]
    joined = tuple(s for one in job.joinings for s in _joined(one, job))
    last = [w for w in job.finish if not w.hot or w.piece not in named]
    finished = _apart([w for w in last if not w.hot or w.piece not in refused], shop)
    rows = _numbered([*(p.spells for p in plans), joined, finished])
    counted = tuple(replace(p, spells=spells) for p, spells in zip(plans, rows, strict=False))
    return _whole(counted, rows[-2], rows[-1], job)


def _whole(plans: tuple[PiecePlan, ...], joining: tuple[Spell, ...], finish: tuple[Spell, ...], job: _Job) -> Plan:
    """The plan with its totals, over all copies of all sets."""
    ends = (joining, finish)
    heats = summed([*(p.heats.times(p.make) for p in plans), *(_heats(spells).times(job.sets) for spells in ends)])
    alone = [lot_of(1, spells, job.shop).seconds.times(job.sets) for spells in ends if spells]
    seconds = summed([*(p.lot.seconds for p in plans), *alone])
    tools = tools_of(tuple(job.pieces.values()), job.joints, job.shop)
    found = tuple(dict.fromkeys((*job.found, *job.cold.found)))
    return Plan(plans, tools, joining, finish, heats, seconds, findings=found)


def _heats(spells: Sequence[Spell]) -> Spread:
    return summed([s.times for s in spells if s.hot])


def _piece_plan(piece: PieceResult, job: _Job) -> PiecePlan:
    bench = _packed(piece, job)
    job.found.extend(spell_findings(piece, bench, job.shop))
    spells, make = tuple(bench.spells), parts_in(piece) * job.sets
    return PiecePlan(
        piece.spec.name,
        make,
        spells,
        _heats(spells),
        lot_of(1, spells, job.shop).seconds if spells else NO_TIME,
        replace(lot_of(make, spells, job.shop), piece=piece.spec.name),
        refused=job.cold.refused.get(piece.spec.name, ""),
        test_first=test_first(piece, job.shop, make),
    )


def _packed(piece: PieceResult, job: _Job) -> Bench:
    if isinstance(piece, BarResult):
        return _packed_bar(piece, job)
    if isinstance(piece, RingResult):
        return _packed_ring(piece, job)
    works = (*works_of_sheet(piece, job.shop), *_brushed(piece, job))
    turn = ordered(works, as_told=True)
    return packed(job.cold.piece(piece, turn.works), Bench(piece.spec.name, job.shop))


def _packed_bar(bar: BarResult, job: _Job) -> Bench:
    """A bar's works in order and packed; where it cannot be held at some heat, made on a longer bar."""
    works = (*(w for w in works_of_bar(bar, job.shop) if not _trued_later(w, job)), *_brushed(bar, job))
    if bar.spec.name in job.cold.refused:
        return packed(job.cold.piece(bar, ordered(works, bar.length).works), bench_of(bar, job.shop))
    ways: list[_Tried] = []
    for way in handled(bar, works, job.shop):
        ways.append(_tried(bar, way, job.shop))
        if not any(ways[-1].faults):
            break
    best = min(ways, key=lambda tried: tried.faults)
    job.found.extend((*best.findings, *best.way.findings))
    return best.bench


@dataclass(frozen=True, slots=True)
class _Tried:
    """A way to hold a bar as it came out: how often nothing is left to hold, how often only thin metal or little."""

    way: Handled
    bench: Bench
    findings: tuple[Finding, ...] = ()

    @property
    def faults(self) -> tuple[int, bool, int]:
        """The fewer, the better."""
        thin = held_thin(self.bench) if self.way.handle.end is not End.NEITHER else 0
        return len(self.bench.unheld), self.way.second, thin + sum(s.hold.small for s in self.bench.spells)


def _tried(bar: BarResult, way: Handled, shop: Shop) -> _Tried:
    """One way to hold a bar, packed; limbs that cannot be held by themselves are made on longer bars of their own."""
    bench = packed(vented(bar, ordered(way.works, bar.length).works), bench_of(bar, shop, way.handle))
    loose = {s.works[0].child: bench.lying[s.works[0].child].result for s in bench.unheld if s.works[0].child}
    loose = {path: limb for path, limb in loose.items() if not grows_out(path, bench)}
    if not loose:
        return _Tried(way, bench)
    works, limbs = limbs_on_bars(way.works, loose, shop)
    turn = vented(bar, ordered(works, bar.length).works)
    said = (on_a_longer_bar(limb, limb.stock.value, shop).at(bar.spec.where) for limb in loose.values())
    return _Tried(way, packed(turn, bench_of(bar, shop, way.handle, limbs)), tuple(said))


def _packed_ring(ring: RingResult, job: _Job) -> Bench:
    """One ring of its kind; left open where it is closed only when it is threaded."""
    works: tuple[Work, ...] = works_of_ring(ring, job.shop)
    closing = tuple(w for w in works if w.does in CLOSING)
    waits = left_open(ring, job.joints, job.pieces)
    if waits >= ring.spec.make:
        works = tuple(w for w in works if w.does not in CLOSING)
    elif waits or ring.chain is not None:
        hung = hung_links(ring, job.joints, job.pieces)
        works = tuple(told_when(w, ring, waits, hung) for w in works)
    if not waits or not any(w.hot for w in closing):
        works = (*works, *_brushed(ring, job))
    turn = ordered(works, chain=is_link(ring), as_told=True)
    return packed(job.cold.piece(ring, turn.works), Bench(ring.spec.name, job.shop, section=ring.spec.wire))


def _brushed(piece: PieceResult, job: _Job) -> tuple[Work, ...]:
    """The hot part of the finish that is done to this piece while it still goes into the fire: of one copy.

    Not yet of a piece that is heated once more where it is joined: that scales it again.
    """
    if piece.spec.name in job.cold.refused or job.last_heated(piece.spec.name) is not None:
        return ()
    return tuple(replace(w, seconds=w.seconds.times(1 / parts_in(piece))) for w in _brushings(piece, job))


def _brushings(piece: PieceResult, job: _Job) -> tuple[Work, ...]:
    """The hot part of the finish of one piece: of all its copies in a set."""
    mine = (w for w in job.finish if w.hot and w.piece == piece.spec.name)
    body = hydraulic(piece.stock_section) / 2 if isinstance(piece, BarResult) else 0.0
    # the thinnest tip does not set the time of a brushing: it is brushed first, or not at red at all
    return tuple(replace(w, thin=max(w.thin, body)) for w in mine)


def _trued_later(work: Work, job: _Job) -> bool:
    """Whether this is the cold truing of a whole bar that is still to be welded to another."""
    cold = work.does == "straighten" and not work.hot and not work.child
    return cold and job.last_heated(work.piece, welded=True) is not None


def _dressed(joining: Joining, works: Sequence[Work], job: _Job) -> tuple[Work, ...]:
    """The works of a joint with the truing and the brushing of those pieces for which it is the last heat."""
    mine = [job.pieces[name] for name in heated_in(joining) if name in job.pieces]
    brush = [w for p in mine if job.last_heated(p.spec.name) is joining for w in _brushings(p, job)]
    welded = [p for p in mine if isinstance(p, BarResult) and job.last_heated(p.spec.name, welded=True) is joining]
    true = [
        replace(w, seconds=w.seconds.times(parts_in(bar)))
        for bar in welded for w in works_of_bar(bar, job.shop) if _trued_later(w, job)
    ]  # fmt: skip
    at = max((i for i, w in enumerate(works) if w.hot), default=-1) + 1
    return (*works[:at], *true, *brush, *works[at:])


def _joined(joining: Joining, job: _Job) -> tuple[Spell, ...]:
    """The spells of one joint; none where it would heat what must not be, which is told."""
    ring = joining.closes
    works = _dressed(joining, job.cold.joint(joining.works), job)
    if ring is not None and any(w.hot and w.does in CLOSING for w in works):
        works = (*works, *_brushed(ring, job))
    spells = _apart(works, job.shop, ring.spec.wire if ring is not None else None)
    return tuple(replace(s, times=s.times.times(joining.count), wants=s.wants.times(joining.count)) for s in spells)


def _apart(works: Sequence[Work], shop: Shop, section: Section | None = None) -> tuple[Spell, ...]:
    """Works on what is joined or finished, in the order they come; each hot one is a heat, but a ring's brushing."""
    return tuple(packed(works, Bench(works[0].piece, shop, section=section)).spells) if works else ()


def _numbered(rows: list[tuple[Spell, ...]]) -> list[tuple[Spell, ...]]:
    """Heats counted through the job from 1; a spell of several heats takes as many numbers."""
    count, numbered = 1, []
    for row in rows:
        told = []
        for spell in row:
            told.append(replace(spell, number=count) if spell.hot else spell)
            count += round(spell.times.value) if spell.hot else 0
        numbered.append(tuple(told))
    return numbered
