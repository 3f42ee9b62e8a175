"""The eleven example jobs, reckoned from their files, against the project's own target values.

The figures are exact mathematics on pieces invented for this project: constant volume and centre-line bends, before
scale and weld unless said. Each is held to half a unit of the last digit that its target is told in.
"""

import math
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from bickern.desk.job.new import examples
from bickern.desk.reckon import Reckoning, reckon_file, reckon_text
from bickern.measure.units.words import INCH, POUND
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import ChainResult, RingResult
from bickern.parts.sheet.result import SheetResult

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = sorted(p.stem for p in EXAMPLES.glob("*.yaml"))
HALF_HUNDREDTH, HALF_THOUSANDTH, HALF_TENTH = 0.005, 0.0005, 0.05


@cache
def done(name: str) -> Reckoning:
    return reckon_file(EXAMPLES / f"{name}.yaml")


@cache
def changed(name: str, old: str, new: str) -> Reckoning:
    text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
    assert old in text
    return reckon_text(text.replace(old, new), f"{name}.yaml")


def piece(job: Reckoning, name: str) -> BarResult | RingResult | SheetResult:
    assert job.copy is not None
    found = {p.spec.name: p for p in job.copy.pieces}
    assert name in found, job.findings
    return found[name]


def bar(name: str, what: str) -> BarResult:
    found = piece(done(name), what)
    assert isinstance(found, BarResult)
    return found


def ring(name: str, what: str) -> RingResult:
    found = piece(done(name), what)
    assert isinstance(found, RingResult)
    return found


def chain(name: str, what: str) -> ChainResult:
    found = ring(name, what).chain
    assert found is not None
    return found


def sheet(job: Reckoning, what: str) -> SheetResult:
    found = piece(job, what)
    assert isinstance(found, SheetResult)
    return found


def figure(found: SheetResult, name: str) -> float:
    return {f.name: f.value for f in found.figures}[name]


def joint(name: str, kind: JointKind) -> JointResult:
    copy = done(name).copy
    assert copy is not None
    return next(j for j in copy.joints if j.spec.kind is kind)


def inches(target: float, half: float = HALF_HUNDREDTH) -> object:
    return pytest.approx(target * INCH, abs=half * INCH)


def test_every_shipped_example_is_reckoned_here():
    assert [e.name for e in examples()] == NAMES
    assert len(NAMES) == 12  # eleven projects, one of them in both systems


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_of_every_example_is_reckoned_and_nothing_stops_it(name: str):
    job = done(name)
    assert job.job is not None
    assert job.copy is not None
    assert [f for f in job.findings if f.stops] == []
    assert [p.spec.name for p in job.copy.pieces] == [s.name for s in job.job.pieces]
    assert len(job.copy.joints) == len(job.job.joints)


def test_1_rail_s_hook():
    hook = bar("rail-s-hook", "hook")
    assert hook.length == inches(6.43)
    assert hook.stock_bare == inches(4.74)
    # "say 4 7/8": the target adds what a fire takes; here the drawn points alone lose length, a sixteenth less
    assert 4.74 < hook.cut_this / INCH <= 4 + 7 / 8
    assert hook.sizes.reach == inches(3.00)


def test_1_rail_s_hook_in_millimetres():
    hook = bar("rail-s-hook-metric", "hook")
    assert hook.length == pytest.approx(0.1594, abs=0.00005)
    assert hook.stock_bare == pytest.approx(0.1166, abs=0.00005)


def test_2_leaf_coat_hook():
    hook = bar("leaf-coat-hook", "hook")
    assert hook.stock_bare == inches(6.69)
    assert hook.twists[0].corner_strain == pytest.approx(0.94, abs=0.005)
    assert "twist-too-tight" in {f.name for f in done("leaf-coat-hook").findings}


def test_3_ring_pull_lengths():
    pull = ring("ring-pull", "ring")
    assert pull.bare == inches(12.57)
    assert pull.bare + pull.weld == inches(13.07)


def test_3_ring_pull_drilled_leaves_thin_walls():
    boss = piece(changed("ring-pull", "by: slit and drift", "by: drill"), "boss")
    assert isinstance(boss, BarResult)
    assert boss.holes[0].wall == inches(3 / 32, 1e-6)


def test_4_crane_chain():
    link = ring("crane-chain", "links")
    links = chain("crane-chain", "links")
    assert link.bare == inches(4.59)
    assert link.bare + link.weld == inches(4.90)
    assert links.links == 13
    assert links.length == inches(17 + 7 / 8, 1 / 16)
    assert links.bar == inches(63 + 3 / 4, 1 / 8)
    top = ring("crane-chain", "top ring")
    assert top.bare + top.weld == inches(7.84)


def test_4_no_load_rating_is_said():
    copy = done("crane-chain").copy
    assert copy is not None
    assert {"load", "chain-load"} <= {c.key for c in copy.cautions}


def test_5_ladle_bowl():
    assert figure(sheet(done("ladle"), "bowl"), "disc") == inches(4.72)
    inside = sheet(changed("ladle", "sizes: mean", "sizes: inside"), "bowl")
    assert figure(inside, "disc") == inches(4.78)
    # what a bowl of 4 x 1 1/4 holds: the sizes are then those of its inside
    assert figure(inside, "holds, level full") == pytest.approx(145e-6, abs=0.5e-6)


def test_5_ladle_handle_and_rivets():
    handle = bar("ladle", "handle")
    assert handle.length == inches(12.0, HALF_TENTH)
    assert handle.stock_bare == inches(5.8, 0.1)  # told as "about": its sections are the example's own
    assert joint("ladle", JointKind.RIVET).metal == inches(0.47)
    bowl = sheet(done("ladle"), "bowl")
    assert (bowl.mass + handle.mass) / POUND == pytest.approx(0.53, abs=HALF_HUNDREDTH)


