"""Which steel stands in for which, and which never."""

import pytest

from bickern.making.stock.steel_match import Match, steel_match


@pytest.mark.parametrize(
    ("asked", "there", "match"),
    [
        ("S235JR", "S235JR", Match.SAME),
        ("S235JR", "mild", Match.SAME),
        ("mild", "st37", Match.SAME),
        ("S235JR", "A36", Match.ALIKE),
        ("A36", "S355", Match.ALIKE),
        ("S235JR", "wrought iron", Match.NO),
        ("wrought iron", "mild", Match.NO),
        ("S235JR", "1045", Match.NO),
        ("S235JR", "5160", Match.NO),
        ("S235JR", "12L14", Match.NO),
        ("S235JR", "stainless", Match.NO),
        ("S235JR", "W1", Match.NO),
        ("1045", "4140", Match.NO),
        ("1045", "C45", Match.SAME),
        ("5160", "spring steel", Match.SAME),
    ],
)
def test_grades_by_name_and_by_family(asked, there, match):
    found = steel_match(asked, there, unknown=False)
    assert found.match is match
    assert bool(found.says) is (match is not Match.SAME)
    assert found.will_do is (match is not Match.NO)


@pytest.mark.parametrize("there", ["", "unknown", "leaf spring", "some old iron thing", "EN45"])
def test_what_nobody_can_name_is_taken_only_where_the_shop_says_so(there):
    assert steel_match("S235JR", there, unknown=False).match is Match.NO
    assert "not known" in steel_match("S235JR", "", unknown=False).says
    taken = steel_match("S235JR", "", unknown=True)
    assert taken.match is Match.UNKNOWN
    assert "test piece" in taken.says


def test_scrap_that_is_taken_for_spring_steel_is_no_mild_steel_even_so():
    assert steel_match("S235JR", "old truck leaf spring", unknown=True).match is Match.NO
    assert steel_match("5160", "old truck leaf spring", unknown=True).match is Match.UNKNOWN
    assert steel_match("5160", "old truck leaf spring", unknown=False).match is Match.NO
