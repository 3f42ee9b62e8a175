"""How long hands take, beside the blows that are counted: at anvil and bench, with rings, sheet, joints and the finish.

None of these seconds was held against a clock: they are from memory or common practice, each with its span, and the
smith's own count is worth more than all of them. SI: metres, seconds.
"""

from dataclasses import dataclass

from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within

WHY_HANDS = "how fast hands work is not measured: time yours once"

_MEMORY = Source("", "times at bench and anvil, with hand tools", None, "from memory, not timed", Kind.MEMORY)
_LINK = Source(
    "", "three or four blows an end, so that a link is made in the three heats that are told of", None,
    "heats quoted by a secondary page; not timed", Kind.MEMORY,
)  # fmt: skip
_WELD = Source(
    "J. B. Stokes", "Intermediate Blacksmithing, FAO Agricultural Services Bulletin 88/2", 1992,
    "job 7: a link is welded and rounded up in about ten seconds, the way from the fire in it; read in it",
    Kind.HANDBOOK,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Pace:
    """Seconds of one kind of handwork: `once` [s] and `each` [s per unit of `of`], within `low` and `high` times it."""

    key: str
    once: float
    each: float
    of: str
    low: float
    high: float
    source: Source = _MEMORY


def _rate(key: str, seconds: float, each: str, source: Source = _MEMORY) -> Pace:
    """A row that is `seconds` for every unit, half to twice."""
    return Pace(key, 0.0, seconds, each, 0.5, 2.0, source)


_FORGED = (
    Pace("mark", 20.0, 15.0, "mark", 0.5, 2.5),
    Pace("saw", 20.0, 0.4e6, "m2 cut: hacksaw 0.8, power saw 0.15 s/mm2", 0.35, 2.5),
    Pace("upset", 4.0, 0.0, "", 0.5, 2.0),
    Pace("draw", 2.0, 0.0, "", 0.5, 2.0),
    Pace("taper", 2.0, 0.0, "", 0.5, 2.0),
    Pace("spread", 2.0, 0.0, "", 0.5, 2.0),
    Pace("shoulder", 4.0, 0.0, "", 0.5, 2.0),
    Pace("split", 6.0, 0.0, "", 0.5, 2.0),
    Pace("punch", 4.0, 4.0, "hole: found, turned over, punched back", 0.5, 2.0),
    Pace("slit", 4.0, 4.0, "hole", 0.5, 2.0),
    Pace("drift", 3.0, 4.0, "hole", 0.5, 2.0),
    Pace("drill", 60.0, 0.06e9, "m3 drilled out", 0.5, 2.5),
    Pace("bend", 4.0, 0.0, "", 0.5, 2.0),
    Pace("square corner", 16.0, 0.0, "cooled beside, bent, driven back from both legs, tried on the square", 0.5, 2.0),
    Pace("cold bend", 10.0, 6.0, "quarter turn in vise or fork", 0.5, 2.5),
    Pace("bend round cold", 0.0, 2.0e6, "m3 of mild bar in it: in small steps, tried on and on", 0.5, 2.0),
    Pace("curl", 4.0, 6.0, "turn, looked at", 0.5, 2.5),
    Pace("hoop", 10.0, 20.0, "turn, looked at", 0.5, 2.5),
    Pace("scroll", 4.0, 12.0, "turn", 0.5, 2.5),
    Pace("twist", 8.0, 4.5, "turn, 3 to 6 s", 0.6, 2.0),
    Pace("scarf", 4.0, 0.0, "", 0.5, 2.0),
    Pace("weld", 4.0, 0.0, "", 0.5, 2.0),
    Pace("straighten", 4.0, 20.0, "m of bar", 0.5, 2.5),
    Pace("cut off", 6.0, 0.0, "", 0.5, 2.0),
    Pace("file", 20.0, 0.35e9, "m3 filed off: about 10 cm3 an hour", 0.4, 3.0),
    Pace("brush", 2.0, 250.0, "m2 of skin", 0.5, 2.5),
)
"""Rows by operation. Where blows are counted, a row holds what is beside them: finding the mark, turning, looking."""
_AT_THE_BENCH = (
    _rate("lay a pattern on and prick it", 120.0, "each"),
    _rate("scribe a line", 60.0, "m"),
    _rate("snip sheet 1 mm thick", 60.0, "m"),
    _rate("file a sheet edge", 40.0, "m"),
    _rate("drill a hole in sheet", 40.0, "each"),
    _rate("turn a narrow edge", 150.0, "m"),
    _rate("bend a seam edge", 90.0, "m"),
    _rate("set up a fold", 60.0, "each"),
    _rate("dress a fold", 120.0, "m"),
    _rate("press sheet round", 240.0, "m"),
    _rate("close a grooved seam", 180.0, "m"),
    _rate("braze a seam", 400.0, "m"),
    _rate("dish a blank cold", 60000.0, "m2"),
    _rate("dish a blank hot", 8000.0, "m2"),
    _rate("roll up a lug", 60.0, "each"),
    _rate("wind one turn", 4.0, "each"),
    _rate("cut one ring off a coil", 15.0, "each"),
    _rate("bend a small ring cold", 30.0, "each"),
    _rate("bend a U", 8.0, "each"),
    _rate("turn a ring hot", 150.0, "m"),
    _rate("scarf one end", 5.0, "each", _LINK),
    _rate("close a link", 5.0, "each", _LINK),
    _rate("dress a weld", 3.0, "each", _WELD),
    _rate("close a ring cold", 20.0, "each"),
    _rate("close a ring hot", 10.0, "each"),
    _rate("thread a ring", 5.0, "each"),
    _rate("rivet cold", 60.0, "each"),
    _rate("head a hot rivet", 15.0, "each"),
    _rate("true a shoulder", 15.0, "each"),
    _rate("close a collar", 15.0, "each"),
    _rate("lay one turn of a wrap", 6.0, "each"),
    _rate("drive a screw", 60.0, "each"),
    _rate("set a pin", 45.0, "each"),
    _rate("file a face smooth", 3.0e4, "m2"),
    _rate("wax or oil", 1500.0, "m2"),
    _rate("warm and wipe one piece", 60.0, "each"),
    _rate("black or paint", 2500.0, "m2"),
    _rate("scrub bright", 2.0e4, "m2"),
    _rate("pack for the galvaniser", 120.0, "each"),
)
"""Rows by what is done to rings, sheet, joints and finished pieces."""
PACES: dict[str, Pace] = {pace.key: pace for pace in (*_FORGED, *_AT_THE_BENCH)}
"""Every row by its key."""


def hands(key: str, amount: float = 1.0) -> Spread:
    """Seconds of handwork beside the blows: the row `key` with `amount` of its unit (a count, or m, m2, m3)."""
    pace = PACES[key]
    return within(pace.once + pace.each * amount, pace.low, pace.high, WHY_HANDS)
