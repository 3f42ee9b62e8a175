"""The order of work in rows of words, as the terminal shows them."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import bickern.book
from bickern.desk.reckon import reckon_file
from bickern.desk.work.heats import planned
from bickern.desk.work.rows import heats_told

EXAMPLES = Path(bickern.book.__file__).parent / "examples"
AGAIN = "Mark again"
"""The works of the plan stand once; marking again, which goes with the words alone, is told besides."""
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))


@cache
def copy_of(name):
    return planned(reckon_file(EXAMPLES / f"{name}.yaml")).copy


@cache
def told(name):
    return heats_told(copy_of(name))


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_has_its_group_in_the_order_of_the_plan(name):
    plan = copy_of(name).plan
    titles = [title for title, _ in told(name)]
    heads = [f"{number}. {piece.piece}" for number, piece in enumerate(plan.pieces, start=1)]
    assert titles[0] == "The order of work, one heat at a time"
    assert [title.split(":")[0] for title in titles[1 : 1 + len(heads)]] == heads


@pytest.mark.parametrize("name", NAMES)
def test_every_work_is_told_once(name):
    plan = copy_of(name).plan
    spells = (*(spell for piece in plan.pieces for spell in piece.spells), *plan.joining, *plan.finish)
    does = [says for _, rows in told(name) for what, says in rows if what == "do" and not says.startswith(AGAIN)]
    assert len(does) == sum(len(spell.works) for spell in spells)


@pytest.mark.parametrize("name", NAMES)
def test_every_heat_says_its_colours_and_how_it_is_held(name):
    plan = copy_of(name).plan
    hot = [spell for piece in plan.pieces for spell in piece.spells if spell.hot]
    rows = [row for _, group in told(name) for row in group]
    heads = [says for what, says in rows if what.startswith("Heat") and what != "heat colours"]
    assert len(heads) >= len(hot)
    assert all(says.startswith("pull at ") and "; stop at " in says and "°C" in says for says in heads)
    assert sum(what == "hold" for what, _ in rows) >= len(hot)


@pytest.mark.parametrize("name", NAMES)
def test_no_gap_is_left_open_and_nothing_is_said_in_the_tongue_of_the_workings(name):
    text = " ".join(says for _, rows in told(name) for _, says in rows)
    for sign in ("{", "}", "None", "Section(", "nan", "inf ", "0 to 0"):
        assert sign not in text


def test_a_job_without_a_plan_has_no_rows():
    assert heats_told(replace(copy_of("rail-s-hook"), plan=None)) == ()


def test_the_handles_of_the_fire_set_are_told_by_the_first():
    """All but what is hot, by what it is held and how long it comes out is as at the poker's heats."""
    rows = [row for _, group in told("fire-set") for row in group]
    like = [says for what, says in rows if what == "as"]
    assert len(like) >= 6
    assert all(says.startswith("heat") and says.endswith(")") for says in like)
