"""Pictures of a bar before and after a heat, against plain geometry and what a reader must be able to see."""

from dataclasses import replace
from math import dist, pi

import pytest
import shapely

from bickern.desk.reckon import reckon_text
from bickern.geometry.space import dot
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH, Style, System
from bickern.paper.marks import (
    Arc,
    Drawing,
    Filled,
    Layer,
    Line,
    Polyline,
    Text,
    Tick,
    Tone,
    bounds,
    text_corners,
    text_width,
)
from bickern.paper.pens.svg import svg
from bickern.paper.views.shortened import breaks, plain_iron
from bickern.paper.views.stage_figure import Task, figures_of
from bickern.paper.views.stages import LETTER, heat_view, hot_words
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, stage_of

STYLE = Style(first=System.INCH)
PIN = """
job: Pins
units: in
pieces:
  pin:
    bar: 1/2 sq
    steel: S235JR
    metal:
      - {as: 1/4 sq, over: 4, name: thin}
      - {as: 1/2 sq, over: 20, name: thick}
    path:
      - {straight: 1}
      - {bend: 90, inside radius: 1/2, turn: left, name: over}
      - {straight: rest}
    holes:
      - {size: 1/8, by: drill, at: end of thick - 1, face: front, name: eye}
"""
WIDE = 0.070


def pin() -> BarResult:
    return _only(PIN)


def _only(text: str) -> BarResult:
    found = reckon_text(text, "pin.yaml")
    assert found.copy is not None, found.findings
    bar = found.copy.pieces[0]
    assert isinstance(bar, BarResult)
    return bar


NOTHING, DRAWN = Done(), Done(runs=frozenset({0}))
BENT = replace(DRAWN, bends=frozenset({0}))
THIN = (0.0, 4 * INCH)


def drawn(wide: float = WIDE, hold: float | None = 20 * INCH) -> Drawing:
    return heat_view(pin(), NOTHING, DRAWN, THIN, wide, STYLE, hold)


def bend(wide: float = WIDE) -> Drawing:
    return heat_view(pin(), DRAWN, BENT, (0.5 * INCH, 3 * INCH), wide, STYLE, 20 * INCH)


def said(picture: Drawing) -> list[str]:
    return [mark.says for mark in picture.marks if isinstance(mark, Text)]


def edges(picture: Drawing) -> list[shapely.Polygon]:
    return [
        shapely.Polygon(mark.points)
        for mark in picture.marks
        if isinstance(mark, Polyline) and mark.closed and mark.layer is Layer.OUTLINE
    ]


def test_it_shows_the_bar_before_above_the_bar_after() -> None:
    picture = drawn()
    words = {mark.says: mark.at[1] for mark in picture.marks if isinstance(mark, Text)}
    assert words["before"] > words["after"]
    before, after = edges(picture)
    assert before.bounds[1] > after.bounds[3]


def test_the_hot_part_is_hatched_bracketed_and_named_with_its_length_now() -> None:
    picture = drawn()
    hatched = [mark for mark in picture.marks if isinstance(mark, Filled) and mark.tone is Tone.HATCHED]
    area = shapely.union_all([shapely.Polygon(mark.points) for mark in hatched])
    before = edges(picture)[0]
    scale = (before.bounds[3] - before.bounds[1]) / (0.5 * INCH)
    bar = pin()
    loss = bar.runs[0].loss.value
    # a quarter of the section: 4 in of it were 1 in of stock, and what the fire takes
    long = INCH / (1 - loss)
    assert area.bounds[2] - area.bounds[0] == pytest.approx(scale * long, rel=2e-3)
    assert area.bounds[0] == pytest.approx(before.bounds[0], abs=1e-5)
    assert before.buffer(1e-6).contains(area)
    brackets = [m for m in picture.marks if isinstance(m, Polyline) and m.layer is Layer.MARK and len(m.points) == 4]
    ends = [dist(m.points[1], m.points[2]) for m in brackets]
    assert ends[0] == pytest.approx(scale * long, rel=2e-3)
    assert any(says.startswith(("hot 1 1/16 in", "hot 1 in")) for says in said(picture))


def test_both_figures_are_to_one_scale_in_true_proportion() -> None:
    before, after = figures_of(Task(pin(), NOTHING, DRAWN, THIN), WIDE)
    assert before.scale == after.scale
    thick = [before.edges(3 * INCH), after.edges(10 * INCH)]
    assert [dist(*pair) for pair in thick] == pytest.approx([before.scale * 0.5 * INCH] * 2, rel=1e-4)
    assert dist(*after.edges(2 * INCH)) == pytest.approx(after.scale * 0.25 * INCH, rel=1e-4)
    assert dist(after.middle(0.5 * INCH), after.middle(3.5 * INCH)) == pytest.approx(after.scale * 3 * INCH, rel=1e-9)


