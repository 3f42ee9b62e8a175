"""`bickern rack` on a terminal: exit codes, what is shown, and that no start is slowed by the database."""

import csv
import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from bickern.cli.main import run

ROOT = Path(__file__).parents[2]
Said = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def own_rack(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Nobody's real rack is touched."""
    place = tmp_path / "rack.sqlite"
    monkeypatch.setenv("BICKERN_RACK", str(place))
    monkeypatch.chdir(tmp_path)
    return place


def rack(*words: str) -> int:
    return run(["rack", *words])


def filled() -> None:
    words = ["--steel", "S235JR", "--coating", "none", "--place", "left wall"]
    assert rack("add", "3/8 sq", "72", *words, "--price", "4.20 USD", "--count", "3") == 0
    assert rack("add", "10 mm sq", "2 m", "--coating", "galvanised") == 0
    assert rack("add", "--sheet", "18 ga", "--size", "48 x 24", "--coating", "none", "--steel", "mild") == 0


def test_a_section_without_quotes_is_told_how_to_write_it(own_rack: Path, capsys: Said):
    assert rack("add", "3/8", "sq", "72", "--steel", "mild") == 2
    assert 'bickern rack add "3/8 sq" "6 ft"' in capsys.readouterr().err
    assert not own_rack.exists()


def test_a_change_of_nothing_names_all_that_can_be_changed(capsys: Said):
    filled()
    assert rack("change", "B1") == 2
    said = capsys.readouterr().err
    assert all(f"--{word}" in said for word in ("section", "length", "thickness", "steel", "coating"))


def test_put_in_and_listed(capsys: Said):
    filled()
    said = capsys.readouterr().out
    assert "In the rack now; paint the id on: 3 pieces" in said
    assert rack("list") == 0
    said = capsys.readouterr().out
    for words in ("The rack: 5 pieces", "B3", "S1", "72 in (1829 mm)", "NEVER IN THE FIRE", "left wall"):
        assert words in said
    assert max(map(len, said.splitlines())) <= 100


def test_a_sheet_from_a_drawing(capsys: Said, tmp_path: Path):
    picture = '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50">'
    (tmp_path / "odd.svg").write_text(picture + '<path d="M0 0 L100 0 L0 50 Z"/></svg>')
    assert rack("add", "--sheet", "1.5 mm", "--outline", "odd.svg") == 0
    assert "odd, in 3 15/16 x 1 15/16 in (100 x 50 mm)" in capsys.readouterr().out


def test_found_moved_changed_removed(capsys: Said):
    filled()
    capsys.readouterr()
    assert rack("find", "3/8", "sq", "left") == 0
    assert "Found: 3 pieces" in capsys.readouterr().out
    assert rack("move", "b1", "floor") == 0
    assert rack("change", "B1", "--length", "70", "--remark", "bent") == 0
    assert rack("remove", "B2", "B3", "--because", "sold") == 0
    assert "Taken out: 2 pieces" in capsys.readouterr().out
    assert rack("history", "b1") == 0
    said = capsys.readouterr().out
    for words in ("added", "moved; place floor (was left wall)", "length 70 in (1778 mm) (was 72 in (1829 mm))"):
        assert words in " ".join(said.split())
    assert rack("check") == 0
    assert "3 pieces" in capsys.readouterr().out


def test_lists_go_out_and_come_in_again(capsys: Said, tmp_path: Path):
    filled()
    capsys.readouterr()
    assert rack("list", "--csv") == 0
    text = capsys.readouterr().out
    assert len(list(csv.DictReader(io.StringIO(text)))) == 5
    (tmp_path / "list.csv").write_text(text)
    assert rack("import", "list.csv", "--rack", "other.sqlite", "--dry") == 0
    assert "Would be put in: 5 pieces" in capsys.readouterr().out
    assert not (tmp_path / "other.sqlite").exists()
    assert rack("import", "list.csv", "--rack", "other.sqlite") == 0
    capsys.readouterr()
    assert rack("list", "--json", "--rack", "other.sqlite") == 0
    told = json.loads(capsys.readouterr().out)
    assert len(told["pieces"]) == 5
    assert rack("find", "left", "--csv") == 0
    assert len(list(csv.DictReader(io.StringIO(capsys.readouterr().out)))) == 3


def test_a_bad_list_exits_1_and_puts_nothing_in(capsys: Said, tmp_path: Path, own_rack: Path):
    (tmp_path / "bad.csv").write_text("section,length\n3/8 sq,72\npudding,1\n")
    assert rack("import", "bad.csv", "--units", "in") == 1
    said = capsys.readouterr().out
    assert "bad.csv:3 (section)" in said
    assert "nothing of it is put in" in said
    assert not own_rack.exists()


def test_labels_and_backup(capsys: Said, tmp_path: Path):
    filled()
    capsys.readouterr()
    assert rack("label", "B1", "--out", "b1.pdf", "--paper", "a4") == 0
    assert (tmp_path / "b1.pdf").read_bytes().startswith(b"%PDF")
    assert rack("backup", "kept.sqlite") == 0
    assert rack("list", "--rack", "kept.sqlite") == 0
    assert "The rack: 5 pieces" in capsys.readouterr().out
    assert rack("backup", "kept.sqlite") == 1


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["sing"],
        ["add"],
        ["add", "3/8 sq"],
        ["add", "3/8", "72"],
        ["add", "3/8 sq", "nan"],
        ["add", "3/8 sq", "72", "--price", "4.20"],
        ["add", "3/8 sq", "72", "--count", "many"],
        ["add", "--sheet", "18 ga"],
        ["add", "--sheet", "18 ga", "--outline", "none.dxf"],
        ["import"],
        ["import", "none.csv"],
        ["list"],
        ["list", "--rack", "no/such/folder/rack.sqlite"],
        ["list", "--rack", "mysql://host/rack"],
        ["list", "--rack", "postgresql://nobody@localhost:1/rack"],
        ["list", "--shop", "none.yaml"],
        ["list", "--units", "ft"],
        ["find", "3/8"],
        ["change", "B1"],
        ["change", "B1", "--place", "x"],
        ["move", "B1"],
        ["move", "B1", "x"],
        ["remove", "B1"],
        ["remove", "B1", "--because", "x"],
        ["history", "B1"],
        ["label"],
        ["label", "B1"],
        ["backup", "copy.sqlite"],
        ["check"],
    ],
    ids=" ".join,
)
def test_what_cannot_be_done_says_why_and_leaves_nothing_behind(words: list[str], capsys: Said, tmp_path: Path):
    assert rack(*words) in (1, 2)
    said = capsys.readouterr()
    assert (said.out + said.err).strip()
    assert "Traceback" not in said.out + said.err
    assert list(tmp_path.iterdir()) == []


def test_a_shop_file_that_stops_is_not_gone_by(capsys: Said, tmp_path: Path):
    (tmp_path / "shop.yaml").write_text("shop: Mine\nunits: feet\n")
    assert rack("list", "--shop", "shop.yaml") == 2
    assert "STOP" in capsys.readouterr().out


def test_no_other_start_opens_the_database():
    """The libraries of the database are loaded when a rack is opened, and not before."""
    code = (
        "import sys; import bickern.cli.rack, bickern.desk.rack.rack, bickern.desk.rack.find; "
        "from bickern.cli.main import run; run(['rack', '--help']); run(['rules']); "
        "print([m for m in ('sqlalchemy', 'alembic', 'psycopg', 'platformdirs') if m in sys.modules])"
    )
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=environment, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_listing_does_not_load_what_only_making_a_rack_needs(tmp_path: Path):
    filled()
    code = (
        "import sys; from bickern.cli.main import run; run(['rack', 'list']); "
        "print([m for m in ('alembic', 'psycopg', 'typst', 'ezdxf', 'numpy') if m in sys.modules])"
    )
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=environment, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
