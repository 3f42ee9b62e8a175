"""A book of figures: how its rows are read, what agrees and what does not."""

from math import pi
from pathlib import Path

import pytest

from bickern.cli.asking import answer_of
from bickern.desk.ask.questions import QUESTIONS
from bickern.desk.printed import Held, Printed, digits, hold, kinds, read_printed, told
from bickern.desk.printed.against import near_names
from bickern.desk.printed.cells import KINDS, number, own_room, units_told_in
from bickern.measure.figure import Figure
from bickern.measure.units.scales import SCALES

HEAD = "ask,answer,printed,unit,within,pi,right\n"
RING = "ring '1/2 rd' 10,along the middle,"  # pi x 10 1/2 = 32.9867 in


def row(text: str) -> Printed:
    rows, faults = read_printed(HEAD + text, "book.csv")
    assert not faults
    return rows[0]


def held(text: str) -> Held:
    found = hold(row(text), answer_of)
    assert found.value is not None, found.findings
    return found.value


@pytest.mark.parametrize(
    ("rest", "fits"),
    [
        ("32.99,in,,,", True),  # half of the last place: 32.985 to 32.995
        ("32.98,in,,,", False),
        ("33,in,,,", True),  # 32.5 to 33.5
        ("33.,in,,,", True),
        ("33.0,in,,,", True),
        ("33.00,in,,,", False),
        ("33.00,in,0.02,,", True),
        ("33.0000,in,,22/7,", True),  # 22/7 x 10 1/2
        ("33.0000,in,,3 1/7,", True),
        ("32.9868,in,,.7854,", True),  # 3.1416 x 10 1/2
        ("33.4,in,+0.5,,", True),  # a bound: ours <= printed <= ours + 0.5
        ("33.6,in,+0.5,,", False),
        ("32.9,in,+0.5,,", False),
        ("32.9,in,-0.5,,", True),  # a bound: ours - 0.5 <= printed <= ours
        ("33.1,in,-0.5,,", False),
        ("837.9,mm,,,", True),
        ("2.749,ft,,,", True),
        ("2 3/4,ft,0.01,,", True),
        ("33,IN,,,", True),
        ("23.99,in,,,32.99", True),  # a misprint: digits turned about
        ("32.99,in,,,32.99", False),  # no misprint at all
        ("23.99,in,,,33.99", False),  # nor is what it should say ours
    ],
)
def test_room_pi_bounds_and_misprints(rest: str, fits: bool):
    assert held(RING + rest).fits is fits


@pytest.mark.parametrize(
    ("rest", "fits"),
    [
        ("33,in,,,", True),  # whole inches: 32.5 to 33.5
        ("33 1/8,in,,,", False),  # 0.138 off, and eighths have room for 0.0625
        ("32 15/16,in,,,", False),  # 0.049 off, and sixteenths have room for 0.031
        ("33 0/8,in,,,", True),  # 0.013 off
        ("33⅛,in,,,", False),
        ("33 1/8,in,1/4,,", True),
        ("33 1/8,in,1/8,,", False),
        ("33 1/8,in,+1/4,,", True),
        ("33 1/8,in,+1/8,,", False),
        ("33 1/8,in,−1/4,,", False),  # the print is larger, and it may only be smaller
        ("32 3/4,in,−1/4,,", True),
        ("23 1/8,in,,,33 0/8", True),  # the room of a misprint is that of what it should say
        ("23.99,in,,,33 1/8", False),
    ],
)
def test_a_fraction_has_half_of_one_of_its_parts(rest: str, fits: bool):
    assert held(RING + rest).fits is fits


@pytest.mark.parametrize(
    ("text", "room"),
    [("14 5/8", 1 / 16), ("3/4", 1 / 8), ("3 1/64", 1 / 128), ("14", 0.5), ("0.0350", 5e-5), (".5", 0.05)],
)
def test_the_room_of_what_is_printed(text: str, room: float):
    read = number(text).value
    assert read is not None
    assert own_room(read).below == own_room(read).above == pytest.approx(room, rel=1e-12)


