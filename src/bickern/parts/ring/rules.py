"""Published rules for the length of a ring, as named rows with their sources; and the other figures of this room."""

from math import pi

from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE, MATHEMATICS, Kind, Rule, Source
from bickern.parts.eye import ILGEN, MANLY, OLD_PI

ABOUT = "length of a ring"
"""What the rows are about; D is the inside across, t the thickness that is bent."""

_GOOGERTY = Source("T. F. Googerty", "Practical Forging and Art Smithing", 1915, "ex. 14, read in it", Kind.HANDBOOK)
_COSIRA = Source("CoSIRA", "The Blacksmith's Craft", None, "ring rule, quoted by a secondary page", Kind.HANDBOOK)
_KLEES = Source("J. A. Klees", "old ring rule, quoted by a secondary page", None, "", Kind.COMMON)
_TYRE = Source("B. Rackers", "carriage maker's tyre rule, quoted by a secondary page", 2003, "", Kind.COMMON)

RING_RULES: tuple[Rule, ...] = (
    Rule(ABOUT, "pi x mean diameter", "pi (D + t)", MATHEMATICS),
    Rule(ABOUT, "3 1/7 x mean diameter", "22/7 (D + t)", ILGEN),
    Rule(ABOUT, "3 1/7 x the hole", "22/7 D (short by pi t: makes the ring too small)", MANLY),
    Rule(ABOUT, "pi x mean + 1 t", "pi (D + t) + t", _COSIRA),
    Rule(ABOUT, "3 1/7 x mean + 1/2 t", "22/7 (D + t) + t/2", _GOOGERTY),
    Rule(ABOUT, "3 D + 3 t + 1/2 in a foot + t/3", "3 D + 3 t + 3 D/24 + t/3", _KLEES),
    Rule(ABOUT, "tyre: round the wheel + 3 1/2 t", "pi D + 3.5 t", _TYRE),
    Rule(ABOUT, "tyre, upset more: + 3 3/4 t", "pi D + 3.75 t", _TYRE),
)
"""Rows a shop may choose from, printed side by side with its choice; their parts stand in `_PARTS` in this order."""

_PARTS: dict[str, tuple[float, float, float | None]] = dict(
    zip(
        (rule.name for rule in RING_RULES),
        (
            (0.0, pi, None),
            (0.0, OLD_PI, None),
            (OLD_PI, 0.0, None),
            (0.0, pi, 1.0),
            (0.0, OLD_PI, 0.5),
            (3 / 24, 3.0, 1 / 3),
            (0.0, pi, 3.5 - pi),
            (0.0, pi, 3.75 - pi),
        ),
        strict=True,
    )
)
"""Of each rule: times the inside across, times the mean diameter, and thicknesses of a weld that it holds itself."""
BY_MIDDLE = RING_RULES[0].name
"""The rule that makes the ring as asked: the middle of its metal keeps its length."""
WITHOUT_WELD = tuple(rule.name for rule in RING_RULES if _PARTS[rule.name][2] is None)
"""The rules that give the bare ring; the others hold a weld."""


def bare_length(rule: str, inside: float, mean: float) -> float:
    """Bar [m] round a ring by the published `rule`, without a weld; its inside and its mean diameter [m].

    Raises KeyError for a name that has no row (a fault in us: the reader checks names).
    """
    of_inside, of_mean, _ = _PARTS[rule]
    return of_inside * inside + of_mean * mean


def held_weld(rule: str, thickness: float) -> float | None:
    """Bar [m] for a weld that the `rule` itself holds; None where the shop's own weld goes on top."""
    share = _PARTS[rule][2]
    return None if share is None else share * thickness


def ring_length(rule: str, inside_across: float, thickness: float) -> float:
    """Bar [m] for a round ring by the published `rule`, its weld included; inside across and thickness bent [m]."""
    return bare_length(rule, inside_across, inside_across + thickness) + (held_weld(rule, thickness) or 0.0)


WIRE_YIELD = Known(
    300e6, "Pa", Source("", "mild steel wire as delivered; A36 asks 250 MPa, bar runs over it", None, "", Kind.MEMORY)
)
"""Default yield strength of cold wire; hard-drawn wire is far above it: wind one, measure, correct."""
WIRE_STIFFNESS = Known(205e9, "Pa", Source("", "steel, 200 to 210 GPa in handbooks", None, "", Kind.MEMORY))
"""Default stiffness of steel wire."""
POISSON = Known(0.3, "1", Source("", "Poisson's ratio of steel", None, "", Kind.MEMORY))
"""How much a steel bar thins sideways as it stretches."""
TOO_STIFF = Known(0.25, "1", Source("EN", "EN 10025-2: S235 stretches about a quarter", 2019, "", Kind.MEMORY))
"""Outer stretch above which a ring is not closed cold."""
LOST_TURNS = 1
"""Turns of a coil lost at its two ends when it is cut through along one line (common practice)."""
COLD_LIMIT = Known(0.05, "1", COMMON_PRACTICE)
"""Outer stretch above which a ring is rather closed hot: the shop's default (`RingRules.cold_limit`)."""
SPRING_RULE = Rule(
    "spring back",
    "rectangle",
    "R_i/R_f = 4 x^3 - 3 x + 1, x = R_i Y/(E t)",
    Source("", "bending of sheet, elastic and perfectly plastic, in metal-forming textbooks", None, "", Kind.MEMORY),
)
"""For square and flat bar; round wire goes by the same theory with its own section (`strain.spring_ratio_round`)."""
