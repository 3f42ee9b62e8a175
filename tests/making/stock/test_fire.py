"""What may go in a fire: never what is coated, sealed or leaded, and nothing is taken for clean that was not told.

The words of coatings are held in tests of the metals; here, that no piece of stock gets past them by another door.
"""

from dataclasses import replace

import pytest

from bickern.geometry.polygon import rectangle
from bickern.iron.coating import CLEAN, COATINGS
from bickern.iron.section import Section
from bickern.making.stock.fire import may_be_heated
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.measure.units.words import Shape

BAR = StockBar("B1", Section(Shape.SQUARE, 0.01, 0.01), 1.0, "S235JR", "none")
SHEET = StockSheet("S1", 0.001, rectangle(1.0, 1.0), (), "mild", "bare")


@pytest.mark.parametrize("piece", [BAR, SHEET], ids=["bar", "sheet"])
def test_bare_metal_of_a_known_kind_may(piece: StockBar | StockSheet):
    assert may_be_heated(piece) is None


@pytest.mark.parametrize("word", sorted(COATINGS))
def test_whatever_is_on_it_stops(word: str):
    for piece in (BAR, SHEET):
        for marked in (word, word.upper(), f"old {word} rail"):
            found = may_be_heated(replace(piece, coating=marked))
            assert found is not None
            assert found.stops


@pytest.mark.parametrize("word", ["galvanised", "zinc", "painted", "chrome", "sealed"])
def test_a_coating_told_anywhere_stops(word: str):
    """In the steel's name, in the gauge, and in the remark where no coating is told."""
    pieces = [
        replace(BAR, steel=f"{word} mild"),
        replace(BAR, coating="", remark=f"{word} gate post"),
        replace(SHEET, gauge=f"18 ga {word}"),
    ]
    for piece in pieces:
        found = may_be_heated(piece)
        assert found is not None
        assert found.stops


@pytest.mark.parametrize("word", sorted(CLEAN - {"no"}))
def test_clean_surfaces_do_not(word: str):
    assert may_be_heated(replace(BAR, coating=word)) is None


def test_a_remark_does_not_speak_against_a_coating_that_is_told():
    assert may_be_heated(replace(BAR, coating="none", remark="from the painted shed")) is None


@pytest.mark.parametrize(
    ("remark", "never"),
    [
        ("sealed tube", True),
        ("old shock absorber rod", True),
        ("both ends closed", True),
        ("Leaded, free cutting", True),
        ("not sealed, both ends open", False),
        ("from the lead screw of a lathe", False),
    ],
)
def test_bare_metal_that_is_shut_or_has_lead_in_it_never_goes_in(remark: str, never: bool):
    """A clean surface says nothing of what is shut in a tube: `coating: none` is true of it, and it bursts."""
    found = may_be_heated(replace(BAR, coating="none", remark=remark))
    assert (found is not None and found.stops) == never


@pytest.mark.parametrize(
    ("piece", "name"),
    [
        (replace(BAR, coating=""), "coating-unknown"),
        (replace(BAR, coating="?"), "coating-unknown"),
        (replace(BAR, coating="moondust"), "coating-unknown"),
        (replace(BAR, steel=""), "stock-metal-unknown"),
        (replace(BAR, steel="EN999"), "stock-metal-unknown"),
        (replace(BAR, steel="leaf spring"), "scrap-steel"),
        (replace(SHEET, coating="", steel=""), "coating-unknown"),
    ],
)
def test_what_is_not_known_warns(piece: StockBar | StockSheet, name: str):
    found = may_be_heated(piece)
    assert found is not None
    assert (found.name, found.stops) == (name, False)


@pytest.mark.parametrize(
    ("steel", "name"), [("12L14", "leaded-stock"), ("leaded", "leaded-stock"), ("cast iron", "not-forgeable")]
)
def test_metal_that_never_goes_in(steel: str, name: str):
    found = may_be_heated(replace(BAR, steel=steel))
    assert found is not None
    assert (found.name, found.stops) == (name, True)


def test_a_coating_outweighs_what_is_not_known_of_the_metal():
    found = may_be_heated(replace(BAR, steel="", coating="galvanised"))
    assert found is not None
    assert found.stops
