"""What questions about sheet have in common: their words, and a piece reckoned as one of a job is."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from bickern.desk.answer import Answer, Inputs
from bickern.desk.ask.answered import piece_rows, said_figure
from bickern.desk.ask.question import Asked, Word
from bickern.iron.gauge import resolve
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.units.words import GaugeWords, Read

if TYPE_CHECKING:
    from bickern.parts.sheet.result import SheetResult
    from bickern.parts.sheet.spec import SheetSpec, Surface

PLAIN = "20 ga"
"""Sheet that is taken where none is said; most of what is asked does not hang on it."""
SHEET = Word("sheet", f"thickness or gauge, as '16 ga'; {PLAIN} of the shop's own gauge where none is said", "")
SIZES = Word("sizes", "what the sizes are of", "mean", ("inside", "outside", "mean"))

More = Callable[["SheetResult"], tuple[Figure, ...]]
"""What else is asked of a piece that has been reckoned."""


def sheet_of(asked: Asked) -> Read[float]:
    """Thickness [m] of the sheet said, or of plain sheet in the shop's gauge."""
    if asked.said("sheet"):
        return asked.sheet("sheet")
    return Read(resolve(GaugeWords(20, None), asked.shop.gauge).value)


def piece(asked: Asked, thick: float, surface: "Surface") -> "SheetSpec":
    """The piece that was asked for, of plain sheet, its sizes told as asked."""
    from bickern.parts.sheet.spec import SheetSpec, Sized

    return SheetSpec("piece", thick, "mild", surface, Sized(asked.text("sizes")), gauge=asked.text("sheet") or PLAIN)


def reckoned(asked: Asked, read: Inputs, title: str, spec: "SheetSpec", more: More = lambda _: ()) -> Answer:
    """A piece of sheet as rows and figures, then what else is asked of it."""
    from bickern.parts.sheet.reckon import reckon_sheet

    done = reckon_sheet(spec, asked.shop.sheet, density_of(spec.steel))
    findings = tuple(dict.fromkeys((*read.findings, *done.findings)))
    if done.value is None:
        return Answer(title, (), findings)
    further = more(done.value)
    rows = piece_rows(done.value, asked.shop.style)
    rows += tuple((f.name, said_figure(f, asked.shop.style)) for f in further)
    return Answer(title, rows, findings, (*done.value.figures, *further))
