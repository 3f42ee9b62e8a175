"""How a job goes together, moves and hangs, told in words: the same for a terminal and a page."""

from bickern.desk.answer import Row
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy
from bickern.paper.sheets.fit_words import FitCells, fit_cells
from bickern.paper.sheets.hang_words import change_rows, drop_rows, granted, tilt_rows
from bickern.paper.sheets.together import swing_lines
from bickern.parts.hang.result import HangResult
from bickern.parts.set.result import SetResult


def fit_rows(copy: Copy) -> tuple[tuple[str, str, str], ...]:
    """One row for each check of each joint: what fits what, the word for it, and the sizes in words."""
    return tuple(_fit_row(fit_cells(row, copy.shop.style)) for row in copy.fit.rows)


def _fit_row(cells: FitCells) -> tuple[str, str, str]:
    what, word, sizes, says = cells
    return what, word, "; ".join(one for one in (says, sizes) if one)


def swing_rows(copy: Copy) -> tuple[Row, ...]:
    """What swings, and how far."""
    return swing_lines(copy)


def closing_rows(copy: Copy) -> tuple[Row, ...]:
    """What is done before what, numbered."""
    return tuple((f"{number}.", says) for number, says in enumerate(copy.fit.order, start=1))


def hang_rows(copy: Copy) -> tuple[tuple[str, tuple[Row, ...]], ...]:
    """Titles with their rows: how it hangs, what a change does, what was taken for granted; none where it does not."""
    return _hang_rows(copy.hang, copy.set, copy.shop.style) if copy.hang is not None else ()


def _hang_rows(hang: HangResult, whole: SetResult | None, style: Style) -> tuple[tuple[str, tuple[Row, ...]], ...]:
    rest = (*tilt_rows(hang, style, whole), *drop_rows(hang, style))
    otherwise = tuple(("", f"{says}: {what}") for says, what in change_rows(hang, style, whole))
    how = tuple(("", says) for says in granted(hang, style))
    shown = (("At rest", rest), ("Made or held otherwise", otherwise), ("Taken for granted", how))
    return tuple((title, rows) for title, rows in shown if rows)


def unproved_rows(copy: Copy, told: str) -> tuple[Row, ...]:
    """The line of what no print confirms, where it is true of this job."""
    return (("", told),) if told in copy.not_validated else ()
