"""A net with its seams, edges, lugs and holes: the pattern as it is cut."""

from math import hypot

from bickern.geometry.polygon import Line, Loop, Point, seg_start
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.chain import backward, chain_length, spot_at
from bickern.parts.sheet.holes import divided, on_edge
from bickern.parts.sheet.net import Net
from bickern.parts.sheet.notches import Folds
from bickern.parts.sheet.result import Pattern, PatternHole, PatternLine
from bickern.parts.sheet.rims import Rim, Tab, allowance, finished, lug_length, shares_round
from bickern.parts.sheet.rivets import rivet_lines, rivet_rows
from bickern.parts.sheet.spec import Edge, EdgeKind, Lug, SheetSpec
from bickern.parts.sheet.trim import end_strip, lean, seam_lines, shares, start_strip

Range = tuple[float, float]
"""Which part of the way round (0..1) a pattern covers."""


def cut_pattern(net: Net, spec: SheetSpec, rules: SheetRules, name: str, covers: Range) -> Pattern:
    """The pattern of one net: what `spec` asks of this part of the round."""
    added = shares(spec.seam, spec.thick, rules)
    low, high = rims(net, spec, rules, covers)
    outline = (*low.edge, *end_strip(net, added.end), *high.edge, *start_strip(net, added.start))
    lines = (
        *net.lines,
        centre_line(net),
        *seam_lines(net, spec.seam, rules, added),
        *rivet_lines(net, spec.seam),
        *low.lines,
        *high.lines,
    )
    holes = (*round_holes(net, spec, covers), *rivet_rows(net, spec.seam, rules))
    return Pattern(name, Loop(outline), (), holes, lines)


def net_pattern(net: Net, name: str) -> Pattern:
    """The net alone, with the lines it is rolled or folded along."""
    return Pattern(name, net.outline, (), (), net.lines)


def rims(net: Net, spec: SheetSpec, rules: SheetRules, covers: Range) -> tuple[Rim, Rim]:
    """Bottom and top as cut, both walked with the outside on the right."""
    tabs = tabs_on(net, spec, rules, "bottom", covers)
    low = finished(net.bottom, *_finish(spec, rules, "bottom", tabs), folds_of(net, "bottom"))
    if not net.top:
        return low, Rim(())
    upper = backward(net.top)
    tabs = tabs_on(net, spec, rules, "top", covers)
    return low, finished(upper, *_finish(spec, rules, "top", tabs), folds_of(net, "top"))


def _finish(
    spec: SheetSpec, rules: SheetRules, on: str, tabs: tuple[Tab, ...]
) -> tuple[Edge | None, tuple[Tab, ...], float]:
    """The finish asked for an edge, its lugs, and what the finish takes [m]."""
    edge = edge_on(spec, on)
    return edge, tabs, allowance(edge, rules, spec.thick) if edge else 0.0


def folds_of(net: Net, on: str) -> Folds:
    """How a skin is folded along its bottom or top; a rolled one has no folds."""
    low, high = lean(net)
    return Folds(
        tuple(line.line for line in net.lines if line.kind == "bend"), net.sharp, low if on == "bottom" else high
    )


def edge_on(spec: SheetSpec, on: str) -> Edge | None:
    """The finish asked for on an edge; a raw edge is none."""
    return next((e for e in spec.edges if e.on == on and e.kind is not EdgeKind.RAW), None)


def tabs_on(net: Net, spec: SheetSpec, rules: SheetRules, on: str, covers: Range) -> tuple[Tab, ...]:
    """The lugs of an edge that stand in this part of the round, from the start of the edge as it is walked."""
    length = chain_length(net.bottom if on == "bottom" else net.top)
    tabs = []
    for lug in spec.lugs:
        if lug.on == on:
            tabs += [_tab(lug, s, length, spec.thick, rules, on) for s in _shares(lug, covers)]
    return tuple(tabs)


def round_holes(net: Net, spec: SheetSpec, covers: Range) -> tuple[PatternHole, ...]:
    """The holes asked for in this part of the round."""
    return tuple(h for hole in spec.holes for h in on_edge(hole, net.bottom, divided(hole, *covers)))


def centre_line(net: Net) -> PatternLine:
    """From the middle of the bottom to the middle of the top."""
    low = spot_at(net.bottom, chain_length(net.bottom) / 2).point
    high = spot_at(net.top, chain_length(net.top) / 2).point if net.top else net.tip
    return PatternLine(Line(low, high), "centre", "centre line")


def merged(patterns: tuple[Pattern, ...]) -> tuple[Pattern, ...]:
    """Patterns that are alike as one, to be made several times."""
    found: list[tuple[tuple[float, ...], Pattern, int]] = []
    for pattern in patterns:
        shape = fingerprint(pattern)
        same = next((i for i, (known, _, _) in enumerate(found) if _alike(known, shape)), None)
        if same is None:
            found.append((shape, pattern, 1))
        else:
            known, first, count = found[same]
            found[same] = (known, first, count + 1)
    return tuple(Pattern(p.name, p.outline, p.cutouts, p.holes, p.lines, p.make * count) for _, p, count in found)


def fingerprint(pattern: Pattern) -> tuple[float, ...]:
    """Distances [m] that tell a pattern from another, wherever it lies: from two corners to each corner and hole."""
    points = [seg_start(seg) for seg in pattern.outline.segs]
    ends = points[0], points[len(points) // 2]
    places = [*points, *(h.centre for h in pattern.holes)]
    return tuple(_apart(e, p) for p in places for e in ends) + tuple(h.size for h in pattern.holes)


def _alike(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return len(a) == len(b) and all(abs(x - y) < 1e-7 for x, y in zip(a, b, strict=True))


def _apart(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _shares(lug: Lug, covers: Range) -> tuple[float, ...]:
    low, high = covers
    return tuple((s - low) / (high - low) for s in shares_round(lug.number, lug.first) if low <= s < high)


def _tab(lug: Lug, share: float, length: float, thick: float, rules: SheetRules, on: str) -> Tab:
    at = share * length if on == "bottom" else (1.0 - share) * length
    return Tab(at, lug.width, lug_length(lug, thick, rules), lug.eye, lug.name)
