"""What is added along a free edge: hems, wired edges, and lugs with their roots on the edge itself."""

from dataclasses import dataclass
from math import ceil, pi

from bickern.geometry.polygon import Line, Point
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.chain import (
    Chain,
    Spot,
    as_lines,
    backward,
    chain_length,
    fine_lines,
    part_of,
    spot_at,
)
from bickern.parts.sheet.notches import Folds, joined, notched
from bickern.parts.sheet.result import PatternLine
from bickern.parts.sheet.spec import Edge, EdgeKind, Lug


@dataclass(frozen=True, slots=True)
class Rim:
    """A free edge as cut, with the lines to mark on it."""

    edge: Chain
    lines: tuple[PatternLine, ...] = ()
    tabs: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Tab:
    """One lug on an edge: its middle `at` [m] from the edge's start, width and flat length [m]."""

    at: float
    width: float
    length: float
    eye: float
    name: str


def allowance(edge: Edge, rules: SheetRules, thick: float | None = None) -> float:
    """Metal [m] added outside an edge for its finish; `thick` [m] of the sheet is in the rule for some wired edges.

    Raises ValueError where such a rule is asked without a thickness (a fault in us).
    """
    if edge.kind is EdgeKind.WIRED:
        if rules.wire_sheets and thick is None:
            raise ValueError("this rule for a wired edge wants the thickness of the sheet")
        return rules.wire * edge.size + rules.wire_sheets * (thick or 0.0)
    factor = {EdgeKind.RAW: 0.0, EdgeKind.HEM: rules.hem, EdgeKind.DOUBLE_HEM: rules.double_hem}
    return edge.size * factor[edge.kind]


def lug_length(lug: Lug, thick: float, rules: SheetRules) -> float:
    """Flat length [m] of a lug past the edge: round the eye on the middle of the sheet, or as told."""
    if lug.eye <= 0.0:
        return lug.length
    return pi * (lug.eye + thick) + rules.eye_straight


def shares_round(number: int, first: float) -> tuple[float, ...]:
    """Places as shares of the way round (0..1), divided evenly, the first `first` of a space from the seam."""
    return tuple((i + first) / number % 1.0 for i in range(number))


def finished(
    chain: Chain,
    edge: Edge | None,
    tabs: tuple[Tab, ...],
    extra: float,
    folds: Folds = Folds(),  # noqa: B008 - frozen
) -> Rim:
    """An edge (outside on its right) with its hem or wire, or with its lugs; `folds`: how the skin is folded.

    `extra` [m] is what the hem or the wire takes (`allowance`).
    """
    if edge is not None and extra > 0.0:
        return _folded(chain, edge, extra, folds)
    return with_tabs(chain, tabs) if tabs else Rim(chain)


def with_tabs(chain: Chain, tabs: tuple[Tab, ...]) -> Rim:
    """The edge with its lugs standing square on it, sides parallel, roots on the edge."""
    pieces: list[Chain] = []
    done, lines, outlines = 0.0, [], []
    for tab in sorted(tabs, key=lambda t: t.at):
        low, high = _root(chain, tab, -tab.width / 2), _root(chain, tab, tab.width / 2)
        middle = spot_at(chain, tab.at)
        corners = (
            spot_at(chain, low).point,
            middle.off(-tab.width / 2, tab.length),
            middle.off(tab.width / 2, tab.length),
            spot_at(chain, high).point,
        )
        pieces += [part_of(chain, done, low), _lines(corners)]
        lines += _tab_lines(middle, tab, corners)
        outlines.append(corners)
        done = high
    pieces.append(part_of(chain, done, chain_length(chain)))
    return Rim(tuple(seg for piece in pieces for seg in piece), tuple(lines), tuple(outlines))


def edge_lines(chain: Chain, kind: str, says: str) -> tuple[PatternLine, ...]:
    """An edge drawn as a line that is not cut; only the middle of it carries the words."""
    parts = fine_lines(chain)
    middle = len(parts) // 2
    return tuple(PatternLine(line, kind, says if i == middle else "") for i, line in enumerate(parts))


def _folded(chain: Chain, edge: Edge, extra: float, folds: Folds) -> Rim:
    says = {
        EdgeKind.HEM: "fold the hem here",
        EdgeKind.DOUBLE_HEM: "second fold of the hem",
        EdgeKind.WIRED: "wire's edge",
    }[edge.kind]
    strips = notched(chain, extra, folds)
    lines = edge_lines(chain, "bend", says)
    if edge.kind is EdgeKind.DOUBLE_HEM:
        for strip in strips:
            lines += edge_lines(strip.at(0.5), "bend", "first fold of the hem")
    whole, cuts = joined(strips)
    slits = (PatternLine(cut, "mark", "cut in to the corner") for cut in cuts if isinstance(cut, Line))
    return Rim(whole, (*lines, *slits))


def _root(chain: Chain, tab: Tab, along: float) -> float:
    """Where on the edge [m] a lug's side starts: `along` the tangent at its middle, found by halving."""
    middle = spot_at(chain, tab.at)
    reach = along * 2
    low, high = sorted((tab.at, tab.at + reach))
    for _ in range(60):
        half = (low + high) / 2
        x, y = spot_at(chain, half).point
        on = (x - middle.point[0]) * middle.along[0] + (y - middle.point[1]) * middle.along[1]
        low, high = (half, high) if on < along else (low, half)
    return (low + high) / 2


def _tab_lines(middle: Spot, tab: Tab, corners: tuple[Point, ...]) -> list[PatternLine]:
    centre = PatternLine(Line(middle.point, middle.off(0.0, tab.length)), "centre", tab.name)
    if tab.eye <= 0.0:
        return [centre]
    root = PatternLine(Line(corners[0], corners[3]), "bend", "roll the eye from here")
    rolls = max(2, ceil(tab.length / max(tab.eye, tab.length / 6)))
    across = [
        PatternLine(
            Line(middle.off(-tab.width / 2, tab.length * i / rolls), middle.off(tab.width / 2, tab.length * i / rolls)),
            "roll",
        )
        for i in range(1, rolls)
    ]
    return [centre, root, *across]


def _lines(points: tuple[Point, ...]) -> Chain:
    return as_lines(list(points))


def reversed_rim(rim: Rim) -> Rim:
    """The same rim walked the other way."""
    return Rim(backward(rim.edge), rim.lines, rim.tabs)
