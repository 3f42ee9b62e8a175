"""The pieces put together: named places, single parts, rigid bodies, what moves, and what is said where it cannot be.

What is expected is exact mathematics on the sizes told in each job (circles, right angles, Pappus) or common practice
told as such in the rule's own words.
"""

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from bickern.desk.reckon import Reckoning, reckon_file, reckon_text
from bickern.geometry.pose import Pose, back, facing, put, then
from bickern.geometry.space import Vec, cross, distance, dot, minus, norm
from bickern.iron.steel import density_of
from bickern.measure.units.words import INCH
from bickern.parts.set.assemble import assemble
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import SetResult, Spot, SpotKind
from bickern.parts.set.spots.spots import spot_on

EXAMPLES = Path(__file__).parents[2] / "examples"
HAIR = 1e-6


def pieces_of(done: Reckoning) -> dict[str, PieceResult]:
    assert done.copy is not None, done.findings
    return {p.spec.name: p for p in done.copy.pieces}


def put_together(done: Reckoning) -> SetResult:
    assert done.copy is not None
    job = done.copy.job
    place, on = (job.hang.place, job.hang.on) if job.hang else ("", "")
    return assemble(pieces_of(done), job.joints, done.copy.joints, hung_from=place, on=on)


@cache
def example(name: str) -> SetResult:
    return put_together(reckon_file(EXAMPLES / f"{name}.yaml"))


@cache
def piece(name: str, what: str) -> PieceResult:
    return pieces_of(reckon_file(EXAMPLES / f"{name}.yaml"))[what]


def job(pieces: str, joins: str = "", units: str = "mm", hang: str = "") -> Reckoning:
    text = f"job: Trial\nunits: {units}\npieces:\n{pieces}"
    text += f"joins:\n{joins}" if joins else ""
    return reckon_text(text + (f"hang: {hang}\n" if hang else ""), "trial.yaml")


def spot(name: str, what: str, place: str) -> Spot:
    found = spot_on(piece(name, what), place)
    assert len(found) == 1
    return found[0]


def there(a_set: SetResult, part: str, place: str) -> list[Spot]:
    """A part's places in the coordinates of its body (poses alone are moved)."""
    one = next(p for p in a_set.parts if p.name == part)
    return [_moved(s, one.pose) for s in spot_on(one.piece, place)]


def _moved(place: Spot, pose: Pose) -> Spot:
    return Spot(place.name, place.kind, then(pose, place.pose), place.opening, place.plate)


def names(a_set: SetResult) -> list[str]:
    return [f.name for f in a_set.findings]


# ---- places on a bar


def test_a_bend_is_a_row_of_places_on_a_circle_five_degrees_apart_at_most():
    seat = spot("rail-s-hook", "hook", "rail bend").seat
    assert seat is not None
    centre = np.array((seat.points[0] + seat.points[-1]) / 2)  # a half circle: its middle is half way between its ends
    radius = np.linalg.norm(seat.points - centre, axis=1)
    assert radius == pytest.approx(np.full(len(radius), 0.5 * INCH + 0.125 * INCH), abs=1e-9)
    turns = np.einsum("ij,ij->i", seat.along[:-1], seat.along[1:])
    assert np.degrees(np.arccos(turns.min())) <= 5 + 1e-6
    # the taper of 1 1/2 ends inside the bend of 1.963: the far end of it is full bar
    assert seat.half[-1] == pytest.approx((0.125 * INCH, 0.125 * INCH))
    assert not seat.square
    assert not seat.closed


def test_the_places_of_a_straight_tell_how_its_section_lies():
    found = spot("ladle", "handle", "palm")
    assert found.kind is SpotKind.BAR
    assert found.pose.origin == pytest.approx((0.625 * INCH, 0.0, 0.0), abs=HAIR)
    assert found.plate == pytest.approx(INCH / 8)
    assert found.seat is not None
    assert found.seat.half[1] == pytest.approx((7 / 16 * INCH, INCH / 16))
    assert found.seat.square


def test_a_hole_lies_where_it_is_told_and_looks_out_of_its_face():
    hole = spot("ring-pull", "boss", "hole")
    assert hole.kind is SpotKind.OPENING
    assert hole.pose.origin == pytest.approx((0.5 * INCH, 0.0, 0.0), abs=HAIR)
    assert hole.pose.z == pytest.approx((0.0, 0.0, 1.0))
    assert (hole.opening, hole.plate) == pytest.approx((9 / 16 * INCH, 5 / 8 * INCH))
    assert hole.seat is not None
    assert np.linalg.norm(hole.seat.points - np.array(hole.pose.origin), axis=1) == pytest.approx(9 / 32 * INCH)
    assert not hole.seat.half.any()


