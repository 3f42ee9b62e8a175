"""A way: how one operation is done, in the words of the shop, with gaps for names and sizes."""

from dataclasses import dataclass

from bickern.measure.source import COMMON_PRACTICE, Source

FIELDS: tuple[str, ...] = (
    "name",
    "before",
    "after",
    "length",
    "size",
    "angle",
    "turns",
    "inside",
    "other",
)
"""The gaps a way may hold, and no others."""


@dataclass(frozen=True, slots=True)
class Way:
    """How one operation is done: `title` of the step, `tool`, `place`, `how`, and `check`: what with, and what for.

    `title`, `how` and `check` may hold the gaps of `FIELDS`, written {after}; whoever prints fills them in the shop's
    notation. `when` narrows the row to one kind of work: the shape that it is to become, "sharp", "wide", "wrap",
    "sheet", "cold", "ring", "link", "light link", "collar", or another `Work.case` ("": any). Words are
    those of a US shop.
    """

    does: str
    title: str
    tool: str
    place: str
    how: str
    check: str
    when: str = ""
    source: Source = COMMON_PRACTICE
