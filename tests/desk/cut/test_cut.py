"""From jobs and a rack to a cut plan, and taking it: end to end, with racks invented here."""

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.rack.change import add
from bickern.book.rack.history import history
from bickern.desk.cut.cut import CutPlan, Limits, cut_plan
from bickern.desk.cut.files import as_json, files_of
from bickern.desk.cut.rows import tables
from bickern.desk.cut.take import drops_told, take_plan, used_told
from bickern.desk.rack.rack import rack_at
from bickern.desk.stock.rows import stock_for
from bickern.geometry.polygon import area, rectangle
from bickern.iron.section import Section
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.measure.finding import Finding
from bickern.measure.units.words import INCH, Shape
from bickern.paper.sheets.cut_words import buy_rows

EXAMPLES = Path(__file__).parents[3] / "examples"
JOBS = sorted(EXAMPLES.glob("*.yaml"))
HOOKS, HOOD, TONGS = (EXAMPLES / f"{name}.yaml" for name in ("leaf-coat-hook", "forge-hood", "bolt-tongs"))
HOOK_BARS = (72, 38.5, 22, 15, 9)


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


def rd(size: float) -> Section:
    return Section(Shape.ROUND, size * INCH, size * INCH)


def bars(section: Section, lengths: Sequence[float], **more: object) -> list[StockBar]:
    told = {"steel": "S235JR", "coating": "none", "place": "left wall"} | more
    return [StockBar("", section, inches * INCH, **told) for inches in lengths]


def sheet(wide: float, high: float, thick: float = 0.0478, **more: object) -> StockSheet:
    told = {"steel": "S235JR", "coating": "none", "place": "behind the door"} | more
    return StockSheet("", thick * INCH, rectangle(wide * INCH, high * INCH), **told)


def full_rack() -> list[StockBar | StockSheet]:
    """A rack that has all that the examples want, and more than one bar of most sections."""
    squares = [b for size in (1 / 4, 3 / 8, 1 / 2, 5 / 8, 3 / 4) for b in bars(sq(size), (240, 31))]
    sizes = (1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 1 / 2)
    rounds = [b for size in sizes for b in bars(rd(size), (240, 23))]
    metric = bars(Section(Shape.ROUND, 0.006, 0.006), (80,))
    flats = [
        b
        for w, t in ((3 / 4, 1 / 4), (3 / 4, 3 / 8), (1, 1 / 4), (1 / 2, 1 / 4), (3 / 4, 3 / 16), (1, 1 / 8))
        for b in bars(Section(Shape.FLAT, w * INCH, t * INCH), (120,))
    ]
    gauges = [sheet(60, 48, thick) for thick in (0.0359, 0.0478, 0.0598)]
    return [*squares, *rounds, *metric, *flats, *gauges]


def rack_of(folder: Path, pieces: Sequence[StockBar | StockSheet]) -> Path:
    path = folder / "rack.sqlite"
    book = opened(path)
    if pieces:
        assert not isinstance(add(book, pieces, "me"), Finding)
    book.close()
    return path


def opened(path: Path) -> Book:
    book = open_book(path)
    assert not isinstance(book, Finding)
    return book


def names(plan: CutPlan) -> set[str]:
    return {f.name for f in plan.findings}


# ---- every example


@pytest.mark.slow
@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_every_example_is_cut_from_a_full_rack_and_taken(job: Path, tmp_path: Path):
    """Nothing is short, the metal is all there, and the rack holds afterwards what the plan says."""
    rack = rack_of(tmp_path, full_rack())
    before, _ = rack_at(rack)
    plan = cut_plan([job], rack, limits=Limits(bar_seconds=60.0))  # proven on a busy machine as well
    assert plan.copy is not None
    assert not plan.stops
    assert "stock-short" not in names(plan)
    assert "sheet-short" not in names(plan)
    assert all(section.proven for section in plan.copy.bars)
    assert tables(plan.copy)
    ids = take_plan(plan, rack, "Ann")
    assert not isinstance(ids, Finding), ids
    after, _ = rack_at(rack)
    used = {use.id for use in plan.taking.uses}
    assert {b.id for b in before.bars} - {b.id for b in after.bars} == {one for one in used if one[0] == "B"}
    assert len(ids) == sum(len(use.left) for use in plan.taking.uses)
    assert len(drops_told(plan, ids)) == len(ids)
    metal = sum((off.end - off.start) * 1 for section in plan.copy.bars for cut in section.bars for off in cut.offs)
    lost = sum(b.length for b in before.bars) - sum(b.length for b in after.bars) - metal
    cuts = sum(len(cut.offs) for section in plan.copy.bars for cut in section.bars)
    scrap = sum(cut.drop for section in plan.copy.bars for cut in section.bars if not cut.kept)
    assert -1e-5 <= lost - scrap <= cuts * plan.copy.shop.cutting.kerf + 1e-5


