"""`bickern cut`: the plan on a terminal, taken, printed, as JSON; words that do not do."""

import csv
import io
import json
import signal
from pathlib import Path

import pytest

from bickern.cli.cut import _stoppable
from bickern.cli.main import run

EXAMPLES = Path(__file__).parents[2] / "examples"
HOOK, TONGS, LADLE = (str(EXAMPLES / f"{name}.yaml") for name in ("leaf-coat-hook", "bolt-tongs", "ladle"))
Said = pytest.CaptureFixture[str]


@pytest.fixture
def rack(tmp_path: Path) -> str:
    """Bars for hooks and tongs, a galvanised one, and a sheet for a bowl."""
    path = str(tmp_path / "rack.sqlite")
    square = ("--coating", "none", "--steel", "mild", "--place", "left wall")
    for words in (
        *(("3/8 sq", str(inches), *square) for inches in ("72", "38 1/2", "22", "15", "9")),
        ("5/8 sq", "60", *square),
        ("3/8 sq", "60", "--coating", "galvanised", "--steel", "mild", "--place", "yard"),
        ("3/16 rd", "12", *square),
        ("--sheet", "16 ga", "--size", "16 x 12", "--coating", "none", "--steel", "mild", "--place", "door"),
    ):
        assert run(["rack", "add", *words, "--units", "in", "--rack", path]) == 0
    return path


def said_by(capsys: Said, *words: str, ends: int = 0) -> str:
    capsys.readouterr()
    assert run(["cut", *words]) == ends
    said = " ".join(capsys.readouterr().out.split())
    assert "Traceback" not in said
    return said


def test_a_job_named_twice_is_told_and_paper_may_be_written_large(tmp_path: Path, capsys: Said):
    rack = str(tmp_path / "r.sqlite")
    words = ["--steel", "mild", "--coating", "none", "--rack", rack]
    assert run(["rack", "add", "1/4 rd", "72", *words]) == 0
    hook = str(EXAMPLES / "rail-s-hook.yaml")
    assert run(["cut", hook, hook, "--rack", rack, "--paper", "A4"]) == 0
    assert "rail-s-hook.yaml is named 2 times" in capsys.readouterr().out
    assert run(["cut", hook, "--rack", rack, "--paper", "a5"]) == 2


def test_the_plan_is_told_bar_by_bar_with_running_marks_in_both_systems(capsys: Said, rack: str):
    said = said_by(capsys, HOOK, "--rack", rack)
    assert "B1 3/8 in sq (9.5 mm) x 72 in (1829 mm) (left wall, mild)" in said
    assert "A 7 1/16 in (179.5 mm) mark at 7 1/16 in (179.5 mm) hook" in said
    # the second mark: two lengths and a kerf of 2.5 mm, 14 1/8 in + .098 in = 14.22 in, up to the next 1/32 in
    assert "mark at 14 1/4 in (362 mm) hook" in said
    assert "The rule was as few pieces short as can be" in said
    assert "proven: no plan from this rack leaves fewer short" in said
    assert "3 short" in said
    assert "To buy" in said
    assert "B7 (yard) is refused. This metal is marked `galvanised`" in said
    assert "Each cut loses" in said


def test_what_is_taken_is_told_and_gone_and_cannot_be_taken_twice(capsys: Said, rack: str):
    said = said_by(capsys, TONGS, "--rack", rack, "--take", "--who", "Ann")
    assert "Taken B6 is cut: 2 of half, 5 3/4 in (146.5 mm)" in said
    # 60 in less two lengths, and two kerfs of .098 in with what takes the second mark up to 11 5/8 in: 48.277 in
    assert "mark the 48 1/4 in (1226 mm) of B6 as B9" in said
    again = said_by(capsys, TONGS, "--rack", rack)
    assert "B9 5/8 in sq (15.9 mm) x 48 1/4 in (1226 mm) (left wall, mild, offcut)" in again
    assert run(["rack", "history", "B6", "--rack", rack]) == 0
    assert "Ann" in capsys.readouterr().out


