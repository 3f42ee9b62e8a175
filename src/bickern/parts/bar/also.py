"""What other published rules would make of a bar: its bends, its eyes and its slits, to print beside the shop's own."""

from collections.abc import Iterable

from bickern.parts.bar.allowances import BendRule
from bickern.parts.bar.length import Span, other_bend_length, path_length, with_eyes_by
from bickern.parts.bar.result import HoleCheck
from bickern.parts.bar.rules import SLIT_RULES, TIGHT, slit_length
from bickern.parts.bar.solve import Problem, Trial
from bickern.parts.bar.tracks import BendLeg, Corner, EyeLeg, HoopLeg
from bickern.parts.eye import BY_MEAN, EYE_RULES

Also = tuple[tuple[str, float, str], ...]
ALONG = "length along the bar"
"""How a figure for the whole bar begins; others are of parts of it."""


def as_eyes_are_asked(problem: Problem, trial: Trial) -> tuple[Span, ...]:
    """The path by mean diameters, where the shop's rule for eyes is another."""
    return _eyes_by(BY_MEAN, problem, trial)


def also_by_rule(problem: Problem, trial: Trial, holes: Iterable[HoleCheck]) -> Also:
    """(label, value [m], why) by every rule but the shop's own, for what of this bar goes by a rule."""
    return (*_bends(problem, trial), *_eyes(problem, trial), *_slits(problem, holes))


def _eyes_by(rule: str, problem: Problem, trial: Trial) -> tuple[Span, ...]:
    if problem.rules.eye == rule:
        return trial.spans
    return with_eyes_by(rule, problem.spec, trial.laid, problem.rules, trial.values)


def _eyes(problem: Problem, trial: Trial) -> Also:
    if not any(isinstance(s.leg, EyeLeg | HoopLeg) for s in trial.spans):
        return ()
    others = [r for r in EYE_RULES if r.name != problem.rules.eye]
    lengths = [path_length(_eyes_by(r.name, problem, trial)) for r in others]
    return tuple(
        (f"{ALONG}, eyes by {r.name}", length, str(r.source)) for r, length in zip(others, lengths, strict=True)
    )


def _bends(problem: Problem, trial: Trial) -> Also:
    if not any(_is_tight(s) for s in trial.spans):
        return ()
    other = BendRule.DIN_6935 if problem.rules.bend is BendRule.CENTRE else BendRule.CENTRE
    why = "a bend is tighter inside than twice the thickness; hot bends keep their centre line in print (Ilgen s. 72)"
    return ((f"{ALONG} by {other}", other_bend_length(trial.spans, problem.rules), why),)


def _is_tight(span: Span) -> bool:
    plain = isinstance(span.leg, BendLeg) and span.leg.corner is Corner.NONE
    return plain and span.inside_radius < TIGHT * span.thick


def _slits(problem: Problem, holes: Iterable[HoleCheck]) -> Also:
    slit = [check.hole for check in holes if check.slit is not None]
    others = [r for r in SLIT_RULES if r.name != problem.rules.slit]
    found = (
        (f"slit for {hole.name or 'the hole'} by {r.name}", slit_length(r.name, hole.size, hole.long), str(r.source))
        for hole in slit
        for r in others
    )
    return tuple(dict.fromkeys(found))