def test_a_hole_through_the_side_runs_sideways():
    bar = "  bar:\n    bar: 20 x 10\n    metal: [{keep: 100, name: all}]\n"
    bar += "    holes: [{size: 5, by: drill, at: 50, face: left, name: side}]\n"
    hole = spot_on(pieces_of(job(bar))["bar"], "side")[0]
    assert hole.pose.z == pytest.approx((0.0, 1.0, 0.0))
    assert hole.plate == pytest.approx(0.020)


def test_a_twist_turns_the_holes_behind_it():
    """1 1/2 turns leave the bar with its reference face down; half way through the twist it has turned by half."""
    upper, lower = spot("leaf-coat-hook", "hook", "upper screw"), spot("leaf-coat-hook", "hook", "lower screw")
    assert dot(upper.pose.z, lower.pose.z) == pytest.approx(-1.0)
    seat = spot("leaf-coat-hook", "hook", "twisted part").seat
    assert seat is not None
    middle = int(np.argmin(np.abs(seat.points[:, 0] - seat.points[:, 0].mean())))
    turned = math.radians(0.75 * 360)
    assert seat.up[middle] == pytest.approx((0.0, -math.sin(turned), math.cos(turned)), abs=1e-6)


def test_an_eye_is_metal_round_an_opening():
    eye = spot("crane-chain", "hook", "eye")
    assert eye.kind is SpotKind.EYE
    assert eye.opening == pytest.approx(0.75 * INCH)
    assert eye.seat is not None
    assert eye.seat.closed
    radius = np.linalg.norm(eye.seat.points - np.array(eye.pose.origin), axis=1)
    assert radius == pytest.approx(np.full(len(radius), (0.75 + 0.375) / 2 * INCH), abs=1e-9)
    assert abs(eye.pose.z[2]) == pytest.approx(1.0)  # it is bent to the left: its axis is the bar's up


def test_a_hoop_is_a_ring_and_its_holes_stand_evenly_round():
    hoop = spot("trivet", "hoop", "")
    assert hoop.kind is SpotKind.RING
    assert hoop.opening == pytest.approx(6.5 * INCH, abs=1e-5)
    holes = spot_on(piece("trivet", "hoop"), "leg holes")
    side = 2 * (3.375 * INCH) * math.sin(math.pi / 3)  # three holes on a circle of 3 3/8 to the middle of the band
    pairs = ((0, 1), (1, 2), (2, 0))
    assert [distance(holes[a].pose.origin, holes[b].pose.origin) for a, b in pairs] == pytest.approx([side] * 3)
    assert spot_on(piece("trivet", "hoop"), "leg holes 2")[0].pose == holes[1].pose


@pytest.mark.parametrize("place", ["nothing", "leg holes 4", "start of nothing", "leg holes 0"])
def test_a_place_that_is_not_there_is_none(place: str):
    assert spot_on(piece("trivet", "hoop"), place) == ()


def test_ends_and_middles():
    handle = piece("ladle", "handle")
    assert spot_on(handle, "start")[0].pose.origin == pytest.approx((0.0, 0.0, 0.0), abs=HAIR)
    assert spot_on(handle, "end of palm")[0].pose.origin == pytest.approx((1.25 * INCH, 0.0, 0.0), abs=HAIR)
    # the hook is bent on half a circle of the bar's middle line, toward the back
    start, end = (spot_on(handle, f"{s} of hook")[0].pose for s in ("start", "end"))
    assert dot(start.x, end.x) == pytest.approx(-1.0)
    assert end.origin[2] < start.origin[2]


def test_places_on_limbs_are_told_from_the_bar_that_they_grow_from():
    bar = "  fork:\n    bar: 20 x 10\n    metal: [{keep: 100, name: stem}]\n    split:\n"
    tine = "      {}:\n        metal: [{{keep: 50, name: {} tine}}]\n"
    fork = pieces_of(job(bar + tine.format("left", "left") + tine.format("right", "right")))["fork"]
    found = spot_on(fork, "left tine")
    assert len(found) == 1
    assert found[0].pose.origin[0] == pytest.approx(0.125, abs=HAIR)
    assert spot_on(fork, "left")[0].kind is SpotKind.BAR


# ---- rings