@pytest.mark.parametrize("text", ["14 5/8,in", "14.63,in", "14,in"])
def test_a_row_is_as_wide_as_the_room_of_its_print(text: str):
    found = row(f"ring 1 2,along the middle,{text},,,")
    parts = {"14 5/8": 8, "14.63": 100, "14": 1}[found.printed]
    assert found.most - found.least == pytest.approx(1 / parts, rel=1e-9)


def test_the_room_of_a_misprint_is_that_of_what_it_should_say():
    found = row(RING + "15,in,,,32.99")
    assert (found.least, found.most) == pytest.approx((32.985, 32.995))
    assert found.right == 32.99


@pytest.mark.parametrize(
    ("rest", "says"),
    [
        ("32.99,in,,,", "printed 32.99 in, ours 32.9867 in: agrees"),
        ("33.05,in,0.1,,", "printed 33.05 in, ours 32.9867 in: agrees (within 0.1)"),
        ("33.4,in,+0.5,,", "printed 33.4 in, ours 32.9867 in: agrees within its allowance of +0.5"),
        ("31,in,,,", "printed 31 in, ours 32.9867 in: off by -6.02 %"),  # 31 for 32.9867
        ("31,in,0.1,,", "printed 31 in, ours 32.9867 in: off by -6.02 % (not within 0.1)"),
        ("33.6,in,+0.5,,", "printed 33.6 in, ours 32.9867 in: off by 1.86 %, not within its allowance of +0.5"),
        ("23.99,in,,,32.99", "misprint caught: ours 32.9867 in, right 32.99 in, printed 23.99 in"),
        ("32.98,in,,,32.99", "not clearly a misprint: ours 32.9867 in, right 32.99 in, printed 32.98 in"),
        ("23.99,in,,,33.99", "what should be right is not ours: ours 32.9867 in, right 33.99 in, printed 23.99 in"),
    ],
)
def test_what_is_told_of_a_row(rest: str, says: str):
    assert told(held(RING + rest)) == ("ring '1/2 rd' 10: along the middle", says)


def test_what_is_told_has_no_power_of_ten():
    assert "1000000000 mm3" in told(held("convert '1 m3',volume,1000000000,mm3,,,"))[1]
    assert "ours 0.00393701 in" in told(held("convert '0.1 mm',length,0.0039,in,,,"))[1]


def test_a_misprint_is_told_by_how_far_the_print_is_off():
    assert held(RING + "15,in,,,32.99").off == pytest.approx(15 / (10.5 * pi) - 1)


def test_a_misprint_must_be_clear():
    near = row(RING + "32.98,in,,,32.99")
    assert not Held(near, 32.9867).fits  # one unit of the last place is rounding, not a misprint


def fault(text: str) -> tuple[str, str, str]:
    """Name, words and cure of the one finding of a row that was read."""
    found = hold(row(text), answer_of)
    assert found.value is None
    (one,) = found.findings
    assert (one.where.file, one.where.line) == ("book.csv", 2)
    return one.name, one.says, one.try_this


