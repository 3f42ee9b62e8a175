from math import inf, pi

import pytest

from bickern.desk.reckon import reckon_text
from bickern.iron.section import Section
from bickern.measure.finding import Where
from bickern.measure.units.words import INCH, MILLIMETRE, Shape
from bickern.parts.joint.bundle import bundle_girth
from bickern.parts.joint.heads import HEADS, Head, cap_volume, frustum_volume, head_length, head_volume
from bickern.parts.joint.holes import fit_word, hole_needed, ring_in_hole
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.rules import COLLAR_RULES, RIVET_RULES, TENON_RULES
from bickern.parts.joint.spec import JointKind, JointResult, JointRules, JointSpec
from bickern.parts.weld import weld_rule_names

STEEL = 7850.0
THROUGH = ("bowl", "handle.palm")


def _made(spec: JointSpec, grip: float | None = None, girth: float | None = None) -> JointResult:
    result = reckon_joint(spec, JointRules(), STEEL, grip, girth).value
    assert result is not None
    return result


def test_ladle_rivet_by_hand():
    # by hand: 3/16 gripped + 1 1/2 x 3/16 = 0.469
    made = _made(JointSpec(JointKind.RIVET, THROUGH, size=3 / 16 * INCH, number=2), 3 / 16 * INCH)
    assert made.metal / INCH == pytest.approx(0.469, abs=0.0005)
    names = [name for name, _, _ in made.also]
    assert any("volume of a snap head" in name for name in names)
    shank = pi / 4 * (3 / 16 * INCH) ** 2 * (made.metal + head_length(Head.SNAP, 3 / 16 * INCH))
    assert made.mass == pytest.approx(2 * shank * STEEL)


def test_tongs_rivet_by_hand():
    # by hand: two bosses of 3/8 + 1 1/2 x 5/16 = 1.219
    made = _made(JointSpec(JointKind.RIVET, ("a.boss", "b.boss"), size=5 / 16 * INCH), 0.75 * INCH)
    assert made.metal / INCH == pytest.approx(1.22, abs=0.005)


