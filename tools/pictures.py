"""Draws the pictures of the docs with the tool itself: pages, a pattern, a paper rule and an outline of the lantern.

SVG comes straight from the pen; whole pages are PNG, made from the printed PDF by pypdfium2 (it comes with pdfplumber).
No date is printed on them, so the same job gives the same pictures.
"""

import re
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

from bickern.desk.reckon import reckon_file
from bickern.desk.whole.assemble import assembled
from bickern.paper.copy import Copy
from bickern.paper.marks import Box, Drawing
from bickern.paper.packet import packet
from bickern.paper.pens.page import LETTER, Sheet
from bickern.paper.pens.svg import svg
from bickern.paper.sheets.markout import markout_pages, rules_of
from bickern.paper.sheets.patterns import pattern_pages
from bickern.paper.views.outline import bent_outlines
from bickern.parts.bar.result import BarResult

ROOT = Path(__file__).parents[1]
JOB = ROOT / "examples" / "porch-lantern.yaml"
OUT = ROOT / "docs" / "pictures"
PAGES = (1, 2, 3, 5, 6)
"""Pages of the shop sheet that are shown: the material, the arm, hood and links, how it hangs, the rest."""
SCALE = 1.6
"""Points of the PDF to dots of the picture: 115 dots an inch."""
GREYS = 16
RIM = 0.008
"""White round an outline [m]."""
SHOWN = 0.26
"""How much of a paper rule is shown [m]."""
LARGEST = 300_000
"""Bytes that a PNG may have."""


def lantern() -> Copy:
    """The lantern reckoned and put together, without a date."""
    copy = reckon_file(JOB).copy
    if copy is None:
        raise RuntimeError(f"{JOB.name} cannot be read")
    return assembled(replace(copy, printed="", job=replace(copy.job, file=JOB.name)))


def drawings(copy: Copy) -> Iterator[tuple[str, str]]:
    """File name and SVG of each drawing."""
    arm = next(p for p in copy.pieces if isinstance(p, BarResult))
    widest = max(bent_outlines(arm), key=lambda view: view.bounds.width * view.bounds.height)
    yield "arm-outline.svg", svg(_with_rim(widest), "arm, bent, full size")
    yield (
        "arm-rule.svg",
        svg(_beginning(rules_of(arm, copy)[0].picture), "beginning of the paper rule for the arm's bar"),
    )
    yield "mark-out-page.svg", _page(markout_pages(copy, LETTER)[0], "mark-out at full size")
    yield "pattern-page.svg", _page(pattern_pages(copy, LETTER)[0], "pattern of the hood at full size, first page")


def _with_rim(picture: Drawing) -> Drawing:
    box = picture.bounds
    return replace(picture, bounds=Box(box.left - RIM, box.bottom - RIM, box.right + RIM, box.top + RIM))


def _beginning(picture: Drawing) -> Drawing:
    box = picture.bounds
    return replace(picture, bounds=Box(box.left, box.bottom, min(box.right, box.left + SHOWN), box.top))


def _page(sheet: Sheet, title: str) -> str:
    return svg(sheet.drawing, title)


def on_white(document: str) -> str:
    """The same SVG on white paper, so that it can be seen on a dark page."""
    return re.sub(r"(<svg[^>]*>)", r'\1<rect width="100%" height="100%" fill="#fff"/>', document, count=1)


def pages(pdf: bytes, wanted: Sequence[int]) -> Iterator[bytes]:
    """Pages of a PDF, by number, as grey PNG."""
    import pypdfium2

    document: Any = pypdfium2.PdfDocument(pdf)
    for number in wanted:
        image = document[number - 1].render(scale=SCALE, grayscale=True).to_pil()
        buffer = BytesIO()
        image.quantize(GREYS).save(buffer, "PNG", optimize=True)
        yield buffer.getvalue()


def main() -> int:
    """Writes all pictures and says their names."""
    copy = lantern()
    OUT.mkdir(parents=True, exist_ok=True)
    made: dict[str, bytes] = {name: on_white(text).encode() for name, text in drawings(copy)}
    sheet = packet(copy, LETTER, "shop")["shop-sheet.pdf"]
    made |= {f"shop-sheet-{n}.png": data for n, data in zip(PAGES, pages(sheet, PAGES), strict=True)}
    for name, data in made.items():
        if name.endswith(".png") and len(data) > LARGEST:
            raise RuntimeError(f"{name} has {len(data)} bytes, more than {LARGEST}")
        (OUT / name).write_bytes(data)
        sys.stdout.write(f"docs/pictures/{name} ({len(data) // 1024} kB)\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
