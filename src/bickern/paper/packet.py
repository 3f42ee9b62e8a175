"""Everything printed for a job, as files by name."""

from collections.abc import Callable, Iterator

from bickern.paper import export
from bickern.paper.copy import Copy
from bickern.paper.pens.page import Paper, Sheet, compile_pdf, sheets_source
from bickern.paper.sheets.customer import customer_sheet
from bickern.paper.sheets.lesson import class_sheet
from bickern.paper.sheets.markout import markout_pages
from bickern.paper.sheets.patterns import pattern_pages
from bickern.paper.sheets.price import price_sheet
from bickern.paper.sheets.shop import shop_sheet
from bickern.paper.sheets.templates import template_pages

SHEETS: dict[str, tuple[str, Callable[[Copy, Paper], tuple[str, dict[str, bytes]]]]] = {
    "shop": ("shop-sheet.pdf", shop_sheet),
    "class": ("class-sheet.pdf", class_sheet),
    "customer": ("customer-sheet.pdf", customer_sheet),
}
"""For each audience the name of its sheet and what writes it."""
AUDIENCES = tuple(SHEETS)
"""Whom a packet can be made for."""
FULL_SIZE: dict[str, Callable[[Copy, Paper], tuple[Sheet, ...]]] = {
    "patterns.pdf": pattern_pages,
    "mark-out.pdf": markout_pages,
    "templates.pdf": template_pages,
}
"""Pages at full size, which must be printed at 100 %."""
TIMESTAMP = 0
"""Written into each PDF [s since 1970]: fixed, so that the same job gives the same bytes."""


def packet(copy: Copy, paper: Paper, audience: str) -> dict[str, bytes]:
    """File name -> content of all that an audience gets; a customer gets its sheet alone.

    `audience`: shop, class or customer. Files that would be empty are left out.
    """
    done = {name: compile_pdf(source, files, TIMESTAMP) for name, source, files in written(copy, paper, audience)}
    return done | beside_pages(copy, audience)


def written(copy: Copy, paper: Paper, audience: str) -> Iterator[tuple[str, str, dict[str, bytes]]]:
    """Each document of pages in turn, written but not yet set: its file's name, its source, the files it names."""
    name, write = SHEETS[audience]
    yield (name, *write(copy, paper))
    if audience == "customer":
        return
    for page_name, pages_of in FULL_SIZE.items():
        if pages := pages_of(copy, paper):
            yield (page_name, *sheets_source(pages))


def beside_pages(copy: Copy, audience: str) -> dict[str, bytes]:
    """File name -> content of all that goes beside the pages: drawings and solids for other tools, lists, figures."""
    if audience == "customer":
        return {}
    done = export.drawing_files(copy) | export.solid_files(copy)
    done["cut-list.csv"] = export.cut_list(copy)
    if audience == "shop":  # it holds the shop's own figures
        done["reckoning.json"] = export.reckoning(copy)
    return done


def priced_packet(copy: Copy, paper: Paper) -> dict[str, bytes]:
    """The price sheet for the shop, and the customer's sheet with the prices of the copy's quotes, if there are any."""
    sheets = {"price-sheet.pdf": price_sheet(copy, paper)}
    if any(quote.offer is not None for quote in copy.quotes):
        sheets["customer-sheet.pdf"] = customer_sheet(copy, paper)
    return {name: compile_pdf(source, files, TIMESTAMP) for name, (source, files) in sheets.items()}
