"""Tools that must be there before the fire is lit: those the shop has are not asked for."""

from dataclasses import replace
from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.making.heats.result import ToolFirst
from bickern.making.heats.tools_first import WHY, FirstTool, tools_of
from bickern.making.shop import Shop
from bickern.measure.units.words import INCH

EXAMPLES = Path(__file__).parents[3] / "examples"


def of_job(name: str, **shop: object) -> tuple[ToolFirst, ...]:
    copy = reckon_file(EXAMPLES / f"{name}.yaml").copy
    assert copy is not None
    return tools_of(copy.pieces, copy.joints, replace(copy.shop, **shop))


def test_a_shop_that_does_not_tell_what_it_has_is_only_asked_for_what_is_made_to_size():
    assert [tool.what for tool in of_job("rail-s-hook")] == []
    assert {tool.what for tool in of_job("porch-lantern")} == {FirstTool.FORM, FirstTool.PATTERN}


def test_a_drift_or_tongs_that_do_not_hang_on_the_wall_come_first():
    told = of_job("ring-pull", drifts=(0.25 * INCH,), tongs=(0.1 * INCH,))
    drift = next(tool for tool in told if tool.what == FirstTool.DRIFT)
    assert drift.size == pytest.approx(9 / 16 * INCH)
    assert drift.of == "boss"
    assert any(tool.what == FirstTool.TONGS for tool in told)
    there = of_job("ring-pull", drifts=(9 / 16 * INCH,))
    assert not any(tool.what == FirstTool.DRIFT for tool in there)


def test_one_size_is_made_once_for_all_the_pieces_that_want_it():
    text = "job: T\nunits: in\npieces:\n" + "".join(
        f"  {name}:\n    bar: 1/2 sq\n    metal: [{{keep: 9}}, {{to: 1/8 rd, over: 2}}]\n" for name in ("one", "two")
    )
    done = reckon_text(text, "t.yaml")
    assert done.copy is not None
    (tongs,) = tools_of(done.copy.pieces, (), Shop(tongs=(0.01,)))
    assert (tongs.what, tongs.size, tongs.of) == (FirstTool.TONGS, pytest.approx(0.5 * INCH), "one, two")


def test_each_pattern_and_each_form_is_its_own():
    patterns = [tool for tool in of_job("porch-lantern") if tool.what == FirstTool.PATTERN]
    assert len(patterns) == len({tool.of for tool in patterns}) > 1


def test_a_monkey_tool_that_the_shop_tells_of_is_there():
    assert any(tool.what == FirstTool.MONKEY for tool in of_job("fire-set"))
    assert not any(tool.what == FirstTool.MONKEY for tool in of_job("fire-set", tools=("Monkey tool, 3/8",)))


def test_each_tool_says_why():
    assert set(WHY) == set(FirstTool)
    assert all(WHY[what].strip() for what in FirstTool)


def test_a_monkey_tool_for_a_flat_tenon_is_told_by_its_section():
    text = "job: T\nunits: in\npieces:\n"
    text += "  stem:\n    bar: 3/4 sq\n    metal: [{keep: 9}, {as: %s, over: 1, name: tenon}]\n"
    text += "  plate:\n    bar: 2 x 1/4\n    metal: [{keep: 4}]\n"
    text += "joins:\n  - {tenon: 1/4, through: [stem.tenon, plate], grip: 1/4}\n"
    for told, oblong in (("1/2 x 1/4", True), ("1/4 rd", False)):
        copy = reckon_text(text % told, "t.yaml").copy
        assert copy is not None
        (tool,) = (t for t in tools_of(copy.pieces, copy.joints, copy.shop) if t.what == FirstTool.MONKEY)
        assert (tool.section is not None) is oblong
        if tool.section is not None:
            assert tool.section.width == pytest.approx(0.5 * INCH)