def test_an_oval_link_is_two_half_circles_and_two_straights():
    link = spot("crane-chain", "links", "")
    assert link.seat is not None
    radius, half = (0.75 + 0.3125) / 2 * INCH, (1.375 - 0.75) / 2 * INCH
    x, y = link.seat.points[:, 0], link.seat.points[:, 1]
    off = np.where(np.abs(x) > half, np.hypot(np.abs(x) - half, y), np.abs(y))
    assert off == pytest.approx(np.full(len(off), radius))
    assert np.ptp(x) == pytest.approx(2 * (half + radius))
    steps = np.linalg.norm(np.roll(link.seat.points, -1, axis=0) - link.seat.points, axis=1)
    assert steps.min() > 0


def test_a_finished_ring_weighs_its_middle_line():
    """Pappus: the section's area by the way of its middle; the weld's share is lost in the fire."""
    ring = next(p for p in example("ring-pull").parts if p.name == "ring")
    volume = math.pi / 4 * (0.5 * INCH) ** 2 * math.pi * 4 * INCH
    assert ring.mass == pytest.approx(volume * density_of("S235JR"))
    assert ring.centre == (0.0, 0.0, 0.0)


# ---- sheet


def test_lugs_and_holes_of_the_hood_stand_where_they_are_divided():
    hood = piece("porch-lantern", "hood")
    holes = spot_on(hood, "post holes")
    slope = math.atan2(4, 3.25)
    up, far = 2.375 * math.sin(slope) * INCH, (4 - 2.375 * math.cos(slope)) * INCH
    for i, hole in enumerate(holes):
        turn = math.radians(45 + 90 * i)
        assert hole.pose.origin == pytest.approx((far * math.cos(turn), far * math.sin(turn), up), abs=1e-5)
        assert dot(hole.pose.z, (math.cos(turn), math.sin(turn), 0.0)) == pytest.approx(math.sin(slope), abs=1e-4)
    lugs = spot_on(hood, "lugs")
    assert [lug.kind for lug in lugs] == [SpotKind.EYE] * 2
    assert spot_on(hood, "lugs 2")[0].pose == lugs[1].pose
    assert abs(dot(lugs[0].pose.z, (1.0, 0.0, 0.0))) == pytest.approx(1.0)  # along the rim, a quarter from the seam
    assert lugs[0].plate == pytest.approx(5 / 16 * INCH)


@pytest.mark.parametrize(("place", "across", "up"), [("top", 1.5, 4.0), ("rim", 1.5, 4.0), ("bottom", 8.0, 0.0)])
def test_a_rim_is_a_closed_line(place: str, across: float, up: float):
    rim = spot("porch-lantern", "hood", place)
    assert rim.seat is not None
    assert rim.seat.closed
    assert np.hypot(rim.seat.points[:, 0], rim.seat.points[:, 1]) == pytest.approx(across / 2 * INCH, abs=1e-5)
    assert rim.seat.points[:, 2] == pytest.approx(up * INCH, abs=1e-5)


def test_faces_of_sheet():
    assert spot("porch-lantern", "tray", "").pose.z == pytest.approx((0.0, 0.0, -1.0))
    back = spot("fire-set", "pan", "back").pose
    assert back.z == pytest.approx((0.0, 1.0, 0.0), abs=1e-6)
    assert spot_on(piece("fire-set", "pan"), "front") == ()  # it is open in front
    assert spot("ladle", "bowl", "rim").opening == pytest.approx(4 * INCH, abs=1e-4)


# ---- what moves


def test_a_chain_is_its_links_each_in_the_next():
    chain = example("crane-chain")
    assert [p.name for p in chain.parts] == [*(f"links {i}" for i in range(1, 14)), "top ring", "hook"]
    pairs = {frozenset(chain.parts[i].name for i in link.parts) for link in chain.links}
    assert len(chain.links) == len(pairs) == 14
    assert {f"links {i}" for i in (6, 7)} in pairs
    assert {"top ring", "links 1"} in pairs
    assert {"links 13", "hook"} in pairs
    assert chain.held is not None
    assert chain.parts[chain.held.part].name == "top ring"
    assert chain.findings == ()


def test_a_ring_hangs_in_the_hole_that_it_goes_through():
    pull = example("ring-pull")
    (link,) = pull.links
    assert [s.kind for s in link.spots] == [SpotKind.OPENING, SpotKind.RING]
    assert [pull.bodies[b].name for b in (link.first, link.second)] == ["boss", "ring"]
    assert len(pull.bodies) == 2


