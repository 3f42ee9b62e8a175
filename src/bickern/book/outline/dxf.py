"""Outlines from DXF: lines, arcs, circles, polylines with bulges, splines and ellipses, in real units."""

import io
import logging
import math
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from bickern.book.outline.loops import FLAT, lines_through, outline_from
from bickern.geometry.polygon import ArcSeg, Line, Point, Seg
from bickern.measure.finding import Finding, note, stop, warn
from bickern.measure.units.words import FOOT, INCH, MILLIMETRE, Read
from bickern.parts.sheet.spec import FlatOutline

_UNITS = {1: INCH, 2: FOOT, 4: MILLIMETRE, 5: 0.01, 6: 1.0, 8: INCH * 1e-6, 9: INCH / 1000, 13: 1e-6, 14: 0.1}
"""`$INSUNITS` to metres (DXF reference, group code 70 of that header variable)."""
_NAMED = {"in": INCH, "mm": MILLIMETRE}
_READ = ("LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", "SPLINE", "ELLIPSE")
_SILENT = ("TEXT", "MTEXT", "DIMENSION", "POINT", "ATTDEF", "LEADER", "HATCH", "VIEWPORT")
MOST = 20_000


def read_dxf_outline(data: bytes, units: str | None = None) -> Read[FlatOutline]:
    """The closed outline drawn in model space [m]."""
    with _guesses() as guessed:
        document = _document(data)
    if isinstance(document, Finding):
        return Read(None, (document,))
    read = _outline_in(document, units)
    return Read(read.value, (*read.findings, *_guessed(guessed)))


class _Ear(logging.Handler):
    """Hears what is logged, and keeps it."""

    def __init__(self) -> None:
        super().__init__()
        self.says: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.says.append(record.getMessage())


@contextmanager
def _guesses() -> Iterator[list[str]]:
    """What the library says of a damaged drawing: it is heard here, and nothing a file holds is printed by it."""
    ear, speaks = _Ear(), logging.getLogger("ezdxf")
    speaks.addHandler(ear)
    before, speaks.propagate = speaks.propagate, False
    try:
        yield ear.says
    finally:
        speaks.propagate = before
        speaks.removeHandler(ear)


def _guessed(says: list[str]) -> Iterator[Finding]:
    guessed = sum("recovered invalid" in one for one in says)
    if guessed:
        yield warn("drawing-damaged", f"{guessed} numbers of this drawing cannot be read and were guessed at", _LOOK)


_LOOK = "measure what came out against the drawing, or save it again"


def _outline_in(document: Any, units: str | None) -> Read[FlatOutline]:
    entities = list(document.modelspace())
    if len(entities) > MOST:
        return Read(
            None, (stop("too-large", f"this drawing has {len(entities)} things in it", "keep the outline alone"),)
        )
    if not any(e.dxftype() in _READ for e in entities):
        return outline_from([])
    factor = _UNITS.get(int(document.header.get("$INSUNITS", 0) or 0)) or _NAMED.get(units or "")
    if factor is None:
        says = "this drawing does not say what its numbers mean"
        return Read(
            None, (stop("no-units", says, "set its units and save it again, or add `units: in` or `units: mm`"),)
        )
    segs: list[Seg] = []
    for entity in entities:
        if entity.dxftype() in _READ:
            segs += _segs(entity, factor)
    found = outline_from([s for s in segs if _finite(s)])
    strange = sorted({e.dxftype() for e in entities} - {*_READ, *_SILENT})
    skipped = (note("not-read", f"left out of the drawing: {', '.join(strange)[:80]}"),) if strange else ()
    return Read(found.value, (*found.findings, *skipped))


def _document(data: bytes) -> Any:
    """The drawing, or the finding that it is none. Whatever the library raises for a bad file is the file's fault."""
    from ezdxf import recover
    from ezdxf.lldxf.const import DXFError

    try:
        document, _ = recover.read(io.BytesIO(data))
    except (
        DXFError,
        OSError,
        ValueError,
        KeyError,
        IndexError,
        TypeError,
        AttributeError,
        OverflowError,
        EOFError,
    ) as bad:
        says = f"this is not a DXF drawing that can be read ({type(bad).__name__})"
        return stop("not-a-drawing", says, "save it again as ASCII DXF, R2000 or later")
    return document


def _finite(seg: Seg) -> bool:
    values = (*seg.start, *seg.end) if isinstance(seg, Line) else (*seg.centre, seg.radius, seg.start_angle, seg.sweep)
    return all(math.isfinite(v) and abs(v) < 1e4 for v in values)


def _segs(entity: Any, factor: float) -> list[Seg]:
    """One entity as lines and arcs [m]."""
    try:
        return _READERS[entity.dxftype()](entity, factor)
    except (ValueError, TypeError, ZeroDivisionError, AttributeError, IndexError, OverflowError):
        # a drawing may hold entities without sense (a spline without points): they draw nothing
        return []


def _point(vector: Any, factor: float) -> Point:
    return float(vector.x) * factor, float(vector.y) * factor


def _line(entity: Any, factor: float) -> list[Seg]:
    return lines_through([_point(entity.dxf.start, factor), _point(entity.dxf.end, factor)])


def _arc(entity: Any, factor: float) -> list[Seg]:
    start, end = math.radians(entity.dxf.start_angle), math.radians(entity.dxf.end_angle)
    sweep = (end - start) % (2 * math.pi) or 2 * math.pi
    centre, flipped = _point(entity.ocs().to_wcs(entity.dxf.center), factor), entity.dxf.extrusion.z < 0
    radius = entity.dxf.radius * factor
    return [ArcSeg(centre, radius, math.pi - start, -sweep) if flipped else ArcSeg(centre, radius, start, sweep)]


def _circle(entity: Any, factor: float) -> list[Seg]:
    centre = _point(entity.ocs().to_wcs(entity.dxf.center), factor)
    return [ArcSeg(centre, entity.dxf.radius * factor, 0.0, 2 * math.pi)]


def _polyline(entity: Any, factor: float) -> list[Seg]:
    """Pieces of a polyline; a bulge is the tangent of a quarter of the arc's angle (DXF reference)."""
    segs: list[Seg] = []
    for piece in entity.virtual_entities():
        segs += _segs(piece, factor)
    return segs


def _flattened(entity: Any, factor: float) -> list[Seg]:
    points = [_point(v, factor) for v in entity.flattening(FLAT / factor)]
    return lines_through(points)


_READERS = {
    "LINE": _line, "ARC": _arc, "CIRCLE": _circle, "LWPOLYLINE": _polyline, "POLYLINE": _polyline,
    "SPLINE": _flattened, "ELLIPSE": _flattened,
}  # fmt: skip
