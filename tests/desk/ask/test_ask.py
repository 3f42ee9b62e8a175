"""Questions at the anvil: figures against print or exact mathematics, and no argument that breaks them."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.cli.asking import answer_of
from bickern.desk.answer import Answer
from bickern.desk.ask.question import Question, answer_to
from bickern.desk.ask.questions import QUESTIONS
from bickern.desk.asker import asker
from bickern.making.shop import Shop
from bickern.measure.units.words import INCH, System

SHOP = Shop()


def row(answer: Answer, name: str) -> str:
    assert not answer.stops, answer.findings
    return dict(answer.rows)[name]


def first_length(text: str) -> float:
    """`3 1/4 in (82.5 mm)` or `3 1/4 in (3.250) / 82.6 mm` in metres, by its millimetres."""
    found = re.search(r"([\d.]+) mm(?:\)?$|:)", text)
    assert found is not None
    return float(found.group(1)) / 1000


def test_taper_to_a_point_takes_a_third():
    # a square point holds a third of its box: exact mathematics
    answer = answer_of("taper '1/2 sq' point 3")
    assert first_length(row(answer, "by constant volume")) == pytest.approx(1 * INCH, abs=0.00006)


def test_ring_is_measured_along_the_middle_of_its_bar():
    answer = answer_of("ring '1/2 rd' '3 1/2'")
    assert first_length(row(answer, "along the middle of the bar")) == pytest.approx(math.pi * 4 * INCH, abs=0.00006)


def test_cone_angle():
    # exact: slant of 8 to 1 1/2 over 4 is 5.154, so the large radius is 6.343 and the pattern opens 227.0 degrees
    answer = answer_of("cone 8 '1 1/2' 4")
    assert row(answer, "angle") == "227°"
    assert first_length(row(answer, "slant")) == pytest.approx(5.154 * INCH, abs=0.00006)


def test_a_foot_of_inch_round_weighs_what_handbooks_print():
    # table of ASTM reinforcing bars, no. 8 (1 in): 2.670 lb a foot; read in the source
    answer = answer_of("weight '1 rd' 12")
    assert row(answer, "a foot").startswith("2 lb 11 oz")  # 2.67 lb = 2 lb 10.7 oz


def test_sixteen_gauge_is_four_things():
    # E. Oberg et al., Machinery's Handbook, 31st ed., 2020, p. 1453 table 20 (0.0598); Rivington's series, Building
    # Construction vol. 3 (0.064 Imperial, 0.065 Birmingham); C. H. Haswell's table of Brown & Sharpe (0.05082)
    answer = answer_of("gauge 16")
    said = [value.split(" ")[0] for _, value in answer.rows]
    assert {"0.0598", "0.064", "0.065", "0.0508"} <= set(said)


@pytest.mark.parametrize(
    "text", ["16", "16 ga", "16ga", "16 Gauge", "16 SWG", "16 US ga", "4/0", "0000", "00", "1", "40"]
)
def test_gauge_is_read_as_smiths_write_it(text: str):
    assert answer_of(f"gauge -- {text!r}").rows


def test_gauges_over_nought_are_written_two_ways():
    # British Imperial gauge, 1883: 4/0 is 0.400; Brown & Sharpe's 0000 is 0.46, from which its formula starts
    for text in ("4/0", "0000"):
        answer = answer_of(f"gauge {text}")
        assert answer.title == "4/0 gauge"
        thick = {f.name: f.value / INCH for f in answer.figures}
        assert thick["SWG"] == pytest.approx(0.4)
        assert thick["AWG"] == pytest.approx(0.46, abs=5e-5)


def test_a_named_gauge_stands_first_and_must_be_in_its_table():
    assert answer_of("gauge '16 SWG'").rows[0][0] == "16 ga, SWG"
    assert answer_of("gauge '2 US ga'").stops
    assert "US 3 to 38" in answer_of("gauge 41").findings[0].try_this


@pytest.mark.parametrize("text", ["", "-1", "1.5", "999", "sixteen", "²", "1" * 400, "8/0", "0/0", "00/0"])
def test_what_is_no_gauge_is_a_finding(text: str):
    answer = answer_of(f"gauge -- {text!r}")
    assert answer.stops
    assert answer.rows == ()


def test_convert_is_exact():
    assert row(answer_of("convert '3 1/4 in' --units mm"), "millimetres") == "82.55"
    assert row(answer_of("convert '25.4 mm'"), "inches") == "1"


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("450 ft2", "m2", 450 * 0.3048**2),
        ("144 in2", "m2", 0.3048**2),
        ("5ft2", "m", 62 * INCH),
        ("2 yd3", "m3", 2 * 0.9144**3),
    ],
)
def test_square_feet_are_no_feet_and_inches(text: str, unit: str, value: float):
    answer = answer_of(f"convert '{text}'")
    assert [(f.unit, pytest.approx(value)) for f in answer.figures] == [(unit, answer.figures[0].value)]


def test_rivet_shows_the_shop_rule_and_the_others():
    answer = answer_of("rivet 3/16 1/4")
    chosen = next(value for name, value in answer.rows if "this shop's rule" in name)
    assert first_length(chosen) == pytest.approx(0.53125 * INCH, abs=0.00006)  # 1/4 + 1 1/2 x 3/16


def test_bend_by_the_standard():
    # DIN, DIN 6935, 2011 (the formula quoted by a secondary page): k = 0.65 + 0.5 log10(r/s) is 0.65 where r = s, so
    # the middle line of 90 degrees is pi/2 x (2 + 0.65 x 1) = 4.163 mm
    answer = answer_of("bend '2 mm' 90 '2 mm' --units mm")
    assert "4.2 mm" in row(answer, "length in the bend")


def test_units_that_are_not_known_have_no_asker():
    assert asker("ft", None) is None
    assert asker("mm", None) is not None


PIECES = ["3/8", "1/2 sq", "1/4 rd", "1 x 1/4", "point", "16 ga", "0", "-1", "1' 6", "8 mm", "1e9", "", "sq", "½", "?"]
OF_A_FILE = re.compile(
    r"metal entry|the path|the job\b|a job\b|square corner|\brest\b|inside radius`|^(?!In the shop file).*`[a-z]{4,}:"
)
"""Words that belong to job files: who asks at the anvil has none."""
WORDS = st.one_of(st.sampled_from(PIECES), st.text(max_size=12), st.integers(-5, 2000).map(str))
SYSTEMS = st.sampled_from(list(System))


@st.composite
def typed(draw: st.DrawFn, question: Question) -> dict[str, str | tuple[str, ...] | bool]:
    """Any words at all for a question; those that may be left out are, about half the time."""
    said: dict[str, str | tuple[str, ...] | bool] = {}
    for word in question.words:
        if word.usual is not None and draw(st.booleans()):
            continue
        if word.flag:
            said[word.name] = draw(st.booleans())
        elif word.many:
            said[word.name] = tuple(draw(st.lists(WORDS, min_size=1, max_size=3)))
        else:
            said[word.name] = draw(st.sampled_from(word.one_of)) if word.one_of and draw(st.booleans()) else draw(WORDS)
    return said


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
@settings(max_examples=60, deadline=None)
@given(st.data(), SYSTEMS)
def test_whatever_is_typed_is_answered_or_found_fault_with(question: Question, data: st.DataObject, system: System):
    answer = answer_to(question, data.draw(typed(question)), SHOP, system)
    assert answer.rows or answer.stops
    assert all("nan" not in value and "inf" not in value.split() for _, value in answer.rows)
    assert all(math.isfinite(figure.value) for figure in answer.figures)
    told = [text for f in answer.findings for text in (f.says, f.try_this)]
    assert not [text for text in told if OF_A_FILE.search(text)]


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
def test_every_example_is_answered_and_every_figure_has_a_name_of_its_own(question: Question):
    answer = answer_of(f"{question.name} {question.example}")
    assert not answer.stops, answer.findings
    assert answer.rows
    names = [figure.name for figure in answer.figures]
    assert names
    assert len(names) == len(set(names))


def test_words_that_are_no_question_are_found_fault_with():
    assert answer_of("anvil 3").stops
    assert answer_of("ring").stops
    assert answer_of("ring '1/2 rd").stops  # a quote that is not closed
    assert answer_of("--help").stops


def test_a_bend_asked_in_the_wrong_order_is_told():
    assert answer_of("bend '16 US ga' 1/16 90").stops
    assert not answer_of("bend '16 US ga' 90 1/16").stops
