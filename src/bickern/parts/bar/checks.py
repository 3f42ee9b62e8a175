"""Faults that show once a bar is reckoned: lengths that do not meet, too little metal, bends past reason."""

from collections.abc import Iterable
from itertools import groupby, pairwise

from bickern.iron.section import Section, area
from bickern.measure.finding import Finding, Where, note, stop, warn
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.length import Span, path_length, thick_at
from bickern.parts.bar.marks import both_ways
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import Mark, MarkKind, MetalRun
from bickern.parts.bar.rules import A_LITTLE, UPSET_AT_ONCE
from bickern.parts.bar.says import bar, both, called, leg_words, thicker
from bickern.parts.bar.solve import Answer, Open, Problem, Trial
from bickern.parts.bar.tracks import BarSpec, BendLeg, Corner, EyeLeg, HoopLeg, StraightLeg, Way

ALIKE = INCH / 64
"""Metal and path must come to one length within this [m]."""
TIGHT_STRAIN, HARD_STRAIN = 0.5, 0.25
"""Outer-fibre stretch worth a warning: any bend; a flat bent the hard way (from memory: it buckles inside)."""
CLOSE_MARKS = 0.0015
"""Punch marks nearer than this [m] are hit as one."""
_EPS = 1e-9


def answer_findings(problem: Problem, answer: Answer, trial: Trial) -> list[Finding]:
    """Whether what was open came out as something that can be made."""
    found: list[Finding] = []
    for unknown in answer.unknowns:
        value = answer.values[unknown.key]
        if value < _EPS and (unknown.key[0] != "path" or value < -ALIKE):
            found.append(_below_nothing(problem, answer, unknown))
    if found:
        return found
    found += _corners_meet(trial)
    if found:
        return found
    if not answer.met:
        return [_not_met(problem, answer, trial)]
    for check in answer.checks:
        if check.kind == "match":
            found += _tracks_differ(problem.spec, trial)
        if check.kind == "stock":
            found += _stock_fits(problem, trial)
    return found


def _corners_meet(trial: Trial) -> list[Finding]:
    """Sides told to corners that are shorter than the bends at their ends."""
    found = []
    for span in trial.spans:
        short = span.start - span.end
        if isinstance(span.leg, StraightLeg) and span.leg.to_corners and short > _EPS:
            says = f"the bends beside {leg_words(span.leg)} reach {both(short)} past each other"
            found.append(stop("corners-too-close", says, "a longer side or a smaller inside radius", span.leg.where))
    return found


def _below_nothing(problem: Problem, answer: Answer, unknown: Open) -> Finding:
    """A length that would have to be nothing or less: what is short, and by how much."""
    values = dict(answer.values)
    by_stock = problem.stock_length is not None and unknown.key[0] != "path"
    if by_stock and not problem.spec.path:
        return _too_little(problem, problem.wanted(problem.lay({**values, unknown.key: 0.0})), unknown)
    short = -answer.values[unknown.key]
    if problem.spec.overall:
        says = f"the overall size cannot be met: {unknown.name} would have to be {both(short)} less than nothing"
        return stop("overall-not-reached", says, "shorten the other parts, or allow a bigger size", unknown.where)
    if by_stock:
        return _too_little(problem, (problem.stock_length or 0.0) + short, unknown)
    says = f"the parts already come to {both(short)} more than the whole: nothing is left for {unknown.name}"
    return stop("parts-longer-than-whole", says, "shorten one of the parts, or make the whole longer", unknown.where)


def _not_met(problem: Problem, answer: Answer, trial: Trial) -> Finding:
    names = ", ".join(o.name for o in answer.unknowns)
    size = next((o for o in answer.unknowns if o.key[0] == "size"), None)
    if size is not None and problem.stock_length is not None:
        least = problem.lay({**answer.values, size.key: 1e-9})
        wanted = problem.wanted(least)
        if wanted > problem.stock_length:
            return _too_little(problem, wanted, size)
    where = answer.unknowns[0].where if answer.unknowns else problem.spec.where
    if problem.spec.overall:
        goal = problem.spec.overall[0]
        got = problem.overall(trial, goal.axis)
        says = f"no {names} brings the overall {goal.axis} to {both(goal.size)}; the nearest found is {both(got)}"
        return stop("overall-not-reached", says, "let another length bring it out, or change the size", goal.where)
    says = f"{names} cannot be found: no value makes the bar come out, or one stands for another"
    return stop("no-answer", says, "leave something else open", where)


