"""From jobs and the rack to a plan: what comes off which bar and sheet, what is short."""

import datetime
import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from bickern import __version__
from bickern.desk.by_rack import by_own_figures
from bickern.desk.rack.rack import rack_at
from bickern.desk.reckon import Reckoning, reckon_file
from bickern.desk.seen import AS_SHOP, Seen, as_seen
from bickern.desk.stock.any_bar import chosen
from bickern.desk.stock.instead import offers, offers_said, with_others
from bickern.desk.stock.tried import sees_fire
from bickern.desk.work.heats import planned
from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.plan import plan_lengths
from bickern.geometry.pack.lengths.result import LengthPlan
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.result import Nest
from bickern.iron.steel import families_of
from bickern.making.shop import Shop
from bickern.making.stock.cuts import (
    SectionCuts,
    length_of,
    marked,
    plan_beside,
    plan_section,
    too_long_to_buy,
    uses_of,
)
from bickern.making.stock.groups import Group, bar_groups, sheet_groups
from bickern.making.stock.rack import Rack, StockBar, StockSheet, Taking
from bickern.making.stock.sheet_cuts import GaugeCuts, Nester, plan_gauge, uses_of_sheets
from bickern.making.stock.wants import SheetWant, ToCut, Want, Wanted, together, wanted
from bickern.making.work.caution import Caution
from bickern.making.work.cautions import that_apply
from bickern.measure.finding import Finding, Where, note, stop, warn
from bickern.measure.units.say import say_up_both
from bickern.paper.copy import Copy
from bickern.paper.sheets import wording
from bickern.paper.sheets.cut_words import CutCopy, mark_step, name_of
from bickern.paper.sheets.mark_words import names_on_longer_bars

SECONDS_FOR_BARS = 2.0
"""Time that the plans for all sections of bar are given together [s]."""
AT_ONCE = 4
"""Sections of bar that are planned side by side, each in a process of its own."""
SECONDS_A_SECTION = 0.5
"""Time that the plan for one section of bar is given in any case [s]."""
SECONDS_A_GAUGE = 45.0
"""Time that laying out one thickness of sheet is given [s]."""


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The plan as it is shown and printed (None where there is nothing to plan), what taking it would write, findings.

    `made`: the jobs as reckoned and planned, that the plan was made for.
    """

    copy: CutCopy | None
    taking: Taking
    findings: tuple[Finding, ...]
    made: tuple[Copy, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether something stops it from being taken."""
        return any(f.stops for f in self.findings)


@dataclass(frozen=True, slots=True)
class Limits:
    """What a search is held to: its seed, whether to go on (somebody may stop it), and whom to tell how far it is.

    `bar_seconds`: time for the plans of all bars [s]; a harder one is found or proven with more. `share`: is told how
    much of the time that it may take is used, from 0 to 1; it may well be through long before.
    """

    seed: int = 1
    bar_seconds: float = SECONDS_FOR_BARS
    keep_going: Callable[[], bool] = lambda: True
    report: Callable[[str], None] = lambda says: None
    share: Callable[[float], None] = lambda used: None


NOTHING = Taking((), ())
AnyGroup = TypeVar("AnyGroup", Group[Want, StockBar], Group[SheetWant, StockSheet])


def cut_plan(
    jobs: Sequence[Path],
    where: str | Path | None = None,
    shop_path: Path | None = None,
    *,
    substitute: bool = False,
    own: bool = False,
    limits: Limits = Limits(),
    seen: Seen = AS_SHOP,
) -> CutPlan:
    """What comes off which bar and sheet of the rack at `where` for these jobs together.

    A job that something stops is left out, and the plan cannot be taken until that is mended. `substitute`: what is
    short is made of other bars that would do, else they are only offered. `seen`: how it is to be shown.
    """
    rack, found = rack_at(where)
    if any(f.stops for f in found):
        return CutPlan(None, NOTHING, found)
    read = [reckon_file(path, shop_path) for path in jobs]
    reckoned = [_reckoned(by_own_figures(done, where) if own else done, rack) for done in read]
    said = (*_twice(jobs), *(f for done, picked in reckoned for f in (*picked, *_stopping(done))))
    copies = (done.copy for done, _ in reckoned if done.copy is not None and not done.stops)
    made = tuple(replace(copy, shop=as_seen(copy.shop, seen)) for copy in copies)
    if not made:
        return CutPlan(None, NOTHING, (*found, *said))
    return plan_of_copies(made, rack, (*found, *said), substitute=substitute, limits=limits)


