"""The day book at the desk: what is foreseen, kept, learnt, and how the rest of a lot is reckoned again."""

import sys
from collections.abc import Iterator
from dataclasses import replace
from math import log
from pathlib import Path

import pytest

from bickern.book.database.work import Book
from bickern.book.job.asked import Job
from bickern.desk.daybook.foresee import foreseen
from bickern.desk.daybook.keep import Kept, figures, foresee, own_shop, own_shop_at, record, reset, with_bar
from bickern.desk.rack.rack import opened
from bickern.desk.reckon import reckon_file, reckon_job
from bickern.desk.work.heats import planned
from bickern.making.lessons.figures import all_figures, with_value
from bickern.making.lessons.learn import lessons_of
from bickern.making.lessons.record import Foresight, Record, Told
from bickern.making.quote.hours import hours_of
from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.parts.bar.result import BarResult

ROOT = Path(__file__).parents[3]
sys.path.insert(0, str(ROOT / "tools"))

import learning  # noqa: E402 - the tools lie beside the package, not in it

SHOP = Shop()


def job_of(example: str) -> Job:
    job = reckon_file(ROOT / "examples" / f"{example}.yaml").job
    assert job is not None
    return job


def ahead_of(example: str, piece: str, shop: Shop = SHOP, made: int = 1, before: int = 0) -> Foresight:
    found = foreseen(job_of(example), piece, shop, made, before)
    assert isinstance(found, Foresight), found
    return found


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    made = opened(tmp_path / "rack.sqlite")
    assert isinstance(made, Book)
    yield made
    made.close()


def kept(example: str, piece: str, book: Book, told: Told, shop: Shop = SHOP) -> Kept:
    job = job_of(example)
    ahead = foresee(job, piece, shop, book, told.made)
    assert isinstance(ahead, Foresight)
    done = record(job, ahead, told, shop, book, "Ann")
    assert isinstance(done, Kept)
    return done


def test_what_is_foreseen_is_what_the_plan_says():
    job = job_of("leaf-coat-hook")
    ahead = ahead_of("leaf-coat-hook", "hook")
    copy = planned(reckon_job(job, SHOP)).copy
    assert copy is not None
    assert copy.plan is not None
    piece, plan = copy.pieces[0], copy.plan.pieces[0]
    assert isinstance(piece, BarResult)
    assert ahead.of("stock") == pytest.approx(piece.stock.value)
    assert ahead.of("heats") == plan.heats.value
    assert ahead.of("minutes") == pytest.approx(plan.seconds.value)
    assert ahead.make == 24
    assert [s.name for s in ahead.sizes][:2] == ["length", "reach"]


@pytest.mark.parametrize(("example", "piece"), [("ladle", "handle"), ("ring-pull", "ring"), ("trivet", "hoop")])
@pytest.mark.parametrize("key", ["scale", "corners", "weld"])
def test_how_stock_leans_is_what_reckoning_again_gives(example: str, piece: str, key: str):
    """The lean foretells what another shop reckons, a tenth of the way: within a tenth, or less than one in 10,000."""
    figure = all_figures()[key]
    now = 1.0
    near = with_value(SHOP, figure, now * 0.97)
    ahead, again = ahead_of(example, piece), ahead_of(example, piece, near)
    lean = dict(next(row for row in ahead.foreseen if row.kind == "stock").leans).get(key, 0.0)
    really = log((again.of("stock") or 0.0) / (ahead.of("stock") or 1.0)) / log(0.97)
    assert lean == pytest.approx(really, rel=0.1, abs=0.003)


def test_minutes_of_one_operation_lean_on_the_hands_and_on_it_alike():
    ahead = ahead_of("forge-hood", "hood")
    leans = dict(next(row for row in ahead.foreseen if row.kind == "minutes of fold").leans)
    assert leans == pytest.approx({"hands": 1.0, "minutes of fold": 1.0})
    whole = dict(next(row for row in ahead.foreseen if row.kind == "minutes").leans)
    assert sum(lean for key, lean in whole.items() if key != "hands") == pytest.approx(1.0, abs=0.02)


def test_several_made_at_once_are_foreseen_together():
    one, six = ahead_of("rail-s-hook", "hook"), ahead_of("rail-s-hook", "hook", made=6)
    minutes, all_six = one.of("minutes"), six.of("minutes")
    assert minutes is not None
    assert all_six is not None
    assert minutes < all_six < 6 * minutes  # several irons in the fire at once
    assert six.of("heats") == one.of("heats")
    assert six.of("stock") == one.of("stock")


