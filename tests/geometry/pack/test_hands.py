"""Two searches at once: which one counts, what becomes of a lost one, and what is dropped at the end."""

import math
import time
from collections.abc import Callable

import pytest

from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes import hands
from bickern.geometry.pack.shapes.alone import Asked, checked, nest_of
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.nest import nest
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import disc, rectangle

PARTS = (Part("plate", rectangle(0.1, 0.1), (), 40),)
SHEETS = (Remnant("a", rectangle(0.7, 0.7), cost=2.0), Remnant("b", rectangle(0.9, 0.6), cost=1.0))
ASKED = Asked(PARTS, SHEETS, Spacing(0.002, 0.001), seed=1, effort=100)
STOPPED = Lost("it was told to stop")
LOST = Lost("it crashed (SIGSEGV)")


def row(count: int, sheet: str = "a") -> Nest:
    """Plates in rows of six on a sheet, a tenth of a metre and the gap apart."""
    laid = [Laid("plate", sheet, 0.0, 0.001 + 0.103 * (n % 6), 0.001 + 0.103 * (n // 6)) for n in range(count)]
    return nest_of(laid, ASKED)


def line(moves: int, made: Nest) -> str:
    told = [[one.part, one.remnant, one.turn, one.x, one.y] for one in made.laid]
    return hands.json.dumps([moves, told])


def children(monkeypatch: pytest.MonkeyPatch, *each: tuple[list[str], object]) -> None:
    """Stands in for the two processes: what each says, and how it ends."""

    def in_child(work: str, asked: Asked, seconds: float, *, keep_going: Callable[[], bool], report) -> object:  # type: ignore[no-untyped-def]
        said, ended = each[0 if asked.seed == ASKED.seed else 1]
        for one in said:
            report(one)
        while ended == STOPPED and keep_going():
            time.sleep(0.005)
        return ended

    monkeypatch.setattr(hands, "in_child", in_child)


def test_the_better_of_two_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    children(monkeypatch, ([line(5, row(9))], (row(9), 60)), ([line(9, row(11)), line(20, row(10))], (row(11), 40)))
    heard: list[str] = []
    made = hands.by_hands(ASKED, lambda: True, heard.append)
    assert isinstance(made, Nest)
    assert (len(made.laid), made.short, made.cut_short, made.why) == (11, (("plate", 29),), False, "")
    assert "11 of 40 laid on 1 sheet" in heard
    assert not any("10 of 40" in words for words in heard)


def test_of_two_as_full_the_cheaper_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    children(monkeypatch, ([], (row(9, "a"), 60)), ([], (row(9, "b"), 60)))
    made = hands.by_hands(ASKED, lambda: True, lambda says: None)
    assert isinstance(made, Nest)
    assert made.cost == 1.0


def test_what_was_found_after_the_quickest_had_laid_all_does_not_count(monkeypatch: pytest.MonkeyPatch) -> None:
    """Both lay all six; the second on the cheaper sheet, but only after more moves than the first took in all."""
    six = Asked((Part("plate", rectangle(0.1, 0.1), (), 6),), SHEETS, ASKED.spacing, 1, 100)
    dear, cheap = (nest_of(row(6, sheet).laid, six) for sheet in ("a", "b"))
    for late, cost in ((30, 2.0), (19, 1.0)):
        children(monkeypatch, ([line(4, dear)], (dear, 20)), ([line(late, cheap), line(31, row(0))], STOPPED))
        made = hands.by_hands(six, lambda: True, lambda says: None)
        assert isinstance(made, Nest)
        assert (made.short, made.cost, made.cut_short) == ((), cost, False)


def test_a_lost_search_leaves_the_other_and_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    children(monkeypatch, ([line(5, row(12))], LOST), ([], (row(9), 60)))
    made = hands.by_hands(ASKED, lambda: True, lambda says: None)
    assert isinstance(made, Nest)
    assert (len(made.laid), made.cut_short) == (12, False)
    assert "SIGSEGV" in made.why


def test_with_both_lost_it_is_searched_here_and_that_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    children(monkeypatch, ([], LOST), ([], LOST))
    assert hands.by_hands(ASKED, lambda: True, lambda says: None) == LOST
    discs = (Part("disc", disc(0.05), (), 40),)  # squares are laid side by side, without a search
    made = nest(discs, SHEETS, ASKED.spacing, effort=60)
    assert len(made.laid) > 20
    assert "SIGSEGV" in made.why
    assert faults_of(made, discs, SHEETS, ASKED.spacing) == ()


def test_what_is_told_to_stop_gives_the_best_till_then(monkeypatch: pytest.MonkeyPatch) -> None:
    children(monkeypatch, ([line(5, row(12))], STOPPED), ([], STOPPED))
    made = hands.by_hands(ASKED, lambda: False, lambda says: None)
    assert isinstance(made, Nest)
    assert (len(made.laid), made.cut_short, made.why) == (12, True, "")


def test_real_processes_are_stopped_and_what_they_found_is_kept() -> None:
    """Eighty plates on sheets that have room for some seventy: the search would go on long after that."""
    parts = (Part("plate", rectangle(0.1, 0.1), (), 80),)
    heard: list[str] = []
    made = nest(parts, SHEETS, ASKED.spacing, keep_going=lambda: not heard, report=heard.append)
    assert heard
    assert made.cut_short
    assert made.laid
    assert faults_of(made, parts, SHEETS, ASKED.spacing) == ()


def test_the_copy_that_is_blamed_is_dropped_and_no_other() -> None:
    laid = [*row(4).laid, Laid("plate", "a", 0.0, 0.15, 0.02), *row(8).laid[4:]]
    made = checked(nest_of(laid, ASKED), ASKED)
    assert len(made.laid) == 8
    assert laid[4] not in made.laid
    outside = checked(nest_of([Laid("plate", "a", math.pi, 0.05, 0.05), *row(3).laid[1:]], ASKED), ASKED)
    assert outside.laid == row(3).laid[1:]