def test_files_are_written_beside(capsys: Said, rack: str, tmp_path: Path):
    out = tmp_path / "out"
    said_by(capsys, LADLE, "--rack", rack, "--out", str(out), "--paper", "a4")
    there = {path.relative_to(out).as_posix() for path in out.rglob("*") if path.is_file()}
    lists = {"cut-list.pdf", "cut-plan.json", "cut-plan.csv"}
    assert there == lists | {"nests.pdf", "nests/S1.dxf", "nests/S1.svg"}
    rows = list(csv.DictReader(io.StringIO((out / "cut-plan.csv").read_bytes().decode("utf-8-sig"))))
    assert rows[0]["piece"] == "handle"
    plan = json.loads((out / "cut-plan.json").read_text())
    assert plan["bars"][0]["bars"][0]["cuts"][0]["piece"] == "handle"
    assert plan["sheets"][0]["sheets"][0]["parts"][0]["piece"] == "bowl"


def test_json_alone_stands_on_the_terminal(capsys: Said, rack: str):
    capsys.readouterr()
    assert run(["cut", HOOK, "--rack", rack, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["schema"] == "bickern cut plan"
    (section,) = told["bars"]
    assert [one["count"] for one in section["short"]] == [3]
    assert section["proven"] is True
    first = section["bars"][0]["cuts"][0]
    assert first["length_m"] == pytest.approx(7.0625 * 0.0254, abs=1e-6)
    assert first["length_said"] == "7 1/16 in (179.5 mm)"


def test_what_is_taken_stands_in_the_json(capsys: Said, rack: str):
    capsys.readouterr()
    assert run(["cut", TONGS, "--rack", rack, "--json", "--take"]) == 0
    assert json.loads(capsys.readouterr().out)["taken"] == [{"id": "B9", "of": "B6"}]
    assert run(["cut", str(Path(rack).parent / "none.yaml"), "--rack", rack, "--json", "--take"]) == 2


def test_dealers_lengths_and_a_hot_cut_come_from_the_shop_file(capsys: Said, rack: str, tmp_path: Path):
    shop = tmp_path / "shop.yaml"
    shop.write_text(
        "shop: Ours\nunits: in\ncurrency: USD\ncutting: {hot cut: yes, dress: 1/8, sold in: [120, 240]}\n"
        "prices: {metal: 2 a lb}\n"
    )
    said = said_by(capsys, HOOK, "--rack", rack, "--shop", str(shop))
    assert "Cut hot: 1/8 in" in said
    # 120 in of 3/8 sq at 7850 kg/m3: 0.375^2 x 120 cubic in, 4.786 lb, 9.57 at 2 a pound
    assert "1 of 120 in (3048 mm) 3/8 in sq (9.5 mm), S235JR, about 9.57 USD" in said


def test_another_bar_is_taken_where_that_is_asked(capsys: Said, rack: str):
    assert (
        run(["rack", "add", "1/2 sq", "25", "--coating", "none", "--steel", "mild", "--units", "in", "--rack", rack])
        == 0
    )
    assert "Other stock that would do" in said_by(capsys, HOOK, "--rack", rack)
    said = said_by(capsys, HOOK, "--rack", rack, "--substitute")
    assert "3 of hook are made of 1/2 in sq" in said
    assert "short" not in said.replace("too short to keep", "")


def test_words_that_do_not_do_end_in_a_plain_line(capsys: Said, rack: str, tmp_path: Path):
    assert run(["cut", str(tmp_path / "none.yaml"), "--rack", rack]) == 2
    assert "there is no file" in capsys.readouterr().err
    assert run(["cut", HOOK, "--rack", rack, "--paper", "parchment"]) == 2
    assert "there is no paper" in capsys.readouterr().out
    assert run(["cut"]) == 2
    assert run(["cut", HOOK, "--rack", str(tmp_path / "none.sqlite")]) == 1


def test_a_job_that_stops_is_not_taken(capsys: Said, rack: str, tmp_path: Path):
    bad = tmp_path / "bad.yaml"
    bad.write_text("job: Bad\nunits: in\npieces:\n  it: {bar: 3/8 sq, metal: [{keep: -3}]}\n")
    said = said_by(capsys, str(bad), TONGS, "--rack", rack, "--take", ends=1)
    assert "left out of the cut plan" in said
    assert "the plan is not taken" in said


def test_ctrl_c_stops_the_search_and_a_second_one_the_command():
    before = signal.getsignal(signal.SIGINT)  # ignored where a shell began this in the background
    with _stoppable() as keep_going:
        assert keep_going()
        signal.raise_signal(signal.SIGINT)
        assert not keep_going()
        with pytest.raises(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)
    assert signal.getsignal(signal.SIGINT) is before
