"""Pieces that no example shows: pintles, clevises, swivels, buckets, towel rings, several chains on one ring.

What is expected is exact mathematics on the sizes told in each job, or common practice told as such.
"""

import math

import pytest

from bickern.desk.reckon import Reckoning, reckon_text
from bickern.geometry.pose import Pose, then
from bickern.geometry.space import cross, dot, norm
from bickern.measure.finding import Weight
from bickern.measure.units.words import INCH
from bickern.parts.fit.openings import neighbours
from bickern.parts.fit.result import FitRow, FitWord
from bickern.parts.joint.spec import JointKind
from bickern.parts.set.assemble import assemble
from bickern.parts.set.result import SetResult
from bickern.parts.set.room import room_of, run_through
from bickern.parts.set.spots.spots import spot_on
from bickern.parts.sheet.allowances import SheetRules


def job(pieces: str, joins: str, units: str = "in") -> Reckoning:
    return reckon_text(f"job: Trial\nunits: {units}\npieces:\n{pieces}\njoins:\n{joins}\n", "trial.yaml")


def rows(done: Reckoning) -> dict[tuple[str, str], FitRow]:
    assert done.copy is not None
    return {(row.what, row.check): row for row in done.copy.fit.rows}


def order(done: Reckoning) -> tuple[str, ...]:
    assert done.copy is not None
    return done.copy.fit.order


def names(done: Reckoning) -> list[str]:
    return [f.name for f in done.findings]


def put_together(done: Reckoning) -> SetResult:
    assert done.copy is not None, done.findings
    return assemble({p.spec.name: p for p in done.copy.pieces}, done.copy.job.joints, done.copy.joints)


# a pin that is drawn on its piece


PINTLE = """
  strap:
    bar: 1 1/2 x 1/4
    metal: [{{keep: rest, name: strap}}]
    path: [{{eye: 5/8, name: eye}}, {{straight: 14}}]
  pintle:
    bar: 3/4 rd
    metal: [{{as: {pin}, over: 2 1/2, name: pin}}, {{keep: rest, name: shank}}]
    path: [{{straight: 2 1/2}}, {{corner: 90}}, {{straight: 4}}]"""
ON_ITS_PIN = "  - {pin: 9/16, through: [pintle.pin, strap.eye]}"


def test_a_pin_drawn_on_its_piece_goes_by_what_is_drawn():
    thick = job(PINTLE.format(pin="11/16 rd"), ON_ITS_PIN)  # 11/16 in an eye of 5/8: 1/16 too little
    (row,) = rows(thick).values()
    assert (row.word, row.margin / INCH) == (FitWord.NO, pytest.approx(-1 / 16))
    assert "pin-drawn-otherwise" in names(thick)
    (stop,) = (f for f in thick.findings if f.name == "pin-fills-hole")
    assert "open the hole to 23/32 in" in stop.try_this  # 1/32 over the pin: from there on it moves
    true = job(PINTLE.format(pin="9/16 rd"), ON_ITS_PIN)
    (row,) = rows(true).values()
    assert (row.word, row.margin / INCH) == (FitWord.FREE, pytest.approx(1 / 16))
    assert "pin-drawn-otherwise" not in names(true)
    assert order(true) == ("Put pintle.pin through strap.eye.",)


def test_what_is_on_a_drawn_pin_turns_about_it_and_no_second_pin_is_weighed():
    a_set = put_together(job(PINTLE.format(pin="9/16 rd"), ON_ITS_PIN))
    (pivot,) = a_set.pivots
    pintle = next(p for p in a_set.parts if p.name == "pintle")
    (pin,) = spot_on(pintle.piece, "pin")
    # told in the body of what is named first, which is the pintle alone: the axis runs along the pin
    assert norm(cross(pin.pose.x, pivot.axis)) == pytest.approx(0.0, abs=1e-9)
    assert a_set.fixings == ()


def test_a_thin_pin_through_a_bar_without_a_hole_is_a_pin_still():
    pieces = PINTLE.format(pin="9/16 rd")
    a_set = put_together(job(pieces, "  - {pin: 1/4, through: [pintle.pin, strap.eye]}"))
    assert [f.joint.kind for f in a_set.fixings] == [JointKind.PIN]


