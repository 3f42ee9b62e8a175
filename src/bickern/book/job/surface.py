"""The shape of a sheet piece from its words."""

from collections.abc import Callable
from math import pi

from bickern.book.forms import Takes
from bickern.book.told import Told
from bickern.geometry.polygon import ArcSeg, Line, Loop, Point
from bickern.measure.finding import Finding
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    FlatOutline,
    Pan,
    Pyramid,
    Rim,
    RimShape,
    Surface,
    Transition,
)

WALLS = ("front", "back", "left", "right")
MOST_POINTS = 5000


def read_surface(told: Told) -> tuple[Surface | None, str]:
    """The surface, and of which surface its sizes are told."""
    outer = told.group_of("surface")
    if outer is None or not outer.which():
        return None, "mean"
    kind = outer.which()
    inner = outer.group_of(kind)
    if inner is None:
        return None, "mean"
    if kind != "outline" and not inner.has("sizes"):
        says = "are these sizes inside, outside or along the middle of the sheet? the pattern differs"
        inner.fault("which-surface", says, "add `sizes: inside`, `outside` or `mean`")
    sized = "mean" if kind == "outline" else inner.choice("sizes", "mean")
    return _SURFACES[kind](inner), sized


def _cone(told: Told) -> Surface | None:
    base, top, height = told.length("base"), told.any_length("top") or 0.0, told.length("height")
    offset = told.shift("offset")
    if top < 0:
        told.fault("negative-size", "a top cannot be smaller than a point", "write `top: 0`, or leave it out", "top")
    return None if base is None or height is None else Cone(base, top, height, offset)


def _cylinder(told: Told) -> Surface | None:
    across, height, cut = told.length("across"), told.length("height"), told.angle("cut") or 0.0
    if cut >= pi / 2:
        told.fault("too-big", "a cut of 90 degrees or more runs along the tube", "", "cut")
    return None if across is None or height is None else Cylinder(across, height, cut)


def _pyramid(told: Told) -> Surface | None:
    sides = told.count("sides", 4)
    base, top, height = told.sizes("base"), told.sizes("top") or (0.0,), told.length("height")
    offset = told.shift("offset")
    if sides < 3:
        told.fault("too-few-sides", "a pyramid has three sides or more", "write `cone:` for a round one", "sides")
    if base is not None and len(base) + len(top) > 2 and sides != 4:
        told.fault(
            "sizes", f"long x wide belongs to four sides; here are {sides}", "give one size across flats", "base"
        )
    if base is None or height is None:
        return None
    if len(base) + len(top) == 2:
        return Pyramid(sides, base[0], top[0], height, offset=offset)
    return Pyramid(sides, base[0], top[0], height, base[-1], top[-1], offset)


def _transition(told: Told) -> Surface | None:
    low, high, height = told.group_of("from"), told.group_of("to"), told.length("height")
    x, y = told.shift("offset")
    if low is None or high is None or height is None:
        return None
    below, above = _rim(low, (0.0, 0.0, 0.0)), _rim(high, (x, y, height))
    return None if below is None or above is None else Transition(below, above)


def _rim(told: Told, centre: tuple[float, float, float]) -> Rim | None:
    kind, tilt = told.which(), told.angle("tilt") or 0.0
    if kind in ("round", "square"):
        size = told.length(kind)
        shape = RimShape.CIRCLE if kind == "round" else RimShape.RECTANGLE
        return None if size is None else Rim(shape, size, size, centre, tilt)
    sizes = told.sizes(kind) if kind else None
    if sizes is None:
        return None
    if len(sizes) != 2:
        told.fault("sizes", f"`{kind}` takes two sizes", f"write `{kind}: 8 x 6`", kind)
    return Rim(RimShape.OVAL if kind == "oval" else RimShape.RECTANGLE, sizes[0], sizes[-1], centre, tilt)