def test_rings_as_many_as_places_go_one_through_each():
    plate = "  plate:\n    bar: 40 x 8\n    metal: [{keep: 200, name: bar}]\n"
    plate += "    holes: [{size: 12, by: drill, at: middle of bar, divide: 3, name: eyes}]\n"
    rings = "  rings:\n    ring: 6 rd\n    inside across: 40\n    make: 3\n"
    made = put_together(job(plate + rings, "  - {ring: rings, through: [plate.eyes]}\n"))
    assert [link.spots[0].name for link in made.links] == ["eyes 1", "eyes 2", "eyes 3"]
    assert len({link.second for link in made.links}) == 3


def test_two_halves_turn_on_one_rivet_one_turned_over():
    tongs = example("bolt-tongs")
    (pivot,) = tongs.pivots
    assert pivot.point == pytest.approx((3 * INCH, 0.0, 0.0), abs=HAIR)
    assert pivot.axis == pytest.approx((0.0, 0.0, 1.0))
    assert pivot.lies.x == pytest.approx((1.0, 0.0, 0.0))
    assert pivot.lies.z == pytest.approx((0.0, 0.0, -1.0))  # turned over
    hole = then(pivot.lies, spot_on(tongs.parts[1].piece, "rivet hole")[0].pose)
    assert hole.origin == pytest.approx((3 * INCH, 0.0, -0.375 * INCH), abs=HAIR)  # 3/8 on 3/8: faces touch
    assert tongs.fixings[0].grip == pytest.approx(0.75 * INCH)
    weights = sum(b.mass for b in tongs.bodies) - sum(p.mass for p in tongs.parts)
    assert weights == pytest.approx(tongs.fixings[0].mass)
    assert weights > 0


def test_a_pin_lets_two_parts_turn_and_holds_nothing_stiff():
    halves = "  strap:\n    bar: 30 x 5\n    metal: [{keep: 100, name: all}]\n    make: 2\n"
    halves += "    holes: [{size: 8, by: drill, at: 20, face: front, name: eye}]\n"
    made = put_together(job(halves, "  - {pin: 7, through: [strap 1.eye, strap 2.eye]}\n"))
    assert len(made.bodies) == 2
    assert len(made.pivots) == 1
    alone = put_together(job(halves, "  - {pin: 7, through: [strap 1.eye]}\n"))
    assert "pin-turns-nothing" in names(alone)


# ---- what is stiff


def faces_touch(a_set: SetResult, one: Spot, two: Spot, off: float = 0.0) -> None:
    """Two holes on one line, their metal side by side, or so far [m] apart."""
    way = minus(one.pose.origin, two.pose.origin)
    assert norm(cross(way, two.pose.z)) == pytest.approx(0.0, abs=1e-6)
    assert abs(dot(one.pose.z, two.pose.z)) == pytest.approx(1.0, abs=1e-9)
    assert abs(dot(way, two.pose.z)) == pytest.approx((one.plate + two.plate) / 2 + off, abs=1e-6)


def test_legs_stand_on_the_hoop_s_holes_all_to_one_side_and_outside_it():
    trivet = example("trivet")
    assert len(trivet.bodies) == 1
    assert len(trivet.fixings) == 3
    hoop = there(trivet, "hoop", "leg holes")
    middle = put(Pose(), there(trivet, "hoop", "")[0].pose.origin)
    ways: list[Vec] = []
    for i in range(3):
        (hole,) = there(trivet, f"leg {i + 1}", "rivet hole")
        faces_touch(trivet, hole, hoop[i])
        assert distance(hole.pose.origin, middle) == pytest.approx(3.5 * INCH + INCH / 8, abs=1e-6)
        ways.append(hole.pose.x)
    assert np.array(ways) == pytest.approx(np.array([ways[0]] * 3), abs=1e-9)
    body = trivet.bodies[0]
    assert body.mass == pytest.approx(sum(p.mass for p in trivet.parts) + sum(f.mass for f in trivet.fixings))
    assert (body.centre[0], body.centre[2]) == pytest.approx((middle[0], middle[2]), abs=1e-5)


