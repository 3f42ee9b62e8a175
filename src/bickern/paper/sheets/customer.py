"""The customer's sheet: what it is, how big, what finish, how to care for it. No method, no allowances, no prices."""

from bickern.measure.units.say import say_both, say_mass_both
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets import ending, wording
from bickern.paper.sheets.pieces import SIZES
from bickern.paper.sheets.setting import (
    BODY,
    SMALL,
    Part,
    beside,
    bullets,
    document,
    heading,
    keep,
    picture,
    stack,
    words,
)
from bickern.paper.views.outline import bent_sizes, bent_views
from bickern.paper.views.ring import ring_view
from bickern.paper.views.scale import fitting
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, Pan, Pyramid


def customer_sheet(copy: Copy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the sheet for whoever buys the work."""
    job, wide = copy.job, paper.width / 2 - MARGIN - 0.004
    facts = [words(f"{job.make} of the set" if job.make > 1 else "One set", BODY)]
    facts.append(words(f"Weight {say_mass_both(copy.mass, copy.shop.style)} a set", BODY))
    body = stack(
        words(job.title, 22, bold=True),
        *([words(job.what_for, 12)] if job.what_for else []),
        *facts,
        heading("What it is made of"),
        beside([_piece(piece, copy, wide) for piece in copy.pieces], ["1fr", "1fr"]),
        ending.finish_part(copy),
        _care(copy),
        gap=5,
    )
    by = ", ".join(says for says in (copy.shop.name, copy.printed) if says)
    return document(body, paper, job.title, by)


def _care(copy: Copy) -> Part:
    """Only what concerns whoever uses the piece, not whoever makes it."""
    lines = [words(one.says, BODY) for one in copy.cautions if one.uses or one.key in ("load", "chain-load")]
    return stack(heading("Use and care"), bullets(lines)) if lines else stack()


def _piece(piece: PieceResult, copy: Copy, wide: float) -> Part:
    """A piece by name, its outline with overall sizes, and its weight, over `wide` [m]."""
    style = copy.shop.style
    many = f"{piece.spec.make} of these, " if piece.spec.make > 1 else ""
    head = words(piece.spec.name, BODY, bold=True)
    if isinstance(piece, BarResult):
        full, high, count = bent_sizes(piece)
        scale = fitting(full, high, (wide - SIZES, 0.055 - 0.010 * count))
        drawn = [picture(view) for view in bent_views(piece, scale, style, numbers=False)]
        size = f"{wording.overall(piece, style)}, {many}{say_mass_both(piece.mass, style)} each"
        return keep(stack(head, *drawn, words(size, SMALL)))
    if isinstance(piece, RingResult):
        scale = fitting(piece.outside_long, piece.outside_across, (wide * 0.6, 0.030))
        says = f"{many}outside {say_both(piece.outside_across, style)}"
        return keep(stack(head, picture(ring_view(piece, scale, style)), words(says, SMALL)))
    return keep(stack(head, words(f"{many}{_sheet_size(piece, copy)}", SMALL)))


def _sheet_size(sheet: SheetResult, copy: Copy) -> str:
    style, surface = copy.shop.style, sheet.spec.surface
    match surface:
        case Cone():
            sizes = f"{say_both(surface.base, style)} to {say_both(surface.top, style)} across"
            return f"a cone, {sizes}, {say_both(surface.height, style)} high"
        case Cylinder():
            return f"round, {say_both(surface.across, style)} across, {say_both(surface.height, style)} high"
        case Pyramid():
            return (
                f"{surface.sides} sides, {say_both(surface.base, style)} across, {say_both(surface.height, style)} high"
            )
        case Pan():
            sides = f"{say_both(surface.long, style)} x {say_both(surface.wide, style)}"
            return f"a pan, {sides}, {say_both(surface.high, style)} high"
        case Bowl():
            return f"a bowl, {say_both(surface.rim, style)} across, {say_both(surface.depth, style)} deep"
    return "sheet"
