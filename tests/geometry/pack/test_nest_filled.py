"""Rectangular sheets filled as strips where a search is short: which nest is kept, and what is said of a lost one."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes import filled as room
from bickern.geometry.pack.shapes import nest as door
from bickern.geometry.pack.shapes import strip as rows
from bickern.geometry.pack.shapes.alone import Asked, nest_of
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.filled import A_MOVE, filled, seconds_for
from bickern.geometry.pack.shapes.nest import FEW, nest
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import disc, from_points, rectangle, sector

SPACING = Spacing(0.003, 0.003)
PARTS = (
    Part("sector", sector(0.12, 0.05, 1.2), (), 8),
    Part("disc", disc(0.03), (), 10),
    Part("tri", from_points(((0, 0), (0.08, 0), (0.02, 0.06))), (), 8, (0.0, math.pi / 2)),
)
SHEETS = (Remnant("S", rectangle(0.78, 0.25, (1.0, 2.0)), cost=3.0),)
"""The parts fill a little more than half of it: strips have that at once."""
ASKED = Asked(PARTS, SHEETS, SPACING, seed=1, effort=8000)
DISCS = (Part("disc", disc(0.05), (), 30),)


def stays(made: Nest) -> Callable[..., Nest]:
    """Stands in for the search in two processes."""
    return lambda asked, keep_going, report: made


def discs(count: int, sheet: str = "S") -> Nest:
    """Discs in a row of a sheet 0.4 x 0.4, or of one that is wider."""
    at = [(0.06 + 0.11 * (n % 3), 0.06 + 0.11 * (n // 3)) for n in range(count)]
    return nest_of([Laid("disc", sheet, 0.0, x, y) for x, y in at], replace(ASKED, parts=DISCS))


def costing(count: int, sheet: str, cost: float) -> Nest:
    return replace(discs(count, sheet), cost=cost)


def test_what_the_search_leaves_short_is_laid_by_strips(
    monkeypatch: pytest.MonkeyPatch, breaches: Callable[..., list[str]]
) -> None:
    """The search lays one disc of twenty-six parts; the strip is truly searched, twice with the same seed."""
    first = nest_of([Laid("disc", "S", 0.0, 1.1, 2.1)], ASKED)
    monkeypatch.setattr(door, "by_hands", stays(first))
    assert sum(part.count for part in PARTS) > FEW
    made, again = (nest(PARTS, SHEETS, SPACING, seed=1, effort=20_000) for _ in range(2))
    assert made.short == ()
    assert not made.cut_short
    assert made.cost == 3.0
    assert "strips" in made.why
    assert breaches(made, PARTS, SHEETS, SPACING) == []
    assert made == again


def test_a_strip_that_is_lost_leaves_the_first_nest_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    first = nest_of([Laid("disc", "S", 0.0, 1.1, 2.1)], ASKED)
    monkeypatch.setattr(door, "by_hands", stays(first))
    monkeypatch.setattr(rows, "in_child", lambda *_, **__: Lost("it crashed (SIGABRT)"))
    made = nest(PARTS, SHEETS, SPACING, effort=8000)
    assert (made.laid, made.short, made.cut_short) == (first.laid, first.short, False)
    assert made.why == "filling as strips was lost (it crashed (SIGABRT))"


def test_the_search_goes_on_where_strips_do_not_lay_all_either(monkeypatch: pytest.MonkeyPatch) -> None:
    """A short search, strips, then a long one: the best of the three is kept."""
    sheet = (Remnant("S", rectangle(0.4, 0.4)),)
    lasts: list[int | None] = []

    def by_hands(asked: Asked, *_: object) -> Nest:
        lasts.append(asked.last)
        return discs(4 if asked.last else 9)

    monkeypatch.setattr(door, "by_hands", by_hands)
    monkeypatch.setattr(room, "fill", lambda *_, **__: discs(7))
    assert len(nest(DISCS, sheet, SPACING, effort=8000).laid) == 9
    assert lasts == [400, None]
    monkeypatch.setattr(room, "fill", lambda *_, **__: discs(10))
    assert len(nest(DISCS, sheet, SPACING, effort=8000).laid) == 10


def test_of_two_nests_the_fuller_then_the_cheaper_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    sheets = (Remnant("S", rectangle(0.4, 0.4), cost=2.0), Remnant("T", rectangle(0.4, 0.4), cost=1.0))
    asked = replace(ASKED, parts=DISCS, remnants=sheets)
    first, fewer, cheaper, more = ((6, "S", 2.0), (5, "T", 1.0), (6, "T", 1.0), (7, "S", 2.0))
    for strips, kept in ((fewer, first), (cheaper, cheaper), (more, more)):
        monkeypatch.setattr(room, "fill", lambda *_, of=strips, **__: costing(*of))
        assert filled(asked, costing(*first), lambda: True, lambda says: None) == costing(*kept)


def test_strips_are_not_asked_where_they_cannot_help(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object, **__: object) -> Nest:
        pytest.fail("strips were asked")

    def unchanged(asked: Asked, first: Nest, going: bool = True) -> None:
        assert filled(asked, first, lambda: going, lambda says: None) == first

    monkeypatch.setattr(room, "fill", never)
    asked = replace(ASKED, parts=DISCS, remnants=(Remnant("S", rectangle(0.4, 0.4)),))
    unchanged(asked, replace(discs(9), short=()))
    unchanged(asked, replace(discs(9), cut_short=True))
    unchanged(asked, discs(9), going=False)
    unchanged(replace(asked, remnants=(Remnant("S", disc(0.4)),)), discs(3))
    unchanged(replace(asked, effort=2000), discs(3))
    # two of 0.25 x 0.25 m are 0.125 m2, within the margin the sheet has 0.394 x 0.394 m: a third is too much metal
    full = replace(asked, parts=(Part("disc", rectangle(0.25, 0.25), (), 3),))
    unchanged(full, nest_of([Laid("disc", "S", 0.0, 0.01, 0.01)] * 2, full))


def test_a_fill_that_is_stopped_says_that_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    going = iter([True])
    monkeypatch.setattr(room, "fill", lambda *_, **__: Lost("it was told to stop"))
    made = filled(
        replace(ASKED, parts=DISCS, remnants=(Remnant("S", rectangle(0.4, 0.4)),)),
        discs(4),
        lambda: next(going, False),
        lambda says: None,
    )
    assert (len(made.laid), made.cut_short, made.why) == (4, True, "")


def test_seconds_follow_the_effort_and_the_number_of_sheets() -> None:
    assert seconds_for(ASKED) == pytest.approx(8000 * A_MOVE)
    assert seconds_for(replace(ASKED, remnants=SHEETS * 4)) == 0.0
    assert seconds_for(replace(ASKED, remnants=(*SHEETS, Remnant("odd", disc(0.1))))) == 0.0
