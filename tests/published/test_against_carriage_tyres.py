"""Against a carriage maker's tyre rule told by B. Rackers on a smiths' mailing list, 2003.

Kind: question page. Quoted by a secondary page (theforge list, August 2003): round the wheel and 3 1/2 thicknesses, or
3 3/4 where it is upset more. pi thicknesses of it are the bend, so 0.36 and 0.61 are left for the weld: bounds. Our
rules were copied from it.
"""

from math import pi

import pytest
from chosen import inches_by
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.ring.rules import RING_RULES, ring_length


@book("carriage_tyres")
def test_figure(row: Printed) -> None:
    row.holds()


@pytest.mark.parametrize(("rule", "least", "most"), [("3 1/2", 0.3, 0.4), ("upset more: + 3 3/4", 0.55, 0.65)])
def test_tyre_rule_leaves_a_weld_of_about_half_a_thickness(rule: str, least: float, most: float):
    # carriage maker's rule told by B. Rackers, 2003 (quoted by a secondary page): wheel + 3 1/2 t, or 3 3/4 t.
    # Exact mathematics: pi t of it is the bend, so 0.36 and 0.61 t are left for the weld
    name = next(r.name for r in RING_RULES if r.name.startswith("tyre") and rule in r.name)
    left = ring_length(name, 36 * INCH, 0.5 * INCH) - pi * 36.5 * INCH
    assert least < left / (0.5 * INCH) < most


@pytest.mark.parametrize(
    ("rule", "printed"), [("tyre: round the wheel + 3 1/2 t", 114.8473), ("tyre, upset more: + 3 3/4 t", 114.9723)]
)
def test_a_tyre_by_the_shops_choice(rule: str, printed: float):
    """The rule (quoted) on a wheel of 36 and a tyre 1/2 thick; transcribed, its figure ours."""
    ours = inches_by(f'rings: {{length: "{rule}"}}', "ring '1/2 x 1/2' 36 --closed welded", "cut")
    assert ours == pytest.approx(printed, abs=5e-5)
