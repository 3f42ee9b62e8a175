"""The price sheet: the shop's own, with every cost. It is never given to a customer or a class."""

from collections.abc import Sequence

from bickern.measure.units.say import say_mass_both
from bickern.paper.copy import Copy
from bickern.paper.pens.page import Paper
from bickern.paper.sheets import price_words
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.setting import (
    BODY,
    NOTHING,
    SMALL,
    Part,
    Sign,
    boxed,
    bullets,
    document,
    heading,
    keep,
    lines_to_fill,
    row,
    stack,
    table,
    to_the_right,
    words,
)
from bickern.paper.sheets.shop import imprint
from bickern.paper.sheets.wording import sentence

OWN = "The shop's own sheet: not for a customer, not for a class."
STRONG = ("cost of all", "price of all", "price of one")
"""Rows that are looked for first."""


def price_sheet(copy: Copy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the sheet with all costs, for the shop alone."""
    body = stack(
        words(f"{copy.job.title}: what it costs", 22, bold=True),
        boxed(words(OWN, BODY, bold=True), heavy=True),
        words(f"One set weighs {say_mass_both(copy.mass, copy.shop.style)}.", SMALL),
        _amounts(copy),
        _lacks(copy),
        _how(copy),
        _listed("What is a guess", price_words.guesses(copy, copy.quotes), copy),
        _listed("What is not counted", price_words.not_counted(copy), copy),
        _happened(),
        gap=6,
    )
    return document(body, paper, copy.job.title, imprint(copy))


def _amounts(copy: Copy) -> Part:
    """The table: a column for each count of sets, set to the right as a bill is."""
    lines = (price_words.heads(copy.quotes, copy.shop), *price_words.amounts(copy.quotes, copy.shop))
    rows = [_amount_row(line, strong=i == 0 or line[0] in STRONG) for i, line in enumerate(lines)]
    return keep(table(["auto", *["auto"] * len(copy.quotes)], [], rows))


def _amount_row(line: Sequence[str], strong: bool) -> list[Part]:
    first, *cells = (words(cell, BODY, bold=strong) for cell in line)
    return [first, *(to_the_right(cell) for cell in cells)]


def _lacks(copy: Copy) -> Part:
    """What keeps a price from being told."""
    lacks = tuple(dict.fromkeys(says for quote in copy.quotes for says in quote.lacks))
    without = tuple(dict.fromkeys(name for quote in copy.quotes for name in quote.without))
    says = [sentence(price_words.lack_says(lacks))] if lacks else []
    says += [f"No order of work for {', '.join(without)}: its time lacks."] if without else []
    return boxed(stack(*(words(one, BODY, bold=True) for one in says))) if says else NOTHING


def _how(copy: Copy) -> Part:
    lines = price_words.how(copy.quotes, copy.shop)
    said = [row(words(f"{name}: ", SMALL, bold=True), words(says, SMALL)) for name, says in lines]
    return keep(stack(heading(price_words.how_head(copy.quotes)), bullets(said)))


def _listed(name: str, lines: Sequence[str], copy: Copy) -> Part:
    said = [words(in_english(says, copy.shop.english), SMALL) for says in lines]
    return keep(stack(heading(name), bullets(said, sign=Sign.DASH))) if said else NOTHING


def _happened() -> Part:
    """Where what was really asked and spent is written."""
    names = ("sets made", "hours of work", "hours of fire", "metal used", "sold for", "what to change")
    return keep(stack(heading("What really happened"), lines_to_fill(names, 2)))
