"""Against In situ thermogravimetric analysis of curved surfaces during high-temperature oxidation, Materials 18, 2025.

Kind: paper. Read in the source: conclusions of no. 11, article 2463 (Swansea University, University of Warwick, Tata
Steel): welded steel tube in air, 15 min at 1000 C with ramps of 5 K/min, gave a porous scale of 401.0 um (4.3). That
scale grows mostly over 700 C is said there; so the ramps are taken from and to 700 C. Ours comes out 421 um, 5 %
thicker. The paper quotes 670.6 um as another model's answer for that whole time at 1000 C, ours is 743, 11 % thicker.
One steel at one heat for two hours: nothing here checks the seconds of a forging heat, the flames, or other heats; the
answers say twice or half.
"""

import pytest
from beside import Beside

from bickern.iron.flame import Flame
from bickern.iron.heat.body import Curve
from bickern.iron.scale import scale_along, scale_thickness
from bickern.measure.units.words import ZERO_C

RAMP = 300 / 5 * 60  # seconds from 700 to 1000 C
SOAK = 15 * 60
PIECES = 200


def the_run() -> Curve:
    """700 C, 1000 C at 5 K/min, 15 min there, and back."""
    part = [i / PIECES for i in range(PIECES + 1)]
    seconds = [RAMP * p for p in part] + [RAMP + SOAK + RAMP * p for p in part]
    celsius = [700 + 300 * p for p in part] + [1000 - 300 * p for p in part]
    return Curve(tuple(seconds), tuple(c + ZERO_C for c in celsius))


def beside() -> list[Beside]:
    """The measured scale and the other model's, and ours."""
    whole = 1e6 * scale_thickness(1000 + ZERO_C, 2 * RAMP + SOAK)
    one = "one steel, one heat, two hours: nothing measured for a forging heat"
    return [
        Beside("scale after 15 min at 1000 C, ramps of 5 K/min", "um", 401.0, 1e6 * scale_along(the_run()), one),
        Beside("the same by a model of theirs, all 135 min at 1000 C", "um", 670.6, whole, "reckoned, not measured"),
    ]


def test_measured_scale_of_a_slow_run() -> None:
    """Measured 401 um (read in the source): within a tenth, and it is ours that is thicker."""
    ours = 1e6 * scale_along(the_run())
    assert ours == pytest.approx(401, rel=0.10)
    assert ours == pytest.approx(421, abs=1)  # our own digits: what is said above is so


def test_air_is_no_bar_to_so_slow_a_run() -> None:
    """With the oxygen that air brings, 1 to 2 % less: in two hours it is the scale that hinders itself."""
    assert 0.98 < scale_along(the_run(), Flame.OXIDISING) / scale_along(the_run()) < 1.0


def test_their_reckoning_at_the_full_heat() -> None:
    """670.6 um (read in the source) for the whole time at 1000 C: ours is a ninth thicker."""
    ours = 1e6 * scale_thickness(1000 + ZERO_C, 2 * RAMP + SOAK)
    assert ours == pytest.approx(670.6, rel=0.12)