def test_two_rivets_turn_a_part_to_their_own_line():
    bars = "  rail:\n    bar: 40 x 6\n    metal: [{keep: 400, name: all}]\n"
    bars += "    holes: [{size: 6, by: drill, at: 100, number: 2, spacing: 50, name: holes here}]\n"
    bars += "  arm:\n    bar: 30 x 5\n    metal: [{keep: 200, name: all}]\n"
    bars += "    holes: [{size: 6, by: drill, at: 20, number: 2, spacing: 50, name: own}]\n"
    joins = "  - {rivet: 6, through: [arm.own, rail.holes here]}\n"
    made = put_together(job(bars, joins))
    for one, two in zip(there(made, "arm", "own"), there(made, "rail", "holes here"), strict=True):
        faces_touch(made, one, two)
        assert one.pose.origin[2] == pytest.approx(0.0055)  # named first: in front
    assert made.findings == ()
    apart = put_together(job(bars.replace("at: 20, number: 2, spacing: 50", "at: 20, number: 2, spacing: 53"), joins))
    (said,) = apart.findings
    assert said.name == "holes-off-line"
    assert "3 mm" in said.says


def test_a_tenon_stands_in_its_hole_to_the_shoulder():
    fire = example("fire-set")
    body = next(b for b in fire.bodies if b.name == "stand post")
    assert [fire.parts[i].name for i in body.parts] == ["stand post", "stand foot 1", "stand foot 2"]
    shoulder = 30 * INCH - 7 / 8 * INCH
    first, second = (there(fire, f"stand foot {i}", "tenon hole")[0].pose for i in (1, 2))
    assert first.origin == pytest.approx((shoulder + INCH / 8, 0.0, 0.0), abs=1e-6)
    assert second.origin == pytest.approx((shoulder + 3 / 8 * INCH, 0.0, 0.0), abs=1e-6)
    assert abs(dot(first.x, second.x)) == pytest.approx(0.0, abs=1e-6)  # they cross: each has its room


def test_ends_are_welded_in_one_line_and_collared_bars_lie_side_by_side():
    bars = "".join(f"  {n}:\n    bar: 20 x 10\n    metal: [{{keep: 100, name: all}}]\n" for n in ("one", "two"))
    welded = put_together(job(bars, "  - {weld: [one.end, two.start]}\n"))
    assert welded.parts[1].pose.origin == pytest.approx((0.1, 0.0, 0.0), abs=HAIR)
    assert welded.parts[1].pose.x == pytest.approx((1.0, 0.0, 0.0))
    held = put_together(job(bars, "  - {collar: 10 x 3, round: [one.middle, two.middle]}\n"))
    assert len(held.bodies) == 1
    assert facing(held.parts[1].pose, (1.0, 0.0, 0.0)) == pytest.approx((1.0, 0.0, 0.0))
    assert abs(held.parts[1].pose.origin[2]) == pytest.approx(0.010)  # wide faces together
    (collar,) = held.fixings
    assert (collar.across, collar.high) == pytest.approx((0.020, 0.020))
    assert collar.pose.origin[0] == pytest.approx(0.05)


# ---- the lantern


def test_the_lantern_is_an_arm_three_rings_and_one_stiff_lantern():
    lantern = example("porch-lantern")
    assert [b.name for b in lantern.bodies] == ["arm", "hood", "links 1", "links 2", "links 3"]
    hood = lantern.bodies[1]
    assert {lantern.parts[i].name for i in hood.parts} == {"hood", "tray", *(f"post {i}" for i in (1, 2, 3, 4))}
    assert {tuple(s.name for s in link.spots) for link in lantern.links} >= {("lugs 1", "links"), ("lugs 2", "links")}
    assert lantern.held is not None
    assert lantern.held.on == "wall"
    assert lantern.loose == ()


