"""How the set hangs, in a smith's words: the same for the terminal and for paper."""

from collections.abc import Sequence

from bickern.measure.units.say import say_angle, say_both, say_decimal
from bickern.measure.units.words import Style
from bickern.parts.hang.result import Change, HangResult, Tilt

STRAIGHT = 0.00087
"""A tilt below this is told as none [rad]: a twentieth of a degree, that no level shows."""
SAME_HEIGHT = 0.0001
"""A drop below this is told as none [m]."""
PLUMB, LEVEL = "hangs plumb", "lies level"
Rows = tuple[tuple[str, str], ...]


def tilt_rows(hang: HangResult, style: Style) -> Rows:
    """What hangs, and how far off plumb or level it is."""
    return tuple((tilt.of, tilt_says(tilt, style)) for tilt in hang.tilts)


def tilt_says(tilt: Tilt, style: Style) -> str:
    """`tips 0.7°: left end low`, and between which tilts friction can hold it."""
    return f"{_rest(tilt, style)}{_band(tilt, style)}"


def _rest(tilt: Tilt, style: Style, *, toward: bool = True) -> str:
    if tilt.angle < STRAIGHT:
        return PLUMB if tilt.off == "plumb" else LEVEL
    which = f": {tilt.toward}" if tilt.toward and toward else ""
    verb = "hangs" if tilt.off == "plumb" else "tips"
    return f"{verb} {say_angle(tilt.angle, style)} off {tilt.off}{which}"


def _band(tilt: Tilt, style: Style) -> str:
    """Where friction can hold it; nothing is said where the band is none."""
    if tilt.most - tilt.least < 2 * STRAIGHT:
        return ""
    least, most = say_angle(abs(tilt.least), style), say_angle(tilt.most, style)
    other = " the other way" if tilt.least < -STRAIGHT else ""
    return f"; friction can hold it from {least}{other} to {most}"


def change_rows(hang: HangResult, style: Style) -> Rows:
    """What is made or held otherwise, and how it hangs then."""
    return tuple((change.says, change_says(change, hang.tilts, style)) for change in hang.changes)


def change_says(change: Change, before: Sequence[Tilt], style: Style) -> str:
    """The tilts that follow, where they are not as `before`, and how much lower or higher it comes to hang."""
    same = {(tilt.part, tilt.of, tilt.toward, round(tilt.angle / STRAIGHT)) for tilt in before}
    ways = {(tilt.part, tilt.of, tilt.toward) for tilt in before}
    told = [
        f"{tilt.of} {_rest(tilt, style, toward=(tilt.part, tilt.of, tilt.toward) not in ways)}"
        for tilt in change.tilts
        if (tilt.part, tilt.of, tilt.toward, round(tilt.angle / STRAIGHT)) not in same
    ]
    drop = _drop(change.drop, style)
    return "; ".join((*told, *([drop] if drop else []))) or "the tilt stays"


def _drop(drop: float, style: Style) -> str:
    if abs(drop) < SAME_HEIGHT:
        return ""
    return f"{say_both(abs(drop), style)} {'lower' if drop > 0 else 'higher'}"


def drop_rows(hang: HangResult, style: Style) -> Rows:
    """How far below its hold the lowest part balances; nothing where only the held part is there."""
    if not hang.touches:
        return ()
    where = "below" if hang.drop >= 0 else "above"
    return (("lowest part", f"balances {say_both(abs(hang.drop), style)} {where} where the set is held"),)


def granted(hang: HangResult, style: Style) -> tuple[str, ...]:
    """What was taken for granted; the coefficient of friction only where a band goes by it."""
    if not any(_band(tilt, style) for tilt in hang.tilts):
        return hang.how
    friction = f"friction: a coefficient of {say_decimal(hang.friction, 2, style)}; nobody has measured yours"
    return (*hang.how, friction)