def test_what_the_hand_learns_is_foreseen_as_a_price_counts_it():
    """The fire takes as long as ever, so minutes fall by less than the hand's own share (exact mathematics)."""
    quick = replace(SHOP, terms=replace(SHOP.terms, learns=0.8))
    plain = ahead_of("rail-s-hook", "hook", SHOP, 8)
    first, later = (ahead_of("rail-s-hook", "hook", quick, 8, before) for before in (0, 8))
    plan = planned(reckon_job(replace(job_of("rail-s-hook"), make=8), SHOP)).copy
    assert plan is not None
    assert plan.plan is not None
    alone = replace(plan.plan, joining=(), finish=())
    assert first.of("minutes") == pytest.approx(hours_of(alone, 8, quick).work.value)
    share = sum(n ** (log(0.8) / log(2)) for n in range(9, 17)) / 8
    assert share * (plain.of("minutes") or 0.0) < (later.of("minutes") or 0.0) < (first.of("minutes") or 0.0)
    assert "learning" in dict(next(row for row in later.foreseen if row.kind == "minutes").leans)


def test_a_day_book_without_records_is_the_shop_to_the_last_digit(book: Book, tmp_path: Path):
    assert own_shop(SHOP, book) == SHOP
    assert own_shop_at(SHOP, tmp_path / "rack.sqlite")[0] == SHOP
    shop, found = own_shop_at(SHOP, tmp_path / "none.sqlite")
    assert shop == SHOP
    assert [f.name for f in found] == ["no-rack"]


def test_the_rest_of_the_lot_is_reckoned_again(book: Book):
    """A test piece of the lot of 24 took more bar, fewer heats and longer than was foreseen."""
    ahead = ahead_of("leaf-coat-hook", "hook")
    stock, minutes = ahead.of("stock"), ahead.of("minutes")
    assert stock is not None
    assert minutes is not None
    done = kept("leaf-coat-hook", "hook", book, Told(stock=stock * 1.06, heats=9, seconds=minutes * 1.3, blows=120))
    assert done.rest is not None
    assert done.rest.rest == 23
    assert done.rest.cut[1] > done.rest.cut[0]
    assert done.rest.heats[1] < done.rest.heats[0]
    assert done.rest.seconds[1] > done.rest.seconds[0]
    own = own_shop(SHOP, book)
    assert isinstance(own, Shop)
    copy = planned(reckon_job(job_of("leaf-coat-hook"), own)).copy
    assert copy is not None
    assert copy.pieces[0].cut_this == done.rest.cut[1]


def test_more_metal_out_than_in_is_kept_and_teaches_nothing(book: Book):
    done = kept("rail-s-hook", "hook", book, Told(stock=0.12, weighed_before=0.03, weighed_after=0.04, remark="odd"))
    assert [f.name for f in done.findings if f.stops] == ["more-metal-out-than-in"]
    assert done.record.refused == "more-metal-out-than-in"
    assert done.record.number == 1
    assert done.rest is None
    assert own_shop(SHOP, book) == SHOP


def test_a_reset_returns_the_prior_and_keeps_the_records(book: Book):
    for _ in range(2):
        kept("ladle", "handle", book, Told(stock=0.17, works=(("taper", 120.0),)))
    assert own_shop(SHOP, book) != SHOP
    assert not isinstance(reset(book, "Taper"), Finding)
    own = own_shop(SHOP, book)
    assert isinstance(own, Shop)
    assert "taper" not in dict(own.hand.slow_at)
    assert own.bar.scale_times > 1.0
    assert not isinstance(reset(book, "all"), Finding)
    assert own_shop(SHOP, book) == SHOP
    nothing = reset(book, "tapir")
    assert isinstance(nothing, Finding)
    assert "taper" in nothing.try_this
    done = kept("ladle", "handle", book, Told(stock=0.17))
    assert done.record.foresight.before == 2  # nothing was forgotten


def test_a_piece_really_made_from_another_bar():
    job = with_bar(job_of("rail-s-hook"), "hook", "5/16 rd")
    assert isinstance(job, Job)
    ahead = foreseen(job, "hook", SHOP)
    assert isinstance(ahead, Foresight)
    assert ahead.area == pytest.approx(3.141592653589793 / 4 * (0.3125 * 0.0254) ** 2)
    for piece, bar in (("hook", "5 donkeys"), ("ring", "1/2 rd")):
        assert isinstance(with_bar(job, piece, bar), Finding)


