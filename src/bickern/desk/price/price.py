"""What a job should cost and sell for, for several counts of sets: each count with an order of work of its own."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bickern.desk.by_rack import reckoned_by
from bickern.desk.reckon import Reckoning
from bickern.desk.work.heats import planned
from bickern.geometry.polygon import bounds
from bickern.iron.section import Section, area
from bickern.iron.steel import Steel, density_of, taken_for
from bickern.making.quote.asked import Asked, Metal
from bickern.making.quote.hours import hours_of
from bickern.making.quote.quote import quote_of
from bickern.making.quote.result import Quote
from bickern.making.shop import MOST_COUNTS, MOST_SETS, Shop
from bickern.making.stock import worth
from bickern.making.stock.rack import Rack
from bickern.measure.finding import Finding, Where, stop
from bickern.measure.units.read import read_count
from bickern.paper.copy import Copy
from bickern.paper.sheets.price_words import lack_says
from bickern.paper.sheets.wording import Cut, to_cut
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.lengths import cut_at_once
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

NO_RACK = Rack()


@dataclass(frozen=True, slots=True)
class Pricing:
    """A job priced: the reckoning with its order of work and its quotes, and all that was found."""

    done: Reckoning
    quotes: tuple[Quote, ...]
    findings: tuple[Finding, ...]

    @property
    def stops(self) -> bool:
        """Whether something stops the work, or a price is lacking."""
        return any(f.stops for f in self.findings)


def priced_file(
    path: Path,
    counts: Sequence[int] = (),
    shop_path: Path | None = None,
    where: str | Path | None = None,
    *,
    own: bool = False,
) -> Pricing:
    """A job file priced; of a job that cannot be read, its findings alone.

    Where a rack is named, bar that the shop file tells no price for is worth what is told there. `own`: the hours go by
    what the day book has taught.
    """
    rack, found = (NO_RACK, ()) if where is None else _lies_at(where)
    done = reckoned_by(path, shop_path, where, own=own)
    pricing = priced(done, counts, rack, "" if shop_path is None else str(shop_path))
    if isinstance(pricing, Finding):
        return Pricing(done, (), tuple(dict.fromkeys((*found, *done.findings, pricing))))
    return replace(pricing, findings=tuple(dict.fromkeys((*found, *pricing.findings))))


def _lies_at(where: str | Path) -> tuple[Rack, tuple[Finding, ...]]:
    from bickern.desk.rack.rack import rack_at

    return rack_at(where)


def counts_of(text: str) -> tuple[int, ...] | Finding:
    """The counts in `1,6,24`, the fewest first; none where nothing is told."""
    reads = [read_count(word, most=MOST_SETS) for word in text.split(",") if text.strip()]
    for read in reads:
        if read.value is None:
            return read.findings[0]
    counts = tuple(sorted({read.value for read in reads if read.value is not None}))
    if len(counts) > MOST_COUNTS:
        return stop("too-many-counts", f"{len(counts)} counts are asked for", f"ask for {MOST_COUNTS} at most")
    return counts


def priced(done: Reckoning, counts: Sequence[int] = (), rack: Rack = NO_RACK, shop_file: str = "") -> Pricing | Finding:
    """The job priced for these counts of sets (none: the shop's own); a finding where there is nothing to price.

    `rack`: bars whose prices stand in where the shop file tells none. `shop_file`: for the place of what is not told.
    """
    copy = done.copy
    if copy is None or not copy.pieces:
        return stop(
            "nothing-to-price", "no piece of the job can be reckoned, so nothing is priced", "mend the findings first"
        )
    plans = [_planned(done, copy, count) for count in counts or copy.shop.terms.counts]
    quotes = tuple(quote_of(_asked(plan.copy, rack)) for plan in plans if plan.copy is not None)
    last = plans[-1]
    assert last.copy is not None
    whole = Reckoning(done.job, replace(last.copy, job=copy.job, quotes=quotes), last.findings)
    return Pricing(whole, quotes, (*last.findings, *_lacking(quotes, copy, shop_file)))


def _planned(done: Reckoning, copy: Copy, count: int) -> Reckoning:
    """The order of work for that many sets."""
    job = replace(copy.job, make=count)
    return planned(replace(done, job=job, copy=replace(copy, job=job)))


def _lacking(quotes: Sequence[Quote], copy: Copy, shop_file: str) -> Iterator[Finding]:
    """What keeps a price from being told."""
    at = Where(shop_file or copy.job.shop or copy.job.file)
    lacks = tuple(dict.fromkeys(says for quote in quotes for says in quote.lacks))
    without = tuple(dict.fromkeys(name for quote in quotes for name in quote.without))
    if lacks:
        money = "" if copy.shop.currency else ", nor in which money the shop reckons"
        says = f"{lack_says(lacks)}{money}: there is no price, and the rest is shown"
        yield stop("no-rate", says, f"{TO_TELL} in the shop file, and name it with --shop", at)
    if without:
        says = f"no order of work is offered for “{'”, “'.join(without)}”: its time lacks, so there is no price"
        yield stop("no-work-no-price", says, "mend what stops the piece first", Where(copy.job.file))


TO_TELL = "write `currency: USD`, `rate: 45` and `prices: {fuel: 4, metal: 1.20 a lb}`"


def _asked(copy: Copy, rack: Rack) -> Asked:
    """What one count of sets takes, from its order of work."""
    plan = copy.plan
    assert plan is not None
    without = (one.piece for one in plan.pieces if one.refused or not one.spells)
    hours = hours_of(plan, copy.job.make, copy.shop)
    return Asked(copy.job.make, tuple(_metal(copy, rack)), hours, copy.shop, tuple(dict.fromkeys(without)))


def _metal(copy: Copy, rack: Rack) -> Iterator[Metal]:
    """The metal of every piece and joint, of all sets."""
    for cut in to_cut(copy):
        piece = cut.piece
        if isinstance(piece, SheetResult):
            yield _sheet(piece, cut.name, cut.count, copy.shop)
        else:
            section, length = _bar_of(cut, copy)
            yield _bar(cut.name, section, length, piece.spec.steel, copy.shop, rack)
    mass = sum(joint.mass for joint in copy.joints) * copy.job.make
    if mass > 0:
        yield Metal("joints", mass, worth.metal(mass, None, copy.shop), price=copy.shop.terms.metal)


def _bar_of(cut: Cut, copy: Copy) -> tuple[Section, float]:
    """The section of a piece's stock, and the length cut of it for all sets [m]: of wound rings a coil a set."""
    piece = cut.piece
    if isinstance(piece, BarResult):
        return piece.stock_section, piece.cut_this * cut.count
    assert isinstance(piece, RingResult)
    times = cut.count if piece.coil is None else copy.job.make
    return piece.spec.wire, cut_at_once(piece, copy.shop.ring.tape) * times


def _bar(name: str, section: Section, length: float, steel: str, shop: Shop, rack: Rack) -> Metal:
    mass = length * area(section) * density_of(steel)
    cost, by = worth.replacement(mass, length, section, shop, steel, rack.bars)
    return Metal(name, mass, cost, False, by, _of(taken_for(steel)))


def _sheet(sheet: SheetResult, name: str, count: int, shop: Shop) -> Metal:
    """Sheet by the rectangle round each pattern: what is left round it is mostly not worth keeping."""
    boxes = [(bounds(pattern.outline), pattern.make) for pattern in sheet.patterns]
    net = sum((high[0] - low[0]) * (high[1] - low[1]) * make for (low, high), make in boxes)
    steel = sheet.spec.steel
    mass = net * sheet.spec.thick * density_of(steel) * count
    known = taken_for(steel)
    return Metal(name, mass, worth.metal(mass, None, shop, steel), True, worth.words_of(None, shop, known), _of(known))


def _of(steel: Steel) -> str:
    """What must be priced, in words."""
    return "metal" if worth.is_plain(steel) else steel.name
