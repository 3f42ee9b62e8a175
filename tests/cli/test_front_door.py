"""The front door: exit codes, where things are written, and that nobody is shown a stack trace."""

import contextlib
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.cli import show
from bickern.cli.main import run

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
HOOK = str(EXAMPLES / "rail-s-hook.yaml")
Said = pytest.CaptureFixture[str]


def stop_file(folder: Path) -> str:
    path = folder / "bad.yaml"
    path.write_text("job: Bad\nunits: in\npieces:\n  hook:\n    bar: 3.8 rd\n    metal: [{keep: 3}]\n")
    return str(path)


def test_reckon_shows_what_to_cut_in_both_systems(capsys: Said):
    assert run(["reckon", HOOK]) == 0
    said = capsys.readouterr().out
    assert "CUT THIS" in said
    assert "4 13/16 in (122.5 mm)" in said
    assert "Rail S-hook" in said


def test_reckon_of_a_bad_job_still_shows_its_findings_and_exits_1(capsys: Said, tmp_path: Path):
    assert run(["reckon", stop_file(tmp_path)]) == 1
    assert "bad.yaml:5:" in capsys.readouterr().out


def test_reckon_as_json_is_json_and_nothing_else(capsys: Said, tmp_path: Path):
    assert run(["reckon", HOOK, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["pieces"]
    assert run(["reckon", stop_file(tmp_path), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["findings"]


def test_other_rules_are_in_short_or_each_by_itself(capsys: Said):
    pull = str(EXAMPLES / "ring-pull.yaml")
    run(["reckon", pull])
    short = capsys.readouterr().out
    run(["reckon", pull, "--all"])
    full = capsys.readouterr().out
    assert "other rules say" in short
    assert "Googerty" not in short
    assert "Googerty" in full


def test_check_says_so_where_nothing_is_wrong(capsys: Said):
    assert run(["check", HOOK]) == 0
    assert capsys.readouterr().out == "no findings\n"


def test_sheets_writes_the_packet(capsys: Said, tmp_path: Path):
    out = tmp_path / "out"
    assert run(["sheets", HOOK, "--out", str(out), "--paper", "a4"]) == 0
    listed = [Path(line) for line in capsys.readouterr().out.splitlines() if line.startswith(str(out))]
    assert {p.name for p in listed} >= {"shop-sheet.pdf", "cut-list.csv", "reckoning.json"}
    assert all(p.stat().st_size > 0 for p in listed)
    assert (out / "shop-sheet.pdf").read_bytes().startswith(b"%PDF")


def test_a_customer_gets_one_sheet(tmp_path: Path):
    assert run(["sheets", HOOK, "--out", str(tmp_path), "--for", "customer"]) == 0
    assert [p.name for p in tmp_path.iterdir()] == ["customer-sheet.pdf"]


def test_sheets_of_a_job_that_cannot_be_read_exit_1_and_write_nothing(capsys: Said, tmp_path: Path):
    bad = tmp_path / "bad.yaml"
    bad.write_text("job: [\n")
    assert run(["sheets", str(bad), "--out", str(tmp_path / "out")]) == 1
    assert "bad.yaml:" in capsys.readouterr().out
    assert not (tmp_path / "out").exists()


def test_new_lists_writes_and_never_overwrites(capsys: Said, tmp_path: Path):
    assert run(["new"]) == 0
    assert "porch-lantern" in capsys.readouterr().out
    mine = tmp_path / "mine.yaml"
    assert run(["new", str(mine), "--from", "ladle"]) == 0
    text = mine.read_text()
    assert text == (EXAMPLES / "ladle.yaml").read_text()
    mine.write_text("job: my own work\n")
    assert run(["new", str(mine), "--from", "ladle"]) == 2
    assert mine.read_text() == "job: my own work\n"


def test_rules_names_a_source_with_every_rule(capsys: Said):
    assert run(["rules"]) == 0
    said = capsys.readouterr().out
    assert "weld allowance" in said
    assert "Googerty" in said


def test_schema_is_json(capsys: Said):
    assert run(["schema"]) == 0
    assert "$schema" in json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["forge"],
        ["reckon"],
        ["reckon", "no-such-file.yaml"],
        ["check", "no-such-file.yaml"],
        ["sheets", "no-such-file.yaml"],
        ["fit"],
        ["hang", "no-such-file.yaml"],
        ["hang", HOOK, "--held", "100"],
        ["reckon", str(EXAMPLES)],
        ["reckon", HOOK, "--shop", "no-such-shop.yaml"],
        ["rules", "--shop", "no-such-shop.yaml"],
        ["reckon", HOOK, "--loud"],
        ["reckon", HOOK, "--json", "--all"],
        ["sheets", HOOK, "--paper", "napkin"],
        ["sheets", HOOK, "--for", "king"],
        ["sheets", HOOK, "--out", HOOK],
        ["new", "somewhere/that/is/not/there.yaml"],
        ["new", "x.yaml", "--from", "teapot"],
        ["ask"],
        ["ask", "anvil"],
        ["ask", "ring", "1/4 rd"],
        ["ask", "ring", "1/4 rd", "2", "--units", "ft"],
        ["ask", "ring", "1/4 rd", "2", "--closed", "glued"],
        ["ask", "ring", "1/4 rd", "2", "--shop", "no-such-shop.yaml"],
        ["ask", "cone", "8", "2", "4", "--sizes", "some"],
    ],
    ids=" ".join,
)
def test_wrong_use_exits_2_and_says_why(
    words: list[str], capsys: Said, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    assert run(words) == 2
    said = capsys.readouterr()
    assert (said.err + said.out).strip()
    assert "Traceback" not in said.err + said.out
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("words", [["--help"], ["reckon", "--help"], ["ask", "ring", "--help"], ["--version"]])
def test_help_is_fine(words: list[str], capsys: Said):
    assert run(words) == 0
    assert capsys.readouterr().out.strip()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["ring", "3/16 rd", "3/4"], "CUT THIS"),
        (["ring", "1/4 rd", "1/2", "--long", "1", "--closed", "welded"], "inside long"),
        (["taper", "1/2 sq", "point", "3"], "by constant volume"),
        (["taper", "1/2 sq", "1/8 rd", "3", "--from", "3/8 sq"], "by constant volume"),
        (["cone", "8", "1 1/2", "4"], "227°"),
        (["weight", "1/2 sq", "12"], "weighs"),
        (["collar", "1/8", "1/2 sq", "1/2 sq"], "this shop's rule"),
        (["rivet", "3/16", "1/4"], "hole, at most"),
        (["bend", "16 ga", "90", "1/16"], "length in the bend"),
        (["gauge", "16"], "0.0598 in (1.52 mm)"),
        (["convert", "-3 1/4 in"], "-82.55"),
        (["convert", "82 mm", "--units", "mm"], "millimetres"),
    ],
)
def test_every_question_is_answered(words: list[str], says: str, capsys: Said):
    assert run(["ask", *words]) == 0
    assert says in capsys.readouterr().out


