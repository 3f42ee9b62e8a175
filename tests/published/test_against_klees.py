"""Against an old ring rule posted by J. A. Klees, iforgeiron.com.

Kind: question page. Quoted by a secondary page, which gives no book: 3 D + 3 t + 1/2 in a foot + t/3. It comes out
short of the exact line although it says that it allows for a weld. Our rule was copied from it.
"""

import pytest
from chosen import answer_by, inches_by
from shelf import Printed, book


@book("klees")
def test_figure(row: Printed) -> None:
    row.holds()


def test_klees_old_rule_is_short_although_it_claims_a_weld():
    """The rule (quoted) is to leave a weld, and is short of the middle of the bar, pi x 61 (exact mathematics)."""
    assert inches_by("rings: {weld: none}", "ring '1 rd' 60", "along the middle") > 190.833


@pytest.mark.parametrize(
    "rules", ["{length: 3 D + 3 t + 1/2 in a foot + t/3}", "{length: 3 D + 3 t + 1/2 in a foot + t/3, weld: none}"]
)
def test_a_ring_by_the_shops_choice(rules: str):
    """The ring of 5 ft of 1 in iron (quoted): 190.833; transcribed. A weld told beside it counts for nothing."""
    answer = answer_by(f"rings: {rules}", "ring '1 rd' 60 --closed welded")
    assert inches_by(f"rings: {rules}", "ring '1 rd' 60 --closed welded", "cut") == pytest.approx(190.833, abs=0.0005)
    assert "ring-comes-small" in {f.name for f in answer.findings}  # 191.64 by the middle of the bar


def test_a_weld_by_the_shops_choice():
    """The same rule's last part (quoted), t/3; transcribed."""
    ours = inches_by("rings: {weld: a third of a thickness}", "ring '1 rd' 60 --closed welded", "weld")
    assert ours == pytest.approx(1 / 3)
