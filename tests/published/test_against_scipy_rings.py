"""Against SciPy, the general library of numbers, 1.17: rings, coils and chain.

Kind: reference library. Stresses are summed over the depth of a bar, energies round a ring, small chords along a coil;
what must come out is found by halving on those sums. Reckoned another way, with the same stiffness and yield.
"""

import math
import re
from collections.abc import Callable

import numpy as np
import pytest
from scipy import integrate, optimize
from shapely import unary_union
from shapely.geometry import LineString, Point, box

from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.ring import strain
from bickern.parts.ring.chain import nearest_links
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import ChainSpec, Closing, RingResult, RingRules, RingSpec

YIELD, STIFF = 300e6, 205e9
DENSITY = 7850.0


def width_at(shape: Shape, thick: float, y: float) -> float:
    """How wide a bar is at the height `y` over its middle."""
    return thick if shape is Shape.SQUARE else 2 * math.sqrt(max(0.0, thick**2 / 4 - y**2))


def straightens(shape: Shape, thick: float, radius: float) -> float:
    """Curvature left over curvature bent, elastic and perfectly plastic: the moment is summed over the depth."""

    def moment(y: float) -> float:
        stress = min(STIFF * y / radius, YIELD)
        return 2 * stress * y * width_at(shape, thick, y)

    def second(y: float) -> float:
        return 2 * y**2 * width_at(shape, thick, y)

    yields = min(thick / 2, YIELD * radius / STIFF)
    bent = summed(moment, 0, yields) + summed(moment, yields, thick / 2)
    return 1 - radius * bent / (STIFF * summed(second, 0, thick / 2))


def summed(what: Callable[[float], float], low: float, high: float) -> float:
    return float(integrate.quad(what, low, high, epsabs=0, epsrel=1e-11)[0]) if high > low else 0.0


@pytest.mark.parametrize("shape", [Shape.SQUARE, Shape.ROUND])
@pytest.mark.parametrize("share", [0.02, 0.3, 0.5, 0.7, 0.95])
def test_spring_back(shape: Shape, share: float) -> None:
    """`share` of the depth stays elastic."""
    thick = 0.006
    radius = share * thick / 2 * STIFF / YIELD
    left = straightens(shape, thick, radius)
    assert strain.ratio_of(Section(shape, thick, thick), radius, YIELD, STIFF) == pytest.approx(left, rel=1e-5)


@pytest.mark.parametrize("shape", [Shape.SQUARE, Shape.ROUND])
@pytest.mark.parametrize("share", [1.001, 1.5])
def test_a_bar_bent_so_little_springs_straight(shape: Shape, share: float) -> None:
    radius = share * 0.003 * STIFF / YIELD
    assert straightens(shape, 0.006, radius) == pytest.approx(0.0, abs=1e-9)
    wire = Section(shape, 0.006, 0.006)
    assert strain.ratio_of(wire, radius, YIELD, STIFF) == 0.0
    assert strain.sprung(wire, radius, YIELD, STIFF) == math.inf


@pytest.mark.parametrize("shape", [Shape.SQUARE, Shape.ROUND])
@pytest.mark.parametrize("wanted", [0.02, 0.2, 2.0])
def test_how_tight_to_bend_a_bar_that_springs(shape: Shape, wanted: float) -> None:
    def misses(radius: float) -> float:
        return 1 / radius * straightens(shape, 0.005, radius) - 1 / wanted

    tight = optimize.brentq(misses, wanted / 100, wanted, xtol=1e-12)
    found = strain.bent_tighter(Section(shape, 0.005, 0.005), wanted, YIELD, STIFF)
    assert found == pytest.approx(tight, rel=1e-5)


@pytest.mark.parametrize(("thick", "radius"), [(0.004, 0.02), (0.01, 0.1)])
def test_opening_a_ring_sideways(thick: float, radius: float) -> None:
    """A split ring of round wire pulled apart across its plane: work of bending and twisting summed round it.

    Both ends move by half a wire's thickness either way. Steel thins by 0.3 of what it stretches.
    """
    second = summed(lambda y: y**2 * width_at(Shape.ROUND, thick, y), -thick / 2, thick / 2)
    polar = summed(lambda r: 2 * math.pi * r**3, 0, thick / 2)
    shear = STIFF / (2 * (1 + 0.3))

    def arms(turn: float) -> tuple[float, float]:
        """Bending and twisting arm of a force across the plane at the gap, at an angle round from it."""
        gap = np.array([radius, 0.0])
        here = radius * np.array([math.cos(turn), math.sin(turn)])
        along = np.array([-math.sin(turn), math.cos(turn)])
        away = gap - here
        turning = np.array([away[1], -away[0]])  # the force points up; its turning moment lies in the plane
        return float(turning @ here / radius), float(turning @ along)

    def work(turn: float) -> float:
        bends, twists = arms(turn)
        return radius * (bends**2 / (STIFF * second) + twists**2 / (shear * polar))

    force = thick / summed(work, 0, 2 * math.pi)
    twists = max(abs(arms(t)[1]) for t in np.linspace(0, 2 * math.pi, 721))
    sheared = force * twists / polar * thick / 2 / shear
    stretch = np.array([[0, sheared / 2], [sheared / 2, 0]])
    as_a_pull = math.sqrt(2 / 3) * np.linalg.norm(stretch)  # of a pull that keeps its volume, this is its stretch
    pull = np.diag([1.0, -0.5, -0.5])
    assert math.sqrt(2 / 3) * np.linalg.norm(pull) == pytest.approx(1.0)
    found = strain.opening_strain(Section(Shape.ROUND, thick, thick), radius)
    assert found == pytest.approx(as_a_pull, rel=1e-6)


