"""The cut plan for bars: what is wanted, which bars may serve, where each cut falls, what is left, what to buy."""

import math
from collections import Counter
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.plan import plan_lengths
from bickern.geometry.pack.lengths.result import LengthPlan
from bickern.iron.section import Section
from bickern.making.shop import Cutting, Shop
from bickern.making.stock.alike import same_section
from bickern.making.stock.cuts import (
    Lack,
    SectionCuts,
    drop_of,
    plan_section,
    saw_of,
    too_long_to_buy,
    uses_of,
    with_lacks,
)
from bickern.making.stock.groups import bar_groups
from bickern.making.stock.rack import StockBar
from bickern.making.stock.wants import ToCut, Want, wanted
from bickern.measure.money import Money
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.tracks import BarSpec, Metal
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointRules, JointSpec
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import ChainSpec, Closing, RingRules, RingSpec

SQ = Section(Shape.SQUARE, 3 / 8 * INCH, 3 / 8 * INCH)
RD = Section(Shape.ROUND, 5 / 16 * INCH, 5 / 16 * INCH)
NO_KERF = Cutting(kerf=0.0)


def solve(cuts: list[Cut], bars: list[Bar], saw: Saw) -> LengthPlan:
    return plan_lengths(cuts, bars, saw)


def want(length: float, count: int = 1, key: str = "job/hook", **more: object) -> Want:
    return Want(key, key.rpartition("/")[2], "Job", SQ, "S235JR", length, count, **more)


def bar(name: str, length: float, **more: object) -> StockBar:
    told = {"steel": "S235JR", "coating": "none", "version": 1} | more
    return StockBar(name, SQ, length, **told)


def planned(wants: list[Want], bars: list[StockBar], cutting: Cutting = NO_KERF) -> SectionCuts:
    return plan_section(wants, bars, frozenset(), cutting, solve)


def per_bar(plan: SectionCuts) -> dict[str, int]:
    return {cut.stock.id: len(cut.offs) for cut in plan.bars}


# ---- how many cuts, how many short


@pytest.mark.parametrize(("each", "kerf"), [(6.875, 0.0), (6.875, 0.0025 / INCH), (7.0625, 0.0), (7.0625, 0.1)])
def test_twenty_four_hooks_from_five_bars_are_twenty_one(each: float, kerf: float):
    """72, 38 1/2, 22, 15 and 9 in give 10 + 5 + 3 + 2 + 1 hooks of 6 7/8 in: whole numbers, done by hand.

    Of 7 1/16 in, which is what the tool cuts once it counts the fire, they give as many, with a saw or without.
    """
    bars = [bar(f"B{i}", inches * INCH) for i, inches in enumerate((72, 38.5, 22, 15, 9), start=1)]
    plan = planned([want(each * INCH, 24)], bars, Cutting(kerf=kerf * INCH))
    assert per_bar(plan) == {"B1": 10, "B2": 5, "B3": 3, "B4": 2, "B5": 1}
    assert [(lack.want.key, lack.count) for lack in plan.lacks] == [("job/hook", 3)]
    assert plan.proven


def test_an_offcut_goes_before_a_whole_bar_and_a_long_drop_is_kept():
    bars = [bar("B1", 6.0), bar("B2", 0.62, offcut=True), bar("B3", 1.4, offcut=True)]
    plan = planned([want(0.6)], bars)
    assert per_bar(plan) == {"B2": 1}
    cut = planned([want(0.6)], bars[:1]).bars[0]
    assert cut.kept
    assert drop_of(cut)[0].length == pytest.approx(5.4, abs=1e-6)


def test_of_two_bars_alike_the_offcut_is_cut():
    plan = planned([want(0.5)], [bar("B1", 1.0), bar("B2", 1.0, offcut=True)])
    assert per_bar(plan) == {"B2": 1}


def test_steel_that_nobody_knows_is_used_last():
    bars = [bar("B1", 1.0, steel=""), bar("B2", 1.3)]
    plan = plan_section([want(0.9)], bars, frozenset({"B1"}), NO_KERF, solve)
    assert per_bar(plan) == {"B2": 1}


# ---- metal is conserved


lengths = st.integers(40, 700).map(lambda mm: mm / 1000)


