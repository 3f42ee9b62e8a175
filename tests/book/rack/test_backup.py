"""A backup is the whole rack, read again by naming its file, from a file and from a server alike."""

import sqlite3
import threading
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import text

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.rack.backup import backup
from bickern.book.rack.change import add, change, remove
from bickern.book.rack.check import check
from bickern.book.rack.history import history
from bickern.book.rack.read import rack_of
from bickern.book.rack.take import take
from bickern.geometry.polygon import disc, rectangle
from bickern.iron.section import Section
from bickern.making.stock.rack import Rack, StockBar, StockSheet, Taking, Use
from bickern.measure.finding import Finding
from bickern.measure.units.words import Shape

BAR = StockBar("", Section(Shape.ROUND, 0.012, 0.012), 6.0, remark="naïve ½")
SHEET = StockSheet("", 0.001, rectangle(1.0, 0.5), (disc(0.1, (0.3, 0.2)),), grain=0.25)


def opened(place: str | Path) -> Book:
    book = open_book(place)
    assert isinstance(book, Book), book
    return book


def rack(book: Book) -> Rack:
    found = rack_of(book)
    assert isinstance(found, Rack), found
    return found


@pytest.fixture
def used(place: str) -> Book:
    """A rack in which everything has happened that can; a drop with a lower letter than what it is of, too."""
    book = opened(place)
    add(book, [BAR] * 11 + [SHEET], "Ann")
    last = rack(book).bars[-1]
    take(
        book,
        Taking((Use("B11", 1, ("a",), (replace(last, id="", length=2.0), replace(last, id="", length=3.0))),), ("j",)),
    )
    change(book, replace(rack(book).bars[0], place="floor"), "Bob")
    remove(book, ["B2"], "lost")
    with book.engine.begin() as connection:  # a server may now give the bar later than what was left of it
        connection.execute(text("UPDATE rack_piece SET remark = remark WHERE id = 'B11'"))
    return book


def rows(book: Book) -> list[list[tuple[object, ...]]]:
    """Every row of every table of the rack."""
    with book.engine.connect() as connection:
        return [
            sorted(map(tuple, connection.execute(text(f"SELECT * FROM {table}"))), key=str)
            for table in ("rack_piece", "rack_change", "rack_counter")
        ]


def test_a_backup_is_the_rack_with_all_its_history(used: Book, tmp_path: Path):
    path = tmp_path / "backup.sqlite"
    assert backup(used, path) == path
    again = opened(path)
    assert again.found == ()
    assert rack(again) == rack(used)
    assert [sorted(map(str, one)) for one in rows(again)] == [sorted(map(str, one)) for one in rows(used)]
    assert history(again, "B11") == history(used, "B11")
    assert check(again) == ()
    assert add(again, [BAR, SHEET]) == ("B14", "S2")
    assert not path.with_name("backup.sqlite.part").exists()


def test_what_is_there_is_never_overwritten(used: Book, tmp_path: Path):
    path = tmp_path / "kept"
    path.write_text("mine")
    found = backup(used, path)
    assert isinstance(found, Finding)
    assert found.name == "file-there"
    assert path.read_text() == "mine"
    missing = backup(used, tmp_path / "no" / "folder")
    assert isinstance(missing, Finding)


def test_a_backup_while_others_write_is_of_one_moment(tmp_path: Path, used: Book, place: str):
    stop = threading.Event()

    def writes() -> None:
        book = opened(place)
        while not stop.is_set():
            add(book, [BAR] * 3)
        book.close()

    other = threading.Thread(target=writes)
    other.start()
    try:
        for number in range(2):
            done = backup(used, tmp_path / f"{number}.sqlite")
            assert isinstance(done, Path), done
            assert check(opened(done)) == ()
            assert (len(rack(opened(done)).bars) - 11) % 3 == 0
    finally:
        stop.set()
        other.join()


def test_a_backup_that_cannot_be_written_is_told_of(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    book = opened(tmp_path / "rack.sqlite")
    monkeypatch.setattr("bickern.book.rack.backup.sqlite3.connect", _fails)
    found = backup(book, tmp_path / "backup.sqlite")
    assert isinstance(found, Finding)
    assert found.name == "backup-not-written"


def test_who_is_in_the_midst_of_a_commit_is_not_waited_for_for_ever(tmp_path: Path):
    opened(tmp_path / "rack.sqlite").close()
    book = open_book(tmp_path / "rack.sqlite", patience=0.2)
    assert isinstance(book, Book)
    other = sqlite3.connect(tmp_path / "rack.sqlite", isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    found = backup(book, tmp_path / "backup.sqlite")
    assert isinstance(found, Finding)
    assert found.name == "rack-busy"
    assert [one.name for one in tmp_path.iterdir() if "backup" in one.name] == []
    other.execute("ROLLBACK")
    other.close()
    assert backup(book, tmp_path / "backup.sqlite") == tmp_path / "backup.sqlite"


def test_what_an_earlier_backup_left_is_named_and_stays(tmp_path: Path):
    book = opened(tmp_path / "rack.sqlite")
    left = tmp_path / "backup.sqlite.part"
    left.write_text("half")
    found = backup(book, tmp_path / "backup.sqlite")
    assert isinstance(found, Finding)
    assert (found.name, left.read_text()) == ("file-there", "half")
    assert str(left) in found.says
    assert "cut short" in found.try_this


@pytest.mark.parametrize("end", ["-journal", "-wal", "-shm"])
def test_a_backup_where_the_database_would_undo_it_is_refused(tmp_path: Path, end: str):
    """SQLite takes a file of that name for the leavings of a change cut short, and takes it away."""
    book = opened(tmp_path / "rack.sqlite")
    found = backup(book, tmp_path / f"rack.sqlite{end}")
    assert isinstance(found, Finding)
    assert found.name == "backup-name"


def test_a_file_that_came_meanwhile_is_not_overwritten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    book, path = opened(tmp_path / "rack.sqlite"), tmp_path / "backup.sqlite"
    monkeypatch.setattr("bickern.book.rack.backup._wrong_name", lambda *_: path.write_text("mine") and None)
    found = backup(book, path)
    assert isinstance(found, Finding)
    assert (found.name, path.read_text()) == ("file-there", "mine")


def test_a_disk_that_knows_no_second_names_holds_a_backup_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    book, path = opened(tmp_path / "rack.sqlite"), tmp_path / "backup.sqlite"
    monkeypatch.setattr(Path, "hardlink_to", _no_link)
    assert backup(book, path) == path
    assert check(opened(path)) == ()
    assert sorted(one.name for one in tmp_path.iterdir()) == ["backup.sqlite", "rack.sqlite"]


def _no_link(*_: Path) -> None:
    raise PermissionError


@pytest.mark.parametrize("name", ["n" * 300, "n" * 253])
def test_a_name_that_no_file_can_have_ends_in_a_finding(tmp_path: Path, name: str):
    found = backup(opened(tmp_path / "rack.sqlite"), tmp_path / name)
    assert isinstance(found, Finding)
    assert found.name == "backup-not-written"


def _fails(_: Path) -> None:
    raise sqlite3.OperationalError("disk I/O error")