def test_the_posts_hang_plumb_inside_the_hood_and_the_tray_lies_level_on_their_feet():
    lantern = example("porch-lantern")
    holes = there(lantern, "hood", "post holes")
    tray = next(p for p in lantern.parts if p.name == "tray")
    assert tray.pose.z == pytest.approx((0.0, 0.0, 1.0), abs=1e-9)
    assert tray.pose.origin[:2] == pytest.approx((0.0, 0.0), abs=1e-6)
    # a flat of 3/8 in bears with its edges in the hollow: the hood there is round about a radius of (4 - 3 1/4 of the
    # way up) / cos of its slope, along the way through the skin, to its inside (exact mathematics)
    slant = math.hypot(4.0, 3.25)
    hollow = (4 - 3.25 * 2.375 / slant) * slant / 4 - lantern.parts[1].piece.spec.thick / INCH / 2
    off = (hollow - math.sqrt(hollow**2 - (3 / 16) ** 2)) * INCH
    assert off == pytest.approx((3 / 8) ** 2 / (8 * hollow) * INCH, rel=2e-3)
    for i in range(4):
        (ear,) = there(lantern, f"post {i + 1}", "ear hole")
        faces_touch(lantern, ear, holes[i], off)
        assert norm(ear.pose.origin) < norm(holes[i].pose.origin)  # inside
        (upright,) = there(lantern, f"post {i + 1}", "upright")
        # the ear is bent 39 degrees and the hood slopes atan(3.25 / 4) = 39.09 from plumb
        assert upright.pose.x[2] == pytest.approx(1.0, abs=1e-5)
        (foot,) = there(lantern, f"post {i + 1}", "foot hole")
        gap = abs(dot(minus(foot.pose.origin, tray.pose.origin), tray.pose.z)) - (foot.plate + 0.0478 * INCH) / 2
        assert gap == pytest.approx(0.0, abs=2e-5)
        assert foot.pose.origin[2] < tray.pose.origin[2]  # named first: outermost, so under it
        # the tray's sides stand before the posts: its corners would be in their way
        level = norm((*foot.pose.origin[:2], 0.0))
        assert max(abs(dot(way, foot.pose.origin)) for way in (tray.pose.x, tray.pose.y)) == pytest.approx(
            level, rel=1e-3
        )
    assert names(lantern) == ["taken-for-granted"]
    assert hood_balance(lantern) == pytest.approx((0.0, 0.0), abs=2e-3)


def hood_balance(lantern: SetResult) -> tuple[float, float]:
    """How far off its axis the hood with all that is riveted to it balances [m]: only its lap lies to one side."""
    return lantern.bodies[1].centre[:2]


def test_the_arm_lies_in_one_upright_plane_its_scroll_on_the_palm_s_side():
    arm = piece("porch-lantern", "arm")
    scroll, palm, run = (spot_on(arm, place)[0] for place in ("scroll", "palm", "run"))
    assert scroll.seat is not None
    across = cross(run.pose.x, palm.pose.x)
    assert np.abs(scroll.seat.points @ np.array(across)).max() < 1e-6
    below = (scroll.seat.points - np.array(run.pose.origin)) @ np.array(palm.pose.x)
    assert below.max() > 2 * INCH
    assert below.min() > -0.3 * INCH
    # the front of the palm looks along the arm, away from the wall
    assert dot(palm.pose.z, run.pose.x) == pytest.approx(-1.0, abs=1e-6)


# ---- sheet that names no place


def test_a_palm_lies_against_the_outside_of_a_bowl_and_its_handle_goes_up_and_out():
    ladle = example("ladle")
    assert len(ladle.bodies) == 1
    assert names(ladle) == ["taken-for-granted"]
    holes = there(ladle, "handle", "rivet holes")
    bowl = next(p for p in ladle.parts if p.name == "bowl").pose
    ball = (2**2 + 1.25**2) / (2 * 1.25) * INCH
    centre = put(bowl, (0.0, 0.0, ball))
    touch = tuple((a + b) / 2 for a, b in zip(holes[0].pose.origin, holes[1].pose.origin, strict=True))
    apart = (0.0598 + 0.125) / 2 * INCH
    assert distance((touch[0], touch[1], touch[2]), centre) == pytest.approx(ball + apart, abs=1e-5)
    up = facing(bowl, (0.0, 0.0, 1.0))
    (end,) = there(ladle, "handle", "middle of run")
    assert dot(minus(end.pose.origin, bowl.origin), up) > 2 * INCH
    out = minus(end.pose.origin, bowl.origin)
    assert norm(minus(out, facing(bowl, (0.0, 0.0, dot(out, up))))) > 4 * INCH
    (hook,) = there(ladle, "handle", "hook")
    assert distance(hook.pose.origin, centre) > distance(end.pose.origin, centre)


def test_a_shovel_s_palm_lies_under_its_pan_the_handle_at_the_back():
    fire = example("fire-set")
    body = next(b for b in fire.bodies if b.name == "shovel")
    pan = next(fire.parts[i] for i in body.parts if fire.parts[i].name == "pan")
    holes = there(fire, "shovel", "rivet holes")
    assert dot(minus(holes[0].pose.origin, pan.pose.origin), pan.pose.z) == pytest.approx(
        -(0.0598 + 0.125) / 2 * INCH, abs=1e-5
    )
    (eye,) = there(fire, "shovel", "eye")
    assert dot(minus(eye.pose.origin, pan.pose.origin), pan.pose.y) > 20 * INCH
    assert abs(dot(minus(eye.pose.origin, pan.pose.origin), pan.pose.x)) < 1e-5
    assert "taken-for-granted" in names(fire)


