"""Heats and what the fire takes, reckoned in turn: how often, which way, and what is told of it."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from bickern.desk import heats
from bickern.desk.assemble import for_packet
from bickern.desk.heats import COOLING_UNPROVED, HEATS_UNPROVED, MOST_PASSES, only, planned
from bickern.desk.reckon import Reckoning, reckon_file, reckon_job, reckon_text
from bickern.making.heats.lots import lot_of
from bickern.making.heats.result import PiecePlan, Plan, Spell
from bickern.making.shop import Shop
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.finding import Finding
from bickern.measure.spread import sharp
from bickern.parts.bar.result import BarResult
from bickern.parts.set.pieces import PieceResult, parts_in

EXAMPLES = Path(__file__).parents[2] / "examples"
JOBS = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
HOOK = (
    "job: Trial\nunits: in\nmake: 2\npieces:\n  it:\n    bar: 1/2 sq\n    metal: [{keep: 9}, {to: 1/8 rd, over: 4}]\n"
)


def planned_job(name: str) -> Reckoning:
    return planned(reckon_file(EXAMPLES / f"{name}.yaml"))


def planner(heats_of: Callable[[float], float]) -> Callable[..., Plan]:
    """A planner whose heats hang on the stock alone [m]: each takes 1 % of all that is worked."""

    def plan(pieces: Sequence[PieceResult], joints: object, finish: str, shop: Shop, sets: int = 1) -> Plan:
        plans = []
        for piece in pieces:
            assert isinstance(piece, BarResult)
            times = sharp(heats_of(piece.cut_this))
            works = (Work("it: taper", "it", "taper", hot=True),)
            zone = (0.0, piece.length)
            spell = Spell("it", works, hot=True, times=times, zone=zone, loss=sharp(0.01), wants=sharp(20))
            lot = lot_of(sets, (spell,), shop)
            plans.append(PiecePlan("it", sets, (spell,), times, NO_TIME, lot))
        return Plan(tuple(plans), (), (), (), NO_TIME, NO_TIME)

    return plan


def run_with(monkeypatch: pytest.MonkeyPatch, heats_of: Callable[[float], float], text: str = HOOK) -> Reckoning:
    monkeypatch.setattr(heats, "plan_of", planner(heats_of))
    return planned(reckon_text(text, "trial.yaml"))


def test_the_stock_is_what_the_heats_take(monkeypatch: pytest.MonkeyPatch):
    """Ten heats at 1 %: the tip keeps 0.99^10 of its metal (exact mathematics)."""
    done = run_with(monkeypatch, lambda _: 10)
    assert done.copy is not None
    assert done.copy.plan is not None
    (bar,), (plan,) = done.copy.pieces, done.copy.plan.pieces
    assert isinstance(bar, BarResult)
    assert bar.runs[-1].loss.value == pytest.approx(1 - 0.99**10)
    assert plan.first_cut < plan.last_cut == bar.cut_this
    assert done.copy.plan.passes == 2


def test_heats_only_rise_and_are_counted_three_times_at_most(monkeypatch: pytest.MonkeyPatch):
    counted: list[float] = []

    def more_each_time(_: float) -> float:
        counted.append(4 + 4 * len(counted))
        return counted[-1]

    done = run_with(monkeypatch, more_each_time)
    assert done.copy is not None
    assert done.copy.plan is not None
    assert done.copy.plan.passes == MOST_PASSES == 3
    assert done.copy.plan.pieces[0].heats.value == 12


def test_a_piece_that_would_then_want_fewer_heats_stays_as_it_was_counted(monkeypatch: pytest.MonkeyPatch):
    first = reckon_text(HOOK, "trial.yaml").copy
    assert first is not None
    cut = first.pieces[0].cut_this

    done = run_with(monkeypatch, lambda stock: 12 if stock <= cut + 1e-9 else 3)
    assert done.copy is not None
    assert done.copy.plan is not None
    assert done.copy.plan.pieces[0].heats.value == 12


def test_a_shop_that_weighed_its_own_scale_keeps_it_and_it_is_said(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(heats, "plan_of", planner(lambda _: 10))
    job = reckon_text(HOOK, "trial.yaml").job
    assert job is not None
    shop = replace(Shop(), bar=replace(Shop().bar, scale_worked=(0.01, 0.02, 0.03)))
    before = reckon_job(job, shop)
    done = planned(before)
    assert before.copy is not None
    assert done.copy is not None
    assert done.copy.pieces == before.copy.pieces
    assert [f.name for f in done.findings if f not in before.findings] == ["scale-as-told"]


def test_a_stock_that_the_heats_would_eat_is_told_and_the_piece_stays(monkeypatch: pytest.MonkeyPatch):
    text = HOOK.replace("    metal", "    stock length: 3\n    metal").replace("{keep: 9}", "{keep: ?, name: shank}")
    before = reckon_text(text, "trial.yaml")
    assert before.copy is not None
    assert before.copy.pieces, before.findings
    done = run_with(monkeypatch, lambda _: 16, text)
    assert done.copy is not None
    assert done.copy.pieces[0].spec.name == "it"


@pytest.mark.parametrize("name", JOBS)
def test_an_example_is_planned_once_for_all_of_its_pieces(name: str):
    before = reckon_file(EXAMPLES / f"{name}.yaml")
    done = planned_job(name)
    assert before.copy is not None
    assert done.copy is not None
    plan = done.copy.plan
    assert plan is not None
    assert sorted(one.piece for one in plan.pieces) == sorted(p.spec.name for p in done.copy.pieces)
    assert plan.passes <= MOST_PASSES
    assert done.copy.not_validated[-2:] == (HEATS_UNPROVED, COOLING_UNPROVED)
    for one in plan.pieces:
        first, last = (next(p for p in c.pieces if p.spec.name == one.piece) for c in (before.copy, done.copy))
        bar = isinstance(first, BarResult)
        assert (one.first_cut, one.last_cut) == ((first.cut_this, last.cut_this) if bar else (0, 0))
        assert one.make == parts_in(first) * done.copy.job.make


@pytest.mark.parametrize("name", JOBS)
def test_what_was_found_before_is_still_told(name: str):
    before = reckon_file(EXAMPLES / f"{name}.yaml")
    after = planned_job(name)
    missing = {f.name for f in before.findings} - {f.name for f in after.findings}
    assert not missing
    assert after.copy is not None
    assert after.copy.findings == after.findings


def test_a_customer_is_not_told_how_it_is_made():
    done = reckon_file(EXAMPLES / "rail-s-hook.yaml")
    customer, shop = for_packet(done, "customer").copy, for_packet(done, "shop").copy
    assert customer is not None
    assert shop is not None
    assert customer.plan is None
    assert shop.plan is not None


def test_one_piece_alone_has_its_own_heats_and_tools():
    done = planned_job("porch-lantern")
    arm = only(done, "arm")
    assert isinstance(arm, Reckoning)
    assert arm.copy is not None
    assert arm.copy.plan is not None
    assert [one.piece for one in arm.copy.plan.pieces] == ["arm"]
    assert all("arm" in tool.of for tool in arm.copy.plan.tools)
    assert isinstance(only(done, "leg"), Finding)


def test_a_piece_that_stops_is_named_and_gets_no_order_of_work():
    two = HOOK + "  bad:\n    bar: 3.8 rd\n    metal: [{keep: 3}]\n"
    done = planned(reckon_text(two, "two.yaml"))
    assert done.copy is not None
    assert done.copy.plan is not None
    assert {one.piece: bool(one.refused) for one in done.copy.plan.pieces}["it"] is False


def test_a_job_that_cannot_be_read_stays_as_it_is():
    done = reckon_text("job: [\n", "bad.yaml")
    assert planned(done) is done
