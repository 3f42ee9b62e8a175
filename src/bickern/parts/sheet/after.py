"""Faults that show only on the pattern: parts that overlap, holes off the sheet, laps with no length."""

from collections.abc import Iterator
from itertools import accumulate, combinations, pairwise
from math import hypot, pi, radians
from typing import TYPE_CHECKING

from bickern.geometry.develop.pattern import Development
from bickern.geometry.polygon import seg_length, to_shapely
from bickern.measure.finding import Finding, note, stop, warn
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.bends import right_fold_half, sharp_over
from bickern.parts.sheet.chain import Chain, backward, chain_length
from bickern.parts.sheet.check import MANY, small_end
from bickern.parts.sheet.cut import Range, edge_on, folds_of, rims, tabs_on
from bickern.parts.sheet.flats import disc_radius, rim_tabs
from bickern.parts.sheet.net import SLIGHT, Net, fans
from bickern.parts.sheet.neutral import on_middle
from bickern.parts.sheet.notches import notched, sides
from bickern.parts.sheet.pan import wall_tabs
from bickern.parts.sheet.result import Pattern, PatternHole
from bickern.parts.sheet.rims import Tab, allowance
from bickern.parts.sheet.rivets import rivet_spots
from bickern.parts.sheet.say import told
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Edge,
    Pan,
    Pyramid,
    RimShape,
    SeamKind,
    SheetHole,
    SheetSpec,
    Surface,
    Transition,
)
from bickern.parts.sheet.trim import LAPS, lean, shares, trimmed

if TYPE_CHECKING:
    from shapely.geometry import Polygon

HEM_STRAIN = 0.15
"""Hem width over the rim's radius above which turning it needs several passes (from memory)."""
SMALL_END_SHARE = 0.5
"""A seam wider than this share of the small end is warned of (chosen here)."""


def net_wrong(net: Net, spec: SheetSpec, rules: SheetRules, covers: Range) -> tuple[Finding, ...]:
    """Faults that show on a net before anything is added to it: what stops here cannot be drawn."""
    found = [*_lap(net, spec, rules), *_rivet_room(net, spec, rules)]
    found += [*_lugs(net, spec, rules, covers), *_hems(net, spec, rules)]
    return tuple(f.at(spec.where) for f in found)


def pattern_wrong(net: Net, pattern: Pattern, spec: SheetSpec, rules: SheetRules, covers: Range) -> tuple[Finding, ...]:
    """Faults that show on the pattern of one net as it is cut."""
    found = flat_wrong(pattern, spec, net)
    if lugs_clash(net, spec, rules, covers):
        found.append(stop("lugs-overlap", "Two lugs run into one another.", "Make them narrower, shorter or fewer."))
    return tuple(f.at(spec.where) for f in found)


def flat_wrong(pattern: Pattern, spec: SheetSpec, net: Net | None = None) -> list[Finding]:
    """A pattern that lies over itself; where it does not, its holes."""
    return [*overlaps(pattern)] or [*holes_wrong(pattern, spec, net)]


