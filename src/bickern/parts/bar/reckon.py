"""A bar reckoned from end to end: what is open, the stock, the marks, the bends, sizes, weight and every fault."""

from dataclasses import replace
from math import ceil

from bickern.geometry.space import Vec, mixed, plus
from bickern.iron.section import Section, area
from bickern.measure.finding import Finding, stop, stopping
from bickern.measure.spread import Spread
from bickern.measure.units.words import Read, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.also import also_by_rule, as_eyes_are_asked
from bickern.parts.bar.anystock import no_stock
from bickern.parts.bar.asked import asked_findings
from bickern.parts.bar.checks import (
    answer_findings,
    bend_findings,
    closed_findings,
    empty_findings,
    eye_findings,
    hole_bend_findings,
    mark_findings,
    split_findings,
    tube_findings,
    upset_findings,
)
from bickern.parts.bar.hole import hole_findings, place_holes
from bickern.parts.bar.length import ScrollImpossibleError
from bickern.parts.bar.line import Line, centre_of_mass, line_of
from bickern.parts.bar.marks import COLD, DRAWN, bend_spans, drawn_place, marks_on_drawn, marks_on_stock
from bickern.parts.bar.mirror import mirrored, right_handed
from bickern.parts.bar.places import Map, map_of, no_such_name, spot
from bickern.parts.bar.resolve import Stretch, lay_metal
from bickern.parts.bar.result import BarResult, HoleCheck, Mark, MarkKind, Solved, TwistCheck
from bickern.parts.bar.says import both, called, leg_words
from bickern.parts.bar.sizes import Grown, sizes_of
from bickern.parts.bar.solve import Answer, Problem, Trial, solve, unknowns_of
from bickern.parts.bar.tracks import BarSpec, Branch, SectionGoal
from bickern.parts.bar.turns import easy_turns, turn_findings
from bickern.parts.bar.twist import place_twists, shortening, twist_findings
from bickern.parts.bar.volume import bare_volume, stock_positions, stock_spread

TOUCH = 1e-6
"""Metres within which a place still counts as on the bar."""
DEPTH = 4
"""Splits within splits, and no deeper."""


def reckon_bar(
    spec: BarSpec, rules: BarRules, density: float, *, stock: Section | None = None, losses: tuple[Spread, ...] = ()
) -> Read[BarResult]:
    """Reckon one bar of `density` [kg/m^3]; `stock` stands in for `spec.stock` (what the rack offers).

    `losses`: the share that the fire takes of each run, as heats were counted; () for the shop's rule. Limbs and
    branches go by the rule. The findings are both in the result and beside it; the value is None where the bar cannot
    be reckoned.
    """
    return _reckon(spec, rules, density, stock if stock is not None else spec.stock, DEPTH, losses)


def _reckon(
    spec: BarSpec,
    rules: BarRules,
    density: float,
    stock: Section | None,
    depth: int,
    losses: tuple[Spread, ...] = (),
) -> Read[BarResult]:
    faults = asked_findings(spec, stock)
    if stopping(faults):
        return Read(None, faults)
    if stock is None:
        return Read(None, (*faults, no_stock(spec, rules)))
    hand = right_handed(spec)
    split, split_faults = _split_children(hand, rules, density, stock, depth)
    problem = Problem(hand, stock, rules, tuple(split), losses)
    try:
        problem, answer, turned = _solved(problem)
        found = [*faults, *split_faults, *turned, *answer.findings]
        if answer.findings:
            return Read(None, tuple(found))
        trial = problem.lay(answer.values)
        found += answer_findings(problem, answer, trial)
    except ScrollImpossibleError as missing:
        says = f"{leg_words(missing.leg)} cannot be: no scroll has these sizes together"
        return Read(None, (*faults, stop("scroll-impossible", says, "more length or fewer turns", missing.leg.where)))
    if _cannot_be_laid(found):
        return Read(None, tuple(found))
    welded, weld_faults = _welded_children(hand, rules, density, stock, depth)
    result = _result(problem, answer, trial, density, [*found, *weld_faults], welded)
    result = replace(result, spec=_as_asked(spec, problem.spec))
    return Read(result, result.findings)


def _as_asked(spec: BarSpec, reckoned: BarSpec) -> BarSpec:
    """The bar by the hand it was told for, with the turns that were found for bends that did not say theirs."""
    same = spec.hand == reckoned.hand
    return replace(spec, path=reckoned.path if same else mirrored(reckoned).path)


def _solved(problem: Problem) -> tuple[Problem, Answer, list[Finding]]:
    """What is open, solved; once more where a bend that did not say its turn lies in metal that bends otherwise."""
    answer = solve(problem)
    if answer.findings:
        return problem, answer, []
    trial = problem.lay(answer.values)
    spec = easy_turns(problem.spec, trial.spans, trial.laid.runs)
    if spec is problem.spec:
        return problem, answer, []
    again = replace(problem, spec=spec)
    return again, solve(again), turn_findings(problem.spec, spec)


