"""The DXF pen: real units, one layer a meaning, true arcs, dimensions that a drawing program can still move."""

import math
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO, TextIOWrapper
from typing import TYPE_CHECKING

from bickern.measure.units.words import INCH, MILLIMETRE, System
from bickern.paper.glyphs import plain
from bickern.paper.marks import (
    STROKES,
    Anchor,
    Arc,
    Dimension,
    Drawing,
    Filled,
    Layer,
    Line,
    Mark,
    Plain,
    Point,
    Polyline,
    Text,
    Tone,
)

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

INSUNITS = {System.INCH: 1, System.MM: 4}
"""Codes of `$INSUNITS` in the DXF reference: inches, millimetres."""
UNIT = {System.INCH: INCH, System.MM: MILLIMETRE}
"""Metres in one drawing unit."""
BLACK = 7
"""The colour number that is black on white paper and white on a black screen."""


def dxf(picture: Drawing, units: System = System.MM, dimensions: bool = True) -> bytes:
    """The drawing as a DXF file (release 2010), its lower left corner at the origin; the same drawing, the same bytes.

    Dimensions stay dimensions unless `dimensions` is false: then they come as lines and lettering.
    """
    from ezdxf.filemanagement import new

    with _fixed_dates():
        document = new("R2010", setup=False)
        document.header["$INSUNITS"] = INSUNITS[units]
        document.header["$MEASUREMENT"] = 1 if units is System.MM else 0
        pen = _Pen(document.modelspace(), UNIT[units], (picture.bounds.left, picture.bounds.bottom))
        _layers(document, pen)
        for mark in picture.marks:
            if isinstance(mark, Dimension) and dimensions:
                pen.dimension(mark)
            else:
                pen.pieces(mark)
        return _written(document)


@contextmanager
def _fixed_dates() -> Iterator[None]:
    """Files made meanwhile carry fixed dates and names instead of today's; the library's setting is put back."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _layers(document: "Document", pen: "_Pen") -> None:
    """One layer for each meaning, with its weight and, where it is dashed, its own line type."""
    for layer in Layer:
        stroke, name = STROKES[layer], layer.name
        attributes: dict[str, object] = {"color": BLACK, "lineweight": _weight(stroke.width), "linetype": "Continuous"}
        if stroke.dash:
            parts = [pen.size(part) * (1 if i % 2 == 0 else -1) for i, part in enumerate(stroke.dash)]
            document.linetypes.add(f"{name}_LINE", [sum(map(abs, parts)), *parts], description=f"{layer.value} lines")
            attributes["linetype"] = f"{name}_LINE"
        document.layers.add(name).update_dxf_attribs(attributes)


def _weight(width: float) -> int:
    """The nearest line weight that the format knows [1/100 mm]."""
    from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS

    wanted = width / MILLIMETRE * 100
    return min(VALID_DXF_LINEWEIGHTS, key=lambda known: abs(known - wanted))


def _written(document: "Document") -> bytes:
    """The file's bytes, line ends the same on every system."""
    for kind in sorted(document.entitydb.dxf_types_in_use()):  # the library goes through them in a new order each run
        document.classes.add_class(kind)
    buffer = BytesIO()
    stream = TextIOWrapper(buffer, encoding=document.output_encoding, errors="dxfreplace", newline="\n")
    document.write(stream)
    stream.flush()
    return buffer.getvalue()


class _Pen:
    """Puts marks into a model space, in drawing units from the drawing's corner."""

    def __init__(self, space: "Modelspace", unit: float, corner: Point) -> None:
        self.space = space
        self.unit = unit
        self.corner = corner

    def size(self, metres: float) -> float:
        return metres / self.unit

    def at(self, point: Point) -> Point:
        return ((point[0] - self.corner[0]) / self.unit, (point[1] - self.corner[1]) / self.unit)

    def pieces(self, mark: Mark) -> None:
        for piece in plain((mark,)):
            self.put(piece)

    def put(self, mark: Plain) -> None:
        on = {"layer": mark.layer.name}
        match mark:
            case Line():
                self.space.add_line(self.at(mark.start), self.at(mark.end), dxfattribs=on)
            case Arc():
                self.arc(mark)
            case Polyline():
                points = [self.at(point) for point in mark.points]
                self.space.add_lwpolyline(points, close=mark.closed, dxfattribs=on)
            case Filled():
                self.filled(mark)
            case Text():
                self.text(mark)

    def arc(self, mark: Arc) -> None:
        on, centre, radius = {"layer": mark.layer.name}, self.at(mark.centre), self.size(mark.radius)
        if abs(mark.sweep) >= 2 * math.pi - 1e-9:
            self.space.add_circle(centre, radius, dxfattribs=on)
            return
        first, last = sorted((mark.start, mark.start + mark.sweep))
        self.space.add_arc(centre, radius, math.degrees(first), math.degrees(last), dxfattribs=on)

    def filled(self, mark: Filled) -> None:
        if mark.tone is not Tone.BLACK:  # what is blanked out on paper has no meaning for a cutting table
            return
        hatch = self.space.add_hatch(color=BLACK, dxfattribs={"layer": mark.layer.name})
        hatch.paths.add_polyline_path([self.at(point) for point in mark.points], is_closed=True)

    def text(self, mark: Text) -> None:
        from ezdxf.enums import TextEntityAlignment

        place = {
            Anchor.START: TextEntityAlignment.LEFT,
            Anchor.MIDDLE: TextEntityAlignment.CENTER,
            Anchor.END: TextEntityAlignment.RIGHT,
        }[mark.anchor]
        attributes = {"layer": mark.layer.name, "rotation": math.degrees(mark.angle)}
        letters = self.space.add_text(dxf_words(mark.says), height=self.size(mark.height), dxfattribs=attributes)
        letters.set_placement(self.at(mark.at), align=place)

    def dimension(self, mark: Dimension) -> None:
        if mark.start == mark.end:
            return
        look = {"dimtxt": self.size(mark.height), "dimasz": self.size(0.003), "dimexe": self.size(0.0015)}
        look |= {"dimexo": self.size(0.001), "dimgap": self.size(0.001), "dimtad": 1, "dimclrd": BLACK}
        placed = self.space.add_aligned_dim(
            self.at(mark.start),
            self.at(mark.end),
            self.size(mark.offset),
            text=dxf_words(mark.says).replace("<>", "< >"),
            dimstyle="Standard",
            override=look,
            dxfattribs={"layer": mark.layer.name},
        )
        placed.render()


def dxf_words(says: str) -> str:
    """Lettering without the signs that the format reads as commands; control signs become spaces."""
    spaced = "".join(sign if sign.isprintable() else " " for sign in says)
    return spaced.replace("%%", "% %").replace("\\", "/").replace("{", "(").replace("}", ")").replace("^", "^ ")
