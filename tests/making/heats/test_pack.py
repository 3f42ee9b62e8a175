"""Works packed into heats, counted by hand: what goes together, what does not, and how many heats it comes to."""

from dataclasses import replace
from math import exp, hypot, log

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.heats.hold import Handle
from bickern.making.heats.lies import Lying
from bickern.making.heats.pack import LEAST_ZONE, ZONE, Bench, bench_of, hot_zone, packed, zone_of
from bickern.making.heats.result import End, Grip
from bickern.making.heats.warmth import given, heats_for, heats_of
from bickern.making.shop import Fire, Hand, Shop
from bickern.making.work.result import Work
from bickern.measure.spread import Spread, sharp
from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult

SHOP = Shop()
TEXT = "job: it\nunits: in\npieces:\n  it:\n    bar: 1/2 sq\n    metal: [{keep: 24, name: bar}]\n"


def bar() -> BarResult:
    found = reckon_text(TEXT, "job.yaml").copy.pieces[0]  # type: ignore[union-attr]
    assert isinstance(found, BarResult)
    return found


def work(name: str, zone: tuple[float, float], seconds: float, does: str = "draw", **rest: object) -> Work:
    filled = {"start": 1423.0, "stop": 1073.0, "thin": 0.003, "hot": True, **rest}
    return Work(name, "it", does, name, zone=zone, seconds=sharp(seconds), **filled)  # type: ignore[arg-type]


def spells(*works: Work, shop: Shop = SHOP) -> list[list[str]]:
    return [[w.key for w in s.works] for s in packed(works, bench_of(bar(), shop)).spells]


def test_short_works_side_by_side_go_in_one_heat_and_far_apart_in_two() -> None:
    near = (work("a", (0.0, 0.02), 4), work("b", (0.03, 0.05), 4))
    assert spells(*near) == [["a", "b"]]
    far = (work("a", (0.0, 0.02), 4), work("b", (0.3, 0.32), 4))
    assert spells(*far) == [["a"], ["b"]]


def test_works_that_together_want_longer_than_a_heat_are_parted() -> None:
    gives = given((work("a", (0.0, 0.02), 1),), LEAST_ZONE.value, SHOP).value
    assert 10 < gives < 60
    one, other = work("a", (0.0, 0.02), 0.6 * gives), work("b", (0.03, 0.05), 0.6 * gives)
    assert spells(one, other) == [["a"], ["b"]]


def test_works_of_one_stretch_share_heats_where_that_saves_one() -> None:
    """1.4 and 1.4 heats are two and two apart; together 2.8, which is three."""
    gives = given((work("a", (0.0, 0.05), 1),), LEAST_ZONE.value, SHOP).value
    bench = packed((work("a", (0.0, 0.05), 1.4 * gives), work("b", (0.0, 0.05), 1.4 * gives)), bench_of(bar(), SHOP))
    assert [s.times.value for s in bench.spells] == [3]
    bench = packed((work("a", (0.0, 0.05), 1.9 * gives), work("b", (0.0, 0.05), 1.9 * gives)), bench_of(bar(), SHOP))
    assert [s.times.value for s in bench.spells] == [2, 2]


def test_what_is_cut_off_falls_and_what_comes_next_is_another_heat() -> None:
    cut, draw = work("cut", (0.0, 0.02), 3, "cut off"), work("a", (0.0, 0.03), 3)
    assert spells(draw, cut) == [["a", "cut"]]
    assert spells(cut, draw) == [["cut"], ["a"]]


def test_a_weld_and_a_twist_have_a_heat_of_their_own() -> None:
    weld = work("weld", (0.0, 0.05), 5, "weld", start=1573.0, stop=1423.0, whole=True)
    twist = work("twist", (0.0, 0.05), 5, "twist", whole=True)
    small = work("a", (0.0, 0.05), 2)
    assert spells(small, weld, twist, small) == [["a"], ["weld"], ["twist"], ["a"]]


