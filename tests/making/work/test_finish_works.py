"""Works of the finish: read off its words, minutes by the skin, wax at black heat and no work of the fire."""

from dataclasses import replace
from math import pi

import pytest

from bickern.desk.reckon import reckon_text
from bickern.iron.section import Section
from bickern.making.shop import Shop
from bickern.making.work.finish_works import (
    dressing_seconds,
    filing_seconds,
    operations_of,
    skin_of,
    too_wide_seconds,
    works_of_finish,
)
from bickern.making.work.result import Work
from bickern.measure.units.words import INCH, Shape

SHOP = Shop()
JOB = """job: Trial
units: mm
pieces:
  bar:
    bar: 12 sq
    metal: [{keep: 500}]
  plate:
    sheet: 2
    surface: {pan: {long: 100, wide: 100, high: 10, sizes: outside}}
  links:
    ring: 8 rd
    inside across: 40
    closed: welded
    make: 3
"""


def pieces():
    done = reckon_text(JOB, "trial.yaml")
    assert done.copy is not None, done.findings
    assert len(done.copy.pieces) == 3, done.findings
    return done.copy.pieces


@pytest.mark.parametrize(
    ("finish", "does"),
    [
        ("Wire brush at red, beeswax at black heat", ("brush", "wax or oil")),
        ("Boiled linseed oil at black heat", ("wax or oil",)),
        ("Stove black", ("black",)),
        ("Scrub bright, raw linseed oil baked on, no driers", ("scrub", "wax or oil")),
        ("Galvanised after forging", ("galvanise after",)),
        ("File the edges, then paint", ("file", "paint")),
        ("As it comes from the anvil", ()),
        ("", ()),
    ],
)
def test_the_words_of_a_finish_say_what_is_done(finish: str, does: tuple[str, ...]):
    assert operations_of(finish) == does
    assert tuple(dict.fromkeys(w.does for w in works_of_finish(finish, pieces(), SHOP))) == does


def test_brushed_at_red_in_the_fires_heat_and_sheet_is_not():
    made = works_of_finish("Wire brush at red", pieces(), SHOP)
    assert {w.piece for w in made} == {"bar", "links"}
    for work in made:
        assert work.hot
        assert work.start > work.stop >= 973.15
    assert not any(w.hot for w in works_of_finish("Wire brush", pieces(), SHOP))


def test_wax_goes_on_warm_and_wants_no_forging_heat():
    (wax,) = works_of_finish("Beeswax at black heat", pieces(), SHOP)
    assert not wax.hot
    assert "black heat" in wax.says


@pytest.mark.parametrize("coating", ["bluish", "not bare"])
def test_what_must_not_be_heated_is_not_brushed_at_red_and_keeps_its_set_from_being_warmed(coating: str):
    done = reckon_text(JOB.replace("bar: 12 sq", f"bar: 12 sq\n    coating: {coating}"), "trial.yaml")
    assert done.copy is not None
    works = works_of_finish("Wire brush at red, beeswax at black heat", done.copy.pieces, SHOP)
    assert [w.piece for w in works if w.hot] == ["links"]
    assert works[-1].case == "coated"
    assert works[-1].says == "cold, for bar must not be warmed"
    assert works[-1].seconds.value < works_of_finish("Beeswax at black heat", pieces(), SHOP)[0].seconds.value


def test_for_food_no_driers():
    (oil,) = works_of_finish("Raw linseed oil baked on, for food", pieces(), SHOP)
    assert "no driers" in oil.says
    assert oil.case == "food"


def test_skin_is_girth_times_length_and_both_faces_of_sheet():
    bar, plate, links = pieces()
    assert skin_of(bar) == pytest.approx(4 * 0.012 * 0.5)
    assert skin_of(plate) == pytest.approx(2 * plate.area)
    assert skin_of(links) == pytest.approx(3 * pi * 0.048 * pi * 0.008)  # a torus: Pappus


def test_a_pad_drawn_too_large_shows_what_it_costs():
    # about 10 cm3 an hour by hand: from memory, not validated; twice the metal is twice the time whatever the rate
    small, big = filing_seconds(1e-6), filing_seconds(2e-6)
    assert 120 < small.value < 1200
    assert big.value > small.value
    assert small.high > 2 * small.low
    assert small.why
    assert dressing_seconds(2e-3).value == pytest.approx(2 * dressing_seconds(1e-3).value)


def test_a_sixteenth_too_wide_is_a_strip_to_file_off():
    """3/4 long, 3/16 thick, 1/16 over: 0.75 x 0.1875 x 0.0625 in3 = 144 mm3 (exact); other works tell nothing."""
    pad = Section(Shape.FLAT, 0.75 * INCH, 0.1875 * INCH)
    work = Work("it: spread pad", "it", "spread", "pad", (0.0, 0.75 * INCH), True, after=pad)
    assert too_wide_seconds(work) == filing_seconds(0.75 * 0.1875 * 0.0625 * INCH**3)
    assert too_wide_seconds(replace(work, does="draw")).value == 0


def test_more_skin_takes_longer():
    some, all_ = (works_of_finish("Beeswax", p, SHOP)[0] for p in (pieces()[:1], pieces()))
    assert all_.seconds.value > some.seconds.value
