"""The part of a sheet that tells whether the set goes together, how far it moves, and how it hangs."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bickern.geometry.pose import facing, put
from bickern.geometry.solid.solid import Named
from bickern.geometry.space import Vec
from bickern.measure.units.say import say_both
from bickern.measure.units.words import MILLIMETRE
from bickern.paper.copy import Copy
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets import fit_words, hang_words
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.setting import (
    FINE,
    NOTHING,
    SMALL,
    Part,
    Sign,
    beside,
    bullets,
    heading,
    keep,
    picture,
    row,
    stack,
    table,
    words,
)
from bickern.paper.views.whole_figure import Figure, Rooms, figures, scale_says
from bickern.parts.fit.words import HAND_WORK

LOW, TALL, SQUARE = 0.080, (0.138, 0.190), (0.140, 0.176)
"""Height of a figure over the page; width and height of one with words beside it, in a row and in a square [m]."""
SEVERAL = 0.6
"""Share of that height where there are several figures."""
HALVES, BETWEEN = (0.6, 0.45), 0.004
"""Shares of that height that are tried for two figures side by side, and half the room between them [m]."""
SHARES, LEAST = (1.0, 0.75, 0.6, 0.45, 0.37), 0.37
"""Shares of that height that are tried to save a page, and the least share of the largest scale that is drawn then."""


def together_parts(copy: Copy, paper: Paper) -> tuple[tuple[Part, ...], ...]:
    """Fit and swing, and the set as it hangs or stands; nothing where the job has no joints and is not hung.

    Several times, each time with smaller figures, for the sheet to choose from; at last with two lots side by side.
    """
    wide = paper.width - 2 * MARGIN
    fit, lots = fit_part(copy), [_lot_parts(copy, lot, wide) for lot in copy.shown]
    ways = [(fit, *(parts[i] for parts in lots)) for i in range(len(SHARES))]
    return (*ways, *((fit, *pairs) for pairs in _abreast(copy, wide)))


def fit_part(copy: Copy) -> Part:
    """What fits what, with its margin; what is closed when; how far each joint swings."""
    if not copy.fit.rows and not copy.swings:
        return NOTHING
    close = [one for one in copy.fit.rows if not fit_words.is_roomy(one)]
    rows = [_fit_row(cells, copy) for cells in fit_words.alike(close, copy.shop.style)]
    aside = f"a hand may be out by {say_both(HAND_WORK.value, copy.shop.style)}"
    header = ["what", "how", "needs and has", "margin, and with which drift"]
    fits = table(["1fr", "auto", "auto", "1.4fr"], header, rows)
    return stack(heading("Fit and swing", aside), fits, _roomy(copy), _order(copy), _swings(copy))


def _fit_row(cells: fit_words.FitCells, copy: Copy) -> list[Part]:
    what, word, sizes, says = cells
    return [
        words(what, SMALL, bold=True),
        words(word, SMALL, bold=True),
        stack(*(words(each, FINE) for each in sizes.split(", ") if each), gap=1) if sizes else words(""),
        words(in_english(says, copy.shop.english), FINE),
    ]


def _roomy(copy: Copy) -> Part:
    """What is free with much to spare, in one line."""
    names = [fit_words.what_fits(one) for one in copy.fit.rows if fit_words.is_roomy(one)]
    if not names:
        return NOTHING
    head = f"Free, with {say_both(fit_words.ROOMY, copy.shop.style)} or more to spare: "
    return row(words(head, FINE, bold=True), words("; ".join(names), FINE))


def _order(copy: Copy) -> Part:
    """What is done before what, numbered, each with a box to tick."""
    lines = [words(f"{n}. {in_english(says, copy.shop.english)}", SMALL) for n, says in enumerate(copy.fit.order, 1)]
    if not lines:
        return NOTHING
    return keep(stack(words("What is done before what", SMALL, bold=True), bullets(lines, sign=Sign.BOX), gap=2))


def _swings(copy: Copy) -> Part:
    lines = [_named(*cells) for cells in swing_lines(copy)]
    if not lines:
        return NOTHING
    title = "From where it hangs, with all below it, it swings"
    return keep(stack(words(title, SMALL, bold=True), bullets(lines), gap=2))


def swing_lines(copy: Copy) -> tuple[tuple[str, str], ...]:
    """What swings, and how far; on a wall the ways have names."""
    held = copy.set.held if copy.set is not None else None
    on_wall = held is not None and "wall" in held.on.lower().split()
    return tuple(fit_words.swing_cells(one, copy.shop.style, on_wall=on_wall) for one in copy.swings)


def _named(name: str, says: str) -> Part:
    return row(words(f"{name}: ", SMALL, bold=True), words(says, SMALL))


def _lot_parts(copy: Copy, lot: Sequence[Named], wide: float) -> tuple[Part, ...]:
    """A lot as it hangs or stands, from three sides and from aside, with how it hangs in words: large, and smaller."""
    several = SEVERAL if len(copy.shown) > 1 else 1.0
    drawn = _drawn(copy, lot, [_rooms(wide, share * several) for share in SHARES])
    kept: list[Figure] = []
    for one in drawn:
        kept.append(one if one.scale >= LEAST * drawn[0].scale else kept[-1])
    return tuple(_lot_part(copy, one, _names(copy, lot)) for one in kept)


def _drawn(copy: Copy, lot: Sequence[Named], rooms: Sequence[Rooms]) -> tuple[Figure, ...]:
    return figures(lot, hangs_from(copy), copy.shop.style, rooms, face_of(copy))


def _abreast(copy: Copy, wide: float) -> Iterator[tuple[Part, ...]]:
    """Lots of which little is said two by two, the words under each."""
    if len(copy.shown) < 2 or copy.hang is not None:
        return
    half = wide / 2 - BETWEEN
    rooms = [Rooms((half, LOW * share), (half, TALL[1] * share), (half, SQUARE[1] * share)) for share in HALVES]
    lots = [_drawn(copy, lot, rooms) for lot in copy.shown]
    for i in range(len(HALVES)):
        shown = [
            _lot_part(copy, replace(drawn[i], beside=False), _names(copy, lot))
            for drawn, lot in zip(lots, copy.shown, strict=True)
        ]
        yield tuple(beside(shown[k : k + 2], ["1fr", "1fr"], gap=12) for k in range(0, len(shown), 2))


def _rooms(wide: float, share: float) -> Rooms:
    return Rooms((wide, LOW * share), (TALL[0], TALL[1] * share), (SQUARE[0], SQUARE[1] * share))


def _lot_part(copy: Copy, drawn: Figure, names: str) -> Part:
    under = words(f"{scale_says(drawn.scale)}{_lines_are(copy)}", FINE)
    title = "How it hangs" if copy.hang is not None else "Put together"
    aside = names if len(copy.shown) > 1 else ""
    return stack(heading(title, aside), _with_words(drawn, under, _hang_words(copy, drawn)))


def _names(copy: Copy, lot: Sequence[Named]) -> str:
    """Of which pieces a lot is made: `stand post, stand foot`."""
    names = {part.name: part.piece.spec.name for part in copy.set.parts} if copy.set is not None else {}
    return ", ".join(dict.fromkeys(names[one.name] for one in lot if one.name in names))


def _lines_are(copy: Copy) -> str:
    if copy.hang is not None:
        return "; upright the plumb line from where it hangs, level the line that its lowest part touches."
    if copy.set is not None and copy.set.links:
        return "; the job does not say how it hangs: drawn with its first piece held level."
    if copy.set is not None and copy.set.pivots:
        return "; as it is put together, laid on what it lies on steadily."
    return "; stood on what it stands on steadily."


def _with_words(drawn: Figure, under: Part, told: Part) -> Part:
    """Words beside a figure that leaves room for them, or under it."""
    shown = picture(drawn.drawing)
    if drawn.beside:
        wide = f"{drawn.drawing.bounds.width / MILLIMETRE:.2f}mm"
        return keep(beside([shown, stack(told, under)], [wide, "1fr"]))
    return keep(stack(shown, under, told, gap=3))


def _hang_words(copy: Copy, drawn: Figure) -> Part:
    """At rest, made or held otherwise, and what was taken for granted."""
    if copy.hang is None:
        return NOTHING
    style, columns = copy.shop.style, 1 if drawn.beside else 2
    at_rest = (*hang_words.tilt_rows(copy.hang, style, copy.set), *hang_words.drop_rows(copy.hang, style))
    rest = [_named(*one) for one in at_rest]
    otherwise = [_named(*one) for one in hang_words.change_rows(copy.hang, style, copy.set)]
    granted = [words(says, FINE) for says in hang_words.granted(copy.hang, style)]
    return stack(
        bullets(rest, columns),
        _titled("Made or held otherwise", otherwise, columns),
        bullets(granted, columns, Sign.DASH),
        gap=4,
    )


def _titled(title: str, lines: Sequence[Part], columns: int) -> Part:
    return stack(words(title, SMALL, bold=True), bullets(lines, columns), gap=2) if lines else NOTHING


def hangs_from(copy: Copy) -> Vec | None:
    """Where the plumb line starts in the world [m]: where it is held from above, else where the first part hangs."""
    if copy.hang is None or copy.set is None:
        return None
    from_above = [touch.point for touch in copy.hang.touches if touch.upper < 0]
    hung = [touch.point for touch in copy.hang.touches if touch.upper >= 0]
    held = copy.set.held
    if from_above or hung:
        return (from_above or hung)[0]
    return None if held is None else put(copy.hang.poses[held.body], held.spot.pose.origin)


def face_of(copy: Copy) -> Vec:
    """Which way the reference face of the held part looks in the world; none of a set that stands: it is set out."""
    if copy.set is None or copy.set.held is None or copy.hang is None:
        return (0.0, 0.0, 0.0)
    part = copy.set.parts[copy.set.held.part]
    return facing(copy.hang.poses[part.body], part.pose.z)