def test_long_plain_iron_gives_way_and_the_break_shows() -> None:
    bar = pin()
    before, _ = figures_of(Task(bar, NOTHING, DRAWN, THIN, 20 * INCH), WIDE)
    assert before.stage.bar.length < 0.8 * stage_of(bar, NOTHING).bar.length
    assert before.broken
    assert before.scale * 0.5 * INCH > 0.0025
    gaps = [mark for mark in drawn().marks if isinstance(mark, Filled) and mark.tone is Tone.WHITE]
    assert len(gaps) == 2 * len(before.broken)


def test_a_short_bar_is_not_broken() -> None:
    short = _only(PIN.replace("over: 20", "over: 3"))
    before, after = figures_of(Task(short, NOTHING, DRAWN, THIN), WIDE)
    assert before.broken == after.broken == ()


def test_no_break_lies_in_what_is_hot_bent_or_pierced() -> None:
    bar = pin()
    stage = stage_of(bar, BENT)
    free = plain_iron(stage, [(0.0, 3 * INCH), (22.5 * INCH, 23.5 * INCH)], bar.length)
    assert free
    assert all(low >= 4 * INCH and high <= 22.5 * INCH for low, high in free)


def test_as_little_is_left_out_as_will_do() -> None:
    free = ((0.2, 0.6),)
    tried: list[float] = []

    def fits(out: tuple[tuple[float, float], ...]) -> float:
        tried.append(sum(b - a for a, b in out))
        return 0.1 / (1.0 - tried[-1])

    assert breaks(free, fits, 0.05).left_out == ()
    found = breaks(free, fits, 0.12)
    assert sum(b - a for a, b in found.left_out) == pytest.approx(0.2)
    assert found.scale == pytest.approx(0.125)
    assert breaks((), fits, 0.9).left_out == ()


@pytest.mark.parametrize("wide", [0.055, 0.070, 0.080])
def test_it_is_as_wide_as_its_room_and_can_be_read(wide: float) -> None:
    for picture in (drawn(wide), bend(wide)):
        assert picture.bounds.width == pytest.approx(wide)
        assert picture.bounds.height < 0.08
        iron = bounds([m for m in picture.marks if not isinstance(m, Text)])
        assert iron.left >= -1e-6
        assert iron.right <= wide + 1e-6
        assert all(mark.height >= 0.002 for mark in picture.marks if isinstance(mark, Text))
        assert picture.bounds.top >= max(text_corners(m)[2][1] for m in picture.marks if isinstance(m, Text)) - 1e-9


def test_brackets_keep_clear_of_an_end_that_swells() -> None:
    leaf = _only(PIN.replace("{as: 1/4 sq, over: 4, name: thin}", "{leaf: 3, width: 1, thick: 1/8, name: thin}"))
    picture = heat_view(leaf, NOTHING, DRAWN, (0.0, 3 * INCH), WIDE, STYLE)
    after = edges(picture)[-1]
    under = [m for m in picture.marks if isinstance(m, Polyline) and m.layer is Layer.MARK][-1]
    assert max(y for _, y in under.points) < after.bounds[1]
    assert {"leaf 1 in (25.5 mm) wide", "1/8 in (3 mm) thick"} <= set(said(picture))


def test_what_is_hot_is_drawn_whole_in_the_middle_of_a_long_plain_bar() -> None:
    hot = (8 * INCH, 14 * INCH)
    before, _ = figures_of(Task(pin(), DRAWN, BENT, hot), WIDE)
    assert before.broken
    assert all(not hot[0] < at < hot[1] for at in before.broken)
    assert dist(before.middle(hot[0]), before.middle(hot[1])) == pytest.approx(before.scale * 6 * INCH, rel=1e-6)


def test_of_two_bends_square_to_one_another_the_one_just_made_is_seen() -> None:
    both = PIN.replace(
        "      - {straight: rest}",
        "      - {straight: 8}\n      - {bend: 90, inside radius: 1/2, turn: up}\n      - {straight: rest}",
    )
    bar = _only(both)
    for made, place in ((0, 1.5), (1, 10.5)):
        before = Done(frozenset({0, 1}), frozenset(range(made)))
        after = replace(before, bends=frozenset(range(made + 1)))
        _, figure = figures_of(Task(bar, before, after, (place * INCH, (place + 1) * INCH)), WIDE)
        bend = bar.bends[made]
        ways = [figure.station(at).along for at in (bend.start, bend.end)]
        assert all(abs(dot(way, figure.view.toward)) < 1e-6 for way in ways)


