"""The day book: what is kept comes back the same, is never changed, and survives whatever happens to the program."""

import random
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from bickern.book.database.open import open_book
from bickern.book.database.work import Book, changed
from bickern.book.rack.backup import backup
from bickern.book.record.form import body_of, record_of
from bickern.book.record.keep import DayBook, day_book, keep, set_back, strike
from bickern.making.lessons.record import Foreseen, Foresight, Record, Reset, Size, Strike, Told
from bickern.measure.finding import Finding

AHEAD = Foresight(
    "Porch lantern", "arm", 2, 3, 12, "1/2 in sq", 1.6e-4, 7850.0, 0.15, True, (Size("reach", 0.3, 0.5),),
    (Foreseen("stock", 0.2, (("scale", 0.05), ("corners", 0.5))), Foreseen("heats", 9.0)), (("scale", 0.1),),
)  # fmt: skip


def opened(place: str) -> Book:
    book = open_book(place)
    assert isinstance(book, Book), book
    return book


AMOUNTS = st.none() | st.floats(1e-6, 1e6)


@settings(max_examples=100, deadline=None)
@given(
    told=st.builds(
        Told,
        made=st.integers(1, 500),
        stock=AMOUNTS,
        left=AMOUNTS,
        heats=st.none() | st.just(0.0) | st.floats(1, 99),
        seconds=AMOUNTS,
        weighed_after=AMOUNTS,
        reached=st.lists(st.tuples(st.text(), st.floats(0.001, 9)), max_size=3).map(tuple),
        works=st.lists(st.tuples(st.text(), st.floats(1, 1e5)), max_size=3).map(tuple),
        remark=st.text(),
    )
)
def test_a_record_comes_back_as_it_was_kept(told: Told):
    record = Record(told, AHEAD, "2026-11-26T05:00:00Z", "Ann", "", 7)
    assert record_of(body_of(record), 7, record.when, "Ann", "") == record


def test_what_is_kept_has_numbers_and_hours_and_comes_back_in_order(place: str):
    book = opened(place)
    first = keep(book, Record(Told(stock=0.2, remark="Ütz “hard” coke"), AHEAD, who="Ann"))
    back = set_back(book, Reset("scale", who="Ben"))
    second = keep(book, Record(Told(heats=9.0), AHEAD, refused="more-metal-out-than-in"))
    assert isinstance(first, Record)
    assert isinstance(second, Record)
    assert isinstance(back, Reset)
    assert first.number < back.number < second.number
    assert first.when.endswith("Z")
    read = day_book(book)
    assert not isinstance(read, Finding)
    assert read.records == (first, second)
    assert read.resets == (back,)
    assert read.found == ()
    assert read.before("Porch lantern", "arm") == 2
    assert read.before("Porch lantern", "hood") == 0
    book.close()
    again = opened(place)
    assert day_book(again) == read
    again.close()


def test_what_is_no_sign_at_all_is_kept_as_a_question(place: str):
    """A terminal of another spelling hands its bytes on as half signs, which no database takes."""
    book = opened(place)
    kept = keep(book, Record(Told(stock=0.2, remark="h\udcffrd"), AHEAD, who="S\udce9b", refused="\0"))
    back = set_back(book, Reset("scale", who="\udcff"))
    assert isinstance(kept, Record)
    assert isinstance(back, Reset)
    read = day_book(book)
    assert not isinstance(read, Finding)
    assert [(r.told.remark, r.who, r.refused) for r in read.records] == [("h?rd", "S?b", "?")]
    assert [r.who for r in read.resets] == ["?"]
    book.close()


def test_a_record_that_was_struck_stays_and_counts_for_nothing(place: str):
    book = opened(place)
    slip, right = (keep(book, Record(Told(made=2, stock=stock), AHEAD, who="Ann")) for stock in (1.4, 0.2))
    assert isinstance(slip, Record)
    assert isinstance(right, Record)
    done = strike(book, slip.number, "Ben", "55 for 5.5")
    assert isinstance(done, Strike)
    assert done.when.endswith("Z")
    read = day_book(book)
    assert isinstance(read, DayBook)
    assert read.records == (right,)
    assert read.struck == (replace(slip, struck=done),)  # all that was told, and by whom, is there as it was
    assert read.every == (*read.struck, right)
    assert read.before("Porch lantern", "arm") == 2
    book.close()
    again = opened(place)
    assert day_book(again) == read
    again.close()


