"""What must hold for the plan of every bar: the trade's rules kept, every work done once, nothing held in the fire.

The rows of `rules.PRECEDENCE` are read here afresh, by plain intervals, and held against the order that came out.
"""

import os
from collections import Counter
from itertools import pairwise
from math import pi
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bickern.desk.reckon import reckon_file
from bickern.iron.section import POINT, Section, hydraulic
from bickern.making.heats.handle import handled
from bickern.making.heats.order import Overruled, ordered
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import End, Grip, Plan, Spell
from bickern.making.heats.rules import EVERYTHING, PRECEDENCE, Near, Precedence
from bickern.making.shop import Fire, Shop
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.result import Work
from bickern.measure.finding import stopping
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar import tracks as t
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.stage import Done, stage_of

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
BLACK = 700.0 + 273.15
"""No steel is worked hot below this [K]."""
HAIR = 1e-6
BENT = ("bend", "scroll", "hoop")

SIZES = st.integers(3, 14).map(lambda n: n * INCH / 16)
LENGTHS = st.floats(0.75, 6.0).map(lambda x: x * INCH)
EVEN = st.builds(lambda shape, x: Section(shape, x, x), st.sampled_from([Shape.SQUARE, Shape.ROUND]), SIZES)
FLATS = st.builds(lambda w, x: Section(Shape.FLAT, max(w, x), min(w, x)), SIZES, SIZES)
FORGED = st.one_of(EVEN, FLATS)


@st.composite
def stretch(draw: st.DrawFn, name: str, *, last: bool) -> t.Metal:
    """Kept, drawn, tapering, set down, or an end with a point or an outline."""
    kind = draw(st.sampled_from(["keep", "keep", "as", "to", "set down", *(["point", "leaf"] if last else [])]))
    long, goal = draw(LENGTHS), t.SectionGoal(draw(FORGED))
    if kind == "keep":
        return t.Metal(long, name=name)
    if kind == "leaf":
        return t.Metal(long, outline=t.EndOutline(t.EndShape.LEAF, draw(SIZES) * 2, draw(SIZES) / 4), name=name)
    if kind == "as":
        return t.Metal(long, start=goal, name=name)
    if kind == "set down":
        return t.Metal(long, start=goal, shoulder=long * draw(st.floats(0.1, 0.5)), name=name)
    return t.Metal(long, end=t.SectionGoal(POINT) if kind == "point" else goal, name=name)


@st.composite
def path(draw: st.DrawFn) -> tuple[t.PathLeg, ...]:
    """Perhaps an eye or a scroll first, then bends with straights between."""
    first = draw(st.sampled_from(["", "eye", "scroll"]))
    legs: list[t.PathLeg] = []
    if first == "eye":
        legs.append(t.EyeLeg(draw(st.floats(0.75, 2.0)) * INCH, welded=draw(st.booleans()), name="eye"))
    if first == "scroll":
        legs.append(t.ScrollLeg(1.0, 0.5 * INCH, 1.5 * INCH, name="scroll"))
    for i in range(draw(st.integers(0, 3))):
        corner = draw(st.sampled_from([t.Corner.NONE, t.Corner.NONE, t.Corner.UPSET]))
        legs += [
            t.StraightLeg(draw(st.floats(0.5, 3.0)) * INCH),
            t.BendLeg(draw(st.floats(0.3, pi)), draw(st.floats(0.25, 2.0)) * INCH, corner=corner, name=f"bend {i}"),
        ]
    return (*legs, t.StraightLeg(t.Blank.REST))


