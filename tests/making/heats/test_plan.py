"""Whole jobs planned: what comes first, what joins, what is kept from the fire, and sums done over again."""

from dataclasses import replace
from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.making.heats.joining import in_making_order, joinings, left_open
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import Plan
from bickern.making.shop import Shop
from bickern.paper.copy import Copy
from bickern.parts.fit.order import LAST, RIGID, in_turn
from bickern.parts.joint.spec import JointKind
from bickern.parts.ring.spec import RingResult

EXAMPLES = Path(__file__).parents[3] / "examples"
STAND = """
job: stand
units: in
finish: Wire brush at red, wax
pieces:
  post:
    bar: 1/2 sq
    metal: [{keep: 12, name: post}, {to: 3/8 rd, over: 1/4}, {keep: 7/8, name: tenon}]
    coating: none
  foot:
    bar: 1 x 1/4
    metal: [{keep: 9, name: foot}]
    holes: [{size: 3/8, by: punch, at: 4 1/2, face: front, name: hole}]
  links:
    ring: 1/4 rd
    inside across: 1
    closed: welded
    make: 3
joins:
  - {ring: links 1, through: [foot.hole]}
  - {tenon: 3/8, through: [post.tenon, foot.hole]}
"""


def copy_of(name: str) -> Copy:
    copy = reckon_file(EXAMPLES / f"{name}.yaml").copy
    assert copy is not None
    return copy


def plan(copy: Copy, shop: Shop | None = None) -> Plan:
    return plan_of(copy.pieces, copy.joints, copy.job.finish, shop or copy.shop, copy.job.make)


def stand(coating: str = "none") -> Copy:
    copy = reckon_text(STAND.replace("coating: none", f"coating: {coating}"), "job.yaml").copy
    assert copy is not None
    return copy


@pytest.mark.parametrize("name", ["porch-lantern", "fire-set", "ring-pull", "crane-chain", "trivet"])
def test_joints_are_closed_in_the_order_that_the_fit_tells(name: str) -> None:
    """What is made for good, then rings in their turn, then pins and screws: the same rows as `parts/fit/order`."""
    copy = copy_of(name)
    rows = joinings(copy.joints, {p.spec.name: p for p in copy.pieces}, copy.shop)
    kinds = [next(j.spec.kind for j in copy.joints if _is_of(j.spec.kind, row.works[0].key)) for row in rows]
    ranks = [(*RIGID, JointKind.RING, *LAST).index(kind) for kind in kinds]
    assert ranks == sorted(ranks)
    wanted: dict[str, list[str]] = {}
    for joint in copy.joints:
        if joint.spec.kind is JointKind.RING and not joint.spec.hooked:
            wanted.setdefault(joint.spec.ring, []).extend(joint.spec.through)
    threads = list(dict.fromkeys(w.name for row in rows for w in row.works if w.does == "thread"))
    assert threads == in_turn(wanted)


def _is_of(kind: JointKind, key: str) -> bool:
    return key.startswith(f"{kind} ")


def test_a_ring_that_is_threaded_is_left_open_by_its_piece_and_closed_where_it_is_joined() -> None:
    copy = copy_of("porch-lantern")
    made = plan(copy)
    links = next(p for p in made.pieces if p.piece == "links")
    assert "close ring" not in {w.does for s in links.spells for w in s.works}
    closed = [w.name for s in made.joining for w in s.works if w.does == "close ring"]
    assert closed == ["links 1", "links 2", "links 3"]


def test_of_three_welded_rings_one_is_threaded_and_the_others_are_welded_by_themselves() -> None:
    copy = stand()
    named = {p.spec.name: p for p in copy.pieces}
    ring = named["links"]
    assert isinstance(ring, RingResult)
    assert left_open(ring, copy.joints, named) == 1
    made = plan(copy)
    own = next(w for p in made.pieces if p.piece == "links" for s in p.spells for w in s.works if w.does == "weld")
    assert own.says.endswith("2 of them now: 1 is left open to be threaded first")
    assert [w.key for s in made.joining for w in s.works if w.does == "weld"] == ["links 1: weld"]


