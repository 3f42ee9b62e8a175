"""Mark-out: where the shoulders fall on the unforged bar, and the bends, twists and holes on the drawn one."""

from collections.abc import Callable, Iterable
from math import degrees, pi

from bickern.parts.bar.length import Span, thick_at
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import BendSpan, HoleCheck, Mark, MarkKind, MetalRun, TwistCheck
from bickern.parts.bar.says import called, leg_words
from bickern.parts.bar.tracks import BendLeg, Corner, EyeLeg, HoleBy, HoopLeg, ScrollLeg, StraightLeg

COLD = "before any heat"
DRAWN = "after drawing, before bending"
_SAME_PLACE = 2e-5
"""Marks closer than this [m] are one mark."""
_WAYS = ("left", "up", "right", "down")


def way_words(turn: float) -> str:
    """Which way a bend goes, seen along the bar with the reference face up."""
    quarter = turn / (pi / 2)
    whole = round(quarter)
    if abs(quarter - whole) < 1e-6:
        return _WAYS[whole % 4]
    return f"{degrees(turn) % 360:.0f} degrees round from left toward up"


def marks_on_stock(
    runs: tuple[MetalRun, ...], spots: tuple[float, ...], holes: tuple[HoleCheck, ...], ends: Iterable[Mark]
) -> tuple[Mark, ...]:
    """Marks on the straight, unforged bar; `spots` [m] are where the runs begin and end on it."""
    found = list(ends)
    for one, two, at in zip(runs, runs[1:], spots[1:-1], strict=False):
        found.append(Mark(at, *_change(one, two), COLD))
    for hole in holes:
        run, first, last = _run_holding(runs, spots, hole.at)
        if run.kept:
            share = (hole.at - run.start) / ((run.end - run.start) or 1.0)
            found.append(Mark(first + share * (last - first), _hole_words(hole), MarkKind.PUNCH, COLD))
    return _merged(found)


def _run_holding(runs: tuple[MetalRun, ...], spots: tuple[float, ...], at: float) -> tuple[MetalRun, float, float]:
    for i, run in enumerate(runs):
        if at <= run.end or i == len(runs) - 1:
            return run, spots[i], spots[i + 1]
    raise ValueError("a bar has at least one run of metal")


def _change(one: MetalRun, two: MetalRun) -> tuple[str, MarkKind]:
    """What changes at the mark between two runs, and whether the mark must live through the fire."""
    before, after = called(one.name, "the part before"), called(two.name, "the part after")
    if not same_section(one.b, two.a):
        return f"shoulder: {before} ends, {after} begins", MarkKind.PUNCH
    if not same_section(two.a, two.b) or two.outline:
        return f"taper begins: {after}", MarkKind.PUNCH
    if not same_section(one.a, one.b) or one.outline:
        return f"taper ends: {before}; {after} begins", MarkKind.PUNCH
    return f"{before} ends, {after} begins", MarkKind.CHALK


def marks_on_drawn(
    spans: tuple[Span, ...],
    twists: tuple[TwistCheck, ...],
    holes: tuple[HoleCheck, ...],
    drawn: Callable[[float], float],
) -> tuple[Mark, ...]:
    """Marks on the straight drawn bar before bending; `drawn` takes a place on the finished bar to the drawn one."""
    found: list[Mark] = []
    for span in spans:
        found += [Mark(drawn(at), says, kind, DRAWN) for at, says, kind in _bend_marks(span)]
    for check in twists:
        who = called(check.twist.name, "the twist")
        found.append(Mark(drawn(check.start), f"{who} begins", MarkKind.PUNCH, DRAWN))
        found.append(Mark(drawn(check.end), f"{who} ends", MarkKind.PUNCH, DRAWN))
    found += [Mark(drawn(h.at), _hole_words(h), MarkKind.PUNCH, DRAWN) for h in holes]
    return _merged(found)


def _bend_marks(span: Span) -> list[tuple[float, str, MarkKind]]:
    leg, who = span.leg, leg_words(span.leg)
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


def _merged(marks: list[Mark]) -> tuple[Mark, ...]:
    """In order along the bar; marks in one place become one, and it is punched if either was."""
    merged: list[Mark] = []
    for mark in sorted(marks, key=lambda m: m.at):
        if merged and mark.at - merged[-1].at < _SAME_PLACE:
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
