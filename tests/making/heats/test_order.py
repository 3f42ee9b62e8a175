"""The order of works against sequences that books print, and the rules one by one on works made by hand."""

from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.iron.section import Section
from bickern.making.heats.near import speaks_of
from bickern.making.heats.order import ordered
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import Grip, PiecePlan
from bickern.making.heats.rules import PRECEDENCE
from bickern.making.shop import Shop
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.result import Work
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult

EXAMPLES = Path(__file__).parents[3] / "examples"


def planned(example: str, piece: str) -> PiecePlan:
    copy = reckon_file(EXAMPLES / f"{example}.yaml").copy
    assert copy is not None
    plan = plan_of(copy.pieces, copy.joints, copy.job.finish, copy.shop, copy.job.make)
    return next(p for p in plan.pieces if p.piece == piece)


def bar_of(text: str) -> BarResult:
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    bar = copy.pieces[0]
    assert isinstance(bar, BarResult)
    return bar


def told(plan: PiecePlan) -> list[str]:
    """What is done, in order, with what it is called."""
    return [f"{w.does} {w.name}".rstrip() for s in plan.spells for w in s.works]


def order_of(*works: Work, length: float = 1.0) -> list[str]:
    return [w.key for w in ordered(works, length).works]


def work(
    does: str, zone: tuple[float, float] = (0.0, 1.0), thin: float = 0.003, name: str = "", **rest: object
) -> Work:
    return Work(f"{does} {name}".rstrip(), "it", does, name, zone=zone, thin=thin, hot=True, **rest)  # type: ignore[arg-type]


# --- sequences in print -------------------------------------------------------------------------------------------


def test_a_hook_has_its_eye_first_then_the_taper_of_the_other_end_then_its_bend() -> None:
    """T. F. Googerty, Practical Forging and Art Smithing, 1915, hammock hook (read in the source): the end is heated
    and a loose eye formed, the other end is drawn to a taper, the hook is formed over the horn."""
    done = told(planned("crane-chain", "hook"))
    assert done.index("curl eye") < done.index("taper point") < done.index("bend hook bend")


def test_a_gate_hook_is_drawn_out_at_both_ends_before_it_is_bent() -> None:
    """Cyclopedia of Modern Shop Practice, 1906, vol. 2, forging shoulders (read in the source): eye and hook are bent
    up after both ends are drawn out. It speaks of the twist after that; here the bar is twisted while straight."""
    text = """
job: gate hook
units: in
pieces:
  hook:
    bar: 3/8 sq
    metal:
      - {as: 1/4 rd, over: 3, name: for the eye}
      - {as: 3/8 sq, over: 2, name: twisted}
      - {to: 1/8 rd, over: 3, name: point}
    path:
      - {eye: 1/2, turn: left, name: eye}
      - {straight: rest}
      - {bend: 90, inside radius: 1/4, turn: left, name: hook}
      - {straight: 1/2}
    twist: [{turns: 1, all of: twisted}]
"""
    bar = bar_of(text)
    done = [f"{w.does} {w.name}" for w in ordered(works_of_bar(bar, Shop()), bar.length).works]
    assert done.index("draw for the eye") < done.index("curl eye")
    assert max(done.index("draw for the eye"), done.index("taper point")) < done.index("bend hook")
    assert done.index("twist twisted") < done.index("bend hook")


def test_a_chain_link_is_bent_to_a_u_scarfed_and_welded_in_three_heats() -> None:
    """W. L. Ilgen, Forge Work, 1912, s. 80, and J. B. Stokes, Intermediate Blacksmithing, FAO 88/2, 1992, job 7 (both
    read in the source): bend, scarf, weld. Three heats a link: a smith's page, quoted by a secondary page, 1/4 sq."""
    plan = planned("crane-chain", "links")
    assert [w.does for s in plan.spells for w in s.works if w.hot] == ["bend", "scarf", "weld"]
    assert len([s for s in plan.spells if s.hot]) == 3
    assert plan.heats.low <= 3 <= plan.heats.high


