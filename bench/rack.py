"""The rack's figures: five thousand pieces put in, listed, found and taken from; measured, never asserted."""

import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.rack.change import add
from bickern.book.rack.listed import Meant, read_list
from bickern.book.rack.read import rack_of
from bickern.book.rack.take import take
from bickern.book.rack.written import list_text
from bickern.desk.rack.find import found_in
from bickern.desk.rack.rack import Keeper
from bickern.desk.rack.rows import in_order, list_rows
from bickern.geometry.polygon import rectangle
from bickern.iron.section import Section
from bickern.making.stock.rack import Rack, StockBar, StockSheet, Taking, Use
from bickern.measure.units.words import INCH, Shape, Style

PIECES = 5000


def pieces() -> list[StockBar | StockSheet]:
    """A rack such as a shop of many years has: nine bars to a sheet, forty sections, no two lengths alike."""
    sections = [
        Section(shape, n * INCH / 16, n * INCH / 16) for shape in (Shape.SQUARE, Shape.ROUND) for n in range(3, 23)
    ]
    bars = [
        StockBar("", sections[n % 40], 0.3 + n * 0.001, "S235JR", "none" if n % 7 else "painted", f"rack {n % 12}")
        for n in range(PIECES * 9 // 10)
    ]
    sheets = [
        StockSheet(
            "", 0.001 + n % 5 * 0.0005, rectangle(1.0 + n * 0.001, 0.5), steel="mild", coating="none", place="door"
        )
        for n in range(PIECES // 10)
    ]
    return [*bars, *sheets]


def median(work: Callable[[], object], times: int = 9) -> float:
    """Median seconds of several runs."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return sorted(spent)[times // 2]


def rack(book: Book) -> Rack:
    """All that lies there."""
    found = rack_of(book)
    assert isinstance(found, Rack), found
    return found


def take_one(book: Book, bars: Iterator[StockBar]) -> None:
    """Cuts the next bar in two."""
    bar = next(bars)
    left = replace(bar, id="", length=bar.length / 2)
    taken = take(book, Taking((Use(bar.id, bar.version, ("one",), (left,)),), ("bench",)), "bench")
    assert isinstance(taken, tuple), taken


def lines() -> Iterator[tuple[str, float, str]]:
    """What was measured, seconds, and the goal."""
    with tempfile.TemporaryDirectory() as folder:
        book = open_book(Path(folder) / "rack.sqlite")
        assert isinstance(book, Book), book
        some, by = pieces(), Keeper()
        text = list_text(some, Style()).encode()
        yield f"a list of {PIECES} pieces read", median(lambda: read_list(text, "rack.csv", Meant()), 3), "quick"
        yield f"{PIECES} pieces put in", median(lambda: add(book, some), 1), "quick"
        there = in_order(rack(book))
        yield f"a rack of {PIECES} pieces listed", median(lambda: rack(book)), "50 ms"
        yield "the same in words, as shown", median(lambda: list_rows(in_order(rack(book)), Style())), "quick"
        yield "3/8 sq found among them", median(lambda: found_in(there, ["3/8", "sq"], by)), "quick"
        bars = iter(rack(book).bars)
        yield "one bar taken, written through to the disk", median(lambda: take_one(book, bars), 21), "quick"
        book.close()


if __name__ == "__main__":
    for what, seconds, goal in lines():
        print(f"{what:<46}{seconds * 1000:>10.1f} ms   goal: {goal}")
