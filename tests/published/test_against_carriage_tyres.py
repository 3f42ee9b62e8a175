"""Against a carriage maker's tyre rule told by B. Rackers on a smiths' mailing list, 2003.

Kind: question page. Quoted by a secondary page (theforge list, August 2003): round the wheel and 3 1/2 thicknesses, or
3 3/4 where it is upset more. pi thicknesses of it are the bend, so 0.36 and 0.61 are left for the weld: bounds. Our
rules were copied from it.
"""

from math import pi

import pytest
from chosen import inches_by

RULES = [("tyre: round the wheel + 3 1/2 t", 3.5), ("tyre, upset more: + 3 3/4 t", 3.75)]
"""Name of a rule, and its thicknesses past the round of the wheel (quoted; no figure is printed)."""


@pytest.mark.parametrize(("rule", "thicknesses"), RULES)
def test_the_named_rule_is_the_round_of_the_wheel_and_its_thicknesses(rule: str, thicknesses: float) -> None:
    """Transcribed: pi D + 3 1/2 t, or 3 3/4 t, on a wheel of 36 and a tyre 1/2 thick, both sizes of our own."""
    ours = inches_by(f'rings: {{length: "{rule}"}}', "ring '1/2 x 1/2' 36 --closed welded", "cut")
    assert ours == pytest.approx(36 * pi + thicknesses * 0.5, rel=1e-12)


@pytest.mark.parametrize(("rule", "thicknesses"), RULES)
def test_what_the_rule_leaves_for_the_weld(rule: str, thicknesses: float) -> None:
    """Exact mathematics: the middle of the tyre goes round pi thicknesses more than the wheel, so 0.36 t is left."""
    ask, by_rule = "ring '1/2 x 1/2' 36 --closed welded", f'rings: {{length: "{rule}"}}'
    left = inches_by(by_rule, ask, "cut") - inches_by(by_rule, ask, "along the middle")
    assert left / 0.5 == pytest.approx(thicknesses - pi, abs=1e-9)
    assert 0 < left < 0.5  # a weld of less than one thickness
