"""Paper sizes, and the one place where pages are set and made into a PDF.

Text that a person wrote never reaches the page setter as markup: it goes in through `literal`, as a string.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from bickern.measure.source import Kind, Source
from bickern.measure.units.words import INCH, MILLIMETRE
from bickern.paper.marks import Box, Drawing
from bickern.paper.pens.svg import TYPEFACE, Rounds, svg

MARGIN = 0.010
"""What a printer in a home cannot be trusted to print along each edge [m]."""
MARGIN_SOURCE = Source(
    "", "most home printers leave 3 to 6 mm unprinted, some 13 mm at the foot", None, "", Kind.MEMORY
)

PAPER_SOURCE = Source("ISO; ANSI", "ISO 216 A sizes; ANSI/ASME Y14.1 letter", None, "", Kind.MEMORY)


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper as it is fed: `width` by `height` [m]."""

    name: str
    width: float
    height: float

    @property
    def printable(self) -> Box:
        """What can be printed on, the lower left corner of the sheet being the origin [m]."""
        return Box(MARGIN, MARGIN, self.width - MARGIN, self.height - MARGIN)


LETTER = Paper("letter", 8.5 * INCH, 11 * INCH)
LEGAL = Paper("legal", 8.5 * INCH, 14 * INCH)
A4 = Paper("a4", 0.210, 0.297)
A3 = Paper("a3", 0.297, 0.420)
PAPERS: dict[str, Paper] = {paper.name: paper for paper in (LETTER, LEGAL, A4, A3)}
"""Papers by the name a shop file uses."""


def sideways(paper: Paper) -> Paper:
    """The same sheet, long side across."""
    return replace(paper, width=paper.height, height=paper.width)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One printed side: marks at real size, the lower left corner of the paper being the origin."""

    drawing: Drawing
    paper: Paper


def on_paper(picture: Drawing, paper: Paper) -> Sheet:
    """The drawing's marks on this paper, bounds set to the paper's edges."""
    return Sheet(replace(picture, bounds=Box(0.0, 0.0, paper.width, paper.height)), paper)


def literal(says: str) -> str:
    """A string literal of the page setter that stands for exactly these signs, and none can start markup or code."""
    return '"' + "".join(_sign(sign) for sign in says) + '"'


def _sign(sign: str) -> str:
    if sign in '\\"':
        return "\\" + sign
    if 0xD800 <= ord(sign) <= 0xDFFF:  # half of a pair: stands for no sign at all
        return "\\u{fffd}"
    return sign if sign.isprintable() else f"\\u{{{ord(sign):x}}}"


def picture_file(picture: Drawing) -> bytes:
    """A drawing as a file that `compile_pdf` can be given, arcs written so that the page setter keeps them round."""
    return svg(picture, rounds=Rounds.CURVES).encode()


def placed(name: str, picture: Drawing) -> str:
    """Markup that sets the drawing in file `name` at its real size."""
    box = picture.bounds
    return f"#image({literal(name)}, width: {_mm(box.width)}, height: {_mm(box.height)})"


def _mm(metres: float) -> str:
    return f"{metres / MILLIMETRE:.4f}mm"


def fonts_folder() -> Path:
    """Where the packed typeface lies."""
    from importlib.util import find_spec

    spec = find_spec("font_source_sans_pro")
    if spec is None or not spec.submodule_search_locations:
        raise RuntimeError("the typeface package font-source-sans-pro is not installed beside bickern")
    return Path(spec.submodule_search_locations[0]) / "files"


def compile_pdf(source: str, files: Mapping[str, bytes], timestamp: int) -> bytes:
    """Set `source` with the files it names, and return the PDF.

    `timestamp` [s since 1970] is written into the file; the same arguments give the same bytes.
    """
    pages: bytes = _set(source, files, format="pdf", timestamp=timestamp)
    return pages


def compile_pictures(source: str, files: Mapping[str, bytes], dots: float | None = None) -> tuple[bytes, ...]:
    """The same pages as pictures, one each: SVG, or PNG with so many `dots` an inch. Quick once the PDF was made."""
    wanted: dict[str, Any] = {"format": "svg"} if dots is None else {"format": "png", "ppi": dots}
    made = _set(source, files, **wanted)
    return (made,) if isinstance(made, bytes) else tuple(made)


def _set(source: str, files: Mapping[str, bytes], **wanted: Any) -> Any:
    import typst

    job: dict[str, bytes] = {"main.typ": source.encode(), **files}
    setter: Any = typst.compile  # its own types leave out what it takes in practice: many files at once
    return setter(job, font_paths=[str(fonts_folder())], ignore_system_fonts=True, **wanted)


def preamble(paper: Paper, size: float = 0.0042) -> str:
    """The first lines of a page: paper, margins and typeface; type `size` [m]."""
    page = f"#set page(width: {_mm(paper.width)}, height: {_mm(paper.height)}, margin: {_mm(MARGIN)})"
    return f"{page}\n#set text(font: {literal(TYPEFACE)}, size: {_mm(size)}, fallback: true, hyphenate: false)\n"


def sheets_source(sheets: Sequence[Sheet]) -> tuple[str, dict[str, bytes]]:
    """Markup for whole-page drawings, one page each, and the files that it names."""
    files = {f"sheet{number}.svg": picture_file(sheet.drawing) for number, sheet in enumerate(sheets, start=1)}
    pages = [_whole_page(name, sheet) for name, sheet in zip(files, sheets, strict=True)]
    return "\n".join(pages), files


def _whole_page(name: str, sheet: Sheet) -> str:
    paper = sheet.paper
    page = f"width: {_mm(paper.width)}, height: {_mm(paper.height)}, margin: 0mm"
    if not math.isclose(sheet.drawing.bounds.width, paper.width):
        raise ValueError("a sheet's drawing is bounded by the edges of its paper")
    return f"#page({page})[{placed(name, sheet.drawing)}]"
