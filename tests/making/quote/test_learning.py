"""What is left of the first piece's time: laws of the curve; printed tables stand in `tests/published`."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.making.quote.learning import average, together, unit

SHARES = st.floats(0.5, 1.0)


@given(st.integers(1, 1000), SHARES)
def test_each_doubling_leaves_the_share(number: int, share: float):
    assert unit(2 * number, share) == pytest.approx(share * unit(number, share))


@given(st.integers(1, 300), SHARES)
def test_more_take_longer_in_all_and_less_each(count: int, share: float):
    assert together(count + 1, share) > together(count, share)
    assert average(count + 1, share) <= average(count, share) + 1e-12
    assert unit(count, share) <= average(count, share) + 1e-12 <= 1 + 2e-12


@given(st.integers(0, 10_000))
def test_whoever_never_learns_takes_as_long_each_time(count: int):
    assert average(count, 1.0) == 1.0


def test_those_that_come_after_others_take_their_own_part_of_the_curve():
    """The ninth to the sixteenth, by n^log2(0.8) (exact mathematics)."""
    assert average(8, 0.8, 8) == pytest.approx(sum(unit(n, 0.8) for n in range(9, 17)) / 8)
    assert average(8, 1.0, 8) == 1.0


def test_the_table_in_the_docs_is_right():
    page = (Path(__file__).parents[3] / "docs" / "price.md").read_text()
    rows = re.findall(r"^\| (\d+) % \|(.*)\|$", page, re.MULTILINE)
    assert len(rows) == 3
    for percent, cells in rows:
        share = int(percent) / 100
        *units, ten, hundred = (float(re.findall(r"[\d.]+", cell)[0]) for cell in cells.split("|"))
        assert units == pytest.approx([unit(number, share) for number in (2, 4, 8, 16)], abs=0.0005)
        assert ten == pytest.approx(together(10, share), abs=0.0005)
        assert hundred == pytest.approx(together(100, share), abs=0.05)
