"""Every figure that can be learnt: where it stands in a shop, and that the piece or the plan really moves with it."""

from dataclasses import replace
from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file, reckon_job
from bickern.desk.work.heats import planned
from bickern.making.lessons.figures import (
    COMMON,
    all_figures,
    figures_in,
    mean_of,
    priors,
    value_in,
    value_of,
    with_value,
)
from bickern.making.shop import Hand, Shop
from bickern.measure.source import Kind
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult

EXAMPLES = Path(__file__).parents[3] / "examples"
SHOP = Shop()


def made(example: str, shop: Shop, name: str):
    """A piece of an example and its plan, in this shop."""
    job = reckon_file(EXAMPLES / f"{example}.yaml").job
    assert job is not None
    copy = planned(reckon_job(job, shop)).copy
    assert copy is not None
    assert copy.plan is not None
    piece = next(p for p in copy.pieces if p.spec.name == name)
    return piece, next(p for p in copy.plan.pieces if p.piece == name), copy


@pytest.mark.parametrize("key", list(all_figures()))
def test_a_shop_without_lessons_is_neutral_and_takes_a_figure_and_gives_it_back(key: str):
    figure = all_figures()[key]
    first = value_in(SHOP, figure)
    other = with_value(SHOP, figure, first * 0.97 if figure.positive else first + 0.01)
    assert other != SHOP
    assert value_in(other, figure) == pytest.approx(first * 0.97 if figure.positive else first + 0.01)
    if not key.startswith("minutes of "):
        assert with_value(other, figure, first) == SHOP
    assert value_of(figure, mean_of(figure, first)) == pytest.approx(first, abs=1e-12)
    assert figure.least <= first <= figure.most


def test_every_prior_tells_where_its_spread_comes_from_and_none_pretends_to_be_print():
    assert {figure.source.kind for figure in all_figures().values()} <= {Kind.MEMORY, Kind.COMMON}
    assert all(figure.spread > 0.0 for figure in all_figures().values())


def test_priors_stand_where_the_shop_file_has_them():
    own = replace(SHOP, hand=replace(Hand(), contact=80.0), bar=replace(BarRules(), corner_fullness=0.9))
    held = priors(own)
    assert value_of(all_figures()["contact"], held["contact"].mean) == pytest.approx(80.0)
    assert value_of(all_figures()["corners"], held["corners"].mean) == pytest.approx(0.9)
    assert figures_in(own)["contact"] == held["contact"].mean


def test_a_contact_told_as_nothing_is_left_as_told():
    assert "contact" not in priors(replace(SHOP, hand=replace(Hand(), contact=0.0)))


def test_no_figure_is_taken_further_than_it_can_go():
    for figure in COMMON:
        assert value_in(with_value(SHOP, figure, figure.most * 100 + 100), figure) == figure.most
        assert value_in(with_value(SHOP, figure, -100.0), figure) == figure.least


def test_twice_the_scale_is_twice_the_loss_of_every_run_that_is_forged():
    """Share of each run, the heats counted: 2 l where the cap of 20 % does not come in between."""
    once, _, _ = made("ladle", SHOP, "handle")
    twice, _, _ = made("ladle", with_value(SHOP, all_figures()["scale"], 2.0), "handle")
    assert isinstance(once, BarResult)
    assert isinstance(twice, BarResult)
    ratios = [b.loss.value / a.loss.value for a, b in zip(once.runs, twice.runs, strict=True) if a.loss.value]
    assert ratios == pytest.approx([2.0] * len(ratios), rel=0.02)
    assert twice.stock.value > once.stock.value


def test_a_learnt_scale_has_less_doubt_in_it():
    plain = replace(SHOP, bar=replace(BarRules(), scale_times=1.3))
    sure = replace(SHOP, bar=replace(BarRules(), scale_times=1.3, scale_doubt=0.25))
    wide, narrow = (made("ladle", shop, "handle")[0].stock for shop in (plain, sure))
    assert narrow.value == pytest.approx(wide.value)
    assert narrow.high - narrow.low < 0.5 * (wide.high - wide.low)


def test_corners_that_are_not_full_take_less_bar():
    full, _, _ = made("ladle", SHOP, "handle")
    empty, _, _ = made("ladle", with_value(SHOP, all_figures()["corners"], 0.85), "handle")
    assert 0.85 < empty.stock.value / full.stock.value < 0.95


@pytest.mark.parametrize(("example", "name"), [("ring-pull", "ring"), ("trivet", "hoop")])
def test_a_weld_takes_up_so_many_times_the_shops_rule(example: str, name: str):
    once, _, _ = made(example, SHOP, name)
    less, _, _ = made(example, with_value(SHOP, all_figures()["weld"], 0.6), name)
    assert isinstance(once, BarResult | RingResult)
    assert less.weld == pytest.approx(0.6 * once.weld)


def test_a_quicker_fire_and_slower_hands_move_seconds_alone():
    _, plain, _ = made("rail-s-hook", SHOP, "hook")
    _, fire, _ = made("rail-s-hook", with_value(SHOP, all_figures()["fire"], 2.0), "hook")
    _, hands, _ = made("rail-s-hook", with_value(SHOP, all_figures()["minutes of mark"], 3.0), "hook")
    assert fire.heats == plain.heats
    before, after = (sum(s.warms.value for s in one.spells) for one in (plain, fire))
    assert after == pytest.approx(2.0 * before)
    marking = [w.seconds.value for s in plain.spells for w in s.works if w.does == "mark"]
    assert hands.seconds.value - plain.seconds.value == pytest.approx(2.0 * sum(marking))


def test_minutes_that_are_learnt_have_less_doubt_in_them():
    sure = replace(SHOP, hand=replace(SHOP.hand, doubt=0.5), fire=replace(SHOP.fire, doubt=0.5))
    _, plain, _ = made("rail-s-hook", SHOP, "hook")
    _, learnt, _ = made("rail-s-hook", sure, "hook")
    assert learnt.seconds.value == pytest.approx(plain.seconds.value)
    assert plain.seconds.low < learnt.seconds.low <= learnt.seconds.value <= learnt.seconds.high < plain.seconds.high


def test_harder_blows_are_fewer():
    _, plain, _ = made("ladle", SHOP, "handle")
    _, hard, _ = made("ladle", with_value(SHOP, all_figures()["useful"], 0.7), "handle")
    blows, fewer = (sum(w.blows.value for s in one.spells for w in s.works) for one in (plain, hard))
    assert fewer == pytest.approx(blows / 2)
    assert hard.heats.value < plain.heats.value


def test_a_colder_anvil_gives_fewer_seconds():
    _, plain, _ = made("ladle", SHOP, "handle")
    _, cold, _ = made("ladle", with_value(SHOP, all_figures()["contact"], 150.0), "handle")
    gives = [min(s.gives.value for s in one.spells if s.hot) for one in (plain, cold)]
    assert gives[1] < gives[0]


def test_a_figure_that_the_shop_file_tells_past_its_bounds_is_left_there_and_taken_no_further():
    corners = all_figures()["corners"]
    empty = replace(SHOP, bar=replace(BarRules(), corner_fullness=0.62))
    held = priors(empty)["corners"]
    assert (held.mean, held.most) == (mean_of(corners, 0.62), 0.0)
    assert held.least == held.mean
    assert value_in(with_value(empty, corners, 0.65), corners) == 0.65
    assert value_in(with_value(empty, corners, 0.5), corners) == 0.62
