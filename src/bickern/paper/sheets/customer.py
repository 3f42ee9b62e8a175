"""The customer's sheet: what it is, how big, what finish, how to care for it. No method, no allowances.

Prices stand on it only where they were asked for: how many sets, how much each, how much in all, and nothing of how
that comes about.
"""

from bickern.measure.units.say import say_both, say_mass_both
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets import ending, wording
from bickern.paper.sheets.care import care_lines
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.price_words import offers_told
from bickern.paper.sheets.setting import (
    BODY,
    NOTHING,
    SMALL,
    Part,
    Sign,
    beside,
    bullets,
    document,
    heading,
    keep,
    picture,
    stack,
    table,
    to_the_right,
    words,
)
from bickern.paper.sheets.sheetsizes import sheet_size
from bickern.paper.views.standing import small
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult


def customer_sheet(copy: Copy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the sheet for whoever buys the work."""
    job, wide = copy.job, paper.width / 2 - MARGIN - 0.004
    each = f"{say_mass_both(copy.mass, copy.shop.style)}"
    weight = f"{job.make} sets, {each} each" if job.make > 1 and not copy.quotes else f"Weighs {each}"
    rows = [tuple(copy.pieces[i : i + 2]) for i in range(0, len(copy.pieces), 2)]
    body = stack(
        words(job.title, 22, bold=True),
        *([words(job.what_for, 12)] if job.what_for else []),
        words(weight, BODY),
        heading("What it is made of"),
        *(keep(beside([_piece(piece, copy, wide) for piece in pair], ["1fr", "1fr"])) for pair in rows),
        ending.finish_part(copy),
        _care(copy),
        _prices(copy),
        gap=6,
    )
    by = ", ".join(says for says in (copy.shop.name, copy.printed) if says)
    return document(body, paper, job.title, by)


def _prices(copy: Copy) -> Part:
    """How many sets, how much each, how much in all; nothing where no price was asked for."""
    offers = offers_told(copy)
    if not offers:
        return NOTHING
    heads = [words(name, SMALL, bold=True) for name in ("sets", "each", "in all")]
    rows = [heads, *([words(cell, BODY) for cell in offer] for offer in offers)]
    billed = [[to_the_right(cell) for cell in line] for line in rows]
    return keep(stack(heading("Prices"), table(["auto", "auto", "auto"], [], billed)))


def _care(copy: Copy) -> Part:
    """Only what concerns whoever uses the piece, not whoever makes it."""
    lines = [one.says for one in copy.cautions if ending.for_use(one) and one.key not in MAKERS]
    lines += (in_english(says, copy.shop.english) for says in care_lines(copy.job.finish, copy.job.use))
    return stack(heading("Use and care"), bullets([words(says, BODY) for says in lines], sign=Sign.DASH))


MAKERS = ("outdoors",)
"""Cautions for a use that speak to the maker all the same."""


def _piece(piece: PieceResult, copy: Copy, wide: float) -> Part:
    """A piece by name, as it looks when finished, and its size and weight, over `wide` [m]."""
    many = f", {piece.spec.make} of these" if piece.spec.make > 1 else ""
    head = words(f"{piece.spec.name}{many}", BODY, bold=True)
    shown = picture(small(piece, (wide * 0.8, 0.034)))
    weight = f"{say_mass_both(piece.mass, copy.shop.style)}{' each' if many else ''}"
    return stack(head, shown, words(f"{_size(piece, copy)}, {weight}", SMALL))


def _size(piece: PieceResult, copy: Copy) -> str:
    style = copy.shop.style
    if isinstance(piece, BarResult):
        return wording.overall(piece, style)
    if isinstance(piece, RingResult):
        chain = f", {piece.chain.links} links, {say_both(piece.chain.outside, style)} long" if piece.chain else ""
        return f"{say_both(piece.outside_across, style)} across outside{chain}"
    return sheet_size(piece, style)
