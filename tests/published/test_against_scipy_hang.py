"""Against SciPy, the general library of numbers, 1.17: how a thing hangs.

Kind: reference library. The height of all weights is summed over the metal itself, point by point, and its least is
sought by halving or by a general method with limits on the ties; nothing of the levers that the reckoning balances.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from hung_sets import of_example
from scipy import integrate, optimize
from scipy.interpolate import CubicSpline

from bickern.geometry.pose import HERE, Pose, put, seen
from bickern.parts.hang.bridle import Bridled, settle_bridle, size_of
from bickern.parts.hang.hang import hang
from bickern.parts.hang.settle import Hung, Load, settle
from bickern.parts.hang.ties import Stay
from bickern.parts.hang.track import UNDER, bearing, track_of
from bickern.parts.set.result import Seat
from bickern.parts.set.spots.seats import moved_seat, ring_seat

INCH = 0.0254
ARC_STEP = math.radians(5)


def bend(centre: tuple[float, float], radius: float, first: float, last: float, half) -> Seat:
    """An arc in the plane z = 0 from one angle to another; `half` [m] of its round bar by the share of its length."""
    count = math.ceil(abs(last - first) / ARC_STEP) + 1
    turns = np.linspace(first, last, count)
    out = np.column_stack((np.cos(turns), np.sin(turns), np.zeros(count)))
    along = np.sign(last - first) * np.column_stack((-np.sin(turns), np.cos(turns), np.zeros(count)))
    halves = np.array([half(k / (count - 1)) for k in range(count)])
    points = np.array((*centre, 0.0)) + radius * out
    up = np.tile((0.0, 0.0, 1.0), (count, 1))
    return Seat("bend", points, along, up, np.column_stack((halves, halves)))


def height_of_ridge(angle: float, centre, radius: float, first: float, last: float, half) -> float:
    """Highest place of the underside of a round bar bent in its plane, with up at `angle` in that plane."""
    turns = np.linspace(first, last, 200_001)
    shares = np.abs(turns - first) / abs(last - first)
    tilted = np.abs(np.cos(turns - angle))  # how square the bar's section stands to plumb
    under = centre[0] * math.cos(angle) + centre[1] * math.sin(angle)
    under = (
        under
        + radius * np.cos(turns - angle)
        - np.array([half(s) for s in (0.0, 1.0)]).dot(np.vstack((1 - shares, shares))) * tilted
    )
    return float(under[1:-1].max())


HOOKS = [
    (1.25, 1.5, 0.625, 0.125, 0.125),  # a rail hook of 1/4 rd, the two bends of one bar
    (1.25, 1.5, 0.625, 0.09, 0.125),  # its bend tapers along its length
    (1.0, 4.0, 0.5, 0.06, 0.14),
    (2.0, 0.5, 1.0, 0.25, 0.125),
]


@pytest.mark.parametrize(("across", "apart", "radius", "thin", "thick"), HOOKS)
def test_a_hook_on_a_rail_rests_where_its_weight_is_lowest(across, apart, radius, thin, thick):
    centre = (0.0, apart)
    first, last = -0.3, math.pi + 0.3

    def half(share: float) -> float:
        return thin + (thick - thin) * share

    balance = (-across, 0.0)

    def height(angle: float) -> float:
        below = balance[0] * math.cos(angle) + balance[1] * math.sin(angle)
        return below - height_of_ridge(angle, centre, radius, first, last, half)

    best = optimize.minimize_scalar(height, bounds=(0.2, math.pi / 2 + 0.6), method="bounded", options={"xatol": 1e-9})
    rest = settle(Hung(1.0, (*balance, 0.0), track_of(bend(centre, radius, first, last, half))))
    assert rest is not None
    assert abs(rest.up[2]) < 1e-9
    # the sum over the metal is as fine as 200 000 stations, the taper between stations as even as 5 degrees allow
    assert math.atan2(rest.up[1], rest.up[0]) == pytest.approx(best.x, abs=math.radians(0.05))


def test_the_triangle_tips_its_open_end_down_by_its_missing_corner():
    """Sides of 10 in to the corners, bends of 3/4 in mean radius, 3/4 in missing at the lower left corner."""
    side, radius = 10.0, 0.75
    saved = radius * math.sqrt(3)  # from a corner back to where its bend begins, 60 degrees inside
    pieces = []
    top = np.array((side / 2, side * math.sqrt(3) / 2))
    left, right = np.array((0.0, 0.0)), np.array((side, 0.0))

    def straight(a, b):
        pieces.append((np.linalg.norm(b - a), (a + b) / 2))

    def corner(at, middle):
        inward = (middle - at) / np.linalg.norm(middle - at)
        centre = at + inward * 2 * radius

        def moment(t):
            return radius * math.cos(t) * radius

        reach = integrate.quad(moment, -math.pi / 3, math.pi / 3)[0]
        length = radius * 2 * math.pi / 3
        pieces.append((length, centre - inward * reach / length))
        return centre

    middle = (left + right + top) / 3
    straight(np.array((0.75, 0.0)), np.array((side - saved, 0.0)))
    corner(right, middle)
    toward = (top - right) / side
    straight(right + toward * saved, top - toward * saved)
    crown = corner(top, middle)
    down = (left - top) / side
    straight(top + down * saved, left)
    total = sum(length for length, _ in pieces)
    balance = sum(length * place for length, place in pieces) / total
    tilt = math.atan2(balance[0] - crown[0], crown[1] - balance[1])
    found = hang(of_example("dinner-triangle")).tilts[0]
    assert found.off == "level"
    assert found.angle == pytest.approx(abs(tilt), abs=math.radians(0.02))
    assert math.degrees(found.angle) < 1
    # it balances right of the top bend's middle, so the right side comes down: or left, and the open end does
    assert ("right" in found.toward) == (tilt > 0)


def _ties(hoop, apexes, longs):
    return [
        {"type": "ineq", "fun": lambda x, p=p, a=a, d=d: d - np.linalg.norm(_placed(x, p) - a)}
        for p, a, d in zip(hoop, apexes, longs, strict=True)
    ]


def _placed(x, p):
    a, b, c = x[3:]
    turn = _turn(a, b, c)
    return np.array(x[:3]) + turn @ np.array(p)


def _turn(a, b, c):
    angle = math.sqrt(a * a + b * b + c * c)
    if angle < 1e-12:
        return np.eye(3)
    k = np.array(((0, -c, b), (c, 0, -a), (-b, a, 0))) / angle
    return np.eye(3) + math.sin(angle) * k + (1 - math.cos(angle)) * (k @ k)


def _least(hoop, apexes, longs, centre):
    """The lowest lie of a stiff thing on ties, by a general method (SLSQP)."""
    start = np.array((0.01, -0.005, min(a[2] for a in apexes) - max(longs) * 0.9, 0.01, -0.01, 0.0))
    found = optimize.minimize(
        lambda x: _placed(x, centre)[2],
        start,
        constraints=_ties(hoop, apexes, longs),
        method="SLSQP",
        options={"maxiter": 500, "ftol": 1e-15},
    )
    return math.acos(_turn(*found.x[3:])[2, 2])


def _hoop(longs, centre=(0.0, 0.0, 0.0), apexes=None, count=3, mass=2.0):
    """A hoop on ties from one small ring (or from places apart), settled by the reckoning."""
    tiny = 1e-7
    places = [(12 * INCH * math.cos(2 * math.pi * k / count), 12 * INCH * math.sin(2 * math.pi * k / count), 0.0)
              for k in range(count)]  # fmt: skip
    point = ring_seat("ring", HERE, 0.0, tiny, (0.0, 0.0))
    tops = [point] * count if apexes is None else [_at(a) for a in apexes]
    stays = tuple(
        Stay(track_of(top), track_of(_at(p)), long, 0.0) for top, p, long in zip(tops, places, longs, strict=True)
    )
    asked = Bridled(1e-9, (0.0, 0.0, 0.0), track_of(point), (), mass, centre, (), stays, None, size_of(centre, stays))
    if apexes is not None:
        asked = replace(asked, carried=None, fixed=HERE)
    found = settle_bridle(asked)
    assert found is not None
    up = seen(found.relative, found.up)
    return math.acos(min(1.0, abs(up[2]))), places, found


def _at(place) -> Seat:
    return ring_seat("eye", Pose(place, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)), 0.0, 1e-7, (0.0, 0.0))


HOOPS = [
    ((16.25, 16.0, 16.0), (0.0, 0.0, 0.0)),
    ((16.0, 16.0, 16.0), (0.02, 0.0, -0.01)),
    ((16.0, 17.0, 16.0), (0.0, 0.03, -0.05)),
    ((20.0, 20.5, 19.5), (0.01, 0.02, -0.02)),
]


@pytest.mark.parametrize(("longs", "centre"), HOOPS)
def test_a_hoop_on_three_chains_from_one_ring(longs, centre):
    longs = [x * INCH for x in longs]
    tilt, places, _ = _hoop(longs, centre)
    assert tilt == pytest.approx(_least(places, [np.zeros(3)] * 3, longs, centre), abs=math.radians(0.01))


def _on_a_ring(longs, ring, masses):
    """The lowest lie of a hoop, 12 in to its eyes, on ties from one ring of round bar that hangs on a rod (SLSQP).

    `ring`: radius of its middle line and half its bar. The ring bears where its underside is highest; a tie lies round
    its bar wherever that is shortest, so from the ring's middle line it is as long as its insides less half the bar.
    """
    radius, half = ring
    eyes = np.array([(12 * INCH * math.cos(t), 12 * INCH * math.sin(t), 0.0) for t in np.arange(3) * 2 * math.pi / 3])
    upright = np.array(((1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)))  # its axis level

    def lie(x):
        turned = _turn(*x[:3]) @ upright
        top = turned[2] * (1, 1, 0)  # straight up, as far as that lies in the ring's plane
        middle = np.array((0.0, 0.0, half)) - turned @ (radius * top / np.linalg.norm(top))
        hoop = _turn(*x[3:6])
        return turned, middle, hoop, eyes @ hoop.T + x[6:]

    def left(x):
        turned, middle, _, places = lie(x)
        off = (places - middle) @ turned
        return longs - half - np.hypot(np.hypot(off[:, 0], off[:, 1]) - radius, off[:, 2])

    def height(x):
        return (masses[0] * lie(x)[1][2] + masses[1] * x[8]) / masses[1]

    start = np.array((0.0, 0.0, 0.4, 0.01, -0.01, 0.0, 0.0, 0.0, -14 * INCH))
    limits = {"type": "ineq", "fun": left}
    options = {"maxiter": 500, "ftol": 1e-16}
    found = optimize.minimize(height, start, constraints=limits, method="SLSQP", options=options)
    return math.acos(lie(found.x)[2][2, 2])


@pytest.mark.parametrize("longer", [0.0, 0.25])
def test_a_hoop_on_three_chains_that_lie_apart_on_a_ring_of_bar(longer):
    """On a ring 2 in inside of 3/8 bar the chains do not hang from one point: even ones leave the hoop off level."""
    radius, half = 1.1875 * INCH, 0.1875 * INCH
    longs = np.array((16 + longer, 16, 16)) * INCH
    ring = track_of(ring_seat("ring", HERE, 0.0, radius, (half, half)))
    eyes = [(12 * INCH * math.cos(t), 12 * INCH * math.sin(t), 0.0) for t in (0, 2 * math.pi / 3, 4 * math.pi / 3)]
    stays = tuple(Stay(ring, track_of(_at(eye)), float(long), 0.0) for eye, long in zip(eyes, longs, strict=True))
    size = size_of((0.0, 0.0, 0.0), stays)
    found = settle_bridle(Bridled(0.1, (0.0, 0.0, 0.0), ring, (), 2.4, (0.0, 0.0, 0.0), (), stays, None, size))
    tilt = math.acos(abs(seen(found.relative, found.up)[2]))
    assert tilt == pytest.approx(_on_a_ring(longs, (radius, half), (0.1, 2.4)), abs=math.radians(0.02))
    assert 0.3 < math.degrees(tilt) < 0.9


def test_a_hoop_a_yoke_and_heavy_chains_balance_below_the_nail():
    """All weights, half of each chain's at either end, lie plumb below the one place that carries them (statics).

    And what the chains pull upward is the hoop's weight and the lower half of theirs.
    """
    mass, off = 0.2, (0.02, 0.0, 0.0)
    ring = track_of(ring_seat("ring", HERE, 0.0, 0.03, (0.005, 0.005)))  # its own plane: y up, as the yoke is drawn
    yoke = [(-0.05, -0.06, 0.0), (0.05, -0.06, 0.02), (0.04, -0.06, -0.04)]
    eyes = [(12 * INCH * math.cos(t), 12 * INCH * math.sin(t), 0.0) for t in (0, 2 * math.pi / 3, 4 * math.pi / 3)]
    longs = (16.5, 16.0, 16.2)
    ends = zip(yoke, eyes, longs, strict=True)
    stays = tuple(Stay(track_of(_at(t)), track_of(_at(e)), long * INCH, mass) for t, e, long in ends)
    asked = Bridled(0.4, (0.0, -0.02, 0.0), ring, (), 2.4, off, (), stays, None, size_of(off, stays))
    found = settle_bridle(asked)
    up = np.array(found.up)
    halves = [np.array(t) + put(found.relative, e) for t, e in zip(yoke, eyes, strict=True)]
    moment = 0.4 * np.array((0.0, -0.02, 0.0)) + 2.4 * np.array(put(found.relative, off)) + mass / 2 * sum(halves)
    lever = moment - (0.4 + 2.4 + 3 * mass) * np.array(bearing(ring, found.up, UNDER).point)
    assert np.linalg.norm(lever - up * (lever @ up)) < 1e-5
    lifted = -sum(pull * (np.array(t.way) @ up) for pull, t in zip(found.pulls, found.ties, strict=True))
    assert lifted == pytest.approx(2.4 + 3 * mass / 2, rel=1e-5)


def test_a_hoop_on_four_chains_one_of_them_slack():
    longs = [16 * INCH, 16 * INCH, 18 * INCH, 16 * INCH]
    tilt, places, found = _hoop(longs, (-0.01, 0.0, 0.0), count=4)
    assert tilt == pytest.approx(_least(places, [np.zeros(3)] * 4, longs, (-0.01, 0.0, 0.0)), abs=math.radians(0.02))
    assert min(found.pulls) == 0.0


def test_a_hoop_on_three_upright_chains():
    count = 3
    longs = [16.25 * INCH, 16 * INCH, 16 * INCH]
    apexes = [(12 * INCH * math.cos(2 * math.pi * k / count), 12 * INCH * math.sin(2 * math.pi * k / count), 0.0)
              for k in range(count)]  # fmt: skip
    tilt, places, _ = _hoop(longs, apexes=apexes)
    assert tilt == pytest.approx(
        _least(places, [np.array(a) for a in apexes], longs, (0, 0, 0)), abs=math.radians(0.01)
    )
    assert math.degrees(tilt) == pytest.approx(0.80, abs=0.01)


def test_a_load_hangs_in_the_lowest_place_of_the_bend_wherever_it_has_rolled():
    """A yoke: hung by a bend above, a heavy ring in a wider bend below it, off to one side."""
    high, low = (0.0, 0.05), (0.03, -0.06)
    upper, lower = (0.01, 0.2, math.pi - 0.2), (0.04, math.pi + 0.2, 2 * math.pi - 0.2)
    thick = 0.004

    def valley(angle):
        turns = np.linspace(lower[1], lower[2], 200_001)
        over = low[0] * math.cos(angle) + low[1] * math.sin(angle)
        return float((over + lower[0] * np.cos(turns - angle) + thick * np.abs(np.cos(turns - angle))).min())

    def height(angle):
        own = 0.02 * math.cos(angle) + 0.01 * math.sin(angle)
        ridge = height_of_ridge(angle, high, *upper, lambda _: thick)
        return 1.0 * own + 3.0 * valley(angle) - 4.0 * ridge

    best = optimize.minimize_scalar(height, bounds=(0.6, 2.4), method="bounded", options={"xatol": 1e-9})
    load = Load(3.0, track_of(bend(low, *lower, lambda _: thick)))
    rest = settle(Hung(1.0, (0.02, 0.01, 0.0), track_of(bend(high, *upper, lambda _: thick)), (load,)))
    assert rest is not None
    assert math.atan2(rest.up[1], rest.up[0]) == pytest.approx(best.x, abs=math.radians(0.01))
    assert put(HERE, rest.carried.point)[1] > 0


def test_the_ladle_rests_where_its_weight_is_lowest():
    """Its hook is thinned along its bend: the underside is read between stations 2 000 times as dense."""
    the_set = of_example("ladle")
    held, body = the_set.held, the_set.bodies[the_set.held.body]
    seat = moved_seat(held.spot.seat, the_set.parts[held.part].pose)
    rest = hang(the_set, changes=False)
    up = np.array(seen(rest.poses[held.body], (0.0, 0.0, 1.0)))
    plane = np.cross(seat.along[0], seat.along[len(seat.along) // 2])
    plane /= np.linalg.norm(plane)
    assert abs(up @ plane) < 0.02  # it hangs in the plane of its hook
    east = seat.along[0]
    north = np.cross(plane, east)
    steps = np.concatenate(((0.0,), np.cumsum(np.linalg.norm(np.diff(seat.points, axis=0), axis=1))))
    fine = np.linspace(0, steps[-1], 40_001)
    along = CubicSpline(steps, seat.along)(fine)
    along /= np.linalg.norm(along, axis=1)[:, None]
    middle = CubicSpline(steps, seat.points)(fine)
    half = np.column_stack([np.interp(fine, steps, seat.half[:, k]) for k in range(2)])
    sideways = abs(seat.up[0] @ plane) > 0.5  # which half size lies in the plane of the bend
    reach = half[:, 0] if sideways else half[:, 1]

    def height(angle):
        way = math.cos(angle) * east + math.sin(angle) * north
        square = np.sqrt(1 - (along @ way) ** 2)
        return float(np.array(body.centre) @ way - (middle @ way - reach * square)[1:-1].max())

    start = math.atan2(up @ north, up @ east)
    best = optimize.minimize_scalar(
        height, bounds=(start - 0.3, start + 0.3), method="bounded", options={"xatol": 1e-9}
    )
    assert start == pytest.approx(best.x, abs=math.radians(0.1))