def got(spec: RingSpec, rules: RingRules | None = None) -> RingResult:
    read = reckon_ring(spec, rules or RingRules(), DENSITY)
    assert read.value is not None, read.findings
    return read.value


def wire(size: float, shape: Shape = Shape.ROUND) -> Section:
    return Section(shape, size, size)


def middle_line(across: float, long: float, n: int = 4000) -> LineString:
    """The middle line of a link, of straights alone: what is half way round a straight is `long - across` long."""
    straight = (long - across) / 2
    core = LineString([(-straight, 0), (straight, 0)]) if straight > 0 else Point(0, 0)
    return core.buffer(across / 2, quad_segs=n).exterior


@pytest.mark.parametrize(("across", "long"), [(0.03, None), (0.02, 0.05)])
def test_sizes_of_a_ring_and_a_link(across: float, long: float | None) -> None:
    size = 0.006
    ring = got(RingSpec("ring", wire(size), "S235JR", inside_across=across, inside_long=long))
    line = middle_line(across + size, (long or across) + size)
    metal = line.buffer(size / 2, quad_segs=400)
    left, low, right, high = metal.bounds
    assert (ring.outside_long, ring.outside_across) == pytest.approx((right - left, high - low), rel=1e-5)
    hole = metal.interiors[0].bounds
    assert (ring.inside_long, ring.inside_across) == pytest.approx((hole[2] - hole[0], hole[3] - hole[1]), rel=1e-5)
    assert ring.bare == pytest.approx(line.length, rel=1e-5)
    round_one = got(RingSpec("ring", wire(size), "S235JR", mean_across=line.length / math.pi))
    assert ring.opening_strain == pytest.approx(round_one.opening_strain, rel=1e-5)
    alone = strain.opening_strain(
        wire(size), math.sqrt(middle_line(round_one.bare / math.pi, 0).convex_hull.area / math.pi)
    )
    assert round_one.opening_strain == pytest.approx(alone, rel=1e-5)


def helix(across: float, forward: float, straights: float = 0.0) -> float:
    """A turn of a coil summed along small chords: round, and forward evenly with the way gone."""
    turns = np.linspace(0, 2 * math.pi, 20_001)
    round_part = np.hypot(*np.diff(across / 2 * np.array([np.cos(turns), np.sin(turns)]), axis=1))
    steps = np.append(round_part, np.full(1000, straights / 1000))
    rise = forward * steps / steps.sum()
    return float(np.hypot(steps, rise).sum())


@pytest.mark.parametrize("long", [None, 0.035])
@pytest.mark.parametrize("shape", [Shape.SQUARE, Shape.ROUND])
def test_the_mandrel_of_rings_that_are_wound_and_cut(shape: Shape, long: float | None) -> None:
    """A turn of the coil holds a ring and a saw cut; the coil has sprung open from the mandrel it was wound on."""
    size, across, rules = 0.005, 0.02, RingRules(kerf=0.0012)
    spec = RingSpec("rings", wire(size, shape), "S235JR", inside_across=across, inside_long=long, wound=True, make=12)
    ring = got(spec, rules)
    coil = ring.coil
    assert coil is not None
    a_ring = middle_line(across + size, (long or across) + size).length
    straights = 2 * ((long or across) - across)
    open_across = optimize.brentq(lambda d: helix(d, size, straights) - a_ring - 0.0012, 0.01, 0.1, xtol=1e-12)
    tight = optimize.brentq(lambda r: straightens(shape, size, r) / r - 2 / open_across, 0.005, 0.05, xtol=1e-12)
    assert coil.mandrel == pytest.approx(2 * tight - size, rel=1e-5)
    assert coil.inside_after_cut == pytest.approx(across, rel=1e-9)
    assert coil.turns == len(range(12)) + len(["both ends"])
    assert coil.coil_length == pytest.approx(np.full(coil.turns, size).sum(), rel=1e-12)
    assert coil.wire == pytest.approx(coil.turns * helix(open_across, size, straights), rel=1e-6)


