"""A row is asked, and held against the answer; how that is told."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from difflib import get_close_matches
from math import floor, log10, pi

from bickern.desk.answer import Answer
from bickern.desk.printed.cells import KINDS, units_told_in
from bickern.desk.printed.rows import Held, Printed
from bickern.measure.figure import Figure
from bickern.measure.finding import NOWHERE, Finding, Where, stop
from bickern.measure.units.say import say_decimal
from bickern.measure.units.text import shown
from bickern.measure.units.words import INCH, POUND, Read

MOST_NAMES = 12
"""Names of figures that are listed where none is near."""


def held(row: Printed, ours: Figure) -> Read[Held]:
    """A printed figure beside ours; a finding where the two are not the same kind of thing."""
    unit = ours.unit.replace("share", "")
    if unit == row.scale.unit:
        return Read(Held(row, row.scale.printed(ours.value) * row.pi / pi))
    says = f"`{ours.name}` is {KINDS.get(unit, unit)}, and {row.unit or '1'} is the unit of {KINDS[row.scale.unit]}."
    units = ", ".join(f"`{name}`" for name in units_told_in(unit)[:8])
    return Read(None, (stop("another-kind", says, f"Write one of {units}, or look for another figure.", row.place),))


def hold(row: Printed, answer_of: Callable[[str], Answer]) -> Read[Held]:
    """Asks what the row says and holds the answer against the print."""
    if not row.ask:
        says = "The column `ask` is empty here."
        return Read(None, (stop("nothing-asked", says, "Write the words behind `bickern ask`.", row.place),))
    told = answer_of(row.ask)
    found = told.figure(row.answer)
    if found is not None:
        return held(row, found)
    stops = tuple(_in_row(f, row.place) for f in told.findings if f.stops)
    return Read(None, stops or (_no_figure(row, told),))


def _in_row(finding: Finding, place: Where) -> Finding:
    """A finding at the row that asked; a place of its own, as a line of a shop file, goes into its words."""
    says = finding.says if finding.where == NOWHERE else f"{finding.where}: {finding.says}"
    return replace(finding, says=says, where=place)


def _no_figure(row: Printed, told: Answer) -> Finding:
    names = list(dict.fromkeys(f.name for f in told.figures))
    near = near_names(row.answer, names)
    say = ("Near are" if near[1:] else "Near is") if near else "It has"
    listed = ", ".join(f"`{name}`" for name in near or names[:MOST_NAMES]) or "none"
    more = "; `--digits` behind the question shows all" if len(near or names[:MOST_NAMES]) < len(names) else ""
    says = f"The answer to “{row.ask}” has no figure {shown(row.answer) if row.answer else 'without a name'}."
    return stop("no-such-figure", says, f"{say} {listed}{more}.", row.place)


def near_names(said: str, names: Sequence[str]) -> list[str]:
    """Names of figures that may be meant by what was said: those within it, around it, or spelt much alike."""
    fold = " ".join(said.casefold().split())
    if not fold:
        return []
    within = [n for n in names if n.casefold() in fold]
    around = [n for n in names if fold in n.casefold()]
    alike = get_close_matches(fold, [n.casefold() for n in names], 3, 0.5)
    spelt = [n for a in alike for n in names if n.casefold() == a]
    return list(dict.fromkeys(sorted(within, key=len, reverse=True) + around + spelt))[:4]


_IN_INCHES = {"m": ("in", INCH), "m2": ("sq in", INCH**2), "m3": ("cu in", INCH**3), "kg": ("lb", POUND)}


def digits(figure: Figure) -> str:
    """A figure in full, in SI and in inches or pounds."""
    plain = f"{figure.value:.9g} {figure.unit}".strip()
    if figure.unit not in _IN_INCHES:
        return plain
    name, size = _IN_INCHES[figure.unit]
    return f"{figure.value / size:.7g} {name} = {plain}"


def told(one: Held) -> tuple[str, str]:
    """A row to show: what was asked, then what is printed, ours, and whether they agree."""
    return f"{one.row.ask}: {one.row.answer}", _plainly(one) if one.row.right is None else _misprint(one)


def _plainly(one: Held) -> str:
    unit = _unit(one.row)
    said = f"printed {one.row.printed}{unit}, ours {_digits(one.ours)}{unit}: "
    return said + (f"agrees{_room(one.row)}" if one.fits else _off(one))


def _misprint(one: Held) -> str:
    """What is told of a row that says what its print should be."""
    unit = _unit(one.row)
    said = f"ours {_digits(one.ours)}{unit}, right {one.row.said_right}{unit}, printed {one.row.printed}{unit}"
    if one.fits:
        return f"misprint caught: {said}"
    return f"not clearly a misprint: {said}" if one.inside else f"what should be right is not ours: {said}"


def _unit(row: Printed) -> str:
    return "" if row.unit in ("", "1") else f" {row.unit}"


def _room(row: Printed) -> str:
    if row.bound:
        return f" within its allowance of {row.within}"
    return f" (within {row.within})" if row.within else ""


def _off(one: Held) -> str:
    """How far the print is off, and the room that the row gives."""
    far = "differs" if one.ours == 0.0 else f"off by {say_decimal(100 * one.off, 2)} %"
    if one.row.bound:
        return f"{far}, not{_room(one.row)}"
    return f"{far}{_room(one.row).replace('(within', '(not within')}"


def _digits(value: float) -> str:
    """Six digits that count, without a power of ten."""
    places = max(0, 5 - floor(log10(abs(value)))) if value else 0
    plain = f"{value:.{places}f}"
    return plain.rstrip("0").rstrip(".") if places else plain
