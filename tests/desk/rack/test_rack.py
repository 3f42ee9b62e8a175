"""The rack as the desk tells it: lists to be read at the anvil, what a few words find, whole lists in or not at all."""

import io
import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pytest

from bickern.desk.page_ways import on_page
from bickern.desk.rack.find import found_in, of_section
from bickern.desk.rack.labels import chosen, labels_pdf
from bickern.desk.rack.look import looked
from bickern.desk.rack.rack import (
    Done,
    Keeper,
    add_to_rack,
    back_up,
    backed_up,
    brought,
    change_in_rack,
    checked,
    import_data,
    import_list,
    keeper,
    move_in_rack,
    rack_at,
    remove_from_rack,
)
from bickern.desk.rack.rows import history_of, history_rows, in_order, list_rows, rack_json
from bickern.iron.section import Section
from bickern.making.stock.rack import Stock, StockBar, StockSheet
from bickern.measure.finding import Finding
from bickern.measure.units.words import INCH, Shape, Style, System

LIST = """kind,section,length,thickness,size,count,steel,coating,place,remark
bar,3/8 sq,72,,,1,S235JR,none,left wall,straight
bar,3/8 sq,38 1/2,,,1,S235JR,none,floor,
bar,10 mm sq,2 m,,,1,mild,none,left wall,
bar,1/2 sq,60,,,1,,none,loft,
bar,1 x 1/4,24,,,2,A36,none,loft,a bit bent
bar,3/8 rd,48,,,1,mild,galvanised,left wall,
sheet,,,18 ga,48 x 24,1,mild,none,behind the door,
sheet,,,1.2 mm,20 x 10,1,mild,galvanised,behind the door,
"""


@pytest.fixture
def by(tmp_path: Path) -> Keeper:
    """A keeper of a rack with a few bars and sheets in it."""
    made = keeper(tmp_path / "rack.sqlite", None, "in", "Ann")
    done = put_in(made, tmp_path, LIST)
    assert not done.stops, done.findings
    return made


def put_in(by: Keeper, folder: Path, text: str, **more: bool) -> Done:
    path = folder / "list.csv"
    path.write_text(text)
    return import_list(by, path, **more)


def pieces(by: Keeper) -> tuple[Stock, ...]:
    rack, found = rack_at(by.where)
    assert not [f for f in found if f.stops]
    return in_order(rack)


def ids(some: Sequence[Stock] | Finding) -> list[str]:
    assert not isinstance(some, Finding)
    return [piece.id for piece in some]


def one(by: Keeper, piece_id: str) -> Stock:
    return next(piece for piece in pieces(by) if piece.id == piece_id)


def test_a_list_is_put_in_with_what_it_holds_for_the_fire(tmp_path: Path):
    by = keeper(tmp_path / "rack.sqlite", None, "in", "Ann")
    done = put_in(by, tmp_path, LIST)
    assert [f.name for f in done.findings] == ["rack-made", "stock-for-cold-work", "stock-not-known"]
    assert "2 of 9" in done.findings[1].says
    assert "of 1 of 9" in done.findings[2].says
    assert ids(done.pieces) == [*(f"B{n}" for n in range(1, 8)), "S1", "S2"]


def test_where_anything_stops_nothing_is_put_in(tmp_path: Path):
    by = keeper(tmp_path / "rack.sqlite", None, "in")
    done = put_in(by, tmp_path, LIST + "bar,3/8 sq,-1,,,,,,,\n")
    assert done.stops
    assert done.pieces == ()
    assert [f.where.line for f in done.findings if f.stops] == [10]
    assert "9 pieces" in done.findings[-1].says
    assert not (tmp_path / "rack.sqlite").exists()


def test_a_dry_run_shows_and_puts_nothing_in(tmp_path: Path):
    by = keeper(tmp_path / "rack.sqlite", None, "in")
    assert len(put_in(by, tmp_path, LIST, dry=True).pieces) == 9
    assert not (tmp_path / "rack.sqlite").exists()