def test_no_words_cover_one_another() -> None:
    for picture in (drawn(), bend()):
        boxes = [shapely.Polygon(text_corners(mark)) for mark in picture.marks if isinstance(mark, Text)]
        for i, one in enumerate(boxes):
            assert all(one.intersection(other).area < 1e-9 for other in boxes[i + 1 :])


def test_where_it_is_held_is_marked_and_told() -> None:
    assert "hold" in said(drawn())
    jaws = [mark for mark in drawn().marks if isinstance(mark, Filled) and mark.tone is Tone.BLACK]
    assert len(jaws) == 2
    assert "hold" not in said(drawn(hold=None))


def test_the_word_for_the_hold_stands_under_all_iron_where_it_is_held_by_a_bend() -> None:
    bent_back = _only(PIN.replace("{bend: 90,", "{bend: 180,"))
    made = Done(frozenset({0, 1}), frozenset({0}))
    pierced = replace(made, holes=frozenset({0}))
    picture = heat_view(bent_back, made, pierced, (22 * INCH, 24 * INCH), WIDE, STYLE, 2 * INCH)
    word = next(m for m in picture.marks if isinstance(m, Text) and m.says == "hold")
    assert word.at[1] + word.height < edges(picture)[0].bounds[1]


def _jaws_of(picture: Drawing) -> list[shapely.Polygon]:
    black = [mark for mark in picture.marks if isinstance(mark, Filled) and mark.tone is Tone.BLACK]
    return [shapely.Polygon(mark.points) for mark in black]


def test_jaws_are_drawn_out_of_what_is_hot_even_where_the_vise_takes_hold_of_its_edge() -> None:
    """A twist stands in the vise at its mark; the heat runs on a little past it."""
    for hold in (11.8 * INCH, 8.2 * INCH):
        picture = heat_view(pin(), DRAWN, BENT, (8 * INCH, 12 * INCH), WIDE, STYLE, hold)
        hot = [mark for mark in picture.marks if isinstance(mark, Filled) and mark.tone is Tone.HATCHED]
        area = shapely.union_all([shapely.Polygon(mark.points).buffer(0) for mark in hot])
        jaws = _jaws_of(picture)
        assert len(jaws) == 2
        assert min(shapely.distance(area, jaw) for jaw in jaws) > 0.0
        left_of_it = jaws[0].centroid.x < area.bounds[0]
        assert left_of_it == (hold < 10 * INCH)


def test_no_words_cross_the_jaws_over_a_bend() -> None:
    bent_back = _only(PIN.replace("{bend: 90,", "{bend: 180,"))
    made = Done(frozenset({0, 1}), frozenset({0}))
    pierced = replace(made, holes=frozenset({0}))
    for hold in (0.5 * INCH, 2 * INCH):
        picture = heat_view(bent_back, made, pierced, (20 * INCH, 23 * INCH), WIDE, STYLE, hold, more="a bit at a time")
        words = [m for m in picture.marks if isinstance(m, Text) and ("end" in m.says or "time" in m.says)]
        assert len(words) == 2
        for word in words:
            half = text_width(word.says, word.height) / 2
            room = shapely.box(word.at[0] - half, word.at[1], word.at[0] + half, word.at[1] + word.height)
            assert not any(jaw.intersects(room) for jaw in _jaws_of(picture))


def test_what_more_there_is_to_say_of_the_heat_stands_under_its_length() -> None:
    picture = heat_view(pin(), NOTHING, DRAWN, THIN, WIDE, STYLE, more="6 in (152.5 mm) at a time")
    words = [m for m in picture.marks if isinstance(m, Text)]
    first, more = (next(m for m in words if part in m.says) for part in ("hot ", "at a time"))
    assert more.at[1] < first.at[1]


def test_the_size_and_the_length_to_stop_at_are_told_afterwards() -> None:
    words = said(drawn())
    assert "1/4 in sq (6.4 mm)" in words
    assert "4 in (101.5 mm)" in words


def test_a_bend_made_in_the_heat_has_its_number_and_no_other_has() -> None:
    assert "B1" in said(bend())
    assert not any(says.startswith("B") for says in said(drawn()))
    rings = [mark for mark in bend().marks if isinstance(mark, Arc) and mark.sweep == pytest.approx(2 * pi)]
    after = edges(bend())[-1]
    ring = min(rings, key=lambda mark: -mark.radius)
    assert after.distance(shapely.Point(ring.centre)) > ring.radius