@settings(max_examples=40)
@given(
    st.lists(st.tuples(lengths, st.integers(1, 4)), min_size=1, max_size=4),
    st.lists(st.integers(100, 2000).map(lambda mm: mm / 1000), min_size=1, max_size=5),
    st.sampled_from([0.0, 0.001, 0.0025]),
    st.sampled_from([0.0, 0.03]),
    st.booleans(),
)
def test_cuts_kerfs_and_drop_are_the_bar(
    cuts: list[tuple[float, int]], there: list[float], kerf: float, grip: float, hot: bool
):
    """Each bar: its lengths, a kerf for each cut that leaves something behind it, and the drop are its whole length."""
    cutting = Cutting(kerf=kerf, grip=grip, hot=hot, dress=0.004)
    wants = [want(length, count, f"job/{i}") for i, (length, count) in enumerate(cuts)]
    plan = planned(wants, [bar(f"B{i}", length) for i, length in enumerate(there, start=1)], cutting)
    lost = 0.0 if hot else kerf
    placed = Counter(off.want.key for cut in plan.bars for off in cut.offs)
    short = {lack.want.key: lack.count for lack in plan.lacks}
    assert {w.key: placed[w.key] + short.get(w.key, 0) for w in wants} == {w.key: w.count for w in wants}
    assert len({cut.stock.id for cut in plan.bars}) == len(plan.bars)
    for cut in plan.bars:
        metal = sum(off.want.length + (0.004 if hot else 0.0) for off in cut.offs)
        kerfs = [len(cut.offs) * lost, (len(cut.offs) - 1) * lost]
        whole = [metal + sawn + cut.drop for sawn in kerfs]
        assert min(abs(one - cut.stock.length) for one in whole) < 2e-6 * (len(cut.offs) + 1)
        assert cut.drop >= grip - 1e-9
        assert cut.kept == (cut.drop >= cutting.least_drop)


def test_marks_run_from_one_end_with_the_kerf_between():
    cut = planned([want(0.1, 3)], [bar("B1", 0.5)], Cutting(kerf=0.002)).bars[0]
    assert [(off.start, off.end) for off in cut.offs] == [
        (pytest.approx(a), pytest.approx(b)) for a, b in ((0.0, 0.1), (0.102, 0.202), (0.204, 0.304))
    ]


def test_cut_hot_no_kerf_is_lost_but_each_end_is_dressed():
    cutting = Cutting(hot=True, dress=0.004, kerf=0.0025)
    assert saw_of(cutting).kerf == 0.0
    assert per_bar(planned([want(0.1, 10)], [bar("B1", 1.04)], cutting)) == {"B1": 10}
    assert per_bar(planned([want(0.1, 10)], [bar("B1", 1.039)], cutting)) == {"B1": 9}


def test_what_the_vise_holds_is_not_cut():
    cutting = Cutting(kerf=0.0, grip=0.05)
    assert per_bar(planned([want(0.1, 10)], [bar("B1", 1.0)], cutting)) == {"B1": 9}


def test_bars_are_told_place_by_place_and_there_by_number():
    """Whoever cuts walks the rack once; B9 hangs before B12."""
    there = (("B12", "left wall"), ("B9", "left wall"), ("B1", "yard"), ("B100", "left wall"))
    plan = planned([want(0.9, 4)], [bar(name, 1.0, place=place) for name, place in there])
    assert [cut.stock.id for cut in plan.bars] == ["B9", "B12", "B100", "B1"]


# ---- what goes back, what is bought


def test_a_drop_is_what_its_bar_was_and_worth_its_share():
    told = bar("B7", 2.0, place="left wall", price=Money(Decimal("8.00"), "EUR"), remark="scaled")
    cut = planned([want(0.5)], [told]).bars[0]
    (drop,) = drop_of(cut)
    assert (drop.id, drop.of, drop.offcut, drop.place, drop.remark) == ("", "B7", True, "left wall", "scaled")
    assert drop.price == Money(Decimal("6.00"), "EUR")
    (use,) = uses_of([planned([want(0.5)], [told])], lambda off: off.want.name)
    assert (use.id, use.version, use.cuts, use.left) == ("B7", 1, ("hook",), (drop,))


def test_a_drop_too_short_to_keep_does_not_go_back():
    cut = planned([want(0.95)], [bar("B1", 1.0)]).bars[0]
    assert not cut.kept
    assert drop_of(cut) == ()


def test_a_drop_of_just_the_least_length_is_kept_though_its_float_is_a_hair_under_it():
    """52 mm as 52 x 0.001 is 0.052000000000000005, and the drop is 0.052: a plan that counts it must keep it."""
    least = 52 * 0.001
    plan = planned([want(0.5)], [bar("B1", 0.552)], Cutting(kerf=0.0, least_drop=least))
    assert plan.bars[0].drop < least
    assert plan.cost == pytest.approx(552 - 900 * 0.052)  # the drop was counted as one that is kept
    assert plan.bars[0].kept
    assert len(drop_of(plan.bars[0])) == 1


