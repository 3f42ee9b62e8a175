"""How long the hands are at rings, sheet, joints and the cold finish: one rate a row, each no better than a guess.

Nothing here is validated by anything printed. A smith's own clock is worth more than all of these rows.
"""

from dataclasses import dataclass

from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within

_MEMORY = Source("", "a shop's pace, with hand tools", None, "from memory, not timed", Kind.MEMORY)
_LINK = Source(
    "", "three or four blows an end, so that a link is made in the three heats that are told of", None,
    "heats quoted by a secondary page; not timed", Kind.MEMORY,
)  # fmt: skip
_WELD = Source(
    "J. B. Stokes", "Intermediate Blacksmithing, FAO Agricultural Services Bulletin 88/2", 1992,
    "job 7: a link is welded and rounded up in about ten seconds, the way from the fire in it; read in it",
    Kind.HANDBOOK,
)  # fmt: skip
NOT_TIMED = "seconds of hands at work are from memory, half to twice"


@dataclass(frozen=True, slots=True)
class Rate:
    """`seconds` for one `per` ("each", "m", "m2", "m3"), true to within `factor` either way."""

    what: str
    seconds: float
    per: str
    source: Source = _MEMORY
    factor: float = 2.0


_ROWS = (
    Rate("lay a pattern on and prick it", 120.0, "each"),
    Rate("scribe a line", 60.0, "m"),
    Rate("snip sheet 1 mm thick", 60.0, "m"),
    Rate("file a sheet edge", 40.0, "m"),
    Rate("drill a hole in sheet", 40.0, "each"),
    Rate("turn a narrow edge", 150.0, "m"),
    Rate("bend a seam edge", 90.0, "m"),
    Rate("set up a fold", 60.0, "each"),
    Rate("dress a fold", 120.0, "m"),
    Rate("press sheet round", 240.0, "m"),
    Rate("close a grooved seam", 180.0, "m"),
    Rate("braze a seam", 400.0, "m"),
    Rate("dish a blank cold", 60000.0, "m2"),
    Rate("dish a blank hot", 8000.0, "m2"),
    Rate("roll up a lug", 60.0, "each"),
    Rate("wind one turn", 4.0, "each"),
    Rate("cut one ring off a coil", 15.0, "each"),
    Rate("bend a small ring cold", 30.0, "each"),
    Rate("bend a U", 8.0, "each"),
    Rate("turn a ring hot", 150.0, "m"),
    Rate("scarf one end", 5.0, "each", _LINK),
    Rate("close a link", 5.0, "each", _LINK),
    Rate("dress a weld", 3.0, "each", _WELD),
    Rate("close a ring cold", 20.0, "each"),
    Rate("close a ring hot", 10.0, "each"),
    Rate("thread a ring", 5.0, "each"),
    Rate("rivet cold", 60.0, "each"),
    Rate("head a hot rivet", 15.0, "each"),
    Rate("true a shoulder", 15.0, "each"),
    Rate("close a collar", 15.0, "each"),
    Rate("lay one turn of a wrap", 6.0, "each"),
    Rate("drive a screw", 60.0, "each"),
    Rate("set a pin", 45.0, "each"),
    Rate("file a face smooth", 3.0e4, "m2"),
    Rate("wax or oil", 1500.0, "m2"),
    Rate("warm and wipe one piece", 60.0, "each"),
    Rate("black or paint", 2500.0, "m2"),
    Rate("scrub bright", 2.0e4, "m2"),
    Rate("pack for the galvaniser", 120.0, "each"),
)
RATES: dict[str, Rate] = {row.what: row for row in _ROWS}
"""Every rate by what it is for."""


def time_of(what: str, amount: float = 1.0) -> Spread:
    """Seconds for `amount` (a count, or m, m2, m3 by the row's `per`) of what the row names."""
    row = RATES[what]
    return within(row.seconds * amount, 1 / row.factor, row.factor, NOT_TIMED)
