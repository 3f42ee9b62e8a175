"""`bickern fit` and `bickern hang`: what a smith is told, as a table and as JSON, and what is wrong use."""

import json
import re
from pathlib import Path

import pytest

from bickern.cli.main import run
from bickern.measure.units.words import INCH

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("rail-s-hook", "ring-pull", "dinner-triangle", "ladle")
HOOK, PULL, TRIANGLE, LADLE = (str(EXAMPLES / f"{name}.yaml") for name in NAMES)
Said = pytest.CaptureFixture[str]
PLAIN = "job: Plain\nunits: in\npieces:\n  bar:\n    bar: 1/2 sq\n    metal: [{keep: 3}]\n"


def job(folder: Path, text: str) -> str:
    path = folder / "job.yaml"
    path.write_text(text)
    return str(path)


def jamming(folder: Path) -> str:
    """The ring pull with its hole as small as its ring's bar."""
    text = Path(PULL).read_text()
    assert "size: 9/16" in text
    return job(folder, text.replace("size: 9/16", "size: 1/2"))


def test_the_ring_pull_goes_together_with_the_drift_that_print_and_geometry_ask_for(capsys: Said):
    """1/2 rd, 3 1/2 inside, 5/8 plate: d + R - sqrt(R^2 - (T/2)^2) = 0.528 in (exact mathematics)."""
    assert run(["fit", PULL]) == 0
    said = " ".join(capsys.readouterr().out.split())
    for says in (
        "ring through boss.hole",
        "free",
        "17/32 in (.528) / 13.4 mm",
        "9/16 drift: swings",
        "1/2: jams by 1/32",
    ):
        assert says in said, says
    assert "What is done before what" in said
    assert said.index("Make the hole first") < said.index("then weld it")


def test_what_does_not_go_together_exits_1_and_says_by_how_much(capsys: Said, tmp_path: Path):
    assert run(["fit", jamming(tmp_path)]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "will not go" in said
    assert "1/32 in (.028) / 0.7 mm too little" in said
    assert "STOP" in said


def test_fit_as_json_is_json_and_nothing_else(capsys: Said, tmp_path: Path):
    assert run(["fit", PULL, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert set(data) == {"schema", "schema_version", "version", "findings", "fit", "swings"}
    through = next(row for row in data["fit"]["rows"] if row["what"] == "ring through boss.hole")
    assert through["needed_m"] == pytest.approx(0.528 * INCH, abs=0.0005 * INCH)
    assert run(["fit", job(tmp_path, "job: [\n"), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["findings"]


def test_the_hook_says_how_it_hangs_and_what_friction_does(capsys: Said):
    assert run(["hang", HOOK]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "off plumb" in said
    assert "friction can hold it from" in said
    assert "No print confirms" in said
    assert not re.search(r"load rating|rated|safe load|will carry|can carry|capacity|strong enough", said.lower())


def test_the_triangle_tips_by_less_than_a_degree_and_its_low_side_is_told(capsys: Said):
    assert run(["hang", TRIANGLE, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert set(data) == {"schema", "schema_version", "version", "findings", "hang", "set"}
    bottom = next(tilt for tilt in data["hang"]["tilts"] if "bottom" in tilt["of"])
    assert bottom["off"] == "level"
    assert 0 < bottom["angle_rad"] < 0.01746
    assert "low" in bottom["toward"]


def test_a_job_without_joints_and_hold_says_so_and_is_no_fault(capsys: Said, tmp_path: Path):
    plain = job(tmp_path, PLAIN)
    assert run(["fit", plain]) == 0
    assert "no joint of it is checked for fit" in capsys.readouterr().out
    assert run(["hang", plain]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "does not say how it is held" in said
    assert "hang: {from:" in said


def test_what_is_held_in_the_hand_is_held_at_the_angle_that_is_said(capsys: Said):
    told = []
    for angle in ("-30", "0", "45"):
        assert run(["hang", LADLE, "--held", angle]) == 0
        told.append(capsys.readouterr().out)
    assert len(set(told)) == 3
    assert "in the hand" in told[0]


@pytest.mark.parametrize("angle", ["91", "-90.5", "nan", "inf", "level"])
def test_an_angle_that_nothing_is_held_at_is_wrong_use(angle: str, capsys: Said):
    assert run(["hang", HOOK, "--held", angle]) == 2
    said = capsys.readouterr()
    assert (said.out + said.err).strip()
    assert "Traceback" not in said.out + said.err


@pytest.mark.parametrize("command", ["fit", "hang"])
def test_a_job_that_stops_is_not_put_together(command: str, capsys: Said, tmp_path: Path):
    bad = job(tmp_path, PLAIN.replace("1/2 sq", "3.8 rd") + "hang: {from: bar.start, on: hook}\n")
    assert run([command, bad]) == 1
    assert "STOP" in capsys.readouterr().out


@pytest.mark.parametrize("command", ["fit", "hang"])
def test_a_file_that_is_not_there_is_wrong_use(command: str, capsys: Said):
    assert run([command, "no-such-file.yaml"]) == 2
    assert "there is no file" in capsys.readouterr().err


def test_reckon_says_in_one_line_whether_it_goes_together(capsys: Said, tmp_path: Path):
    assert run(["reckon", PULL]) == 0
    assert "3 free (bickern fit shows by how much)" in " ".join(capsys.readouterr().out.split())
    run(["reckon", jamming(tmp_path)])
    assert "1 will not go, 2 free" in " ".join(capsys.readouterr().out.split())
    run(["reckon", HOOK])
    assert "does it go together" not in capsys.readouterr().out