def test_a_twist_an_upset_stretch_and_a_forged_corner_share_a_heat_with_nothing_else() -> None:
    """The one stands in the vise, beside the other all must be cold, a corner takes a heat or more: common practice."""
    twist = work("t", (0.0, 0.05), 3, "twist", whole=True)
    true, bend = work("t", (0.0, 0.05), 3, "straighten", start=1250.0), work("b", (0.06, 0.08), 3, "bend")
    assert [len(s) for s in spells(twist, replace(true, key="true"), bend)] == [2, 1]
    upset, punch = work("u", (0.0, 0.02), 3, "upset"), work("p", (0.03, 0.04), 3, "punch")
    assert spells(upset, punch) == [["u"], ["p"]]
    corner, other = (work(n, z, 3, "bend", case="sharp") for n, z in (("c", (0.0, 0.02)), ("d", (0.03, 0.05))))
    assert spells(corner, other) == [["c"], ["d"]]
    assert spells(replace(corner, case=""), replace(other, case="")) == [["c", "d"]]


def test_a_bend_is_not_told_of_each_of_several_heats_of_drawing() -> None:
    gives = given((work("a", (0.0, 0.05), 1),), LEAST_ZONE.value, SHOP).value
    draw = work("a", (0.0, 0.05), 1.4 * gives)
    assert spells(draw, work("b", (0.0, 0.05), 0.4 * gives, "bend")) == [["a"], ["b"]]
    assert spells(draw, work("b", (0.0, 0.05), 1.4 * gives)) == [["a", "b"]]


def test_a_twist_longer_than_the_fire_is_trued_in_its_own_heat() -> None:
    twist = work("t", (0.05, 0.25), 3, "twist", whole=True)
    assert spells(twist, replace(twist, key="true", does="straighten", whole=False)) == [["t", "true"]]


def test_a_red_to_brush_or_straighten_at_is_what_is_left_of_another_heat_but_not_of_a_weld() -> None:
    brush = work("brush", (0.0, 0.05), 2, "brush", start=1250.0)
    twist = work("twist", (0.0, 0.05), 5, "twist", whole=True)
    weld = work("weld", (0.0, 0.05), 1, "weld", start=1573.0, stop=1423.0, whole=True)
    assert spells(twist, brush) == [["twist", "brush"]]
    assert heats_of((twist, brush)) == (1423.0, 1073.0)
    assert spells(replace(weld, whole=False), brush) == spells(weld, brush) == [["weld"], ["brush"]]


def test_a_bend_comes_at_the_tail_of_a_heat_and_thin_metal_is_not_pulled_hotter_for_it() -> None:
    draw, bend = work("a", (0.0, 0.03), 3), work("b", (0.04, 0.05), 3, "bend", start=1323.0)
    assert spells(draw, bend) == [["a", "b"]]
    assert heats_of((draw, bend)) == (1423.0, 1073.0)
    fine = work("c", (0.04, 0.05), 3, "bend", start=1323.0, thin=0.0006)
    assert heats_of((draw, fine)) == (1423.0, 1073.0)  # bent when it has fallen to it: a bend burns nothing
    thin = work("c", (0.04, 0.05), 3, "taper", start=1323.0, thin=0.0006)
    assert spells(draw, thin) == [["a"], ["c"]]
    assert heats_of((draw, thin)) == (1323.0, 1073.0)


def test_cold_work_between_heats_is_a_turn_at_the_bench() -> None:
    cold = Work("file", "it", "file", seconds=sharp(30))
    assert spells(work("a", (0.0, 0.02), 3), cold, cold, work("b", (0.0, 0.02), 3)) == [["a"], ["file", "file"], ["b"]]


