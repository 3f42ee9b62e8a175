"""A bar that a job leaves open (`bar: any`): the best one of the rack in its place, which, and why."""

from collections.abc import Iterator
from dataclasses import replace

from bickern.book.job.asked import Spec
from bickern.desk.reckon import Reckoning, reckon_job
from bickern.making.stock.become import How, PieceWays, Way, replaced
from bickern.making.stock.rack import Rack, StockBar
from bickern.measure.finding import Finding, note, warn
from bickern.measure.money import say_money
from bickern.parts.bar.says import bar, both
from bickern.parts.bar.tracks import BarSpec


def leaves_open(done: Reckoning) -> bool:
    """Whether a bar of the job is left to the rack."""
    return done.job is not None and any(_open(spec) for spec in done.job.pieces)


def _open(spec: Spec) -> bool:
    return isinstance(spec, BarSpec) and spec.stock is None


def chosen(done: Reckoning, rack: Rack) -> Reckoning:
    """The job with the best bar of the rack in place of each `bar: any`, reckoned anew; which bar and why, as notes.

    The bar with enough for every copy goes first. Where none will do, what was found stays, with what is short beside.
    """
    job, copy = done.job, done.copy
    if job is None or copy is None or not leaves_open(done):
        return done
    from bickern.desk.stock.stock import ways_of  # a job that names its bars need not wait for it

    picks = {spec.name: ways_of(done, spec, rack) for spec in job.pieces if _open(spec)}
    pieces = tuple(_with_best(spec, picks[spec.name]) if spec.name in picks else spec for spec in job.pieces)
    own = frozenset(reckon_job(job, copy.shop).findings)
    before = [f for f in done.findings if f not in own]
    said = [f.at(spec.where) for spec in job.pieces if spec.name in picks for f in _picked(picks[spec.name])]
    return reckon_job(replace(job, pieces=pieces), copy.shop, (*before, *said))


def _best(found: PieceWays) -> Way | None:
    """The first way whose kind has enough for every copy, else the one with most of them."""
    plain = [way for way in found.ways if way.how is not How.WELDED]
    enough = next((way for way in plain if _copies(found, way) >= found.copies), None)
    return enough or max(plain, key=lambda way: _copies(found, way), default=None)


def _copies(found: PieceWays, way: Way) -> int:
    """How many copies the rack has for, of this section and steel, by length alone."""
    plain = replace(way.spec, steel="", coating="")
    alike = (one for one in found.ways if one.how is way.how and replace(one.spec, steel="", coating="") == plain)
    return sum(one.copies for one in alike)


def _with_best(spec: Spec, found: PieceWays) -> Spec:
    best = _best(found)
    return spec if best is None else replaced(spec, best)


def _dear(way: Way) -> Iterator[str]:
    """That buying the asked bar is cheaper than what this one eats, with both figures."""
    if way.buying_is_cheaper and way.eats is not None and way.buy is not None:
        yield f"buying the right bar is cheaper: {say_money(way.buy)} against {say_money(way.eats)} of fire and time"


def _picked(found: PieceWays) -> Iterator[Finding]:
    """What was taken for a piece of any bar, and what is short of it."""
    best = _best(found)
    if best is None:
        asked = f" ({both(found.cut)} of {bar(found.asked)}, or what draws down to it)" if found.asked else ""
        says = f"the rack has no bar for “{found.piece}”{asked}{': ' if found.says else ''}{found.says}"
        yield warn("no-bar-in-the-rack", says, f'`bickern stock JOB "{found.piece}" --all` says why of each bar')
        return
    (one,) = best.stock
    assert isinstance(one, StockBar)
    how = "; ".join(said.rstrip(".") for said in (str(best.how), *best.says, best.doubt, *_dear(best)) if said)
    says = f"“{found.piece}” is made of {one.id}, {bar(one.section)}, out of the rack: {how}"
    yield note("bar-from-the-rack", says, "name a bar in the job to have another")
    if (there := _copies(found, best)) < found.copies:
        lacks = found.copies - there
        says = f"the rack has {bar(one.section)} for {there} of {found.copies} “{found.piece}”: {lacks} short"
        yield warn("rack-short", says, f"buy {both(lacks * best.cuts[0])} of it, or give them another bar")