def test_a_list_without_units_asks_which_and_a_shop_file_tells(tmp_path: Path):
    rack = tmp_path / "rack.sqlite"
    assert [f.name for f in put_in(keeper(rack, None), tmp_path, "section,length\n3/8 sq,72\n").findings] == [
        "no-units",
        "no-units",
        "nothing-put-in",
    ]
    shop = tmp_path / "shop.yaml"
    shop.write_text("shop: Mine\nunits: mm\ncurrency: EUR\n")
    (bar,) = put_in(keeper(rack, shop), tmp_path, "section,length,price\n12 rd,2000,3.50\n").pieces
    assert isinstance(bar, StockBar)
    assert bar.length == pytest.approx(2.0)
    assert bar.price is not None
    assert bar.price.currency == "EUR"


@pytest.mark.parametrize("size", [5_000_001, 100_000_000])
def test_a_huge_file_is_not_even_read(tmp_path: Path, size: int):
    path = tmp_path / "huge.csv"
    with path.open("wb") as file:
        file.truncate(size)
    assert [f.name for f in import_list(keeper(None, None), path).findings] == ["too-large"]


def test_an_outline_must_lie_beside_its_list(tmp_path: Path):
    by = keeper(tmp_path / "rack.sqlite", None, "mm")
    done = put_in(by, tmp_path, "thickness,outline\n1.5 mm,../odd.svg\n")
    assert "outside-folder" in [f.name for f in done.findings]


def test_a_list_is_read_at_the_anvil(by: Keeper):
    """Bars by section, the longest first, then sheets; every size in both systems; what must not be heated says so."""
    rows = list_rows(pieces(by), Style())
    assert [row[0] for row in rows] == ["B1", "B2", "B3", "B4", "B7", "B5", "B6", "S2", "S1"]
    told = {row[0]: row for row in rows}
    assert told["B1"] == ("B1", "3/8 in sq (9.5 mm)", "72 in (1829 mm)", "S235JR", "left wall; straight")
    assert told["B4"][3] == "not known"
    assert "before any fire: what metal this is" in told["B4"][4]
    assert "NEVER IN THE FIRE: marked `galvanised`" in told["B7"][4]
    assert told["S1"][1:3] == ("18 ga, 0.048 in (1.21 mm)", "48 x 24 in (1219 x 609.5 mm)")
    assert "NEVER IN THE FIRE" in told["S2"][4]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("3/8 sq", ["B1", "B2", "B3"]),
        ("0.375 sq", ["B1", "B2", "B3"]),
        ("10 mm sq", ["B3", "B1", "B2"]),
        ("3/8 sq left wall", ["B1", "B3"]),
        ("left 3/8", ["B1", "B3", "B7"]),
        ("1 x 1/4", ["B5", "B6"]),
        ("bent", ["B5", "B6"]),
        ("18 ga", ["S2", "S1"]),
        ("s235jr", ["B1", "B2"]),
        ("GALVANISED", ["B7", "S2"]),
        ("b1", ["B1"]),
        ("sheet", ["S2", "S1"]),
        ("rd", ["B7"]),
        ("3/8 sq moon", []),
        ("moon", []),
    ],
)
def test_a_few_words_find_what_is_meant(by: Keeper, words: str, found: list[str]):
    """Near sizes too, those that are it first: 10 mm square is 5 % over 3/8 in (exact: 10 / 9.525)."""
    assert sorted(ids(found_in(pieces(by), words.split(" "), by))) == sorted(found)
    first = found_in(pieces(by), [words], by)
    assert ids(first)[:1] == found[:1] or words == "18 ga"


def test_one_section_alone_is_not_the_one_near_it(by: Keeper):
    for said in ("3/8 sq", "9.5 mm sq"):
        assert ids(of_section(pieces(by), said, by)) == ["B1", "B2"]
    assert ids(of_section(pieces(by), "18 ga", by)) == ["S1"]
    assert isinstance(of_section(pieces(by), "pudding", by), Finding)


def test_what_is_typed_is_read_like_a_list(by: Keeper):
    done = add_to_rack(by, {"section": "1/2 rd", "length": "6 m", "count": "2", "coating": "painted", "steel": "mild"})
    assert ids(done.pieces) == ["B8", "B9"]
    assert [f.name for f in done.findings] == ["stock-for-cold-work"]
    assert done.findings[0].says.startswith("B8: ")
    wrong = add_to_rack(by, {"section": "1/2 rd", "length": "-6"})
    assert wrong.stops
    assert [f.where.path for f in wrong.findings] == ["length"]
    assert add_to_rack(by, {}).stops