def test_shops_own_rivet_figure():
    spec = JointSpec(JointKind.RIVET, THROUGH, size=INCH)
    made = reckon_joint(spec, JointRules(rivet="shop's own", rivet_head=1.3), STEEL, INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(2.3)


def test_every_rule_that_has_a_row_can_be_chosen():
    rivet, tenon = (JointSpec(k, THROUGH, size=INCH) for k in (JointKind.RIVET, JointKind.TENON))
    collar = JointSpec(JointKind.COLLAR, THROUGH, section=Section(Shape.FLAT, INCH, INCH / 8))
    weld = JointSpec(JointKind.WELD, THROUGH)
    for rules, spec in (
        *((JointRules(rivet=r.name), rivet) for r in RIVET_RULES),
        *((JointRules(tenon=r.name), tenon) for r in TENON_RULES),
        *((JointRules(collar=r.name), collar) for r in COLLAR_RULES),
        *((JointRules(weld=name), weld) for name in weld_rule_names()),
    ):
        read = reckon_joint(spec, rules, STEEL, INCH, girth=4 * INCH)
        assert read.value is not None
        assert all(length >= 0 and source for _, length, source in read.value.also)


def test_defaults_have_rows():
    rules = JointRules()
    assert rules.rivet in {r.name for r in RIVET_RULES}
    assert rules.collar in {r.name for r in COLLAR_RULES}
    assert rules.tenon in {r.name for r in TENON_RULES}
    assert rules.weld in weld_rule_names()


def test_tenon_pin_weld_screw_and_ring():
    grip = 0.5 * INCH
    assert _made(JointSpec(JointKind.TENON, THROUGH, size=0.25 * INCH), grip).metal / INCH == pytest.approx(0.75)
    assert _made(JointSpec(JointKind.PIN, THROUGH, size=0.25 * INCH), grip).metal / INCH == pytest.approx(1.0)
    assert _made(JointSpec(JointKind.WELD, THROUGH), grip).metal / INCH == pytest.approx(0.25)  # two bars of 1/4
    assert "6.6 mm" in _made(JointSpec(JointKind.SCREW, THROUGH, size=6 * MILLIMETRE), grip).says
    assert "links 1" in _made(JointSpec(JointKind.RING, THROUGH, ring="links 1")).says
    assert "hook s.bend hung on" in _made(JointSpec(JointKind.RING, THROUGH, ring="s.bend")).says


def test_a_pin_that_is_drawn_on_a_bar_is_not_cut_a_second_time():
    spec = JointSpec(JointKind.PIN, ("pintle", "gudgeon.eye"), size=0.5 * INCH)
    cut, drawn = (reckon_joint(spec, JointRules(), STEEL, INCH, drawn=name).value for name in ("", "pintle"))
    assert cut is not None
    assert drawn is not None
    assert cut.mass > 0
    assert (drawn.metal, drawn.mass, drawn.grip) == (0.0, 0.0, INCH)
    # as the job draws it: a pin of its own round bar, through the eye of a strap
    text = """job: Hinge
units: in
pieces:
  pintle: {bar: 1/2 rd, metal: [{keep: 4}]}
  strap: {bar: 1 x 1/4, metal: [{keep: rest}], path: [{eye: 17/32, turn: up, name: eye}, {straight: 8}]}
joins: [{pin: 1/2, through: [pintle, strap.eye]}]
"""
    copy = reckon_text(text, "hinge.yaml").copy
    assert copy is not None
    (made,) = copy.joints
    assert (made.metal, made.mass) == (0.0, 0.0)
    assert made.grip == pytest.approx(INCH)  # the strap's width, along the pin


def test_wrap_counts_its_turns_once():
    # by hand: round 1/2 bar with 1/8 wire, pi x 5/8 a turn
    wire = Section(Shape.ROUND, INCH / 8, INCH / 8)
    made = _made(JointSpec(JointKind.WRAP, THROUGH, section=wire, number=3), girth=pi * 0.5 * INCH)
    assert made.metal / INCH == pytest.approx(3 * pi * 5 / 8)
    assert made.mass == pytest.approx(pi / 4 * (INCH / 8) ** 2 * made.metal * STEEL)


def test_girth_lays_wide_faces_together():
    flat = Section(Shape.FLAT, 0.5 * INCH, 0.25 * INCH)
    on_edge = Section(Shape.FLAT, 0.25 * INCH, 0.5 * INCH)
    wire = Section(Shape.ROUND, 0.5 * INCH, 0.5 * INCH)
    assert bundle_girth([flat, on_edge]) / INCH == pytest.approx(2.0)
    assert bundle_girth([wire, wire, wire]) / INCH == pytest.approx(2 + pi / 2, rel=2e-5)  # string round three rounds


def test_head_volumes_by_hand():
    assert cap_volume(2.0, 1.0) == pytest.approx(2 / 3 * pi)  # half a ball
    assert frustum_volume(2.0, 0.0, 3.0) == pytest.approx(pi)  # a cone
    assert frustum_volume(2.0, 2.0, 1.0) == pytest.approx(pi)  # a cylinder
    assert head_length(Head.FLAT, 1.0) == pytest.approx(1.125)
    assert all(head_volume(head, 0.01) > 0 for head in HEADS)
    assert head_length(Head.COUNTERSUNK, 1.0) < head_length(Head.SNAP, 1.0)


def test_ring_pull_in_its_boss():
    # by hand: 1/2 + 1.75 - sqrt(1.75^2 - .3125^2) = 0.528
    needed = hole_needed(0.5 * INCH, 1.75 * INCH, 0.625 * INCH)
    assert needed / INCH == pytest.approx(0.528, abs=0.0005)
    assert [fit_word(h * INCH, needed).word for h in (0.5, 17 / 32, 9 / 16)] == ["jams", "just clears", "swings"]
    assert fit_word(17 / 32 * INCH, needed).play / INCH == pytest.approx(0.003, abs=0.0005)


def test_a_thin_plate_needs_no_more_than_the_wire_and_a_thick_one_lets_no_ring_round():
    assert hole_needed(0.01, 0.05, 0.0) == pytest.approx(0.01)
    assert hole_needed(0.01, 0.05, 0.1) == inf


@pytest.mark.parametrize(
    ("hole", "plate", "names"),
    [
        (0.5, 0.625, ["ring-fills-hole"]),
        (0.51, 0.625, ["ring-jams"]),
        (17 / 32, 0.625, ["ring-just-clears"]),
        (9 / 16, 0.625, []),
        (9 / 16, 3.5, ["ring-too-small-for-plate"]),
        (0.5, 4, ["ring-fills-hole"]),
    ],
)
def test_findings_of_a_ring_in_a_hole(hole: float, plate: float, names: list[str]):
    here = Where("pull.yaml", 4)
    found = ring_in_hole(0.5 * INCH, 1.75 * INCH, plate * INCH, hole * INCH, here)
    assert [f.name for f in found] == names
    assert all(f.where == here and f.try_this for f in found)


@pytest.mark.parametrize(
    ("spec", "grip", "name"),
    [
        (JointSpec(JointKind.RIVET, THROUGH), 0.01, "no-joint-size"),
        (JointSpec(JointKind.COLLAR, THROUGH), 0.01, "no-joint-size"),
        (JointSpec(JointKind.WRAP, THROUGH, section=Section(Shape.ROUND, 0.0, 0.0)), 0.01, "no-joint-size"),
        (JointSpec(JointKind.RIVET, THROUGH, size=0.005, number=0), 0.01, "no-joints"),
        (JointSpec(JointKind.RIVET, THROUGH, size=0.005), -0.01, "grip-below-nothing"),
    ],
)
def test_what_cannot_be_made_is_a_finding_and_has_no_value(spec: JointSpec, grip: float, name: str):
    read = reckon_joint(spec, JointRules(), STEEL, grip)
    assert read.value is None
    assert [f.name for f in read.findings if f.stops] == [name]


@pytest.mark.parametrize(
    ("spec", "grip", "name"),
    [
        (JointSpec(JointKind.RIVET, THROUGH, size=0.005), None, "grip-not-known"),
        (JointSpec(JointKind.WELD, THROUGH), None, "grip-not-known"),
        (JointSpec(JointKind.COLLAR, THROUGH, section=Section(Shape.FLAT, 0.01, 0.003)), 0.01, "girth-not-known"),
        (JointSpec(JointKind.RIVET, THROUGH, size=0.005), 0.03, "long-rivet"),
        (JointSpec(JointKind.SCREW, THROUGH, size=0.0048), 0.03, "screw-hole-not-known"),
    ],
)
def test_what_is_not_known_is_said_and_the_rest_still_reckoned(spec: JointSpec, grip: float | None, name: str):
    made = _made(spec, grip)
    assert name in {f.name for f in made.findings}
    assert made.metal >= 0
