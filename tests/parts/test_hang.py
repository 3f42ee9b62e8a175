"""How things hang, against closed forms: exact mathematics from the sizes, worked out beside each."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hung_sets import of_example, of_job

from bickern.geometry.pose import HERE, Pose, put, put_all, seen
from bickern.measure.units.words import Style, System
from bickern.parts.hang.friction import IRON_ON_IRON, band
from bickern.parts.hang.hang import hang, held_at
from bickern.parts.hang.settle import Hung, Load, settle
from bickern.parts.hang.track import OVER, UNDER, bearing, track_of
from bickern.parts.set.result import Seat, SetResult
from bickern.parts.set.spots.seats import ring_seat

INCH = 0.0254
UP = (0.0, 0.0, 1.0)


def even_hook(thick: str = "1/4 rd", *, held: str = "rail") -> str:
    """The rail hook without its points: one thickness all along, so that nothing but the bends decides."""
    return f"""
job: Hook
units: in
pieces:
  hook:
    bar: {thick}
    metal: [{{keep: rest, name: all}}]
    path:
      - {{straight: 1/2}}
      - {{bend: 180, inside radius: 1/2, turn: left, name: rail bend}}
      - {{straight: 1 1/2, name: shank}}
      - {{bend: 180, inside radius: 1/2, turn: right, name: pan bend}}
      - {{straight: 1/2}}