_UNLAID = (
    "not-enough-metal",
    "parts-longer-than-whole",
    "overall-not-reached",
    "no-answer",
    "no-such-place",
    "corners-too-close",
)


def _cannot_be_laid(found: list[Finding]) -> bool:
    """Whether a finding leaves no bar to describe (tracks of two lengths still can be shown)."""
    return any(f.stops and f.name in _UNLAID for f in found)


def _result(
    problem: Problem,
    answer: Answer,
    trial: Trial,
    density: float,
    found: list[Finding],
    welded: list[tuple[Branch, BarResult]],
) -> BarResult:
    spec, stock, rules, runs = problem.spec, problem.stock, problem.rules, trial.laid.runs
    names = map_of(trial.laid, trial.spans)
    twists, twist_faults = place_twists(spec.twists, names, runs)
    names = names.with_names(Stretch(t.twist.name, t.start, t.end) for t in twists)
    holes, hole_faults = place_holes(spec, names, runs, rules)
    line = line_of(trial.spans, twists)
    sizes = sizes_of(line, runs, _grown(problem, welded, line, names))
    branches, branch_faults = _branch_weights(problem, welded, line, trial)
    spread = stock_spread(runs, problem.stock_area, trial.extras)
    on_stock = _stock_marks(problem, trial, spread)
    on_drawn = _drawn_marks(problem, trial, twists, holes, names)
    found += [*twist_faults, *hole_faults, *branch_faults]
    found += twist_findings(twists, runs, trial.spans, holes) + hole_findings(holes, runs, spec)
    found += hole_bend_findings(holes, trial.spans) + tube_findings(runs, stock, spec)
    found += bend_findings(trial.spans, runs) + upset_findings(runs, stock, spec)
    found += empty_findings(runs, spec) + eye_findings(trial.spans, as_eyes_are_asked(problem, trial), rules.eye)
    found += closed_findings(spec, runs, 0.0 if _round(spec) else sizes.end_to_end)
    found += mark_findings(on_stock, spec) + mark_findings(on_drawn, spec)
    volume = sum(r.volume for r in runs) - sum(h.slug for h in holes) + trial.extras.twist
    return BarResult(
        spec=spec,
        stock_section=stock,
        runs=runs,
        legs=line.legs,
        length=trial.laid.length,
        stock_bare=bare_volume(runs, trial.extras) / problem.stock_area,
        stock=spread,
        cut_this=_cut_this(problem, spread),
        weld=trial.extras.weld,
        grip=spec.grip,
        mass=(volume + sum(v for v, _ in branches)) * density,
        stock_mass=spread.value * problem.stock_area * density,
        centre_of_mass=centre_of_mass(line, runs, holes, branches),
        sizes=sizes,
        marks_on_stock=on_stock,
        marks_on_drawn=on_drawn,
        bends=bend_spans(trial.spans, runs),
        twists=twists,
        holes=holes,
        solved=tuple(Solved(o.name, answer.values[o.key], o.asked) for o in answer.unknowns),
        children=(*problem.children, *(c for _, c in welded)),
        also=also_by_rule(problem, trial, holes),
        findings=tuple(dict.fromkeys(found)),
    )


def _grown(problem: Problem, welded: list[tuple[Branch, BarResult]], line: Line, names: Map) -> list[Grown]:
    """Every limb and branch with the frame that it starts in; a branch whose place is not there is left out."""
    split = [(line.end, child) for child in problem.children]
    at = [(spot(b.at, names), child) for b, child in welded if b.at is not None]
    return [*split, *((line.frame(s), child) for s, child in at if s is not None)]


def _round(spec: BarSpec) -> bool:
    return len(spec.path) == 1


def _cut_this(problem: Problem, spread: Spread) -> float:
    """The length to cut [m]: the stock as given, or what is wanted (without the kerf) rounded up to the tape's step."""
    if problem.stock_length is not None:
        return problem.stock_length
    tape = problem.rules.tape
    wanted = spread.value - problem.rules.kerf
    return ceil(wanted / tape - 1e-6) * tape if tape > 0.0 else wanted


def _stock_marks(problem: Problem, trial: Trial, spread: Spread) -> tuple[Mark, ...]:
    runs, extras = trial.laid.runs, trial.extras
    spots = stock_positions(runs, problem.stock_area, extras.first)
    ends = []
    if extras.first:
        ends.append(Mark(extras.first, f"{both(extras.first)} to here for the weld", MarkKind.PUNCH, COLD))
    if extras.weld > extras.first:
        last = extras.weld - extras.first
        at = spread.value - extras.kerf - extras.grip - last
        ends.append(Mark(at, f"{both(last)} from here for the weld", MarkKind.PUNCH, COLD))
    if problem.children:
        ends.append(Mark(spots[-1], "split from here to the end", MarkKind.PUNCH, COLD))
    if extras.grip:
        at = spread.value - extras.kerf - extras.grip
        ends.append(Mark(at, "grip from here: cut off when done", MarkKind.PUNCH, COLD))
    return marks_on_stock(runs, spots, ends)