def test_the_eye_of_a_hinge_is_made_before_its_strap_is_drawn() -> None:
    """T. F. Googerty, Practical Forging and Art Smithing, 1915: the eye of a hinge is always first (quoted by a
    secondary page)."""
    text = """
job: hinge
units: in
pieces:
  strap:
    bar: 1 x 1/4
    metal: [{keep: 4, name: for the eye}, {to: 1/2 x 1/8, over: 9, name: strap}]
    path: [{eye: 5/8, turn: up, name: eye}, {straight: rest}]
"""
    bar = bar_of(text)
    done = [f"{w.does} {w.name}" for w in ordered(works_of_bar(bar, Shop()), bar.length).works if w.hot]
    assert done[:2] == ["curl eye", "taper strap"]


def test_bends_begin_at_the_end_and_work_toward_the_middle() -> None:
    """T. F. Googerty, Practical Forging and Art Smithing, 1915, the pull with a lug (read in the source)."""
    inner, outer = work("bend", (0.3, 0.4), name="inner"), work("bend", (0.1, 0.2), name="outer")
    assert order_of(inner, outer) == ["bend outer", "bend inner"]


def test_a_twist_of_one_turn_and_a_half_in_three_inches_is_one_heat() -> None:
    """ABANA Controlled Hand Forging, lesson 5 (B. Fredell): 1/2 sq, 24 in of bar, 1 1/2 turns in 3 in beginning 2 in
    from the end, one heat (read in the source)."""
    text = """
job: twist
units: in
pieces:
  bar:
    bar: 1/2 sq
    metal: [{keep: 2, name: end}, {keep: 3, name: twisted}, {keep: 19, name: rest of it}]
    twist: [{turns: 1 1/2, all of: twisted}]
"""
    plan = plan_of((bar_of(text),), (), "", Shop()).pieces[0]
    (twist,) = [s for s in plan.spells if any(w.does == "twist" for w in s.works)]
    assert twist.times.value == twist.times.high == 1
    assert twist.wants.value <= twist.gives.value
    assert twist.hold.grip is Grip.VISE


# --- the eleven projects, as a smith would tell them ----------------------------------------------------------------


def test_the_leaf_hook_has_its_thick_pads_before_its_thin_stem_and_leaf_and_its_twist_before_its_bend() -> None:
    done = told(planned("leaf-coat-hook", "hook"))
    assert done.index("spread upper pad") < done.index("draw stem") < done.index("spread leaf")
    assert done.index("shoulder leaf") < done.index(
        "draw stem"
    )  # the leaf's metal is parted off before the stem is drawn
    assert done.index("spread lower pad") < done.index("taper hook taper")
    assert done.index("taper hook taper") < done.index("twist twisted part") < done.index("bend hook")
    assert done.index("spread upper pad") < done.index("punch upper screw") < done.index("bend hook")


def test_the_lantern_arm_is_twisted_straight_scrolled_and_then_bent_and_drilled_cold_at_the_last() -> None:
    done = told(planned("porch-lantern", "arm"))
    last = ["twist stem", "scroll scroll", "bend drop", "drill upper screw"]
    assert [done.index(d) for d in ("spread palm", "taper tip")] < [done.index(d) for d in last[:2]]
    assert [done.index(d) for d in last] == sorted(done.index(d) for d in last)


def test_the_ring_of_the_pull_is_welded_only_when_it_is_through_the_boss() -> None:
    """Its hole before the weld: a welded ring goes through nothing."""
    copy = reckon_file(EXAMPLES / "ring-pull.yaml").copy
    assert copy is not None
    plan = plan_of(copy.pieces, copy.joints, copy.job.finish, copy.shop)
    assert [p.piece for p in plan.pieces] == ["boss", "ring"]
    assert "weld" not in {w.does for p in plan.pieces for s in p.spells for w in s.works}
    assert [w.does for s in plan.joining for w in s.works] == ["thread", "weld"]