hang: {{from: hook.rail bend, on: {held}}}
"""


def test_an_s_hook_rests_with_its_bends_in_line():
    found = hang(of_job(even_hook())).tilts[0]
    assert (found.of, found.off) == ("hook, shank", "plumb")
    assert math.degrees(found.angle) == pytest.approx(39.806, abs=0.01)  # atan(1.25 / 1.5)
    assert found.toward == "its upper end leans to the side of the rail bend"


def test_an_s_hook_can_be_held_by_friction():
    """The contact may lean 26.57 degrees: sin(turn) = r sin(lean) / (half the way between the bends' middles)."""
    found = hang(of_job(even_hook()), friction=0.5).tilts[0]
    turn = math.degrees(math.asin(0.5 * math.sin(math.atan(0.5)) / (math.hypot(1.25, 1.5) / 2)))
    assert math.degrees(found.least) == pytest.approx(39.806 - turn, abs=0.01)
    assert math.degrees(found.most) == pytest.approx(39.806 + turn, abs=0.01)
    assert math.degrees(found.least) == pytest.approx(26.6, abs=0.05)
    slippery = hang(of_job(even_hook()), friction=1e-4).tilts[0]
    assert slippery.most - slippery.least < math.radians(0.02)


def test_a_loaded_s_hook_is_held_by_both_its_bends():
    """With far more weight on the lower bend than the hook's own, both contacts may lean: 2 r sin(lean) / D."""
    the_set = of_job(even_hook())
    hook = the_set.bodies[0]
    from bickern.parts.set.spots.spots import spot_on

    (low,) = spot_on(the_set.parts[0].piece, "pan bend")
    (high,) = spot_on(the_set.parts[0].piece, "rail bend")
    hung = Hung(hook.mass, hook.centre, track_of(high.seat), (Load(1e4 * hook.mass, track_of(low.seat)),))
    rest = settle(hung)
    turns = band(hung, rest, UP, 0.5)
    turn = math.asin(2 * 0.5 * math.sin(math.atan(0.5)) / math.hypot(1.25, 1.5))
    assert turns.forth == pytest.approx(turn, abs=1e-4)
    assert turns.back == pytest.approx(-turn, abs=1e-4)


@pytest.mark.parametrize(("name", "across", "apart"), [("rail-s-hook", 1.25, 1.5), ("rail-s-hook-metric", 31, 38)])
def test_the_example_hooks_rest_with_their_bends_in_line(name, across, apart):
    """Their points are thinner in the bend too, but its inside is told, and that is what bears."""
    found = hang(of_example(name)).tilts[0]
    assert found.angle == pytest.approx(math.atan(across / apart), abs=math.radians(0.02))


def test_the_dinner_triangle_hangs_within_a_degree_of_level():
    """The balance of straights and bends is summed by itself in the peer test; here which side is low, and how much."""
    found = hang(of_example("dinner-triangle")).tilts[0]
    assert (found.of, found.off) == ("triangle, bottom", "level")
    assert 0 < math.degrees(found.angle) < 1
    assert found.toward == "the datum end is low"


def ring_at(across: float, pose: Pose, wire: float = 0.005) -> Seat:
    return ring_seat("ring", pose, 0.0, across / 2, (wire / 2, wire / 2))


def test_a_plate_on_a_pin_hangs_with_its_balance_plumb_below_the_hole():
    """Seen from the pin in a round hole, the plate balances below the middle of the hole."""
    hole = ring_seat("hole", Pose((0.02, 0.03, 0.0)), 0.0, 0.004, (0.0, 0.0))
    rest = settle(Hung(1.0, (-0.05, -0.01, 0.0), track_of(hole)))
    way = math.atan2(0.04, 0.07)
    assert math.atan2(rest.up[1], rest.up[0]) == pytest.approx(way, abs=1e-8)
    assert rest.carried.point[:2] == pytest.approx((0.02 + 0.004 * math.cos(way), 0.03 + 0.004 * math.sin(way)))


def test_a_thick_plate_on_a_ring_swings_about_the_middle_of_the_ring():
    """Both edges of a hole through thick metal lie on the ring: it hangs as if from the middle of the ring's inside.

    A plate 10 mm thick, its balance 30 mm below the place it bears at and 2 mm to one face, on a ring 25 mm inside.
    """
    hole = ring_seat("hole", HERE, 0.0, 0.004, (0.005, 0.0), square=True)
    rest = settle(Hung(1.0, (0.0, -0.026, 0.002), track_of(hole, bed=0.0125)))
    rise = math.sqrt(0.0125**2 - 0.005**2)  # from the flat of the hole up to the middle of the ring
    assert math.atan2(abs(rest.up[2]), rest.up[1]) == pytest.approx(math.atan2(0.002, 0.030 + rise), abs=1e-3)


def test_two_rings_hang_one_in_the_other():
    """A pendulum of two rings: both plumb, the insides one above the other, each free to swing about its contact.

    Turned out of plumb by t, the lower ring's middle rises as on an arm of its inside radius: the weight's lever is
    m r sin t. (Of a ring in its own plane nothing changes: it only rolls.)
    """
    ring = ring_at(0.105, HERE)
    rest = settle(Hung(0.2, (0.0, 0.0, 0.0), track_of(ring)))
    assert abs(rest.up[2]) < 1e-8
    assert math.dist(rest.carried.point, (0, 0, 0)) == pytest.approx(0.05, abs=1e-9)
    from bickern.parts.hang.settle import lever

    hung = Hung(0.2, (0.0, 0.0, 0.0), track_of(ring))
    for turn in (0.01, 0.1):
        up = (math.cos(turn), 0.0, math.sin(turn))
        arm = lever(hung, up)
        square = arm[2] * up[0] - arm[0] * up[2]
        # out of its plane the tube's round rolls: the arm is from the middle of the wire, and half a wire comes off
        assert abs(square) == pytest.approx(0.2 * 0.0525 * math.sin(turn), rel=1e-6)


CHAIN = """
job: Chain
units: mm
pieces:
  top:
    ring: 10 rd
    inside across: 50
    closed: welded
  links:
    ring: 8 rd
    inside across: 20
    inside long: 36
    closed: welded
    make: {count}
  hook:
    bar: 8 rd
    metal: [{{keep: rest, name: all}}]
    path:
      - {{eye: 20, turn: left, name: eye}}
      - {{straight: 60, name: shank}}
joins:
  - {{ring: top, through: [links 1]}}
{joins}
hang: {{from: top, on: nail}}
"""


def chain(count: int) -> str:
    rows = [f"  - {{ring: links {i}, through: [links {i + 1}]}}" for i in range(1, count)]
    rows.append(f"  - {{ring: links {count}, through: [hook.eye]}}")
    return CHAIN.format(count=count, joins="\n".join(rows))


def test_links_hang_inside_below_inside_a_quarter_turn_apart():
    the_set = of_job(chain(3))
    found = hang(the_set)
    names = [body.name for body in the_set.bodies]
    heights = {t.lower_name: t.point[2] for t in found.touches}
    assert heights["links 1"] == pytest.approx(-0.050, abs=1e-8)
    assert heights["links 2"] == pytest.approx(-0.086, abs=1e-8)
    assert heights["hook"] == pytest.approx(-0.158, abs=1e-8)
    axes = [found.poses[names.index(n)].z for n in ("top", "links 1", "links 2", "links 3")]
    for one, other in itertools.pairwise(axes):
        assert abs(sum(a * b for a, b in zip(one, other, strict=True))) < 1e-6
        assert abs(one[2]) < 1e-6


def test_bars_that_hang_in_one_another_touch_and_no_more():
    """Between the middle lines of two round wires that touch lie their two half thicknesses."""
    the_set = of_job(chain(3))
    poses = hang(the_set).poses
    for link in the_set.links:
        lines = [put_all(poses[b], _fine(seat)) for b, seat in zip((link.first, link.second), link.seats, strict=True)]
        apart = np.linalg.norm(lines[0][:, None] - lines[1][None], axis=2).min()
        halves = sum(float(seat.half[0, 0]) for seat in link.seats)
        assert apart == pytest.approx(halves, abs=2e-5)


def _fine(seat: Seat) -> np.ndarray:
    """Many places along a seat's middle line, by straights between arcs of its own tangents."""
    ends = np.roll(seat.points, -1, axis=0) if seat.closed else seat.points[1:]
    ways = np.roll(seat.along, -1, axis=0) if seat.closed else seat.along[1:]
    starts, first = (seat.points, seat.along) if seat.closed else (seat.points[:-1], seat.along[:-1])
    long = np.linalg.norm(ends - starts, axis=1)[:, None]
    t = np.linspace(0, 1, 20, endpoint=False)[:, None, None]
    rows = (
        (2 * t**3 - 3 * t**2 + 1) * starts + (t**3 - 2 * t**2 + t) * first * long
        + (3 * t**2 - 2 * t**3) * ends + (t**3 - t**2) * ways * long
    )  # fmt: skip
    return rows.reshape(-1, 3)


def test_one_ring_more_lowers_what_hangs_by_its_inside():
    few, many = hang(of_job(chain(2))), hang(of_job(chain(3)))
    assert many.drop - few.drop == pytest.approx(0.036, abs=1e-8)
    more = next(c for c in few.changes if "more" in c.says)
    assert more.says == "one ring more in links: what is below lies a quarter turn round"
    assert more.drop == pytest.approx(many.drop - few.drop, abs=1e-9)
    assert [t.angle for t in more.tilts] == pytest.approx([t.angle for t in many.tilts], abs=1e-9)


def test_an_eye_moved_changes_the_tilt_as_hanging_it_there_would():
    beside = chain(2).replace("{eye: 20, turn: left, name: eye}", "{eye: 20, centred: no, turn: left, name: eye}")
    found = hang(of_job(beside), style=Style(first=System.MM))
    moved = [c for c in found.changes if "farther" in c.says]
    assert len(moved) == 2
    assert moved[0].says.startswith("hook's eye 2 mm farther")
    angles = sorted(c.tilts[0].angle for c in moved)
    assert angles[0] < found.tilts[0].angle < angles[1]


def test_an_eye_on_the_line_of_its_balance_may_lie_anywhere_along_it_and_nothing_is_told():
    assert not [c for c in hang(of_job(chain(2))).changes if "farther" in c.says]


BAIL = """
job: Bail
units: mm
pieces:
  bar:
    bar: 8 rd
    metal: [{{keep: rest, name: all}}]
    path:
      - {{eye: 20, turn: left, name: eye a}}
      - {{straight: 200, name: rod}}
      - {{eye: 20, turn: {turn}, name: eye b}}
  top:
    ring: 10 rd
    inside across: 60
    closed: welded
  sides:
    ring: 6 rd
    inside across: {sizes}
    closed: welded
    make: {count}
joins:
{joins}
hang: {{from: top, on: nail}}
"""


def level_rod(count: int) -> str:
    rows = [f"  - {{ring: sides {i}, through: [sides {i + 1}]}}" for i in range(1, count) if i != count // 2]
    half = count // 2
    rows += ["  - {ring: sides 1, through: [top]}", f"  - {{ring: sides {half + 1}, through: [top]}}"]
    rows += [f"  - {{ring: sides {half}, through: [bar.eye a]}}", f"  - {{ring: sides {count}, through: [bar.eye b]}}"]
    return BAIL.format(turn="left", sizes=40, count=count, joins="\n".join(rows))


def test_a_rod_on_two_even_chains_from_one_ring_hangs_level():
    the_set = of_job(level_rod(10))
    found = hang(the_set)
    rod = next(t for t in found.tilts if t.of == "bar, rod")
    assert rod.off == "level"
    assert math.degrees(rod.angle) < 0.05
    assert not [f for f in found.findings if f.name == "finds-no-rest"]


def test_a_rod_on_two_chains_tips_when_one_is_longer():
    """Rod, ring and both chains in one upright plane: both ties run through the middle of the top ring.

    From there to each eye's middle is the chain's insides, the ring's inside radius and the eye's own: triangles.
    """
    the_set = of_job(level_rod(10))
    found = hang(the_set, style=Style(first=System.MM))
    longer = next(c for c in found.changes if "longer" in c.says)
    body = next(b for b in the_set.bodies if b.name == "bar")
    eyes = [
        np.mean(next(s.points for k in the_set.links for s in k.seats if s.name == f"eye {e}"), axis=0) for e in "ab"
    ]
    base = math.dist(eyes[0], eyes[1])
    # of the top ring its inside radius less nothing: the first side ring's wire lies inside it; of an eye the same
    legs = [5 * 0.040 + 0.030 + 0.010 + extra for extra in (0.0, 0.003)]
    aside = (legs[1] ** 2 - legs[0] ** 2) / (2 * base)
    high = math.sqrt(legs[0] ** 2 - (base / 2 - aside) ** 2)
    way = (eyes[1] - eyes[0]) / base
    off = np.array(body.centre) - eyes[0]
    assert np.linalg.norm(off - way * (off @ way)) < 1e-6  # it balances on the line of its eyes
    assert abs(off @ way - base / 2) < 1e-6
    assert longer.tilts[0].angle == pytest.approx(math.atan2(aside, high), abs=math.radians(0.05))


STIRRUP = """
job: Stirrup
units: mm
pieces:
  bar:
    bar: 20 x 5
    metal: [{keep: rest, name: all}]
    path:
      - {straight: 25}
      - {bend: 90, inside radius: 8, turn: up}
      - {straight: 60, name: floor}
      - {bend: 90, inside radius: 8, turn: up}
      - {straight: 25}
    holes:
      - {size: 12, by: drill, at: 10, face: front, name: one}
      - {size: 12, by: drill, at: 130, face: front, name: two}
  top:
    ring: 6 rd
    inside across: 200
    closed: welded
joins:
  - {ring: top, through: [bar.one, bar.two]}
hang: {from: top, on: nail}
"""


def test_one_ring_through_two_holes_of_one_bar():
    """Both holes lie on the inside of the ring, and the bar balances plumb below the nail."""
    the_set = of_job(STIRRUP)
    found = hang(the_set)
    names = [b.name for b in the_set.bodies]
    ring, bar = (names.index(n) for n in ("top", "bar"))
    places = [t.point for t in found.touches if t.lower == bar]
    assert len(places) == 2
    for place in places:
        # each hole, 5 mm deep, bears with its two edges: a hair nearer the middle than one thin edge would
        assert math.dist(place, found.poses[ring].origin) == pytest.approx(0.100, abs=5e-5)
    assert put(found.poses[bar], the_set.bodies[bar].centre)[:2] == pytest.approx((0, 0), abs=2e-5)
    assert [t.of for t in found.tilts] == ["bar, floor"]


def test_held_in_the_hand_at_an_angle():
    text = even_hook(held="hand").replace("hook.rail bend", "hook.shank")
    the_set = of_job(text)
    for degrees in (-90, -30, 0, 45, 90):
        found = held_at(the_set, math.radians(degrees))
        tilt = found.tilts[0]
        asked = abs(degrees) if tilt.off == "level" else 90 - abs(degrees)
        assert math.degrees(tilt.angle) == pytest.approx(asked, abs=1e-6)
        assert put(found.poses[0], the_set.held.spot.pose.origin) == pytest.approx((0, 0, 0), abs=1e-12)
    assert len(hang(the_set).changes) == 6


def test_what_slides_off_is_a_finding():
    text = even_hook().replace("hook.rail bend", "hook.shank")
    found = hang(of_job(text))
    assert [f.name for f in found.findings] == ["slides-off"]
    assert not found.tilts


def test_a_set_that_nothing_holds_says_so():
    found = hang(of_job(even_hook().split("hang:")[0]))
    assert not found.tilts
    assert [f.name for f in found.findings] == ["hangs-how"]


def test_the_lantern_hangs_from_the_hollow_of_its_scroll():
    the_set = of_example("porch-lantern")
    found = hang(the_set)
    assert not [f for f in found.findings if f.name in ("slides-off", "finds-no-rest", "tied-round")]
    hood = next(t for t in found.tilts if t.of == "hood")
    assert hood.off == "plumb"
    assert math.degrees(hood.angle) < 1.0
    names = [b.name for b in the_set.bodies]
    arm = found.poses[names.index("arm")]
    palm = the_set.held.spot.pose
    assert abs(seen(arm, UP)[0] * palm.x[0] + seen(arm, UP)[1] * palm.x[1] + seen(arm, UP)[2] * palm.x[2]) > 0.999
    # every link bears inside its ring: the touch is as far from the ring's middle as its inside is wide
    for touch in found.touches:
        for number in (touch.upper, touch.lower):
            if number >= 0 and names[number].startswith("links"):
                piece = the_set.parts[the_set.bodies[number].parts[0]].piece
                far = math.dist(touch.point, found.poses[number].origin)
                assert far == pytest.approx(piece.inside_across / 2, abs=0.0008)


def test_the_weights_of_a_lantern_balance_below_the_scroll():
    """All that hangs on the arm balances plumb below the one place where it hangs, whatever the ties do."""
    the_set = of_example("porch-lantern")
    found = hang(the_set)
    hung = [i for i, b in enumerate(the_set.bodies) if b.name != "arm"]
    total = sum(the_set.bodies[i].mass for i in hung)
    middle = sum(the_set.bodies[i].mass * np.array(put(found.poses[i], the_set.bodies[i].centre)) for i in hung) / total
    place = next(t.point for t in found.touches if t.upper_name == "arm")
    assert middle[:2] == pytest.approx(place[:2], abs=1e-5)


def test_the_friction_figure_has_a_source():
    assert IRON_ON_IRON.unit == "1"
    assert 0.27 < IRON_ON_IRON.value < 0.78


def test_the_answer_without_changes_is_the_same_answer():
    the_set = of_example("rail-s-hook")
    assert replace(hang(the_set), changes=()) == hang(the_set, changes=False)


HOOP = """
job: Hoop on three chains
units: in
pieces:
  top:
    ring: 1/8 rd
    inside across: 1/2
    closed: butted
  links:
    ring: 3/16 rd
    inside across: 1/2
    inside long: 1
    closed: butted
    chain: {{links: 16}}
    make: 2
  others:
    ring: 3/16 rd
    inside across: 1/2
    inside long: {pitch}
    closed: butted
    chain: {{links: 16}}
  hoop:
    bar: 1 x 1/4
    closed: welded
    metal: [{{keep: rest, name: band}}]
    path: [{{hoop: {{mean across: 24}}, turn: up, way: easy}}]
    holes: [{{size: 1/4, by: drill, divide: 3, face: front, name: eyes}}]
joins:
  - {{ring: others 1, through: [top]}}
  - {{ring: others 16, through: [hoop.eyes 1]}}
  - {{ring: links 1, through: [top]}}
  - {{ring: links 16, through: [hoop.eyes 2]}}
  - {{ring: links 17, through: [top]}}
  - {{ring: links 32, through: [hoop.eyes 3]}}
hang: {{from: {held}, on: nail}}
"""


def hoop_job(pitch: str = "1", held: str = "top") -> SetResult:
    return of_job(HOOP.format(pitch=pitch, held=held))


def test_a_hoop_on_three_chains_is_told_by_its_level():
    """Even chains hold it level but for what their places on the top ring (1/2 in inside) leave.

    With one 1/4 in longer, hung from one point, the three lengths fix that point over the hoop: a quarter of an inch by
    32 1/4 over 72 aside, 10.58 up: 1.2 degrees (exact mathematics).
    """
    even, longer = hang(hoop_job()).tilts[-1], hang(hoop_job("1 1/64")).tilts[-1]
    assert (even.of, even.off) == (longer.of, longer.off) == ("hoop", "level")
    assert math.degrees(even.angle) < 0.25
    turn = math.atan2((16.25**2 - 16**2) / (3 * 12), math.sqrt(16**2 - 12**2))
    assert math.degrees(turn) == pytest.approx(1.2, abs=0.02)
    assert longer.angle == pytest.approx(turn, abs=math.radians(0.25))
    assert longer.toward == "the side of the eyes 1 is low"


@pytest.mark.parametrize("across", ["1/2", "2"])
def test_chains_that_stay_where_they_lie_on_their_ring_are_as_from_one_point(across: str):
    """The closed form of three lengths from one point, 1.21 degrees, told where a wide ring makes less.

    (On a ring of half an inch they slide too, but the tilt is nearly that of one point.)
    """
    text = HOOP.format(pitch="1 1/64", held="top").replace("inside across: 1/2", f"inside across: {across}", 1)
    found = hang(of_job(text))
    stuck = [c for c in found.changes if "do not slide" in c.says]
    turn = math.atan2((16.25**2 - 16**2) / (3 * 12), math.sqrt(16**2 - 12**2))
    if across == "1/2":
        assert not stuck
        return
    assert [c.says for c in stuck] == ["if the chains do not slide on top"]
    assert stuck[0].tilts[0].angle == pytest.approx(turn, abs=math.radians(0.05))
    assert found.tilts[-1].angle < turn - math.radians(0.2)


def test_a_row_of_links_is_told_by_its_first_and_last():
    says = [c.says for c in hang(hoop_job()).changes if "longer" in c.says]
    assert says == ["others 1 to 16 1/8 in longer inside"]


def test_a_hoop_hung_by_itself_hangs_upright():
    tilt = next(t for t in hang(hoop_job(held="hoop"), changes=False).tilts if t.of == "hoop")
    assert tilt.off == "plumb"
    assert math.degrees(tilt.angle) < 0.05


STICK = """
job: Stick
units: mm
pieces:
  stick:
    bar: 8 rd
    metal: [{{keep: rest, name: all}}]
    path: [{path}{{straight: 300, name: shank}}]
    holes: {holes}
hang: {{from: stick.{place}, on: nail}}
"""


def test_which_way_a_shank_leans_is_told_by_its_bend_or_else_by_its_face():
    eye = STICK.format(path="{eye: 30, centred: no, turn: left, name: eye}, ", holes="[]", place="eye")
    assert hang(of_job(eye)).tilts[0].toward == "its upper end leans away from the eye"
    bored = STICK.format(path="", holes="[{size: 3, by: drill, at: 10, face: front, name: hole}]", place="hole")
    set_off = of_job(bored)
    heavy = replace(set_off, bodies=(replace(set_off.bodies[0], centre=(0.150, 0.010, 0.0)),))
    # its weight is to the left, so its upper end comes over to the left
    assert hang(heavy).tilts[0].toward == "its upper end leans to the side of its left face"


def between(found, upper: str, lower: str) -> list[float]:
    """How far the place a tie hangs by is from the one that hangs on it [in], for every two such places."""
    tops = [t.point for t in found.touches if t.upper_name == upper]
    return sorted(math.dist(a, t.point) / INCH for a in tops for t in found.touches if t.lower_name == lower)


def test_a_tie_of_links_is_as_long_as_all_their_insides():
    """Three chains of sixteen links, each 1 in inside: from metal to metal 16 in, and not the wire's own thickness."""
    found = hang(hoop_job(), changes=False)
    assert between(found, "top", "hoop")[:3] == pytest.approx([16.0] * 3, abs=1e-4)


STAYS = """
job: Rod on two bars
units: mm
pieces:
  top:
    ring: 10 rd
    inside across: 60
    closed: welded
  stay:
    bar: 6 rd
    metal: [{keep: rest, name: all}]
    path: [{eye: 20, turn: left, name: upper}, {straight: 100}, {eye: 30, turn: left, name: lower}]
    make: 2
  rod:
    bar: 8 rd
    metal: [{keep: rest, name: all}]
    path: [{eye: 20, turn: left, name: eye a}, {straight: 100, name: rod}, {eye: 20, turn: right, name: eye b}]
  small:
    ring: 4 rd
    inside across: 24
    closed: welded
    make: 2
joins:
  - {ring: top, through: [stay 1.upper, stay 2.upper]}
  - {ring: small 1, through: [stay 1.lower, rod.eye a]}
  - {ring: small 2, through: [stay 2.lower, rod.eye b]}
hang: {from: top, on: nail}
"""


def test_a_bar_with_two_eyes_ties_by_the_insides_of_both():
    """Both eyes lie on the line of the shank, which ends in the middle of their bars: 20 + 3 + 100 + 3 + 30 mm."""
    found = hang(of_job(STAYS), changes=False)
    assert not [f for f in found.findings if f.name != "hangs-how"]
    near = between(found, "top", "rod")[:2]
    assert near == pytest.approx([(20 + 3 + 100 + 3 + 30 + 24) / 25.4] * 2, abs=1e-4)


def test_of_two_crowns_alike_it_hangs_by_the_thinner():
    """Two bends whose middles are level: the underside of the thinner one is the higher."""
    turns = np.linspace(0, math.pi, 37)
    one = np.column_stack((0.03 - 0.02 * np.cos(turns), 0.02 * np.sin(turns), 0 * turns))
    dip = np.column_stack((0.06 - 0.01 * np.cos(turns), -0.01 * np.sin(turns), 0 * turns))[1:-1]
    points = np.vstack((one, dip, one + np.array((0.06, 0, 0))))
    along = np.gradient(points, axis=0)
    along /= np.linalg.norm(along, axis=1)[:, None]
    half = np.where(points[:, :1] < 0.06, 0.006, 0.002) * np.ones((1, 2))
    track = track_of(Seat("two", points, along, np.tile((0.0, 0.0, 1.0), (len(points), 1)), half))
    assert bearing(track, (0.0, 1.0, 0.0), UNDER).point == pytest.approx((0.09, 0.018, 0.0), abs=1e-4)
    valley = bearing(track_of(Seat("two", -points, -along, track.up, half)), (0.0, 1.0, 0.0), OVER)
    assert valley.point == pytest.approx((-0.09, -0.018, 0.0), abs=1e-4)


SHEARS = """
job: Two bars on a rivet
units: mm
pieces:
  carrier:
    bar: 8 sq
    metal: [{keep: rest, name: all}]
    path: [{eye: 20, turn: up, name: eye}, {straight: 200, name: shank}]
    holes: [{size: 5, by: drill, at: 40 from the end, face: left, name: hole}]
  arm:
    bar: 20 x 8
    metal: [{keep: 120, name: all}]
    path: [{straight: 120}]
    holes: [{size: 5, by: drill, at: 15, face: front, name: hole}]
joins:
  - {rivet: 5, through: [carrier.hole, arm.hole], number: 1}
hang: {from: carrier.eye, on: nail}
"""


def test_what_turns_on_a_rivet_weighs_with_what_carries_it():
    """The two together balance plumb below the nail."""
    the_set = of_job(SHEARS)
    assert len(the_set.pivots) == 1
    found = hang(the_set)
    masses = np.array([b.mass for b in the_set.bodies])
    places = np.array([put(p, b.centre) for p, b in zip(found.poses, the_set.bodies, strict=True)])
    assert masses.min() > 0.1
    assert (masses @ places / masses.sum())[:2] == pytest.approx((0.0, 0.0), abs=1e-6)


def test_a_rod_held_by_its_end_balances_lower_the_lower_its_free_end():
    """Half its 300 mm, by the sine of the angle."""
    the_set = of_job(STICK.format(path="", holes="[]", place="start").replace("on: nail", "on: hand"))
    drops = [change.drop for change in hang(the_set).changes]
    wanted = [0.150 * math.sin(math.radians(a)) for a in (90, 60, 30, -30, -60, -90)]
    assert drops == pytest.approx(wanted, abs=1e-4)
