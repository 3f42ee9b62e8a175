"""What is foreseen of a piece, so that it can be told afterwards; how that moves with each figure.

How it moves is found by reckoning the piece again with the figure a little more and a little less. A count of heats
moves by steps; here it is taken as it is between them, else a figure would teach by luck.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import exp, log, pi

from bickern.book.job.asked import Job
from bickern.desk.daybook.foreseen_work import Told, at_pace, between_steps, of_work
from bickern.desk.reckon import Reckoning, reckon_job
from bickern.desk.thickness import said_section
from bickern.desk.work.heats import no_such_piece, planned
from bickern.iron.section import Section, area
from bickern.iron.steel import density_of
from bickern.making.lessons.figures import (
    Learnable,
    all_figures,
    figures_in,
    mean_of,
    priors,
    value_in,
    value_of,
    with_value,
)
from bickern.making.lessons.kinds import AT, COLLAR, HEATS, KEPT, SIZE, STOCK
from bickern.making.lessons.record import Foreseen, Foresight, Size
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, Where, stop
from bickern.paper.copy import PieceResult
from bickern.parts.bar.allowances import without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import Blank
from bickern.parts.joint.spec import JointKind
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

STEP = 0.3
"""How far a figure is moved to see what moves with it, in logarithms: as far as it may well be off (our choice)."""
ROUNDED = pi / 4
"""No forged corner is emptier than one that is quite round (exact)."""
METAL = ("scale", "corners", "weld", "twist", "collar")
"""Figures that the pieces themselves are reckoned with; the others move only the order of work."""


def foreseen(job: Job, name: str, shop: Shop, made: int = 1, before: int = 0) -> Foresight | Finding:
    """What is foreseen of `made` copies of a piece, `before` of which were recorded ("": the whole job, so many sets).

    A finding where there is no such piece, or where it cannot be reckoned.
    """
    if name and job.piece(name) is None:
        return no_such_piece(name, [spec.name for spec in job.pieces]).at(Where(job.file))
    alone = _alone(job, name, made)
    bare = reckon_job(alone, shop)
    if bare.copy is None or not bare.copy.pieces:
        return _cannot(job, name, bare)
    asked = _Asked(alone, name, made, before, bare)
    done = asked.reckoned(shop)
    told, leans = asked.values(done, shop, smooth=False), _leans(asked, done, shop)
    rows = tuple(Foreseen(kind, value, leans.get(kind, ())) for kind, value in told.items() if value > 0.0)
    return _whole(job, asked, done, shop, rows)


def _alone(job: Job, name: str, made: int) -> Job:
    """The job as it is made for a record: one piece by itself, so many times; or all of it."""
    if not name:
        return replace(job, make=made)
    spec = job.piece(name)
    assert spec is not None  # looked at by the caller
    return replace(job, pieces=(replace(spec, make=1),), joints=(), hang=None, make=made)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is looked at: the job for it, the piece ("": all), how many, after how many, and the pieces as reckoned."""

    job: Job
    name: str
    made: int
    before: int
    bare: Reckoning

    def reckoned(self, shop: Shop, *, metal: bool = False) -> Reckoning:
        """It with its order of work, of this shop; the pieces anew where what they are reckoned with is another."""
        bare = reckon_job(self.job, shop) if metal else self.bare
        return bare if bare.copy is None else planned(replace(bare, copy=replace(bare.copy, shop=shop)))

    def work(self, done: Reckoning, shop: Shop) -> Told | None:
        """The order of work to tell of; None where there is none."""
        plan = done.copy.plan if done.copy is not None else None
        return None if plan is None or not plan.pieces else Told(plan, not self.name, self.made, self.before, shop)

    def values(self, done: Reckoning, shop: Shop, *, smooth: bool) -> dict[str, float]:
        """Everything foreseen by its kind, SI. `smooth`: heats taken as they are between their steps."""
        told = self.work(done, shop)
        work = {} if told is None else of_work(between_steps(told) if smooth else told)
        return dict(_of_metal(done, self.name)) | work


def _of_metal(done: Reckoning, name: str) -> Iterator[tuple[str, float]]:
    """Lengths and shares of metal: of the piece, or of the collars of the whole."""
    copy = done.copy
    assert copy is not None
    if not name:
        collars = [j.metal for j in copy.joints if j.spec.kind is JointKind.COLLAR]
        yield from ((COLLAR, collars[0]),) if collars else ()
        return
    piece = copy.pieces[0]
    if isinstance(piece, RingResult):
        yield STOCK, piece.stock.value
    if not isinstance(piece, BarResult):
        return
    if piece.spec.stock_length is None or isinstance(piece.spec.stock_length, Blank):
        yield STOCK, piece.stock.value
    else:
        yield from ((f"{SIZE}{one.name}", one.value) for one in piece.solved)
    lost = _lost(piece)
    if lost > 0.0:
        yield KEPT, 1.0 - lost / (piece.stock.value * area(piece.stock_section))


def _lost(bar: BarResult) -> float:
    """Metal [m3] that neither the piece nor an end of bar holds afterwards: scale and slugs."""
    fire = sum(run.volume * run.loss.value / (1.0 - run.loss.value) for run in bar.runs)
    return fire + sum(hole.slug for hole in bar.holes) + sum(_lost(child) for child in bar.children)


Leans = dict[str, list[tuple[str, float]]]
"""By kind: each figure with how the kind's logarithm moves with it."""


