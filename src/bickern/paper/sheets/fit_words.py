"""Whether it goes together and how far it moves, in a smith's words: the same for the terminal and for paper."""

import math
from collections.abc import Sequence

from bickern.geometry.space import cross
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH, Style
from bickern.parts.fit.result import FitRow, FitWord, Swing
from bickern.parts.fit.words import spare

FULL = math.radians(179.5)
"""From here on to both sides a part goes right round [rad]."""
ROOMY = INCH / 8
"""From here on there is so much to spare that nobody measures it [m]: told in short."""
NARROW = INCH / 4
"""Room on the way of a swing that is worth a word [m]."""
NOTHING = 1e-6
"""A length that is none [m]."""

FitCells = tuple[str, str, str, str]
"""What fits what, the word for it, what it needs and what there is, and the margin with all that is said."""


def fit_cells(row: FitRow, style: Style) -> FitCells:
    """One check of a joint as cells of a table; the margin is told once, and alone where it is roomy."""
    sizes, margin = needs_has(row, style), _margin(row.margin, style)
    if is_roomy(row):
        return (what_fits(row), str(row.word), "", margin)
    alone = row.says if margin in row.says or " too big" in row.says else ""
    told = (alone or (margin if sizes else ""), "" if alone else row.says)
    return (what_fits(row), str(row.word), sizes, "; ".join(one for one in told if one))


def _margin(margin: float, style: Style) -> str:
    return "size for size" if abs(margin) < NOTHING else spare(margin, style)


def alike(rows: Sequence[FitRow], style: Style) -> tuple[FitCells, ...]:
    """Cells of all rows; what is alike in everything but its names stands in one."""
    together: dict[tuple[str, str, str, str], list[str]] = {}
    for row in rows:
        _, word, sizes, says = fit_cells(row, style)
        together.setdefault((row.check, word, sizes, says), []).append(row.what)
    return tuple((_named(names, check), word, sizes, says) for (check, word, sizes, says), names in together.items())


def _named(names: Sequence[str], check: str) -> str:
    listed = "; ".join(dict.fromkeys(names))
    return f"{listed}: {check}" if check else listed


def what_fits(row: FitRow) -> str:
    """What fits what, and which check of it this is."""
    return f"{row.what}: {row.check}" if row.check else row.what


def is_roomy(row: FitRow) -> bool:
    """Whether a thing is free with so much to spare that nothing more need be said of it."""
    return row.word is FitWord.FREE and row.margin >= ROOMY


def needs_has(row: FitRow, style: Style) -> str:
    """`needs 17/32 in (.528) / 13.4 mm, has 9/16 in (.563) / 14.3 mm`; "" where no size is compared."""
    if abs(row.needed) < NOTHING and abs(row.has) < NOTHING:
        return ""
    return f"needs {_fit(row.needed, style)}, has {_fit(row.has, style)}"


def _fit(length: float, style: Style) -> str:
    return say_both(length, style, fit=True)


def swing_cells(swing: Swing, style: Style, *, on_wall: bool = False) -> tuple[str, str]:
    """What swings and which way, and how far it goes before it meets something."""
    what = f"{swing.what}, {swing.way}" if swing.way else swing.what
    return (what, swing_says(swing, style, on_wall=on_wall))


def swing_says(swing: Swing, style: Style, *, on_wall: bool = False) -> str:
    """`70° toward the wall until the tray meets the arm; 110° away from it ...`, and how near it comes on the way.

    `on_wall`: x of the world looks out of a wall, so that the ways have names.
    """
    far = "goes right round" if _goes_round(swing) else _how_far(swing, on_wall=on_wall)
    met = (swing.low_touches, swing.high_touches)
    if swing.near and swing.clearance < NARROW and not any(swing.near in one for one in met):
        far = f"{far}; nearest on the way: {_fit(swing.clearance, style)} from {swing.near}"
    return far


def _goes_round(swing: Swing) -> bool:
    return not swing.low_touches and not swing.high_touches and swing.high - swing.low >= 2 * FULL


def _how_far(swing: Swing, *, on_wall: bool) -> str:
    """Both ways; told once where they are alike."""
    low, high = ((abs(swing.low), swing.low_touches), (abs(swing.high), swing.high_touches))
    if max(low[0], high[0]) < HARDLY and low[1] == high[1]:
        return f"hardly at all until {meets(low[1])}"
    if _one_way(*low, "") == _one_way(*high, ""):
        return _one_way(*low, " either way")
    names = way_names(swing, on_wall=on_wall)
    return f"{_one_way(*low, f' {names[0]}')}; {_one_way(*high, f' {names[1]}')}"


WAYS = ("one way", "the other")
"""What the two ways of a swing are called where nothing gives them names."""
HARDLY = math.radians(2.0)
"""Less than this either way is play, and no swing [rad]."""
MOSTLY = 0.7
"""Cosine from which on a way counts as toward the wall, or along it."""


def way_names(swing: Swing, *, on_wall: bool) -> tuple[str, str]:
    """What the two ways of a swing are called; on a wall, seen by one who faces it.

    What hangs below goes along axis x down when it turns by a positive angle.
    """
    if not on_wall:
        return WAYS
    out, right, _ = cross(swing.axis, (0.0, 0.0, -1.0))
    if abs(out) >= MOSTLY:
        names = ("toward the wall", "away from the wall")
        return names if out > 0 else (names[1], names[0])
    if abs(right) >= MOSTLY:
        names = ("to the left (facing the wall)", "to the right")
        return names if right > 0 else ("to the right (facing the wall)", "to the left")
    return WAYS


def _one_way(angle: float, touches: str, way: str) -> str:
    """Whole degrees, none too many: a tenth of a degree is found, and nobody can use it."""
    end = f" until {meets(touches)}" if touches else ", free"
    return f"{math.floor(math.degrees(angle) + 0.1)}°{way}{end}"


def meets(touches: str) -> str:
    """What a swing ends at: `the tray meets the arm` of `arm (with tray)`."""
    stops, _, turns = touches.removesuffix(")").partition(" (with ")
    return f"{the(turns) or 'it'} meets {the(stops)}"


def the(name: str) -> str:
    """A piece by its name; one of several is called by its number, without an article."""
    article = name and not name[-1].isdigit() and not name.startswith("the ")
    return f"the {name}" if article else name