def test_what_cannot_be_struck_is_a_finding_and_changes_nothing(place: str):
    book = opened(place)
    keep(book, Record(Told(stock=0.2), AHEAD))
    back = set_back(book, Reset("scale"))
    assert isinstance(back, Reset)
    assert isinstance(strike(book, 1, "Ann"), Strike)
    before = day_book(book)
    found = [strike(book, number) for number in (1, 2, 3, 0, -1, 10**12)]
    assert [f.name for f in found if isinstance(f, Finding) and f.stops] == [
        "record-struck-already", *["no-such-record"] * 5
    ]  # fmt: skip
    assert "Ann" in str(found[0])
    assert "a figure was set back" in str(found[1])
    assert day_book(book) == before
    book.close()


def test_of_many_who_strike_one_record_at_once_one_does(place: str):
    keeper = opened(place)
    keep(keeper, Record(Told(stock=0.2), AHEAD))
    keeper.close()
    books = [opened(place) for _ in range(4)]
    done: list[Strike | Finding] = []
    threads = [threading.Thread(target=lambda one=book: done.append(strike(one, 1))) for book in books]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sum(isinstance(one, Strike) for one in done) == 1
    assert {one.name for one in done if isinstance(one, Finding)} == {"record-struck-already"}
    for book in books:
        book.close()


def test_a_record_that_cannot_be_read_can_be_struck_and_is_then_not_told_of(tmp_path: Path):
    book = opened(str(tmp_path / "rack.sqlite"))
    row = "INSERT INTO day_book (at, who, what, job, piece, figure, made, refused, remark, body) VALUES "
    row += "('2026', '', 'record', 'j', 'p', '', 1, '', '', '[]')"
    changed(book, lambda connection: connection.execute(text(row)).rowcount)
    assert isinstance(strike(book, 1), Strike)
    assert day_book(book) == DayBook()
    book.close()


def test_a_book_of_the_step_before_is_brought_up_to_date_and_loses_nothing(tmp_path: Path):
    """As a bickern that knew no striking left it: without the table, and with its own step written in it."""
    place = tmp_path / "rack.sqlite"
    book = opened(str(place))
    kept = keep(book, Record(Told(stock=0.2), AHEAD))
    book.close()
    with closing(sqlite3.connect(place)) as old:
        old.execute("DROP TABLE day_book_struck")
        old.execute("UPDATE bickern_step SET version_num = '0002'")
        old.commit()
    book = opened(str(place))
    read = day_book(book)
    assert isinstance(read, DayBook)
    assert read.records == (kept,)
    assert isinstance(strike(book, 1), Strike)
    book.close()


def test_a_backup_holds_what_was_struck(place: str, tmp_path: Path):
    book = opened(place)
    keep(book, Record(Told(stock=0.2), AHEAD))
    strike(book, 1, "Ann")
    assert backup(book, tmp_path / "copy.sqlite") == tmp_path / "copy.sqlite"
    copy = opened(str(tmp_path / "copy.sqlite"))
    assert day_book(copy) == day_book(book)
    assert isinstance(strike(copy, 1), Finding)
    for one in (book, copy):
        one.close()


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE day_book SET remark = 'x'", "DELETE FROM day_book",
        "UPDATE day_book_struck SET because = 'x'", "DELETE FROM day_book_struck",
    ],
)  # fmt: skip
def test_the_database_itself_refuses_to_change_what_was_kept(place: str, words: str):
    book = opened(place)
    keep(book, Record(Told(stock=0.2), AHEAD))
    strike(book, 1)
    before = day_book(book)
    refused = changed(book, lambda connection: connection.execute(text(words)).rowcount)
    assert isinstance(refused, Finding)
    assert refused.stops
    assert day_book(book) == before
    book.close()