@pytest.mark.parametrize(
    ("text", "name", "says", "cure"),
    [
        (RING + "33,lb,,,", "another-kind", "is a length, and lb is the unit of a weight", "`in`, `ft`"),
        ("ring '1/2 rd' 10,along,33,in,,,", "no-such-figure", "has no figure `along`", "is `along the middle`"),
        ("ring '1/2 rd' 10,CUT THIS,33,in,,,", "no-such-figure", "`CUT THIS`", "is `cut`"),
        ("ring '1/2 rd' 10,along the middle of the bar,33,in,,,", "no-such-figure", "bar`", "`along the middle`"),
        ("ring '1/2 rd' 10,,33,in,,,", "no-such-figure", "without a name", "`cut`"),
        ("ring '1/2 rd' 10,zzz,33,in,,,", "no-such-figure", "`zzz`", "`--digits`"),
        ("rig '1/2 rd' 10,cut,33,in,,,", "no-such-question", "“rig”", "did you mean `ring`?"),
        ("anvil 3,cut,33,in,,,", "no-such-question", "“anvil”", "`ring`, `coil`"),
        ("book x,cut,33,in,,,", "no-such-question", "“book”", "`ring`, `coil`"),
        ("ring '1/2 rd' 10 --help,cut,33,in,,,", "words-not-understood", "no `--help`", "bickern ask ring"),
        ("ring '1/2 rd',cut,33,in,,,", "words-not-understood", "wants also `size` (how wide", "bickern ask ring"),
        ("ring 1/2 rd 10,cut,33,in,,,", "words-not-understood", "in quotes, as '1/2 rd'", "bickern ask ring"),
        ("ring '1/2 rd 10,cut,33,in,,,", "open-quote", "a quote is opened", "inch mark"),
        ("ring pudding 10,cut,33,in,,,", "not-a-size", "`pudding`", ""),
        (",cut,33,in,,,", "nothing-asked", "`ask` is empty", "behind `bickern ask`"),
    ],
)
def test_what_cannot_be_held_is_a_finding_with_the_line_of_its_row(text: str, name: str, says: str, cure: str):
    found = fault(text)
    assert (found[0], says in found[1], cure in found[2]) == (name, True, True), found
    assert "Namespace" not in found[1]
    assert "(0)" not in found[1]


OF_THE_HEADING = ("columns-missing", "column-twice", "no-rows")


@pytest.mark.parametrize(
    ("text", "name", "says"),
    [
        ("", "columns-missing", "The columns ask, answer, printed and unit are missing."),
        ("a,b\n1,2\n", "columns-missing", "are missing."),
        ("ask,answer,printed\n", "columns-missing", "The column unit is missing."),
        ("ask,ask,answer,printed,unit\n", "column-twice", "The column ask is there twice."),
        (HEAD, "no-rows", "No row stands below the heading."),
        (HEAD + ",,,,,,\n\n", "no-rows", "No row"),
        (HEAD + RING + "33,cubit,,,\n", "no-such-unit", "In the column `unit`: `cubit`"),
        (HEAD + RING + "thirty,in,,,\n", "not-a-number", "In the column `printed`: `thirty`"),
        (HEAD + RING + "33,in,some,,\n", "not-a-number", "In the column `within`: `some`"),
        (HEAD + RING + "33,in,,pie,\n", "not-a-number", "In the column `pi`: `pie`"),
        (HEAD + RING + "33,in,,,none\n", "not-a-number", "In the column `right`: `none`"),
        (HEAD + RING + "33,in,,1/0,\n", "zero-denominator", "`1/0`"),
        (HEAD + RING + "33,in,,31.4,\n", "no-pi", "`31.4`"),
        (HEAD + RING + "33,in,,2.99,\n", "no-pi", "`2.99`"),
        (HEAD + RING + "33,in,,7/2.,\n", "not-a-number", "`7/2.`"),
        (HEAD + RING + "33,in,22/7,,\n", "improper-fraction", "`22/7`"),
        (HEAD + RING + "33,in,nan,,\n", "not-a-number", "`nan`"),
        (HEAD + RING + "1.2.3,in,,,\n", "not-a-number", "`1.2.3`"),
        (HEAD + RING + f"{'3' * 5000},in,,,\n", "too-long", "too long"),
        (HEAD + "ring\n", "empty", "The column `printed` is empty here."),
        (HEAD + RING + '"0,994",in,,,\n', "decimal-comma", "`0,994`"),
        (HEAD + RING + '"1,234",in,,,\n', "thousands-mark", "`1,234`"),
        (HEAD + RING + '"12,345.6",in,,,\n', "thousands-mark", "`12,345.6`"),
        (HEAD + RING + '33,in,"0,01",,\n', "decimal-comma", "In the column `within`: `0,01`"),
        (HEAD + RING + "0,994,in,,,,\n", "decimal-comma", "`0,994`"),
        (HEAD + RING + "1,234,in,,,,\n", "thousands-mark", "`1,234`"),
        (HEAD + RING + "33,in,,,,in\n", "too-many-cells", "`in` stands in no column"),
        (HEAD.strip() + ",\n" + RING + "33,in,,,,x\n", "too-many-cells", "`x`"),
        (HEAD + '"' + RING + "33,in,,,\n" + RING + "33,in,,,\n", "open-quote", "a quote was opened"),
        (HEAD + '"' + RING + "33,in,,,\n" * 20000, "open-quote", "too long"),
    ],
    ids=lambda text: text[:60],
)
def test_what_cannot_be_read_is_a_finding_with_its_line(text: str, name: str, says: str):
    rows, faults = read_printed(text, "book.csv")
    assert not rows
    assert [(f.name, says in f.says) for f in faults if f.stops] == [(name, True)], faults
    assert faults[0].where.file == "book.csv"
    assert faults[0].where.line == (1 if name in OF_THE_HEADING else 2)


