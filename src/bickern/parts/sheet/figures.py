"""The numbers that a smith lays the pattern out with, named in shop words."""

from math import cos, hypot, pi, sin, tan

from bickern.geometry.develop.turned import FAR_APEX, cone_sizes
from bickern.measure.figure import Figure
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.chain import chain_length
from bickern.parts.sheet.flats import cap_volume, disc_radius
from bickern.parts.sheet.net import Net
from bickern.parts.sheet.neutral import ball_radius, moved_bowl, moved_cone
from bickern.parts.sheet.pan import flat_sizes, fold_of
from bickern.parts.sheet.rims import allowance, lug_length
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, Pan, Pyramid, SeamKind, SheetSpec, Surface, Transition
from bickern.parts.sheet.trim import Shares, shares


def figures_of(spec: SheetSpec, middle: Surface, nets: tuple[Net, ...], rules: SheetRules) -> tuple[Figure, ...]:
    """Figures of the surface, then of its allowances. `middle` has mean sizes (a pan: outside sizes)."""
    found: list[Figure] = []
    if isinstance(middle, Cone):
        found += _cone(middle, nets, spec.thick)
    elif isinstance(middle, Cylinder):
        found += _cylinder(middle, nets, spec.thick)
    elif isinstance(middle, Pyramid):
        found += _pyramid(middle) or _rims(nets)
    elif isinstance(middle, Transition):
        found += _rims(nets)
    elif isinstance(middle, Pan):
        found += _pan(middle, spec.thick, rules)
    elif isinstance(middle, Bowl):
        found += _bowl(middle, spec.thick)
    return (*found, *_allowances(spec, rules))


def _cone(cone: Cone, nets: tuple[Net, ...], thick: float) -> list[Figure]:
    slant, large, small, angle = cone_sizes_of(cone)
    hollow = Figure("holds, level full", cone_volume(moved_cone(cone, -thick / 2)), "m3")
    if cone.offset != (0.0, 0.0):
        return [*_rims(nets), hollow]
    found = [Figure("slant", slant, "m"), Figure("large radius R", large, "m")]
    if small > 0.0:
        found.append(Figure("small radius r", small, "m"))
    found.append(Figure("angle", angle, "rad"))
    if len(nets) > 1:
        found.append(Figure("angle of each part", angle / len(nets), "rad"))
    part = angle / len(nets)
    found += _chords(large, small, part)
    found += _evenly(large, small, part)
    if large > FAR_APEX * cone.base:
        found += [Figure("rise of the outer arc over its chord", 2 * large * sin(part / 4) ** 2, "m")]
    return [*found, hollow]


def cone_sizes_of(cone: Cone) -> tuple[float, float, float, float]:
    """Slant, large and small radius [m] and angle [rad] of a right cone's pattern: R = slant x base/(base - top)."""
    sizes = cone_sizes(cone.base / 2, cone.top / 2, cone.height)
    return sizes.slant, sizes.outer, sizes.inner, sizes.angle


def _evenly(large: float, small: float, angle: float) -> list[Figure]:
    """The box [m] round a sector that is laid evenly about its middle line, which is how it is struck on a sheet."""
    half = angle / 2
    wide = 2 * large * (sin(half) if half < pi / 2 else 1.0)
    low = (small if half < pi / 2 else large) * cos(half)
    return [Figure("laid evenly, wide", wide, "m"), Figure("laid evenly, high", large - low, "m")]


def _chords(large: float, small: float, angle: float) -> list[Figure]:
    found = [Figure("chord of the outer arc", 2 * large * sin(angle / 2), "m")]
    if small > 0.0:
        found.append(Figure("chord of the inner arc", 2 * small * sin(angle / 2), "m"))
    return found


def cone_volume(cone: Cone) -> float:
    """What a frustum holds [m3]: pi h (a^2 + a b + b^2)/3."""
    a, b = cone.base / 2, cone.top / 2
    return pi * cone.height * (a * a + a * b + b * b) / 3