def _twice(jobs: Sequence[Path]) -> Iterator[Finding]:
    """A note for each job file that is named more than once."""
    named = [path.resolve() for path in jobs]
    for path in dict.fromkeys(named):
        if (times := named.count(path)) > 1:
            says = f"{path.name} is named {times} times: it is planned as often"
            yield note("job-named-twice", says, "name it once, and write `make` in it for several sets")


def plan_of_copies(
    made: Sequence[Copy],
    rack: Rack,
    before: Iterable[Finding] = (),
    *,
    substitute: bool = False,
    limits: Limits = Limits(),
) -> CutPlan:
    """The plan for jobs already reckoned, with the order of work, from this rack; the first job's shop cuts."""
    shop, keyed = made[0].shop, tuple(zip(_keys(made), made, strict=True))
    every = together(_wanted(copy, key) for key, copy in keyed)
    bars, of_bars = _bars(every.bars, rack.bars, shop, limits)
    instead = offers(bars, keyed, rack) if any(plan.lacks for plan in bars) else ()
    if substitute:
        bars, of_others = with_others(bars, instead, shop, _solver(limits, limits.bar_seconds))
        of_bars, instead = (*of_bars, *of_others), ()
    bars = tuple(marked(plan, shop.cutting, mark_step(shop.style)) for plan in bars)
    sheets, of_sheets = _sheets(every.sheets, rack.sheets, shop, limits)
    titles = tuple(dict.fromkeys(copy.job.title for copy in made))
    copy = CutCopy(
        titles,
        shop,
        bars,
        sheets,
        _cautions(every),
        instead=offers_said(instead, shop.style),
        printed=datetime.date.today().isoformat(),
        version=__version__,
    )
    found = (*before, *_other_shops(made), *of_bars, *of_sheets, *_short(copy), *_stopped_early(copy, limits))
    copy = replace(copy, findings=tuple(dict.fromkeys(found)))
    return CutPlan(copy, _taking(copy), copy.findings, tuple(made))


def _stopped_early(copy: CutCopy, limits: Limits) -> Iterator[Finding]:
    """A warning where the search was stopped, and what it has is only the best so far."""
    if not limits.keep_going() or any(plan.cut_short for plan in copy.sheets):
        says = "the search was stopped before it was through: this is the best plan so far"
        yield note("plan-cut-short", says, "let it run to its end for a better one, or take this")


# ---- the jobs


def _reckoned(done: Reckoning, rack: Rack) -> tuple[Reckoning, tuple[Finding, ...]]:
    """A job with its order of work, for that says what to cut; where it leaves a bar to the rack, which was chosen."""
    picked = chosen(done, rack)
    new = tuple(f for f in picked.findings if f not in done.findings and f.name == "bar-from-the-rack")
    return planned(picked), new


def _stopping(done: Reckoning) -> Iterator[Finding]:
    """What stops a job, and that it is left out of the plan for it."""
    stops = [f for f in done.findings if f.stops]
    yield from stops
    if stops or done.copy is None:
        title = done.job.title if done.job is not None else "the job"
        says = f"“{title}” is left out of the cut plan: something stops it"
        yield stop("cut-job-stopped", says, "mend that first; nothing is taken until then")


def _keys(made: Sequence[Copy]) -> tuple[str, ...]:
    """A name for each job that no other has: that of its file, numbered where two are alike."""
    stems = [Path(copy.job.file).stem for copy in made]
    return tuple(
        f"{stem} {stems[: i + 1].count(stem)}" if stems.count(stem) > 1 else stem for i, stem in enumerate(stems)
    )