def test_6_trivet():
    hoop = bar("trivet", "hoop")
    assert hoop.length == inches(21.21)
    assert hoop.weld == inches(0.25)
    places = sorted(h.at for h in hoop.holes)
    assert places[0] == inches(3.53)
    assert [b - a for a, b in pairwise(places)] == [inches(7.07), inches(7.07)]


INTO_THE_EYE = 3 / 16
"""The targets of the poker stop its shaft at the outside of the eye. A centred eye is closed on the line of the shaft,
which therefore runs half a thickness of the 3/8 rd on, to the middle of the eye's own bar: so much more is reckoned."""


def test_7_fire_set_poker():
    more = INTO_THE_EYE * (math.pi / 4 * 0.375**2) / 0.5**2
    assert bar("fire-set", "poker").stock_bare == inches(15.9 + more, HALF_TENTH)
    assert bar("fire-set", "poker").sizes.reach == inches(28, 1e-3)


def test_7_poker_from_round_bar():
    poker = piece(changed("fire-set", "poker:\n    bar: 1/2 sq", "poker:\n    bar: 5/8 rd"), "poker")
    assert isinstance(poker, BarResult)
    assert poker.stock_bare == inches(12.9 + INTO_THE_EYE * (0.375 / 0.625) ** 2, HALF_TENTH)


@pytest.mark.parametrize("name", ["poker", "shovel", "rake", "brush holder"])
def test_7_the_tools_are_all_28_overall_with_the_same_eye(name: str):
    tool = bar("fire-set", name)
    assert tool.sizes.reach == inches(28, 1 / 64)


def test_7_pan():
    pan = sheet(done("fire-set"), "pan")
    assert sorted(pan.blank) == [inches(6.77), inches(8.38)]


def test_8_porch_lantern_hood():
    hood = sheet(done("porch-lantern"), "hood")
    assert figure(hood, "slant") == inches(5.154, HALF_THOUSANDTH)
    assert figure(hood, "large radius R") == inches(6.343, HALF_THOUSANDTH)
    assert figure(hood, "small radius r") == inches(1.189, HALF_THOUSANDTH)
    assert math.degrees(figure(hood, "angle")) == pytest.approx(227.0, abs=0.05)
    assert sorted(hood.blank) == [inches(8 + 7 / 8, 1 / 32), inches(12 + 11 / 16, 1 / 32)]
    inside = sheet(changed("porch-lantern", "height: 4, sizes: mean", "height: 4, sizes: inside"), "hood")
    assert figure(inside, "large radius R") == inches(6.365, HALF_THOUSANDTH)
    assert figure(inside, "small radius r") == inches(1.211, HALF_THOUSANDTH)


def test_9_forge_hood_in_one_piece_misses_the_sheet_both_ways():
    whole = changed("forge-hood", "    parts: 2\n", "")
    hood = sheet(whole, "hood")
    assert figure(hood, "slant") == inches(16.12)
    assert figure(hood, "large radius R") == inches(24.19)
    assert figure(hood, "small radius r") == inches(8.06)
    assert math.degrees(figure(hood, "angle")) == pytest.approx(178.6, abs=0.05)
    assert sorted(hood.blank) == [inches(24.09), inches(48.37)]
    says = next(f.says for f in whole.findings if f.name == "blank-too-big")
    assert "3/8 in" in says
    assert "3/32 in" in says


def test_9_forge_hood_in_two_halves():
    hood = sheet(done("forge-hood"), "hood")
    assert math.degrees(figure(hood, "angle of each part")) == pytest.approx(89.3, abs=0.05)
    assert figure(hood, "laid evenly, wide") == inches(34.0, HALF_TENTH)
    assert figure(hood, "laid evenly, high") == inches(18.45)
    assert figure(hood, "grooved seam, added in all") == inches(0.75, 1e-6)
    assert "two-on-one" in {f.name for f in done("forge-hood").findings}
    assert [fit.fits for fit in hood.fits] == [True, False]
    assert hood.fits[1].refused  # the galvanised sheet is large enough, and never goes in the fire
    assert any("galvanised" in f.says for f in done("forge-hood").findings if f.name == "coated-and-hot")


def test_10_dinner_triangle():
    triangle = bar("dinner-triangle", "triangle")
    assert triangle.length == inches(27.20)
    assert triangle.mass / POUND == pytest.approx(1.51, abs=HALF_HUNDREDTH)


def test_10_each_turn_saves_one_and_three_hundredths():
    told_to_corners = 9.25 + 10 + 10
    saved = told_to_corners - bar("dinner-triangle", "triangle").length / INCH
    assert saved / 2 == pytest.approx(1.03, abs=HALF_HUNDREDTH)


def test_11_bolt_tongs():
    half = bar("bolt-tongs", "half")
    assert half.stock_bare == inches(5.37)
    thicker = piece(changed("bolt-tongs", "bar: 5/8 sq", "bar: 3/4 sq"), "half")
    assert isinstance(thicker, BarResult)
    assert thicker.stock_bare == inches(3.73)
    assert joint("bolt-tongs", JointKind.RIVET).metal == inches(1.22)


def test_11_a_pair_of_tongs_weighs_its_two_halves_and_little_more():
    half = bar("bolt-tongs", "half")
    assert 2 * half.mass / POUND == pytest.approx(1.2, abs=HALF_TENTH)


def test_11_a_pair_of_tongs_has_one_rivet():
    assert joint("bolt-tongs", JointKind.RIVET).spec.number == 1