def _leans(asked: _Asked, done: Reckoning, shop: Shop) -> dict[str, tuple[tuple[str, float], ...]]:
    """How everything moves with each figure, on the figure's own scale: by what lies to both sides of where it stands.

    What the metal is reckoned with moves lengths and weights alone: heats that shift with it by luck are left out.
    """
    found: Leans = {}
    for figure in _that_matter(asked, asked.values(done, shop, smooth=False), shop):
        now = mean_of(figure, value_in(shop, figure))
        ends = [_moved(figure, now, way) for way in (-1.0, 1.0)]
        low, high = (_with(asked, done, figure, end - now, shop) for end in ends)
        for kind in low.keys() & high.keys():
            counts = figure.key not in METAL or kind in (STOCK, KEPT, COLLAR) or kind.startswith(SIZE)
            if counts and low[kind] > 0.0 < high[kind] and low[kind] != high[kind]:
                lean = (log(high[kind]) - log(low[kind])) / (ends[1] - ends[0])
                found.setdefault(kind, []).append((figure.key, lean))
    return {kind: tuple(rows) for kind, rows in found.items()}


def _with(asked: _Asked, done: Reckoning, figure: Learnable, by: float, shop: Shop) -> dict[str, float]:
    """What is foreseen with one figure moved by so much, on its own scale."""
    told = asked.work(done, shop)
    if told is not None and (figure.key == "fire" or figure.key.startswith(AT)):
        fire = figure.key == "fire"
        slowed = at_pace(told, fire=exp(by)) if fire else at_pace(told, does=_does(figure), times=exp(by))
        return of_work(between_steps(slowed))
    moved = with_value(shop, figure, value_of(figure, mean_of(figure, value_in(shop, figure)) + by))
    again = asked.reckoned(moved, metal=figure.key in METAL) if figure.key != "learning" else done
    return asked.values(again, moved, smooth=True)


def _does(figure: Learnable) -> str:
    return figure.key.removeprefix(AT)


def _moved(figure: Learnable, now: float, way: float) -> float:
    """A little more or less of a figure, on its own scale; no further than it can go."""
    by = min(STEP, figure.spread) if figure.positive else figure.spread
    low, high = mean_of(figure, figure.least), mean_of(figure, figure.most)
    return max(min(now, low), min(max(now, high), now + way * by))


def _that_matter(asked: _Asked, told: dict[str, float], shop: Shop) -> Iterator[Learnable]:
    """The figures that can move what is foreseen of it."""
    copy = asked.bare.copy
    sheet = copy is not None and all(isinstance(piece, SheetResult) for piece in copy.pieces)
    for figure in (all_figures()[key] for key in priors(shop)):
        if figure.key.startswith(AT):
            matters = figure.key in told
        elif figure.key == "learning":
            matters = asked.made + asked.before > 1
        elif figure.key == "collar":
            matters = COLLAR in told
        else:
            matters = figure.key not in METAL or bool(asked.name and not sheet)
        if matters:
            yield figure


def _whole(job: Job, asked: _Asked, done: Reckoning, shop: Shop, rows: tuple[Foreseen, ...]) -> Foresight:
    copy = done.copy
    assert copy is not None
    spec = job.piece(asked.name)
    make = job.make * (spec.make if spec is not None else 1)
    piece = copy.pieces[0] if asked.name else None
    section = _section_of(piece)
    density = density_of(piece.spec.steel) if piece is not None else 0.0
    return Foresight(
        job.title,
        asked.name,
        asked.made,
        asked.before,
        make,
        said_section(section, shop.style) if section is not None else "",
        area(section) if section is not None else 0.0,
        density,
        _least(piece, shop, density),
        any(one.kind == HEATS for one in rows),
        tuple(_sizes(piece)),
        rows,
        tuple(sorted(figures_in(shop).items())),
    )


def _section_of(piece: PieceResult | None) -> Section | None:
    if isinstance(piece, BarResult):
        return piece.stock_section
    return piece.spec.wire if isinstance(piece, RingResult) else None


def _least(piece: PieceResult | None, shop: Shop, density: float) -> float:
    """Stock [m] that even a piece with round corners holds, with nothing lost: less cannot have become it."""
    if isinstance(piece, RingResult):
        return piece.bare
    if not isinstance(piece, BarResult):
        return 0.0
    rules = replace(without_fire(shop.bar), corner_fullness=ROUNDED, weld_times=0.0)
    read = reckon_bar(piece.spec, rules, density, stock=piece.stock_section)
    return read.value.stock_bare if read.value is not None else 0.0


def _sizes(piece: PieceResult | None) -> Iterator[Size]:
    """What can be measured on the finished piece, with the stock that a metre of each takes."""
    if isinstance(piece, RingResult):
        yield Size("inside", piece.inside_across, piece.taken / max(piece.inside_across, 1e-9) * _round(piece))
    if not isinstance(piece, BarResult):
        return
    across = area(piece.stock_section)
    mean = sum(run.volume / (1.0 - run.loss.value) for run in piece.runs) / across / max(piece.length, 1e-9)
    sizes = piece.sizes
    whole = (("length", piece.length), ("reach", sizes.reach), ("across", sizes.across), ("rise", sizes.rise))
    yield from (Size(name, size, mean) for name, size in whole if size > 0.0)
    for run in piece.runs:
        long = run.end - run.start
        if run.name and long > 0.0:
            yield Size(run.name, long, run.volume / (1.0 - run.loss.value) / across / long)


def _round(ring: RingResult) -> float:
    """Share of a ring's bar that grows with its inside: pi inside across, over the bar."""
    return pi * ring.inside_across / ring.taken if ring.taken > 0.0 else 0.0


def _cannot(job: Job, name: str, bare: Reckoning) -> Finding:
    why = next((f.says for f in bare.findings if f.stops), "it cannot be reckoned")
    says = f"nothing is foreseen of {f'“{name}”' if name else 'this job'}: {why}"
    return stop("nothing-foreseen", says, "mend the job file first: bickern check", Where(job.file))
