"""A price told: as tables for a terminal, as JSON, as sheets."""

from dataclasses import replace

from bickern.desk.price.price import Pricing
from bickern.desk.reckon import Reckoning
from bickern.desk.sheets.sheets import ALWAYS
from bickern.desk.sheets.sheets import as_json as reckoned_json
from bickern.paper.copy import Copy
from bickern.paper.packet import priced_packet
from bickern.paper.pens.page import PAPERS
from bickern.paper.sheets import price_words

Table = tuple[str, tuple[str, ...], tuple[tuple[str, ...], ...]]
PRICE_KEYS = (*ALWAYS, "quotes")


def tables(done: Pricing) -> tuple[Table, ...]:
    """Titles, heads and rows: the price, how it comes about, what is a guess, what is not counted."""
    copy = done.done.copy
    if copy is None or not done.quotes:
        return ()
    heads, rows = _columns(copy)
    told = (
        (price_words.how_head(done.quotes), price_words.how(done.quotes, copy.shop)),
        ("What is a guess", tuple((says,) for says in price_words.guesses(copy, done.quotes))),
        ("What is not counted", tuple((says,) for says in price_words.not_counted(copy))),
    )
    return ((f"{copy.job.title}: what it costs", heads, rows), *((name, (), rows) for name, rows in told if rows))


def _columns(copy: Copy) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """The table of amounts, each column set to the right as a bill is."""
    lines = (price_words.heads(copy.quotes, copy.shop), *price_words.amounts(copy.quotes, copy.shop))
    wide = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]
    first, *rest = ((line[0], *(cell.rjust(w) for cell, w in zip(line[1:], wide[1:], strict=True))) for line in lines)
    return first, tuple(rest)


def as_json(done: Pricing) -> str:
    """The quotes and the findings as JSON."""
    copy = done.done.copy
    told = None if copy is None else replace(copy, findings=done.findings)
    return reckoned_json(Reckoning(done.done.job, told, done.findings), PRICE_KEYS)


def files_of(done: Pricing, paper: str) -> dict[str, bytes]:
    """The shop's price sheet, and the customer's sheet with the prices alone."""
    copy = done.done.copy
    return {} if copy is None else priced_packet(copy, PAPERS[paper])
