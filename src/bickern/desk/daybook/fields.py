"""What can be told after the work, as fields to fill in: each with what was foreseen beside it, in the same words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from bickern.desk.answer import Row
from bickern.desk.daybook.keep import foresee
from bickern.desk.daybook.page import Page
from bickern.desk.daybook.retold import OPTION, Words, operations_in
from bickern.desk.daybook.rows import form_rows
from bickern.making.lessons.kinds import AT, FIRE
from bickern.making.lessons.record import Foresight
from bickern.measure.finding import Finding
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Read, Style
from bickern.paper.sheets.heat_amounts import duration

REACHED, WORKS = "reached ", "minutes of "
"""What the names of fields begin with that are of one size, or of one operation."""
COMMON = ("made", "stock", "left", "heats", "seconds", "remark")
"""The fields that are asked first; the others are for whoever measured more."""
OF_COUNTS = ("not-a-number", "not-whole", "count-out-of-range")
"""Faults in how many were made, which the day book tells without a name: that is read before all else."""
HEARD = ("made", "remark")
"""The fields that are always there, whatever was foreseen."""


@dataclass(frozen=True, slots=True)
class DayField:
    """One thing to tell: its `name`, what stands before it, what it is and what was foreseen, which keys it takes.

    `first`: asked first. `takes`: "length", "weight", "minutes", "number" or "words".
    """

    name: str
    label: str
    says: str
    takes: str
    first: bool = False


def day_fields(page: Page, piece: str) -> Read[tuple[DayField, ...]]:
    """The fields of a piece ("": the whole job); no value where nothing of it can be foreseen."""
    ahead = foresee(page.job, piece, page.shop, page.book)
    if isinstance(ahead, Finding):
        return Read(None, (ahead,))
    style = page.shop.style
    fields = (*_single(form_rows(ahead, style)), *_sizes(ahead, style), *_operations(ahead))
    told = [replace(one, first=one.name in COMMON) for one in fields]
    return Read(tuple(sorted(told, key=lambda one: (not one.first, COMMON.index(one.name) if one.first else 0))))


def recorded_before(page: Page, piece: str) -> int:
    """How many of a piece were recorded so far."""
    ahead = foresee(page.job, piece, page.shop, page.book)
    return 0 if isinstance(ahead, Finding) else ahead.before


def words_of(values: Mapping[str, str]) -> Words:
    """What was filled in, as the day book takes it; what was left empty was not told."""
    told = {name: says.strip() for name, says in values.items() if says.strip()}
    return Words(
        {name: says for name, says in told.items() if name not in HEARD and not name.startswith((REACHED, WORKS))},
        tuple(f"{name.removeprefix(REACHED)}={says}" for name, says in told.items() if name.startswith(REACHED)),
        tuple(f"{name.removeprefix(WORKS)}={says}" for name, says in told.items() if name.startswith(WORKS)),
        told.get("made", "1"),
        told.get("remark", ""),
    )


def at_field(finding: Finding, fields: tuple[DayField, ...]) -> tuple[str, str]:
    """The field that a fault is in ("" none), and the fault without the name that the terminal has for it."""
    says = finding.says.removeprefix("--")
    options = {one.name: _option(one.name) for one in fields}
    near = [name for name, option in options.items() if says.casefold().startswith(f"{option}:".casefold())]
    if not near:
        return "made" if finding.name in OF_COUNTS and says == finding.says else "", says
    return near[0], says[len(options[near[0]]) + 1 :].strip()


def _option(name: str) -> str:
    """What the day book calls a field where it finds a fault in it."""
    if name.startswith(WORKS):
        return f"minutes-of {name.removeprefix(WORKS)}"
    return OPTION.get(name, name)


_NAMES = {option: name for name, option in OPTION.items()}
_TAKES = {"LENGTH": "length", "MINUTES": "minutes", "NUMBER": "number", "WORDS": "words"}
_SEVERAL = ("reached", "minutes-of")
"""Rows that stand for a field for each size, or for each operation."""


def _single(rows: tuple[Row, ...]) -> Iterator[DayField]:
    """The rows of the form that are one figure each, in the form's own words."""
    for option, says in rows:
        names, _, behind = option.rpartition(" ") if " " in option and option.isascii() else (option, "", "")
        if option.startswith("--weight"):
            names, behind = option, ""
        for name in names.replace("--", "").split(", "):
            if name not in _SEVERAL:
                label = name.replace("-", " ")
                yield DayField(_NAMES.get(name, name), label, says, _TAKES.get(behind, "weight"))


def _sizes(ahead: Foresight, style: Style) -> Iterator[DayField]:
    for size in ahead.sizes:
        says = f"as it came out; asked: {say_both(size.asked, style)}"
        yield DayField(f"{REACHED}{size.name}", f"{size.name} reached", says, "length")


def _operations(ahead: Foresight) -> Iterator[DayField]:
    for name in operations_in(ahead):
        seconds = ahead.of(name if name == FIRE else f"{AT}{name}")
        foreseen = f"; foreseen {duration(seconds)}" if seconds else ""
        alone = "in the fire" if name == FIRE else "hands alone"
        yield DayField(f"{WORKS}{name}", f"minutes of {name}", f"{alone}{foreseen}", "minutes")
