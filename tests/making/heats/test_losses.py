"""What heats take of a bar, against shares worked by hand (exact mathematics), and against constant mass."""

from dataclasses import replace

import pytest

from bickern.desk.reckon import reckon_text
from bickern.iron.scale import SCALES_LESS
from bickern.iron.section import area
from bickern.iron.steel import MetalClass, density_of
from bickern.making.heats.losses import MOST_IN_PRINT, hot_share, losses_of
from bickern.making.heats.result import Lot, PiecePlan, Spell
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.spread import Spread, sharp
from bickern.measure.units.words import INCH
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.volume import SCALE_CAP

ONCE = sharp(1)
JOB = (
    "job: Trial\nunits: in\npieces:\n  it:\n    bar: 1/2 sq\n"
    "    metal: [{keep: 9}, {as: 3/8 sq, over: 4}, {to: 1/8 rd, over: 3}]\n"
)


@pytest.fixture(scope="module")
def bar():
    done = reckon_text(JOB, "trial.yaml")
    assert done.copy is not None
    return done.copy.pieces[0]


def spell(zone: tuple[float, float], loss: Spread, times: Spread = ONCE) -> Spell:
    inches = (zone[0] * INCH, zone[1] * INCH)
    return Spell("it", (Work("it: draw", "it", "draw"),), hot=True, zone=inches, loss=loss, times=times)


def plan(*spells: Spell, refused: str = "") -> PiecePlan:
    lot = Lot("it", 1, 1, together=False, seconds=NO_TIME, why="")
    return PiecePlan("it", 1, spells, sharp(len(spells)), NO_TIME, lot, refused=refused)


def test_a_heat_takes_its_share_of_what_lies_in_it(bar):
    """One heat over half of the drawn stretch (11 to 13 of 9 to 13 in) at 2 %: 1 % of that stretch, none of the tip."""
    kept, drawn, tip = losses_of(plan(spell((11, 13), sharp(0.02))), bar)
    assert kept == bar.runs[0].loss
    assert drawn.value == pytest.approx(0.01)
    assert tip.value == 0


def test_heats_multiply(bar):
    """Two heats alike at 2 % and one at 1 %: 1 - 0.98 x 0.98 x 0.99 = 4.9204 %."""
    heats = (spell((9, 16), sharp(0.02), sharp(2)), spell((9, 16), sharp(0.01)))
    _, drawn, tip = losses_of(plan(*heats), bar)
    assert drawn.value == pytest.approx(0.049204)
    assert tip.value == pytest.approx(0.049204)


def test_a_zone_longer_than_the_fire_is_hot_bit_by_bit(bar):
    """Three heats for 6 in where the fire heats 2 in, of a stretch that comes out 7 in long, so 6 1/2 in on the way:
    each place sits through 3 x 2/6.5 of them at 2 %."""
    long = replace(spell((9, 16), sharp(0.02), sharp(3)), now=(0.0, 6 * INCH))
    _, drawn, _ = losses_of(plan(long), bar, longest=2 * INCH)
    assert drawn.value == pytest.approx(1 - (1 - 0.02 * 2 / 6.5) ** 3)
    assert losses_of(plan(long), bar, longest=7 * INCH)[1].value == pytest.approx(1 - 0.98**3)


def test_doubt_about_heats_and_about_the_flame_is_put_together_at_right_angles(bar):
    """2 heats (1 to 4) at 1 % (0.5 to 2): 1.99 %; four heats 3.940 %, the hot flame 3.96 %: up by the root of both."""
    _, drawn, _ = losses_of(plan(spell((9, 16), Spread(0.01, 0.005, 0.02), Spread(2, 1, 4))), bar)
    value, heats, flame = 1 - 0.99**2, 1 - 0.99**4, 1 - 0.98**2
    assert drawn.value == pytest.approx(value)
    assert drawn.high - value == pytest.approx(((heats - value) ** 2 + (flame - value) ** 2) ** 0.5)
    assert drawn.low < value


def test_no_more_is_taken_than_any_rule_holds_for(bar):
    """The highest printed rule is 7.5 %: beyond it the count of heats is in doubt, which the high end may say."""
    _, drawn, _ = losses_of(plan(spell((9, 16), Spread(0.05, 0.02, 0.2), Spread(9, 5, 16))), bar)
    assert drawn.value == MOST_IN_PRINT.value == 0.075
    assert drawn.high == SCALE_CAP


def test_a_piece_without_heats_goes_by_the_shops_rule(bar):
    assert losses_of(plan(), bar) == ()
    assert losses_of(plan(spell((9, 16), sharp(0.02)), refused="coated"), bar) == ()
    cold = Spell("it", (Work("it: mark", "it", "mark"),), hot=False)
    assert losses_of(plan(cold), bar) == ()


def test_shares_of_a_run_add_up(bar):
    run = bar.runs[1]
    cut = (run.start + run.end) / 3
    assert hot_share(run, (0, cut)) + hot_share(run, (cut, 1)) == pytest.approx(1)
    assert hot_share(run, (0, run.start)) == 0


def test_the_stock_is_what_is_left_and_what_was_taken(bar):
    """Constant mass: stock x its section = each run's metal over what the fire leaves of it."""
    losses = losses_of(plan(spell((9, 16), sharp(0.03), sharp(3))), bar)
    again = reckon_bar(bar.spec, BarRules(), density_of("mild"), losses=losses).value
    assert again is not None
    wanted = sum(run.volume / (1 - loss.value) for run, loss in zip(bar.runs, losses, strict=True))
    assert again.stock.value * area(bar.stock_section) == pytest.approx(wanted)
    assert [run.loss for run in again.runs] == list(losses)
    assert again.stock_bare == pytest.approx(bar.stock_bare)
    assert again.stock.value > again.stock_bare
    assert again.mass == pytest.approx(bar.mass)


def test_where_the_stock_is_given_a_greater_loss_leaves_a_shorter_bar():
    text = (
        "job: T\nunits: in\npieces:\n  it:\n    bar: 1/2 sq\n    stock length: 12\n    metal: [{as: 3/8 sq, over: ?}]\n"
    )
    done = reckon_text(text, "t.yaml")
    assert done.copy is not None, done.findings
    assert done.copy.pieces, done.findings
    it = done.copy.pieces[0]
    spec = it.spec
    first, more = (
        reckon_bar(spec, BarRules(), density_of("mild"), losses=(sharp(share),)).value for share in (0.02, 0.04)
    )
    assert first is not None
    assert more is not None
    assert more.length / first.length == pytest.approx(0.96 / 0.98)


def test_losses_must_be_as_many_as_runs(bar):
    with pytest.raises(ValueError, match="zip"):
        reckon_bar(replace(bar.spec), BarRules(), density_of("mild"), losses=(sharp(0.02),))


def test_stainless_scales_less_than_mild(bar):
    """Set beside carbon steel only, from memory: a tenth, within three times."""
    stainless = replace(bar, spec=replace(bar.spec, steel="304"))
    heats = plan(spell((9, 16), sharp(0.02)))
    mild, less = losses_of(heats, bar)[1], losses_of(heats, stainless)[1]
    assert less.value == pytest.approx(mild.value * SCALES_LESS[MetalClass.STAINLESS].value)
    assert less.high > 2 * less.value