@st.composite
def bars(draw: st.DrawFn) -> BarResult:
    """A bar that could be asked for: nothing that was found stops it."""
    stock, number = draw(FORGED), draw(st.integers(1, 4))
    metal = tuple(draw(stretch(f"part {i}", last=i == number - 1)) for i in range(number))
    twists = tuple(
        t.Twist(1.0, None, t.Place(t.Anchor.START_OF, f"part {i}"))
        for i in range(number)
        if draw(st.integers(0, 3)) == 0
    )
    by = st.sampled_from(list(t.HoleBy))
    holes = tuple(
        t.Hole(draw(SIZES) / 2, draw(by), t.Place(t.Anchor.MIDDLE_OF, f"part {i}"), name=f"hole {i}")
        for i in range(number)
        if draw(st.integers(0, 2)) == 0
    )
    limbs = ("one", "other") if metal[-1].outline is None and draw(st.integers(0, 4)) == 0 else ()
    branches = tuple(t.Branch(n, t.BarSpec(n, None, "mild", (draw(stretch("limb", last=True)),))) for n in limbs)
    steel = draw(st.sampled_from(["mild", "1045", "W1"]))
    spec = t.BarSpec(
        "it",
        stock,
        steel,
        metal,
        draw(path()),
        twists,
        holes,
        branches=branches,
        grip=draw(st.sampled_from([0.0, 0.08])),
    )
    result = reckon_bar(spec, BarRules(), 7850.0).value
    assume(result is not None)
    assert result is not None
    assume(not stopping(result.findings))
    return result


def meant(rule: Precedence, a: Work, b: Work, length: float, *, chain: bool = False) -> bool:
    """Whether the row says that `a` comes before `b`: the row's words read once more, and otherwise."""
    first = rule.first == EVERYTHING or a.does in rule.first
    then = rule.then == EVERYTHING or b.does in rule.then
    if not (first and then) or (rule.first == EVERYTHING and a.does in rule.then) or a.key == b.key:
        return False
    same = a.child == b.child
    whole = a.zone[0] == a.zone[1] or b.zone[0] == b.zone[1]
    gap = max(a.zone[0], b.zone[0]) - min(a.zone[1], b.zone[1])
    halves = [(w.zone[0] + w.zone[1]) / 2 for w in (a, b)]
    one_end = same and (halves[0] <= length / 2) == (halves[1] <= length / 2)
    fine = [min(w.thin, hydraulic(w.after)) if w.after else w.thin for w in (a, b)]
    outer = [min(x, length - x) for x in halves]
    return {
        Near.PIECE: same or b.child == (),
        Near.OWN: same and a.name == b.name,
        Near.STRETCH: same and (whole or gap < -HAIR),
        Near.BESIDE: same and (whole or gap <= HAIR),
        Near.AROUND: same and a.name != b.name and a.zone[0] < halves[1] < a.zone[1],
        Near.APART: same and not whole and gap >= -HAIR,
        Near.SAME_END_THINNER: one_end and fine[1] < 0.7 * fine[0],
        Near.OUTLINE: same and (whole or gap <= HAIR) and b.case == "outline",
        Near.TRUED: same and truing(a),
        Near.BUT_TRUED: same and (whole or gap < -HAIR) and not (truing(b) and a.does in BENT),
        Near.BEFORE_CUT: (same or b.child == ()) and not waits(a, b),
        Near.AFTER_CUT: waits(b, a),
        Near.SAME_END_OUTWARD: one_end and outer[0] < outer[1] - HAIR,
        Near.LIMB: len(b.child) > len(a.child) and b.child[: len(a.child)] == a.child,
        Near.OF_LIMB: a.child != () and (same or b.name == a.child[-1]),
        Near.LINK: chain,
        Near.JOINED: a.piece == b.piece or a.piece in b.with_pieces,
        Near.MIDDLE: same and gap >= -HAIR and long_middle(a, length) and thin_end(b, length, fine[1] < 0.7 * fine[0]),
    }[rule.where]


def long_middle(work: Work, length: float) -> bool:
    """More than six inches, with bar on both sides of it."""
    start, end = work.zone
    return start > HAIR and end < length - HAIR and end - start > 0.150


def thin_end(work: Work, length: float, thinner: bool) -> bool:
    """Whether this is made of an end, and comes out spread, split or thinner."""
    at_end = work.zone[1] > work.zone[0] and (work.zone[0] <= HAIR or work.zone[1] >= length - HAIR)
    return at_end and (work.does in ("spread", "split") or thinner)


def truing(work: Work) -> bool:
    return work.hot and work.does == "straighten" and work.name != ""


