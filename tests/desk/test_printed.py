"""A book of figures: how its rows are read, what agrees and what does not."""

from pathlib import Path

import pytest

from bickern.cli.asking import answer_of
from bickern.cli.main import run
from bickern.desk.printed import Held, Printed, digits, hold, read_book, read_printed
from bickern.measure.figure import Figure

HEAD = "ask,answer,printed,unit,within,pi,right\n"
RING = "ring '1/2 rd' 10,along the middle,"  # pi x 10 1/2 = 32.9867 in


def row(text: str) -> Printed:
    rows, faults = read_printed(HEAD + text, "book.csv")
    assert not faults
    return rows[0]


def agrees(text: str) -> bool:
    found = hold(row(text), answer_of)
    assert found.value is not None, found.findings
    return found.value.fits


@pytest.mark.parametrize(
    ("rest", "fits"),
    [
        ("32.99,in,,,", True),  # half of the last place: 32.985 to 32.995
        ("32.98,in,,,", False),
        ("33,in,,,", True),  # 32.5 to 33.5
        ("33.0,in,,,", True),
        ("33.00,in,,,", False),
        ("33.00,in,0.02,,", True),
        ("33.00,in,22/7,,", None),  # room is no number
        ("33.0000,in,,22/7,", True),  # 22/7 x 10 1/2
        ("33.4,in,+0.5,,", True),  # a bound: ours <= printed <= ours + 0.5
        ("33.6,in,+0.5,,", False),
        ("32.9,in,+0.5,,", False),
        ("32.9,in,-0.5,,", True),  # a bound: ours - 0.5 <= printed <= ours
        ("33.1,in,-0.5,,", False),
        ("837.9,mm,,,", True),
        ("2.749,ft,,,", True),
        ("2 3/4,ft,0.01,,", True),
        ("23.99,in,,,32.99", True),  # a misprint: digits turned about
        ("32.99,in,,,32.99", False),  # no misprint at all
        ("23.99,in,,,33.99", False),  # nor is what it should say ours
    ],
)
def test_room_pi_bounds_and_misprints(rest: str, fits: bool | None):
    if fits is None:
        assert read_printed(HEAD + RING + rest, "book.csv")[1]
    else:
        assert agrees(RING + rest) is fits


def test_another_kind_of_thing_is_found_fault_with():
    assert hold(row(RING + "33,lb,,,"), answer_of).findings[0].name == "another-kind"
    assert hold(row("ring '1/2 rd' 10,along,33,in,,,"), answer_of).findings[0].name == "no-such-figure"
    assert hold(row("anvil 3,along,33,in,,,"), answer_of).findings[0].name == "no-such-question"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("", "columns-missing"),
        ("a,b\n1,2\n", "columns-missing"),
        (HEAD + RING + "33,cubit,,,\n", "no-such-unit"),
        (HEAD + RING + "thirty,in,,,\n", "no-number"),
        (HEAD + RING + "33,in,,pie,\n", "no-number"),
        (HEAD + RING + "33,in,,1/0,\n", "no-number"),
        (HEAD + "ring\n", "no-number"),
        (HEAD + RING + "33,in,nan,,\n", "no-number"),
    ],
)
def test_what_cannot_be_read_is_a_finding_with_its_line(text: str, name: str):
    _, faults = read_printed(text, "book.csv")
    assert [f.name for f in faults] == [name]
    assert faults[0].where.file == "book.csv"
    assert faults[0].where.line


def test_a_file_that_is_no_book(tmp_path: Path):
    (tmp_path / "a.csv").write_bytes(b"\xff\xfe\x00")
    assert read_book(tmp_path / "a.csv")[1][0].name == "no-csv"
    assert read_book(tmp_path / "none.csv")[1][0].name == "no-file"


def test_the_terminal_says_how_many_agree(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    book = tmp_path / "book.csv"
    book.write_text("﻿" + HEAD + RING + "32.99,in,,,\n" + RING + "31,in,,,\n")
    assert run(["ask", "book", str(book)]) == 1
    said = " ".join(capsys.readouterr().out.split())  # a narrow terminal wraps
    assert "1 of 2 figures agree" in said
    assert "off by -6.02 %" in said  # 31 for 32.9867
    book.write_text(HEAD + RING + "32.99,in,,,\n")
    assert run(["ask", "book", str(book)]) == 0


def test_digits_are_told_in_full():
    assert digits(Figure("a", 0.0254, "m")) == "1 in = 0.0254 m"
    assert digits(Figure("a", 7850.0, "kg/m3")) == "7850 kg/m3"


def test_a_misprint_must_be_clear():
    near = row(RING + "32.98,in,,,32.99")
    assert not Held(near, 32.9867).fits  # one unit of the last place is rounding, not a misprint
