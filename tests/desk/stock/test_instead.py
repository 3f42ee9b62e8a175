"""Other bars for what is short: every piece has its turn, several share a bar, each blank has its own letter."""

from collections import Counter
from pathlib import Path

import pytest

from bickern.book.database.open import open_book
from bickern.book.rack.change import add
from bickern.desk.cut.cut import CutPlan, cut_plan
from bickern.desk.cut.rows import tables
from bickern.iron.section import Section
from bickern.making.stock.cuts import length_of
from bickern.making.stock.rack import StockBar
from bickern.measure.finding import Finding
from bickern.measure.units.words import INCH, Shape
from bickern.paper.sheets.cut_words import letters_of

EXAMPLES = Path(__file__).parents[3] / "examples"
HOOKS = EXAMPLES / "leaf-coat-hook.yaml"
PINS = """\
job: Pins
units: in
pieces:
  long: {make: 2, bar: 3/8 sq, metal: [{as: 3/8 sq, over: 10}]}
  short: {make: 3, bar: 3/8 sq, metal: [{as: 3/8 sq, over: 6}]}
"""


def plan_of(folder: Path, bars: list[tuple[float, float]], *jobs: Path, substitute: bool = True) -> CutPlan:
    """A plan from square bars (side, length in inches) of mild steel, B1, B2 ... in that order."""
    path = folder / "rack.sqlite"
    book = open_book(path)
    assert not isinstance(book, Finding)
    put = [
        StockBar("", Section(Shape.SQUARE, side * INCH, side * INCH), long * INCH, "S235JR", "none")
        for side, long in bars
    ]
    assert not isinstance(add(book, put, "me"), Finding)
    book.close()
    pins = folder / "pins.yaml"
    pins.write_text(PINS)
    plan = cut_plan(jobs or (pins,), path, substitute=substitute)
    assert plan.copy is not None
    return plan


def cut_from(plan: CutPlan) -> dict[str, Counter[str]]:
    """What comes off each bar, by its id."""
    assert plan.copy is not None
    bars = [cut for section in plan.copy.bars for cut in section.bars]
    assert len({cut.stock.id for cut in bars}) == len(bars)  # no bar is planned twice
    return {cut.stock.id: Counter(off.want.name for off in cut.offs) for cut in bars}


def short(plan: CutPlan) -> dict[str, int]:
    assert plan.copy is not None
    return {lack.want.name: lack.count for section in plan.copy.bars for lack in section.lacks}


def test_two_pieces_that_are_short_share_one_other_bar(tmp_path: Path):
    """By constant volume and scale 5 15/16 in each of two and 3 5/8 in each of three: 22 3/4 in of 25 in with kerfs."""
    plan = plan_of(tmp_path, [(0.5, 25)])
    assert cut_from(plan) == {"B1": Counter(long=2, short=3)}
    assert short(plan) == {}
    assert [f.says[:9] for f in plan.findings if f.name == "made-of-other-stock"] == ["2 of long", "3 of shor"]
    assert len(plan.taking.uses) == 1


@pytest.mark.parametrize(
    ("inches", "short_of"), [(20, {"short": 1}), (13, {"short": 3}), (10, {"long": 1, "short": 2})]
)
def test_what_the_shared_bar_has_no_room_for_stays_short_and_nothing_gives_way(
    tmp_path: Path, inches: float, short_of: dict[str, int]
):
    """12 in for both long ones, 3.72 in more for each short one: worked out from the cut lengths above."""
    plan = plan_of(tmp_path, [(0.5, inches)])
    assert short(plan) == short_of
    counts = Counter(long=2, short=3) - Counter(short_of)
    assert cut_from(plan) == {"B1": counts}


def test_what_is_over_goes_on_to_the_next_best_bar(tmp_path: Path):
    plan = plan_of(tmp_path, [(0.5, 13), (0.625, 8)])
    assert cut_from(plan) == {"B1": Counter(long=2), "B2": Counter(short=3)}
    assert short(plan) == {}


def test_several_bars_of_a_section_are_shared_by_several_jobs(tmp_path: Path):
    """Pieces of two jobs, the right bar for some of them: what is left is made of three bars of 1/2 in sq."""
    pins = tmp_path / "pins.yaml"
    plan = plan_of(tmp_path, [(0.375, 24), (0.5, 40), (0.5, 40), (0.5, 60)], pins, HOOKS)
    assert short(plan) == {}
    every = sum(cut_from(plan).values(), Counter())
    assert every == Counter(long=2, short=3, hook=24)


def test_each_blank_has_a_letter_of_its_own(tmp_path: Path):
    """A letter stands for one section and one length, whatever piece it is for."""
    plan = plan_of(tmp_path, [(0.375, 72), (0.5, 25), (0.5, 60)], HOOKS)
    copy = plan.copy
    assert copy is not None
    named = letters_of(copy)
    blanks = {
        (named[off.want.key], section.section, length_of(off.want, copy.shop.cutting))
        for section in copy.bars
        for cut in section.bars
        for off in cut.offs
    }
    letters = [letter for letter, _, _ in blanks]
    assert len(letters) == len(set(letters)) == 2
    rows = {row[:2] for title, rows in tables(copy) if title.startswith("B") for row in rows if row[0] and row[1]}
    assert len(rows) == 2