def test_several_jobs_are_cut_together(tmp_path: Path):
    rack = rack_of(tmp_path, full_rack())
    plan = cut_plan([TONGS, EXAMPLES / "rail-s-hook.yaml", EXAMPLES / "dinner-triangle.yaml"], rack)
    assert plan.copy is not None
    assert len(plan.copy.jobs) == 3
    said = str(tables(plan.copy))
    assert "half, for Bolt tongs, a pair" in said
    assert "striker, for Dinner triangle and striker" in said


def test_the_same_job_twice_is_cut_twice(tmp_path: Path):
    rack = rack_of(tmp_path, full_rack())
    once, twice = (cut_plan([TONGS] * n, rack) for n in (1, 2))
    assert once.copy is not None
    assert twice.copy is not None
    counts = [sum(len(c.offs) for s in p.bars for c in s.bars) for p in (once.copy, twice.copy)]
    assert counts[1] == 2 * counts[0]


# ---- project 2: twenty-four hooks


@pytest.mark.parametrize(
    "shop",
    [
        # the figure of the project is constant volume, before scale: a shop that counts none cuts 6 7/8 in or less
        "shop: None lost\nbars:\n  scale worked: [0 %, 0 %, 0 %]\n",
        "",
    ],
    ids=["no scale", "the tool's own scale"],
)
def test_hooks_come_out_as_ten_five_three_two_one(tmp_path: Path, shop: str):
    """Of 72, 38 1/2, 22, 15 and 9 in: 21 hooks, 3 short, by whole numbers done by hand, for both lengths."""
    path = None
    if shop:
        path = tmp_path / "shop.yaml"
        path.write_text(shop)
    plan = cut_plan([HOOKS], rack_of(tmp_path, bars(sq(3 / 8), HOOK_BARS)), path)
    assert plan.copy is not None
    (section,) = plan.copy.bars
    assert sorted(len(cut.offs) for cut in section.bars) == [1, 2, 3, 5, 10]
    assert [lack.count for lack in section.lacks] == [3]
    assert section.proven
    each = section.lacks[0].want.length / INCH
    assert each <= (6.875 if shop else 7.0625) + 1e-9
    assert "stock-short" in names(plan)


def test_what_is_short_is_told_with_what_dressing_its_end_takes(tmp_path: Path):
    shop = tmp_path / "shop.yaml"
    shop.write_text("shop: Hot\nunits: mm\ncutting: {hot cut: yes, dress: 20 mm}\n")
    plan = cut_plan([HOOKS], rack_of(tmp_path, bars(sq(3 / 8), (30,))), shop)
    assert plan.copy is not None
    short = next(f.says for f in plan.findings if f.name == "stock-short")
    row, _ = dict(tables(plan.copy))["Short"]
    assert short.endswith(row[-1])


def test_what_is_forged_on_a_longer_bar_is_not_to_be_cut_before(tmp_path: Path):
    """The order of work forges the short boss on the end of a bar; the cut plan must not say to saw it off first."""
    rack = rack_of(tmp_path, [*bars(sq(3 / 4), (20,)), *bars(rd(1 / 2), (40,))])
    plan = cut_plan([EXAMPLES / "ring-pull.yaml"], rack)
    assert plan.copy is not None
    told = {title.split()[0]: " ".join(" ".join(row) for row in rows) for title, rows in tables(plan.copy)}
    boss, ring = (plan.copy.bars[i].bars[0].stock.id for i in (1, 0))
    assert "do not cut it before" in told[boss]
    assert "do not cut it before" not in told[ring]


def test_sheet_that_is_short_is_told_with_the_size_that_its_pattern_lies_in(tmp_path: Path):
    """As `bickern reckon` tells the blank of the hood: 24 9/16 x 24 1/2 in."""
    plan = cut_plan([HOOD], rack_of(tmp_path, [sheet(20, 20)]))
    assert plan.copy is not None
    said = " ".join(" ".join(row) for title, rows in tables(plan.copy) if title == "Short" for row in rows)
    assert "each lies in 24 9/16 in (624 mm) x 24 1/2 in (621.5 mm)" in said