def test_a_length_without_its_unit_beside_millimetres_is_asked_about(tmp_path: Path):
    """`10 mm sq`, `2000`: read as inches that would be a bar of 50 m. Where the units are told, they count."""
    nobody = Keeper(tmp_path / "rack.sqlite")
    done = add_to_rack(nobody, {"section": "10 mm sq", "length": "2000"})
    assert [f.name for f in done.findings] == ["no-units-beside-metric"]
    assert done.stops
    assert add_to_rack(nobody, {"kind": "sheet", "thickness": "1.5 mm", "size": "600 x 400"}).stops
    assert not add_to_rack(nobody, {"section": "3/8 sq", "length": "72"}).stops
    assert not add_to_rack(nobody, {"section": "10 mm sq", "length": "2 m"}).stops
    assert change_in_rack(nobody, "B2", {"length": "1500"}).stops
    told = add_to_rack(replace(nobody, system=System.MM), {"section": "10 mm sq", "length": "2000"})
    assert told.pieces[0].length == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("cells", "slip"),
    [
        ({"section": "3/8 sq", "length": "2000"}, "stock-very-long"),
        ({"section": "3/8 sq", "length": "40 ft"}, None),
        ({"section": "3/8 sq", "length": "12 m"}, None),
        ({"kind": "sheet", "thickness": "20 mm", "size": "24 mm x 36 mm"}, "stock-very-thick"),
        ({"kind": "sheet", "thickness": "3 mm", "size": "100 mm x 60 mm"}, None),
    ],
)
def test_sizes_that_no_dealer_sells_are_told(by: Keeper, cells: dict[str, str], slip: str | None):
    """Bar is sold in 6 m, 12 m, 20 ft and 40 ft (common practice)."""
    done = add_to_rack(by, cells | {"steel": "mild", "coating": "none"})
    assert [f.name for f in done.findings] == ([] if slip is None else [slip])
    assert len(done.pieces) == 1


def test_a_change_leaves_the_rest_to_the_last_bit(by: Keeper):
    before = one(by, "B3")
    done = change_in_rack(by, "b3", {"place": "rack 2", "length": "1990 mm"})
    after = one(by, "B3")
    assert done.pieces == (after,)
    assert isinstance(before, StockBar)
    assert after == replace(before, place="rack 2", length=1.99, version=2)
    sheet = one(by, "S1")
    assert isinstance(sheet, StockSheet)
    change_in_rack(by, "S1", {"grain": "across"})
    assert one(by, "S1") == replace(sheet, grain=pytest.approx(1.5707963), version=2)


def test_a_change_can_take_a_word_away(by: Keeper):
    change_in_rack(by, "B1", {"remark": ""})
    assert one(by, "B1").remark == ""


def test_a_wrong_change_changes_nothing(by: Keeper):
    before = pieces(by)
    for cells in ({"length": "0"}, {"section": "pudding"}, {"price": "12 apples"}):
        assert change_in_rack(by, "B1", cells).stops
    assert change_in_rack(by, "B77", {"place": "x"}).findings[0].name == "no-such-stock"
    assert pieces(by) == before


def test_moved_and_removed_and_its_history_told(by: Keeper):
    assert not move_in_rack(by, "B1", "floor").stops
    assert not change_in_rack(by, "B1", {"length": "71"}).stops
    assert ids(remove_from_rack(by, ["b1"], "sold to Bob").pieces) == ["B1"]
    told = history_of(by, "b1")
    assert not isinstance(told, Finding)
    what = [row[2] for row in history_rows(told, Style())]
    assert what[0] == "added: 3/8 in sq (9.5 mm), 72 in (1829 mm), S235JR, none, left wall"
    assert what[1] == "moved; place floor (was left wall)"
    assert what[2] == "changed; length 71 in (1803.5 mm) (was 72 in (1829 mm))"
    assert what[3] == "removed: sold to Bob"
    assert {row[1] for row in history_rows(told, Style())} == {"Ann"}
    assert move_in_rack(by, "B1", "floor").findings[0].name == "stock-gone"