def _drawn_marks(
    problem: Problem, trial: Trial, twists: tuple[TwistCheck, ...], holes: tuple[HoleCheck, ...], names: Map
) -> tuple[Mark, ...]:
    first, _ = problem.end_allowances(trial.laid, trial.spans)
    drawn = drawn_place(twists, shortening(twists, problem.rules), first)
    marks = marks_on_drawn(trial.spans, twists, holes, drawn)
    at = [(b.name, spot(b.at, names)) for b in problem.spec.branches if b.at is not None]
    grown = [Mark(drawn(s), f'"{name}" is welded on here', MarkKind.PUNCH, DRAWN) for name, s in at if s is not None]
    return tuple(sorted((*marks, *grown), key=lambda mark: mark.at))


def _split_children(
    spec: BarSpec, rules: BarRules, density: float, stock: Section, depth: int
) -> tuple[list[BarResult], list[Finding]]:
    """Split ends, each reckoned from the stock of the bar they are split from."""
    splits = [b for b in spec.branches if b.at is None]
    if not splits:
        return [], []
    if depth == 0:
        return [], [stop("split-too-deep", "splits within splits go too deep", "", spec.where)]
    guesses = {o.key: o.guess for o in unknowns_of(spec)[0]}
    last = lay_metal(spec, stock, rules, guesses).runs[-1].b
    made: list[BarResult] = []
    found: list[Finding] = []
    for branch in splits:
        child = _from_share(branch.bar, last, len(splits))
        read = _reckon(child, replace(rules, kerf=0.0), density, stock, depth - 1)
        found += read.findings
        if read.value is not None:
            made.append(read.value)
    firsts = [(c.spec.name, c.runs[0].a) for c in made if c.runs[0].outline is None]
    return made, found + split_findings(spec, firsts, last, len(splits))


def _from_share(child: BarSpec, last: Section, count: int) -> BarSpec:
    """A split end that does not say what it starts with gets its share of the section that is split."""
    if not child.metal or child.metal[0].start is not None or child.metal[0].outline is not None:
        return child
    first = replace(child.metal[0], start=SectionGoal(_share_of(last, count)))
    return replace(child, metal=(first, *child.metal[1:]))


def _share_of(last: Section, count: int) -> Section:
    if last.shape in (Shape.SQUARE, Shape.FLAT):
        return replace(last, shape=Shape.FLAT, width=last.width / count)
    if last.shape is Shape.ROUND and count == 2:
        return Section(Shape.HALF_ROUND, last.width, last.width / 2)
    side = (area(last) / count) ** 0.5
    return Section(Shape.SQUARE, side, side)


def _welded_children(
    spec: BarSpec, rules: BarRules, density: float, stock: Section, depth: int
) -> tuple[list[tuple[Branch, BarResult]], list[Finding]]:
    """Branches welded on: bars of their own, from their own stock."""
    made: list[tuple[Branch, BarResult]] = []
    found: list[Finding] = []
    for branch in spec.branches:
        if branch.at is None or depth == 0:
            continue
        read = _reckon(branch.bar, rules, density, branch.bar.stock or stock, depth - 1)
        found += read.findings
        if read.value is not None:
            made.append((branch, read.value))
    return made, found


def _branch_weights(
    problem: Problem, welded: list[tuple[Branch, BarResult]], line: Line, trial: Trial
) -> tuple[list[tuple[float, Vec]], list[Finding]]:
    """Volume and balance of every branch, in the coordinates of this bar."""
    found: list[Finding] = []
    weights = [(_volume(c), _seen(line, trial.laid.length, c)) for c in problem.children]
    names = map_of(trial.laid, trial.spans)
    for branch, child in welded:
        at = spot(branch.at, names) if branch.at is not None else None
        if at is None:
            found.append(no_such_name(branch.at.name if branch.at else "", names, branch.bar.where))
        elif not -TOUCH <= at <= trial.laid.length + TOUCH:
            who, long = called(branch.name, "a branch"), both(trial.laid.length)
            says = f"{who} is welded on at {both(at)}, the bar is {long} long"
            found.append(stop("branch-off-the-bar", says, "move it on to the bar", branch.bar.where))
        else:
            weights.append((_volume(child), _seen(line, at, child)))
    return weights, found


def _volume(child: BarResult) -> float:
    """Finished metal [m^3] of a branch and all that grows from it."""
    own = sum(r.volume for r in child.runs) - sum(h.slug for h in child.holes)
    return own + sum(map(_volume, child.children))


def _seen(line: Line, at: float, child: BarResult) -> Vec:
    """Where a branch balances, told from the start of the bar it grows from."""
    frame = line.frame(at)
    x, y, z = child.centre_of_mass
    return plus(frame.origin, plus(mixed(frame.along, x, frame.left, y), mixed(frame.up, z, frame.up, 0.0)))
