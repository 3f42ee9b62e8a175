"""How much bar a forge weld wants: published rules that disagree, as named choices. For bars and rings alike."""

from bickern.measure.source import COMMON_PRACTICE, Kind, Rule, Source

ABOUT = "weld allowance"
"""What all rows here are about; `thickness` is that of the bar in the plane of the ring."""

_COSIRA = Source("CoSIRA", "The Blacksmith's Craft", None, "ring rule, quoted by a secondary page", Kind.HANDBOOK)
_GOOGERTY = Source("T. F. Googerty", "Practical Forging and Art Smithing", 1915, "exercise 14, read", Kind.HANDBOOK)
_GOOGERTY_LINK = Source("T. F. Googerty", "Practical Forging and Art Smithing", 1915, "ex. 8 fig. 73", Kind.HANDBOOK)
_KLEES = Source("J. A. Klees", "old ring rule, quoted by a secondary page", None, "3 D + 3 t + ... + t/3", Kind.COMMON)
_ILGEN = Source("W. L. Ilgen", "Forge Work", 1912, "s. 80 fig. 60, read", Kind.HANDBOOK)

WELD_RULES: tuple[Rule, ...] = (
    Rule(ABOUT, "one thickness", "1 x thickness", _COSIRA),
    Rule(ABOUT, "half a thickness", "1/2 x thickness", _GOOGERTY),
    Rule(ABOUT, "chain link", "0.58 x thickness (surplus of a printed link over its centre line)", _GOOGERTY_LINK),
    Rule(ABOUT, "a third of a thickness", "1/3 x thickness", _KLEES),
    Rule(ABOUT, "one and a half thicknesses", "1 1/2 x thickness", COMMON_PRACTICE),
    Rule(ABOUT, "none", "0", _ILGEN),
)
"""Rows a shop may choose from; the shares stand in `_SHARES` in the same order."""

_SHARES = dict(zip((r.name for r in WELD_RULES), (1.0, 0.5, 0.58, 1 / 3, 1.5, 0.0), strict=True))


def weld_allowance(name: str, thickness: float) -> float:
    """Extra bar [m] for one forge weld by the rule `name`, `thickness` [m] in the plane of the ring.

    Raises KeyError where the shop file names a rule that has no row (a fault in us: the reader checks names).
    """
    return _SHARES[name] * thickness


def weld_rule_names() -> tuple[str, ...]:
    """Names a shop file may choose from."""
    return tuple(_SHARES)
