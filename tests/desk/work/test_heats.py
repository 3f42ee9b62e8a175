"""Heats and what the fire takes, reckoned in turn: how often, which way, and what is told of it."""

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from bickern.desk.reckon import Reckoning, reckon_file, reckon_job, reckon_text
from bickern.desk.whole.assemble import for_packet
from bickern.desk.work import heats
from bickern.desk.work.heats import MOST_PASSES, only, planned
from bickern.desk.work.makeable import LEFT_OPEN, STOPPED, TOO_THICK
from bickern.making.heats.lots import lot_of
from bickern.making.heats.result import PiecePlan, Plan, Spell
from bickern.making.heats.unproved import ABOUT_HEATS
from bickern.making.shop import Shop
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.finding import Finding
from bickern.measure.spread import sharp
from bickern.paper.copy import Copy
from bickern.paper.sheets.heat_words import groups
from bickern.parts.bar.result import BarResult
from bickern.parts.set.pieces import PieceResult, parts_in

EXAMPLES = Path(__file__).parents[3] / "examples"
JOBS = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
HOOK = (
    "job: Trial\nunits: in\nmake: 2\npieces:\n  it:\n    bar: 1/2 sq\n    metal: [{keep: 9}, {to: 1/8 rd, over: 4}]\n"
)


def planned_job(name: str) -> Reckoning:
    return planned(reckon_file(EXAMPLES / f"{name}.yaml"))


def planner(heats_of: Callable[[float], float]) -> Callable[..., Plan]:
    """A planner whose heats hang on the stock alone [m]: each takes 1 % of the end that is worked."""

    def plan(pieces: Sequence[PieceResult], joints: object, finish: str, shop: Shop, sets: int = 1) -> Plan:
        plans = []
        for piece in pieces:
            assert isinstance(piece, BarResult)
            times = sharp(heats_of(piece.cut_this))
            works = (Work("it: taper", "it", "taper", hot=True),)
            zone = (piece.runs[-1].start, piece.length)
            spell = Spell("it", works, hot=True, times=times, zone=zone, now=zone, loss=sharp(0.01), wants=sharp(20))
            lot = lot_of(sets, (spell,), shop)
            plans.append(PiecePlan("it", sets, (spell,), times, NO_TIME, lot))
        return Plan(tuple(plans), (), (), (), NO_TIME, NO_TIME)

    return plan


def run_with(monkeypatch: pytest.MonkeyPatch, heats_of: Callable[[float], float], text: str = HOOK) -> Reckoning:
    monkeypatch.setattr(heats, "plan_of", planner(heats_of))
    return planned(reckon_text(text, "trial.yaml"))


def test_the_stock_is_what_the_heats_take(monkeypatch: pytest.MonkeyPatch):
    """Five heats at 1 %: the tip keeps 0.99^5 of its metal (exact mathematics), under the most that is ever taken."""
    done = run_with(monkeypatch, lambda _: 5)
    assert done.copy is not None
    assert done.copy.plan is not None
    (bar,), (plan,) = done.copy.pieces, done.copy.plan.pieces
    assert isinstance(bar, BarResult)
    assert bar.runs[-1].loss.value == pytest.approx(1 - 0.99**5)
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


def test_a_cut_that_still_moves_when_heats_were_counted_three_times_is_told(monkeypatch: pytest.MonkeyPatch):
    counted: list[float] = []

    def more_each_time(_: float) -> float:
        counted.append(1 + 2 * len(counted))
        return counted[-1]

    long_end = HOOK.replace("{to: 1/8 rd, over: 4}", "{as: 3/8 sq, over: 12}")
    moving = run_with(monkeypatch, more_each_time, long_end)
    assert [f.name for f in moving.findings if f.name == "cut-not-settled"] == ["cut-not-settled"]
    settled = run_with(monkeypatch, lambda _: 5, long_end)
    assert not [f for f in settled.findings if f.name == "cut-not-settled"]


def test_heats_that_would_swing_settle_at_the_higher_count(monkeypatch: pytest.MonkeyPatch):
    """Fewer heats, less stock, more heats again: the piece stays at the most that was counted, and its cut with it."""
    first = reckon_text(HOOK, "trial.yaml").copy
    assert first is not None
    cut = first.pieces[0].cut_this
    done = run_with(monkeypatch, lambda stock: 6 if stock <= cut + 1e-9 else 5)
    assert done.copy is not None
    (bar,) = done.copy.pieces
    assert isinstance(bar, BarResult)
    assert bar.runs[-1].loss.value == pytest.approx(1 - 0.99**6)
    assert not [f for f in done.findings if f.name == "cut-not-settled"]