def test_a_question_that_makes_no_sense_exits_1(capsys: Said):
    assert run(["ask", "ring", "pudding", "3/4"]) == 1
    assert "STOP" in capsys.readouterr().out


WORDS = st.lists(
    st.one_of(
        st.sampled_from(
            ["ring", "taper", "cone", "weight", "collar", "rivet", "bend", "gauge", "convert", "--units", "mm", "in",
             "--long", "--from", "--sheet", "1/2 sq", "1/4 rd", "3/4", "point", "16 ga", "-1", "90", "0", "--", "-h",
             "1e99", "8 mm", "½", "--shop", "", "1' 6\""]
        ),
        st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=8),
    ),
    max_size=6,
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(words=WORDS)
def test_whatever_is_asked_ends_in_an_answer_a_finding_or_a_word_on_use(words: list[str]):
    said = io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        code = run(["ask", *words])
    assert code in (0, 1, 2), said.getvalue()
    assert "Traceback" not in said.getvalue()


@pytest.mark.parametrize("fault", [ZeroDivisionError, KeyError, RecursionError, AssertionError])
def test_a_fault_of_our_own_is_told_without_a_trace(
    fault: type[Exception], capsys: Said, monkeypatch: pytest.MonkeyPatch
):
    def fails(*_: object) -> None:
        raise fault("broken")

    monkeypatch.delenv("BICKERN_TRACE", raising=False)
    monkeypatch.setattr("bickern.desk.by_rack.reckon_file", fails)
    assert run(["check", HOOK]) == 3
    said = capsys.readouterr()
    assert fault.__name__ in said.err
    assert "Traceback" not in said.err + said.out


