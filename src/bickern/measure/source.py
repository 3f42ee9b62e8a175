"""Where a number comes from: no formula, table row or default travels without this."""

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """How a number is known; printed beside it."""

    STANDARD = "standard"
    HANDBOOK = "handbook"
    PAPER = "paper"
    MEASURED = "measured"
    COMMON = "common practice"
    MEMORY = "from memory"
    SHOP = "shop rule"
    MATHS = "exact mathematics"


@dataclass(frozen=True, slots=True)
class Source:
    """A citation: author, title, year, where in it (page, clause, figure), and how sure it is."""

    author: str
    title: str
    year: int | None
    where: str
    kind: Kind

    def __str__(self) -> str:
        parts = [self.author, self.title, str(self.year) if self.year else "", self.where]
        return ", ".join(p for p in parts if p) + f" [{self.kind}]"


COMMON_PRACTICE = Source("", "common practice in the trade", None, "", Kind.COMMON)
"""A fact that any smith would tell you and no page was seen for."""

MATHEMATICS = Source("", "exact mathematics", None, "", Kind.MATHS)
"""Follows from geometry alone."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One of several published rules for the same thing (`about`); the shop file chooses one by `name`."""

    about: str
    name: str
    formula: str
    source: Source