def _wanted(copy: Copy, key: str) -> Wanted:
    """What one job wants cut; what sees fire by itself, in a joint, in its finish or in use is hot."""
    hot = {piece.spec.name: sees_fire(copy, piece) for piece in copy.pieces}
    cuts = [ToCut(c.piece, c.name, c.count, hot.get(_owner(c.name, hot), True)) for c in wording.to_cut(copy)]
    every = wanted(copy.job.title, key, copy.job.make, cuts, copy.joints, copy.shop)
    on_bars = names_on_longer_bars(copy)
    return replace(every, bars=tuple(_not_before(w) if w.name in on_bars else w for w in every.bars))


def _not_before(want: Want) -> Want:
    return replace(want, says="; ".join(says for says in (want.says, NOT_BEFORE) if says))


NOT_BEFORE = "do not cut it before: forge it on the end of this bar, cut it off when the order of work says so"
"""Of a piece too short to hold, which the order of work forges on a longer bar."""


def _owner(name: str, pieces: Mapping[str, bool]) -> str:
    """The piece that a cut belongs to: its own name, or that of the bar which a branch is welded on to."""
    return name if name in pieces else name.partition(":")[0]


def _other_shops(made: Sequence[Copy]) -> Iterator[Finding]:
    """A note where the jobs go by shop files that cut otherwise."""
    for copy in made[1:]:
        if copy.shop.cutting != made[0].shop.cutting:
            says = (
                f"“{copy.job.title}” goes by a shop file that cuts otherwise: all is cut as for “{made[0].job.title}”"
            )
            yield note("shops-cut-otherwise", says, "name one shop file for all: --shop FILE", Where(copy.job.file))


# ---- bars and sheets


def _bars(
    wants: Sequence[Want], bars: Sequence[StockBar], shop: Shop, limits: Limits
) -> tuple[tuple[SectionCuts, ...], tuple[Finding, ...]]:
    """A plan for each section and steel, and what was found of the bars of that size."""
    plans: dict[int, SectionCuts] = {}
    found: list[Finding] = []
    taken: set[str] = set()
    groups = _least_choice_first(bar_groups(wants, bars, shop.cutting.unknown))
    seconds = max(SECONDS_A_SECTION, limits.bar_seconds * min(1.0, AT_ONCE / max(1, len(groups))))
    solve = _solver(limits, seconds)

    def each(group: Group[Want, StockBar]) -> SectionCuts:
        limits.report(f"bars: {wording.section(group.wants[0].section, shop.style)}")
        return plan_section(group.wants, group.stock, group.unknown, shop.cutting, solve)

    with ThreadPoolExecutor(AT_ONCE) as at_once:
        wholes = list(at_once.map(each, [group for _, group in groups]))
    for (at, group), whole in zip(groups, wholes, strict=True):
        plan = plan_beside(whole, group.wants, group.stock, group.unknown, shop.cutting, solve, taken)
        plans[at] = plan
        used = {bar.stock.id for bar in plan.bars}
        found += _said_of(group, used)
        found += _too_long(plan, shop)
        taken |= used
    return tuple(plans[at] for at in sorted(plans)), tuple(found)


def _least_choice_first(groups: Sequence[AnyGroup]) -> list[tuple[int, AnyGroup]]:
    """Groups with their places in the plan, those first that have least stock to choose from: some serves several."""
    return sorted(enumerate(groups), key=lambda one: len(one[1].stock))


def _solver(limits: Limits, seconds: float) -> Callable[[Sequence[Cut], Sequence[Bar], Saw], LengthPlan]:
    """The packing room's plan for lengths, held to a time of its own [s]."""

    def solve(cuts: Sequence[Cut], bars: Sequence[Bar], saw: Saw) -> LengthPlan:
        going = _until(seconds, limits)
        return plan_lengths(cuts, bars, saw, keep_going=going, report=limits.report, seconds=seconds)

    return solve


def _until(seconds: float, limits: Limits) -> Callable[[], bool]:
    """Whether to go on: for so long, and until somebody stops it."""
    end = time.monotonic() + seconds
    return lambda: time.monotonic() < end and limits.keep_going()


