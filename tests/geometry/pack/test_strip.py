"""Strips and rectangular sheets: what is laid is sound by a second measure; whatever goes wrong comes back as words."""

import json
import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from bickern.geometry.pack import child
from bickern.geometry.pack.child import Lost
from bickern.geometry.pack.shapes import strip as room
from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.result import Nest
from bickern.geometry.pack.shapes.strip import Strip, fill, is_rectangle, strip
from bickern.geometry.polygon import ArcSeg, Line, Loop, area, disc, flipped, from_points, moved, rectangle, sector

MM = 1e-3
QUARTERS = tuple(i * math.pi / 2 for i in range(4))
ARCH = Loop(
    (
        Line((0.0, 0.0), (0.1, 0.0)),
        Line((0.1, 0.0), (0.1, 0.05)),
        Line((0.1, 0.05), (0.09, 0.05)),
        ArcSeg((0.05, 0.05), 0.04, 0.0, -math.pi),
        Line((0.01, 0.05), (0.0, 0.05)),
        Line((0.0, 0.05), (0.0, 0.0)),
    )
)
MIXED = (
    Part("sector", sector(0.12, 0.05, 1.2), (), 4),
    Part("disc", disc(0.03), (flipped(disc(0.01)),), 5),
    Part("tri", from_points(((0, 0), (0.08, 0), (0.02, 0.06))), (), 4, (0.0, math.pi / 2)),
    Part("arch", ARCH, (), 2, QUARTERS),
)
GUILLOTINE = ((0.0, 0.0, 0.3, 0.1), (0.0, 0.1, 0.12, 0.1), (0.12, 0.1, 0.18, 0.1), (0.3, 0.0, 0.1, 0.2))
"""A rectangle of 0.4 x 0.2 cut up: corner, width, height [m]."""


def pieces(shrink: float) -> list[Part]:
    """The cut-up rectangle's pieces, each smaller all round by `shrink` [m]."""
    return [
        Part(f"p{i}", rectangle(w - 2 * shrink, h - 2 * shrink), (), 1, (0.0, math.pi / 2))
        for i, (_, _, w, h) in enumerate(GUILLOTINE)
    ]


def as_nest(found: Strip, parts: list[Part] | tuple[Part, ...], height: float) -> tuple[Nest, list[Remnant]]:
    return Nest(found.laid, (), 0.0), [Remnant("strip", rectangle(found.length, height))]


@pytest.mark.slow
@pytest.mark.parametrize(
    "spacing", [Spacing(3 * MM, 3 * MM), Spacing(2 * MM, 8 * MM), Spacing(4 * MM, 0.0), Spacing(0.0, 5 * MM), Spacing()]
)
def test_gap_and_margin_are_kept_whichever_is_wider(spacing: Spacing, breaches: Callable[..., list[str]]) -> None:
    found = strip(MIXED, 0.25, spacing, seconds=1, seed=3)
    assert isinstance(found, Strip)
    nest, sheet = as_nest(found, MIXED, 0.25)
    assert breaches(nest, MIXED, sheet, spacing) == []
    metal = sum(area(part.outline) * part.count for part in MIXED)
    assert metal / (0.25 * found.length) > 0.5  # loosely: it is a layout, not a row


@pytest.mark.slow
def test_a_cut_up_rectangle_is_put_together_again() -> None:
    """The best strip is known by construction: the rectangle itself, 0.4 long, with 0.1 mm to spare."""
    found = strip(pieces(1.05 * MM), 0.2, Spacing(2 * MM, 1 * MM), seconds=5, enough=0.4)
    assert isinstance(found, Strip)
    assert 0.3998 < found.length <= 0.4
    assert not found.cut_short


@pytest.mark.slow
def test_the_first_layout_that_will_do_is_always_the_same() -> None:
    first, again = (strip(MIXED, 0.25, Spacing(3 * MM, 3 * MM), seconds=8, seed=5, enough=0.5) for _ in range(2))
    assert isinstance(first, Strip)
    assert first.length <= 0.5
    assert first == again
    assert first.why == ""


@pytest.mark.parametrize("spacing", [Spacing(), Spacing(3 * MM, 3 * MM), Spacing(3 * MM, 8 * MM)])
def test_what_just_fits_the_height_is_laid(spacing: Spacing, breaches: Callable[..., list[str]]) -> None:
    parts = [Part("a", rectangle(0.07, 0.2137 - 2 * spacing.margin), (), 3, (0.0,))]
    found = strip(parts, 0.2137, spacing, seconds=1, enough=1.0)
    assert isinstance(found, Strip)
    nest, sheet = as_nest(found, parts, 0.2137)
    assert breaches(nest, parts, sheet, spacing) == []


