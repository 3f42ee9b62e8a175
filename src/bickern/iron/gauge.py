"""Gauge numbers of sheet and wire. The same number is a different thickness in each system, so all are said.

Rows are kept as their standard gives them (US sheet by weight, British by thickness, American wire by formula), and a
thickness printed in a handbook is never copied where the standard's own rule gives it: printed tables carry misprints.
"""

from dataclasses import dataclass

from bickern.measure.finding import Finding, note, stop, warn
from bickern.measure.source import Kind, Source
from bickern.measure.units.words import FOOT, INCH, POUND, GaugeSystem, GaugeWords, Read

_US_OUNCES: dict[int, float] = {
    3: 160, 4: 150, 5: 140, 6: 130, 7: 120, 8: 110, 9: 100, 10: 90, 11: 80, 12: 70, 13: 60, 14: 50, 15: 45, 16: 40,
    17: 36, 18: 32, 19: 28, 20: 24, 21: 22, 22: 20, 23: 18, 24: 16, 25: 14, 26: 12, 27: 11, 28: 10, 29: 9, 30: 8,
    31: 7, 32: 6.5, 33: 6, 34: 5.5, 35: 5, 36: 4.5, 37: 4.25, 38: 4,
}  # fmt: skip
"""Ounces in a square foot of uncoated sheet."""
_US_POUNDS_PER_INCH = 41.82
"""Pounds in a square foot of sheet one inch thick: how the US standard turns weight into thickness."""
_ZINC_OUNCES = 2.5
"""Ounces a square foot that galvanised sheet of the same number weighs more."""
_GALVANISED_LEAST, _GALVANISED_MOST = 8, 32

_SWG_INCHES: dict[int, float] = {
    -6: 0.500, -5: 0.464, -4: 0.432, -3: 0.400, -2: 0.372, -1: 0.348,
    0: 0.324, 1: 0.300, 2: 0.276, 3: 0.252, 4: 0.232, 5: 0.212, 6: 0.192, 7: 0.176, 8: 0.160, 9: 0.144, 10: 0.128,
    11: 0.116, 12: 0.104, 13: 0.092, 14: 0.080, 15: 0.072, 16: 0.064, 17: 0.056, 18: 0.048, 19: 0.040, 20: 0.036,
    21: 0.032, 22: 0.028, 23: 0.024, 24: 0.022, 25: 0.020, 26: 0.018, 27: 0.0164, 28: 0.0148, 29: 0.0136, 30: 0.0124,
    31: 0.0116, 32: 0.0108, 33: 0.0100, 34: 0.0092, 35: 0.0084, 36: 0.0076, 37: 0.0068, 38: 0.0060, 39: 0.0052,
    40: 0.0048,
}  # fmt: skip
_BWG_INCHES: dict[int, float] = {
    -3: 0.454, -2: 0.425, -1: 0.380,
    0: 0.340, 1: 0.300, 2: 0.284, 3: 0.259, 4: 0.238, 5: 0.220, 6: 0.203, 7: 0.180, 8: 0.165, 9: 0.148, 10: 0.134,
    11: 0.120, 12: 0.109, 13: 0.095, 14: 0.083, 15: 0.072, 16: 0.065, 17: 0.058, 18: 0.049, 19: 0.042, 20: 0.035,
    21: 0.032, 22: 0.028, 23: 0.025, 24: 0.022, 25: 0.020, 26: 0.018, 27: 0.016, 28: 0.014, 29: 0.013, 30: 0.012,
    31: 0.010, 32: 0.009, 33: 0.008, 34: 0.007, 35: 0.005, 36: 0.004,
}  # fmt: skip
_AWG_LEAST, _AWG_MOST = -3, 40


@dataclass(frozen=True, slots=True)
class GaugeTable:
    """One system: thickness [m] by number (00 is -1, 000 is -2), what it is meant for, and where it comes from."""

    system: GaugeSystem
    metres: dict[int, float]
    of: str
    source: Source


def _us_inches(ounces: float) -> float:
    """The US standard prints its thickness to four places of an inch, and that is the thickness."""
    return round(ounces / 16 / _US_POUNDS_PER_INCH, 4)


def _awg_inches(number: int) -> float:
    """39 equal ratios from 0.005 in (36) to 0.46 in (0000)."""
    return float(0.005 * 92 ** ((36 - number) / 39))


def _metres(inches: dict[int, float]) -> dict[int, float]:
    return {number: size * INCH for number, size in inches.items()}


