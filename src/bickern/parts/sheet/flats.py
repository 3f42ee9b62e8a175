"""Pieces that are flat before they are shaped: the disc of a bowl, and free outlines."""

from itertools import pairwise
from math import hypot, pi

from bickern.geometry.polygon import ArcSeg, Line, Loop, disc
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.chain import Chain
from bickern.parts.sheet.holes import divided, on_edge
from bickern.parts.sheet.result import Pattern, PatternLine
from bickern.parts.sheet.rims import Tab, allowance, edge_lines, lug_length, shares_round, with_tabs
from bickern.parts.sheet.spec import Bowl, EdgeKind, FlatOutline, SheetSpec


def disc_radius(bowl: Bowl) -> float:
    """Radius [m] of the disc with the area of the cap: sqrt(rim radius^2 + depth^2), exact."""
    return hypot(bowl.rim / 2, bowl.depth)


def cap_volume(rim: float, depth: float) -> float:
    """What a ball's cap holds [m3], level full: pi h (3 a^2 + h^2)/6."""
    return pi * depth * (3 * (rim / 2) ** 2 + depth**2) / 6


def bowl_net(bowl: Bowl, name: str) -> Pattern:
    """The disc with its centre lines."""
    radius = disc_radius(bowl)
    return Pattern(name, disc(radius), (), (), _cross(radius))


def bowl_cut(bowl: Bowl, spec: SheetSpec, rules: SheetRules, name: str) -> Pattern:
    """The disc with its edge finish or lugs, and holes divided round it, `up` in from the rim."""
    radius = disc_radius(bowl)
    edge = next((e for e in spec.edges if e.kind is not EdgeKind.RAW), None)
    extra = allowance(edge, rules, spec.thick) if edge else 0.0
    rim, tabs = rim_tabs(bowl, spec, rules)
    holes = tuple(h for hole in spec.holes for h in on_edge(hole, _round(radius), divided(hole)))
    lines = _cross(radius) + (edge_lines(rim, "bend", "turn the edge here") if extra > 0.0 else ())
    if extra > 0.0 or not spec.lugs:
        return Pattern(name, disc(radius + extra), (), holes, lines)
    lugged = with_tabs(rim, tabs)
    return Pattern(name, Loop(lugged.edge), (), holes, lines + lugged.lines)


def rim_tabs(bowl: Bowl, spec: SheetSpec, rules: SheetRules) -> tuple[Chain, tuple[Tab, ...]]:
    """The rim, which starts in the widest space between two lugs, and the lugs along it [m]."""
    radius = disc_radius(bowl)
    placed = [(s, lug) for lug in spec.lugs for s in shares_round(lug.number, lug.first)]
    spots = sorted(s for s, _ in placed)
    spaces = [(b - a, a) for a, b in pairwise([*spots, *(s + 1.0 for s in spots[:1])])]
    space, before = max(spaces, default=(0.0, 0.0))
    start = before + space / 2
    tabs = tuple(
        Tab((s - start) % 1.0 * 2 * pi * radius, n.width, lug_length(n, spec.thick, rules), n.eye, n.name)
        for s, n in placed
    )
    return _round(radius, start), tabs


def _round(radius: float, start: float = 0.0) -> Chain:
    return (ArcSeg((0.0, 0.0), radius, 2 * pi * start, 2 * pi),)


def flat_pattern(flat: FlatOutline, name: str) -> Pattern:
    """A free outline as it was drawn."""
    return Pattern(name, flat.outer, flat.holes)


def _cross(radius: float) -> tuple[PatternLine, ...]:
    return (
        PatternLine(Line((-radius, 0.0), (radius, 0.0)), "centre", "centre line"),
        PatternLine(Line((0.0, -radius), (0.0, radius)), "centre"),
    )
