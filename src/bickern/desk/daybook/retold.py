"""What the smith tells after the work, read in shop notation: every fault of it at once."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

from bickern.making.lessons.kinds import AT, FIRE
from bickern.making.lessons.record import Foresight, Told
from bickern.measure.finding import Finding, stop
from bickern.measure.units.read import read_count, read_length, read_mass, read_number
from bickern.measure.units.words import Read, System

MINUTE = 60.0
LONGEST_REMARK = 2000
LENGTHS, NUMBERS, MASSES = ("stock", "left", "collar"), ("heats", "blows"), ("weighed_before", "weighed_after")
"""What may be told of each piece, by how it is read; minutes come beside them."""
OPTION = {"weighed_before": "weight-before", "weighed_after": "weight-after", "seconds": "minutes"}
"""What the terminal calls them, where that is another word."""


@dataclass(frozen=True, slots=True)
class Words:
    """As typed: single figures by their names in `Told` (minutes as "seconds"), rows of `NAME=FIGURE`, and a remark."""

    single: Mapping[str, str] = field(default_factory=dict)
    reached: Sequence[str] = ()
    works: Sequence[str] = ()
    made: str = "1"
    remark: str = ""

    @property
    def anything(self) -> bool:
        """Whether anything was told."""
        return bool(self.single or self.reached or self.works or self.remark.strip())

    @property
    def of_one_piece(self) -> bool:
        """Whether something was told that only one piece can have: a bar, a weight, a size."""
        return bool(self.reached or self.single.keys() & {"stock", "left", *MASSES})

    @property
    def plain_remark(self) -> str:
        """The remark on one line, as it is kept."""
        return " ".join(self.remark.split())

    @property
    def many(self) -> Read[int]:
        """How many alike it is told of."""
        return read_count(self.made)


def told_of(words: Words, ahead: Foresight, system: System | None) -> Read[Told]:
    """What was told, SI; None where anything of it cannot be read or was never asked."""
    found: list[Finding] = []
    single = {name: _single(name, text, system, found) for name, text in words.single.items()}
    sizes = [size.name for size in ahead.sizes]
    reached = tuple(_pairs("reached", words.reached, sizes, lambda text: read_length(text, system), found))
    works = tuple(_pairs("minutes-of", words.works, operations_in(ahead), _minutes, found))
    if len(words.remark) > LONGEST_REMARK:
        says = f"the remark has {len(words.remark)} letters"
        found.append(stop("remark-too-long", says, f"{LONGEST_REMARK} are kept at most"))
    if any(f.stops for f in found):
        return Read(None, tuple(found))
    remark = words.plain_remark
    return Read(Told(made=ahead.made, reached=reached, works=works, remark=remark, **single), tuple(found))


def operations_in(ahead: Foresight) -> list[str]:
    """What minutes can be told of by itself: each operation of the piece, and the fire."""
    operations = [one.kind.removeprefix(AT) for one in ahead.foreseen if one.kind.startswith(AT)]
    return [*operations, *(one.kind for one in ahead.foreseen if one.kind == FIRE)]


def _single(name: str, text: str, system: System | None, found: list[Finding]) -> float | None:
    if name in LENGTHS:
        read = read_length(text, system)
    elif name in MASSES:
        read = read_mass(text)
    else:
        read = read_number(text) if name in NUMBERS else _minutes(text)
    found += [_named(f, OPTION.get(name, name)) for f in read.findings]
    return read.value


_HOURS = re.compile(r"(?:([\d.]+)\s*h(?:ours?|r)?(?![a-z]))?\s*(.*?)\s*(?:m|min|mins|minutes?)?\.?", re.IGNORECASE)


def _minutes(text: str) -> Read[float]:
    """Seconds of `27`, `27 min` or `1 h 20 min`."""
    told = _HOURS.fullmatch(text.strip())
    hours, rest = (told[1] or "", told[2]) if told else ("", text)
    read = read_number(rest or "0") if hours else read_number(rest)
    whole = read_number(hours or "0")
    if read.value is None or whole.value is None:
        return Read(None, tuple(_as_minutes(f, text) for f in (*whole.findings, *read.findings)))
    return _some_minutes(replace(read, value=read.value + 60.0 * whole.value))


def _as_minutes(fault: Finding, text: str) -> Finding:
    if fault.name != "not-a-number":
        return fault
    return replace(fault, says=f"`{text[:40]}` cannot be read as minutes.", try_this="Write `27` or `1 h 20`.")


def _some_minutes(read: Read[float]) -> Read[float]:
    if read.value == 0.0:
        return Read(None, (stop("no-minutes", "0 minutes is no time", "leave it out where it was not looked at"),))
    return Read(None if read.value is None else read.value * MINUTE, read.findings)


def _named(finding: Finding, option: str) -> Finding:
    return replace(finding, says=f"--{option}: {finding.says}")


def _pairs(
    option: str,
    texts: Sequence[str],
    names: Sequence[str],
    reader: Callable[[str], Read[float]],
    found: list[Finding],
) -> Iterator[tuple[str, float]]:
    """`NAME=FIGURE`, each with a name that was foreseen; the last of one name counts."""
    told: dict[str, float] = {}
    for text in texts:
        name, _, figure = (part.strip() for part in text.partition("="))
        if not figure:
            says = f"--{option} “{text[:40]}” has no figure"
            found.append(stop("no-figure-told", says, f"write it so: --{option} 'NAME=FIGURE'"))
            continue
        named = next((one for one in names if one.casefold() == name.casefold()), None)
        if named is None:
            found.append(_no_such(option, name, names))
            continue
        read = reader(figure)
        found += [_named(f, f"{option} {name}") for f in read.findings]
        if read.value is not None:
            told[named] = read.value
    yield from told.items()


def _no_such(option: str, name: str, names: Sequence[str]) -> Finding:
    near = get_close_matches(name.casefold(), names, 1)
    meant = f"did you mean “{near[0]}”? " if near else ""
    says = f"--{option} “{name[:40]}” is nothing that was foreseen of it"
    known = f"{meant}there are {', '.join(names)}" if names else "there is none to tell of this piece"
    return stop("not-foreseen", says, known)