def test_turns_are_those_allowed_to_the_last_digit() -> None:
    found = strip(MIXED, 0.25, Spacing(3 * MM, 3 * MM), seconds=1, enough=10.0)
    assert isinstance(found, Strip)
    turns = {part.key: part.turns for part in MIXED}
    held = [one for one in found.laid if turns[one.part] is not None]
    assert len(held) == 6
    assert all(one.turn in (turns[one.part] or ()) for one in held)


def test_progress_is_told_and_the_asker_may_stop() -> None:
    heard: list[str] = []
    found = strip(MIXED, 0.25, Spacing(), seconds=60, keep_going=lambda: not heard, report=heard.append)
    assert isinstance(found, Strip)
    assert found.cut_short
    assert "told to stop" in found.why
    assert heard[0].startswith("a strip of ")


def test_what_no_strip_can_hold_is_told_before_the_search() -> None:
    tall = Part("post", rectangle(0.1, 0.3), (), 1, (0.0,))
    assert strip([tall], 0.25, Spacing()) == Lost("post is 300.0 mm high at least, the strip has 250.0 mm")
    free = strip([replace(tall, turns=None)], 0.11, Spacing(0.0, 6 * MM))
    assert free == Lost("post is 100.0 mm high at least, the strip has 98.0 mm")
    bow = Part("bow", from_points(((0, 0), (0.1, 0.1), (0.1, 0), (0, 0.1))))
    assert strip([bow], 0.25, Spacing()) == Lost("the outline of bow crosses itself")
    assert strip([], 0.25, Spacing()) == Strip((), 0.0)


@pytest.mark.parametrize("corners", [((0.0, 0.0), (5.0, 0.0), (10.0, 0.0)), ((0.0, 0.0), (900.0, 0.0), (0.0, 900.0))])
def test_input_that_the_library_dies_of_is_told(corners: tuple[tuple[float, float], ...]) -> None:
    """A flat outline and one that no strip holds, past the questions that are asked first."""
    asked = room._Asked(((0, corners, 1, (0.0,)),), 50.0, 1.0, 1, 1, -math.inf)
    answer = child.in_child("shapes.strip:searched", asked, 20)
    assert isinstance(answer, Lost)
    assert len(answer.why.splitlines()) == 1


def told(parts: list[Part], places: list[tuple[float, float]], width: float) -> str:
    """A layout as the process tells it [mm]."""
    return json.dumps([width, [[i, 0.0, x, y] for i, (x, y) in enumerate(places)]])


SQUARES = [Part("a", rectangle(0.1, 0.1)), Part("b", rectangle(0.1, 0.1))]


