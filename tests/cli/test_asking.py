"""`bickern ask` on a terminal: words that are not understood, shop files, and books of figures."""

import re
from pathlib import Path

import pytest

from bickern.cli.main import run
from bickern.desk.ask.questions import QUESTIONS

Said = pytest.CaptureFixture[str]
RING = "ring '1/2 rd' 10,along the middle,"  # pi x 10 1/2 = 32.9867 in
HEAD = "ask,answer,printed,unit\n"


@pytest.mark.parametrize(
    ("words", "says", "cure"),
    [
        ([], "No question is asked.", "`ring`, `coil`"),
        (["anvil"], "“anvil” is no question.", "`book`"),
        (["rig", "1/2"], "“rig” is no question.", "did you mean `ring`? bickern ask ring '1/2 rd'"),
        (["weighs", "1/2"], "“weighs” is no question.", "did you mean `weight`"),
        (["ring", "1/4 rd"], "`ring` wants also `size` (how wide", "bickern ask ring '1/2 rd'"),
        (["ring"], "`ring` wants also `bar` (such as '3/16 rd'", "bickern ask ring '1/2 rd'"),
        (["collar", "1/8"], "`collar` wants also `bars`", "bickern ask collar"),
        (
            ["ring", "1/4", "rd", "2"],
            "`ring` has no use for “2”: words with a space stand in quotes",
            "bickern ask ring",
        ),
        (["ring", "1/4 rd", "2", "--acrss", "mean"], "has no `--acrss`: did you mean `--across`?", "bickern ask ring"),
        (["gauge", "2", "--zzz"], "has no `--zzz`: it has --units, --shop, --digits", "bickern ask gauge 16"),
        (["ring", "1/4 rd", "2", "--across"], "`ring` wants a word behind `--across`", "bickern ask ring"),
        (["ring", "1/4 rd", "2", "--closed", "glued"], "one of welded, butted, open, and not “glued”", "bickern ask"),
        (["edge", "hemm", "1/4"], "takes as `kind` one of hem, double hem", "bickern ask edge"),
        (["ring", "1/4 rd", "2", "--units", "ft"], "takes as `--units` one of in, mm, and not “ft”", "bickern ask"),
        (["book"], "`book` wants also `file`", "bickern ask book my_book.csv"),
        (["book", "none.csv"], "there is no file none.csv", ""),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, list) else "",
)
def test_words_that_are_not_understood_are_told_in_plain_words(words: list[str], says: str, cure: str, capsys: Said):
    assert run(["ask", *words]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert says in told.err
    assert cure in told.err
    assert len(told.err.splitlines()) <= 2
    assert not re.search(r"usage:|argument|Namespace|choose from", told.err)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
def test_a_question_with_no_words_says_each_that_it_wants(question, capsys: Said):
    assert run(["ask", question.name]) == 2
    told = capsys.readouterr().err
    for word in question.words:
        assert (f"`{word.name}`" in told) == (word.usual is None and not word.flag), word


def test_help_still_comes(capsys: Said):
    assert run(["ask", "--help"]) == 0
    assert "Cut length of a ring" in capsys.readouterr().out
    assert run(["ask", "book", "--help"]) == 0
    assert "lb/ft" in capsys.readouterr().out


def shop(folder: Path, text: str) -> str:
    (folder / "shop.yaml").write_text(f"shop: Ours\n{text}")
    return str(folder / "shop.yaml")


def test_a_misspelt_rule_of_the_shop_is_told_and_nothing_is_answered(tmp_path: Path, capsys: Said):
    bad = shop(tmp_path, "rings: {length: pi x mena diameter}\n")
    assert run(["ask", "ring", "1/2 rd", "10", "--shop", bad]) == 1
    told = capsys.readouterr().out
    assert "did you mean `pi x mean diameter`?" in told
    assert "CUT THIS" not in told


def test_bare_numbers_are_the_shops_own(tmp_path: Path, capsys: Said):
    ours = shop(tmp_path, "units: mm\n")
    assert run(["ask", "ring", "12 rd", "250", "--shop", ours]) == 0
    assert "of the bar 823.1 mm" in " ".join(capsys.readouterr().out.split())  # pi x 262 mm
    assert run(["ask", "ring", "1/2 rd", "10", "--shop", ours, "--units", "in"]) == 0
    assert "of the bar 837.9 mm" in " ".join(capsys.readouterr().out.split())  # pi x 10 1/2 in, in the shop's own order


def test_millimetres_stand_first_where_they_are_asked_in(capsys: Said):
    assert run(["ask", "ring", "12 rd", "250", "--units", "mm"]) == 0
    assert "of the bar 823.1 mm" in " ".join(capsys.readouterr().out.split())
    assert run(["ask", "ring", "1/2 rd", "10"]) == 0
    assert "of the bar 32 63/64 in" in " ".join(capsys.readouterr().out.split())


def tried(folder: Path, rows: str, capsys: Said) -> tuple[int, str]:
    """Exit code and what the terminal says of a book, in one line."""
    (folder / "book.csv").write_text(rows)
    code = run(["ask", "book", str(folder / "book.csv")])
    return code, " ".join(capsys.readouterr().out.split())  # a narrow terminal wraps


AGREES, DIFFERS, UNREAD = f"{RING}32.99,in\n", f"{RING}31,in\n", f"{RING}32.99,cubit\n"


@pytest.mark.parametrize(
    ("rows", "closing", "code"),
    [
        (AGREES, "1 agrees", 0),
        (2 * AGREES, "2 agree", 0),
        (AGREES + DIFFERS, "1 agrees, 1 does not", 1),
        (2 * AGREES + 2 * DIFFERS + 2 * UNREAD, "2 agree, 2 do not, 2 could not be read", 1),
        (AGREES + UNREAD, "1 agrees, 1 could not be read", 1),
        (f"{AGREES}ring 1/2 rd,x,y,z\n", "1 agrees, 1 could not be read", 1),  # two faults in one row
        (f"{AGREES}anvil,cut,1,in\n", "1 agrees, 1 could not be read", 1),
        (DIFFERS, "0 agree, 1 does not", 1),
        ("", "no row could be read", 1),
        (UNREAD, "no row could be read", 1),
    ],
)
def test_the_closing_line_counts_and_only_a_whole_book_that_agrees_is_fine(
    rows: str, closing: str, code: int, tmp_path: Path, capsys: Said
):
    got, told = tried(tmp_path, HEAD + rows, capsys)
    assert told.endswith(closing)
    assert got == code


def test_a_column_of_ones_own_does_no_harm(tmp_path: Path, capsys: Said):
    code, told = tried(tmp_path, f"{HEAD.strip()},price\n{AGREES.strip()},3\n", capsys)
    assert (code, "`price` is not known. It is not read." in told) == (0, True)


def test_findings_come_in_the_order_of_the_rows(tmp_path: Path, capsys: Said):
    _, told = tried(tmp_path, f"{HEAD}anvil,cut,1,in\n{UNREAD}anvil,cut,1,in\n", capsys)
    assert re.findall(r"book.csv:(\d)", told) == ["2", "3", "4"]


def test_a_shop_file_is_looked_for_beside_the_book(tmp_path: Path, capsys: Said):
    shop(tmp_path, "rings: {length: 3 1/7 x the hole, weld: none}\n")
    words = "ring '1/2 rd' 10 --shop shop.yaml,cut,31.4286,in\n"
    assert tried(tmp_path, HEAD + words, capsys)[0] == 0
    code, told = tried(tmp_path, HEAD + words.replace("shop.yaml", "other.yaml"), capsys)
    assert (code, "there is no file" in told) == (1, True)


def test_a_quiet_help_in_a_row_prints_nothing(tmp_path: Path, capsys: Said):
    code, told = tried(tmp_path, f"{HEAD}ring '1/2 rd' 10 --help,cut,1,in\n{AGREES}", capsys)
    assert (code, "usage" in told, "book.csv:2" in told) == (1, False, True)


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (f"{HEAD}ring 'é',cut,1,in\n".encode("latin-1"), 2),
        (f"{HEAD}{AGREES}".encode("utf-16"), 1),
        (f"{HEAD}{AGREES}".encode("utf-16-le"), 1),
    ],
)
def test_a_file_in_another_code_is_to_be_saved_anew(data: bytes, line: int, tmp_path: Path, capsys: Said):
    (tmp_path / "book.csv").write_bytes(data)
    assert run(["ask", "book", str(tmp_path / "book.csv")]) == 1
    told = capsys.readouterr().out
    assert f"book.csv:{line}\n" in told
    assert "Save it as UTF-8" in told
    assert not re.search(r"codec|byte|decode", told)