@pytest.mark.parametrize(
    ("printed", "cure"),
    [
        ("0,994", "Write decimals with a point: `0.994`."),
        ("1,234", "Write `1234`, or `1.234` if that is meant."),
        ("12,345.6", "Write `12345.6`."),
        ("1,234,567", "Write `1234567`."),
        ("1.234,5", "Write decimals with a point, and thousands without a mark."),
    ],
)
def test_a_comma_is_asked_about(printed: str, cure: str):
    _, (one,) = read_printed(HEAD + RING + f'"{printed}",in,,,\n', "book.csv")
    assert one.try_this == cure


def test_a_row_that_goes_on_is_found_where_it_begins():
    _, faults = read_printed(HEAD + RING + '33,in,,,\n"' + RING + "33,in,,,\n" * 3, "book.csv")
    assert [(f.name, f.where.line) for f in faults] == [("open-quote", 3)]


def test_every_fault_of_a_row_is_found_at_once():
    _, faults = read_printed(HEAD + RING + "thirty,cubit,some,pie,none\n", "book.csv")
    assert [f.says.split("`")[1] for f in faults] == ["unit", "printed", "right", "within", "pi"]


@pytest.mark.parametrize(
    ("unit", "first"),
    [
        ("inches", "`in`"),
        ("sq. in", "`in2`"),
        ("square feet", "`ft2`"),
        ("cm²", "`cm2`"),
        ("lb/sq ft", "`lb/ft2`"),
        ("lbs per foot", "`lb/ft`"),
        ("gal", "`gal(US)`, `gal(UK)`"),
        ("lb/fot", "`lb/ft`"),
        ("°", "`deg`"),
    ],
)
def test_a_unit_that_is_not_known_names_the_nearest(unit: str, first: str):
    _, (one,) = read_printed(HEAD + RING + f"33,{unit},,,\n", "book.csv")
    assert one.try_this.startswith(f"Nearest: {first}"), one.try_this
    assert len(one.try_this) < 120


def test_every_unit_is_told_of_some_kind():
    assert {scale.unit for scale in SCALES.values()} == set(KINDS)
    assert {name for kind in KINDS for name in units_told_in(kind)} == set(SCALES) - {""}
    assert dict(kinds())["angle"] == "rad, deg, turn"


@pytest.mark.parametrize(("column", "meant"), [("wihtin", "within"), ("Rigth", "right"), ("pie", "pi")])
def test_a_column_misspelt_stops_for_its_rows_would_mean_another_thing(column: str, meant: str):
    rows, faults = read_printed(f"ask,answer,printed,unit,{column}\n{RING}33,in,0.01\n", "book.csv")
    assert not rows
    assert [(f.name, f.stops, f.try_this) for f in faults] == [("no-such-column", True, f"Did you mean `{meant}`?")]


