"""The shelf of printed figures is whole: every row is held by one test, says how it is known, and can fail."""

import re
import sys
from collections import Counter
from pathlib import Path

import pytest

from bickern.desk.printed import Held, Printed

ROOT = Path(__file__).parents[2]
TESTS = ROOT / "tests" / "published"
sys.path[:0] = [str(ROOT / "tools"), str(TESTS)]

import shelf  # noqa: E402 - it lies with the printed figures
import validation  # noqa: E402 - a tool lies beside the package

TOPICS = {
    "bar weights", "sheet weights", "gauges", "sections", "rings and links", "chains", "coils",
    "drawing and upsetting", "bends in bars", "twists and scrolls", "holes and slits", "rivets", "collars",
    "folds in sheet", "seams and edges", "cones", "pyramids", "pipes", "bowls and balls", "units",
}  # fmt: skip
FILES = sorted(TESTS.glob("test_*.py"))
BOOKS = sorted(path.stem for path in shelf.BOOKS.glob("*.csv"))
ROWS = [(figure.key, figure.row) for key in BOOKS for figure in shelf.rows(key)]


def test_every_row_is_held_by_one_test():
    held = Counter(
        (figure.key, figure.row.place.line)
        for path in FILES
        for test in vars(validation.loaded(path)).values()
        if callable(test)
        for figure in validation.figures_in(test)
    )
    assert held == Counter((key, row.place.line) for key, row in ROWS)


@pytest.mark.parametrize("key", BOOKS)
def test_every_row_says_what_it_is_where_it_stands_and_how_it_is_known(key: str):
    for row in (figure.row for figure in shelf.rows(key)):
        assert row.topic in TOPICS, row.place
        assert row.known in validation.KNOWN, row.place
        assert row.where, row.place
        assert row.note or not room_is_its_own(row), f"{row.place}: why so much room?"


def room_is_its_own(row: Printed) -> bool:
    """Whether a row allows more than half a unit of its last printed place: of what is right, in a misprint."""
    return row.bound or row.most - row.least > last_place(row.said_right or row.printed) * 1.01


def last_place(text: str) -> float:
    """One unit of the last printed place; of a fraction, one of its parts."""
    if "/" in text:
        return 1 / int(text.split("/")[-1])
    return 10.0 ** -len(text.partition(".")[2])


def test_the_last_printed_place():
    assert [last_place(text) for text in ("14", "14 5/8", "3/64", "25.", "0.350")] == [1, 1 / 8, 1 / 64, 1, 0.001]


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_a_source_is_print_and_named_on_top(path: Path):
    text = path.read_text()
    assert text.startswith('"""')
    books = [b for b in BOOKS if re.search(rf'"{b}"', text)]
    told = text + "".join((shelf.BOOKS / f"{b}.csv").read_text() for b in books)
    assert not re.search(r"youtu|video|transcrip[t]|podcast|calculator", told, re.IGNORECASE)


def test_most_figures_would_notice_a_change_of_two_per_cent():
    """A check that cannot fail is no check: a figure two per cent larger is refused, but where a book rounds so far."""
    exact = [row for _, row in ROWS if not row.bound and row.right is None]
    noticed = [row for row in exact if not Held(row, row.value * 1.02).fits]
    assert len(noticed) > 0.9 * len(exact)
