"""Words for heat colours: each by its own table, never colder when hotter."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.iron.colour import BLACK, TABLES, colour_word
from bickern.making.shop import Hand

NAMES = sorted(TABLES)


@pytest.mark.parametrize("name", NAMES)
def test_words_rise_with_the_heat_and_stand_once(name):
    rows = TABLES[name].rows
    heats = [heat for heat, _ in rows]
    assert heats == sorted(set(heats))
    words = [word for _, word in rows]
    assert len(set(words)) == len(words)
    assert TABLES[name].name == name


@given(st.sampled_from(NAMES), st.floats(300, 2000), st.floats(0, 500))
def test_hotter_is_never_a_colder_word(name, kelvin, more):
    order = [BLACK, *(word for _, word in TABLES[name].rows)]
    assert order.index(colour_word(name, kelvin + more)) >= order.index(colour_word(name, kelvin))


@pytest.mark.parametrize("name", NAMES)
def test_between_two_words_the_nearer_is_said(name):
    (cold, low), (hot, high) = TABLES[name].rows[2:4]
    assert colour_word(name, cold + 0.49 * (hot - cold)) == low
    assert colour_word(name, cold + 0.51 * (hot - cold)) == high


@pytest.mark.parametrize("name", NAMES)
def test_iron_under_the_first_word_is_black_and_over_the_last_keeps_it(name):
    rows = TABLES[name].rows
    assert colour_word(name, 293.15) == BLACK
    assert colour_word(name, rows[0][0] - 49) == rows[0][1]
    assert colour_word(name, 2500) == rows[-1][1]


def test_the_plain_shop_speaks_by_a_table_that_is_there():
    assert Hand().colours in TABLES


def test_books_differ_over_one_heat():
    assert len({colour_word(name, 1373) for name in NAMES}) == len(NAMES)