def waits(work: Work, cut: Work) -> bool:
    """Whether a piece is cut off its longer bar before this is done to it: read off `Work.case` of the cut."""
    if not cut.case or not work.hot or work.child[: len(cut.child)] != cut.child:
        return False
    same = work.child == cut.child
    if cut.case == "scarf":
        return same and work.does == "scarf" and min(work.zone[1], cut.zone[1]) - max(work.zone[0], cut.zone[0]) > HAIR
    shared = min(work.zone[1], cut.zone[1]) - max(work.zone[0], cut.zone[0])
    here = same and work.zone[1] > work.zone[0] and shared > HAIR
    late = work.does in BENT or (same and work.does == "weld") or (here and work.does == "curl")
    return late or (cut.case == "end" and (here or work.does == "twist" or truing(work)))


def check_rules(works: list[Work], length: float, overruled: tuple[Overruled, ...]) -> None:
    """Every pair that a row speaks of stands as it says, or stronger rows are told that hold in its stead."""
    rank = {rule.key: i for i, rule in enumerate(PRECEDENCE)}
    given_way = {(o.rule, o.first, o.then): o.stronger for o in overruled}
    for rule in PRECEDENCE:
        for i, a in enumerate(works):
            for b in works[:i]:
                if meant(rule, a, b, length):  # a stands after b, and should stand before
                    stronger = given_way.get((rule.key, a.key, b.key), ())
                    assert stronger, (rule.key, a.key, b.key)
                    assert all(rank[key] <= rank[rule.key] for key in stronger)


def hot_spells(plan: Plan) -> list[Spell]:
    return [s for spells in (*(p.spells for p in plan.pieces), plan.joining, plan.finish) for s in spells if s.hot]


def check_handle(result: BarResult, plan: Plan) -> None:
    """A longer bar is a handle until it is cut off; no eye or scroll is turned at the end where it goes on."""
    for spell in hot_spells(plan):
        if spell.hold.grip is not Grip.LONGER:
            continue
        assert not any(key.endswith("cut off") for key in spell.done_before if not spell.works[0].child)
        for work in spell.works:
            turned = work.zone[1] >= result.length - HAIR and work.zone[0] > HAIR  # at the other end
            at_end = work.zone[0] <= HAIR if spell.hold.end is End.DATUM else turned
            assert work.child or not (at_end and work.does in ("curl", "scroll")), work.key


def check_once(result: BarResult, plan: Plan, shop: Shop) -> list[Work]:
    """Every work stands in the plan once; a piece on a longer bar is cut off it in place of being cut to length."""
    done = [w for s in plan.pieces[0].spells for w in s.works]
    keys = Counter((w.key, w.case) for w in done)
    ways = list(handled(result, works_of_bar(result, shop), shop))
    told = [w for w in ways if Counter((x.key, x.case) for x in w.works) == keys]
    assert max(keys.values()) == 1
    turns = [ordered(way.works, result.length) for way in told]  # one for each end that the bar may go on at
    turn = next(t for t in turns if [w.key for w in t.works] == [w.key for w in done])
    check_rules(done, result.length, turn.overruled)
    return done


def check_heats(plan: Plan) -> None:
    """No heat is lower than a red, none is asked to give more than it has, and they are numbered through."""
    number = 1
    for spell in hot_spells(plan):
        assert all(w.hot for w in spell.works)
        assert spell.start > spell.stop >= BLACK
        assert spell.gives.value > 0
        assert spell.times.low >= 1
        assert spell.number == number
        number += round(spell.times.value)
        if any(w.whole for w in spell.works):
            assert spell.times.value == 1
            assert sum(w.whole for w in spell.works) == 1
        trued = all(w.does == "straighten" for w in spell.works)  # left off when the red goes
        if spell.times.value == 1 and len(spell.works) > 1 and not trued:
            assert spell.wants.value <= 1.1 * spell.gives.value + HAIR  # a tenth over is hurried, no heat of its own


