"""The shelf of printed figures: each book's rows lie in `books/`, and are held against what can be asked here."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import pi
from pathlib import Path
from typing import Any

import pytest

from bickern.cli.asking import answer_of
from bickern.desk import printed

BOOKS = Path(__file__).parent / "books"
HELD: list[tuple[str, "Printed", float]] = []
"""Every figure that was held in this run: book, row, ours in the unit printed."""


@dataclass(frozen=True)
class Printed:
    """One printed figure of a book."""

    key: str
    row: printed.Printed

    def holds(self, ours: float | None = None) -> None:
        """Ours agrees with the print: by the row's own question, or `ours` in coherent SI."""
        value = asked(self.row) if ours is None else self.row.scale.printed(ours) * self.row.pi / pi
        HELD.append((self.key, self, value))
        one = printed.Held(self.row, value)
        says = f"{self.key}, {self.row.where}: {self.row.printed} {self.row.unit}, ours {value:.8g} ({one.off:+.3%})"
        assert one.fits, says


def asked(row: printed.Printed) -> float:
    """What the row's question is answered here, in the unit printed."""
    found = printed.hold(row, quick_answer)
    assert found.value is not None, found.findings
    return found.value.ours


@cache
def quick_answer(words: str) -> Any:
    """An answer; the same question is asked once for all its figures."""
    return answer_of(words)


@cache
def rows(key: str) -> tuple[Printed, ...]:
    """Every figure of a book; a row that cannot be read is our fault."""
    path = BOOKS / f"{key}.csv"
    found, faults = printed.read_printed(path.read_text(), path.name)
    assert not faults, faults
    return tuple(Printed(key, row) for row in found)


def book(key: str, *, by: str | None = None) -> Callable[[Callable[..., None]], Any]:
    """A test of every figure of a book that is asked; `by`: of those whose answer has that name and no question."""
    wanted = [r for r in rows(key) if (not r.row.ask and r.row.answer == by if by else r.row.ask)]
    assert wanted, f"{key} has no such rows"
    return pytest.mark.parametrize("row", wanted, ids=[f"line {r.row.place.line}" for r in wanted])