def test_the_tongs_have_boss_and_jaw_before_the_thin_rein() -> None:
    done = told(planned("bolt-tongs", "half"))
    assert max(done.index("spread boss"), done.index("draw jaw"), done.index("punch rivet hole")) < done.index(
        "taper rein"
    )


# --- rules on works made by hand --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "then"),
    [
        (work("upset", (0.2, 0.3)), work("draw", (0.3, 0.5))),
        (work("shoulder", (0.2, 0.3), name="a"), work("draw", (0.2, 0.5), name="a")),
        (work("draw", (0.2, 0.5)), work("punch", (0.3, 0.35))),
        (work("slit", (0.2, 0.3)), work("drift", (0.2, 0.3))),
        (work("punch", (0.2, 0.3)), work("bend", (0.3, 0.4))),
        (work("draw", (0.2, 0.5)), work("twist", (0.5, 0.7))),
        (work("twist", (0.5, 0.7)), work("bend", (0.1, 0.2))),
        (work("taper", (0.0, 0.2)), work("scroll", (0.0, 0.3))),
        (work("curl", (0.0, 0.2)), work("draw", (0.3, 0.5))),
        (work("scarf"), work("hoop")),
        (work("hoop"), work("weld")),
        (work("draw", (0.1, 0.2), thin=0.004), work("draw", (0.2, 0.3), thin=0.002, name="thin")),
        (work("bend", (0.1, 0.2)), work("straighten")),
        (work("bend", (0.1, 0.2)), work("drill", (0.5, 0.6))),
        (work("straighten"), work("brush")),
        (work("file"), work("wax or oil")),
    ],
    ids=lambda w: w.key,
)
def test_the_first_comes_first_whichever_way_they_are_told(first: Work, then: Work) -> None:
    assert order_of(first, then) == order_of(then, first) == [first.key, then.key]


def test_where_rules_meet_head_on_the_stronger_holds_and_it_is_told() -> None:
    """A thick shaft beside a thin eye: the eye is first all the same, and thick before thin gives way."""
    eye_metal = work("draw", (0.0, 0.2), thin=0.001, name="eye metal")
    eye, shaft = work("curl", (0.0, 0.2), thin=0.001), work("draw", (0.2, 0.34), thin=0.005, name="shaft")
    turn = ordered((shaft, eye, eye_metal), 1.0)
    assert [w.key for w in turn.works] == ["draw eye metal", "curl", "draw shaft"]
    (given_way,) = turn.overruled
    assert (given_way.rule, given_way.first, given_way.then) == ("thick-before-thin", "draw shaft", "draw eye metal")
    assert set(given_way.stronger) == {"forged-before-eye", "eye-before-shaft"}


def test_a_long_middle_is_drawn_before_what_is_thin_at_its_ends_a_short_one_is_not() -> None:
    """It takes heat after heat: common practice."""
    palm, split = work("spread", (0.0, 0.1)), work("split", (0.9, 1.0))
    eye, thin_eye = work("curl", (0.0, 0.1), thin=0.005), work("curl", (0.0, 0.1), thin=0.002)
    long, short = work("draw", (0.2, 0.8), thin=0.004), work("draw", (0.2, 0.34), thin=0.004)
    assert order_of(palm, split, long)[0] == "draw"
    assert order_of(palm, split, short)[0] == "spread"
    assert order_of(long, thin_eye) == ["draw", "curl"]
    assert order_of(long, eye) == ["curl", "draw"]  # a full eye does not burn: it stays first


def test_the_stouter_end_is_forged_first_since_the_piece_is_held_by_it_afterwards() -> None:
    point = Section(Shape.ROUND, 0.002, 0.002)
    delicate = work("taper", (0.0, 0.2), thin=0.002, name="delicate", after=point)
    stout = work("draw", (0.8, 1.0), thin=0.004, name="stout")
    assert order_of(delicate, stout) == ["draw stout", "taper delicate"]
    alike = work("taper", (0.8, 1.0), thin=0.002, name="alike", after=point)
    assert order_of(alike, delicate) == ["taper delicate", "taper alike"]  # else the datum end is first


