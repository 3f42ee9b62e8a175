"""A cut plan drawn: the drawings hold the plan's own places, and their words hold all that is drawn."""

import re
from fractions import Fraction
from pathlib import Path

import pytest

from bickern.desk.cut.cut import CutPlan, Limits, cut_plan
from bickern.desk.cut.pictures import CutPictures, Drawn, StockCut, cut_pictures
from bickern.desk.cut.seen import changed_since, seen_now
from bickern.desk.cut.take import lefts_told, take_plan, with_drops
from bickern.desk.rack.rack import import_list, keeper, rack_at
from bickern.desk.seen import Seen
from bickern.measure.units.words import INCH

EXAMPLES = Path(__file__).parents[3] / "examples"
SHOP = EXAMPLES / "shop" / "bridge-forge.yaml"
JOBS = [EXAMPLES / "leaf-coat-hook.yaml", EXAMPLES / "porch-lantern.yaml"]
WORDS = re.compile(r"<text[^>]*>([^<]*)</text>")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


@pytest.fixture(scope="module")
def rack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("rack") / "rack.sqlite"
    done = import_list(keeper(path, SHOP), EXAMPLES / "rack.csv")
    assert not done.stops
    return path


@pytest.fixture(scope="module")
def plan(rack: Path) -> CutPlan:
    return cut_plan(JOBS, rack, SHOP)


@pytest.fixture(scope="module")
def told(plan: CutPlan) -> CutPictures:
    return cut_pictures(plan)


def stock(told: CutPictures, kind: str) -> list[StockCut]:
    return [one for group in told.groups if group.kind == kind for one in group.stock]


def inches(words: str) -> Fraction:
    """`14 7/32 in` as a fraction of inches."""
    return sum((Fraction(part) for part in words.removesuffix(" in").split()), Fraction(0))


def marks_in(drawn: tuple[Drawn, ...]) -> list[Fraction]:
    """The marks that stand on the drawings, along the bar; a mark that two rows tell is one."""
    said = [words for one in drawn for words in WORDS.findall(one.svg) if words.endswith(" in")]
    return sorted({inches(words) for words in said})


def test_each_mark_stands_on_the_drawing_where_the_plan_has_it(plan: CutPlan, told: CutPictures) -> None:
    # exact mathematics: a mark on the tape lies at the end of its length or above it, by less than a step for each cut
    step = Fraction(1, 32)
    ends = {bar.stock.id: [off.end for off in bar.offs] for section in plan.copy.bars for bar in section.bars}
    drawn = stock(told, "bar")
    assert {one.id for one in drawn} == set(ends)
    for one in drawn:
        for pictures in (one.wide, one.narrow):
            marks = marks_in(pictures)
            assert len(marks) == len(ends[one.id])
            for turn, (mark, end) in enumerate(zip(marks, ends[one.id], strict=True), 1):
                assert -1e-9 <= float(mark) - end / INCH <= turn * float(step) + 1e-9


def test_what_a_drawing_shows_its_words_tell(told: CutPictures) -> None:
    for one in stock(told, "bar"):
        for pictures in (one.wide, one.narrow):
            every = " ".join(picture.says for picture in pictures)
            drawn = [words for picture in pictures for words in WORDS.findall(picture.svg)]
            assert all(words.removeprefix("left ") in every for words in drawn)
            assert one.id in every
            assert one.left in every


def test_a_hook_is_cut_eight_times_from_each_bar(plan: CutPlan, told: CutPictures) -> None:
    hooks = [one for one in stock(told, "bar") if "hook, for Leaf coat hook" in str(one.rows)]
    counts = [int(row[3].split()[0]) if row[3] else 1 for one in hooks for row in one.rows]
    assert sum(counts) == next(copy.job.make for copy in plan.made if "hook" in copy.job.file)