def _cylinder(c: Cylinder, nets: tuple[Net, ...], thick: float) -> list[Figure]:
    found = [Figure("round, length flat", pi * c.across, "m")]
    if len(nets) > 1:
        found.append(Figure("length flat of each part", pi * c.across / len(nets), "m"))
    drop = c.across / 2 * abs(tan(c.cut))
    if drop:
        found += [Figure("height at the short side", c.height - drop, "m")]
        found += [Figure("height at the long side", c.height + drop, "m")]
    # Standing level it runs over at its short side.
    return [*found, Figure("holds, level full", pi / 4 * (c.across - thick) ** 2 * (c.height - drop), "m3")]


def _pyramid(p: Pyramid) -> list[Figure]:
    if p.offset != (0.0, 0.0):
        return []
    found = [Figure("slant in the middle of a side", hypot((p.base - p.top) / 2, p.height), "m")]
    if p.base_long is not None:
        run = (p.base_long - (p.top_long or p.top)) / 2
        corner = hypot((p.base - p.top) / 2, run, p.height)
        found += [Figure("slant in the middle of an end", hypot(run, p.height), "m")]
        return [*found, Figure("length of a corner", corner, "m")]
    edge = hypot((p.base - p.top) / 2 / cos(pi / p.sides), p.height)
    across = 2 * (p.base / 2) * tan(pi / p.sides)
    return [*found, Figure("length of a corner", edge, "m"), Figure("side at the base", across, "m")]


def _rims(nets: tuple[Net, ...]) -> list[Figure]:
    """Girths of both openings, to be checked with a tape before the seam is closed."""
    low, high = (sum(chain_length(getattr(n, on)) for n in nets) for on in ("bottom", "top"))
    found = [Figure("bottom edge, length", low, "m")]
    return [*found, Figure("top edge, length", high, "m")] if high > 0.0 else found


def _pan(pan: Pan, thick: float, rules: SheetRules) -> list[Figure]:
    fold = fold_of(pan, thick, rules)
    wide, long = flat_sizes(pan, fold)
    found = [
        Figure("flat, left to right", wide, "m"),
        Figure("flat, front to back", long, "m"),
        Figure("bend deduction, each fold", fold.deduction, "m"),
        Figure("inside radius of the folds", fold.radius, "m"),
        Figure("wall on the flat, from the middle of the bend", pan.high - fold.setback + fold.length / 2, "m"),
    ]
    if set(pan.walls) >= {"front", "back", "left", "right"}:
        inside = (pan.wide - 2 * thick) * (pan.long - 2 * thick) * (pan.high - thick)
        found.append(Figure("holds, level full (corners sharp)", inside, "m3"))
    return found


def _bowl(bowl: Bowl, thick: float) -> list[Figure]:
    inside = moved_bowl(bowl, -thick / 2)
    return [
        Figure("disc", 2 * disc_radius(bowl), "m"),
        Figure("radius of the hollow", ball_radius(inside), "m"),
        Figure("holds, level full", cap_volume(inside.rim, inside.depth), "m3"),
        # what a book that takes the sheet as nothing would say
        Figure("the same by mean sizes", cap_volume(bowl.rim, bowl.depth), "m3"),
    ]


def _allowances(spec: SheetSpec, rules: SheetRules) -> list[Figure]:
    found = [Figure("thickness", spec.thick, "m")]
    added = shares(spec.seam, spec.thick, rules)
    if added != Shares():
        found += _seam(spec.seam.kind, added)
    edges = ((e, allowance(e, rules, spec.thick)) for e in spec.edges)
    found += [Figure(f"{e.kind} edge, {e.on}, added", extra, "m") for e, extra in edges if extra > 0.0]
    found += [Figure(f"lug, flat length{_of(n.name)}", lug_length(n, spec.thick, rules), "m") for n in spec.lugs]
    return found


def _seam(kind: SeamKind, added: Shares) -> list[Figure]:
    if not added.start:
        return [Figure(f"{kind}, added", added.end, "m")]
    found = [Figure(f"{kind} seam, added in all", added.start + added.end, "m")]
    return [*found, Figure("on the one edge", added.start, "m"), Figure("on the other edge", added.end, "m")]


def _of(name: str) -> str:
    return f", {name}" if name else ""
