"""Everything that is done to one bar, read off what was reckoned, in the order a smith would tell it.

The order in which it is done is not settled here: that wants the rules of the trade and what can still be held.
"""

from collections.abc import Iterator
from dataclasses import replace

from bickern.iron.section import Section, area, hydraulic
from bickern.making.shop import Shop
from bickern.making.work.anvil import Anvil, anvil_of, cold_work, hot_work
from bickern.making.work.bar_bends import bend_works, scarf, scarf_works, twist_works, weld, weld_works
from bickern.making.work.bar_forging import forging_works
from bickern.making.work.bar_holes import hole_works
from bickern.making.work.effort import cutting_work, slitting_work
from bickern.making.work.fire import stout_first
from bickern.making.work.own_time import in_own_time
from bickern.making.work.result import Work, unlike
from bickern.parts.bar.places import spot
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.traced import traced_names
from bickern.parts.bar.tracks import Branch


def works_of_bar(result: BarResult, shop: Shop) -> tuple[Work, ...]:
    """All works of a bar, its split ends and its branches; keys all differ.

    Zones of a split end or a branch (`Work.child`) are told on its own finished length.
    """
    anvil = anvil_of(result, shop, result.spec.name, result.stock_section)
    return in_own_time(unlike(_bar(anvil)), shop.hand)


def cut_off(
    result: BarResult,
    shop: Shop,
    *,
    at_datum: bool = False,
    when: str = "",
    piece: str = "",
    child: tuple[str, ...] = (),
) -> Work:
    """The piece cut hot from the longer bar that was its handle, at its other end or `at_datum`.

    `when` (`Work.case`): "" when all is done, "bends" before it is bent, "end" before the end that is cut is forged,
    and then through the stock. A limb to be welded on is told by its `piece` and its `child` path.
    """
    anvil = anvil_of(result, shop, piece or result.spec.name, result.stock_section, child)
    cut = replace(_cut_off(anvil, at_datum=at_datum, whole=when == "end"), case=when)
    return in_own_time([cut], shop.hand)[0]


def _bar(anvil: Anvil) -> Iterator[Work]:
    """A bar from the rack: marked and cut, worked, straightened, and cut off where it was held by its grip."""
    yield _marked(anvil)
    yield _cut(anvil)
    worked = list(_worked(anvil))
    yield from worked
    if any(work.hot for work in worked):
        yield _straightened(anvil, worked)
    if anvil.result.grip > 0.0:
        yield _cut_off(anvil)


def _worked(anvil: Anvil) -> Iterator[Work]:
    """What is done to the iron itself, limbs and branches included."""
    yield from forging_works(anvil)
    yield from hole_works(anvil)
    yield from _limbs(anvil)
    yield from twist_works(anvil)
    yield from scarf_works(anvil)
    yield from bend_works(anvil)
    yield from weld_works(anvil)
    yield from _branches(anvil)


def _marked(anvil: Anvil) -> Work:
    marks = len(anvil.result.marks_on_stock) + len(anvil.result.marks_on_drawn) + 1
    return cold_work(anvil, "mark", "", (0.0, anvil.length), "mark", marks)


def _cut(anvil: Anvil) -> Work:
    section = anvil.result.stock_section
    work = cold_work(anvil, "cut bar", "", (0.0, anvil.length), "saw", area(section))
    return replace(work, before=section, after=section)


def _straightened(anvil: Anvil, worked: list[Work]) -> Work:
    """The whole piece trued cold, by light blows, against its full-size outline.

    Metal that snaps when it is cold is trued at a falling heat, where it was worked.
    """
    if anvil.limber:
        work = cold_work(anvil, "straighten", "", (0.0, anvil.length), "straighten", anvil.length)
        return replace(work, case="closed" if anvil.result.spec.closed else "")
    own = [work.zone for work in worked if work.hot and work.child == anvil.child]
    zone = (min(start for start, _ in own), max(end for _, end in own)) if own else (0.0, anvil.length)
    work = hot_work(anvil, "straighten", "", zone, 0.0, zone[1] - zone[0], free=True)
    return replace(work, says="never cold: this metal snaps")


def _cut_off(anvil: Anvil, *, at_datum: bool = False, whole: bool = False) -> Work:
    """`whole`: through the stock, before anything is made of that end."""
    runs = anvil.result.runs
    forged = runs[0].a if at_datum else runs[-1].b
    section = anvil.stock if whole or area(forged) <= 0.0 else forged
    zone = anvil.within(0.0, anvil.thick) if at_datum else anvil.within(anvil.length - anvil.thick, anvil.length)
    work = hot_work(anvil, "cut off", "", zone, cutting_work(section, anvil.stress("cut off", zone)))
    # the bar beyond the cut is stout: the point that is made of this end later does not set the time
    return replace(work, before=section, after=section, thin=hydraulic(section))


def _limbs(anvil: Anvil) -> Iterator[Work]:
    """The far end split, once for each cut, then the works of every limb."""
    limbs = _children(anvil, split=True)
    if not limbs:
        return
    last = anvil.result.runs[-1].b
    if area(last) <= 0.0:  # a bar that has run out where it is to be split: a finding says so
        last = anvil.stock
    long = max(child.stock_bare * area(child.stock_section) / area(_share(last, len(limbs))) for _, child in limbs)
    zone = anvil.within(anvil.length - anvil.thick, anvil.length)
    energy = (len(limbs) - 1) * slitting_work(long, min(last.width, last.thick), anvil.stress("split", zone))
    work = hot_work(anvil, "split", " and ".join(branch.name for branch, _ in limbs), zone, energy)
    yield replace(
        work,
        before=last,
        after=_share(last, len(limbs)),
        amount=long,
        metal=long * area(last),
        says="open the limbs wide, so that each lies on the anvil by itself; they come together when they are bent",
    )
    for branch, child in limbs:
        yield from _worked(_grown(anvil, branch, child, _share(last, len(limbs))))


def _branches(anvil: Anvil) -> Iterator[Work]:
    """Branches made as bars of their own, then scarfed and welded on."""
    for branch, child in _children(anvil, split=False):
        grown = _grown(anvil, branch, child, child.stock_section)
        yield from _bar(grown)
        yield scarf(grown, branch.name, 0.0)
        at = spot(branch.at, traced_names(anvil.result)) if branch.at is not None else None
        at = min(max(at or 0.0, 0.0), anvil.length)
        joined = weld(anvil, branch.name, anvil.within(at - anvil.thick, at + anvil.thick), at)
        bar = anvil.child[-1] if anvil.child else anvil.piece
        first = stout_first([(bar, hydraulic(anvil.stock)), (branch.name, hydraulic(child.stock_section))])
        yield replace(joined, says="; ".join(said for said in (first, joined.says) if said))


def _children(anvil: Anvil, *, split: bool) -> list[tuple[Branch, BarResult]]:
    """The children that could be reckoned, each with the branch that asked for it."""
    asked = [b for b in anvil.result.spec.branches if (b.at is None) is split]
    found = [(b, next((c for c in anvil.result.children if c.spec.name == b.bar.name), None)) for b in asked]
    return [(branch, child) for branch, child in found if child is not None]


def _grown(anvil: Anvil, branch: Branch, child: BarResult, stock: Section) -> Anvil:
    return anvil_of(child, anvil.shop, anvil.piece, stock, (*anvil.child, branch.name))


def _share(section: Section, count: int) -> Section:
    """A limb's share of the section that is split across its width."""
    return replace(section, width=section.width / count)