@pytest.mark.parametrize("column", ["price", "notes", "my own"])
def test_a_column_of_ones_own_is_left_unread_and_said_so(column: str):
    rows, faults = read_printed(f"ask,answer,printed,unit,{column}\n{RING}33,in,12\n", "book.csv")
    assert len(rows) == 1
    assert [(f.name, f.stops) for f in faults] == [("no-such-column", False)]


CELLS = ("ring '1/2 rd' 10", "along the middle", "32.99", "in", "")
NAMES = (" Ask", "ANSWER ", "printed", "Unit", "within")


@pytest.mark.parametrize("sign", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_what_a_spreadsheet_exports_is_read(sign: str, end: str):
    empty = sign * 4
    lines = ("# my book, of rings", "", sign.join(NAMES), sign.join(CELLS), empty, sign.join(CELLS), empty)
    rows, faults = read_printed("\ufeff" + end.join(lines) + end, "book.csv")
    assert not faults
    assert [r.place.line for r in rows] == [4, 6]
    assert {(r.ask, r.answer, r.value) for r in rows} == {("ring '1/2 rd' 10", "along the middle", 32.99)}


def test_a_semicolon_file_with_decimal_commas_is_not_guessed_at():
    rows, (one,) = read_printed("ask;answer;printed;unit\nring '1/2 rd' 10;along the middle;32,99;in\n", "book.csv")
    assert not rows
    assert (one.name, one.try_this) == ("decimal-comma", "Write decimals with a point: `32.99`.")


@pytest.mark.parametrize("words", ["bickern ask {}", "ask {}", "$ bickern ask {}", "  {}"])
@pytest.mark.parametrize("quotes", ["''", "‘’", "“”"])
def test_words_are_taken_as_they_are_typed(words: str, quotes: str):
    asked = words.format(f"ring {quotes[0]}1/2 rd{quotes[1]} 10")
    assert held(f"{asked},along the middle,32.99,in,,,").fits


def test_names_near_what_was_said():
    names = ("cut", "along the middle", "pi x mean diameter", "weighs")
    assert near_names("CUT THIS", names) == ["cut"]
    assert near_names("Along the Middle of the bar", names)[0] == "along the middle"
    assert near_names("weight", names) == ["weighs"]
    assert near_names("", names) == []


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
def test_a_figure_is_named_by_part_of_its_name(question):
    names = [f.name for f in answer_of(f"{question.name} {question.example}").figures]
    for name in names:
        assert name in near_names(name.upper(), names)


SHOP = "shop: By the hole\nrings: {length: 3 1/7 x the hole, weld: none}\n"


def test_a_row_is_asked_by_the_shop_file_it_names(tmp_path: Path):
    (tmp_path / "hole.yaml").write_text(SHOP)
    words = "ring '1/2 rd' 10 --shop hole.yaml"
    own = answer_of(words, tmp_path).figure("cut")
    plain = answer_of("ring '1/2 rd' 10").figure("cut")
    assert own is not None
    assert plain is not None
    assert own.value == pytest.approx(22 / 7 * 10 * 0.0254)  # and not pi x 10 1/2
    assert plain.value == pytest.approx(pi * 10.5 * 0.0254)


def test_a_shop_file_that_is_not_there_or_at_fault_answers_nothing(tmp_path: Path):
    (tmp_path / "bad.yaml").write_text(SHOP.replace("the hole,", "the whole,"))
    for name, says in (("none.yaml", "there is no file"), ("bad.yaml", "did you mean")):
        asked = row(f"ring '1/2 rd' 10 --shop {name},cut,33,in,,,")
        found = hold(asked, lambda words: answer_of(words, tmp_path))
        assert found.value is None
        assert says in found.findings[0].says + found.findings[0].try_this
        assert name in found.findings[0].says  # its own place stands in the words
        assert str(found.findings[0].where) == "book.csv:2"


def test_digits_are_told_in_full():
    assert digits(Figure("a", 0.0254, "m")) == "1 in = 0.0254 m"
    assert digits(Figure("a", 7850.0, "kg/m3")) == "7850 kg/m3"