def test_nothing_is_foreseen_of_what_is_not_there():
    missing = foreseen(job_of("rail-s-hook"), "hok", SHOP)
    assert isinstance(missing, Finding)
    assert "hook" in missing.try_this


def test_a_piece_whose_stock_is_told_teaches_by_the_size_that_comes_out(tmp_path: Path):
    text = (
        "job: Point\nunits: in\npieces:\n  point:\n    bar: 1/2 sq\n    stock length: 4\n    steel: mild\n    metal:\n"
        "      - {keep: 2, name: shank}\n      - {from: 1/2 sq, to: 1/8 sq, over: '?', name: taper}\n"
    )
    path = tmp_path / "point.yaml"
    path.write_text(text)
    done = reckon_file(path)
    if done.job is None or done.copy is None or not done.copy.pieces:
        pytest.fail(str([f.says for f in done.findings]))
    ahead = foreseen(done.job, "point", SHOP)
    assert isinstance(ahead, Foresight)
    assert ahead.of("stock") is None
    rows = [row for row in ahead.foreseen if row.kind.startswith("size of ")]
    assert len(rows) == 1
    assert dict(rows[0].leans)["scale"] < 0.0


@pytest.mark.slow
def test_errors_halve_within_three_records_of_a_kind_and_keep_falling():
    """A simulated shop (a test of the learning, not of the trade): medians over seeds, each piece by itself."""
    for piece in (("ladle", "handle"), ("ring-pull", "ring")):
        rows = learning.medians([list(learning.course(seed, [piece], 4, [piece])) for seed in range(5)])
        lengths, minutes = [row[0] for row in rows], [row[1] for row in rows]
        assert lengths[3] <= lengths[0] / 2, piece
        assert minutes[3] <= minutes[0] / 2, piece
        assert lengths[4] <= lengths[1] + 0.002, piece
        assert minutes[4] <= minutes[1] + 0.02, piece


@pytest.mark.slow
def test_pieces_that_no_record_was_made_of_are_foreseen_better_too():
    pieces = [("ladle", "handle"), ("ring-pull", "ring")]
    rows = learning.medians([list(learning.course(seed, pieces, 2, [("trivet", "hoop")])) for seed in range(3)])
    assert rows[2][0] < rows[0][0]
    assert rows[2][1] < 0.7 * rows[0][1]


@pytest.mark.slow
def test_a_hungry_fire_is_learnt_though_corners_are_full_already(monkeypatch: pytest.MonkeyPatch):
    """All the bar that is cut more must be taken for scale: corners have nowhere to go (a simulated shop again)."""
    for key, value in {"corners": 1.0, "scale": 2.5}.items():
        monkeypatch.setitem(learning.TRUE, key, value)
    piece = ("ladle", "handle")
    rows = learning.medians([list(learning.course(seed, [piece], 3, [piece])) for seed in range(3)])
    assert rows[3][0] <= rows[0][0] / 4


@pytest.mark.slow
def test_a_wild_first_record_is_harmless():
    """Stock and minutes ten times over before anything else is known; two honest ones later it is gone."""
    piece = ("ladle", "handle")
    for seed in range(2):
        wild = list(learning.course(seed, [piece], 3, [piece], wild=0))
        assert wild[1][1] <= wild[0][1] * 1.05
        assert wild[3][0] <= wild[0][0] / 2
        assert wild[3][1] <= wild[0][1] / 2


@pytest.mark.slow
def test_one_wild_record_is_harmless():
    """In the second round the stock and the minutes are both written down ten times too large."""
    piece = ("ladle", "handle")
    for seed in range(2):
        clean = list(learning.course(seed, [piece], 3, [piece]))
        wild = list(learning.course(seed, [piece], 3, [piece], wild=1))
        for turn in (2, 3):
            assert wild[turn][0] <= clean[0][0] / 2
            assert wild[turn][1] <= clean[0][1] / 2


def test_the_figures_are_told_with_records_and_shares(book: Book):
    kept("ladle", "handle", book, Told(blows=300))
    found = figures(SHOP, book)
    assert not isinstance(found, Finding)
    useful = found.of("useful")
    assert useful is not None
    assert useful.records == 1
    assert useful.left < 0.3
    assert useful.value < SHOP.hand.useful  # more blows than foreseen: each does less


def test_learning_does_not_reckon_old_jobs_again():
    """A record alone holds all that is learnt from: no job is at hand here."""
    ahead = ahead_of("ladle", "handle")
    rows = [Record(Told(blows=300.0), ahead, number=1)]
    assert lessons_of(rows, (), SHOP).of("useful") is not None