# --- every row of the rules ---------------------------------------------------------------------------------------

CASES: dict[str, tuple[Work, Work]] = {
    "sheet-marked": (work("mark"), work("cut sheet")),
    "cut-before-marks": (work("cut bar"), work("mark")),
    "cut-first": (work("cut bar"), work("draw", (0.2, 0.4))),
    "mark-first": (work("mark"), work("punch", (0.2, 0.3))),
    "cut-before-forming": (work("deburr"), work("fold")),
    "oil-last": (work("rivet"), work("wax or oil")),
    "drift-after-slit": (work("slit", (0.2, 0.3)), work("drift", (0.2, 0.3))),
    "forged-before-split": (work("spread", (0.8, 1.0)), work("split", (0.95, 1.0))),
    "split-first": (work("split", (0.9, 1.0)), work("draw", (0.0, 0.1), child=("limb",))),
    "limb-before-its-weld": (work("taper", (0.2, 0.3), child=("limb",)), work("weld", (0.5, 0.6), name="limb")),
    "forged-before-scarf": (work("draw", (0.0, 0.2)), work("scarf", (0.0, 0.05))),
    "scarf-before-weld": (work("scarf", (0.95, 1.0)), work("weld", (0.0, 0.05))),
    "scarf-before-bending": (work("scarf", (0.95, 1.0)), work("bend", (0.2, 0.8))),
    "cut-off-before-its-end": (work("cut off", (0.97, 1.0), case="end"), work("taper", (0.8, 1.0))),
    "cut-off-after": (work("taper", (0.0, 0.2)), work("cut off", (0.97, 1.0), case="end")),
    "bent-before-weld": (work("curl", (0.0, 0.2)), work("weld", (0.0, 0.2))),
    "threaded-before-closed": (work("thread"), work("close ring")),
    "scarfed-before-threaded": (work("scarf"), work("thread")),
    "hole-before-ring": (work("punch", (0.2, 0.3)), work("thread")),
    "drill-before-rivet": (work("drill"), work("rivet")),
    "drawn-before-its-corner": (work("draw", (0.2, 0.8), name="leg"), work("upset", (0.4, 0.6), name="corner")),
    "upset-first": (work("upset", (0.2, 0.3)), work("draw", (0.3, 0.5))),
    "upset-before-bend": (work("upset", (0.2, 0.3)), work("bend", (0.22, 0.28))),
    "shoulder-first": (work("shoulder", (0.2, 0.22), name="a"), work("spread", (0.22, 0.5), name="a")),
    "set-down-before-drawing": (work("shoulder", (0.2, 0.3), name="a"), work("draw", (0.3, 0.5), name="b")),
    "forged-before-hole": (work("spread", (0.2, 0.5)), work("punch", (0.3, 0.35))),
    "forged-before-eye": (work("draw", (0.0, 0.3)), work("curl", (0.0, 0.2))),
    "eye-before-shaft": (work("curl", (0.0, 0.2)), work("taper", (0.3, 1.0), thin=0.009)),
    "middle-before-ends": (work("draw", (0.3, 0.9)), work("spread", (0.0, 0.2))),
    "forged-before-twist": (work("draw", (0.2, 0.5)), work("twist", (0.5, 0.7))),
    "forged-before-bends": (work("draw", (0.7, 0.9)), work("bend", (0.1, 0.2))),
    "hole-before-bend": (work("punch", (0.2, 0.3)), work("bend", (0.3, 0.4))),
    "twist-before-bends": (work("twist", (0.5, 0.7)), work("bend", (0.1, 0.2))),
    "ends-bent-first": (work("bend", (0.1, 0.2), name="outer"), work("bend", (0.3, 0.4), name="inner")),
    "weld-before-other-bends": (work("weld", (0.4, 0.5)), work("bend", (0.1, 0.2))),
    "trued-before-bends": (work("straighten", (0.5, 0.7), name="twisted"), work("hoop")),
    "thick-before-thin": (work("draw", (0.2, 0.3), name="stout"), work("draw", (0.0, 0.2), thin=0.002, name="thin")),
    "stem-before-its-leaf": (work("draw", (0.2, 0.3)), work("spread", (0.0, 0.2), case="outline")),
    "straightened-after": (work("bend", (0.1, 0.2)), work("straighten")),
    "twist-trued-after": (work("twist", (0.5, 0.7)), work("straighten", (0.5, 0.7), name="twisted")),
    "cold-after-hot": (work("bend", (0.1, 0.2)), work("drill", (0.5, 0.6))),
    "brush-in-the-last-heat": (work("cut off", (0.9, 1.0)), work("brush")),
}
"""For each row two works that it is meant for, written from what the row is for and not from what it says."""
CHAINED = "link-bent-then-scarfed"