def test_a_bend_is_seen_square_and_its_bar_before_lies_level() -> None:
    before, after = figures_of(Task(pin(), DRAWN, BENT, (0.5 * INCH, 3 * INCH)), WIDE)
    assert abs(before.heading(2 * INCH)[1]) < 1e-9
    first, last = after.heading(0.1 * INCH), after.heading(10 * INCH)
    assert first[0] * last[0] + first[1] * last[1] == pytest.approx(0.0, abs=1e-9)


def test_a_bend_up_is_seen_from_the_side() -> None:
    bar = _only(PIN.replace("turn: left", "turn: up"))
    before, after = figures_of(Task(bar, DRAWN, BENT, (0.5 * INCH, 3 * INCH)), WIDE)
    first, last = after.heading(0.1 * INCH), after.heading(10 * INCH)
    assert first[0] * last[0] + first[1] * last[1] == pytest.approx(0.0, abs=1e-9)
    assert abs(before.view.toward[1]) == pytest.approx(1.0)


def test_a_hole_is_looked_into() -> None:
    pierced = replace(DRAWN, holes=frozenset({0}))
    for face, across in (("front", 2), ("left", 1)):
        bar = _only(PIN.replace("face: front", f"face: {face}"))
        before, _ = figures_of(Task(bar, DRAWN, pierced, (22 * INCH, 24 * INCH)), WIDE)
        assert abs(before.view.toward[across]) == pytest.approx(1.0)
        picture = heat_view(bar, DRAWN, pierced, (22 * INCH, 24 * INCH), WIDE, STYLE)
        assert "hole 1/8 in (3 mm)" in said(picture)
        assert any(isinstance(mark, Arc) for mark in picture.marks)


def test_what_is_hot_is_told_from_the_nearer_end() -> None:
    bar = pin()
    assert len(hot_words(Task(bar, NOTHING, DRAWN, THIN), STYLE)) == 1
    near_start = hot_words(Task(bar, DRAWN, BENT, (2 * INCH, 3 * INCH)), STYLE)
    assert near_start == ("hot 1 in (25.5 mm)", "2 in (51 mm) from the datum end")
    # some millimetres from an end are hot with it
    assert hot_words(Task(bar, DRAWN, BENT, (0.005, 3 * INCH)), STYLE) == ("hot 3 in (76 mm)",)
    at_end = (20 * INCH, bar.length - 0.004)
    assert hot_words(Task(bar, DRAWN, BENT, at_end), STYLE) == (f"hot {say_both(bar.length - 20 * INCH, STYLE)}",)
    near_end = hot_words(Task(bar, DRAWN, BENT, (22 * INCH, 23 * INCH)), STYLE)
    assert near_end[1] == "1 in (25.5 mm) from the other end"
    # a grip lies behind the other end: then that end is not there to measure from
    gripped = hot_words(Task(replace(bar, grip=3 * INCH), DRAWN, BENT, (22 * INCH, 23 * INCH)), STYLE)
    assert gripped[1] == "22 in (559 mm) from the datum end"


def test_the_datum_end_is_flagged_in_both_figures() -> None:
    flags = [mark for mark in drawn().marks if isinstance(mark, Tick)]
    assert len(flags) == 2
    before = edges(drawn())[0]
    assert flags[0].at[0] < before.bounds[0]


def test_where_nothing_is_hot_nothing_is_hatched() -> None:
    picture = heat_view(pin(), DRAWN, replace(DRAWN, holes=frozenset({0})), (0.0, 0.0), WIDE, STYLE)
    assert not any(isinstance(mark, Filled) and mark.tone is Tone.HATCHED for mark in picture.marks)
    assert not any("hot" in says for says in said(picture))
    assert said(picture)[-1] == "after"


def test_a_long_grip_is_cut_short_in_the_picture_and_held_on_it() -> None:
    bar = replace(pin(), grip=30 * INCH)
    picture = heat_view(bar, NOTHING, DRAWN, THIN, WIDE, STYLE, 40 * INCH)
    assert "hold" in said(picture)
    assert picture.bounds.width == pytest.approx(WIDE)


def test_nothing_is_told_by_colour_and_every_pen_can_draw_it() -> None:
    text = svg(drawn())
    colours = {part.split('"')[0] for part in text.split('fill="')[1:]}
    assert colours <= {"#000", "#fff", "none"}


def test_letters_are_no_smaller_than_can_be_read() -> None:
    assert LETTER >= 0.002
    assert not any(isinstance(mark, Line) and mark.start == mark.end for mark in drawn().marks)
