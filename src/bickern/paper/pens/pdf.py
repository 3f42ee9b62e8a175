"""The PDF pen: sheets of paper at exact size, one page each."""

from collections.abc import Sequence

from bickern.paper.pens.page import Sheet, compile_pdf, sheets_source


def pdf(sheets: Sequence[Sheet], timestamp: int = 0) -> bytes:
    """The sheets as one PDF; the same sheets and `timestamp` [s since 1970] give the same bytes."""
    source, files = sheets_source(sheets)
    return compile_pdf(source, files, timestamp)
