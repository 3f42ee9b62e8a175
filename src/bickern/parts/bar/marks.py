"""Mark-out: where the shoulders fall on the unforged bar, and the bends, twists and holes on the drawn one."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from math import degrees, pi

from bickern.measure.units.words import INCH
from bickern.parts.bar.length import Span, thick_at
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import BendSpan, HoleCheck, Mark, MarkKind, MetalRun, TwistCheck
from bickern.parts.bar.says import bar, called, leg_called
from bickern.parts.bar.tracks import BendLeg, Corner, EyeLeg, HoleBy, HoopLeg, ScrollLeg, StraightLeg

COLD = "before any heat"
DRAWN = "after drawing, before bending"
_SAME_PLACE = 2e-5
"""Places closer than this [m] are one place."""
_ONE_MARK = INCH / 32
"""Marks closer than this [m] are struck as one: two would run into each other."""
_WAYS = ("left", "up", "right", "down")


def way_words(turn: float) -> str:
    """Which way a bend goes, seen along the bar with the reference face up."""
    quarter = turn / (pi / 2)
    whole = round(quarter)
    if abs(quarter - whole) < 1e-6:
        return _WAYS[whole % 4]
    return f"{degrees(turn) % 360:.0f} degrees round from left toward up"


def marks_on_stock(runs: tuple[MetalRun, ...], spots: tuple[float, ...], ends: Iterable[Mark]) -> tuple[Mark, ...]:
    """Marks on the straight, unforged bar; `spots` [m] are where the runs begin and end on it; no holes yet."""
    found = list(ends)
    for i, at in enumerate(spots[1:-1]):
        found.append(Mark(at, *_change(runs, i), COLD))
    return _merged(found)


def _change(runs: tuple[MetalRun, ...], i: int) -> tuple[str, MarkKind]:
    """What changes at the mark behind run `i`, and whether the mark must live through the fire."""
    one, two = runs[i], runs[i + 1]
    before, after = _run_words(runs, i), _run_words(runs, i + 1)
    if not same_section(one.b, two.a):
        return f"shoulder: {before} ends, {after} begins", MarkKind.PUNCH
    if _changes(two):
        return f"taper begins: {after}" if two.name else f"{after} begins", MarkKind.PUNCH
    if _changes(one):
        return f"taper ends: {before}; {after} begins" if one.name else f"{before} ends", MarkKind.PUNCH
    return f"{before} ends, {after} begins", MarkKind.CHALK


def _changes(run: MetalRun) -> bool:
    return run.outline is not None or not same_section(run.a, run.b)


def _run_words(runs: tuple[MetalRun, ...], i: int) -> str:
    """A stretch by its name, else by the named ones beside it, else by its section."""
    run = runs[i]
    if run.name:
        return called(run.name, "")
    what = "taper" if _changes(run) else bar(run.a)
    before = called(runs[i - 1].name if i else "", "")
    after = called(runs[i + 1].name if i + 1 < len(runs) else "", "")
    if before and after:
        return f"{what} from {before} to {after}"
    return f"{what} after {before}" if before else f"{what} before {after}" if after else what


def marks_on_drawn(
    spans: tuple[Span, ...],
    twists: tuple[TwistCheck, ...],
    holes: tuple[HoleCheck, ...],
    drawn: Callable[[float], float],
) -> tuple[Mark, ...]:
    """Marks on the straight drawn bar before bending; `drawn` takes a place on the finished bar to the drawn one.

    What begins or ends at an end of the bar needs no mark there.
    """
    path, last = tuple(s.leg for s in spans), spans[-1].end
    found = [mark for i, span in enumerate(spans) for mark in _bend_marks(span, leg_called(path, i))]
    for check in twists:
        who = called(check.twist.name, "the twist")
        found.append((check.start, f"{who} begins", MarkKind.PUNCH))
        found.append((check.end, f"{who} ends", MarkKind.PUNCH))
    inside = [(at, says, kind) for at, says, kind in found if _SAME_PLACE < at < last - _SAME_PLACE]
    marks = [Mark(drawn(at), says, kind, DRAWN) for at, says, kind in inside]
    return _with_holes(_merged(marks), [Mark(drawn(h.at), _hole_words(h), MarkKind.PUNCH, DRAWN) for h in holes])


def _with_holes(marks: tuple[Mark, ...], holes: list[Mark]) -> tuple[Mark, ...]:
    """A hole's mark is its centre, and takes in whatever mark would run into it; holes join in one place only."""
    free = [m for m in marks if all(abs(m.at - h.at) >= _ONE_MARK for h in holes)]
    taken = [(min(holes, key=lambda h: abs(h.at - m.at)), m) for m in marks if m not in free]
    grown = [replace(h, says="; ".join([h.says, *(m.says for near, m in taken if near is h)])) for h in holes]
    return tuple(sorted([*free, *_merged(grown, _SAME_PLACE)], key=lambda m: m.at))


