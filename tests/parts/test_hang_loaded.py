"""A hook with a load in it: the middles of what bears come plumb above one another (exact mathematics)."""

import math
from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file
from bickern.desk.whole.assemble import put_together
from bickern.parts.hang.result import Change, HangResult

EXAMPLES = Path(__file__).parents[2] / "examples"


def hanging(name: str) -> HangResult:
    copy = put_together(reckon_file(EXAMPLES / f"{name}.yaml")).copy
    assert copy is not None
    assert copy.hang is not None
    return copy.hang


def loaded(hang: HangResult) -> Change:
    return next(c for c in hang.changes if "heavy load" in c.says)


def test_a_load_in_an_s_hook_changes_nothing_for_it_balances_between_its_bends() -> None:
    hang = hanging("rail-s-hook")
    (empty,), (full,) = hang.tilts, loaded(hang).tilts
    assert math.degrees(full.angle) == pytest.approx(math.degrees(math.atan2(1.25, 1.5)), abs=0.05)
    assert full.angle == pytest.approx(empty.angle, abs=1e-3)


def test_a_pot_on_the_crane_hook_brings_the_middle_of_its_bend_plumb_under_the_middle_of_its_eye() -> None:
    # eye 3/4 inside of 3/8 round, 1 1/2 of shank, bend 5/8 inside: its middle line lies 13/16 beside the shank
    (tilt,) = loaded(hanging("crane-chain")).tilts
    under, beside = (0.75 + 0.375) / 2 + 1.5, 0.625 + 0.375 / 2
    assert math.degrees(tilt.angle) == pytest.approx(math.degrees(math.atan2(beside, under)), abs=0.1)


@pytest.mark.parametrize(("name", "tapers"), [("rail-s-hook", True), ("dinner-triangle", False)])
def test_what_is_taken_of_a_taper_in_a_bend_is_said_where_it_is_hung_by_one(name: str, tapers: bool) -> None:
    assert any("thinned metal in a bend" in says for says in hanging(name).how) is tapers