def test_a_stretch_longer_than_the_fire_is_heated_bit_by_bit() -> None:
    long = work("a", (0.0, 0.45), 3)
    bench = packed((long,), bench_of(bar(), SHOP))
    assert zone_of(SHOP) == ZONE.value == pytest.approx(6 * INCH, abs=0.003)
    assert bench.spells[0].times.value == 3  # 450 mm and a little beside it, 150 at a time
    wide = Shop(fire=Fire(longest=0.5))
    assert packed((long,), bench_of(bar(), wide)).spells[0].times.value == 1


def test_no_fire_heats_less_than_its_heart() -> None:
    """About 3 in: common practice. In the middle it reaches out both ways, at an end inward."""
    lying = Lying(bar())
    assert hot_zone((work("a", (0.3, 0.31), 3),), lying) == pytest.approx((0.3 - 0.0325, 0.31 + 0.0325), abs=2e-4)
    assert hot_zone((work("a", (0.0, 0.01), 3),), lying) == pytest.approx((0.0, LEAST_ZONE.value), abs=2e-4)


def test_heats_are_work_over_what_a_heat_gives_and_their_doubts_are_put_together() -> None:
    wants, gives = Spread(50.0, 25.0, 100.0, ("blows",)), Spread(20.0, 10.0, 30.0, ("anvil",))
    heats = heats_for(wants, gives)
    more = exp(hypot(log(2), log(2)))  # both are out by a factor 2 upward
    fewer = exp(-hypot(log(2), log(1.5)))
    assert (heats.value, heats.low, heats.high) == (3, -(-(2.5 * fewer) // 1), -(-(2.5 * more) // 1))
    assert heats.why == ("blows", "anvil")
    assert heats_for(sharp(21.0), sharp(20.0)).value == 1  # a tenth over is hurried
    assert heats_for(sharp(23.0), sharp(20.0)).value == 2
    assert heats_for(sharp(5.0), sharp(20.0), 3).value == 3


def test_the_carry_is_taken_off_what_a_heat_gives() -> None:
    one = (work("a", (0.0, 0.05), 1),)
    near, far = (given(one, 0.1, Shop(hand=Hand(carry=c))) for c in (1.0, 4.0))
    assert near.value - far.value == pytest.approx(3.0)


def test_an_anvil_that_takes_more_and_thinner_iron_leave_fewer_seconds() -> None:
    thick, thin = work("a", (0.0, 0.05), 1), work("b", (0.0, 0.05), 1, thin=0.0015)
    assert given((thick,), 0.1, SHOP).value > given((thin,), 0.1, SHOP).value
    assert given((thick, thin), 0.1, SHOP).value == given((thin,), 0.1, SHOP).value
    assert given((thick,), 0.1, Shop(hand=Hand(contact=150.0))).value < given((thick,), 0.1, SHOP).value


def test_a_ring_has_no_ends_and_is_held_in_tongs() -> None:
    ring = Work("ring: bend", "ring", "bend", hot=True, start=1323.0, stop=1073.0, thin=0.002, seconds=sharp(5))
    (spell,) = packed((ring,), Bench("ring", SHOP)).spells
    assert spell.zone == spell.now == (0.0, 0.0)
    assert spell.gives.value > 5


@pytest.mark.parametrize(
    ("zone", "end", "near"), [((0.05, 0.15), End.DATUM, 0.05), ((0.45, 0.55), End.OTHER, 24 * INCH - 0.55)]
)
def test_a_twist_is_told_from_the_nearer_end_whichever_stands_in_the_vise(
    zone: tuple[float, float], end: End, near: float
) -> None:
    (spell,) = packed((work("twist", zone, 5, "twist", whole=True),), bench_of(bar(), SHOP)).spells
    assert spell.hold.grip is Grip.VISE
    assert spell.told_from is end
    assert spell.now[0] == pytest.approx(near, abs=0.02)
    # on a longer bar there is no end to measure from where that goes on
    longer = bench_of(bar(), SHOP, Handle(end))
    (spell,) = packed((work("twist", zone, 5, "twist", whole=True),), longer).spells
    assert spell.told_from is (End.OTHER if end is End.DATUM else End.DATUM)