def test_as_json_every_number_has_its_unit(by: Keeper):
    told = json.loads(rack_json(pieces(by), Style()))
    by_id = {piece["id"]: piece for piece in told["pieces"]}
    assert by_id["B1"]["length_m"] == pytest.approx(72 * INCH)
    assert [by_id[one]["may_be_heated"] for one in ("B1", "B4", "B7")] == ["yes", "not known", "never"]
    numbers = {key for piece in told["pieces"] for key, value in piece.items() if isinstance(value, float)}
    assert all(key.endswith(("_m", "_rad")) for key in numbers)


def test_labels_say_what_must_not_be_heated(by: Keeper):
    """Read back with pdfplumber: the id, both systems, and the warning."""
    import io

    import pdfplumber

    rack, _ = rack_at(by.where)
    some = chosen(rack, ["b1", "B7"])
    assert not isinstance(some, Finding)
    pdf = labels_pdf(some, by, "a4")
    assert isinstance(pdf, bytes)
    with pdfplumber.open(io.BytesIO(pdf)) as pages:
        text = " ".join(pages.pages[0].extract_text().split())
        ids_high = max(c["size"] for c in pages.pages[0].chars if c["text"] == "B")
    for words in ("B1", "B7", "3/8 in sq (9.5 mm)", "72 in (1829 mm)", "S235JR", "NEVER IN THE FIRE"):
        assert words in text
    assert "B2" not in text
    assert ids_high > 40, "an id is read across the shop"
    assert isinstance(labels_pdf(some, by, "napkin"), Finding)
    assert isinstance(labels_pdf((), by, "a4"), Finding)
    assert isinstance(chosen(rack, ["B99"]), Finding)


def test_a_label_keeps_the_remark_beside_what_stands_against_the_fire(by: Keeper):
    shown = (
        StockBar("B1", Section(Shape.ROUND, 0.01, 0.01), 1.0, "mild", "galvanised", "loft", remark="old fence rail"),
        StockBar("B2", Section(Shape.ROUND, 0.01, 0.01), 1.0, "", "none", "loft", offcut=True, remark="bent"),
    )
    pdf = labels_pdf(shown, by, "letter")
    assert isinstance(pdf, bytes)
    with pdfplumber.open(io.BytesIO(pdf)) as pages:
        text = " ".join(pages.pages[0].extract_text().split())
    for words in ("NEVER IN THE FIRE", "old fence rail", "before any fire", "offcut", "bent"):
        assert words in text, words
    assert "`" not in text


def test_a_rack_hangs_together_and_a_backup_is_the_same(by: Keeper, tmp_path: Path):
    assert checked(by) == (9, ())
    done = back_up(by, tmp_path / "copy.sqlite")
    assert isinstance(done, Path)
    assert checked(replace(by, where=done)) == (9, ())


def test_no_rack_yet_is_told(tmp_path: Path):
    rack, found = rack_at(tmp_path / "none.sqlite")
    assert (rack.bars, [f.name for f in found]) == ((), ["no-rack"])
    by = keeper(tmp_path / "none.sqlite", None)
    for done in (move_in_rack(by, "B1", "x"), remove_from_rack(by, ["B1"], "x"), change_in_rack(by, "B1", {})):
        assert [f.name for f in done.findings] == ["no-rack"]
    assert isinstance(back_up(by, tmp_path / "copy"), Finding)
    assert checked(by)[0] == 0
    assert list(tmp_path.iterdir()) == []


def test_whose_words_count(tmp_path: Path):
    shop = tmp_path / "shop.yaml"
    shop.write_text("shop: Mine\nunits: mm\n")
    assert keeper(None, None).system is None
    assert keeper(None, shop).system is System.MM
    assert keeper(None, shop, "in").system is System.INCH
    assert keeper(None, None).who


def test_of_what_is_typed_too_long_it_is_said_and_shown_is_what_is_kept(by: Keeper):
    moved = move_in_rack(by, "B1", "x" * 300)
    assert [f.name for f in moved.findings] == ["text-cut-short"]
    assert moved.pieces == (one(by, "B1"),)
    assert one(by, "B1").place == "x" * 200
    removed = remove_from_rack(by, ["B2"], "lost " * 60)
    assert [f.name for f in removed.findings] == ["text-cut-short"]


