"""A sheet piece written out as words."""

from math import pi
from typing import Any

from bickern.book.job.print_bar import first_text
from bickern.book.job.say import angle_text, length_text, sizes_text
from bickern.geometry.polygon import ArcSeg, Line, Loop, Point
from bickern.measure.units.words import System
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    EdgeKind,
    FlatOutline,
    Lug,
    Pan,
    Pyramid,
    Rim,
    RimShape,
    Seam,
    SeamKind,
    SheetSpec,
    Surface,
    Transition,
)

Words = dict[str, Any]
_NEAR = 2e-5
"""[m] How far points stand off an arc that is written as points."""


def sheet_words(spec: SheetSpec, system: System | None) -> Words:
    """All words of a sheet piece."""
    name, inner = _surface(spec.surface, system)
    if name != "outline":
        inner["sizes"] = str(spec.sized)
    return {
        "sheet": spec.gauge or length_text(spec.thick, system), "steel": spec.steel, "coating": spec.coating,
        "surface": {name: {w: v for w, v in inner.items() if v != ""}}, "seam": _seam(spec.seam, system),
        "edges": [
            {"on": e.on, str(e.kind): "yes" if e.kind is EdgeKind.RAW else length_text(e.size, system)}
            for e in spec.edges
        ],
        "lugs": [_lug(lug, system) for lug in spec.lugs],
        "holes": [
            {"size": length_text(h.size, system), "up": length_text(h.up, system), "divide": str(h.number),
             "first": first_text(h.first), "name": h.name} for h in spec.holes
        ],
        "parts": "" if spec.parts == 1 else str(spec.parts),
        "cut from": [{"size": sizes_text((o.wide, o.high), system), "coating": o.coating} for o in spec.offered],
        "hot": "yes" if spec.hot else "", "make": "" if spec.make == 1 else str(spec.make),
    }  # fmt: skip


def _seam(seam: Seam, system: System | None) -> Words:
    if seam.kind in (SeamKind.NONE, SeamKind.BUTT):
        return {str(seam.kind): "yes"}
    riveted = seam.kind is SeamKind.RIVETED
    return {
        str(seam.kind): length_text(seam.width, system),
        "rivets": length_text(seam.rivet, system) if riveted else "",
        "pitch": length_text(seam.pitch, system) if riveted else "",
    }


def _lug(lug: Lug, system: System | None) -> Words:
    kind, size = ("eye", lug.eye) if lug.eye else ("flat", lug.length)
    return {
        kind: length_text(size, system), "width": length_text(lug.width, system), "on": lug.on,
        "divide": str(lug.number), "first": first_text(lug.first), "name": lug.name,
    }  # fmt: skip


def _surface(surface: Surface, system: System | None) -> tuple[str, Words]:
    def size(metres: float) -> str:
        return length_text(metres, system) if metres else ""

    if isinstance(surface, Cone):
        inner = {"base": size(surface.base), "top": size(surface.top), "height": size(surface.height)}
        return "cone", {**inner, "offset": _pair(surface.offset, system)}
    if isinstance(surface, Cylinder):
        cut = angle_text(surface.cut) if surface.cut else ""
        return "cylinder", {"across": size(surface.across), "height": size(surface.height), "cut": cut}
    if isinstance(surface, Bowl):
        return "bowl", {"rim": size(surface.rim), "depth": size(surface.depth), "thinning": surface.thinning}
    if isinstance(surface, Pan):
        return "pan", {
            "long": size(surface.long), "wide": size(surface.wide), "high": size(surface.high),
            "walls": list(surface.walls), "inside radius": size(surface.inside_radius),
            "corner tabs": size(surface.corner_tabs),
        }  # fmt: skip
    if isinstance(surface, Pyramid):
        return "pyramid", _pyramid(surface, system)
    return (
        ("transition", _transition(surface, system))
        if isinstance(surface, Transition)
        else ("outline", _outline(surface, system))
    )


def _pair(pair: tuple[float, float], system: System | None) -> Any:
    return "" if pair == (0.0, 0.0) else [length_text(v, system) for v in pair]


def _pyramid(surface: Pyramid, system: System | None) -> Words:
    long = surface.base_long is not None
    base = (surface.base, surface.base_long or 0.0) if long else (surface.base,)
    top = (surface.top, surface.top_long or 0.0) if long else (surface.top,)
    return {
        "sides": str(surface.sides), "base": sizes_text(base, system),
        "top": sizes_text(top, system) if surface.top else "", "height": length_text(surface.height, system),
        "offset": _pair(surface.offset, system),
    }  # fmt: skip


def _transition(surface: Transition, system: System | None) -> Words:
    x, y, height = surface.high.centre
    return {
        "from": _rim(surface.low, system), "to": _rim(surface.high, system),
        "height": length_text(height, system), "offset": _pair((x, y), system),
    }  # fmt: skip


def _rim(rim: Rim, system: System | None) -> Words:
    tilt = {"tilt": angle_text(rim.tilt)} if rim.tilt else {}
    if rim.shape is RimShape.CIRCLE:
        return {"round": length_text(rim.across, system), **tilt}
    return {str(rim.shape): sizes_text((rim.across, rim.long), system), **tilt}


def _outline(surface: FlatOutline, system: System | None) -> Words:
    return {
        "points": [[length_text(v, system) for v in p] for p in _points(surface.outer)],
        "cut out": [_cut_out(hole, system) for hole in surface.holes],
    }


def _cut_out(hole: Loop, system: System | None) -> Words:
    first = hole.segs[0]
    if len(hole.segs) == 1 and isinstance(first, ArcSeg):
        return {"round": length_text(2 * first.radius, system), "at": [length_text(v, system) for v in first.centre]}
    start, *rest = _points(hole)
    return {"points": [[length_text(v, system) for v in p] for p in (start, *reversed(rest))]}


def _points(loop: Loop) -> tuple[Point, ...]:
    """The corners, and points along arcs near enough together."""
    from math import acos, ceil, cos, sin

    found: list[Point] = []
    for seg in loop.segs:
        if isinstance(seg, Line):
            found.append(seg.start)
            continue
        step = 2 * acos(1 - min(_NEAR / seg.radius, 0.5))
        n = max(1, ceil(abs(seg.sweep) / step), 3 if abs(seg.sweep) > pi else 1)
        angles = (seg.start_angle + seg.sweep * i / n for i in range(n))
        found += [(seg.centre[0] + seg.radius * cos(a), seg.centre[1] + seg.radius * sin(a)) for a in angles]
    return tuple(found)