def _said_of(group: Group[Want, StockBar] | Group[SheetWant, StockSheet], used: set[str]) -> tuple[Finding, ...]:
    """What was refused of this size, and what is to be said of the stock that is used."""
    return (*group.findings, *(said for name, said in group.remarks if name in used))


def _too_long(plan: SectionCuts, shop: Shop) -> Iterator[Finding]:
    for want in too_long_to_buy(plan, shop.cutting):
        long = say_up_both(want.length, shop.style)
        says = f"{want.name} takes {long}, longer than any bar the dealer is told to sell"
        yield warn(
            "longer-than-sold", says, "order it cut, weld two, or tell the dealer's longer bars in the shop file"
        )


def _sheets(
    wants: Sequence[SheetWant], sheets: Sequence[StockSheet], shop: Shop, limits: Limits
) -> tuple[tuple[GaugeCuts, ...], tuple[Finding, ...]]:
    """A plan for each thickness and steel, and what was found of the sheets of that thickness."""
    plans: dict[int, GaugeCuts] = {}
    found: list[Finding] = []
    taken: set[str] = set()
    groups = _least_choice_first(sheet_groups(wants, sheets, shop.cutting.unknown))
    for turn, (at, group) in enumerate(groups):
        there = [sheet for sheet in group.stock if sheet.id not in taken]
        plan = plan_gauge(group.wants, there, group.unknown, shop.cutting, _nester(limits, turn, len(groups)))
        plans[at] = plan
        used = {sheet.stock.id for sheet in plan.sheets}
        found += _said_of(group, used)
        taken |= used
    return tuple(plans[at] for at in sorted(plans)), tuple(found)


def _nester(limits: Limits, turn: int, of: int) -> Nester:
    """The packing room's nest, with its seed, held to a time of its own: the `turn`-th thickness of so many."""

    def lay(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest:
        from bickern.geometry.pack.shapes.nest import nest

        begun, until = time.monotonic(), _until(SECONDS_A_GAUGE, limits)

        def going() -> bool:
            used = min(1.0, (time.monotonic() - begun) / SECONDS_A_GAUGE)
            limits.share((turn + used) / of)
            return until()

        return nest(parts, remnants, spacing, seed=limits.seed, keep_going=going, report=limits.report)

    return lay


# ---- what is said of the whole


def _short(copy: CutCopy) -> Iterator[Finding]:
    """A warning for each thing that no stock is left for."""
    style = copy.shop.style
    for plan in copy.bars:
        for one in plan.lacks:
            long = say_up_both(length_of(one.want, copy.shop.cutting), style)
            of = f"{wording.section(one.want.section, style)} x {long}"
            if not one.want.bought:
                yield warn("stock-short", f"{one.count} short: {name_of(one.want, copy)}, {of}", "see what to buy")
    for gauge in copy.sheets:
        for lack in gauge.lacks:
            of = wording.thickness(lack.want.thick, lack.want.gauge, style)
            says = f"{lack.count} found no place: {name_of(lack.want, copy)}, of {of}"
            yield warn("sheet-short", says, "buy sheet, or split the pattern into smaller parts")


def _cautions(every: Wanted) -> tuple[Caution, ...]:
    """The cautions for cutting these metals."""
    does = frozenset(("cut bar",) * bool(every.bars) + ("cut sheet",) * bool(every.sheets))
    steels = {*(want.steel for want in every.bars), *(want.steel for want in every.sheets)}
    metals = frozenset().union(*(families_of(steel or "mild") for steel in steels))
    return that_apply(does, metals, frozenset())


def _taking(copy: CutCopy) -> Taking:
    """What taking the plan writes into the rack."""
    style = copy.shop.style
    cutting = copy.shop.cutting
    bars = uses_of(
        copy.bars, lambda off: f"{name_of(off.want, copy)}, {say_up_both(length_of(off.want, cutting), style)}"
    )
    sheets = uses_of_sheets(copy.sheets, lambda part: name_of(part.want, copy))
    return Taking((*bars, *sheets), copy.jobs)