def _too_little(problem: Problem, wanted: float, unknown: Open) -> Finding:
    have = problem.stock_length or 0.0
    says = (
        f"without {unknown.name}, the finished piece already wants {both(wanted)} of {bar(problem.stock)}; "
        f"the stock offered is {both(have)}: {both(wanted - have)} short"
    )
    return stop("not-enough-metal", says, _more_metal(problem, wanted), unknown.where)


def _more_metal(problem: Problem, wanted: float) -> str:
    have = problem.stock_length or wanted
    return f"a longer bar, {thicker(problem.stock, wanted / have)}, or a shorter piece"


def _stock_fits(problem: Problem, trial: Trial) -> list[Finding]:
    wanted, have = problem.wanted(trial), problem.stock_length or 0.0
    says = f"the finished piece wants {both(wanted)} of {bar(problem.stock)}, the stock offered is {both(have)}: "
    if wanted > have + ALIKE:
        cure = _more_metal(problem, wanted)
        return [stop("not-enough-metal", f"{says}{both(wanted - have)} short", cure, problem.spec.where)]
    if wanted < have - ALIKE:
        cure = "cut it off first, or leave one length or size open to use it up"
        return [warn("metal-left-over", f"{says}{both(have - wanted)} is left over", cure, problem.spec.where)]
    return []


def _tracks_differ(spec: BarSpec, trial: Trial) -> list[Finding]:
    path, metal = path_length(trial.spans), trial.laid.length
    if abs(path - metal) <= ALIKE:
        return []
    longer = "path" if path > metal else "metal"
    says = f"the path is {both(path)} long, the metal {both(metal)}: the {longer} is {both(abs(path - metal))} longer"
    return [stop("tracks-differ", says, "change a length, or let one entry of one track be `rest`", spec.where)]


def bend_findings(spans: tuple[Span, ...], runs: tuple[MetalRun, ...]) -> list[Finding]:
    """Bends that are tighter than the bar allows, or go the other way than was said."""
    found: list[Finding] = []
    for span in spans:
        if span.is_bend:
            found += _way(span, runs) + _tight(span, runs)
    return found


def _way(span: Span, runs: tuple[MetalRun, ...]) -> list[Finding]:
    leg, (inside, other) = span.leg, both_ways(span, runs)
    way = leg.way if isinstance(leg, BendLeg | HoopLeg) else None
    if way is None or abs(inside - other) < 1e-6 or (way is Way.HARD) == (inside > other):
        return []
    flat_up = thick_at(runs, (span.start + span.end) / 2, 0.0) > min(inside, other) + 1e-6
    easy, hard = ("up or down", "left or right") if flat_up else ("left or right", "up or down")
    fix = easy if way is Way.EASY else hard
    says = f"{leg_words(leg)} is told the {way} way, but as it turns it bends the other way"
    return [stop("way-against-turn", says, f"turn it {fix}, or say the other way", leg.where)]


def _tight(span: Span, runs: tuple[MetalRun, ...]) -> list[Finding]:
    leg, who = span.leg, leg_words(span.leg)
    if span.inside_radius < 0.0:
        return [
            stop("inside-smaller-than-bar", f"{who} has no room inside: the bar is {both(span.thick)}", "", leg.where)
        ]
    if isinstance(leg, EyeLeg | HoopLeg) and 2 * span.inside_radius < span.thick - _EPS:
        says = f"{who} is {both(2 * span.inside_radius)} inside, smaller than the bar, {both(span.thick)}"
        return [warn("inside-smaller-than-bar", says, "draw the bar thinner there, or punch the hole", leg.where)]
    if isinstance(leg, BendLeg) and leg.corner is not Corner.NONE:
        return []
    inside, other = both_ways(span, runs)
    hard = inside > 2 * other
    if span.strain > TIGHT_STRAIN or (hard and span.strain > HARD_STRAIN):
        says = f"{who} stretches the outside by {span.strain * 100:.0f} %" + (" the hard way" if hard else "")
        cure = "bend it hot, a little in each heat, or use a bigger radius"
        return [warn("tight-bend", says, cure, leg.where)]
    return []