def test_parts_lie_inside_their_sheet_and_keep_the_margin(plan: CutPlan, told: CutPictures) -> None:
    from shapely import Polygon

    lies = {cut.stock.id: cut for gauge in plan.copy.sheets for cut in gauge.sheets}
    for one in stock(told, "sheet"):
        cut = lies[one.id]
        (picture,) = one.wide
        groups = dict(re.findall(r'<g class="ink-(\w+)"[^>]*>(.*?)</g>', picture.svg, re.DOTALL))
        sheet = box_of(groups["outline"])
        parts = box_of(groups["cut"])
        inside = min(parts[0] - sheet[0], parts[1] - sheet[1], sheet[2] - parts[2], sheet[3] - parts[3])
        wide = max(x for x, _ in corners(cut.stock.outline)) - min(x for x, _ in corners(cut.stock.outline))
        scale = (sheet[2] - sheet[0]) / 1000 / wide
        assert inside >= 1000 * scale * plan.copy.shop.cutting.margin - 0.02  # drawn to a hundredth of a millimetre
        assert Polygon(corners(cut.stock.outline)).area == pytest.approx(cut.stock.area)


def corners(loop) -> list[tuple[float, float]]:
    return [seg.start for seg in loop.segs]


def box_of(group: str) -> tuple[float, float, float, float]:
    """The box round the ends of all strokes of a layer [mm]; how arcs bulge between them is left out."""
    ends = []
    for path in re.findall(r' d="([^"]*)"', group):
        for step in re.findall(r"[MLA][^MLAZ]*", path):
            numbers = [float(n) for n in NUMBER.findall(step)]
            ends.append((numbers[-2], numbers[-1]))
    across, down = zip(*ends, strict=True)
    return min(across), min(down), max(across), max(down)


def test_a_narrow_drawing_goes_into_a_hand(told: CutPictures) -> None:
    for one in stock(told, "bar") + stock(told, "sheet"):
        assert all(picture.wide <= 0.080 for picture in one.narrow)
        assert all(picture.wide <= 0.210 for picture in one.wide)


def test_drawings_are_in_the_ink_of_the_page(told: CutPictures) -> None:
    drawn = [picture.svg for one in stock(told, "bar") + stock(told, "sheet") for picture in (*one.wide, *one.narrow)]
    assert all("currentColor" in svg and "#000" not in svg and " id=" not in svg for svg in drawn)


def test_millimetres_first_for_whoever_wants_them(rack: Path) -> None:
    told = cut_pictures(cut_plan(JOBS[:1], rack, SHOP, seen=Seen(first="mm")))
    bar = stock(told, "bar")[0]
    assert re.match(r"\d+(\.\d)? mm \(", bar.rows[0][2])


def test_no_plan_no_pictures(tmp_path: Path) -> None:
    assert cut_pictures(cut_plan([tmp_path / "none.yaml"], tmp_path / "none.sqlite")) == CutPictures()


def test_a_search_tells_how_much_of_its_time_is_used(rack: Path) -> None:
    shares: list[float] = []
    cut_plan(JOBS[1:], rack, SHOP, limits=Limits(share=shares.append))
    assert shares
    assert all(0.0 <= one <= 1.0 for one in shares)
    assert shares == sorted(shares)


def test_what_goes_back_is_told_before_and_painted_after(rack: Path, tmp_path: Path) -> None:
    own = tmp_path / "own.sqlite"
    own.write_bytes(rack.read_bytes())
    plan = cut_plan(JOBS[:1], own, SHOP)
    lefts = lefts_told(plan)
    assert len(lefts) == sum(len(use.left) for use in plan.taking.uses) > 0
    ids = take_plan(plan, own, "Ann")
    assert isinstance(ids, tuple)
    painted = [one.paint for one in stock(cut_pictures(with_drops(plan, ids)), "bar") if one.paint]
    assert [says.rpartition(" ")[2] for says in painted] == list(ids)
    there = {bar.id: bar for bar in rack_at(own)[0].bars}
    assert all(there[name].offcut for name in ids)


def test_a_job_that_was_changed_is_told_of(tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text("job: one\n")
    seen = seen_now([job, None])
    assert changed_since(seen) == ()
    job.write_text("job: two\n")
    (fault,) = changed_since(seen)
    assert fault.stops
    assert fault.name == "changed-since-planned"
    job.unlink()
    assert [one.name for one in changed_since(seen)] == ["changed-since-planned"]