def test_a_chain_is_made_after_the_ring_that_it_is_begun_in_and_its_end_is_told_so() -> None:
    """A chain is closed from one end (Googerty, Ilgen, Stokes, read): a tied end is shut in its ring first of all."""
    pieces = """job: chain
units: in
pieces:
  links: {ring: 1/4 rd, inside across: 3/4, inside long: 1 1/4, closed: welded, chain: {links: 4}}
  top: {ring: 3/8 rd, inside across: 2, closed: welded}
joins: [{ring: links 1, through: [top, links 2]}]
"""
    copy = reckon_text(pieces, "job.yaml").copy
    assert copy is not None
    assert [p.piece for p in plan(copy).pieces] == ["top", "links"]
    (thread,) = (w for s in plan(copy).joining for w in s.works)
    assert (thread.does, thread.says[:24]) == ("thread", "while the chain is made,")


def test_links_that_hang_in_something_are_told_so_where_they_are_closed() -> None:
    text = """job: chain
units: in
pieces:
  toggle: {bar: 3/8 rd, metal: [{keep: 9}], holes: [{size: 3/8, by: punch, at: 4 1/2, name: hole}]}
  links: {ring: 3/16 rd, inside across: 5/8, inside long: 1, closed: butted, chain: {links: 4}}
joins: [{ring: links 1, through: [toggle.hole, links 2]}]
"""
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    (closing,) = (w for p in plan(copy).pieces for s in p.spells for w in s.works if w.does == "close ring")
    assert "links 1 through toggle.hole too" in closing.says


TOWEL = """
job: towel ring
units: mm
finish: Wire brush at red, wax
pieces:
  ring: {ring: 10 rd, inside across: 150, closed: welded}
  stud:
    bar: 16 sq
    metal: [{keep: 250, name: boss}, {as: 8 rd, over: 12, name: tenon}]
    holes: [{size: 14, by: slit and drift, at: 20, name: eye hole}]
  plate: {bar: 60 x 5, metal: [{keep: 250, name: plate}], holes: [{size: 8, by: drill, at: 30, name: hole}]}
joins:
  - {ring: ring, through: [stud.eye hole]}
  - {tenon: 8, through: [stud.tenon, plate.hole]}
"""


def test_a_welded_ring_is_welded_before_what_it_hangs_in_is_riveted() -> None:
    """Else plate and stud lie in the white heat of the ring: common practice."""
    copy = reckon_text(TOWEL, "job.yaml").copy
    assert copy is not None
    done = [w.does for s in plan(copy).joining for w in s.works]
    assert done.index("thread") < done.index("weld") < min(done.index("shoulder"), done.index("rivet"))
    assert copy.fit is not None
    lines = copy.fit.order
    (ring,) = (i for i, line in enumerate(lines) if "weld it" in line)
    (tenon,) = (i for i, line in enumerate(lines) if "tenon" in line)
    assert ring < tenon


def test_a_piece_that_is_heated_where_it_is_joined_is_brushed_after_that_and_only_then() -> None:
    """Every heat after it scales the skin again: common practice."""
    copy = reckon_text(TOWEL, "job.yaml").copy
    assert copy is not None
    made = plan(copy)
    stud, plate = (next(p for p in made.pieces if p.piece == name) for name in ("stud", "plate"))
    assert "brush" not in [w.does for s in stud.spells for w in s.works]
    assert [w.does for s in plate.spells for w in s.works if w.hot] == ["brush"]  # it is only riveted cold
    joined = [w.key for s in made.joining for w in s.works]
    assert joined.index("stud: brush") > max(i for i, w in enumerate(joined) if "shoulder" in w)


def test_bars_that_are_welded_together_are_trued_and_brushed_after_the_weld() -> None:
    text = """job: fork
units: in
finish: Wire brush at red
pieces:
  stem: {bar: 1/2 rd, metal: [{from: 1/8 rd, to: 1/2 rd, over: 4, name: tip}, {keep: 8}]}
  side: {bar: 1/2 rd, metal: [{from: 1/8 rd, to: 1/2 rd, over: 4, name: tip}, {keep: 8}]}
joins: [{weld: [stem.end, side.end]}]
"""
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    made = plan(copy)
    assert not [w for p in made.pieces for s in p.spells for w in s.works if w.does in ("straighten", "brush")]
    joined = [w.does for s in made.joining for w in s.works]
    assert joined == ["scarf", "scarf", "weld", "straighten", "straighten", "brush", "brush"]


