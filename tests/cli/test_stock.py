"""`bickern stock`: what the rack has for each piece, on a terminal."""

from pathlib import Path

import pytest

from bickern.cli.main import run

EXAMPLES = Path(__file__).parents[2] / "examples"
HOOK = str(EXAMPLES / "leaf-coat-hook.yaml")
SET = str(EXAMPLES / "fire-set.yaml")
Said = pytest.CaptureFixture[str]
SHOP = (
    "shop: Trial\nunits: in\ncurrency: GBP\nrate: 36\nprices: {fuel: 7.20, metal: 2 a kg}\n"
    "cutting: {weld short ones: yes}\n"
)


@pytest.fixture
def rack(tmp_path: Path) -> str:
    """A rack of a heavier round, the right square in two lengths, and a galvanised bar."""
    path = str(tmp_path / "rack.sqlite")
    for words in (
        ("3/8 sq", "72", "--coating", "none", "--steel", "mild", "--place", "left wall"),
        ("3/8 sq", "22", "--coating", "none", "--steel", "mild", "--offcut"),
        ("1/2 rd", "40", "--coating", "none", "--steel", "A36"),
        ("3/8 sq", "60", "--coating", "galvanised", "--steel", "mild"),
        ("1/8 sq", "60", "--coating", "none", "--steel", "mild"),
    ):
        assert run(["rack", "add", *words, "--units", "in", "--rack", path]) == 0
    return path


def said_by(capsys: Said, *words: str, ends: int = 0) -> str:
    capsys.readouterr()
    assert run(["stock", *words]) == ends
    said = " ".join(capsys.readouterr().out.split())
    assert "Traceback" not in said
    return said


def test_each_bar_that_will_do_is_told_with_what_to_cut_the_offcut_first(capsys: Said, rack: str):
    said = said_by(capsys, HOOK, "--rack", rack)
    assert "hook: 24 of 3/8 in sq (9.5 mm)" in said
    assert "as it is: cut" in said
    assert said.index("B2 ") < said.index("B1 ")
    assert "drawn down: cut" in said
    assert "heats" in said
    assert "more each" in said
    assert "left wall" in said
    assert "galvanised" not in said


def test_why_not_is_told_of_the_rest_where_all_are_asked_for(capsys: Said, rack: str):
    said = said_by(capsys, HOOK, "hook", "--rack", rack, "--all")
    assert "Not for hook" in said
    assert "never goes in the fire" in said
    assert "too thin" in said


def test_what_it_eats_is_told_in_money_where_the_shop_has_prices(capsys: Said, rack: str, tmp_path: Path):
    assert "is not told" in said_by(capsys, HOOK, "--rack", rack)
    shop = tmp_path / "shop.yaml"
    shop.write_text(SHOP)
    said = said_by(capsys, HOOK, "--rack", rack, "--shop", str(shop))
    assert "GBP of fire and time" in said
    assert "BUYING IS CHEAPER" in said


def test_a_piece_without_stock_ends_with_one(capsys: Said, rack: str):
    said = said_by(capsys, SET, "stand foot", "--rack", rack, ends=1)
    assert "nothing in the rack becomes it" in said


def test_wrong_use(capsys: Said, rack: str, tmp_path: Path):
    assert "did you mean “hook”?" in said_by(capsys, HOOK, "hok", "--rack", rack, ends=2)
    assert run(["stock", str(tmp_path / "none.yaml")]) == 2
    assert "there is no file" in capsys.readouterr().err
    said_by(capsys, HOOK, "--rack", str(tmp_path / "no" / "rack.sqlite"), ends=1)


@pytest.mark.parametrize(
    "words",
    [
        ["stock", HOOK], ["cut", HOOK], ["price", HOOK], ["check", HOOK, "--own"], ["rack", "list"], ["rack", "label"],
        ["rack", "check"], ["rack", "history", "B1"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_a_rack_that_is_not_there_ends_every_command_that_looks_into_it_with_one(
    words: list[str], tmp_path: Path, capsys: Said
):
    """A finding that stops, whatever the command: wrong use is another thing."""
    place = tmp_path / "none.sqlite"
    assert run([*words, "--rack", str(place)]) == 1
    assert "there is no rack" in " ".join("".join(capsys.readouterr()).split())
    assert not place.exists()


def test_a_job_that_cannot_be_read_is_told_with_its_faults(capsys: Said, rack: str, tmp_path: Path):
    path = tmp_path / "bad.yaml"
    path.write_text("pieces: [")
    assert "STOP" in said_by(capsys, str(path), "--rack", rack, ends=1)


def test_what_stops_a_piece_is_said_where_its_stock_is_asked(rack: str, tmp_path: Path, capsys: Said):
    job = tmp_path / "job.yaml"
    metal = "bar: 3/8 sq\n    metal: [{keep: 6}]\n"
    holes = "    holes: [{size: 7/16, by: drill, at: 1}]\n"
    job.write_text(f"job: Two\nunits: in\npieces:\n  bad:\n    {metal}{holes}  good:\n    {metal}")
    said = said_by(capsys, str(job), "--rack", rack, ends=1)
    assert "a hole of 7/16 in (11 mm) cannot be drilled" in said
    assert "1 STOP" in said
    assert "0 in (0 mm) each" not in said
    assert "good: 3/8 in sq (9.5 mm), 6 in (152.5 mm) each" in said
