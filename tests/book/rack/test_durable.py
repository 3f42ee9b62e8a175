"""The rack is always one of two states, before a change or after it: killed at any moment, or with the disk full.

What is held against what: a child process does the work and is killed; this one reads the rack afterwards, adds up the
metal, and compares it with what the child had said was done (exact mathematics: what was cut, what the saw took and
what is left make up what was put in).
"""

import json
import os
import random
import re
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import IO, Protocol

import pytest
from sqlalchemy import event, text

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.rack.change import add
from bickern.book.rack.check import check
from bickern.book.rack.history import History, history
from bickern.book.rack.read import rack_of
from bickern.book.rack.take import take
from bickern.book.record.keep import DayBook, day_book
from bickern.iron.section import Section
from bickern.making.stock.rack import Rack, StockBar, Taking, Use
from bickern.measure.finding import Finding
from bickern.measure.units.words import Shape

SRC = str(Path(__file__).parents[3] / "src")
SECTION = Section(Shape.ROUND, 0.012, 0.012)
KERF = 0.002
WHOLE = 100.0
"""[m] Longer than any bar is: there must be metal left for every child to cut."""
BARS = 40

WORKER = """
import random, sys
from dataclasses import replace
from bickern.book.database.open import open_book
from bickern.book.rack.change import change
from bickern.book.rack.read import rack_of
from bickern.book.rack.take import take
from bickern.book.record.keep import keep
from bickern.making.lessons.record import Foresight, Record, Told
from bickern.making.stock.rack import Taking, Use

place, seed = sys.argv[1], int(sys.argv[2])
chance, book = random.Random(seed), open_book(place)
print("ready", flush=True)
for number in range(200):
    rack = rack_of(book)
    assert not getattr(rack, "stops", False), rack
    bars = [bar for bar in rack.bars if bar.length > 0.3]
    if number % 5 == 3:
        ahead = Foresight(f"job {seed} {number}", "arm", 1, 0, 1, "", 0.0, 0.0, 0.0, True, (), (), ())
        done = keep(book, Record(Told(seconds=60.0, remark="r" * 1500), ahead))
    elif number % 5 == 4:
        bar = chance.choice(bars)
        done = change(book, replace(bar, place=f"place {seed} {number}"), "child", what="moved")
    else:
        uses = []
        for bar in chance.sample(bars, min(3, len(bars))):
            cut = round(chance.uniform(0.05, 0.2), 4)
            left = replace(bar, id="", version=0, length=bar.length - cut - 0.002)
            uses.append(Use(bar.id, bar.version, (f"cut {cut}",), (left,)))
        done = take(book, Taking(tuple(uses), (f"job {seed} {number}",)), "child")
    assert not getattr(done, "stops", False), done
    print("done", number, flush=True)
"""
"""Cuts, puts back what is left, records and moves, and tells of each when it is through."""


def opened(place: str) -> Book:
    book = open_book(place)
    assert isinstance(book, Book), book
    return book


def rack(book: Book) -> Rack:
    found = rack_of(book)
    assert isinstance(found, Rack), found
    return found


class Server(Protocol):
    """A server that may be killed (tests/book/conftest.py)."""

    address: str

    def start(self) -> None: ...

    def kill(self) -> None: ...


class Child(subprocess.Popen[str]):
    """A process of its own; its ends are always there."""

    stdin: IO[str]
    stdout: IO[str]
    stderr: IO[str]


def child(code: str, *words: str) -> Child:
    environment = {**os.environ, "PYTHONPATH": SRC}
    pipe = subprocess.PIPE
    return Child([sys.executable, "-c", code, *words], env=environment, text=True, stdin=pipe, stdout=pipe, stderr=pipe)


@pytest.fixture
def full(place: str) -> Iterator[Book]:
    """A rack with forty bars."""
    book = opened(place)
    add(book, [StockBar("", SECTION, WHOLE, "mild", "none")] * BARS)
    yield book
    book.close()


def entries(book: Book) -> list[tuple[str, str, list[str], list[str]]]:
    """What, of which piece, for which jobs, into which cuts: the whole history, by another way than the rack's own."""
    with book.engine.connect() as connection:
        rows = connection.execute(text("SELECT what, piece, jobs, cuts, says FROM rack_change ORDER BY number")).all()
    return [(what, piece, json.loads(jobs), json.loads(cuts)) for what, piece, jobs, cuts, _ in rows]


