"""`bickern heats`: the order of work as a table and as JSON, and what is wrong use."""

import json
import math
from pathlib import Path

import pytest

from bickern.cli.main import run

EXAMPLES = Path(__file__).parents[2] / "examples"
HOOK, LANTERN = (str(EXAMPLES / f"{name}.yaml") for name in ("rail-s-hook", "porch-lantern"))
Said = pytest.CaptureFixture[str]
PLAIN = "job: Plain\nunits: in\npieces:\n  bar:\n    bar: 1/2 sq\n    metal: [{keep: 3}]\n"


def job(folder: Path, text: str) -> str:
    path = folder / "job.yaml"
    path.write_text(text)
    return str(path)


def said_by(capsys: Said, *words: str) -> str:
    assert run(["heats", *words]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_the_order_of_work_is_told_with_heats_and_with_what_nothing_confirms(capsys: Said):
    said = said_by(capsys, HOOK)
    assert "heat" in said.lower()
    assert "not validated by anything printed" in said
    assert "Traceback" not in said


def test_one_piece_alone(capsys: Said):
    whole, arm = said_by(capsys, LANTERN), said_by(capsys, LANTERN, "arm")
    assert len(arm) < len(whole)
    assert "arm" in arm


def test_a_piece_that_is_not_there_is_wrong_use_and_those_there_are_named(capsys: Said):
    assert run(["heats", LANTERN, "leg"]) == 2
    said = capsys.readouterr().out
    assert "there is no piece “leg”" in said
    assert "arm" in said


def test_a_piece_that_is_misspelt_is_guessed_at_and_told_as_json_where_that_was_asked(capsys: Said):
    assert run(["heats", LANTERN, "amr"]) == 2
    assert "did you mean “arm”?" in capsys.readouterr().out
    assert run(["heats", LANTERN, "amr", "--json"]) == 2
    (found,) = json.loads(capsys.readouterr().out)["findings"]
    assert found["name"] == "no-such-piece"


def test_a_piece_whose_name_has_spaces_is_asked_for_in_quotes(capsys: Said, tmp_path: Path):
    said = said_by(capsys, job(tmp_path, PLAIN.replace("  bar:\n    bar", "  leg of it:\n    bar")), "leg of it")
    assert "leg of it" in said


def test_a_shop_file_with_nonsense_is_told_and_the_plain_figures_stand_in(capsys: Said, tmp_path: Path):
    shop = tmp_path / "shop.yaml"
    shop.write_text("shop: Mine\nunits: mm\nhand: {hammer: banana, carry in seconds: 1000}\nfire: {longest heat: 6}\n")
    assert run(["heats", HOOK, "--shop", str(shop)]) == 1
    said = capsys.readouterr().out
    assert said.endswith("3 STOP\n")
    assert "shop.yaml:3" in said
    assert run(["heats", HOOK]) == 0
    assert "about" in capsys.readouterr().out


@pytest.mark.parametrize("text", ["", "\x00", "job: x\n", "job: x\nunits: furlong\npieces: {}\n", "- 1\n- 2\n"])
def test_what_is_no_whole_job_is_told_without_a_trace(capsys: Said, tmp_path: Path, text: str):
    for words in ((), ("arm",), ("--json",)):
        assert run(["heats", job(tmp_path, text), *words]) == 1
        said = capsys.readouterr()
        assert "stop" in said.out.lower()
        assert not said.err


def test_heats_as_json_is_json_and_nothing_else(capsys: Said, tmp_path: Path):
    assert run(["heats", HOOK, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert set(data) == {"schema", "schema_version", "version", "findings", "plan", "not_validated"}
    (hook,) = data["plan"]["pieces"]
    assert hook["first_cut_m"] > 0.1
    hot = [spell for spell in hook["spells"] if spell["hot"]]
    assert hot
    assert all(1000 < spell["start_K"] < 1700 and spell["gives_s"]["value"] > 0 for spell in hot)
    bend = next(work for spell in hot for work in spell["works"] if work["does"] == "bend")
    assert bend["amount_rad"] == pytest.approx(math.pi)
    assert bend["radius_m"] == pytest.approx(0.0127)
    assert run(["heats", job(tmp_path, "job: [\n"), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["findings"]


def test_everything_as_json_carries_the_order_of_work(capsys: Said):
    assert run(["reckon", HOOK, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["plan"]["pieces"]


def test_a_job_that_wants_no_fire_is_no_fault(capsys: Said, tmp_path: Path):
    said_by(capsys, job(tmp_path, PLAIN))


def test_a_piece_that_stops_has_no_order_of_work_and_the_others_have(capsys: Said, tmp_path: Path):
    two = PLAIN + "  bad:\n    bar: 3.8 rd\n    metal: [{keep: 3}]\n"
    assert run(["heats", job(tmp_path, two)]) == 1
    said = capsys.readouterr().out
    assert "STOP" in said
    assert "bad" in said


def test_a_file_that_is_not_there_is_wrong_use(capsys: Said):
    assert run(["heats", "no-such-file.yaml"]) == 2
    assert "there is no file" in capsys.readouterr().err