def test_a_ring_is_made_after_what_it_goes_through() -> None:
    copy = copy_of("ring-pull")
    assert [p.spec.name for p in copy.pieces] == ["ring", "boss"]
    assert [p.spec.name for p in in_making_order(copy.pieces, copy.joints)] == ["boss", "ring"]


def test_what_is_brushed_at_red_is_brushed_in_the_last_heat_of_its_piece_and_waxed_when_all_is_joined() -> None:
    made = plan(copy_of("porch-lantern"))
    arm = [w.does for s in made.pieces[0].spells for w in s.works if w.hot]
    assert arm[-1] == "brush"
    assert [w.does for s in made.finish for w in s.works] == ["wax or oil"]
    assert not any(s.hot for s in made.joining)  # nothing joined goes back in the fire


@pytest.mark.parametrize(
    ("coating", "words"), [("galvanised", "zinc fume"), ("painted", "poisonous"), ("maybe blue", "until you know")]
)
def test_a_coated_piece_gets_no_heat_nor_a_hot_joint_and_the_plan_says_why(coating: str, words: str) -> None:
    copy = stand()
    pieces = tuple(
        replace(p, spec=replace(p.spec, coating=coating)) if p.spec.name == "post" else p for p in copy.pieces
    )
    made = plan(replace(copy, pieces=pieces))
    post = next(p for p in made.pieces if p.piece == "post")
    assert words in post.refused
    assert not [
        s for s in (*post.spells, *made.joining) for w in s.works if s.hot and "post" in (w.piece, *w.with_pieces)
    ]
    assert "piece-kept-cold" in {f.name for f in made.findings}
    assert not [w for s in made.joining for w in s.works if "post" in (w.piece, *w.with_pieces)]
    foot = next(p for p in made.pieces if p.piece == "foot")
    assert any(s.hot for s in foot.spells)


def test_bare_metal_and_metal_of_which_nothing_is_told_are_heated() -> None:
    assert not [p.refused for p in plan(stand()).pieces if p.refused]


@pytest.mark.parametrize("name", [p.stem for p in sorted(EXAMPLES.glob("*.yaml"))])
def test_totals_are_the_sums_of_what_is_planned(name: str) -> None:
    copy = copy_of(name)
    made = plan(copy)
    sets = copy.job.make
    for p in made.pieces:
        assert p.heats.value == sum(s.times.value for s in p.spells if s.hot)
        assert p.seconds.low <= p.seconds.value <= p.seconds.high
    joined = sum(s.times.value for s in (*made.joining, *made.finish) if s.hot)
    assert made.heats.value == pytest.approx(sum(p.heats.value * p.make for p in made.pieces) + sets * joined)
    assert made.seconds.value >= sum(p.lot.seconds.value for p in made.pieces)


def test_each_of_twenty_four_hooks_is_counted() -> None:
    copy = copy_of("leaf-coat-hook")
    one = plan_of(copy.pieces, copy.joints, copy.job.finish, copy.shop)
    many = plan(copy)
    assert many.pieces[0].make == 24
    assert many.heats.value == 24 * one.heats.value
    assert many.pieces[0].seconds == one.pieces[0].seconds
    assert many.pieces[0].lot.seconds.value <= 24 * one.pieces[0].lot.seconds.value


def test_a_small_piece_is_brushed_at_red_in_tongs_and_needs_no_longer_bar_for_that() -> None:
    copy = copy_of("rail-s-hook")
    made = plan_of(copy.pieces, copy.joints, "wire brush at red, wax", copy.shop)
    assert not made.findings
    assert [w.does for w in made.pieces[0].spells[-1].works] == ["brush"]


def test_an_oval_link_is_bent_before_its_scarfs_though_it_is_no_chain() -> None:
    text = """
job: link
units: in
pieces:
  link: {ring: 3/8 rd, inside across: 1, inside long: 2, closed: welded}
"""
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    assert [w.does for s in plan(copy).pieces[0].spells for w in s.works if w.hot] == ["bend", "scarf", "weld"]


def test_a_plan_comes_out_the_same_twice() -> None:
    copy = copy_of("fire-set")
    assert plan(copy) == plan(copy)
