"""The order of works against sequences that books print, and the rules one by one on works made by hand."""

from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.iron.section import Section
from bickern.making.heats.order import ordered
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import Grip, PiecePlan
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
      - {keep: 2, name: twisted}
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
    eye, shaft = work("curl", (0.0, 0.2), thin=0.001), work("draw", (0.2, 0.4), thin=0.005, name="shaft")
    turn = ordered((shaft, eye, eye_metal), 1.0)
    assert [w.key for w in turn.works] == ["draw eye metal", "curl", "draw shaft"]
    (given_way,) = turn.overruled
    assert (given_way.rule, given_way.first, given_way.then) == ("thick-before-thin", "draw shaft", "draw eye metal")
    assert set(given_way.stronger) == {"forged-before-eye", "eye-before-shaft"}


def test_the_stouter_end_is_forged_first_since_the_piece_is_held_by_it_afterwards() -> None:
    point = Section(Shape.ROUND, 0.002, 0.002)
    delicate = work("taper", (0.0, 0.2), thin=0.002, name="delicate", after=point)
    stout = work("draw", (0.8, 1.0), thin=0.004, name="stout")
    assert order_of(delicate, stout) == ["draw stout", "taper delicate"]
    alike = work("taper", (0.8, 1.0), thin=0.002, name="alike", after=point)
    assert order_of(alike, delicate) == ["taper delicate", "taper alike"]  # else the datum end is first