def _pan(told: Told) -> Surface | None:
    long, wide, high = told.length("long"), told.length("wide"), told.length("high")
    walls = tuple(w.lower() for w in told.texts("walls")) or WALLS
    strange = next((w for w in walls if w not in WALLS), None)
    if strange is not None or len(set(walls)) != len(walls):
        says = f"`{strange[:60]}` is not a wall" if strange else "a wall is named twice"
        told.fault("not-a-choice", says, f"write some of: {', '.join(WALLS)}", "walls")
    radius, tabs = told.any_length("inside radius") or 0.0, told.any_length("corner tabs") or 0.0
    if radius < 0 or tabs < 0:
        told.fault("negative-size", "a size is less than nothing", "", "inside radius" if radius < 0 else "corner tabs")
    if long is None or wide is None or high is None:
        return None
    return Pan(long, wide, high, tuple(w for w in WALLS if w in walls), radius, tabs)


def _bowl(told: Told) -> Surface | None:
    rim, depth = told.length("rim"), told.length("depth")
    thinning = told.text("thinning", "equal area")
    if thinning != "equal area":
        told.fault("not-a-choice", f"`{thinning[:60]}` is not a way the metal moves that is reckoned here",
                   "write `equal area`, or leave it out", "thinning")  # fmt: skip
    return None if rim is None or depth is None else Bowl(rim, depth, thinning)


def _outline(told: Told) -> Surface | None:
    if told.has("file"):
        return _from_file(told)
    outer = _corners(told)
    holes = tuple(h for t in told.list_of("cut out") if (h := _cut_out(t)) is not None)
    return None if outer is None else FlatOutline(outer, holes)


def _from_file(told: Told) -> FlatOutline | None:
    from bickern.book.outline.read import read_outline

    name = told.text("file")
    units = told.choice("units", "") or None
    data = told.reading.fetch(name)
    if isinstance(data, Finding):
        told.reading.findings.append(Finding(data.name, data.says, data.try_this, data.weight, told.at("file")))
        return None
    return told.reading.take(read_outline(name, data, units), told.at("file"))


def _corners(told: Told) -> Loop | None:
    points = told.pairs("points", Takes.PAIRS)
    kept = tuple(p for i, p in enumerate(points) if p != points[i - 1])
    if len(kept) < 3 or len(kept) > MOST_POINTS or _in_a_row(kept):
        told.fault(
            "no-outline", f"these {len(points)} points do not go round anything", "give three corners or more", "points"
        )
        return None
    return loop_of(kept if _twice_area(kept) > 0 else (kept[0], *reversed(kept[1:])))


def _in_a_row(points: tuple[Point, ...]) -> bool:
    """Whether all corners lie on one straight. A bow tie goes round nothing too, but crosses itself: told elsewhere."""
    first = points[0]
    far = max(points, key=lambda p: (p[0] - first[0]) ** 2 + (p[1] - first[1]) ** 2)
    return all(abs(_twice_area((first, far, p))) < 1e-12 for p in points)


def _twice_area(points: tuple[Point, ...]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, (*points[1:], points[0]), strict=True))


def loop_of(points: tuple[Point, ...]) -> Loop:
    """The closed outline through these corners [m]."""
    return Loop(tuple(Line(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)))


def _cut_out(told: Told) -> Loop | None:
    if not told.has("round"):
        found = _corners(told)
        return (
            None
            if found is None
            else Loop(tuple(Line(s.end, s.start) for s in reversed(found.segs) if isinstance(s, Line)))
        )
    across, at = told.length("round"), told.pair("at")
    return None if across is None else Loop((ArcSeg(at, across / 2, 0.0, -2 * pi),))


_SURFACES: dict[str, Callable[[Told], Surface | None]] = {
    "cone": _cone, "cylinder": _cylinder, "pyramid": _pyramid, "transition": _transition,
    "pan": _pan, "bowl": _bowl, "outline": _outline,
}  # fmt: skip
