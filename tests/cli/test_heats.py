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


def test_heats_as_json_is_json_and_nothing_else(capsys: Said, tmp_path: Path):
    assert run(["heats", HOOK, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert set(data) == {"schema", "schema_version", "version", "findings", "plan"}
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
