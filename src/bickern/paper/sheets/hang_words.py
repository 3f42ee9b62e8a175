"""How the set hangs, in a smith's words: the same for the terminal and for paper."""

from collections.abc import Sequence

from bickern.measure.units.say import say_angle, say_both, say_decimal
from bickern.measure.units.words import Style
from bickern.parts.hang.result import Change, HangResult, Tilt
from bickern.parts.set.result import SetResult
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Pan

STRAIGHT = 0.00087
"""A tilt below this is told as none [rad]: a twentieth of a degree, that no level shows."""
ALIKE = 0.0035
"""Parts of one body whose tilts are nearer than this are told once [rad]: a fifth of a degree."""
SAME_HEIGHT = 0.0001
"""A drop below this is told as none [m]."""
PLUMB, LEVEL, RIM_LEVEL = "hangs plumb", "lies level", "its rim lies level"
Rows = tuple[tuple[str, str], ...]


def tilt_rows(hang: HangResult, style: Style, whole: SetResult | None = None) -> Rows:
    """What hangs, and how far off plumb or level it is; of parts of one body that hang alike the first."""
    told = _told(hang.tilts, whole)
    return tuple((tilt.of, tilt_says(tilt, style, rim=_has_rim(tilt, whole))) for tilt in told)


def _told(tilts: Sequence[Tilt], whole: SetResult | None) -> tuple[Tilt, ...]:
    told: list[Tilt] = []
    for tilt in tilts:
        same = [one for one in told if whole is not None and _body(one, whole) == _body(tilt, whole)]
        if not any(one.off == tilt.off and abs(one.angle - tilt.angle) < ALIKE for one in same):
            told.append(tilt)
    return tuple(told)


def _body(tilt: Tilt, whole: SetResult) -> int:
    return whole.parts[tilt.part].body


def _has_rim(tilt: Tilt, whole: SetResult | None) -> bool:
    """Whether it is a bowl or a pan, of which a smith looks at the rim."""
    piece = whole.parts[tilt.part].piece if whole is not None else None
    return isinstance(piece, SheetResult) and isinstance(piece.spec.surface, Bowl | Pan)


def tilt_says(tilt: Tilt, style: Style, *, rim: bool = False) -> str:
    """`tips 0.7°: left end low`, and between which tilts friction can hold it; of a bowl how its `rim` lies."""
    return f"{_rest(tilt, style, rim=rim)}{_band(tilt, style)}"


def _rest(tilt: Tilt, style: Style, *, toward: bool = True, rim: bool = False) -> str:
    if tilt.angle < STRAIGHT:
        return RIM_LEVEL if rim else PLUMB if tilt.off == "plumb" else LEVEL
    which = f": {tilt.toward}" if tilt.toward and toward else ""
    if rim:
        return f"its rim lies {say_angle(tilt.angle, style)} off level{which}"
    verb = "hangs" if tilt.off == "plumb" else "tips"
    return f"{verb} {say_angle(tilt.angle, style)} off {tilt.off}{which}"


def _band(tilt: Tilt, style: Style) -> str:
    """Where friction can hold it; nothing is said where the band is none."""
    if tilt.most - tilt.least < 2 * STRAIGHT:
        return ""
    least, most = say_angle(abs(tilt.least), style), say_angle(tilt.most, style)
    other = " the other way" if tilt.least < -STRAIGHT else ""
    return f"; friction can hold it from {least}{other} to {most}"


def change_rows(hang: HangResult, style: Style, whole: SetResult | None = None) -> Rows:
    """What is made or held otherwise, and how it hangs then."""
    return tuple(_change_row(change, hang.tilts, style, whole) for change in hang.changes)


def _change_row(change: Change, before: Sequence[Tilt], style: Style, whole: SetResult | None) -> tuple[str, str]:
    """`one more of links`, and `what is below lies a quarter turn round and 1 3/4 in lower`."""
    what, _, also = change.says.partition(": ")
    follows = change_says(change, before, style, whole)
    if not also:
        return (what, follows)
    return (what, f"{also}{' and' if follows == _drop(change.drop, style) else ';'} {follows}")


def change_says(change: Change, before: Sequence[Tilt], style: Style, whole: SetResult | None = None) -> str:
    """The tilts that follow, where they are not as `before`, and how much lower or higher it comes to hang."""
    same = {(tilt.part, tilt.of, tilt.toward, round(tilt.angle / STRAIGHT)) for tilt in before}
    ways = {(tilt.part, tilt.of, tilt.toward) for tilt in before}
    told = [
        f"{tilt.of}{_follows(tilt, style, whole, toward=(tilt.part, tilt.of, tilt.toward) not in ways)}"
        for tilt in _told(change.tilts, whole)
        if (tilt.part, tilt.of, tilt.toward, round(tilt.angle / STRAIGHT)) not in same
    ]
    drop = _drop(change.drop, style)
    return "; ".join((*told, *([drop] if drop else []))) or "the tilt stays"


def _follows(tilt: Tilt, style: Style, whole: SetResult | None, *, toward: bool) -> str:
    """A tilt after the name of what is tilted: ` hangs ...`, `: its rim lies ...`."""
    rim = _has_rim(tilt, whole)
    return f"{':' if rim else ''} {_rest(tilt, style, toward=toward, rim=rim)}"


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
