"""Ideal work: the least energy that a change of shape takes, by textbook formulas. SI: metres, pascals, joules.

`stress` is always the mean resistance of the hot iron [Pa] (`iron.flow`). What friction, spread and the anvil eat of a
blow is no part of this: all of that is one figure of the smith's own (`Hand.useful`). None of these formulas was held
against a count of blows; the figures in their tests are our own, or exact mathematics.
"""

from math import log, pi, sqrt

from bickern.iron.blend import blend_area, blend_box, mixed_area
from bickern.iron.section import Section, area
from bickern.measure.source import COMMON_PRACTICE, MATHEMATICS, Kind, Rule, Source
from bickern.measure.units.words import Shape

_MEMORY = Source("", "slip-line and upper-bound estimates of textbooks", None, "", Kind.MEMORY)
RULES: tuple[Rule, ...] = (
    Rule("drawing", "even strain", "metal x stress x sqrt(2/3 (e1^2 + e2^2 + e3^2))", MATHEMATICS),
    Rule("punching", "press and shear", "3 stress x hole x 0.65 depth, then stress/sqrt3 x rim x rest^2/2", _MEMORY),
    Rule("slitting", "cut from both sides", "stress/sqrt3 x slit x depth^2/2", _MEMORY),
    Rule("drifting", "wall pressed aside", "2/sqrt3 x stress x hole x depth", _MEMORY),
    Rule("bending", "fully plastic", "stress x b t^2/4 (round: d^3/6) x angle", MATHEMATICS),
    Rule("twisting", "fully plastic", "stress/sqrt3 x t^2 (3 b - t)/6 (square a^3/3, round pi d^3/12)", MATHEMATICS),
    Rule("cutting", "sheared through", "stress/sqrt3 x area x thickness/2", _MEMORY),
    Rule("truing", "least strain", "0.05: no face is forged without some blows", COMMON_PRACTICE),
)
"""Formula by formula: what is exact for an ideal metal, and what is an estimate."""
PRESS_SHARE = 0.65
"""Share of the depth over which a punch presses before the plug shears (from memory)."""
PRESS = 3.0
"""Pressure under a punch over the stress of the iron: about the hardness of an ideal metal (from memory)."""
LEAST_STRAIN = 0.05
"""Strain charged to metal whose size does not change: truing up (common practice)."""
_FLOOR = 1e-4
"""Share of the stock's size at which an end run out to nothing is reckoned."""
_STEPS = 4
_SIMPSON = (1, 4, 2, 4, 1)
_ROUND = (Shape.ROUND, Shape.OVAL, Shape.TUBE)


def strain_to(before: Section, after: Section) -> float:
    """True strain of metal forged evenly from one section to another: sqrt(2/3 (e1^2 + e2^2 + e3^2)).

    Each section is taken as the rectangle of its own area and proportion; the length follows from constant volume. To
    a section of like proportion it is ln(area / area), whether drawn or upset; broadened without drawing it is
    2/sqrt3 ln(thickness / thickness). Exact for even strain; what is spread and forged back again is not in it.
    """
    return _strain(_rectangle(before), _rectangle(after))


def forging_work(metal: float, before: Section, after: Section, stress: float) -> float:
    """Ideal work [J] to forge `metal` [m3] from one section to another: drawing, spreading and upsetting alike."""
    return metal * stress * max(LEAST_STRAIN, strain_to(before, after))


def tapering_work(before: Section, a: Section, b: Section, length: float, stress: float) -> float:
    """Ideal work [J] of a blend `a` to `b` of `length` [m], from `before`: area x strain summed along it (Simpson)."""
    start, total = _rectangle(before), 0.0
    for i, weight in enumerate(_SIMPSON):
        total += weight * _area_strain(start, a, b, i / _STEPS)
    strained = max(total / (3 * _STEPS), LEAST_STRAIN * (area(a) + area(b) + mixed_area(a, b)) / 3)
    return stress * length * strained