@pytest.mark.parametrize("key", CASES)
def test_each_row_speaks_of_what_it_is_meant_for_and_only_one_way(key: str) -> None:
    (rule,) = [r for r in PRECEDENCE if r.key == key]
    first, then = CASES[key]
    assert speaks_of(rule, first, then, 1.0, chain=False)
    assert not speaks_of(rule, then, first, 1.0, chain=False)
    assert order_of(first, then) == order_of(then, first) == [first.key, then.key]


def test_no_row_is_without_its_pair_of_works() -> None:
    assert {r.key for r in PRECEDENCE} == {*CASES, CHAINED}
    (link,) = [r for r in PRECEDENCE if r.key == CHAINED]
    bend, scarf = work("bend"), work("scarf")
    assert speaks_of(link, bend, scarf, 0.0, chain=True)
    assert not speaks_of(link, bend, scarf, 0.0, chain=False)
    assert [w.key for w in ordered((scarf, bend), chain=True).works] == ["bend", "scarf"]
    assert [w.key for w in ordered((bend, scarf)).works] == ["scarf", "bend"]


@pytest.mark.parametrize(
    ("first", "then"),
    [
        (work("draw", (0.2, 0.3), thin=0.003, name="a"), work("draw", (0.0, 0.2), thin=0.0025, name="b")),
        (work("draw", (0.2, 0.3), name="a"), work("draw", (0.8, 1.0), thin=0.001, name="far end")),
        (work("curl", (0.0, 0.2)), work("draw", (0.1, 0.4))),
        (work("punch", (0.2, 0.3)), work("bend", (0.4, 0.5))),
        (work("bend", (0.1, 0.2)), work("straighten", (0.1, 0.3), name="twisted")),
        (work("taper", (0.8, 1.0)), work("cut off", (0.97, 1.0), case="end")),
        (work("bend", (0.1, 0.2)), work("cut off", (0.97, 1.0), case="bends")),
        (work("draw", (0.2, 0.3)), work("spread", (0.0, 0.2))),
        (work("weld", (0.0, 0.2)), work("curl", (0.0, 0.2))),
        (work("draw", (0.0, 0.2), child=("limb",)), work("draw", (0.0, 0.2))),
    ],
    ids=lambda w: f"{w.key} {w.case}",
)
def test_no_row_speaks_of_what_it_is_not_meant_for(first: Work, then: Work) -> None:
    """A little thinner, at the other end, on another limb, clear of one another, or told to wait for the cut."""
    speaking = {r.key for r in PRECEDENCE if speaks_of(r, first, then, 1.0, chain=False)}
    assert not speaking - {"forged-before-eye"}, speaking


def test_the_jaw_of_tongs_is_set_down_and_drawn_before_the_boss_beside_it_and_the_rein_last() -> None:
    """T. F. Googerty, Practical Forging and Art Smithing, 1915, and W. L. Ilgen, Forge Work, 1912, tongs (quoted): the
    jaw's shoulder first, then the boss, then the rein."""
    done = told(planned("bolt-tongs", "half"))
    turn = ["shoulder jaw", "draw jaw", "spread boss", "punch rivet hole", "shoulder rein", "taper rein"]
    assert [done.index(d) for d in turn] == sorted(done.index(d) for d in turn)


