"""Bends that do not say which way they turn: they go the easy way of the metal that comes to lie in them."""

from dataclasses import replace
from math import cos, pi

from bickern.measure.finding import Finding, note
from bickern.measure.units.words import Shape
from bickern.parts.bar.length import Bent, Span, box_at, thick_at
from bickern.parts.bar.marks import way_words
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.says import leg_called
from bickern.parts.bar.tracks import BarSpec, BendLeg, HoopLeg, PathLeg, StraightLeg, Way

FLAT_ENOUGH = 1.2
"""Width over thickness from which a smith bends a bar over its thin way without being told (common practice)."""
UP, DOWN = pi / 2, 3 * pi / 2


def easy_turns(spec: BarSpec, spans: tuple[Span, ...], runs: tuple[MetalRun, ...]) -> BarSpec:
    """The bar with every turn that was not told set by the section in the middle of its bend."""
    if not spec.path:
        return spec
    path = tuple(_settled(leg, span, runs) for leg, span in zip(spec.path, spans, strict=True))
    return spec if path == spec.path else replace(spec, path=path)


def _settled(leg: PathLeg, span: Span, runs: tuple[MetalRun, ...]) -> PathLeg:
    if isinstance(leg, StraightLeg) or leg.aside is None:
        return leg
    turn = _easy_turn(leg, leg.aside, (span.start + span.end) / 2, runs)
    return leg if abs(turn - leg.turn) < 1e-9 else replace(leg, turn=turn)


def _easy_turn(leg: Bent, aside: float, at: float, runs: tuple[MetalRun, ...]) -> float:
    """A half-round bends down, its flat inside; a section nearly as thick as wide stays as the stock would have it."""
    wide, high = thick_at(runs, at, 0.0), thick_at(runs, at, pi / 2)
    if max(wide, high) < FLAT_ENOUGH * min(wide, high):
        return leg.turn
    hard = isinstance(leg, BendLeg | HoopLeg) and leg.way is Way.HARD
    if (high < wide) is hard:
        return aside
    if box_at(runs, at)[0].shape is Shape.HALF_ROUND:
        return DOWN
    return UP if abs(cos(leg.turn)) > 1e-9 else leg.turn


def turn_findings(asked: BarSpec, settled: BarSpec) -> list[Finding]:
    """A word on every bend that goes another way than the stock would have had it."""
    found = []
    for i, (before, after) in enumerate(zip(asked.path, settled.path, strict=True)):
        if isinstance(before, StraightLeg) or isinstance(after, StraightLeg) or before.turn == after.turn:
            continue
        way = "hard" if getattr(after, "way", None) is Way.HARD else "easy"
        who = leg_called(settled.path, i)
        says = f"no `turn` is told for {who}: it goes {way_words(after.turn)}, the {way} way of the bar there"
        found.append(
            note("turn-not-told", says, "write `turn:` left, right, up or down to have it otherwise", after.where)
        )
    return found
