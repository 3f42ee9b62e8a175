"""Faults that show once a bar is reckoned: lengths that do not meet, too little metal, bends past reason."""

from collections.abc import Iterable
from itertools import groupby, pairwise
from math import pi
from typing import TypeGuard

from bickern.iron.section import Section, area
from bickern.measure.finding import Finding, Where, note, stop, warn
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.length import Span, path_length, thick_at
from bickern.parts.bar.marks import both_ways
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import HoleCheck, Mark, MarkKind, MetalRun
from bickern.parts.bar.rules import A_LITTLE, UPSET_AT_ONCE
from bickern.parts.bar.says import bar, both, called, leg_called, thicker
from bickern.parts.bar.scrolls import scroll_findings
from bickern.parts.bar.solve import Answer, Open, Problem, Trial
from bickern.parts.bar.tracks import BarSpec, BendLeg, Blank, Corner, EyeLeg, HoopLeg, PathLeg, StraightLeg, Way
from bickern.parts.eye import BY_MEAN, falls_short

ALIKE = INCH / 64
"""Metal and path must come to one length within this [m]."""
TIGHT_STRAIN, HARD_STRAIN = 0.5, 0.25
"""Outer-fibre stretch worth a warning: any bend; a flat bent the hard way (from memory: it buckles inside)."""
SLIGHT_STRAIN = 0.05
"""Outer-fibre stretch below which a hole in a bend is left as it is (judgement)."""
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
    path = tuple(s.leg for s in trial.spans)
    for i, span in enumerate(trial.spans):
        short = span.start - span.end
        if isinstance(span.leg, StraightLeg) and span.leg.to_corners and short > _EPS:
            says = f"the bends beside {leg_called(path, i)} reach {both(short)} past each other"
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
    return [stop("tracks-differ", says, _to_agree(spec, path - metal), spec.where)]


def _to_agree(spec: BarSpec, over: float) -> str:
    """What to change so that both tracks come to one length: the longest straight, or the longest stretch of metal."""
    straights = [(s.length, leg_called(spec.path, i)) for i, s in enumerate(spec.path) if _is_told(s)]
    metal = [
        (m.length, called(m.name, f"metal entry {i + 1}"))
        for i, m in enumerate(spec.metal)
        if isinstance(m.length, float)
    ]
    fixes = []
    for lengths, step in ((straights, -over), (metal, over)):
        length, name = max(((x, n) for x, n in lengths if isinstance(x, float)), default=(0.0, ""))
        if length + step > ALIKE:
            fixes.append(f"make {name} {both(length + step)} long (it is {both(length)})")
    return ", or ".join([*fixes, "write `rest` for one length of one track"])


def _is_told(leg: PathLeg) -> TypeGuard[StraightLeg]:
    return isinstance(leg, StraightLeg) and not isinstance(leg.length, Blank)


def bend_findings(spans: tuple[Span, ...], runs: tuple[MetalRun, ...]) -> list[Finding]:
    """Bends that are tighter than the bar allows, or go the other way than was said."""
    found: list[Finding] = []
    path = tuple(s.leg for s in spans)
    for i, span in enumerate(spans):
        if span.is_bend:
            who = leg_called(path, i)
            found += _way(span, runs, who) + _tight(span, runs, who) + scroll_findings(span, runs)
    return found


def _way(span: Span, runs: tuple[MetalRun, ...], who: str) -> list[Finding]:
    leg, (inside, other) = span.leg, both_ways(span, runs)
    way = leg.way if isinstance(leg, BendLeg | HoopLeg) else None
    if way is None or abs(inside - other) < 1e-6 or (way is Way.HARD) == (inside > other):
        return []
    flat_up = thick_at(runs, (span.start + span.end) / 2, 0.0) > min(inside, other) + 1e-6
    easy, hard = ("up or down", "left or right") if flat_up else ("left or right", "up or down")
    fix = easy if way is Way.EASY else hard
    says = f"{who} is told the {way} way, but as it turns it bends the other way"
    return [stop("way-against-turn", says, f"turn it {fix}, or say the other way", leg.where)]


