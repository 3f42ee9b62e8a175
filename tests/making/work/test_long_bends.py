"""Cold bends by how much metal is in them and of which metal; a closed bar by what it is checked with."""

from math import pi

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.shop import Shop
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.fire import STOUTER, metal_of, rounding_cold, stout_first
from bickern.making.work.result import Work
from bickern.making.work.ways import way_of
from bickern.parts.bar.result import BarResult

SHOP = Shop()
HOOP = """job: Trial
units: in
pieces:
  hoop:
    bar: 1 1/4 x 1/4
    closed: welded
    metal: [{keep: rest, name: band}]
    path: [{hoop: {inside across: 22}, way: easy, turn: up}]
"""
OPEN = """job: Trial
units: in
pieces:
  strap:
    bar: 1 x 1/8
    metal: [{keep: 9}]
    path: [{straight: 4}, {bend: 45, inside radius: 2, turn: up}, {straight: rest}]
"""


def works(text: str) -> tuple[Work, ...]:
    done = reckon_text(text, "trial.yaml")
    assert done.copy is not None, done.findings
    (piece,) = done.copy.pieces
    assert isinstance(piece, BarResult)
    return works_of_bar(piece, SHOP)


def test_a_large_hoop_takes_many_minutes_cold():
    """22 in across of 1 1/4 x 1/4: ten to fifteen minutes, a smith's judgement from memory, not timed."""
    (hoop,) = [w for w in works(HOOP) if w.does == "hoop"]
    assert not hoop.hot
    assert 600 <= hoop.seconds.value <= 900
    assert hoop.seconds.low < 600


def test_a_short_cold_bend_stays_short():
    (bend,) = [w for w in works(OPEN) if w.does == "bend"]
    assert not bend.hot
    assert bend.seconds.value < 30


def test_twice_the_metal_takes_twice_as_long_and_stronger_metal_longer():
    ring = pi * 0.5 * 1e-4
    mild, copper, carbon = (rounding_cold(metal_of(name), ring).value for name in ("S235JR", "copper", "C45"))
    assert rounding_cold(metal_of("S235JR"), 2 * ring).value == pytest.approx(2 * mild)
    assert copper < mild < carbon


def test_a_closed_bar_is_laid_on_the_face_and_only_an_open_one_is_sighted_along():
    tapered = OPEN.replace("{keep: 9}", "{keep: 9}, {to: 1/4 x 1/8, over: 2}")
    closed, opened = (next(w for w in works(text) if w.does == "straighten") for text in (HOOP, tapered))
    assert "Sight" not in way_of(closed).check
    assert "Sight" in way_of(opened).check


def test_the_thicker_iron_goes_in_first_where_it_is_much_thicker():
    assert stout_first([("arm", 2e-3), ("leaf", 1e-3)]).startswith("arm is the thicker")
    assert stout_first([("leaf", 1e-3), ("arm", 1e-3 * STOUTER.value)]).startswith("arm is the thicker")
    assert stout_first([("arm", 1.2e-3), ("leaf", 1e-3)]) == ""
    assert stout_first([]) == ""