@pytest.fixture
def library(monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    """Puts something in the library's place: layouts that it tells, then how its process ends."""

    def act(layouts: list[str], ended: object) -> None:
        def in_child(work: str, asked: object, seconds: float, **rest: Callable[..., object]) -> object:
            for layout in layouts:
                rest["report"](layout)
            return ended

        monkeypatch.setattr(room, "in_child", in_child)

    return act


def test_a_search_that_is_lost_is_told(library: Callable[..., None]) -> None:
    library([], Lost("it crashed (SIGABRT)"))
    assert strip(SQUARES, 0.1, Spacing()) == Lost("it crashed (SIGABRT)")
    assert fill(SQUARES, [Remnant("S", rectangle(1, 0.1))], Spacing()) == Lost("it crashed (SIGABRT)")


def test_what_was_found_before_a_crash_is_kept(library: Callable[..., None]) -> None:
    library([told(SQUARES, [(0, 0), (150, 0)], 250.0)], Lost("it crashed (SIGSEGV)"))
    found = strip(SQUARES, 0.1, Spacing())
    assert isinstance(found, Strip)
    assert found.length == pytest.approx(0.25)
    assert "SIGSEGV" in found.why


def test_an_unsound_layout_never_comes_out(library: Callable[..., None]) -> None:
    sound, unsound = told(SQUARES, [(0, 0), (150, 0)], 250.0), told(SQUARES, [(0, 0), (99.98, 0)], 199.98)
    library([sound, unsound], "time")
    found = strip(SQUARES, 0.1, Spacing())
    assert isinstance(found, Strip)
    assert found.length == pytest.approx(0.25)
    library([unsound], "time")
    assert strip(SQUARES, 0.1, Spacing()) == Lost("what it laid was not sound: a (1) overlaps b (2) on strip")
    assert fill(SQUARES, [Remnant("S", rectangle(1, 0.1))], Spacing()) == Lost(
        "what it laid was not sound: a (1) overlaps b (2) on S"
    )


def test_a_steady_fill_counts_only_what_goes_on_its_sheet_whole(library: Callable[..., None]) -> None:
    """Two squares on a strip of 250 mm: a sheet of 240 mm has room for the first of them, of 250 mm for both."""
    library([told(SQUARES, [(0, 0), (150, 0)], 250.0)], "time")
    for wide, steady, laid in ((0.24, False, 1), (0.24, True, 0), (0.25, True, 2)):
        found = fill(SQUARES, [Remnant("S", rectangle(wide, 0.1), cost=1.0)], Spacing(), shares=(1.0,), steady=steady)
        assert isinstance(found, Nest)
        assert (len(found.laid), found.cost) == (laid, float(laid > 0))


def test_a_part_that_does_not_go_on_one_sheet_hinders_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    tried: list[tuple[str, list[str]]] = []

    def noted(parts: list[Part], height: float, spacing: Spacing, **rest: object) -> Strip:
        tried.append((str(rest["key"]), [part.key for part in parts]))
        return Strip((), 0.0)

    monkeypatch.setattr(room, "strip", noted)
    parts = [Part("post", rectangle(0.3, 0.02), turns=(math.pi / 2,)), Part("tab", rectangle(0.05, 0.05))]
    sheets = [Remnant("low", rectangle(0.5, 0.2)), Remnant("high", rectangle(0.2, 0.4))]
    fill(parts, sheets, Spacing(0.0, 2 * MM), shares=(1.0,))
    assert tried == [("low", ["tab"]), ("high", ["post", "tab"])]


@pytest.mark.slow
def test_several_sheets_are_filled_one_after_another(breaches: Callable[..., list[str]]) -> None:
    sheets = [
        Remnant("S1", moved(rectangle(0.3, 0.25), 1.0, 2.0), (), 2.0),
        Remnant("S2", rectangle(0.4, 0.2), (), 3.0),
        Remnant("S3", rectangle(0.4, 0.2), (), 5.0),
    ]
    spacing = Spacing(3 * MM, 4 * MM)
    found = fill(MIXED, sheets, spacing, seconds=12)
    assert isinstance(found, Nest)
    assert breaches(found, MIXED, sheets, spacing) == []
    assert found.short == ()
    assert {one.remnant for one in found.laid} <= {"S1", "S2", "S3"}
    assert found.cost == sum(sheet.cost for sheet in sheets if any(one.remnant == sheet.key for one in found.laid))


@pytest.mark.slow
def test_what_finds_no_place_is_named_short(breaches: Callable[..., list[str]]) -> None:
    sheets = [Remnant("S1", rectangle(0.2, 0.2), (), 2.0)]
    found = fill(MIXED, sheets, Spacing(3 * MM, 3 * MM), seconds=3)
    assert isinstance(found, Nest)
    assert found.laid
    assert found.short
    assert breaches(found, MIXED, sheets, Spacing(3 * MM, 3 * MM)) == []


def test_only_upright_rectangles_are_sheets_for_strips() -> None:
    assert is_rectangle(Remnant("S", moved(rectangle(0.2, 0.1), 3.0, -1.0)))
    assert is_rectangle(Remnant("S", from_points(((0, 0), (0.1, 0), (0.2, 0), (0.2, 0.1), (0, 0.1)))))
    assert not is_rectangle(Remnant("S", moved(rectangle(0.2, 0.1), turn=0.1)))
    assert not is_rectangle(Remnant("S", rectangle(0.2, 0.1), (flipped(disc(0.01, (0.1, 0.05))),)))
    assert not is_rectangle(Remnant("S", disc(0.1)))
    assert not is_rectangle(Remnant("S", from_points(((0, 0), (0.2, 0), (0.2, 0.1)))))


@pytest.mark.slow
def test_outlines_of_very_many_corners_are_smoothed_outward(breaches: Callable[..., list[str]]) -> None:
    wavy = [
        (r * math.cos(a), r * math.sin(a))
        for i in range(3000)
        for a, r in [(i * math.pi / 1500, 0.05 + 0.004 * math.sin(i * math.pi / 150))]
    ]
    parts = [Part("wavy", from_points(wavy), (), 3)]
    smooth = room.enclosing(parts[0].outline)
    assert len(smooth.exterior.coords) < 400
    found = strip(parts, 0.12, Spacing(1 * MM, 1 * MM), seconds=1)
    assert isinstance(found, Strip)
    from bickern.geometry.pack.shapes.check import faults_of

    nest, sheet = as_nest(found, parts, 0.12)
    assert faults_of(nest, parts, sheet, Spacing(1 * MM, 1 * MM)) == ()