_LAW = Source(
    "", "An Act establishing a standard gauge for sheet and plate iron and steel", 1893,
    "27 Stat. 746: ounces of numbers 3 to 21 read, of 22 to 38 by its steps as a trade page quotes them, and of 31 to "
    "36 by the inches of iron on a wire maker's chart; "
    "41.82 by Machinery's Handbook, 31st ed., 2020, p. 1453 table 20", Kind.STANDARD,
)  # fmt: skip
_GALVANISED = Source(
    "SMACNA", "galvanized sheet thickness tolerances, after ASTM A924 and A653", None,
    "numbers 8 to 32 read; 2.5 oz a square foot more by E. M. Longfield, Sheet Metal Drafting, 1921, p. 102",
    Kind.STANDARD,
)  # fmt: skip
_ROWLETT = ("R. Rowlett", "How Many? A Dictionary of Units of Measurement", None)
_RIVINGTON = "even numbers 8 to 26 also in Rivington's series, Building Construction vol. 3"
_TABLES = (
    GaugeTable(
        GaugeSystem.US, _metres({n: _us_inches(oz) for n, oz in _US_OUNCES.items()}), "uncoated steel sheet", _LAW,
    ),
    GaugeTable(
        GaugeSystem.GALVANISED,
        _metres({n: _us_inches(oz + _ZINC_OUNCES) for n, oz in _US_OUNCES.items()
                 if _GALVANISED_LEAST <= n <= _GALVANISED_MOST}),
        "galvanised sheet, zinc included", _GALVANISED,
    ),
    GaugeTable(
        GaugeSystem.SWG, _metres(_SWG_INCHES), "wire and sheet in Britain",
        Source(*_ROWLETT, f"numbers 7/0 to 40 read; {_RIVINGTON}", Kind.HANDBOOK),
    ),
    GaugeTable(
        GaugeSystem.BWG, _metres(_BWG_INCHES), "old British wire, tube walls, rivets",
        Source(*_ROWLETT, f"numbers 4/0 to 36 read; {_RIVINGTON}", Kind.HANDBOOK),
    ),
    GaugeTable(
        GaugeSystem.AWG, _metres({n: _awg_inches(n) for n in range(_AWG_LEAST, _AWG_MOST + 1)}),
        "copper and brass, wire and sheet",
        Source("C. H. Haswell", "table of the Brown & Sharpe gauge", None,
               "0.005 x 92^((36-n)/39); numbers 4/0 to 40 also read in R. Rowlett, How Many?", Kind.HANDBOOK),
    ),
)  # fmt: skip
GAUGES: dict[GaugeSystem, GaugeTable] = {table.system: table for table in _TABLES}

NOTICED = 0.03
"""Two thicknesses nearer than this share of each other are one thickness to a smith (common practice)."""
DANGEROUS = 0.10
"""Above this share the wrong one spoils a fit or a fold (common practice)."""


def gauge_called(number: int) -> str:
    """How a gauge number is written: `16`, `0`, and `4/0` for -3, which is also written 0000."""
    return str(number) if number >= 0 else f"{1 - number}/0"


def thickness(number: int, system: GaugeSystem) -> float | None:
    """Thickness [m] of a gauge number; None where the system has no such number."""
    return GAUGES[system].metres.get(number)


OF_STEEL = (GaugeSystem.US, GaugeSystem.GALVANISED, GaugeSystem.SWG, GaugeSystem.BWG)
"""Systems that iron and steel are sold by."""


def standard_weight(number: int, system: GaugeSystem) -> float | None:
    """Mass of sheet by its area [kg/m2], where the standard tells that and not a thickness (US; zinc included)."""
    if thickness(number, system) is None or system not in (GaugeSystem.US, GaugeSystem.GALVANISED):
        return None
    zinc = _ZINC_OUNCES if system is GaugeSystem.GALVANISED else 0.0
    return (_US_OUNCES[number] + zinc) / 16 * POUND / FOOT**2


def nearest(metres: float, system: GaugeSystem) -> tuple[int, float]:
    """The gauge number whose thickness is nearest to `metres`, and that thickness [m]; of two, the heavier."""
    table = GAUGES[system].metres
    number = min(table, key=lambda n: (abs(table[n] - metres), n))
    return number, table[number]


def resolve(words: GaugeWords, assumed: GaugeSystem = GaugeSystem.US, coated: bool = False) -> Read[float]:
    """Thickness [m] of gauge words. With no system named, the shop's `assumed` one (US: galvanised where `coated`)."""
    system = words.system or _without_name(assumed, coated)
    found = thickness(words.number, system)
    if found is None:
        return Read(None, (_no_such(words.number, system),))
    doubt = _doubt(words.number, system, found) if words.system is None else None
    return Read(found, (doubt,) if doubt else ())


def _without_name(assumed: GaugeSystem, coated: bool) -> GaugeSystem:
    return GaugeSystem.GALVANISED if coated and assumed is GaugeSystem.US else assumed


def _no_such(number: int, system: GaugeSystem) -> Finding:
    numbers = GAUGES[system].metres
    runs = f"{gauge_called(min(numbers))} to {gauge_called(max(numbers))}"
    says = f"There is no {gauge_called(number)} gauge in the {system} system: it runs from {runs}."
    return stop("no-such-gauge", says, "Write the thickness itself, as `1/16` or `1.5 mm`.")


def _doubt(number: int, taken: GaugeSystem, metres: float) -> Finding | None:
    """What the same number means elsewhere, if a smith would notice; zinc is looked at only on coated sheet."""
    systems = (GaugeSystem.US, GaugeSystem.SWG, GaugeSystem.BWG)
    others = {s: t for s in systems if s is not taken and (t := thickness(number, s)) is not None}
    apart = max((abs(t - metres) / metres for t in others.values()), default=0.0)
    if apart <= NOTICED:
        return None
    each = ", ".join(f"{_inches(t)} ({s})" for s, t in others.items())
    called = gauge_called(number)
    says = f"{called} ga is taken as {_inches(metres)} ({taken}); it would be {each}."
    try_this = f"Write `{called} {taken} ga` or the system it was bought by, or measure the sheet."
    return (warn if apart > DANGEROUS else note)("gauge-system", says, try_this)


def _inches(metres: float) -> str:
    """Sheet is talked of in thousandths, and four places tell the systems apart."""
    return f"{metres / INCH:.4f} in / {metres * 1000:.2f} mm"