def _bend_marks(span: Span, who: str) -> list[tuple[float, str, MarkKind]]:
    leg = span.leg
    if isinstance(leg, StraightLeg | HoopLeg):
        return []
    if isinstance(leg, EyeLeg):
        at = span.end if span.start == 0.0 else span.start
        says = f"{who}: sharp bend here, then turn the ring" if leg.centred else f"{who} begins here"
        return [(at, says, MarkKind.PUNCH)]
    ends = [
        (span.start, f"{who} begins", MarkKind.PUNCH),
        (span.end, f"{who} ends", MarkKind.PUNCH),
    ]
    if isinstance(leg, ScrollLeg):
        return ends
    return [ends[0], ((span.start + span.end) / 2, f"middle of {who}", MarkKind.CHALK), ends[1]]


def _hole_words(check: HoleCheck) -> str:
    verb = {HoleBy.DRILL: "drill", HoleBy.PUNCH: "punch", HoleBy.SLIT: "slit and drift"}[check.hole.by]
    name = f" {called(check.hole.name, '')}" if check.hole.name else ""
    return f"{verb}: centre of hole{name}, {check.hole.face} face"


def _merged(marks: list[Mark], apart: float = _ONE_MARK) -> tuple[Mark, ...]:
    """In order along the bar; marks less than `apart` [m] from one another become one, punched if either was."""
    merged: list[Mark] = []
    for mark in sorted(marks, key=lambda m: m.at):
        if merged and mark.at - merged[-1].at < apart:
            last = merged[-1]
            kind = MarkKind.PUNCH if MarkKind.PUNCH in (last.kind, mark.kind) else MarkKind.CHALK
            says = last.says if mark.says in last.says.split("; ") else f"{last.says}; {mark.says}"
            merged[-1] = Mark(last.at, says, kind, last.holds)
        else:
            merged.append(mark)
    return tuple(merged)


def drawn_place(twists: tuple[TwistCheck, ...], lost: tuple[float, ...], first: float) -> Callable[[float], float]:
    """From a place on the finished bar to the same place on the drawn bar: scarf in front, twists not yet shortened."""

    def drawn(at: float) -> float:
        moved = first + at
        for check, length in zip(twists, lost, strict=True):
            share = (at - check.start) / (check.end - check.start)
            moved += length * min(1.0, max(0.0, share))
        return moved

    return drawn


def bend_spans(spans: tuple[Span, ...], runs: tuple[MetalRun, ...]) -> tuple[BendSpan, ...]:
    """Every bend with its marks, radius and strain."""
    found = []
    for span in spans:
        if span.is_bend:
            says = bend_words(span, runs)
            name = span.leg.name
            found.append(BendSpan(name, span.start, span.end, says, span.inside_radius, span.strain))
    return tuple(found)


def bend_words(span: Span, runs: tuple[MetalRun, ...]) -> str:
    """`bend 90 degrees left, the hard way`."""
    leg = span.leg
    way = way_words(getattr(leg, "turn", 0.0))
    what = {EyeLeg: "eye", ScrollLeg: "scroll", HoopLeg: "hoop"}.get(type(leg), "bend")
    if isinstance(leg, BendLeg):
        corner = {Corner.SQUARE: ", forged up to a square corner", Corner.UPSET: ", upset first"}.get(leg.corner, "")
        what = f"bend {degrees(leg.angle):.4g} degrees"
        return f"{what} {way}{_easy_or_hard(span, runs)}{corner}"
    return f"{what}, turned {way}{_easy_or_hard(span, runs)}"


def both_ways(span: Span, runs: tuple[MetalRun, ...]) -> tuple[float, float]:
    """Size of the bar [m] in the plane of the bend and square to it, at its middle."""
    middle, turn = (span.start + span.end) / 2, getattr(span.leg, "turn", 0.0)
    return thick_at(runs, middle, turn), thick_at(runs, middle, turn + pi / 2)


def _easy_or_hard(span: Span, runs: tuple[MetalRun, ...]) -> str:
    inside, other = both_ways(span, runs)
    if abs(other - inside) < 1e-6:
        return ""
    return ", the hard way" if inside > other else ", the easy way"
