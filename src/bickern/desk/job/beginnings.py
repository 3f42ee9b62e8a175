"""What a new job can begin from: the examples, each told in one line, the simplest first."""

from dataclasses import dataclass
from functools import cache

from bickern.book.text import Group, Value, Word, read_page
from bickern.desk.job.new import examples

FIRST = "porch-lantern"
"""The example that is there for who comes the first time."""


@dataclass(frozen=True, slots=True)
class Beginning:
    """An example: its short name, its title, what it is for, what is learnt on it, and how many pieces it has."""

    name: str
    title: str
    says: str
    skill: str
    pieces: int


@cache
def beginnings() -> tuple[Beginning, ...]:
    """All of them, those of few pieces first."""
    told = [_told(one.name, one.title, one.text) for one in examples()]
    return tuple(sorted(told, key=lambda one: (one.pieces, one.title)))


def first_text() -> str:
    """The text of the example for who comes the first time."""
    return next(one.text for one in examples() if one.name == FIRST)


def _told(name: str, title: str, text: str) -> Beginning:
    top = read_page(text, name).top
    pieces = top.get("pieces") if top is not None else None
    count = len(pieces.entries) if isinstance(pieces, Group) else 0
    says, skill = (_word(top.get(word)) if top is not None else "" for word in ("what for", "skill"))
    return Beginning(name, title, says, skill, count)


def _word(value: Value | None) -> str:
    return value.text if isinstance(value, Word) else ""