@pytest.mark.parametrize("said", ["B\udcff1", "B\x001", "\x1b[31mB1", "B1' OR '1'='1", "B" * 9999, ""])
def test_whatever_is_typed_for_an_id_ends_in_a_finding(by: Keeper, said: str):
    """A terminal of another spelling hands its bytes on as half signs, which no database takes."""
    before = pieces(by)
    found = [
        *move_in_rack(by, said, "loft").findings,
        *remove_from_rack(by, [said], "lost").findings,
        history_of(by, said),
    ]
    assert [f.name for f in found if isinstance(f, Finding)] == ["no-such-stock"] * 3
    assert all(f.says.isprintable() for f in found if isinstance(f, Finding))
    assert pieces(by) == before


def test_what_somebody_else_has_changed_meanwhile_is_not_written_over(by: Keeper):
    done = change_in_rack(by, "B1", {"place": "loft"}, seen=1)
    assert [piece.version for piece in done.pieces] == [2]
    for late in (change_in_rack(by, "B1", {"place": "yard"}, seen=1), move_in_rack(by, "B1", "yard", seen=1)):
        assert [f.name for f in late.findings if f.stops] == ["stock-already-changed"]
    assert next(bar.place for bar in rack_at(by.where)[0].bars if bar.id == "B1") == "loft"


def test_a_list_that_was_brought_in_finds_the_files_that_came_with_it_and_no_others(by: Keeper, tmp_path: Path):
    svg = (
        b'<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">'
        b'<path d="M0 0H200V100H0Z"/></svg>'
    )
    (tmp_path / "there.svg").write_bytes(svg)
    text = "kind,thickness,outline\nsheet,2 mm,{}\n"
    own = replace(by, files=brought({"leaf.svg": svg}))
    came = import_data(own, text.format("leaf.svg").encode(), "list.csv")
    assert not came.stops
    assert came.pieces[0].area == pytest.approx(0.02)  # 200 x 100 mm, exact mathematics
    for name in (tmp_path / "there.svg", "../there.svg", "there.svg"):
        refused = import_data(own, text.format(name).encode(), "list.csv")
        assert [f.name for f in refused.findings if f.stops] == ["no-file"]
        typed = add_to_rack(own, {"kind": "sheet", "thickness": "2 mm", "outline": str(name)})
        assert [f.name for f in typed.findings if f.stops] == ["no-file"]


def test_what_a_gauge_is_taken_as_is_said_once_however_long_the_list(by: Keeper):
    rows = "".join(f"sheet,{(16, 17, 19)[i % 3]} ga,{12 + i} x 10\n" for i in range(600))
    came = import_data(by, f"kind,thickness,size\n{rows}".encode(), "list.csv", dry=True)
    assert not came.stops
    assert len(came.pieces) == 600
    assert [f.name for f in came.findings if "is taken as" in f.says].count("gauge-system") == 3


def test_a_backup_for_the_page_is_a_rack(by: Keeper, tmp_path: Path):
    data = backed_up(by)
    assert isinstance(data, bytes)
    (tmp_path / "again.sqlite").write_bytes(data)
    assert rack_at(tmp_path / "again.sqlite")[0] == rack_at(by.where)[0]


def test_a_look_tells_how_much_there_is_and_of_no_rack_no_fault(by: Keeper, tmp_path: Path):
    every = looked(by)
    assert every.says() == "7 bars, 2 sheets"
    assert looked(by, "3/8 sq left wall").says() == "2 bars of the 9 pieces in the rack"
    none = looked(keeper(tmp_path / "none.sqlite", None))
    assert (none.says(), none.findings) == ("nothing lies in the rack yet", ())


def test_on_a_page_no_command_of_a_terminal_is_named(by: Keeper, tmp_path: Path):
    _, found = rack_at(tmp_path / "none.sqlite")
    told = [*on_page(found), *on_page(change_in_rack(by, "B99", {"place": "loft"}).findings)]
    assert told
    assert not any("bickern " in f.try_this or str(tmp_path) in f.says for f in told)
