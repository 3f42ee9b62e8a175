"""`bickern record` and `bickern learned` as they are typed."""

import json
from pathlib import Path

import pytest

from bickern.cli.main import run

EXAMPLES = Path(__file__).parents[2] / "examples"
HOOK = str(EXAMPLES / "leaf-coat-hook.yaml")
LANTERN = str(EXAMPLES / "porch-lantern.yaml")


@pytest.fixture
def rack(tmp_path: Path) -> str:
    return str(tmp_path / "rack.sqlite")


def said(capsys: pytest.CaptureFixture[str]) -> str:
    return " ".join(capsys.readouterr().out.split())


def test_without_figures_it_says_what_can_be_told_and_begins_no_book(rack: str, capsys):
    assert run(["record", HOOK, "--rack", rack]) == 0
    out = said(capsys)
    for word in ("--stock", "--heats", "--minutes", "--reached", "--minutes-of", "hook taper", "twist", "foreseen 13"):
        assert word in out
    assert not Path(rack).exists()


def test_a_record_is_kept_and_the_rest_reckoned_again(rack: str, capsys):
    words = ["--stock", "7 1/2", "--left", "1/8", "--heats", "10", "--minutes", "27", "--remark", "first one"]
    assert run(["record", HOOK, "--rack", rack, *words]) == 0
    out = said(capsys)
    assert "Record 1 is kept: “hook”, 1 made, Leaf coat hook." in out
    assert "The other 23" in out
    assert "instead of 7 1/16 in" in out
    assert run(["record", HOOK, "hook", "--rack", rack, "--minutes", "100", "--made", "5"]) == 0
    assert "The other 18" in said(capsys)


def test_every_fault_in_what_is_told_comes_at_once_and_nothing_is_kept(rack: str, capsys):
    words = ["--stock", "3.8", "--minutes", "-5", "--minutes-of", "tapr=3", "--reached", "reach", "--heats", "x"]
    assert run(["record", HOOK, "--rack", rack, *words]) == 1
    out = said(capsys)
    for word in ("--minutes", "tapr", "did you mean “taper”?", "has no figure", "--heats"):
        assert word in out
    assert "is kept" not in out
    assert run(["record", HOOK, "--rack", rack]) == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--weight-before", "4 oz", "--weight-after", "5 oz"], "more metal out than in"),
        (["--stock", "4"], "more metal out than in"),
        (["--minutes", "0"], "no time"),
        (["--made", "0", "--heats", "9"], "is not a number of pieces"),
        (["--reached", "wings=3", "--heats", "9"], "nothing that was foreseen"),
    ],
)
def test_what_cannot_be_stops(rack: str, capsys, words: list[str], says: str):
    assert run(["record", HOOK, "--rack", rack, *words]) == 1
    assert says in said(capsys)


def test_which_of_several_pieces_is_asked(rack: str, capsys):
    assert run(["record", LANTERN, "--rack", rack, "--stock", "20"]) == 1
    assert "this job has several pieces" in said(capsys)
    assert run(["record", LANTERN, "hod", "--rack", rack, "--minutes", "20"]) == 1
    assert "did you mean “hood”?" in said(capsys)
    assert run(["record", LANTERN, "--rack", rack, "--minutes", "200"]) == 0
    assert "the whole job" in said(capsys)


def test_the_figures_are_shown_set_back_and_told_as_json(rack: str, capsys):
    assert run(["learned", "--rack", rack]) == 0
    assert "all of it" in said(capsys)
    assert not Path(rack).exists()
    run(["record", HOOK, "--rack", rack, "--blows", "300", "--minutes-of", "taper=3"])
    capsys.readouterr()
    assert run(["learned", "--rack", rack, "--json"]) == 0
    told = {row["figure"]: row for row in json.loads(capsys.readouterr().out)["figures"]}
    assert told["useful"]["records"] == 1
    assert told["useful"]["value"] < told["useful"]["prior"]
    assert told["weld"]["value"] == told["weld"]["prior"]
    assert told["weld"]["share_of_prior"] == 1.0
    assert run(["learned", "--rack", rack, "--reset", "useful", "--json"]) == 0
    told = {row["figure"]: row for row in json.loads(capsys.readouterr().out)["figures"]}
    assert told["useful"]["value"] == told["useful"]["prior"]
    assert told["minutes of taper"]["records"] == 1
    assert run(["learned", "--rack", rack, "--reset", "donkey"]) == 1
    assert "there is no figure “donkey”" in said(capsys)