def random_job(seed: int) -> str:
    """A job of a few bars, drawn, upset, bent, twisted and punched at random; some cannot be made."""
    draw = random.Random(seed)
    lines = ["job: Trial", "units: in", f"make: {draw.choice((1, 1, 2, 12))}", "pieces:"]
    for number in range(draw.randint(1, 3)):
        bar = draw.choice(("1/4 rd", "3/8 sq", "1/2 sq", "1 x 1/4", "3/4 sq", "1/2 hex", "1 1/2 x 1/2"))
        ends = (
            f"{{to: {draw.choice(('1/8 rd', '1/4 sq', '1/16 rd'))}, over: {draw.randint(1, 9)}, name: tip}}",
            f"{{as: {draw.choice(('1/4 rd', '3/4 sq', '1 x 1/8', '5/8 sq'))}, over: {draw.randint(1, 4)}, name: end}}",
        )
        body = draw.randint(3, 20)
        lines += [f"  piece {number}:", f"    bar: {bar}"]
        metal = [f"{{keep: {body}, name: body}}", *draw.sample(ends, draw.randint(0, 2))]
        lines += [f"    metal: [{', '.join(metal)}]"]
        if draw.random() < 0.5:
            bend = (
                f"{{bend: {draw.choice((45, 90, 180))}, inside radius: {draw.choice(('1/4', '1', '3'))}, turn: left}}"
            )
            lines += [f"    path: [{{straight: 1}}, {bend}, {{straight: rest}}]"]
        if draw.random() < 0.3:
            lines += [f"    holes: [{{size: {draw.choice(('3/16', '1/4', '1/2'))}, by: punch, at: 2}}]"]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("seed", range(30))
def test_in_random_jobs_heats_only_rise_and_every_piece_is_planned_or_refused(
    seed: int, monkeypatch: pytest.MonkeyPatch
):
    rises: list[tuple[dict[str, float], dict[str, float]]] = []
    rising = heats._rising

    def seen(copy: Copy, before: heats._Pass, pieces: heats.Pieces) -> heats._Pass:
        after = rising(copy, before, pieces)
        rises.append(
            ({p.piece: p.heats.value for p in before.plan.pieces}, {p.piece: p.heats.value for p in after.plan.pieces})
        )
        return after

    monkeypatch.setattr(heats, "_rising", seen)
    before = reckon_text(random_job(seed), "trial.yaml")
    done = planned(before)
    assert len(rises) < MOST_PASSES
    assert all(now[name] >= then[name] for then, now in rises for name in then)
    if done.copy is None or done.copy.plan is None:
        assert done.stops
        return
    assert planned(before) == done
    assert sorted(one.piece for one in done.copy.plan.pieces) == sorted(spec.name for spec in done.copy.job.pieces)
    for one in done.copy.plan.pieces:
        assert bool(one.spells) is not bool(one.refused)
        assert all(math.isfinite(x) and x >= 0 for x in (one.heats.low, one.heats.high, one.lot.seconds.high))


def test_most_random_jobs_can_be_planned():
    """Else the law above would speak of nothing."""
    plans = [done.copy.plan for seed in range(30) if (done := planned(reckon_text(random_job(seed), "a"))).copy]
    able = [one for plan in plans if plan is not None for one in plan.pieces if one.heats.value > 0]
    assert len(able) >= 30


RIVETED = """job: Trial
units: in
pieces:
  strap:
    bar: 1 x 1/4
    metal: [{keep: 6}]
    holes: [{size: 1/4, by: drill, at: 3, name: hole}]
  plate:
    bar: 1 x 1/4
    metal: [{keep: 4}]
    holes: [{size: 1/4, by: drill, at: 2, name: hole}]
  ring:
    ring: 3/16 rd
    inside across: 2
    closed: welded
joins:
  - {rivet: 1/4, through: [strap.hole, plate.hole]}
  - {ring: ring, through: [strap.hole]}
"""


def joining_of(text: str) -> tuple[set[str], dict[str, str], set[str]]:
    """What is done when it is joined, which pieces are refused and why, and the names of what was found."""
    done = planned(reckon_text(text, "trial.yaml"))
    assert done.copy is not None
    assert done.copy.plan is not None
    does = {work.does for spell in done.copy.plan.joining for work in spell.works}
    return does, {p.piece: p.refused for p in done.copy.plan.pieces if p.refused}, {f.name for f in done.findings}


def test_a_joint_that_something_stops_is_left_out_and_it_is_said():
    does, refused, found = joining_of(RIVETED)
    assert {"rivet", "weld"} <= does
    assert not refused
    assert "joint-left-out" not in found
    does, refused, found = joining_of(RIVETED.replace("rivet: 1/4", "rivet: 40"))
    assert "rivet" not in does
    assert "weld" in does
    assert "joint-left-out" in found