# ---- what is said


def test_parts_that_nothing_joins_are_named_once():
    (said,) = [f for f in example("fire-set").findings if f.name == "loose"]
    assert "poker" in said.says
    assert "stand hook" in said.says
    assert "shovel" not in said.says
    loose = {example("fire-set").parts[i].name for i in example("fire-set").loose}
    assert {"poker", "rake", "brush holder", "stand hook 4"} <= loose


def test_a_job_without_joins_says_nothing_of_loose_parts():
    triangle = example("dinner-triangle")
    assert [triangle.parts[i].name for i in triangle.loose] == ["striker"]
    assert triangle.findings == ()


def test_a_place_that_cannot_be_found_is_said_and_left_out():
    done = reckon_file(EXAMPLES / "crane-chain.yaml")
    assert done.copy is not None
    joints = [j for j in done.copy.job.joints if "hook.eye" in j.through]
    wrong = type(joints[0])(joints[0].kind, ("hook.nothing",), "links 13")
    made = assemble(pieces_of(done), [wrong], hung_from="hook.nowhere")
    assert [f.name for f in made.findings if f.name == "place-not-found"] == ["place-not-found"] * 2
    assert made.held is None


@pytest.mark.parametrize("name", ["crane-chain", "porch-lantern", "fire-set", "ladle", "trivet", "bolt-tongs"])
def test_every_part_and_every_rivet_has_a_solid(name: str):
    from bickern.geometry.solid.weigh import is_closed, volume
    from bickern.parts.set.solids import body_solids, kept_solid

    a_set = example(name)
    of_bodies = body_solids(a_set, [kept_solid(part.piece) for part in a_set.parts])
    solids = [one for row in of_bodies.values() for one in row]
    assert {p.name for p in a_set.parts} <= {s.name for s in solids}
    assert len(solids) == len(a_set.parts) + len(a_set.fixings)
    assert len({s.name for s in solids}) == len(solids)
    assert all(is_closed(s.solid) and volume(s.solid) > 0 for s in solids)


def test_the_set_is_the_same_in_inches_and_in_millimetres():
    """25.4 and its multiples are 1 and its multiples."""
    bars = "  rail:\n    bar: {w} x {t}\n    metal: [{{keep: {l}, name: all}}]\n"
    bars += "    holes: [{{size: {d}, by: drill, at: {a}, number: 2, spacing: {s}, name: row}}]\n"
    bars += "  arm:\n    bar: {t} rd\n    metal: [{{keep: {l}, name: all}}]\n    make: 2\n"
    bars += "    holes: [{{size: {d}, by: drill, at: {s}, face: front, name: own}}]\n"
    joins = "  - {{rivet: {d}, through: [rail.row, arm.own]}}\n"
    inches = {"w": "2", "t": "1", "l": "10", "d": "1/4", "a": "3", "s": "2"}
    metric = {"w": "50.8", "t": "25.4", "l": "254", "d": "6.35", "a": "76.2", "s": "50.8"}
    one = put_together(job(bars.format(**inches), joins.format(**inches), "in"))
    two = put_together(job(bars.format(**metric), joins.format(**metric), "mm"))
    for a, b in zip(one.parts, two.parts, strict=True):
        assert np.array((a.pose.origin, a.pose.x, a.pose.y)) == pytest.approx(
            np.array((b.pose.origin, b.pose.x, b.pose.y)), abs=1e-9
        )
    assert one.bodies[0].centre == pytest.approx(two.bodies[0].centre, abs=1e-9)
    # named second, they lie behind the rail; each hole takes its own arm, square across it
    assert [p.pose.origin[2] for p in one.parts[1:]] == pytest.approx([-INCH] * 2)
    assert [abs(p.pose.x[1]) for p in one.parts[1:]] == pytest.approx([1.0] * 2)


def test_a_ring_that_is_welded_on_touches_with_its_outside():
    bar = "  bar:\n    bar: 12 rd\n    metal: [{keep: 100, name: all}]\n"
    ring = "  ring:\n    ring: 6 rd\n    inside across: 40\n"
    made = put_together(job(bar + ring, "  - {weld: [bar.end, ring]}\n"))
    ring_pose = made.parts[1].pose
    assert len(made.bodies) == 1
    assert ring_pose.origin[0] == pytest.approx(0.1 + 0.026)
    assert ring_pose.z[0] == pytest.approx(0.0, abs=1e-9)