def metal(book: Book) -> float:
    """All that lies there, all that was cut off, and what the saw took."""
    cuts = [float(one.split()[1]) for what, _, _, into in entries(book) if what == "cut" for one in into]
    return sum(bar.length for bar in rack(book).bars) + sum(cuts) + KERF * len(cuts)


def jobs_cut(book: Book) -> set[str]:
    return {job for _, _, jobs, _ in entries(book) for job in jobs}


def jobs_done(book: Book) -> set[str]:
    """Jobs that were cut for, and those that were recorded."""
    read = day_book(book)
    assert isinstance(read, DayBook), read
    return jobs_cut(book) | {record.foresight.job for record in read.records}


def whole_or_not(book: Book) -> None:
    """Each job's cuts are all there, and each has its drop: no taking is there by half."""
    told = entries(book)
    assert metal(book) == pytest.approx(BARS * WHOLE, abs=1e-8)
    assert len([1 for what, *_ in told if what == "drop"]) == len([1 for what, *_ in told if what == "cut"])
    for job in jobs_cut(book):
        assert sum(job in jobs for _, _, jobs, _ in told) == 3
    assert check(book) == ()
    read = day_book(book)
    assert isinstance(read, DayBook)
    assert read.found == ()
    assert {len(record.told.remark) for record in read.records} <= {1500}


def killed(place: str, seed: int, after: float) -> int:
    """Lets a child work and kills it some time after its first word; the number of the last change it told of."""
    worker = child(WORKER, place, str(seed))
    first = worker.stdout.readline()
    assert first == "ready\n", worker.stderr.read()
    time.sleep(after)
    worker.send_signal(signal.SIGKILL)
    said, _ = worker.communicate()
    told = [int(number) for number in re.findall(r"done (\d+)\n", said)]
    return told[-1] if told else -1


def kills(book: Book, place: str, times: int, seed: int) -> None:
    """Children work and are killed, one after another; the rack is looked at after each."""
    chance = random.Random(seed)
    for child_seed in range(times):
        told_is_there(book, child_seed, killed(place, child_seed, chance.uniform(0.0, 0.6)))
    assert jobs_done(book), "no child came to do anything"


def told_is_there(book: Book, seed: int, last: int) -> None:
    """What a child had told of is there; one more may be, of which only its word was lost."""
    whole_or_not(book)
    for number in range(last + 1):
        assert number % 5 == 4 or f"job {seed} {number}" in jobs_done(book)
    assert not {f"job {seed} {last + more}" for more in (2, 3, 4)} & jobs_done(book)


def test_killed_at_any_moment_nothing_is_there_by_half_and_nothing_told_is_lost(full: Book, place: str):
    kills(full, place, 4, 20)


@pytest.mark.soak
def test_killed_two_hundred_times(full: Book, place: str):
    kills(full, place, 200, int(time.time()))


@pytest.mark.soak
def test_a_server_that_is_killed_itself_has_lost_nothing_it_had_told_of(mortal: Server):
    place = mortal.address.format("postgres")
    book = opened(place)
    add(book, [StockBar("", SECTION, WHOLE, "mild", "none")] * BARS)
    for seed in range(5):
        worker = child(WORKER, place, str(seed))
        assert worker.stdout.readline() == "ready\n"
        time.sleep(random.Random(seed).uniform(0.1, 0.8))
        mortal.kill()
        said, wrong = worker.communicate(timeout=60)
        assert "rack-refuses" in wrong or "rack-unsure" in wrong or "done 199" in said
        mortal.start()
        told_is_there(book, seed, max((int(n) for n in re.findall(r"done (\d+)\n", said)), default=-1))
    assert jobs_done(book)
    book.close()


