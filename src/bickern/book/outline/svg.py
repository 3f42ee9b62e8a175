"""Outlines from SVG: paths, rectangles, circles, ellipses, lines and polygons, with transforms, in real units."""

import math
import re
from xml.etree import ElementTree

from bickern.book.outline.loops import lines_through, outline_from
from bickern.book.outline.svg_path import DrawingError, Matrix, path_segs, points_in
from bickern.geometry.polygon import Seg
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import INCH, MILLIMETRE, Read
from bickern.parts.sheet.spec import FlatOutline

_UNITS = {"mm": MILLIMETRE, "cm": 0.01, "in": INCH, "pt": INCH / 72, "pc": INCH / 6, "q": MILLIMETRE / 4, "m": 1.0}
"""Absolute units (CSS Values, section 6.2). `px` and bare numbers are not real sizes: they are asked about."""
_IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
_SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
_HIDDEN = ("defs", "clipPath", "mask", "symbol", "pattern", "marker", "metadata", "text", "title", "desc", "style")
DEEPEST = 40
MOST = 5000


def read_svg_outline(data: bytes, units: str | None = None) -> Read[FlatOutline]:
    """The closed outline [m], y turned up. The file must say its width with a real unit, else `units` serves."""
    root = _root(data)
    if isinstance(root, Finding):
        return Read(None, (root,))
    scale = _scale(root, units)
    if scale is None:
        says = "this drawing does not say its size in inches or millimetres"
        return Read(None, (stop("no-units", says, 'give it width="... mm", or add `units: in` or `units: mm`'),))
    try:
        segs = _walk(root, scale, 0)
    except DrawingError as bad:
        return Read(None, (stop("not-a-drawing", str(bad), "save it again as plain SVG"),))
    return outline_from(segs)


def _root(data: bytes) -> ElementTree.Element | Finding:
    if re.search(rb"<!\s*(DOCTYPE|ENTITY)[^>]*\[|<!\s*ENTITY", data, re.IGNORECASE):
        # entities that name one another can grow without end
        return stop("not-a-drawing", "this SVG defines entities of its own", "save it again as plain SVG")
    try:
        root = ElementTree.fromstring(data)
    except (ElementTree.ParseError, ValueError, LookupError) as bad:
        return stop("not-a-drawing", f"this is not an SVG drawing that can be read ({str(bad)[:60]})", "save it again")
    return root if _name(root) == "svg" else stop("not-a-drawing", "this is XML, but not SVG", "save it as SVG")


def _name(element: ElementTree.Element) -> str:
    return element.tag.rpartition("}")[2] if isinstance(element.tag, str) else ""


def _scale(root: ElementTree.Element, units: str | None) -> Matrix | None:
    """From the drawing's numbers to metres, y up: width and viewBox, or the unit told where there is no viewBox."""
    width, height = _size(root.get("width")), _size(root.get("height"))
    box = [float(v) for v in re.findall(r"[-+]?[\d.]+(?:e[-+]?\d+)?", root.get("viewBox", "")) if _is_number(v)]
    if len(box) == 4 and box[2] > 0 and box[3] > 0 and (width or height):
        factor = min(w for w in (width / box[2] if width else None, height / box[3] if height else None) if w)
        return (factor, 0.0, 0.0, -factor, -box[0] * factor, (box[1] + box[3]) * factor)
    told = {"in": INCH, "mm": MILLIMETRE}.get(units or "")
    if told is not None:
        return (told, 0.0, 0.0, -told, 0.0, 0.0)
    return (INCH / 96, 0.0, 0.0, -INCH / 96, 0.0, 0.0) if width or height else None


def _is_number(text: str) -> bool:
    try:
        return math.isfinite(float(text))
    except ValueError:
        return False


def _size(text: str | None) -> float | None:
    """A length with a real unit [m]."""
    found = re.fullmatch(r"\s*([\d.]+)\s*([a-zA-Z]+)\s*", text or "")
    if found is None or found.group(2).lower() not in _UNITS or not _is_number(found.group(1)):
        return None
    return float(found.group(1)) * _UNITS[found.group(2).lower()] or None


def _walk(element: ElementTree.Element, matrix: Matrix, depth: int) -> list[Seg]:
    if depth > DEEPEST:
        raise DrawingError("groups inside groups too deep")
    name = _name(element)
    if name in _HIDDEN or element.get("display") == "none":
        return []
    here = matrix if depth == 0 else times(matrix, transform(element.get("transform", "")))
    segs = _shape(name, element, here) if name in _SHAPES else []
    for inner in element:
        segs += _walk(inner, here, depth + 1)
        if len(segs) > 4 * MOST:
            raise DrawingError("too many lines")
    return segs