def test_a_swivel_turns_about_its_shank():
    pieces = """
  bolt: {bar: 3/8 rd, metal: [{keep: rest, name: shank}], path: [{eye: 3/4, name: eye}, {straight: 1 1/2}]}
  bow:
    bar: 3/4 x 1/4
    metal: [{keep: 4, name: bow}]
    holes: [{size: 7/16, by: punch, at: 2, face: front, name: hole}]"""
    a_set = put_together(job(pieces, "  - {pin: 3/8, through: [bolt.shank, bow.hole]}"))
    (pivot,) = a_set.pivots
    (end,) = spot_on(a_set.parts[0].piece, "end")  # of the straight
    assert norm(cross(pivot.axis, end.pose.x)) == pytest.approx(0.0, abs=1e-6)
    hole = then(pivot.lies, then(a_set.parts[1].pose, spot_on(a_set.parts[1].piece, "hole")[0].pose))
    off = [a - b for a, b in zip(hole.origin, end.pose.origin, strict=True)]
    assert norm(cross((off[0], off[1], off[2]), end.pose.x)) == pytest.approx(0.0, abs=1e-6)
    assert 0 < -dot((off[0], off[1], off[2]), end.pose.x) < 1.5 * INCH  # on the straight, not in the eye


# two pins


def test_two_pins_side_by_side_hold_fast_and_two_on_one_line_are_one_hinge():
    pieces = """
  one: {bar: 1 x 1/4, metal: [{keep: 6, name: all}], holes: [{size: 9/32, by: drill, at: 1, name: a}, {size: 9/32, by: drill, at: 3, name: b}]}
  two: {bar: 1 x 1/4, metal: [{keep: 6, name: all}], holes: [{size: 9/32, by: drill, at: 1, name: a}, {size: 9/32, by: drill, at: 3, name: b}]}"""  # noqa: E501 - a job's lines
    side = put_together(job(pieces, "  - {pin: 1/4, through: [one.a, two.a]}\n  - {pin: 1/4, through: [one.b, two.b]}"))
    assert (len(side.bodies), side.pivots) == (1, ())
    assert "two-pins-hold-fast" in [f.name for f in side.findings]
    assert "holes-off-line" not in [f.name for f in side.findings]
    again = put_together(
        job(pieces, "  - {pin: 1/4, through: [one.a, two.a]}\n  - {pin: 1/4, through: [one.a, two.a]}")
    )
    assert (len(again.bodies), len(again.pivots)) == (2, 1)
    assert "two-pins-hold-fast" not in [f.name for f in again.findings]


def test_eyes_that_stand_otherwise_than_the_lugs_they_go_on_are_found_out():
    # the lugs' pins stand about 8 apart on the rim, the bail's eyes 6 and a little
    pieces = """
  pail:
    sheet: 18 ga
    surface: {cylinder: {across: 8, height: 6, sizes: mean}}
    seam: {lap: 1/2}
    lugs: [{eye: 3/8, width: 3/4, on: top, divide: 2, name: lugs}]
  bail:
    bar: 5/16 rd
    metal: [{keep: rest}]
    path:
      - {eye: 3/8, turn: right, name: left eye}
      - {straight: 3}
      - {bend: 180, inside radius: 3, turn: left, name: crown}
      - {straight: 3}
      - {eye: 3/8, turn: right, name: right eye}"""
    joins = (
        "  - {pin: 5/16, through: [bail.left eye, pail.lugs 1]}\n"
        + "  - {pin: 5/16, through: [bail.right eye, pail.lugs 2]}"
    )
    a_set = put_together(job(pieces, joins))
    assert {"two-pins-hold-fast", "holes-off-line"} <= {f.name for f in a_set.findings}


CLEVIS = """
  clevis:
    bar: 1 x 3/8
    metal: [{keep: rest, name: bar}]
    path: [{straight: 2}, {bend: 180, inside radius: 1/2, turn: up, way: easy, name: bow}, {straight: 2}]
    holes:
      - {size: 1/2, by: punch, at: 1/2, face: front, name: left hole}
      - {size: 1/2, by: punch, at: 1/2 from the end, face: front, name: right hole}"""


