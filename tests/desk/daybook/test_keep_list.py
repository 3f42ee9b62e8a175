"""Records listed by their numbers, and a slip struck: all that it had moved goes back to what it was."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bickern.book.database.work import Book
from bickern.book.record.keep import DayBook, day_book
from bickern.desk.daybook.foresee import foreseen
from bickern.desk.daybook.keep import Kept, figures, foresee, record
from bickern.desk.daybook.listed import Struck, list_rows, strike
from bickern.desk.rack.rack import opened
from bickern.desk.reckon import reckon_file
from bickern.making.lessons.record import Foresight, Told
from bickern.making.shop import Shop
from bickern.measure.finding import Finding

EXAMPLES = Path(__file__).parents[3] / "examples"
SHOP = Shop()
HOOK, LADLE = (reckon_file(EXAMPLES / f"{name}.yaml").job for name in ("leaf-coat-hook", "ladle"))
INCH = 0.0254


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    made = opened(tmp_path / "rack.sqlite")
    assert isinstance(made, Book)
    yield made
    made.close()


def kept(book: Book, told: Told) -> Kept:
    assert HOOK is not None
    ahead = foresee(HOOK, "hook", SHOP, book, told.made)
    assert isinstance(ahead, Foresight)
    done = record(HOOK, ahead, told, SHOP, book, "Ann")
    assert isinstance(done, Kept)
    return done


def read(book: Book) -> DayBook:
    found = day_book(book)
    assert isinstance(found, DayBook)
    return found


def test_with_the_slip_struck_all_is_as_if_it_had_never_been_recorded(book: Book):
    """The figures, the count of what was made, and what is foreseen of the next one."""
    assert HOOK is not None
    before = figures(SHOP, book)
    told = kept(book, Told(stock=7.5 * INCH, heats=20.0, seconds=1800.0))
    assert figures(SHOP, book) != before
    done = strike(told.record.number, SHOP, book, HOOK, "hook", "Ben", "the wrong piece")
    assert isinstance(done, Struck)
    assert (done.before, done.after) == (told.after, before)
    assert figures(SHOP, book) == before
    assert foresee(HOOK, "hook", SHOP, book) == foreseen(HOOK, "hook", SHOP)
    assert done.rest is not None
    assert done.rest.rest == 24
    assert told.rest is not None
    assert (done.rest.cut[1], done.rest.heats[1]) == (told.rest.cut[0], told.rest.heats[0])


def test_a_record_with_more_metal_out_than_in_is_struck_too_and_no_more_counted_as_made(book: Book):
    told = kept(book, Told(stock=1 * INCH, made=5))
    assert told.record.refused
    assert read(book).before("Leaf coat hook", "hook") == 5
    assert isinstance(strike(told.record.number, SHOP, book, HOOK), Struck)
    assert read(book).before("Leaf coat hook", "hook") == 0


def test_one_of_another_job_or_piece_is_not_struck_by_accident(book: Book):
    number = kept(book, Told(heats=12.0)).record.number
    for job, piece in ((LADLE, ""), (HOOK, "peg")):
        found = strike(number, SHOP, book, job, piece)
        assert isinstance(found, Finding)
        assert found.name == "record-of-another-job"
    assert read(book).struck == ()
    assert isinstance(strike(number, SHOP, book), Struck)  # by its number alone, whatever the job


def test_without_a_day_book_there_is_nothing_to_strike():
    found = strike(1, SHOP, None, HOOK)
    assert isinstance(found, Finding)
    assert found.name == "no-such-record"


def test_the_list_has_all_that_was_told_in_the_order_of_its_numbers(book: Book):
    kept(book, Told(made=2, stock=7.5 * INCH, heats=12.0, seconds=1620.0, remark="first"))
    kept(book, Told(works=(("taper", 150.0),), reached=(("reach", 9.5 * INCH),), weighed_before=0.128))
    strike(1, SHOP, book, HOOK, who="Ben", why="55 for 5.5")
    (one, two) = list_rows(read(book), SHOP.style, "Leaf coat hook")
    assert (one[0], two[0]) == ("1", "2")
    assert one[1].endswith(", Ann")
    assert one[3].startswith("STRUCK (2")
    assert ", Ben): 55 for 5.5; 2 made; stock 7 1/2 in (190.5 mm); heats 12; 27 min in all; “first”" in one[3]
    assert two[3] == "reach 9 1/2 in (241.5 mm); weight before 4 1/2 oz (128 g); taper 2.5 min"
    assert list_rows(read(book), SHOP.style, "Leaf coat hook", "peg") == ()
    assert list_rows(read(book), SHOP.style, "Ladle") == ()
    every = list_rows(replace(read(book)), SHOP.style)
    assert [row[2] for row in every] == ["“hook”, Leaf coat hook"] * 2