def test_what_is_short_is_bought_in_the_dealers_lengths():
    cutting = Cutting(kerf=0.0, lengths=(3.0, 6.0))
    plan = planned([want(0.7, 10)], [bar("B1", 1.5)], cutting)
    assert per_bar(plan) == {"B1": 2}
    assert sum(buy.count * math.floor(buy.length / 0.7) for buy in plan.buy) >= 8
    assert {buy.length for buy in plan.buy} == {6.0}  # eight of 0.7 come out of one bar of 6 m, and of two of 3 m
    assert plan.metres == pytest.approx(5.6)


def test_no_dealer_sells_it_so_long():
    cutting = Cutting(kerf=0.0, lengths=(3.0,))
    plan = planned([want(4.0)], [], cutting)
    assert plan.buy == ()
    assert [w.length for w in too_long_to_buy(plan, cutting)] == [4.0]


def test_metres_to_buy_count_a_kerf_for_each_cut_and_the_grip_shortens_what_is_sold():
    """Ten of 0.7 m and ten kerfs of 3 mm are 7.03 m; 2.96 m do not come out of 3 m of which 50 mm are held."""
    assert planned([want(0.7, 10)], [], Cutting(kerf=0.003)).metres == pytest.approx(7.03)
    held = Cutting(kerf=0.0, grip=0.05, lengths=(3.0,))
    plan = planned([want(2.96)], [], held)
    assert plan.buy == ()
    assert [w.length for w in too_long_to_buy(plan, held)] == [2.96]


def test_less_is_short_once_other_bars_make_it():
    cutting = Cutting(kerf=0.0, lengths=(1.0,))
    plan = planned([want(0.3, 7)], [], cutting)
    assert [(buy.length, buy.count) for buy in plan.buy] == [(1.0, 3)]
    less = with_lacks(plan, [Lack(plan.lacks[0].want, 2)], cutting, solve)
    assert [(buy.length, buy.count) for buy in less.buy] == [(1.0, 1)]


# ---- which bars may serve


def test_coated_and_other_bars_are_left_out_and_the_coated_one_is_told():
    bars = [
        bar("B1", 1.0, coating="galvanised", place="yard"),
        bar("B2", 1.0),
        bar("B3", 1.0, steel="304"),
        StockBar("B4", RD, 1.0, "S235JR", "none"),
        bar("B5", 1.0, steel="A36"),
        bar("B6", 1.0, steel=""),
        bar("B7", 1.0, coating=""),
    ]
    (group,) = bar_groups([want(0.5)], bars, unknown=False)
    assert [one.id for one in group.stock] == ["B2", "B5", "B7"]
    told = {f.name: f.says for f in group.findings}
    assert "B1 (yard) is refused" in told["stock-refused"]
    assert "galvanised" in told["stock-refused"]
    assert "B6" in told["stock-steel-unknown"]
    assert {(name, said.name) for name, said in group.remarks} == {
        ("B5", "stock-other-grade"),
        ("B7", "stock-doubtful"),
    }


def test_unknown_steel_serves_where_the_shop_allows_it():
    (group,) = bar_groups([want(0.5)], [bar("B6", 1.0, steel="")], unknown=True)
    assert [one.id for one in group.stock] == ["B6"]
    assert group.unknown == frozenset({"B6"})


def test_coated_bar_serves_cold_work_that_asks_for_it_and_nothing_else():
    bars = [bar("B1", 1.0, coating="galvanised"), bar("B2", 1.0)]
    cold = want(0.5, key="job/bracket", hot=False, coated=True)
    plain, coated = bar_groups([want(0.5, hot=False), cold], bars, unknown=False)
    assert [one.id for one in plain.stock] == ["B2"]
    assert plain.findings[0].name == "stock-left-out"
    assert [one.id for one in coated.stock] == ["B1"]


def test_no_bar_is_in_two_groups():
    """Mild grades share their bars; tool steel and another section have their own."""
    wants = [
        want(0.5),
        Want("b", "b", "Job", SQ, "A36", 0.5, 1),
        Want("c", "c", "Job", SQ, "W1", 0.5, 1),
        Want("d", "d", "Job", RD, "S235JR", 0.5, 1),
    ]
    bars = [bar("B1", 1.0), bar("B2", 1.0, steel="W1"), StockBar("B3", RD, 1.0, "mild", "none")]
    groups = bar_groups(wants, bars, unknown=False)
    assert [sorted(w.key for w in g.wants) for g in groups] == [["b", "job/hook"], ["c"], ["d"]]
    assert [[one.id for one in g.stock] for g in groups] == [["B1"], ["B2"], ["B3"]]


