"""A flat outline from a drawing file, by the ending of its name."""

from bickern.book.outline.dxf import read_dxf_outline
from bickern.book.outline.svg import read_svg_outline
from bickern.measure.finding import stop
from bickern.measure.units.words import Read
from bickern.parts.sheet.spec import FlatOutline

LARGEST = 5_000_000
"""Bytes: a larger drawing is not the outline of a piece."""


def read_outline(name: str, data: bytes, units: str | None = None) -> Read[FlatOutline]:
    """The outline [m]; `units` (in or mm) serves where the file does not say what its numbers mean."""
    if len(data) > LARGEST:
        says = f"`{name}` is {len(data) / 1e6:.0f} MB: too large for an outline"
        return Read(None, (stop("too-large", says, "keep the outline alone in the file"),))
    ending = name.lower().rpartition(".")[2]
    if ending == "dxf":
        return read_dxf_outline(data, units)
    if ending == "svg":
        return read_svg_outline(data, units)
    return Read(None, (stop("unknown-file", f"`{name}` is neither DXF nor SVG", "save it as one of them"),))