def test_a_twist_is_trued_before_its_bar_is_bent_to_a_hoop() -> None:
    text = """
job: basket handle
units: in
pieces:
  frame:
    bar: 3/8 sq
    closed: welded
    metal: [{keep: rest, name: bar}]
    path: [{hoop: {inside across: 6}, turn: left}]
    twist: [{turns: 3, over: 5, at: 10}]
"""
    done = told(plan_of((bar_of(text),), (), "", Shop()).pieces[0])
    turn = ["scarf datum end", "twist bar", "straighten bar", "hoop hoop", "weld joint", "straighten"]
    assert [d for d in done if d in turn] == turn
    assert done.index("scarf other end") < done.index("hoop hoop")


def test_a_branch_is_welded_on_before_its_bar_is_bent() -> None:
    text = """
job: branch
units: in
pieces:
  stem:
    bar: 1/2 rd
    metal: [{keep: 12, name: stem}, {to: 1/8 rd, over: 4, name: tip}]
    path: [{straight: 12}, {bend: 120, inside radius: 1, turn: left, name: curve}, {straight: rest}]
    weld on: {thorn: {at: 6, bar: 1/4 rd, metal: [{keep: 4}, {to: point, over: 2, name: thorn point}]}}
"""
    done = told(plan_of((bar_of(text),), (), "", Shop()).pieces[0])
    assert done.index("scarf thorn") < done.index("weld thorn") < done.index("bend curve")


def test_an_eye_at_the_end_is_turned_before_what_is_bent_farther_in_and_not_the_other_way() -> None:
    (rule,) = [r for r in PRECEDENCE if r.key == "ends-bent-first"]
    eye, hook = work("curl", (0.0, 0.1)), work("bend", (0.3, 0.4))
    assert speaks_of(rule, eye, hook, 1.0, chain=False)
    assert not speaks_of(rule, hook, work("curl", (0.4, 0.45)), 1.0, chain=False)


def test_a_twist_waits_for_the_cut_with_the_end_and_not_with_the_bends() -> None:
    (rule,) = [r for r in PRECEDENCE if r.key == "cut-off-after"]
    twist, end, bends = work("twist", (0.4, 0.5)), work("cut off", case="end"), work("cut off", case="bends")
    assert not speaks_of(rule, twist, end, 1.0, chain=False)
    assert speaks_of(rule, twist, bends, 1.0, chain=False)


def test_a_shoulder_is_not_a_heat_by_itself_while_the_eye_at_the_other_end_is_still_to_be_turned() -> None:
    text = """
job: fork
units: in
pieces:
  fork:
    bar: 1/2 sq
    metal: [{from: 1/4 rd, to: 1/2 sq, over: 6, name: handle}, {keep: 4}, {as: 1 x 1/4, over: 1, name: palm}]
    path: [{eye: 3/4, turn: up, name: eye}, {straight: rest}]
"""
    bar = bar_of(text)
    done = [f"{w.does} {w.name}" for w in ordered(works_of_bar(bar, Shop()), bar.length).works if w.hot]
    assert done == ["taper handle", "curl eye", "shoulder palm", "spread palm"]


def test_of_stretches_alike_in_thickness_the_one_at_the_end_is_forged_first() -> None:
    inner, outer = work("draw", (0.1, 0.2), name="inner"), work("draw", (0.0, 0.1), thin=0.0031, name="outer")
    assert order_of(inner, outer) == order_of(outer, inner) == ["draw outer", "draw inner"]
    right, end = work("draw", (0.8, 0.9), thin=0.0031, name="right"), work("draw", (0.9, 1.0), name="end")
    assert order_of(right, end) == ["draw end", "draw right"]