def test_files_that_are_not_there(rack: str, capsys):
    assert run(["record", "none.yaml", "--rack", rack]) == 2
    assert run(["learned", "--shop", "none.yaml", "--rack", rack]) == 2


def test_where_no_day_book_lies_that_is_told(rack: str, capsys):
    assert run(["learned", "--rack", rack]) == 0
    assert "there is no day book yet" in said(capsys)
    assert run(["record", HOOK, "--rack", rack, "--heats", "14"]) == 0
    capsys.readouterr()
    assert run(["learned", "--rack", rack]) == 0
    assert "there is no day book yet" not in said(capsys)


def test_a_slip_is_listed_struck_and_recorded_again(rack: str, capsys):
    """55 for 7 1/2: struck, it stays in the list, marked; all of the lot is to be made again."""
    run(["record", HOOK, "--rack", rack, "--stock", "55", "--heats", "20"])
    assert "strike it (--strike with its number)" in said(capsys)
    assert run(["record", HOOK, "--rack", rack, "--list"]) == 0
    assert "1 2" in said(capsys)  # number 1, of the year 2...
    assert run(["record", HOOK, "--rack", rack, "--strike", "1", "--remark", "the wrong unit"]) == 0
    out = said(capsys)
    assert "Record 1, “hook”, Leaf coat hook, is struck: it stays in the day book" in out
    assert "What it had taught, without it" in out
    assert "Still to be made: 24" in out
    assert run(["record", HOOK, "--rack", rack, "--stock", "7 1/2"]) == 0
    assert "The other 23" in said(capsys)
    assert run(["record", HOOK, "hook", "--rack", rack, "--list"]) == 0
    out = said(capsys)
    assert "STRUCK" in out
    assert "the wrong unit; stock 55 in (1397 mm)" in out
    assert run(["learned", "--rack", rack, "--list"]) == 0
    assert "“hook”, Leaf coat hook STRUCK" in said(capsys)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["record", HOOK, "--strike", "1"], "record 1 was struck already"),
        (["record", HOOK, "--strike", "7"], "there is no record 7 in the day book"),
        (["record", HOOK, "--strike", "2"], "record 2 is of the whole job"),
        (["record", HOOK, "hok", "--list"], "did you mean “hook”?"),
        (["record", LANTERN, "--strike", "2", "--stock", "7"], "one is struck by itself"),
        (["record", HOOK, "--list", "--heats", "12"], "what is told beside --list was not kept"),
        (["learned", "--strike", "7"], "there is no record 7 in the day book"),
    ],
)
def test_what_cannot_be_struck_is_said(rack: str, capsys, words: list[str], says: str):
    run(["record", HOOK, "--rack", rack, "--heats", "14"])
    run(["record", HOOK, "--rack", rack, "--strike", "1"])
    run(["record", LANTERN, "--rack", rack, "--minutes", "200"])
    capsys.readouterr()
    assert run([*words, "--rack", rack]) == 1
    assert says.replace("the whole job", "Porch lantern") in said(capsys)


def test_by_its_number_alone_a_record_of_any_job_is_struck(rack: str, capsys):
    run(["record", LANTERN, "--rack", rack, "--minutes", "200"])
    assert run(["learned", "--rack", rack, "--strike", "1"]) == 0
    assert "Record 1, the whole job, Porch lantern" in said(capsys)


def test_nothing_is_listed_and_no_book_begun_where_there_is_none(rack: str, capsys):
    assert run(["record", HOOK, "--rack", rack, "--list"]) == 0
    assert "There is no record of Leaf coat hook yet." in said(capsys)
    assert run(["record", HOOK, "--rack", rack, "--strike", "1"]) == 1
    assert run(["learned", "--rack", rack, "--list"]) == 0
    assert "there is no day book yet" in said(capsys)
    assert not Path(rack).exists()
    assert run(["record", HOOK, "--rack", rack, "--strike", "one"]) == 2
    assert run(["learned", "--rack", rack, "--strike", "1", "--list"]) == 2
