"""Marks in the steps: the same names and distances as on the mark-out, and struck when the bar lies as they say."""

import re
from functools import cache
from pathlib import Path

import pytest

import bickern.book
from bickern.desk.reckon import reckon_file, reckon_text
from bickern.desk.work.heats import planned
from bickern.desk.work.rows import heats_told
from bickern.making.heats.lies import Lying
from bickern.measure.units.say import say_both, say_up_both
from bickern.paper.sheets.heat_words import groups
from bickern.paper.sheets.mark_words import again, at_says, listed, marking_of, marks_of, names_on_longer_bars
from bickern.paper.sheets.opening import material
from bickern.paper.views.strip import named_marks
from bickern.parts.bar.result import BarResult, Mark, MarkKind

EXAMPLES = Path(bickern.book.__file__).parent / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
TOLD = re.compile(r"\b[PC](\d+)\b")
"""The name of a mark."""
HOLED = (
    "job: Trial\nunits: in\nmake: 2\npieces:\n  it:\n    bar: 1/2 sq\n"
    "    metal: [{from: 1/4 rd, to: 1/2 sq, over: 3, name: tip}, {keep: 12, name: bar}]\n"
    "    path: [{straight: 10}, {bend: 90, inside radius: 1/2, name: elbow}, {straight: rest}]\n"
    "    holes: [{size: 1/4, by: drill, at: 5, name: pin}, {size: 1/4, by: drill, at: 6, name: other}]\n"
    "  stub:\n    bar: 1/2 rd\n    metal: [{keep: 1}, {to: 1/4 rd, over: 1, name: nose}]\n"
)


@cache
def trial():
    return planned(reckon_text(HOLED, "trial.yaml")).copy


@cache
def example(name):
    return planned(reckon_file(EXAMPLES / f"{name}.yaml")).copy


def bars(copy):
    return {piece.spec.name: piece for piece in copy.pieces if isinstance(piece, BarResult)}


def rows_of(copy):
    return [says for _, rows in heats_told(copy) for what, says in rows if what == "do"]


def works_of(copy):
    return [w for piece in copy.plan.pieces for spell in piece.spells for w in spell.works]


def test_a_hole_is_told_by_the_mark_that_the_mark_out_has_for_it():
    bar = bars(trial())["it"]
    marks = named_marks(bar.marks_on_drawn, len(bar.marks_on_stock) + 1)
    mine = next(one for one in marks if "pin" in one.mark.says)
    step = next(says for says in rows_of(trial()) if says.startswith("Drill pin"))
    assert f"At {mine.name}, {say_both(mine.mark.at, trial().shop.style)}." in step
    assert mine.mark.at == pytest.approx(bar.holes[0].at, abs=1e-9)


def test_the_stock_is_cut_to_a_length():
    long = say_up_both(bars(trial())["it"].cut_this, trial().shop.style)
    assert any(says.startswith(f"Cut the stock. {long} long.") for says in rows_of(trial()))


def test_marks_that_hold_only_after_drawing_are_struck_then_and_not_before():
    said = rows_of(trial())
    again_at = next(i for i, says in enumerate(said) if says.startswith("Mark again"))
    assert next(i for i, says in enumerate(said) if says.startswith("Taper tip")) < again_at
    assert again_at < next(i for i, says in enumerate(said) if says.startswith(("Bend elbow", "Drill pin")))
    first = next(says for says in said if says.startswith("Mark out it."))
    assert "Now only P1" in first


@pytest.mark.parametrize("name", NAMES)
def test_no_mark_is_named_that_its_bar_has_not(name):
    copy = example(name)
    marking = marking_of(copy.pieces, copy.shop)
    for work in works_of(copy):
        bar = marking.bars.get((work.piece, *work.child))
        many = len(bar.marks_on_stock) + len(bar.marks_on_drawn) if bar is not None else 0
        assert all(int(number) <= many for number in TOLD.findall(at_says(work, marking)))


@pytest.mark.parametrize("name", NAMES)
def test_every_hole_of_a_bar_has_its_mark(name):
    copy = example(name)
    marking = marking_of(copy.pieces, copy.shop)
    assert all(at_says(work, marking) for work in works_of(copy) if work.holes)


@pytest.mark.parametrize("name", NAMES)
def test_a_place_that_is_told_is_where_the_bar_lies_then(name):
    """Held against the stages of the bar, which are tested by its metal."""
    copy = example(name)
    marking = marking_of(copy.pieces, copy.shop)
    for plan in copy.plan.pieces:
        told = again(plan.spells, marking)
        bar = marking.bars.get((plan.piece,))
        if bar is None:
            continue
        lies = Lying(bar)
        for spell in plan.spells:
            for work in spell.works:
                if work.holes and not work.child and not lies.done.bends:
                    marks = marks_of(work, marking)
                    here = [told.now.get(work.key, {}).get(one.name, one.mark.at) for one in marks]
                    assert here == pytest.approx([lies.stage.at(at) for at in marks.values()], abs=0.0017)
                lies = lies.after([work])


def test_names_of_marks_in_a_row_are_told_as_a_stretch():
    marks = named_marks([Mark(at, "", MarkKind.PUNCH) for at in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6)])
    assert listed(marks[:3]) == "P1 to P3"
    assert listed([marks[0], marks[1], marks[4]]) == "P1, P2 and P5"
    assert listed([marks[0], *marks[2:5]]) == "P1 and P3 to P5"
    assert listed(marks[:1]) == "P1"


def test_what_is_forged_on_a_longer_bar_is_not_cut_first():
    copy = trial()
    assert names_on_longer_bars(copy) == {"stub"}
    table = material(copy)
    assert str(table).count("forge it on a longer bar") == 1
    first = next(says for says in rows_of(copy) if says.startswith("Mark out stub."))
    assert f"{say_up_both(bars(copy)['stub'].cut_this, copy.shop.style)} of the longer bar is for it" in first


def test_joining_and_finish_are_told_for_each_set():
    copy = planned(reckon_text(HOLED.replace("pieces:", "finish: oil\npieces:"), "trial.yaml")).copy
    last = groups(copy, copy.plan)[-1]
    assert last.title == "Finishing"
    assert last.aside.endswith(" each set")