@pytest.mark.parametrize(("inside", "stopped"), [("3", True), ("4", True), ("4 1/8", False)])
def test_a_ring_through_both_cheeks_of_a_clevis_must_be_flat_enough(inside: str, stopped: bool):
    # holes 1 + 3/8 apart that look at one another: a circle meets its chord under asin(chord / mean), a 3/8 wire leans
    # b in a 1/2 hole through 3/8, 3/8 = 1/2 cos b - 3/8 sin b: b = acos(3/5) - atan(3/4) = 16.26 degrees (exact); an
    # eighth of play shortens the chord: mean >= 1 1/4 / sin b = 4.464
    pieces = f"{CLEVIS}\n  ring: {{ring: 3/8 rd, inside across: {inside}, closed: welded}}"
    done = job(pieces, "  - {ring: ring, through: [clevis.left hole, clevis.right hole]}")
    row = rows(done)["ring through clevis.left hole and clevis.right hole", "goes through both"]
    assert row.needed / INCH == pytest.approx(1.25 / math.sin(math.acos(0.6) - math.atan(0.75)), rel=1e-4)
    found = [f for f in done.findings if f.name == "ring-through-two"]
    assert bool(found) is stopped
    assert all("Put a pin through both" in f.try_this and "4 1/16 in" in f.try_this for f in found)


def test_one_pin_goes_through_both_cheeks_of_a_clevis():
    pieces = (
        f"{CLEVIS}\n  rod: {{bar: 1/2 rd, metal: [{{keep: rest}}], path: [{{eye: 1/2, name: eye}}, {{straight: 6}}]}}"
    )
    done = job(pieces, "  - {pin: 7/16, through: [clevis.left hole, rod.eye, clevis.right hole]}")
    assert done.copy is not None
    assert [j.number for j in done.copy.job.joints] == [1]
    assert len(put_together(done).pivots) == 1


# what is tenoned in a plate on the wall


STAPLE = "  staple: {bar: 12 sq, metal: [{keep: 60, name: head}, {as: 8 rd, over: 15, name: tail}], holes: [{size: 12, by: slit and drift, at: 12, face: front, name: hole}]}\n"  # noqa: E501 - a job's line
PLATE = "  plate: {bar: 50 x 5, metal: [{keep: 80, name: plate}], holes: [{size: 8, by: punch, at: 40, face: front, name: middle}]}\n"  # noqa: E501 - a job's line
RING = "  ring: {ring: 10 rd, inside across: 150, closed: welded}"


@pytest.mark.parametrize("pieces", [STAPLE + PLATE, PLATE + STAPLE])
def test_the_eye_of_a_staple_lies_across_its_plate(pieces: str):
    joins = "  - {ring: ring, through: [staple.hole]}\n  - {tenon: 8, through: [staple.tail, plate.middle]}"
    a_set = put_together(job(pieces + RING, joins, "mm"))
    parts = {p.name: p for p in a_set.parts}
    hole = then(parts["staple"].pose, spot_on(parts["staple"].piece, "hole")[0].pose)
    along = then(parts["plate"].pose, spot_on(parts["plate"].piece, "plate")[0].pose).x
    assert dot(hole.z, along) == pytest.approx(0.0, abs=1e-9)


def test_a_tenon_as_thick_as_its_hole_runs_through_nothing():
    done = job(STAPLE + PLATE + RING, "  - {tenon: 8, through: [staple.tail, plate.middle]}", "mm")
    a_set = put_together(done)
    staple, plate = ((room_of(p.piece, SheetRules()), p.pose) for p in a_set.parts if p.name != "ring")
    assert run_through(*staple, *plate) == 0
    room, pose = plate
    aside = Pose(tuple(o + 0.006 * y for o, y in zip(pose.origin, pose.y, strict=True)), pose.x, pose.y)  # type: ignore[arg-type]
    assert run_through(*staple, room, aside) > 0


# several chains


def test_links_of_several_chains_are_beside_those_of_their_own():
    pieces = """
  top: {ring: 1/4 rd, inside across: 1 1/2}
  chain: {ring: 1/8 rd, inside across: 1/2, inside long: 1, closed: welded, chain: {links: 5}, make: 3}"""
    done = job(pieces, "  - {ring: chain 1, through: [top]}\n  - {ring: chain 6, through: [top]}")
    assert done.copy is not None
    all_ = {p.spec.name: p for p in done.copy.pieces}
    assert [neighbours(f"chain {n}", all_) for n in (1, 5, 6, 15)] == [
        ("chain 2",), ("chain 4",), ("chain 7",), ("chain 14",)]  # fmt: skip
    assert ("all in chain 6", "holds all") in rows(done)
    # both named links are the first of their chains: these two chains begin in the ring, the third where it will
    assert order(done)[1].startswith("chain (1 of 3): begin with one link.")
    on_the_end = "through the end link of the chain, then weld it."
    assert order(done)[2:] == (
        "Thread chain 1 through top, then weld it.", f"Thread each of chain 2, 3, 4 and 5 {on_the_end}",
        "Thread chain 6 through top, then weld it.", f"Thread each of chain 7, 8, 9 and 10 {on_the_end}",
    )  # fmt: skip