def punching_work(opening: float, rim: float, depth: float, stress: float) -> float:
    """Ideal work [J] to punch a hole of area `opening` [m2] and `rim` [m] through `depth` [m].

    The punch presses at 3 x stress over 65 % of the depth, then the plug shears along its rim, the force falling off
    with what is left. An estimate (from memory), for holes about as wide as the bar is deep.
    """
    left = (1 - PRESS_SHARE) * depth
    return PRESS * stress * opening * PRESS_SHARE * depth + stress / sqrt(3) * rim * left**2 / 2


def slitting_work(slit: float, depth: float, stress: float) -> float:
    """Ideal work [J] of a slit [m] long through `depth` [m], cut half-way from each side.

    Each cut shears along both faces of the chisel, the force falling off with what is left: four times
    stress/sqrt3 x slit x (depth/2)^2/2. An estimate (from memory).
    """
    return stress / sqrt(3) * slit * depth**2 / 2


def drifting_work(opening: float, depth: float, stress: float) -> float:
    """Ideal work [J] to open a slit to a hole of area `opening` [m2]: the walls pressed aside in plane strain."""
    return 2 / sqrt(3) * stress * opening * depth


def cutting_work(section: Section, stress: float) -> float:
    """Ideal work [J] to cut a bar hot: sheared through its thickness, the force falling off with what is left."""
    return stress / sqrt(3) * area(section) * min(section.width, section.thick) / 2


def bending_moment(wide: float, thick: float, stress: float, *, rounded: bool = False) -> float:
    """Moment [N m] of a bar yielding all through: stress x b t^2/4, of a round or oval stress x b t^2/6.

    `thick` [m] in the plane of the bend, `wide` square to it. For a square a^3/4. Exact for an ideal metal.
    """
    return stress * wide * thick**2 / (6 if rounded else 4)


def bending_work(wide: float, thick: float, angle: float, stress: float, *, rounded: bool = False) -> float:
    """Ideal work [J] of a bend through `angle` [rad]: the moment times the angle."""
    return bending_moment(wide, thick, stress, rounded=rounded) * angle


def twisting_torque(section: Section, stress: float) -> float:
    """Torque [N m] at the wrench of a bar yielding all through, in shear at stress/sqrt3 (von Mises).

    Rectangle b x t: t^2 (3 b - t)/6, the sand heap over it; square a^3/3; ellipse pi b t^2/12. Done by hand: no blows.
    """
    b, t = max(section.width, section.thick), min(section.width, section.thick)
    shape = pi * b * t**2 / 12 if section.shape in _ROUND else t**2 * (3 * b - t) / 6
    return section.fullness * stress / sqrt(3) * shape


def twisting_work(section: Section, turns: float, stress: float) -> float:
    """Ideal work [J] of a twist: torque times 2 pi for each turn."""
    return twisting_torque(section, stress) * 2 * pi * abs(turns)


def is_round(section: Section) -> bool:
    """Whether a section bends and twists as a round."""
    return section.shape in _ROUND


def _rectangle(section: Section) -> tuple[float, float]:
    """Longer and shorter side [m] of the rectangle of the same area and proportion; (0, 0) for a point."""
    metal = area(section)
    if metal <= 0.0:
        return 0.0, 0.0
    ratio = max(section.width, section.thick) / min(section.width, section.thick)
    return sqrt(metal * ratio), sqrt(metal / ratio)


def _strain(before: tuple[float, float], after: tuple[float, float]) -> float:
    if min(before) <= 0.0:  # no metal to be strained
        return 0.0
    e1, e2 = (log(max(y / x, _FLOOR)) for x, y in zip(before, after, strict=True))
    return sqrt(2 / 3 * (e1**2 + e2**2 + (e1 + e2) ** 2))


def _area_strain(start: tuple[float, float], a: Section, b: Section, u: float) -> float:
    metal = blend_area(a, b, u)
    w, t = blend_box(a, b, u)
    if metal <= 0.0 or min(w, t) <= 0.0:
        return 0.0
    ratio = max(w, t) / min(w, t)
    return metal * _strain(start, (sqrt(metal * ratio), sqrt(metal / ratio)))
