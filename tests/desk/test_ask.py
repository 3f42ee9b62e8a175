"""Questions at the anvil: figures against print or exact mathematics, and no argument that breaks them."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.desk import ask
from bickern.desk.answer import Answer
from bickern.desk.asker import asker
from bickern.making.shop import Shop
from bickern.measure.units.words import INCH, System

SHOP = Shop()


def row(answer: Answer, name: str) -> str:
    assert not answer.stops, answer.findings
    return dict(answer.rows)[name]


def first_length(text: str) -> float:
    """`3 1/4 in (82.5 mm)` or `3 1/4 in (3.250) / 82.6 mm` in metres, by its millimetres."""
    found = re.search(r"([\d.]+) mm\)?$", text)
    assert found is not None
    return float(found.group(1)) / 1000


def test_taper_to_a_point_takes_a_third():
    # a square point holds a third of its box: exact mathematics
    answer = ask.taper("1/2 sq", "point", "3", SHOP, System.INCH)
    assert first_length(row(answer, "by constant volume")) == pytest.approx(1 * INCH, abs=0.00006)


def test_ring_is_measured_along_the_middle_of_its_bar():
    answer = ask.ring("1/2 rd", "3 1/2", SHOP, System.INCH)
    assert first_length(row(answer, "along the middle of the bar")) == pytest.approx(math.pi * 4 * INCH, abs=0.00006)


def test_cone_angle():
    # exact: slant of 8 to 1 1/2 over 4 is 5.154, so the large radius is 6.343 and the pattern opens 227.0 degrees
    answer = ask.cone("8", "1 1/2", "4", SHOP, System.INCH)
    assert row(answer, "angle") == "227°"
    assert first_length(row(answer, "slant")) == pytest.approx(5.154 * INCH, abs=0.00006)


def test_a_foot_of_inch_round_weighs_what_handbooks_print():
    # table of ASTM reinforcing bars, no. 8 (1 in): 2.670 lb a foot; read in the source
    answer = ask.weight("1 rd", "12", SHOP, System.INCH)
    assert row(answer, "a foot").startswith("2 lb 11 oz")  # 2.67 lb = 2 lb 10.7 oz


def test_sixteen_gauge_is_four_things():
    # E. Oberg et al., Machinery's Handbook, 31st ed., 2020, p. 1453 table 20 (0.0598); Rivington's series, Building
    # Construction vol. 3 (0.064 Imperial, 0.065 Birmingham); C. H. Haswell's table of Brown & Sharpe (0.05082)
    answer = ask.gauge("16", SHOP)
    said = [value.split(" ")[0] for _, value in answer.rows]
    assert {"0.0598", "0.064", "0.065", "0.0508"} <= set(said)


@pytest.mark.parametrize("text", ["16", "16 ga", "16ga", "16 Gauge"])
def test_gauge_is_read_as_smiths_write_it(text: str):
    assert ask.gauge(text, SHOP).rows


@pytest.mark.parametrize("text", ["", "-1", "1.5", "999", "sixteen", "²", "1" * 400])
def test_what_is_no_gauge_is_a_finding(text: str):
    answer = ask.gauge(text, SHOP)
    assert answer.stops
    assert answer.rows == ()


def test_convert_is_exact():
    assert row(ask.convert("3 1/4 in", SHOP, System.MM), "millimetres") == "82.55"
    assert row(ask.convert("25.4 mm", SHOP, System.INCH), "inches") == "1"


def test_rivet_shows_the_shop_rule_and_the_others():
    answer = ask.rivet("3/16", "1/4", SHOP, System.INCH)
    chosen = next(value for name, value in answer.rows if "this shop's rule" in name)
    assert first_length(chosen) == pytest.approx(0.53125 * INCH, abs=0.00006)  # 1/4 + 1 1/2 x 3/16


def test_bend_by_the_standard():
    # DIN, DIN 6935, 2011 (the formula quoted by a secondary page): k = 0.65 + 0.5 log10(r/s) is 0.65 where r = s, so
    # the middle line of 90 degrees is pi/2 x (2 + 0.65 x 1) = 4.163 mm
    answer = ask.bend("2 mm", "90", "2 mm", SHOP, System.MM)
    assert "4.2 mm" in row(answer, "length in the bend")


def test_units_that_are_not_known_have_no_asker():
    assert asker("ft", None) is None
    assert asker("mm", None) is not None


PIECES = ["3/8", "1/2 sq", "1/4 rd", "1 x 1/4", "point", "16 ga", "0", "-1", "1' 6", "8 mm", "1e9", "", "sq", "½", "?"]
WORDS = st.one_of(st.sampled_from(PIECES), st.text(max_size=12), st.integers(-5, 2000).map(str))
SYSTEMS = st.sampled_from(list(System))
ASKED = {
    "ring": lambda a, b, c, s: ask.ring(a, b, SHOP, s, long=c, closed="welded"),
    "taper": lambda a, b, c, s: ask.taper(a, b, c, SHOP, s),
    "cone": lambda a, b, c, s: ask.cone(a, b, c, SHOP, s),
    "weight": lambda a, b, c, s: ask.weight(a, b, SHOP, s, steel=c or "mild"),
    "collar": lambda a, b, c, s: ask.collar([a, b], c, SHOP, s),
    "rivet": lambda a, b, c, s: ask.rivet(a, b, SHOP, s),
    "bend": lambda a, b, c, s: ask.bend(a, b, c, SHOP, s),
    "gauge": lambda a, b, c, s: ask.gauge(a, SHOP),
    "convert": lambda a, b, c, s: ask.convert(a, SHOP, s),
}


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(sorted(ASKED)), WORDS, WORDS, WORDS, SYSTEMS)
def test_whatever_is_typed_is_answered_or_found_fault_with(name: str, a: str, b: str, c: str, system: System):
    answer = ASKED[name](a, b, c, system)
    assert answer.rows or answer.stops
    assert all("nan" not in value and "inf" not in value.split() for _, value in answer.rows)


def test_a_bend_asked_in_the_wrong_order_is_told():
    assert ask.bend("16 US ga", "1/16", "90", SHOP, System.INCH).stops
    assert not ask.bend("16 US ga", "90", "1/16", SHOP, System.INCH).stops