@pytest.mark.parametrize("long", [None, 0.035])
def test_rings_from_a_mandrel_that_is_there(long: float | None) -> None:
    size, across, there = 0.003, 0.02, 0.0205
    spec = RingSpec(
        "rings", wire(size), "S235JR", inside_across=across, inside_long=long, wound=True, mandrel=there, make=5
    )
    coil = got(spec, RingRules(kerf=0.0012)).coil
    assert coil is not None
    bent = (there + size) / 2
    left = straightens(Shape.ROUND, size, bent)
    straights = 2 * ((long or across) - across)
    turn = helix(2 * bent / left, size, straights)
    closed = optimize.brentq(
        lambda d: middle_line(d + size, d + size + straights / 2, 1000).length - turn + 0.0012, 0.01, 0.1, xtol=1e-10
    )
    assert coil.inside_after_cut == pytest.approx(closed, rel=1e-5)
    assert coil.mandrel == there
    assert coil.wire == pytest.approx(6 * turn, rel=1e-6)


def test_links_of_a_chain_wound_for_so_many() -> None:
    """A coil for three chains of seven links."""
    spec = RingSpec("links", wire(0.003), "S235JR", inside_across=0.02, wound=True, make=3, chain=ChainSpec(links=7))
    coil = got(spec).coil
    assert coil is not None
    assert coil.turns == sum(1 for _ in range(3) for _ in range(7)) + 1
    alone = got(RingSpec("rings", wire(0.003), "S235JR", inside_across=0.02, wound=True, make=3)).coil
    assert alone is not None
    assert alone.turns == 4


@pytest.mark.parametrize("links", [2, 5, 11])
def test_a_chain_laid_out_straight(links: int) -> None:
    """Each link's bar lies in the end of the one before: laid out one by one, seen from the side."""
    size, across, long = 0.006, 0.012, 0.03
    link = RingSpec("link", wire(size), "S235JR", inside_across=across, inside_long=long, chain=ChainSpec(links=links))
    chain = got(link).chain
    assert chain is not None
    parts, place = [], 0.0
    for _ in range(links):
        parts.append(box(place - size, -1, place + long + size, 1))
        place += long
    left, _, right, _ = unary_union(parts).bounds
    assert chain.outside == pytest.approx(right - left, rel=1e-12)
    assert chain.length == pytest.approx(place, rel=1e-12)


@pytest.mark.parametrize("share", [0.495, 0.4999, 0.5001, 0.505])
def test_the_count_whose_chain_is_nearest(share: float) -> None:
    pitch = 0.03
    wanted = (9 + share) * pitch
    counts = np.arange(1, 40)
    assert nearest_links(wanted, pitch) == counts[np.abs(counts * pitch - wanted).argmin()]


@pytest.mark.parametrize(("links", "wanted"), [(9, 0.275), (10, 0.295)])
def test_both_counts_beside_a_length_are_told(links: int, wanted: float) -> None:
    link = RingSpec("link", wire(0.006), "S235JR", inside_across=0.012, inside_long=0.03,
                    chain=ChainSpec(length=wanted))  # fmt: skip
    result = got(link)
    assert result.chain is not None
    assert result.chain.links == links
    (said,) = (f.says for f in result.findings if f.name == "chain-length")
    told = [int(n) for n in re.findall(r"(\d+) links come|(?<=\), )(\d+) to", said) for n in n if n]
    counts = np.arange(1, 40)
    below, above = counts[counts * 0.03 < wanted].max(), counts[counts * 0.03 > wanted].min()
    assert sorted(told) == [below, above]


def test_how_far_a_ring_bent_to_its_size_springs_open() -> None:
    """The chord between the ends of an arc as long as the ring, of the radius it springs to."""
    size, across = 0.003, 0.6
    ring = got(RingSpec("hoop", wire(size), "S235JR", inside_across=across, closing=Closing.BUTTED))
    (said,) = (f.says for f in ring.findings if f.name == "springs-open")
    bent = (across + size) / 2
    sprung = bent / straightens(Shape.ROUND, size, bent)
    turn = math.tau * bent / sprung
    ends = sprung * np.array([[1, 0], [math.cos(turn), math.sin(turn)]])
    told = float(re.findall(r"\(([\d.]+) mm\)", said)[0])
    assert told == pytest.approx(1000 * np.hypot(*(ends[1] - ends[0])), abs=0.26)
