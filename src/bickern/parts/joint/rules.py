"""Published rules for rivets, collars and tenons, as named rows with their sources, and their formulas."""

from math import pi

from bickern.measure.source import COMMON_PRACTICE, MATHEMATICS, Kind, Rule, Source

_QUOTED = "quoted by a secondary page"
_SNAP = Source(
    "", "rivet guides of machine shops", None, f"{_QUOTED}: 1/4 rivet 3/8 longer than the plates", Kind.COMMON
)
_BS_275 = Source("BSI", "BS 275", 1927, f"plate 2 fig. 3, setting allowance, {_QUOTED}", Kind.STANDARD)
_STRENGTH = Source("", "Strength of Materials, Van Nostrand", 1915, f"snap head, {_QUOTED}", Kind.HANDBOOK)
_SLEFFEL = Source("C. C. Sleffel", "Working in Metals", 1911, "tongs, 3/8 rivet, read in the source", Kind.HANDBOOK)
_CURTISS = Source("Curtiss", "P-40 repair manual", None, "page 8, AN430 rivets, read in the source", Kind.HANDBOOK)
_COSIRA = Source("CoSIRA", "The Blacksmith's Craft", None, f"collar rule, {_QUOTED}", Kind.HANDBOOK)
_WHITAKER = Source("F. Whitaker", "The Blacksmith's Cookbook", None, f"collar rule, {_QUOTED}", Kind.HANDBOOK)
_TAPERED = Source("", "collar with tapered laps", None, _QUOTED, Kind.COMMON)
_FORUM = Source("", "smiths' general figure of 2 1/2 to 3 thicknesses", None, _QUOTED, Kind.COMMON)

RIVET_RULES: tuple[Rule, ...] = (
    Rule("rivet", "grip + 1 1/2 d", "grip + 1.5 d, snap head", _SNAP),
    Rule("rivet", "grip + 1 1/4 d", "grip + 1.25 d, snap head, the lower figure", _STRENGTH),
    Rule("rivet", "grip + 1 1/8 d", "grip + 1.125 d, round head of 1.6 d x 0.7 d, by volume", _BS_275),
    Rule("rivet", "grip + 1 d", "grip + 1.0 d, head of a tongs rivet", _SLEFFEL),
    Rule("rivet", "grip + 1.2 d", "grip + 1.2 d, flat formed head 1.5 d x 0.5 d", _CURTISS),
    Rule("rivet", "grip + 2 d", "grip + 2.0 d, a full head", COMMON_PRACTICE),
    Rule("rivet", "shop's own", "grip + the shop's figure x d", Source("", "the shop file", None, "", Kind.SHOP)),
)
"""Rivet past its first head; d is its diameter."""

COLLAR_RULES: tuple[Rule, ...] = (
    Rule("collar", "perimeter + 2 t", "P + 2 t, ends butted", _COSIRA),
    Rule("collar", "perimeter + 1 t", "P + 1 t, ends lapped and tapered", _TAPERED),
    Rule("collar", "perimeter + 2 1/2 t", "P + 2.5 t, ends lapped", _WHITAKER),
    Rule("collar", "perimeter + 2 3/4 t", "P + 2.75 t, the middle of 2 1/2 to 3", _FORUM),
    Rule("collar", "perimeter + pi t", "P + pi t, middle line of a band with rounded corners", MATHEMATICS),
)
"""Collar bar; P is the girth round the bundle, t the collar's thickness. All their authors say: make one first."""

TENON_RULES: tuple[Rule, ...] = (
    Rule("tenon", "grip + 1 d", "grip + 1.0 d, riveted over", COMMON_PRACTICE),
    Rule("tenon", "grip + 1/2 d", "grip + 0.5 d, burred into a countersink", COMMON_PRACTICE),
    Rule("tenon", "grip + 1 1/2 d", "grip + 1.5 d, a full head as of a rivet", COMMON_PRACTICE),
)
"""Tenon past its shoulder; d is its thickness. No printed table of these was found: common practice only."""

PIN_RULE = Rule("pin", "grip + 2 d", "grip + 1 d at each end", COMMON_PRACTICE)
"""A pin headed or split at both ends; its own ends may want more."""

_HEADS = {
    "grip + 1 1/2 d": 1.5,
    "grip + 1 1/4 d": 1.25,
    "grip + 1 1/8 d": 1.125,
    "grip + 1 d": 1.0,
    "grip + 1.2 d": 1.2,
    "grip + 2 d": 2.0,
    "grip + 1/2 d": 0.5,
}
_LAPS = dict(zip((rule.name for rule in COLLAR_RULES), (2.0, 1.0, 2.5, 2.75, pi), strict=True))
SHOPS_OWN = "shop's own"
"""The rivet rule that takes its figure from the shop file (`JointRules.rivet_head`)."""


def rivet_length(rule: str, diameter: float, grip: float, own: float = 1.5) -> float:
    """Rivet or tenon [m] past its first head or shoulder by `rule`; `own` is the shop's figure in diameters.

    Raises KeyError for a name that has no row (a fault in us: the reader checks names).
    """
    return grip + (own if rule == SHOPS_OWN else _HEADS[rule]) * diameter


def tenon_length(rule: str, thick: float, grip: float) -> float:
    """Tenon [m] past its shoulder by `rule`; its thickness and the grip [m]."""
    return grip + _HEADS[rule] * thick


def collar_length(rule: str, girth: float, thick: float) -> float:
    """Bar [m] for a collar of thickness `thick` [m] round a bundle of `girth` [m] (see `bundle.bundle_girth`)."""
    return girth + _LAPS[rule] * thick


def wrap_length(turns: float, girth: float, thick: float) -> float:
    """Bar [m] in a wrap: its middle line runs half a thickness outside the bundle, girth + pi t a turn (exact).

    Round a bar of diameter d that is pi (d + t). The slope of the turns and the tails are not counted.
    """
    return turns * (girth + pi * thick)


def wrap_width(turns: float, wide: float) -> float:
    """How far [m] a close wrap of bar `wide` [m] reaches along the bundle: each turn lies beside the one before."""
    return turns * wide
