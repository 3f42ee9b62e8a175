"""Who asks: the shop's own units unless others are told."""

from pathlib import Path

import pytest

from bickern.desk.asker import asker
from bickern.measure.units.words import System


@pytest.mark.parametrize(
    ("units", "text", "system", "first"),
    [
        (None, None, System.INCH, System.INCH),
        ("mm", None, System.MM, System.MM),
        ("in", None, System.INCH, System.INCH),
        (None, "units: mm\n", System.MM, System.MM),
        (None, "", System.INCH, System.INCH),
        ("in", "units: mm\n", System.INCH, System.MM),  # the shop's tape stays its own
        ("mm", "units: in\n", System.MM, System.INCH),
    ],
)
def test_bare_numbers_and_what_stands_first(
    units: str | None, text: str | None, system: System, first: System, tmp_path: Path
):
    path = None
    if text is not None:
        path = tmp_path / "shop.yaml"
        path.write_text(f"shop: Ours\n{text}")
    me = asker(units, path)
    assert me is not None
    assert (me.system, me.shop.style.first) == (system, first)