@pytest.mark.parametrize(
    ("body", "name"),
    [
        ('{"form": 99}', "record-too-new"),
        ("", "record-not-read"),
        ("[]", "record-not-read"),
        ('{"form": 1, "told": {}, "foresight": {}}', "record-not-read"),
        ('{"form": "x"}', "record-not-read"),
        ('{"form": 1, "told": [], "foresight": {}}', "record-not-read"),
        ("[" * 100_000, "record-not-read"),
    ],
)
def test_a_record_that_cannot_be_read_is_told_and_the_others_count(tmp_path: Path, body: str, name: str):
    book = opened(str(tmp_path / "rack.sqlite"))
    keep(book, Record(Told(stock=0.2), AHEAD))
    row = "INSERT INTO day_book (at, who, what, job, piece, figure, made, refused, remark, body) VALUES "
    row += f"('2026', '', 'record', 'j', 'p', '', 1, '', '', '{body}')"
    changed(book, lambda connection: connection.execute(text(row)).rowcount)
    read = day_book(book)
    assert not isinstance(read, Finding)
    assert len(read.records) == 1
    assert [f.name for f in read.found] == [name]
    assert not read.found[0].stops
    book.close()


KEEPER = """
import sys
from bickern.book.database.open import open_book
from bickern.book.record.keep import keep, set_back
from bickern.making.lessons.record import Foresight, Record, Reset, Told
ahead = Foresight("job", "arm", 1, 0, 1, "", 0.0, 0.0, 0.0, True, (), (), ())
book = open_book(sys.argv[1])
for n in range(200):
    told = Told(stock=n + 1.0, remark="r" * 2000)
    kept = keep(book, Record(told, ahead)) if n % 10 else set_back(book, Reset("scale"))
    print(n, flush=True)
"""


def killed(place: str, after: float) -> int:
    """Keeps 200 records in a process of its own and kills it in the midst of them; how many were said to be kept."""
    child = subprocess.Popen([sys.executable, "-c", KEEPER, place], stdout=subprocess.PIPE, text=True)
    assert child.stdout is not None
    said = child.stdout.readline()  # the first is kept: it is at work
    time.sleep(after)
    child.send_signal(signal.SIGKILL)
    said += child.stdout.read()
    child.wait()
    return len(said.splitlines())


def test_a_program_killed_while_it_keeps_leaves_whole_records_alone(place: str):
    opened(place).close()
    chance, promised = random.Random(6), 0
    for _ in range(6):
        promised += killed(place, chance.uniform(0.0, 0.25))
        book = opened(place)
        read = day_book(book)
        assert not isinstance(read, Finding)
        there = len(read.records) + len(read.resets)
        assert read.found == ()
        # at most the one that was kept and not yet told; a server may end the one of the time before after we looked
        assert promised <= there <= promised + (1 if book.file else 2)
        promised = there
        assert all(len(record.told.remark) == 2000 for record in read.records)
        book.close()
    assert promised > 6


def test_several_who_keep_at_once_all_keep(place: str):
    opened(place).close()
    faults: list[Finding] = []

    def work(who: str) -> None:
        book = opened(place)
        for n in range(5):
            kept = keep(book, Record(Told(stock=0.1 + n), AHEAD, who=who))
            if isinstance(kept, Finding):
                faults.append(kept)
        book.close()

    threads = [threading.Thread(target=work, args=(f"smith {n}",)) for n in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    book = opened(place)
    read = day_book(book)
    assert not isinstance(read, Finding)
    assert not faults
    assert len({record.number for record in read.records}) == 20
    assert read.before("Porch lantern", "arm") == 20
    book.close()


def test_a_full_disk_keeps_nothing_and_says_so(tmp_path: Path):
    place = str(tmp_path / "rack.sqlite")
    book = opened(place)
    keep(book, Record(Told(stock=0.2), AHEAD))

    def filled(connection: object) -> object:
        connection.exec_driver_sql("PRAGMA max_page_count = 1")  # type: ignore[attr-defined]
        values = "('2026', '', 'record', 'j', 'p', '', 1, '', '', printf('%.1000000c', 'x'))"  # a million letters
        names = "(at, who, what, job, piece, figure, made, refused, remark, body)"
        return connection.execute(text(f"INSERT INTO day_book {names} VALUES {values}"))  # type: ignore[attr-defined]

    found = changed(book, filled)  # type: ignore[arg-type]
    assert isinstance(found, Finding)
    assert found.name == "rack-disk-full"
    read = day_book(book)
    assert not isinstance(read, Finding | DBAPIError)
    assert len(read.records) == 1
    book.close()