KILLED_INSIDE = """
import os, signal, sys
from dataclasses import replace
from sqlalchemy import event
from bickern.book.database.open import open_book
from bickern.book.rack.read import rack_of
from bickern.book.rack.take import take
from bickern.book.record.keep import keep
from bickern.making.lessons.record import Foresight, Record, Told
from bickern.making.stock.rack import Taking, Use

def does(when):
    book, count = open_book(sys.argv[1]), 0
    bars = rack_of(book).bars[:3]

    @event.listens_for(book.engine, "after_cursor_execute")
    def _(*_):
        nonlocal count
        count += 1
        if count > when:
            os.kill(os.getpid(), signal.SIGKILL)

    uses = tuple(Use(b.id, b.version, ("cut 0.1",), (replace(b, id="", length=b.length - 0.102),)) for b in bars)
    if sys.argv[2] == "take":
        take(book, Taking(uses, (f"inside {when}",)), "child")
    else:
        ahead = Foresight(f"inside {when}", "arm", 1, 0, 1, "", 0.0, 0.0, 0.0, True, (), (), ())
        keep(book, Record(Told(seconds=60.0, remark="r" * 1500), ahead))
    os._exit(0)

for line in sys.stdin:
    one = os.fork()
    if not one:
        does(int(line))
    print(os.waitpid(one, 0)[1], flush=True)
"""
"""For each number on a line of its own: a process that dies by its own hand after so many words to the database."""


@pytest.mark.parametrize(("what", "words"), [("take", 8), ("record", 1)])
def test_killed_between_any_two_words_to_the_database(full: Book, place: str, what: str, words: int):
    worker = child(KILLED_INSIDE, place, what)
    ends = []
    while not ends or ends[-1]:
        worker.stdin.write(f"{len(ends)}\n")
        worker.stdin.flush()
        ends.append(int(worker.stdout.readline()))
        whole_or_not(full)
        assert (f"inside {len(ends) - 1}" in jobs_done(full)) == (ends[-1] == 0)
    worker.communicate()
    assert set(ends[:-1]) == {signal.SIGKILL}
    assert len(ends) > words, "it says more to the database than that"


KILLED_OPENING = """
import os, signal, sys
from sqlalchemy import event
from sqlalchemy.engine import Engine
from bickern.book.database.open import open_book

def does(when):
    count = 0

    @event.listens_for(Engine, "after_cursor_execute")
    def _(*_):
        nonlocal count
        count += 1
        if count > when:
            os.kill(os.getpid(), signal.SIGKILL)

    open_book(sys.argv[1])
    os._exit(0)

for line in sys.stdin:
    one = os.fork()
    if not one:
        does(int(line))
    print(os.waitpid(one, 0)[1], flush=True)
"""
"""The same while a rack is made and brought up to date."""


def test_killed_while_it_is_made_there_is_no_rack_or_a_whole_one(place: str):
    worker, ends, word = child(KILLED_OPENING, place), [], 0
    while not ends or ends[-1]:
        worker.stdin.write(f"{word}\n")
        worker.stdin.flush()
        ends.append(int(worker.stdout.readline()))
        found = open_book(place, make=False)
        if ends[-1]:
            assert isinstance(found, Finding)
            assert found.name == "no-rack"
            word += 6  # every sixth word: it says some fifty
    worker.communicate()
    assert set(ends[:-1]) == {signal.SIGKILL}
    assert len(ends) > 4
    book = opened(place)
    assert book.found == ()
    assert add(book, [StockBar("", SECTION, 1.0)]) == ("B1",)
    assert check(book) == ()
    assert day_book(book) == DayBook()
    book.close()


DISK_FULL = """
import os, resource, sys
from bickern.book.database.open import open_book
from bickern.book.rack.change import add
from bickern.book.rack.read import rack_of
from dataclasses import replace

book = open_book(sys.argv[1])
bar = rack_of(book).bars[0]
room = os.path.getsize(sys.argv[1]) + int(sys.argv[2])
resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
print(getattr(add(book, [replace(bar, id="", remark="x" * 150)] * 2000), "name", "put in"))
"""


@pytest.mark.parametrize("room", [0, 4096, 50_000, 200_000])
def test_with_the_disk_full_a_finding_comes_and_nothing_is_lost(tmp_path: Path, room: int):
    place = str(tmp_path / "rack.sqlite")
    book = opened(place)
    add(book, [StockBar("", SECTION, WHOLE, "mild", "none")] * BARS)
    before = rack(book)
    said, wrong = child(DISK_FULL, place, str(room)).communicate(timeout=60)
    assert (said, wrong) == ("rack-disk-full\n", "")
    assert rack(book) == before
    assert check(book) == ()
    assert add(book, [StockBar("", SECTION, 1.0)]) == (f"B{BARS + 1}",)