def by_what_stock_says(rack: Path) -> str:
    """The heats and minutes more of B6, as the stock for the hook is told."""
    _, rows, _ = next(stock_for(HOOKS, None, rack, None, most=3).tables(every=False))
    return next(row[-1] for row in rows if row[0] == "B6").split("; ")[1]


def test_what_is_short_is_offered_of_other_bars_and_made_of_them_where_that_is_asked(tmp_path: Path):
    pieces = [*bars(sq(3 / 8), HOOK_BARS), *bars(sq(1 / 2), (25,))]
    rack = rack_of(tmp_path, pieces)
    offered = cut_plan([HOOKS], rack)
    assert offered.copy is not None
    ((_, says),) = offered.copy.instead
    assert says.startswith("B6, 1/2 in sq (12.7 mm) x 25 in (635 mm), drawn down: 3 from it, ")
    offer = by_what_stock_says(rack)
    assert offer in says  # the very heats and minutes that `bickern stock` tells
    assert not any(use.id == "B6" for use in offered.taking.uses)
    taken = cut_plan([HOOKS], rack, substitute=True)
    assert taken.copy is not None
    assert any(use.id == "B6" for use in taken.taking.uses)
    assert "stock-short" not in names(taken)
    assert "made-of-other-stock" in names(taken)
    drawn = next(cut for section in taken.copy.bars for cut in section.bars if cut.stock.id == "B6")
    # 3/8 sq from 1/2 sq: (3/8)^2/(1/2)^2 = 0.5625 of the length by constant volume, and no less for the fire
    assert len(drawn.offs) == 3
    assert 0.5625 * 6.6 * INCH < drawn.offs[0].want.length < 5.0 * INCH


# ---- project 9: two halves of the hood


def test_the_galvanised_sheet_is_refused_and_both_halves_are_laid_on_the_bare_one(tmp_path: Path):
    pieces = [sheet(48, 24), sheet(60, 48, coating="galvanised", place="yard")]
    rack = rack_of(tmp_path, pieces)
    plan = cut_plan([HOOD], rack)
    assert plan.copy is not None
    refused = next(f for f in plan.findings if f.name == "stock-refused")
    assert "S2 (yard)" in refused.says
    assert "galvanised" in refused.says
    (gauge,) = plan.copy.sheets
    assert all(cut.stock.id == "S1" for cut in gauge.sheets)
    laid = sum(len(cut.parts) for cut in gauge.sheets)
    assert laid + sum(lack.count for lack in gauge.lacks) == 2
    assert laid == 2
    (cut,) = gauge.sheets
    whole = area(cut.stock.outline)
    assert sum(area(part.outline) for part in cut.parts) + sum(area(left.outline) for left in cut.left) < whole


# ---- taking


def test_two_people_one_bar(tmp_path: Path):
    rack = rack_of(tmp_path, bars(sq(3 / 8), HOOK_BARS))
    mine, yours = cut_plan([HOOKS], rack), cut_plan([HOOKS], rack)
    assert not isinstance(take_plan(mine, rack, "Ann"), Finding)
    late = take_plan(yours, rack, "Bob")
    assert isinstance(late, Finding)
    assert late.name == "stock-already-taken"
    assert "Ann" in late.says


def test_nothing_is_half_taken(tmp_path: Path):
    """One bar of the plan was moved meanwhile: the others stay as they were."""
    rack = rack_of(tmp_path, bars(sq(3 / 8), HOOK_BARS))
    plan = cut_plan([HOOKS], rack)
    last = plan.taking.uses[-1]
    uses = (*plan.taking.uses[:-1], replace(last, version=last.version + 1))
    late = take_plan(replace(plan, taking=replace(plan.taking, uses=uses)), rack, "Ann")
    assert isinstance(late, Finding)
    assert len(rack_at(rack)[0].bars) == len(HOOK_BARS)


def test_what_was_taken_stands_in_the_history_with_its_job_and_the_drop_knows_its_bar(tmp_path: Path):
    rack = rack_of(tmp_path, bars(sq(5 / 8), (60,)) + bars(rd(5 / 16), (30,)))
    plan = cut_plan([TONGS], rack)
    ids = take_plan(plan, rack, "Ann")
    assert not isinstance(ids, Finding)
    book = opened(rack)
    told = history(book, "B1")
    book.close()
    assert not isinstance(told, Finding)
    assert "Bolt tongs, a pair" in str(told)
    assert any("B1 is cut: 2 of half" in says for says in used_told(plan))
    assert any(f"of B1 as {ids[0]}" in says for says in drops_told(plan, ids))
    assert {b.of for b in rack_at(rack)[0].bars if b.offcut} == {"B1", "B2"}