def test_a_flat_is_one_section_however_it_lies_and_a_near_size_is_none():
    flat = Section(Shape.FLAT, 0.025, 0.006)
    assert same_section(flat, Section(Shape.FLAT, 0.006, 0.025))
    assert not same_section(flat, Section(Shape.FLAT, 0.0254, 0.00635))
    assert not same_section(SQ, RD)


# ---- what jobs want


def bar_result(**more: object):  # type: ignore[no-untyped-def]
    told = {"metal": (Metal(0.2),)} | more
    return reckon_bar(BarSpec("arm", SQ, "S235JR", **told), BarRules(), 7850.0).value


def ring_result(**more: object):  # type: ignore[no-untyped-def]
    return reckon_ring(RingSpec("links", RD, "S235JR", inside_across=0.02, **more), RingRules(), 7850.0).value


def test_a_chain_is_cut_link_by_link():
    ring = ring_result(inside_long=0.035, closing=Closing.WELDED, chain=ChainSpec(links=13))
    (one,) = wanted("Chain", "chain", 2, [ToCut(ring, "links", 26, True)], (), Shop()).bars
    assert (one.key, one.count, one.length) == ("chain/links", 26, ring.cut_this)


def test_wound_rings_are_one_length_of_wire_for_each_set():
    ring = ring_result(wound=True, make=12)
    (one,) = wanted("Rings", "rings", 3, [ToCut(ring, "links", 36, False)], (), Shop()).bars
    assert one.count == 3
    assert ring.coil.wire <= one.length <= ring.coil.wire + Shop().ring.tape
    assert one.length > 12 * ring.bare
    assert "12 rings" in one.says


@pytest.mark.parametrize(
    ("spec", "count", "bought"),
    [
        (JointSpec(JointKind.RIVET, ("a", "b"), size=0.006, grip=0.01, number=4), 8, True),
        (JointSpec(JointKind.COLLAR, ("a", "b"), section=Section(Shape.FLAT, 0.012, 0.003), number=2), 4, False),
        (JointSpec(JointKind.WRAP, ("a", "b"), section=RD, number=5), 2, False),
        (JointSpec(JointKind.PIN, ("a", "b"), size=0.006, grip=0.01), 2, False),
    ],
    ids=lambda given: str(given.kind) if isinstance(given, JointSpec) else "",
)
def test_metal_of_joints_is_cut_too(spec: JointSpec, count: int, bought: bool):
    joint = reckon_joint(spec, JointRules(), 7850.0, 0.01, 0.05).value
    assert joint is not None
    (one,) = wanted("Job", "job", 2, (), [joint], Shop()).bars
    assert (one.count, one.bought) == (count, bought)
    assert one.length >= joint.metal > 0
    tape = Shop().bar.tape
    assert one.length / tape == pytest.approx(round(one.length / tape))  # on a mark: what is told is what is cut
    if spec.kind is not JointKind.RIVET:
        assert one.length < joint.metal + tape


def test_a_rivet_from_plain_bar_takes_metal_for_its_first_head():
    """A snap head of 1.75 d x 0.6 d is a slice of a ball: pi h (3 a^2 + h^2)/6, in lengths of the shank pi d^2/4.

    Newnes, Mechanical Engineer's Pocket Book, 3rd ed., s. 4.2, read in the source, for the head; exact mathematics for
    the slice.
    """
    d = 0.006
    joint = reckon_joint(JointSpec(JointKind.RIVET, ("a", "b"), size=d, grip=0.01), JointRules(), 7850.0, 0.01).value
    assert joint is not None
    exact = Shop(bar=replace(Shop().bar, tape=0.0))
    (one,) = wanted("Job", "job", 1, (), [joint], exact).bars
    a, h = 1.75 * d / 2, 0.6 * d
    head = math.pi * h * (3 * a * a + h * h) / 6 / (math.pi * d * d / 4)
    assert one.length - joint.metal == pytest.approx(head, rel=1e-6)


def test_tenons_welds_rings_and_screws_take_no_bar_of_their_own():
    for kind in (JointKind.TENON, JointKind.WELD, JointKind.SCREW):
        spec = JointSpec(kind, ("a", "b"), size=0.006, grip=0.01)
        joint = reckon_joint(spec, JointRules(), 7850.0, 0.01).value
        assert joint is not None
        assert wanted("Job", "job", 1, (), [joint], Shop()).bars == ()


def test_names_alike_get_keys_unlike():
    result = bar_result()
    cuts = [ToCut(result, "arm", 1, True), ToCut(result, "arm", 1, True)]
    assert [w.key for w in wanted("Job", "job", 1, cuts, (), Shop()).bars] == ["job/arm", "job/arm (2)"]
