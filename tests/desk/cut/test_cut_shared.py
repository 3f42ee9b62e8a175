"""Stock that would serve two lots of cuts: promised once, and the plan can be taken. Racks and jobs invented here."""

from collections.abc import Sequence
from pathlib import Path

from bickern.book.database.open import open_book
from bickern.book.rack.change import add
from bickern.desk.cut.cut import cut_plan
from bickern.desk.cut.take import take_plan
from bickern.geometry.polygon import rectangle
from bickern.iron.section import Section
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.measure.finding import Finding
from bickern.measure.units.words import INCH, Shape

SQ = Section(Shape.SQUARE, 3 / 8 * INCH, 3 / 8 * INCH)


def bar(inches: float, steel: str) -> StockBar:
    return StockBar("", SQ, inches * INCH, steel, "none")


def rack_of(folder: Path, pieces: Sequence[StockBar | StockSheet]) -> Path:
    path = folder / "rack.sqlite"
    book = open_book(path)
    assert not isinstance(book, Finding)
    assert not isinstance(add(book, pieces, "me"), Finding)
    book.close()
    return path


def two_steels(folder: Path) -> tuple[Path, Path]:
    """A job of two pieces alike but for their steel, and a shop that takes bars whose steel nobody knows."""
    job, shop = folder / "two.yaml", folder / "shop.yaml"
    shop.write_text("shop: Any steel\ncutting:\n  unknown steel: yes\n")
    piece = "    bar: 3/8 sq\n    metal:\n      - {as: 3/8 sq, over: 6, name: shank}\n"
    job.write_text(f"job: Two\nunits: in\npieces:\n  a:\n    steel: S235JR\n{piece}  b:\n    steel: W1\n{piece}")
    return job, shop


def test_a_bar_that_would_serve_two_steels_is_cut_once_and_the_plan_can_be_taken(tmp_path: Path) -> None:
    job, shop = two_steels(tmp_path)
    rack = rack_of(tmp_path, [bar(9, "")])
    plan = cut_plan([job], rack, shop)
    assert plan.copy is not None, plan.findings
    assert [use.id for use in plan.taking.uses] == ["B1"]
    assert sum(lack.count for section in plan.copy.bars for lack in section.lacks) == 1
    first, second = plan.copy.bars
    assert (first.proven, second.proven) == (True, False)
    assert "B1" in second.why
    assert not isinstance(take_plan(plan, rack, "Ann"), Finding)


def test_the_piece_with_least_to_choose_from_has_the_first_choice(tmp_path: Path) -> None:
    """Only the bar of unknown steel will do for tool steel; the mild one has another to go to, if a longer one."""
    job, shop = two_steels(tmp_path)
    rack = rack_of(tmp_path, [bar(9, ""), bar(40, "S235JR")])
    plan = cut_plan([job], rack, shop)
    assert plan.copy is not None, plan.findings
    assert [(s.steel, [one.stock.id for one in s.bars]) for s in plan.copy.bars] == [
        ("S235JR", ["B2"]),
        ("W1", ["B1"]),
    ]
    assert all(section.proven for section in plan.copy.bars)


def test_a_sheet_between_two_gauges_is_cut_once(tmp_path: Path) -> None:
    """1.02 mm is 2 % from 1.00 and 3 % from 1.05 mm, which are no one gauge: it is promised to one of them."""
    job = tmp_path / "plates.yaml"
    plate = "    surface: {outline: {points: [[0, 0], [100, 0], [100, 50], [0, 50]]}}\n"
    job.write_text(f"job: Two\nunits: mm\npieces:\n  a:\n    sheet: 1\n{plate}  b:\n    sheet: 1.05\n{plate}")
    rack = rack_of(tmp_path, [StockSheet("", 0.00102, rectangle(0.5, 0.25), steel="S235JR", coating="none")])
    plan = cut_plan([job], rack)
    assert plan.copy is not None, plan.findings
    assert [use.id for use in plan.taking.uses] == ["S1"]
    assert sorted(len(gauge.lacks) for gauge in plan.copy.sheets) == [0, 1]
    assert not isinstance(take_plan(plan, rack, "Ann"), Finding)