def empty_findings(runs: tuple[MetalRun, ...], spec: BarSpec) -> list[Finding]:
    """Stretches with no metal at all: what comes after a point carried on as if there were bar left."""
    found = []
    for run in runs:
        if run.end - run.start > _EPS and run.volume <= 0.0:
            says = f"{called(run.name, 'an entry')} is {both(run.end - run.start)} of nothing: the bar has run out"
            found.append(stop("no-metal-there", says, "say which section it starts with", _where(spec, run.name)))
    return found


def _where(spec: BarSpec, name: str) -> Where:
    return next((m.where for m in spec.metal if name and m.name == name), spec.where)


def upset_findings(runs: tuple[MetalRun, ...], stock: Section, spec: BarSpec) -> list[Finding]:
    """Places that are thicker than the bar: iron does not draw out to more than it was."""
    found = []
    have = area(stock)
    for bigger, group in groupby(runs, key=lambda r: max(area(r.a), area(r.b)) > have * (1 + 1e-9) and not r.outline):
        part = list(group)
        if bigger:
            most = max((s for r in part for s in (r.a, r.b)), key=area)
            free = sum(r.volume for r in part) / have / min(stock.width, stock.thick)
            found.append(_upset(part, most, stock, free, spec))
    return found


def _upset(part: list[MetalRun], most: Section, stock: Section, free: float, spec: BarSpec) -> Finding:
    name = next((r.name for r in part if r.name), "")
    what = f"{bar(most)} ({name})" if name else bar(most)
    where = _where(spec, name)
    more = area(most) / area(stock) - 1
    if more <= A_LITTLE:
        says = f"{bar(stock)} is {more:.0%} short of the section of {what}"
        return note("spread-a-little", says, "spread it with the peen, driving it back as you go", where)
    says = f"{bar(stock)} does not draw out to {what}: it takes an upset of {free:.1f} thicknesses of bar"
    if free > UPSET_AT_ONCE:
        says += ", more than goes in one go without buckling"
    return warn("wants-upset", says, "upset, weld on, or start from a bigger bar", where)


def closed_findings(spec: BarSpec, runs: tuple[MetalRun, ...], gap: float) -> list[Finding]:
    """Ends of a closed bar that do not meet, or are not alike."""
    if not spec.closed:
        return []
    found = []
    if not same_section(runs[0].a, runs[-1].b) or runs[0].outline or runs[-1].outline:
        says = "the two ends that meet are not alike"
        found.append(warn("closed-ends-differ", says, "end both with one section", spec.where))
    if Shape.POINT in (runs[0].a.shape, runs[-1].b.shape):
        found.append(stop("closed-open-end", "a closed bar cannot end in a point", "end it in a section", spec.where))
    if gap > max(ALIKE, runs[0].a.thick / 4):
        says = f"the bar is to be closed, but its ends stand {both(gap)} apart"
        found.append(warn("ends-do-not-meet", says, "change a length or an angle", spec.where))
    return found


def mark_findings(marks: Iterable[Mark], spec: BarSpec) -> list[Finding]:
    """Punch marks too near each other to be told apart."""
    punched = [m for m in marks if m.kind is MarkKind.PUNCH]
    found = []
    for one, two in pairwise(punched):
        if two.at - one.at < CLOSE_MARKS:
            says = f"two punch marks fall {both(two.at - one.at)} apart: {one.says}; {two.says}"
            found.append(note("marks-too-close", says, "use one mark for both", spec.where))
    return found


def split_findings(spec: BarSpec, children: Iterable[tuple[str, Section]], last: Section, count: int) -> list[Finding]:
    """Children that want more than their share of the section that is split."""
    found = []
    share = area(last) / max(1, count)
    for name, first in children:
        if area(first) > share * (1 + 1e-6):
            says = f"{called(name, 'a split end')} starts with {bar(first)}, more than its share of {bar(last)}"
            found.append(warn("split-too-thick", says, "split a thicker end, or upset the child", spec.where))
    return found