def _tight(span: Span, runs: tuple[MetalRun, ...], who: str) -> list[Finding]:
    leg = span.leg
    if isinstance(leg, BendLeg) and leg.angle > 2 * pi + _EPS:
        says = f"{who} turns more than once round at one radius: it is shown as if it lay on itself"
        return [note("lies-on-itself", says, "it goes sideways as a coil; for a flat one write a scroll", leg.where)]
    if span.inside_radius < 0.0:
        return [
            stop(
                "inside-smaller-than-bar",
                f"{who} has no room inside: the bar is {both(span.thick)}",
                "make it bigger, or take thinner bar",
                leg.where,
            )
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


def eye_findings(spans: tuple[Span, ...], as_asked: tuple[Span, ...], rule: str) -> list[Finding]:
    """Eyes and hoops that the shop's `rule` makes smaller than asked; `as_asked`: the path by mean diameters."""
    found: list[Finding] = []
    path = tuple(s.leg for s in spans)
    cure = f"write `bars: {{eye: {BY_MEAN}}}` to make it as asked"
    for i, (span, asked) in enumerate(zip(spans, as_asked, strict=True)):
        short = falls_short(asked.end - asked.start, span.end - span.start)
        if not isinstance(span.leg, EyeLeg | HoopLeg) or short < NOTICED:
            continue
        inside, who = 2 * span.inside_radius - short, leg_called(path, i)
        if inside < span.thick - _EPS:
            says = f"by the shop's rule, {rule}, {who} closes up: less is left inside than its own bar"
            found.append(stop("rule-closes-eye", says, cure, span.leg.where))
        else:
            says = f"by the shop's rule, {rule}, {who} comes out {both(inside)} inside, {both(short)} too small"
            found.append(warn("eye-comes-small", says, cure, span.leg.where))
    return found


NOTICED = 1e-5
"""Across an eye [m], below which it counts as made to size."""


def empty_findings(runs: tuple[MetalRun, ...], spec: BarSpec) -> list[Finding]:
    """Stretches with no metal at all, and points inside the bar, where it would fall in two."""
    found = []
    for run in runs:
        if run.end - run.start > _EPS and run.volume <= 0.0:
            says = f"{called(run.name, 'an entry')} is {both(run.end - run.start)} of nothing: the bar has run out"
            found.append(stop("no-metal-there", says, "say which section it starts with", _where(spec, runs, run)))
    joints = [(one, two) for one, two in pairwise(runs) if one.volume > 0.0 and two.volume > 0.0]
    found += [_in_two(one, _where(spec, runs, one)) for one, two in joints if _is_point(one.b) or _is_point(two.a)]
    if _is_point(runs[-1].b) and any(b.at is None for b in spec.branches):
        says = "the bar comes to a point where it is to be split"
        found.append(stop("point-inside", says, "end it in a section that can be split", _where(spec, runs, runs[-1])))
    return found


def _is_point(section: Section) -> bool:
    return section.shape is Shape.POINT


def _in_two(one: MetalRun, where: Where) -> Finding:
    says = f"the bar comes to a point {both(one.end)} from the datum end and goes on behind it: it would fall in two"
    cure = "a point at the datum end is written `from: point, to: ...`"
    return stop("point-inside", says, cure, where)


def tube_findings(runs: tuple[MetalRun, ...], stock: Section, spec: BarSpec) -> list[Finding]:
    """Tube forged shut: the air in it cannot get out, and its walls do not become one piece by themselves."""
    tubes = (Shape.TUBE, Shape.SQUARE_TUBE)
    shut = next((r for r in runs if stock.shape in tubes and not {r.a.shape, r.b.shape} <= set(tubes)), None)
    if shut is None:
        return []
    says = f"{bar(stock)} is forged shut at {called(shut.name, 'an end')}: closed at both ends it can burst in the fire"
    cure = "leave an end or a hole open; the length takes the walls as closed up solid"
    return [warn("tube-forged-shut", says, cure, _where(spec, runs, shut))]


def hole_bend_findings(holes: Iterable[HoleCheck], spans: tuple[Span, ...]) -> list[Finding]:
    """Holes that lie in a bend: they pull oval, and the bar kinks there."""
    found, path = [], tuple(s.leg for s in spans)
    for check in holes:
        half = (check.hole.long or check.hole.size) / 2
        for i, span in enumerate(spans):
            inside = check.at + half > span.start + 1e-6 and check.at - half < span.end - 1e-6
            if inside and isinstance(span.leg, BendLeg | EyeLeg) and span.strain > SLIGHT_STRAIN:
                who = called(check.hole.name, "a hole")
                says = f"{who} at {both(check.at)} lies in {leg_called(path, i)}: it pulls oval"
                found.append(warn("hole-in-bend", says, "move it, or make it after bending", check.hole.where))
    return found


def _where(spec: BarSpec, runs: tuple[MetalRun, ...], run: MetalRun) -> Where:
    """The entry that a run comes from: each makes one run, and one more before it for a shoulder."""
    entries = []
    for i, entry in enumerate(spec.metal):
        ramp = i > 0 and entry.shoulder > 0.0 and entry.start is not None and entry.outline is None
        entries += [entry.where] * (2 if ramp else 1)
    return dict(zip(runs, entries, strict=False)).get(run, spec.where)


def upset_findings(runs: tuple[MetalRun, ...], stock: Section, spec: BarSpec) -> list[Finding]:
    """Places that are thicker than the bar: iron does not draw out to more than it was."""
    found = []
    have = area(stock)
    for bigger, group in groupby(runs, key=lambda r: max(area(r.a), area(r.b)) > have * (1 + 1e-9) and not r.outline):
        part = list(group)
        if bigger:
            most = max((s for r in part for s in (r.a, r.b)), key=area)
            free = sum(r.volume for r in part) / have / min(stock.width, stock.thick)
            found.append(_upset(part, most, stock, free, _where(spec, runs, part[0])))
    return found + [_gathered(r, stock, _where(spec, runs, r)) for r in runs if r.outline and _mean(r) > have * 1.001]


def _mean(run: MetalRun) -> float:
    return run.volume / (run.end - run.start) if run.end - run.start > _EPS else 0.0


def _gathered(run: MetalRun, stock: Section, where: Where) -> Finding:
    """An outlined end that holds more metal than the bar has over its length."""
    taken = run.volume / area(stock)
    says = (
        f"{called(run.name, 'the end')} is {both(run.end - run.start)} long and takes {both(taken)} of {bar(stock)}: "
        "the bar is to be gathered there first"
    )
    return warn("wants-upset", says, "upset it, make the end longer or thinner, or start from a bigger bar", where)


def _upset(part: list[MetalRun], most: Section, stock: Section, free: float, where: Where) -> Finding:
    name = next((r.name for r in part if r.name), "")
    what = f"{bar(most)} ({name})" if name else bar(most)
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
    """Limbs that together want more than the section that is split (one may be thicker than its brother)."""
    firsts = list(children)
    found = _too_thick(spec, firsts, last, count)
    if len(firsts) > 1:
        says = "the limbs are reckoned and drawn from the middle of the split end, one on the other"
        return [
            *found,
            note("limbs-from-the-middle", says, "each starts half its thickness to its own side", spec.where),
        ]
    return found


def _too_thick(spec: BarSpec, firsts: list[tuple[str, Section]], last: Section, count: int) -> list[Finding]:
    wanted, have = sum(area(first) for _, first in firsts), area(last)
    if not firsts or len(firsts) < count or wanted <= have * (1 + 1e-6) or have <= 0.0:
        return []
    said = ", ".join(f"{called(name, 'a limb')} with {bar(first)}" for name, first in firsts)
    says = f"the limbs begin with more than the {bar(last)} that is split ({said}): {wanted / have - 1:.0%} too much"
    return [warn("split-too-thick", says, "split a thicker end, begin the limbs thinner, or upset them", spec.where)]