# ---- what goes wrong


def test_an_empty_rack_leaves_everything_short(tmp_path: Path):
    plan = cut_plan([HOOKS], rack_of(tmp_path, ()))
    assert plan.copy is not None
    assert [lack.count for section in plan.copy.bars for lack in section.lacks] == [24]
    taken = take_plan(plan, tmp_path / "rack.sqlite")
    assert isinstance(taken, Finding)
    assert taken.name == "nothing-to-take"


def test_a_rack_that_is_not_there_or_is_none_is_a_finding(tmp_path: Path):
    rubbish = tmp_path / "rubbish.sqlite"
    rubbish.write_bytes(bytes(range(256)) * 40)
    for where in (tmp_path / "none.sqlite", rubbish):
        plan = cut_plan([HOOKS], where)
        assert plan.stops
        assert plan.copy is None
        assert files_of(plan, "letter") == {}
        assert json.loads(as_json(plan))["findings"]
        assert isinstance(take_plan(plan, where), Finding)


def test_a_job_that_stops_is_left_out_and_nothing_is_taken(tmp_path: Path):
    rack = rack_of(tmp_path, full_rack())
    bad = tmp_path / "bad.yaml"
    bad.write_text("job: Bad\nunits: in\npieces:\n  it: {bar: 3/8 sq, metal: [{keep: -3}]}\n")
    alone = cut_plan([bad], rack)
    assert alone.copy is None
    assert "cut-job-stopped" in names(alone)
    beside = cut_plan([bad, TONGS], rack)
    assert beside.copy is not None
    assert beside.copy.jobs == ("Bolt tongs, a pair",)
    refused = take_plan(beside, rack)
    assert isinstance(refused, Finding)
    assert refused.name == "plan-not-taken"


def test_a_stopped_search_says_so_and_still_has_a_plan(tmp_path: Path):
    rack = rack_of(tmp_path, bars(sq(3 / 8), (72, 240, 39.1, 14.2)))
    plan = cut_plan([HOOKS], rack, limits=Limits(keep_going=lambda: False))
    assert "plan-cut-short" in names(plan)
    assert plan.copy is not None
    assert sum(len(cut.offs) for section in plan.copy.bars for cut in section.bars) > 0


def test_the_same_rack_and_seed_give_the_same_plan(tmp_path: Path):
    rack = rack_of(tmp_path, full_rack())
    told = [as_json(cut_plan([EXAMPLES / "ladle.yaml", HOOD], rack, limits=Limits(seed=3))) for _ in range(2)]
    assert told[0] == told[1]


def test_bar_any_is_chosen_from_the_rack_first(tmp_path: Path):
    job = tmp_path / "any.yaml"
    job.write_text(
        "job: Any\nunits: in\npieces:\n  peg:\n    bar: any\n    metal:\n"
        "      - {as: 3/8 sq, over: 6, name: shank}\n      - {to: 1/8 rd, over: 2, name: point}\n"
    )
    plan = cut_plan([job], rack_of(tmp_path, bars(sq(1 / 2), (30,))))
    assert plan.copy is not None, plan.findings
    assert [use.id for use in plan.taking.uses] == ["B1"]
    assert "bar-from-the-rack" in names(plan)


def test_a_rivet_nobody_has_bar_for_is_bought_and_nothing_is_called_short(tmp_path: Path):
    plan = cut_plan([TONGS], rack_of(tmp_path, bars(sq(5 / 8), (60,))))
    assert "stock-short" not in names(plan)
    assert plan.copy is not None
    assert "1 ready made" in str(buy_rows(plan.copy))


def test_zinc_is_kept_from_everything_hot_and_from_cold_sheet_that_does_not_ask_for_it(tmp_path: Path):
    """The lantern's rings are brushed at red; its tray is folded cold, and does not say that it may be galvanised."""
    zinc = {"coating": "galvanised", "place": "yard"}
    pieces = [*bars(rd(3 / 16), (72,), **zinc), sheet(48, 24, **zinc), *full_rack()]
    plan = cut_plan([EXAMPLES / "porch-lantern.yaml"], rack_of(tmp_path, pieces))
    said = {f.name: f.says for f in plan.findings}
    assert "B1 (yard) is refused" in said["stock-refused"]
    assert "S1 (yard) is left out" in said["stock-left-out"]
    assert not {"B1", "S1"} & {use.id for use in plan.taking.uses}
