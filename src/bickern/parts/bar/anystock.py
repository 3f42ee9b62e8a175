"""A bar piece whose stock is not named: how much metal it holds, and which common bars could become it."""

from math import ceil, sqrt

from bickern.iron.section import Section, area
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.length import ScrollImpossibleError
from bickern.parts.bar.says import bar, both
from bickern.parts.bar.solve import Problem, solve
from bickern.parts.bar.tracks import BarSpec

_STEP = INCH / 16
"""Bars go by sixteenths here; what a rack really holds is another question."""


def no_stock(spec: BarSpec, rules: BarRules) -> Finding:
    """The finding for a bar that is not named, with bars that could become the piece and the length of each.

    Only where the piece says its own sections and lengths: what is kept as the bar was cannot be known without it.
    """
    biggest = fattest(spec)
    length = _length_of(biggest, spec, rules) if biggest is not None else None
    if biggest is None or length is None:
        says, cure = "no bar is named to make this from", "name one, as `bar: 1/2 sq`"
        return stop("no-stock", says, cure, spec.where)
    says = f"no bar is named: with scale, the piece wants as much metal as {both(length)} of {bar(biggest)}"
    lengths = [(s, _length_of(s, spec, rules)) for s in _common(area(biggest))]
    offers = [f"{both(x)} of {bar(s)}" for s, x in lengths if x is not None]
    return stop("no-stock", says, f"name a bar; these draw down to it: {', '.join(offers)}", spec.where)


def fattest(spec: BarSpec) -> Section | None:
    """The biggest section that is told; None where the piece keeps a section that only its bar could tell."""
    told = [g.section for m in spec.metal for g in (m.start, m.end) if g is not None]
    starts_itself = bool(spec.metal) and (spec.metal[0].start is not None or spec.metal[0].outline is not None)
    is_open = any(g.open_size for m in spec.metal for g in (m.start, m.end) if g is not None)
    biggest = max(told, key=area, default=None)
    if (
        biggest is None
        or is_open
        or not starts_itself
        or area(biggest) <= 0.0
        or any(b.at is None for b in spec.branches)
    ):
        return None
    return biggest


def _length_of(stock: Section, spec: BarSpec, rules: BarRules) -> float | None:
    """Bar [m] of that section for the piece; None where its lengths do not tell."""
    problem = Problem(spec, stock, rules)
    try:
        answer = solve(problem)
        found = answer.findings or not answer.met
        return None if found else problem.wanted(problem.lay(answer.values))
    except ScrollImpossibleError:
        return None


def _common(least: float) -> tuple[Section, ...]:
    """The least square and round bar that need no upset to give an area [m^2]."""
    square = ceil(sqrt(least) / _STEP - 1e-6) * _STEP
    across = ceil(sqrt(least / area(Section(Shape.ROUND, 1.0, 1.0))) / _STEP - 1e-6) * _STEP
    return Section(Shape.SQUARE, square, square), Section(Shape.ROUND, across, across)