def test_a_chain_named_as_a_whole_is_asked_about():
    pieces = """
  a: {ring: 1/4 rd, inside across: 1 1/2}
  links: {ring: 1/4 rd, inside across: 1/2, inside long: 1, chain: {links: 5}}"""
    for joint in ("{ring: links, through: [a]}", "{ring: a, through: [links]}"):
        assert "which-link" in names(job(pieces, f"  - {joint}"))
    assert "which-link" not in names(job(pieces, "  - {ring: links 5, through: [a]}"))


def test_several_rings_told_by_one_name_are_told_of_as_such():
    pieces = """
  a: {ring: 1/4 rd, inside across: 1 1/2, closed: welded}
  d: {ring: 1/4 rd, inside across: 1 1/2, closed: welded, make: 3}"""
    assert order(job(pieces, "  - {ring: d, through: [a]}"))[-1] == "Thread each of the 3 d through a, then weld it."


# closed before it is threaded, in every way that a job can say it


CLOSED = """
  a: {ring: 1/4 rd, inside across: 1 1/2, closed: welded}
  b: {ring: 1/4 rd, inside across: 1 1/2, closed: welded}
  c: {ring: 1/4 rd, inside across: 1 1/2, closed: welded}
  links: {ring: 1/4 rd, inside across: 1/2, inside long: 1, closed: welded, chain: {links: 5}}
  hoop:
    bar: 1 x 1/4
    closed: welded
    metal: [{keep: rest}]
    path: [{hoop: {inside across: 8}, turn: up, way: easy}]
    holes: [{size: 3/8, by: punch, at: 2, face: front, name: hole}]
  hook: {bar: 5/16 rd, metal: [{keep: rest}], path: [{eye: 3/4, name: eye, welded: yes}, {straight: 3}]}
  cone:
    sheet: 20 ga
    surface: {cone: {base: 8, top: 3, height: 4, sizes: mean}}
    lugs: [{eye: 3/8, width: 3/8, on: top, divide: 1, name: lug}]"""


@pytest.mark.parametrize(
    ("joins", "name"),
    [
        ("  - {ring: a, through: [b]}", "closed-rings"),
        ("  - {ring: a, through: [b]}\n  - {ring: b, through: [a]}", "closed-rings"),
        ("  - {ring: a, through: [b]}\n  - {ring: b, through: [c]}\n  - {ring: c, through: [a]}", "closed-rings"),
        ("  - {ring: a, through: [hoop]}", "closed-rings"),
        ("  - {ring: hoop, through: [a]}", "closed-rings"),
        ("  - {ring: a, through: [links 3]}", "closed-rings"),
        ("  - {ring: links 1, through: [links 5]}", "closed-rings"),
        ("  - {ring: a, through: [hoop.hole]}", "thread-first"),
        ("  - {ring: a, through: [hook.eye]}", "thread-first"),
        ("  - {ring: a, through: [cone.lug]}", "thread-first"),
        ("  - {ring: links 5, through: [hook.eye]}", "links-by-turns"),
    ],
)
def test_a_ring_closed_before_it_is_threaded_is_a_finding(joins: str, name: str):
    done = job(CLOSED, joins)
    assert name in names(done)
    assert not [f for f in done.findings if f.weight is Weight.STOP]
    assert any("then weld it" in line for line in order(done))


# words for sizes


def test_a_number_screw_is_told_by_its_thousandths():
    # number 10 is .190 (0.060 + 10 x 0.013, from memory): in a hole of 3/16 = .1875 it lacks .0025
    pieces = "  p: {bar: 2 x 1/4, metal: [{keep: 4}], holes: [{size: 3/16, by: drill, at: 2, face: front, name: h}]}"
    done = job(pieces, "  - {screw: 10, through: [p.h]}")
    row = rows(done)["screw 3/16 (.190) through p.h", "fills"]
    assert (row.word, row.margin / INCH) == (FitWord.NO, pytest.approx(-0.0025, abs=1e-6))
    assert order(done) == ("Set the screw of 3/16 (.190) through p.h.",)