def _lap(net: Net, spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    added = shares(spec.seam, spec.thick, rules)
    width = max(added.start, added.end)
    lost = sum(trimmed(width, angle) for angle in lean(net))
    if width > 0.0 and (lost >= seg_length(net.end) or width >= _room(net)):
        says = f"A {spec.seam.kind} of {told(width)} leaves no edge on a seam of {told(seg_length(net.end))}."
        yield stop("lap-too-wide", says, "Make the seam narrower.").at(spec.seam.where)
    elif width > 0.0 and net.top and (small := small_end(spec)) and width > SMALL_END_SHARE * small:
        says = f"The seam of {told(width)} is over half the small end, {told(small)}."
        yield warn("lap-too-wide", says, "Taper the seam toward the small end, or make it narrower.").at(
            spec.seam.where
        )


def _room(net: Net) -> float:
    """The narrower of the two rims [m]; of a pointed skin, its bottom."""
    return min(chain_length(c) for c in (net.bottom, net.top) if c)


def _rivet_room(net: Net, spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    count = len(rivet_spots(net, spec.seam, rules)) if spec.seam.kind is SeamKind.RIVETED else 2
    if count > MANY:
        yield stop("too-many", f"{count} rivets come on one seam.", "Give a longer pitch.").at(spec.seam.where)
    if count < 2:
        says = f"A seam of {told(seg_length(net.end))} has room for one rivet only."
        yield warn("one-rivet", says, "Take smaller rivets or a narrower lap.").at(spec.seam.where)


def _hems(net: Net, spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    for on, chain in (("bottom", net.bottom), ("top", net.top)):
        edge = edge_on(spec, on)
        if edge is None or not chain:
            continue
        if not _is_round(spec, on):
            yield from _sides_too_short(net, chain, edge, allowance(edge, rules, spec.thick), on)
            continue
        extra, radius = allowance(edge, rules, spec.thick), spec.parts * chain_length(chain) / (2 * pi)
        if extra >= radius:
            says = f"The {edge.kind} edge takes {told(extra)}, more than the radius of the {on}, {told(radius)}."
            yield stop("hem-too-wide", says, "Make it narrower.").at(edge.where)
        elif extra / radius > HEM_STRAIN:
            says = (
                f"Turning the {edge.kind} edge on the {on} stretches or packs it by up to {100 * extra / radius:.0f} %."
            )
            yield warn("hem-on-tight-round", says, "Make it narrower, or turn it in several passes.").at(edge.where)


def _sides_too_short(net: Net, chain: Chain, edge: Edge, extra: float, on: str) -> Iterator[Finding]:
    walked = chain if on == "bottom" else backward(chain)
    shortest = min(notched(walked, extra, folds_of(net, on)), key=lambda s: s.room)
    if shortest.room <= 0.0:
        says = f"The {edge.kind} edge takes {told(extra)}; notched at its corners it leaves nothing of a side of "
        says += f"{told(chain_length(shortest.side))} on the {on}."
        yield stop("hem-too-wide", says, "Make it narrower.").at(edge.where)


def _is_round(spec: SheetSpec, on: str) -> bool:
    surface = spec.surface
    if isinstance(surface, Transition):
        return (surface.low if on == "bottom" else surface.high).shape is not RimShape.RECTANGLE
    return isinstance(surface, Cone | Cylinder)


def _lugs(net: Net, spec: SheetSpec, rules: SheetRules, covers: Range) -> Iterator[Finding]:
    for on, chain in (("bottom", net.bottom), ("top", net.top)):
        if chain and (tabs := tabs_on(net, spec, rules, on, covers)):
            yield from _tabs_wrong(tabs, chain_length(chain), f"the {on} edge")
            yield from _on_corner(tabs, sides(chain if on == "bottom" else backward(chain), net.sharp), on)


def _on_corner(tabs: tuple[Tab, ...], walked: list[Chain], on: str) -> Iterator[Finding]:
    corners = [*accumulate(map(chain_length, walked))][:-1]
    if any(abs(tab.at - corner) < tab.width / 2 - 1e-9 for tab in tabs for corner in corners):
        says = f"A lug on the {on} edge stands over a corner, where the sheet is folded."
        yield warn("lug-on-corner", says, "Move the first one on with `first`, or fold the lug with the corner.")


def _tabs_wrong(tabs: tuple[Tab, ...], length: float, on: str) -> Iterator[Finding]:
    """Lugs past an end of their edge, or in one another."""
    inorder = sorted(tabs, key=lambda t: t.at)
    for tab in inorder:
        if tab.at - tab.width / 2 < 0.0 or tab.at + tab.width / 2 > length:
            says = f"A lug {told(tab.width)} wide does not stand clear of the ends of {on}, {told(length)}."
            yield stop("lug-too-wide", says, "Make it narrower, or move the first one with `first`.")
    for a, b in pairwise(inorder):
        if b.at - a.at < (a.width + b.width) / 2:
            yield stop("lugs-overlap", f"Two lugs on {on} overlap.", "Make them narrower or fewer.")


def lugs_wrong(middle: Surface, spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    """Lugs that do not stand on the walls of a pan, or on the rim of a bowl, that they are asked for."""
    if isinstance(middle, Bowl):
        rim, tabs = rim_tabs(middle, spec, rules)
        yield from _tabs_wrong(tabs, chain_length(rim), "the rim")
        if any(tab.width > disc_radius(middle) for tab in tabs):
            says = f"A lug is wider than half the disc, {told(disc_radius(middle))}."
            yield stop("lug-too-wide", says, "Make it narrower.")
    elif isinstance(middle, Pan):
        yield from _wall_lugs_wrong(middle, spec, rules)


def _wall_lugs_wrong(pan: Pan, spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    for wall, length, tabs in wall_tabs(pan, spec, rules):
        yield from _tabs_wrong(tabs, length, f"the {wall} wall")


def lugs_clash(net: Net, spec: SheetSpec, rules: SheetRules, covers: Range) -> bool:
    """Whether two lugs, each clear at its root, run into one another further out (on an edge that is hollow)."""
    from shapely.geometry import Polygon

    tabs = [Polygon(t) for rim in rims(net, spec, rules, covers) for t in rim.tabs]
    return any(a.intersects(b) for a, b in combinations(tabs, 2))


def overlaps(pattern: Pattern) -> Iterator[Finding]:
    """A pattern that lies over itself cannot be cut from one sheet."""
    if not to_shapely(pattern.outline, 2e-5).is_valid:
        says = f"The pattern {pattern.name} lies over itself on the flat."
        yield stop("pattern-overlaps-itself", says, "Split it (`parts: 2`), or make lugs and seams narrower.")


def holes_wrong(pattern: Pattern, spec: SheetSpec, net: Net | None = None) -> Iterator[Finding]:
    """Holes off the pattern, near its edge, in the seam of its net, or in one another."""
    outline = to_shapely(pattern.outline, 2e-5)
    for hole in pattern.holes:
        asked = next((h for h in spec.holes if (h.size, h.name) == (hole.size, hole.says)), None)
        found = [*_hole_wrong(hole, _inside(hole.centre, outline), asked is not None)]
        if asked is not None:
            found += [*_in_fold(hole, pattern, spec), *_past_middle(asked, spec)]
            found += _in_seam(hole, net, spec) if net is not None else ()
        if found:
            yield max(found, key=lambda f: f.weight).at(asked.where if asked else spec.seam.where)
    yield from _holes_apart(pattern.holes, spec.thick)


def _holes_apart(holes: tuple[PatternHole, ...], thick: float) -> Iterator[Finding]:
    for a, b in combinations(holes, 2):
        gap = hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1]) - (a.size + b.size) / 2
        if gap <= 0.0:
            yield stop("holes-overlap", f"Two holes of {told(a.size)} and {told(b.size)} run together.", "Move them.")
        elif gap < thick and not (_is_rivet(a) and _is_rivet(b)):
            yield warn("holes-close", f"Only {told(gap)} is left between two holes.", "Move them apart.")


def _inside(centre: tuple[float, float], outline: "Polygon") -> float:
    """How far a point lies from the outline [m]; outside it is less than nothing."""
    from shapely.geometry import Point

    point = Point(centre)
    return float(outline.exterior.distance(point)) * (1.0 if outline.contains(point) else -1.0)


def _hole_wrong(hole: PatternHole, inside: float, asked: bool) -> Iterator[Finding]:
    if inside < hole.size / 2:
        yield stop("hole-off-pattern", f"A hole of {told(hole.size)} runs off the sheet's edge.", "Move it in.")
    elif asked and inside < hole.size:
        says = f"A hole of {told(hole.size)} stands {told(inside)} from an edge, middle to edge."
        yield warn("hole-near-edge", says, "Keep its middle a whole diameter or more from an edge.")


def _in_fold(hole: PatternHole, pattern: Pattern, spec: SheetSpec) -> Iterator[Finding]:
    """A hole in a bend is pulled out of round, and cannot be drilled once the bend is made."""
    from shapely.geometry import LineString, Point

    point, surface = Point(hole.centre), spec.surface
    # A fold that is laid out sharp takes about a thickness.
    half = right_fold_half(surface.inside_radius, spec.thick) if isinstance(surface, Pan) else spec.thick
    bends = (LineString([n.line.start, n.line.end]) for n in pattern.lines if n.kind == "bend")
    if any(b.distance(point) < hole.size / 2 + half for b in bends):
        says = f"A hole of {told(hole.size)} stands in a fold, which pulls it out of round."
        yield warn("hole-in-fold", says, "Move it clear of the fold, or make it after folding.")


def _past_middle(asked: SheetHole, spec: SheetSpec) -> Iterator[Finding]:
    middle = on_middle(spec.surface, spec.thick, spec.sized)
    if isinstance(middle, Bowl) and asked.up > disc_radius(middle):
        says = f"A hole {told(asked.up)} in from the rim is past the middle of the disc, {told(disc_radius(middle))}."
        yield stop("hole-off-pattern", says, "Give `up` from the rim, along the sheet.")


def _in_seam(hole: PatternHole, net: Net, spec: SheetSpec) -> Iterator[Finding]:
    from shapely.geometry import LineString, Point

    point = Point(hole.centre)
    first, last = (float(LineString([e.start, e.end]).distance(point)) for e in (net.start, net.end))
    covered = spec.seam.width if spec.seam.kind in (*LAPS, SeamKind.GROOVED) else 0.0
    if covered and min(first - covered, last - covered * (spec.seam.kind is SeamKind.GROOVED)) < hole.size / 2:
        says = f"A hole of {told(hole.size)} lies in the {spec.seam.kind} seam."
        yield stop("hole-in-seam", says, "Move the first one on with `first`.")


def _is_rivet(hole: PatternHole) -> bool:
    return hole.says.startswith("rivet")


def folds_sharp(whole: Development, spec: SheetSpec, rules: SheetRules) -> tuple[Finding, ...]:
    """Folded skins are laid out with sharp folds on the middle of the sheet: how much a real radius takes up there.

    Bends that fan out from one corner count as one fold of their sum: that is how far the sheet turns at the corner.
    """
    sharpest = min(max((abs(sum(b.angle for b in fan)) for fan in fans(whole)), default=0.0), _SHARPEST)
    if not isinstance(spec.surface, Pyramid | Transition) or sharpest < SLIGHT:
        return ()
    radius = rules.smallest_radius * spec.thick
    over = sharp_over(radius, spec.thick, sharpest, rules.fold)
    says = f"Folds are laid out sharp; bent to an inside radius of {told(radius)} each "
    says += f"leaves up to {told(over)} over." if isinstance(spec.surface, Transition) else f"leaves {told(over)} over."
    return (note("folds-sharp", says, "Trim the last side to fit before the seam is closed."),)


_SHARPEST = radians(150)