def test_legs_on_a_pan_that_has_no_holes_stand_toward_its_corners_and_hang_down():
    pan = "  pan:\n    sheet: 1.5\n"
    pan += "    surface: {pan: {long: 200, wide: 200, high: 20, inside radius: 2, sizes: outside}}\n"
    leg = "  leg:\n    bar: 20 x 5\n    metal: [{keep: 150, name: all}]\n    make: 4\n    path:\n"
    leg += "      - {straight: 30, name: foot}\n      - {bend: 90, inside radius: 5, turn: down}\n"
    leg += "      - {straight: rest}\n"
    leg += "    holes: [{size: 5, by: drill, at: 15, face: front, name: hole}]\n"
    made = put_together(job(pan + leg, "  - {rivet: 5, through: [leg.hole, pan], number: 4}\n"))
    assert names(made) == ["taken-for-granted"]
    for i in range(4):
        (hole,) = there(made, f"leg {i + 1}", "hole")
        assert abs(hole.pose.origin[0]) == pytest.approx(abs(hole.pose.origin[1]))
        assert hole.pose.origin[2] == pytest.approx(-(0.0015 + 0.005) / 2)
        assert put(made.parts[1 + i].pose, made.parts[1 + i].centre)[2] < -0.03


HOOKS = """  hoop: {bar: 6 rd, metal: [{keep: rest}], closed: welded, path: [{hoop: {inside across: 300}}]}
  hook:
    bar: 6 rd
    metal: [{keep: rest}]
    path:
      - {straight: 12}
      - {bend: 180, inside radius: 12, turn: left, name: rail bend}
      - {straight: 40}
      - {bend: 180, inside radius: 12, turn: right, name: pan bend}
      - {straight: 12}
    make: 6
  staple:
    bar: 6 rd
    metal: [{keep: rest}]
    path:
      - {straight: 50}
      - {bend: 90, inside radius: 6, turn: left}
      - {straight: 24, name: crown}
      - {bend: 90, inside radius: 6, turn: left}
      - {straight: 50}
"""


def test_six_hooks_hang_on_one_hoop_each_by_its_own_bend():
    apart = "".join(f"  - {{hook: hook {n}.rail bend, on: hoop}}\n" for n in range(1, 7))
    for joins in (apart, "  - {hook: hook.rail bend, on: hoop}\n"):
        made = put_together(job(HOOKS, joins))
        assert len(made.links) == 6
        assert {made.parts[link.parts[1]].name for link in made.links} == {f"hook {n}" for n in range(1, 7)}
        assert {made.parts[link.parts[0]].name for link in made.links} == {"hoop"}
        assert [made.parts[i].name for i in made.loose] == ["staple"]


def test_a_staple_holds_by_its_crown_and_the_bends_beside_it():
    made = put_together(job(HOOKS, "  - {hook: staple.crown, on: hoop}\n"))
    seat = made.links[0].seats[1]
    # the crown's 24 mm and a quarter circle of 6 + 3 mm on either side: its middle lines stand 24 + 2 x 9 mm apart
    assert np.ptp(seat.points, axis=0).max() == pytest.approx(0.042)


@pytest.mark.parametrize(("order", "outside"), [("[tube.holes, post.hole]", False), ("[post.hole, tube.holes]", True)])
def test_a_flat_ear_touches_the_hollow_of_a_tube_with_its_edges_and_its_round_with_its_middle(order, outside):
    pieces = """  tube: {sheet: 2, surface: {cylinder: {across: 102, height: 100, sizes: outside}},
    holes: [{size: 5, up: 50, divide: 1}]}
  post: {bar: 40 x 4, metal: [{keep: 100}], holes: [{size: 5, by: drill, at: 30, face: front, name: hole}]}
"""
    made = put_together(job(pieces, f"  - {{rivet: 5, through: {order}}}\n"))
    tube, post = made.parts
    turned = made.pivots[0].lies
    lies = back(then(turned, tube.pose)) if made.pivots[0].first == post.body else then(turned, post.pose)
    middle = put(lies, spot_on(post.piece, "hole")[0].pose.origin)
    # skin from 49 to 51 mm: the ear's edges, 20 mm to either side, touch the hollow at sqrt(49^2 - 20^2) mm
    want = 51 + 2 if outside else math.sqrt(49**2 - 20**2) - 2
    assert math.hypot(middle[0], middle[1]) == pytest.approx(want / 1000, abs=1e-6)