def times(a: Matrix, b: Matrix) -> Matrix:
    """First b, then a."""
    return (
        a[0] * b[0] + a[2] * b[1], a[1] * b[0] + a[3] * b[1], a[0] * b[2] + a[2] * b[3], a[1] * b[2] + a[3] * b[3],
        a[0] * b[4] + a[2] * b[5] + a[4], a[1] * b[4] + a[3] * b[5] + a[5],
    )  # fmt: skip


def transform(text: str) -> Matrix:
    """A `transform` attribute as one matrix."""
    found = _IDENTITY
    for name, inside in re.findall(r"(\w+)\s*\(([^()]*)\)", text[:2000]):
        found = times(found, _one_transform(name, points_in(inside)))
    return found


def _one_transform(name: str, v: list[float]) -> Matrix:
    if name == "matrix" and len(v) == 6:
        return (v[0], v[1], v[2], v[3], v[4], v[5])
    if name == "translate" and v:
        return (1.0, 0.0, 0.0, 1.0, v[0], v[1] if len(v) > 1 else 0.0)
    if name == "scale" and v:
        return (v[0], 0.0, 0.0, v[1] if len(v) > 1 else v[0], 0.0, 0.0)
    if name == "rotate" and v:
        c, s = math.cos(math.radians(v[0])), math.sin(math.radians(v[0]))
        x, y = (v[1], v[2]) if len(v) == 3 else (0.0, 0.0)
        return (c, s, -s, c, x - c * x + s * y, y - s * x - c * y)
    if name in ("skewX", "skewY") and v:
        t = math.tan(math.radians(v[0]))
        return (1.0, 0.0, t, 1.0, 0.0, 0.0) if name == "skewX" else (1.0, t, 0.0, 1.0, 0.0, 0.0)
    raise DrawingError(f"the transform `{name[:20]}` cannot be read")


def _shape(name: str, element: ElementTree.Element, matrix: Matrix) -> list[Seg]:
    def number(key: str) -> float:
        found = points_in(element.get(key, "0"))
        return found[0] if found else 0.0

    if name == "path":
        return path_segs(element.get("d", ""), matrix)
    if name in ("polygon", "polyline"):
        v = points_in(element.get("points", ""))
        points = [_at(matrix, x, y) for x, y in zip(v[::2], v[1::2], strict=False)]
        return lines_through(points, name == "polygon")
    if name == "line":
        return lines_through([_at(matrix, number("x1"), number("y1")), _at(matrix, number("x2"), number("y2"))])
    if name == "rect":
        return path_segs(_rect(number("x"), number("y"), number("width"), number("height"), element), matrix)
    rx = number("r") or number("rx")
    return path_segs(_round(number("cx"), number("cy"), rx, number("r") or number("ry")), matrix)


def _at(m: Matrix, x: float, y: float) -> tuple[float, float]:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]


def _round(x: float, y: float, rx: float, ry: float) -> str:
    if rx <= 0 or ry <= 0:
        return ""
    return f"M{x - rx!r} {y!r}A{rx!r} {ry!r} 0 0 0 {x + rx!r} {y!r}A{rx!r} {ry!r} 0 0 0 {x - rx!r} {y!r}Z"


def _rect(x: float, y: float, w: float, h: float, element: ElementTree.Element) -> str:
    if w <= 0 or h <= 0:
        return ""
    given = [points_in(element.get(k, "")) for k in ("rx", "ry")]
    rx, ry = (g[0] if g else (o[0] if o else 0.0) for g, o in (given, given[::-1]))
    rx, ry = min(rx, w / 2), min(ry, h / 2)
    if rx <= 0 or ry <= 0:
        return f"M{x!r} {y!r}h{w!r}v{h!r}h{-w!r}Z"
    arc = f"a{rx!r} {ry!r} 0 0 1"
    return (
        f"M{x + rx!r} {y!r}h{w - 2 * rx!r}{arc} {rx!r} {ry!r}v{h - 2 * ry!r}{arc} {-rx!r} {ry!r}"
        f"h{2 * rx - w!r}{arc} {-rx!r} {-ry!r}v{2 * ry - h!r}{arc} {rx!r} {-ry!r}Z"
    )
