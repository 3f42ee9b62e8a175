"""The part of a sheet that tells whether the set goes together, how far it moves, and how it hangs."""

from collections.abc import Sequence

from bickern.geometry.pose import HERE, facing, put
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
from bickern.paper.views.whole_figure import Figure, Rooms, figure, scale_says
from bickern.parts.fit.words import HAND_WORK

LOW, TALL, SQUARE = 0.080, (0.132, 0.190), (0.132, 0.160)
"""Height of a figure over the page; width and height of one with words beside it, in a row and in a square [m]."""


def together_parts(copy: Copy, paper: Paper) -> tuple[Part, ...]:
    """Fit and swing, and the set as it hangs or stands; nothing where the job has no joints and is not hung."""
    return (fit_part(copy), set_part(copy, paper))


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
    return keep(stack(words("From where it hangs it swings", SMALL, bold=True), bullets(lines), gap=2))


def swing_lines(copy: Copy) -> tuple[tuple[str, str], ...]:
    """What swings, and how far; on a wall the ways have names."""
    held = copy.set.held if copy.set is not None else None
    on_wall = held is not None and "wall" in held.on.lower().split()
    return tuple(fit_words.swing_cells(one, copy.shop.style, on_wall=on_wall) for one in copy.swings)


def _named(name: str, says: str) -> Part:
    return row(words(f"{name}: ", SMALL, bold=True), words(says, SMALL))


def set_part(copy: Copy, paper: Paper) -> Part:
    """The set as it hangs or stands, from three sides and from aside, with how it hangs in words."""
    if not copy.solids:
        return NOTHING
    rooms = Rooms((paper.width - 2 * MARGIN, LOW), TALL, SQUARE)
    drawn = figure(copy.solids, hangs_from(copy), copy.shop.style, rooms, face_of(copy))
    title = "How it hangs" if copy.hang is not None else "Put together"
    under = words(f"{scale_says(drawn.scale)}{_lines_are(copy)}", FINE)
    return stack(heading(title), _with_words(drawn, under, _hang_words(copy, drawn)))


def _lines_are(copy: Copy) -> str:
    if copy.hang is None:
        return "; stood on what it stands on steadily."
    return "; upright the plumb line from where it hangs, level the line that its lowest part touches."


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
    at_rest = (*hang_words.tilt_rows(copy.hang, style), *hang_words.drop_rows(copy.hang, style))
    rest = [_named(*one) for one in at_rest]
    otherwise = [_named(*one) for one in hang_words.change_rows(copy.hang, style)]
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
    """Which way the reference face of the held part looks in the world, or of the first part of a set that stands."""
    if copy.set is None:
        return (0.0, 0.0, 0.0)
    part = copy.set.parts[copy.set.held.part if copy.set.held is not None else 0]
    return facing(copy.hang.poses[part.body] if copy.hang is not None else HERE, part.pose.z)