def check_held(result: BarResult, plan: Plan, shop: Shop) -> None:
    """What is held is cold metal of the bar, unless it was told that nothing is left to hold."""
    unheld = {f.says.split(": ")[1] for f in plan.findings if f.name == "nothing-to-hold"}
    by_key = {w.key: w for s in plan.pieces[0].spells for w in s.works}
    for spell in hot_spells(plan):
        if (
            spell.hold.grip is Grip.LONGER
            or spell.works[0].child
            or spell.now[1] - spell.now[0] > 0.150 + HAIR
            or spell.hold.grip is Grip.VISE
        ):
            continue
        if all(w.does in ("straighten", "brush") for w in spell.works):
            continue  # at a red, small pieces are taken red as they are
        last = spell.works[-1]
        if spell.hold.end is End.NEITHER:
            assert f"{last.does} {last.name}".rstrip() in unheld
            continue
        before = [by_key[key] for key in spell.done_before if not by_key[key].child]
        done = Done(
            *(frozenset(i for w in before for i in getattr(w, f)) for f in ("runs", "bends", "twists", "holes"))
        )
        length = stage_of(result, done).bar.runs[-1].end
        assert spell.hold.end is not spell.told_from  # it is told from the end that is in the fire
        assert spell.hold.at <= length - spell.now[1] + HAIR
        assert spell.hold.section is not None


@given(bars())
@settings(max_examples=120 * OFTEN, deadline=None)
def test_the_rules_of_the_trade_are_kept_and_every_work_is_done_once(result: BarResult) -> None:
    shop = Shop()
    plan = plan_of((result,), (), "", shop)
    check_once(result, plan, shop)
    check_heats(plan)
    check_held(result, plan, shop)
    check_handle(result, plan)


@given(bars(), st.floats(0.05, 0.4), st.floats(0.02, 0.2))
@settings(max_examples=40 * OFTEN, deadline=None)
def test_any_fire_gives_a_plan(result: BarResult, longest: float, opening: float) -> None:
    shop = Shop(fire=Fire(longest=longest, opening=opening))
    plan = plan_of((result,), (), "wire brush at red, wax", shop)
    check_heats(plan)
    for spell in hot_spells(plan):
        parts = [w for w in spell.works if w.zone[1] > w.zone[0] and w.does not in ("straighten", "brush")]
        if len(parts) > 1:
            assert spell.now[1] - spell.now[0] <= max(longest, 0.0) + HAIR


@given(bars(), st.sampled_from(["galvanised", "painted", "sealed tube", "something blue"]))
@settings(max_examples=25 * OFTEN, deadline=None)
def test_nothing_coated_or_unknown_goes_in_the_fire(result: BarResult, coating: str) -> None:
    from dataclasses import replace

    coated = replace(result, spec=replace(result.spec, coating=coating))
    plan = plan_of((coated,), (), "wire brush at red", Shop())
    assert not hot_spells(plan)
    assert plan.pieces[0].refused
    assert plan.heats.value == 0


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda p: p.stem)
def test_the_plans_of_the_examples_keep_the_rules(example: Path) -> None:
    copy = reckon_file(example).copy
    assert copy is not None
    plan = plan_of(copy.pieces, copy.joints, copy.job.finish, copy.shop, copy.job.make)
    check_heats(plan)
    made = {p.spec.name: p for p in copy.pieces}
    assert [p.piece for p in plan.pieces if p.piece not in made] == []
    assert len(plan.pieces) == len(made)
    assert not [f for f in plan.findings if f.name in ("nothing-to-hold", "will-not-enter-fire")]
    for told in plan.pieces:
        piece = made[told.piece]
        works = [w for s in told.spells for w in s.works]
        length = piece.length if isinstance(piece, BarResult) else 0.0
        chain = not isinstance(piece, BarResult) and getattr(piece, "chain", None) is not None
        check_rules_of(works, length, chain=chain)
    everything = [w.key for s in (*plan.joining, *plan.finish) for w in s.works]
    assert len(everything) == len(set(everything))


def check_rules_of(works: list[Work], length: float, *, chain: bool) -> None:
    """No rule gives way to another in the plans of the examples, save that an eye comes before the thick beside it."""
    for rule in PRECEDENCE:
        for i, a in enumerate(works):
            wrong = [b.key for b in works[:i] if meant(rule, a, b, length, chain=chain)]
            assert not wrong or (rule.key == "scarf-before-bending" and chain), (rule.key, a.key, wrong)


def test_every_rule_is_told_with_its_reason_and_source() -> None:
    assert len({rule.key for rule in PRECEDENCE}) == len(PRECEDENCE)
    for rule in PRECEDENCE:
        assert rule.because
        assert str(rule.source)
    assert all(a != b for a, b in pairwise(PRECEDENCE))