def test_the_same_where_the_file_may_not_grow(tmp_path: Path):
    """SQLite's own limit, in this process: every page of a rack that has no room for one more."""
    book = opened(str(tmp_path / "rack.sqlite"))

    @event.listens_for(book.engine, "connect")
    def _(connection: sqlite3.Connection, _: object) -> None:
        connection.execute("PRAGMA max_page_count = 1")  # means: no more than there are

    found = add(book, [StockBar("", SECTION, 1.0)] * 2000)
    assert isinstance(found, Finding)
    assert found.name == "rack-disk-full"
    assert rack(book) == Rack()


def one_bar(bar: StockBar, who: str) -> Taking:
    return Taking((Use(bar.id, bar.version, (f"for {who}",)),), (f"{who}'s job",))


def test_of_two_who_take_the_same_bar_at_once_one_gets_it(full: Book, place: str):
    names = ("Ann", "Bob", "Cyd", "Dan")
    books = {name: opened(place) for name in names}
    for bar in rack(full).bars[:4]:
        with ThreadPoolExecutor(len(names)) as together:
            done = list(together.map(lambda who, bar=bar: take(books[who], one_bar(bar, who), who), names))
        got = [who for who, one in zip(names, done, strict=True) if not isinstance(one, Finding)]
        late = [one for one in done if isinstance(one, Finding)]
        assert len(got) == 1
        assert {one.name for one in late} == {"stock-already-taken"}
        assert all(f"by {got[0]}" in one.says for one in late)
        told = history(full, bar.id)
        assert isinstance(told, History)
        assert [change.who for change in told.changes if change.what == "cut"] == got
    assert check(full) == ()
    for book in books.values():
        book.close()


TAKES_ALL = """
import sys
from bickern.book.database.open import open_book
from bickern.book.rack.read import rack_of
from bickern.book.rack.take import take
from bickern.making.stock.rack import Taking, Use

book = open_book(sys.argv[1])
bars = rack_of(book).bars
print("ready", flush=True)
sys.stdin.readline()
bars = bars if sys.argv[2] == "up" else bars[::-1]
for bar in bars:
    done = take(book, Taking((Use(bar.id, bar.version, ()),), (sys.argv[2],)), sys.argv[2])
    print(bar.id, getattr(done, "name", "got"), flush=True)
"""


def test_two_processes_share_a_rack_without_taking_anything_twice(full: Book, place: str):
    both = [child(TAKES_ALL, place, way) for way in ("up", "down")]
    assert [one.stdout.readline() for one in both] == ["ready\n"] * 2
    lines = [line.split() for text in _together(both) for line in text.splitlines()]
    assert {what for _, what in lines} == {"got", "stock-already-taken"}
    got = [piece for piece, what in lines if what == "got"]
    assert sorted(got) == sorted(f"B{number}" for number in range(1, BARS + 1))
    assert rack(full).bars == ()
    assert check(full) == ()


def _together(both: list[Child]) -> list[str]:
    """Both are told to go before either is waited for."""
    for one in both:
        one.stdin.write("go\n")
        one.stdin.flush()
    return [one.communicate(timeout=120)[0] for one in both]


def test_those_who_put_in_at_once_never_get_the_same_number(full: Book, place: str):
    books = [opened(place) for _ in range(4)]
    bar = StockBar("", SECTION, 1.0)
    with ThreadPoolExecutor(4) as together:
        done = list(together.map(lambda book: [add(book, [bar, bar]) for _ in range(5)], books))
    ids = [one for some in done for pair in some if isinstance(pair, tuple) for one in pair]
    assert len(ids) == len(set(ids)) == 40
    assert check(full) == ()
    for book in books:
        book.close()


def test_takings_that_want_the_same_bars_never_hold_each_other_up(full: Book, place: str):
    """Each wants the same two, named in other orders, and dawdles after the first one."""
    one, two = rack(full).bars[:2]
    uses = (Use(one.id, one.version, ()), Use(two.id, two.version, ()))
    books = [opened(place), opened(place)]
    for book in books:
        event.listen(book.engine, "after_cursor_execute", _dawdle)
    takings = [Taking(uses, ("a",)), Taking(uses[::-1], ("b",))]
    with ThreadPoolExecutor(2) as together:
        done = list(together.map(take, books, takings))
    assert [found.name for found in done if isinstance(found, Finding)] == ["stock-already-taken"]
    for book in books:
        book.close()


def _dawdle(_: object, __: object, words: str, *___: object) -> None:
    if words.startswith("UPDATE rack_piece"):
        time.sleep(0.2)