def test_one_hole_of_a_row_has_its_plate_too():
    pieces = """
  plate:
    bar: 1 1/2 x 3/8
    metal: [{keep: 8, name: plate}]
    holes: [{size: 3/8, by: punch, number: 2, at: 3, spacing: 2, face: front, name: row}]
  bar: {bar: 1/2 sq, metal: [{as: 3/8 rd, over: 3/4, name: tenon}, {keep: 6}]}"""
    done = job(pieces, "  - {tenon: 3/8, through: [bar.tenon, plate.row 2]}")
    assert done.copy is not None
    assert [j.grip / INCH for j in done.copy.joints] == [pytest.approx(3 / 8)]
    assert not {"grip-not-known", "tenon-length"} & set(names(done))  # 3/8 + one diameter of 3/8 is 3/4


# how many there are of what one joint names


@pytest.mark.parametrize(
    ("joint", "place", "needed"),
    [
        (
            "{ring: r, through: [leg.eye]}",
            "r",
            1 + 2 / math.sqrt(3),
        ),  # three eyes of 1/2 in one ring: circles in a circle
        ("{ring: d, through: [r]}", "r", 1 + 2 / math.sqrt(3)),  # three rings of 1/2 in one ring
        ("{ring: d, through: [hook.eye]}", "hook.eye", 1 + 2 / math.sqrt(3)),  # three rings of 1/2 in one eye
    ],
)
def test_all_of_several_lie_in_one_ring_or_eye_at_once(joint: str, place: str, needed: float):
    pieces = """
  r: {ring: 3/8 rd, inside across: 3}
  d: {ring: 1/2 rd, inside across: 3, make: 3}
  leg: {bar: 1/2 rd, metal: [{keep: rest}], path: [{eye: 1, turn: left, name: eye}, {straight: 9}], make: 3}
  hook: {bar: 3/8 rd, metal: [{keep: rest}], path: [{eye: 2, turn: left, name: eye}, {straight: 3}]}"""
    row = rows(job(pieces, f"  - {joint}"))[f"all in {place}", "holds all"]
    assert row.needed / INCH == pytest.approx(needed / 2, rel=1e-6)
    assert "3 of " in row.says


def test_as_many_rings_as_eyes_go_one_through_each():
    pieces = """
  d: {ring: 1/2 rd, inside across: 3, make: 3}
  leg: {bar: 1/2 rd, metal: [{keep: rest}], path: [{eye: 1, turn: left, name: eye}, {straight: 9}], make: 3}"""
    assert not [check for _, check in rows(job(pieces, "  - {ring: d, through: [leg.eye]}")) if check == "holds all"]


def test_a_ring_lies_along_a_slot():
    # 3/8 round, 2 inside, 1/2 plate: .407 the long way (1 - sqrt(1 - 1/16) = .0318 of curve), .375 across
    pieces = """
  r: {{ring: 3/8 rd, inside across: 2}}
  bar:
    bar: 1 x 1/2
    metal: [{{keep: 6}}]
    holes: [{{size: 13/32, long: {long}, by: slit and drift, at: 2, face: front, name: slot}}]"""
    joint = "  - {ring: r, through: [bar.slot]}"
    row = rows(job(pieces.format(long="1"), joint))["r through bar.slot", "goes through"]
    assert (row.word, row.needed / INCH) == (FitWord.FREE, pytest.approx(0.375))
    row = rows(job(pieces.format(long="7/16"), joint))["r through bar.slot", "goes through"]  # .0307 the long way: snug
    assert (row.word, row.needed / INCH) == (FitWord.NO, pytest.approx(0.375 + 1 - math.sqrt(1 - 1 / 16)))


@pytest.mark.parametrize(("inside", "first"), [("1", True), ("1 1/2", False)])
def test_a_ring_that_passes_neither_end_of_its_bar_is_threaded_first(inside: str, first: bool):
    # knobs of 1 1/4 at both ends; with one knob alone it is slid on from the other end
    rod = "{as: 1 1/4 rd, over: 1}, {as: 1/2 rd, over: 24, name: rod}"
    ring = f"  ring: {{ring: 3/16 rd, inside across: {inside}, closed: welded}}"
    both = f"  rod: {{bar: 3/4 rd, metal: [{rod}, {{as: 1 1/4 rd, over: 1}}]}}\n{ring}"
    one = f"  rod: {{bar: 3/4 rd, metal: [{rod}]}}\n{ring}"
    through = "  - {ring: ring, through: [rod.rod]}"
    assert ("thread-first" in names(job(both, through))) is first
    assert "thread-first" not in names(job(one, through))
