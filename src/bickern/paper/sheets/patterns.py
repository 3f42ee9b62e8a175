"""Patterns at full size, over as many pages as they need."""

from bickern.paper.copy import Copy
from bickern.paper.marks import Drawing
from bickern.paper.pens.page import Paper, Sheet
from bickern.paper.tiling import tile
from bickern.paper.views.sheet import pattern_full
from bickern.parts.sheet.result import Pattern, SheetResult


def patterns_of(copy: Copy) -> tuple[tuple[SheetResult, Pattern], ...]:
    """Every pattern of the job with the piece it belongs to."""
    sheets = [piece for piece in copy.pieces if isinstance(piece, SheetResult)]
    return tuple((sheet, pattern) for sheet in sheets for pattern in sheet.patterns)


def pattern_name(sheet: SheetResult, pattern: Pattern) -> str:
    """What a pattern is called: the piece's name, and the part's where the piece has several."""
    if pattern.name == sheet.spec.name or len(sheet.patterns) == 1:
        return sheet.spec.name
    return f"{sheet.spec.name} {pattern.name}"


def pattern_drawing(sheet: SheetResult, pattern: Pattern) -> Drawing:
    """One pattern at full size, lettered with its name."""
    return pattern_full(pattern, pattern_name(sheet, pattern))


def pattern_pages(copy: Copy, paper: Paper) -> tuple[Sheet, ...]:
    """All patterns, each on its own pages."""
    pages: list[Sheet] = []
    for sheet, pattern in patterns_of(copy):
        made = sheet.spec.make * pattern.make * copy.job.make
        title = f"{copy.job.title}: {pattern_name(sheet, pattern)}, cut {made}"
        pages += tile(pattern_drawing(sheet, pattern), paper, title).sheets
    return tuple(pages)
