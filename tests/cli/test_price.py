"""`bickern price`: the table, JSON, the sheets, and what is wrong use."""

import json
from pathlib import Path

import pytest

from bickern.cli.main import run

EXAMPLES = Path(__file__).parents[2] / "examples"
HOOK = str(EXAMPLES / "leaf-coat-hook.yaml")
Said = pytest.CaptureFixture[str]
SHOP = (
    "shop: a\nunits: in\ncurrency: USD\nrate: 45\nprices: {fuel: 4.50, metal: 1.20 a lb, fixed: 40, counts: [1, 24]}\n"
)


@pytest.fixture
def shop(tmp_path: Path) -> str:
    path = tmp_path / "shop.yaml"
    path.write_text(SHOP)
    return str(path)


def test_a_column_for_each_count_and_what_is_a_guess(capsys: Said, shop: str):
    assert run(["price", HOOK, "--shop", shop]) == 0
    said = capsys.readouterr().out
    assert "1 set" in said
    assert "24 sets" in said
    assert "6 sets" not in said
    assert "price of one" in said
    assert "What is a guess" in said
    assert "What is not counted" in said
    assert "at 45.00 USD an hour" in said


def test_other_counts_are_asked_for(capsys: Said, shop: str):
    assert run(["price", HOOK, "--shop", shop, "--for", "3,12"]) == 0
    said = capsys.readouterr().out
    assert "3 sets" in said
    assert "12 sets" in said
    assert "24 sets" not in said


def test_json_keeps_every_amount_as_text(capsys: Said, shop: str):
    assert run(["price", HOOK, "--shop", shop, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [quote["count"] for quote in told["quotes"]] == [1, 24]
    each = told["quotes"][1]["offer"]["each"]
    assert each["currency"] == "USD"
    assert isinstance(each["amount"], str)
    assert told["quotes"][0]["lines"][0]["what"] == "metal"
    assert "mass_kg" in told["quotes"][0]["lines"][0]


def test_no_shop_file_shows_what_there_is_and_ends_with_one(capsys: Said):
    assert run(["price", HOOK]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "not told" in said
    assert "the price of an hour of work" in said
    assert "there is no price, and the rest is shown" in said


def test_sheets_are_written_for_the_shop_and_for_the_customer(capsys: Said, shop: str, tmp_path: Path):
    out = tmp_path / "out"
    assert run(["price", HOOK, "--shop", shop, "--out", str(out), "--paper", "a4"]) == 0
    assert {p.name for p in out.iterdir()} == {"price-sheet.pdf", "customer-sheet.pdf"}
    assert "price-sheet.pdf" in capsys.readouterr().out


def test_without_a_price_no_sheet_is_made_for_a_customer(shop: str, tmp_path: Path):
    out = tmp_path / "out"
    assert run(["price", HOOK, "--out", str(out)]) == 1
    assert {p.name for p in out.iterdir()} == {"price-sheet.pdf"}


@pytest.mark.parametrize(
    "words",
    [["--for", "0"], ["--for", "some"], ["--for", "1,2,3,4,5,6,7"], ["--paper", "foolscap"], ["--shop", "none.yaml"]],
)
def test_wrong_use(words: list[str], capsys: Said):
    assert run(["price", HOOK, *words]) == 2
    capsys.readouterr()


def test_a_job_that_is_not_there_or_cannot_be_read(tmp_path: Path, capsys: Said):
    assert run(["price", str(tmp_path / "none.yaml")]) == 2
    path = tmp_path / "job.yaml"
    path.write_text("just words\n")
    assert run(["price", str(path)]) == 1
    assert "Traceback" not in capsys.readouterr().out
