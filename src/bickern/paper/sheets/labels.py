"""Labels for stock: cut out and tied to a bar's end, or copied in paint; the id can be read across the shop."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.paper.pens.page import Paper
from bickern.paper.sheets.setting import BODY, SMALL, Part, beside, boxed, document, keep, stack, words

ID = 44.0
"""Type of the id [pt]: capitals of 10 mm, as high as the three lines beside it."""
ACROSS = 2
"""Labels side by side."""


@dataclass(frozen=True, slots=True)
class Label:
    """What stands on one label: id, section or thickness, length or size, steel, place, and what is to be minded."""

    id: str
    stock: str
    size: str
    steel: str
    place: str
    mind: str = ""
    never_heat: bool = False


def label_pages(labels: Sequence[Label], paper: Paper, shop: str = "") -> tuple[str, dict[str, bytes]]:
    """The source and files of pages full of labels."""
    rows = [labels[i : i + ACROSS] for i in range(0, len(labels), ACROSS)]
    parts = [keep(beside([_label(one) for one in row], ["1fr"] * ACROSS)) for row in rows]
    return document(stack(*parts, gap=6), paper, "Labels for the rack", shop)


def _label(label: Label) -> Part:
    """A heavy frame round what must never be heated: it is seen in black and white, and the words say it too."""
    what = stack(words(label.stock, 13, bold=True), words(label.size, 12), words(label.steel, BODY), gap=2)
    told = [words(label.mind, SMALL, bold=label.never_heat)] if label.mind else []
    lies = [words(label.place, SMALL, slanted=True)] if label.place else []
    top = beside([words(label.id, ID, bold=True), what], ["auto", "1fr"], gap=10)
    return boxed(stack(top, *told, *lies, gap=3), heavy=label.never_heat)