@pytest.mark.parametrize("columns", [40, 60, 100, 200])
def test_no_line_is_wider_than_the_terminal(columns: int, capsys: Said, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("COLUMNS", str(columns))
    run(["reckon", str(EXAMPLES / "crane-chain.yaml"), "--all"])
    assert show.width() == min(columns, show.WIDEST)
    # the place of a finding is one word and may be longer
    lines = [line for line in capsys.readouterr().out.splitlines() if ".yaml:" not in line]
    assert max(map(len, lines)) <= show.width()


def test_a_size_is_not_torn_from_its_fraction(capsys: Said, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("COLUMNS", "50")
    run(["reckon", str(EXAMPLES / "porch-lantern.yaml")])
    said = capsys.readouterr().out.split("CUT THIS", 1)[1]  # behind the cut list, whose cells stand apart
    assert not re.search(r"\d\s*\n\s+(in|mm)\b", said)
    assert not re.search(r"\b\d{1,2}\n\s+\d+/\d+ in", said)


def test_the_last_of_many_cells_goes_below_where_it_has_no_room(capsys: Said, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("COLUMNS", "60")
    row = ("S1", "20 ga, 0.036 in (0.91 mm)", "24 x 36 in", "mild", "behind the door")
    show.show_rows("The rack", [row], ("id", "stock", "size", "steel", "where it lies"))
    _, heads, _, said, below = capsys.readouterr().out.splitlines()
    assert said.index("mild") == heads.index("steel")
    assert below == "      behind the door"
    monkeypatch.setenv("COLUMNS", "40")
    show.show_rows("The rack", [row], ("id", "stock", "size", "steel", "where it lies"))
    assert "where it lies" not in capsys.readouterr().out  # heads above one another would head nothing


def test_signs_that_a_terminal_obeys_are_not_passed_on(capsys: Said):
    show.show_rows("title\x1b[2J", [("a\x07", "b\r\nc")])
    said = capsys.readouterr().out
    assert "\x1b" not in said
    assert "\x07" not in said


def fresh(*words: str) -> "subprocess.CompletedProcess[str]":
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONIOENCODING": "utf-8"}
    return subprocess.run(
        [sys.executable, *words], capture_output=True, text=True, encoding="utf-8", env=environment, check=False
    )


def test_a_fresh_process_reckons():
    done = fresh("-m", "bickern.cli", "reckon", HOOK)
    assert done.returncode == 0
    assert "4 13/16 in (122.5 mm)" in done.stdout
    assert done.stderr == ""


def test_a_fresh_process_with_wrong_use_exits_2():
    done = fresh("-m", "bickern.cli", "reckon", "nowhere.yaml")
    assert done.returncode == 2
    assert "there is no file nowhere.yaml" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_quick_question_loads_nothing_heavy():
    program = "import sys; from bickern.cli.main import run; run(['ask', 'gauge', '16']); print(*sys.modules)"
    loaded = set(fresh("-c", program).stdout.split())
    assert "bickern.desk.ask" in loaded
    assert not loaded & {"numpy", "shapely", "pydantic", "yaml", "ezdxf", "typst", "bickern.paper.packet", "manifold3d"}


def test_a_job_of_bars_reckons_without_what_sheet_needs():
    program = f"import sys; from bickern.cli.main import run; run(['reckon', {HOOK!r}]); print(*sys.modules)"
    loaded = set(fresh("-c", program).stdout.split())
    assert "bickern.parts.bar.reckon" in loaded
    heavy = {"shapely", "pydantic", "ezdxf", "typst", "manifold3d", "bickern.parts.set.assemble"}
    assert not loaded & {*heavy, "bickern.parts.sheet.reckon", "bickern.paper.packet"}