def test_a_ring_that_does_not_go_in_is_not_closed_before_what_it_should_hold():
    does, refused, found = joining_of(RIVETED.replace("3/16 rd", "3/8 rd"))
    assert refused == {"ring": LEFT_OPEN}
    assert "rivet" in does
    assert not {"weld", "close ring"} & does
    assert "joint-left-out" in found


def test_what_is_thicker_than_any_hand_forges_gets_no_order_of_work():
    """An upset to 500 in would take days in the fire; nothing is known of iron so thick."""
    _, refused, _ = joining_of(HOOK.replace("{to: 1/8 rd, over: 4}", "{as: 500 x 3/4, over: 3/4}"))
    assert refused == {"it": TOO_THICK}


def test_a_joint_thicker_than_any_hand_forges_is_left_out():
    """A tenon of 500 in left the air round it colder than nothing."""
    text = (Path(__file__).parents[3] / "examples" / "fire-set.yaml").read_text()
    assert "shoulder" in joining_of(text)[0]
    does, _, found = joining_of(text.replace("{tenon: 3/8", "{tenon: 500"))
    assert "joint-left-out" in found
    assert "rivet" in does
    assert "shoulder" not in does


def test_a_fire_that_is_told_as_too_cold_is_said(tmp_path: Path):
    def found(fire: str) -> set[str]:
        shop = tmp_path / "shop.yaml"
        shop.write_text(f"shop: Mine\n{fire}")
        return {f.name for f in planned(reckon_text(HOOK, "trial.yaml", shop_path=shop)).findings}

    assert "fire-too-cold" in found("fire: {temperature: 900 C}\n")
    assert "fire-too-cold" not in found("fire: {temperature: 1300 C}\n")
    assert "fire-too-cold" not in found("")


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
    text = HOOK.replace("    metal", "    stock length: 1 3/4\n    metal").replace(
        "{keep: 9}", "{keep: ?, name: shank}"
    )
    before = reckon_text(text, "trial.yaml")
    assert before.copy is not None
    assert before.copy.pieces, before.findings
    done = run_with(monkeypatch, lambda _: 16, text)
    assert done.copy is not None
    assert [f.name for f in done.findings] == ["heats-take-too-much"]
    assert done.copy.pieces == before.copy.pieces


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
    assert done.copy.not_validated[-2:] == ABOUT_HEATS
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
    two = (
        HOOK
        + "  bad:\n    bar: 3/8 rd\n    stock length: 1\n    metal: [{keep: 3, name: all}, {to: 1/8 rd, over: 4}]\n"
    )
    done = planned(reckon_text(two, "two.yaml"))
    assert done.copy is not None
    assert done.copy.plan is not None
    assert {one.piece: one.refused for one in done.copy.plan.pieces} == {"it": "", "bad": STOPPED}


def test_what_is_coated_with_zinc_stands_last_in_the_plan_with_the_reason():
    two = HOOK + "  zinc:\n    bar: 1/4 rd\n    coating: galvanised\n    metal: [{keep: 10}]\n"
    done = planned(reckon_text(two, "two.yaml"))
    assert done.copy is not None
    assert done.copy.plan is not None
    assert [(one.piece, one.refused) for one in done.copy.plan.pieces] == [("it", ""), ("zinc", STOPPED)]
    words = [line for group in groups(done.copy, done.copy.plan) for line in group.lines]
    assert any(name == "Found" and "zinc" in says for name, says in words)


def test_a_job_that_cannot_be_read_stays_as_it_is():
    done = reckon_text("job: [\n", "bad.yaml")
    assert planned(done) is done


def test_a_hook_that_does_not_go_in_is_made_all_the_same():
    """It is open, and can be hung in when its hole is mended."""
    hanger = (
        "  hanger:\n    bar: 3/8 rd\n    metal: [{keep: rest}]\n"
        "    path: [{straight: 4}, {bend: 180, inside radius: 1/16, turn: left, name: hook}, {straight: 1}]\n"
    )
    text = RIVETED.replace("joins:\n", f"{hanger}joins:\n  - {{hook: hanger.hook, on: ring}}\n")
    _, refused, found = joining_of(text)
    assert "joint-left-out" in found
    assert not refused


def test_what_does_not_enter_the_fire_is_not_planned(tmp_path: Path):
    shop = tmp_path / "shop.yaml"
    shop.write_text("shop: Mine\nunits: in\nfire: {opening: 1/4}\n")
    done = planned(reckon_text(HOOK, "trial.yaml", shop_path=shop))
    assert done.copy is not None
    assert done.copy.plan is not None
    assert [one.refused for one in done.copy.plan.pieces] == [STOPPED]
