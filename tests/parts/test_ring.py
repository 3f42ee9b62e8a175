from math import pi

import pytest

from bickern.iron.section import Section
from bickern.measure.finding import Where
from bickern.measure.units.words import INCH, Shape
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.rules import COLD_LIMIT, RING_RULES, WIRE_STIFFNESS, WIRE_YIELD, ring_length
from bickern.parts.ring.spec import ChainSpec, Closing, RingResult, RingRules, RingSpec
from bickern.parts.weld import WELD_RULES

STEEL = 7850.0


def _round(inches: float) -> Section:
    return Section(Shape.ROUND, inches * INCH, inches * INCH)


def _made(spec: RingSpec) -> RingResult:
    result = reckon_ring(spec, RingRules(), STEEL).value
    assert result is not None
    return result


def _names(spec: RingSpec) -> set[str]:
    return {f.name for f in reckon_ring(spec, RingRules(), STEEL).findings}


def _crane(**chain: float) -> RingSpec:
    return RingSpec(
        "links",
        _round(5 / 16),
        "mild",
        inside_across=0.75 * INCH,
        inside_long=1.375 * INCH,
        closing=Closing.WELDED,
        chain=ChainSpec(**chain),  # type: ignore[arg-type]
    )


def test_ring_pull_by_hand():
    # by hand: pi x 4 = 12.566, and 1/2 for the weld
    ring = _made(RingSpec("pull", _round(0.5), "mild", inside_across=3.5 * INCH, closing=Closing.WELDED))
    assert ring.bare / INCH == pytest.approx(12.57, abs=0.005)
    assert ring.stock.value / INCH == pytest.approx(13.07, abs=0.005)
    assert ring.cut_this / INCH == pytest.approx(13 + 1 / 8)
    assert not ring.stock.is_sharp


def test_crane_chain_by_hand():
    # by hand: pi x 1.0625 + 2 x 0.625 = 4.588; 13 x 1.375 = 17 7/8
    link = _made(_crane(length=18 * INCH))
    assert link.bare / INCH == pytest.approx(4.59, abs=0.005)
    assert link.stock.value / INCH == pytest.approx(4.90, abs=0.005)
    assert link.chain is not None
    assert link.chain.links == 13
    assert link.chain.length / INCH == pytest.approx(17.875)
    assert link.chain.outside / INCH == pytest.approx(18.5)
    assert link.chain.bar / INCH == pytest.approx(63.75, abs=0.06)
    assert link.chain.last_lies.startswith("in the same plane")


def test_both_neighbouring_counts_are_said():
    said = next(f for f in _made(_crane(length=18 * INCH)).findings if f.name == "chain-length").says
    assert "13 links come to 17 7/8 in" in said
    assert "14 to 19 1/4 in" in said


def test_a_length_that_fits_says_nothing():
    assert "chain-length" not in {f.name for f in _made(_crane(length=13 * 1.375 * INCH)).findings}


def test_band_ring_bends_the_easy_way():
    # by hand: pi x (7 - 1/4) = 21.21
    band = Section(Shape.FLAT, 0.75 * INCH, 0.25 * INCH)
    ring = _made(RingSpec("trivet", band, "mild", outside_across=7 * INCH, closing=Closing.WELDED))
    assert ring.bare / INCH == pytest.approx(21.21, abs=0.005)
    assert ring.weld / INCH == pytest.approx(0.25)


def test_jump_rings_off_a_coil():
    spec = RingSpec("jump", _round(3 / 16), "mild", inside_across=0.75 * INCH, wound=True, make=12)
    ring = _made(spec)
    assert ring.coil is not None
    assert ring.coil.turns == 13
    assert ring.coil.coil_length / INCH == pytest.approx(13 * 3 / 16)
    assert ring.coil.inside_after_cut / INCH == pytest.approx(0.75)
    # the kerf of 1 mm opens the mandrel by 0.32 mm, spring back closes it by a little less than 1/2 mm
    assert 0.74 < ring.coil.mandrel / INCH < 0.76
    assert ring.strain == pytest.approx(0.2)
    assert {"close-hot"} == {f.name for f in ring.findings}


def test_saw_kerf_opens_the_mandrel_and_spring_back_closes_it():
    spec = RingSpec("jump", _round(3 / 16), "mild", inside_across=0.75 * INCH, wound=True, make=12)
    mandrels = [
        reckon_ring(spec, rules, STEEL).value.coil.mandrel  # type: ignore[union-attr]
        for rules in (RingRules(kerf=0.0), RingRules(), RingRules(yield_strength=600e6))
    ]
    assert mandrels[0] < mandrels[1]
    assert mandrels[2] < mandrels[1]


def test_a_mandrel_that_is_there_is_told_what_it_makes():
    spec = RingSpec("jump", _round(3 / 16), "mild", inside_across=0.75 * INCH, wound=True, mandrel=INCH, make=12)
    ring = _made(spec)
    assert ring.coil is not None
    assert ring.coil.mandrel == INCH
    assert ring.coil.inside_after_cut > 0.95 * INCH
    assert "mandrel-size" in {f.name for f in ring.findings}


def test_other_rules_stand_beside_the_shops_own():
    welded = _made(RingSpec("pull", _round(0.5), "mild", inside_across=3.5 * INCH, closing=Closing.WELDED))
    butted = _made(RingSpec("pull", _round(0.5), "mild", inside_across=3.5 * INCH))
    names = {name for name, _, _ in (*welded.also, *butted.also)}
    # the shop's own two, and the rule that says what they say together: the middle line and a thickness
    assert {r.name for r in RING_RULES} - names == {"pi x mean diameter", "pi x mean + 1 t"}
    assert {name for name in names if name.startswith("weld: ")} == {
        f"weld: {r.name}" for r in WELD_RULES if r.name != "one thickness"
    }
    oval = _made(_crane(links=4))
    assert "weld: none" in {name for name, _, _ in oval.also}
    assert all(source for _, _, source in (*welded.also, *butted.also, *oval.also))


def test_a_rule_that_holds_a_weld_stands_beside_the_plain_line_with_each_weld():
    spec = RingSpec("pull", _round(0.5), "mild", inside_across=3.5 * INCH, closing=Closing.WELDED)
    read = reckon_ring(spec, RingRules(length="3 1/7 x mean + 1/2 t"), 7850.0)
    assert read.value is not None
    also = {name: length / INCH for name, length, _ in read.value.also}
    assert also["weld: one thickness"] == pytest.approx(4 * pi + 0.5)
    assert also["pi x mean + 1 t"] == pytest.approx(4 * pi + 0.5)
    assert "3 1/7 x mean + 1/2 t" not in also


def test_default_figures_are_those_with_a_source():
    assert RingRules().yield_strength == WIRE_YIELD.value
    assert RingRules().stiffness == WIRE_STIFFNESS.value
    assert RingRules().cold_limit == COLD_LIMIT.value


@pytest.mark.parametrize(
    ("spec", "name"),
    [
        (RingSpec("r", _round(0.5), "mild"), "no-ring-size"),
        (RingSpec("r", _round(0), "mild", inside_across=INCH), "no-wire"),
        (RingSpec("r", _round(0.5), "mild", inside_across=INCH, make=0), "no-rings"),
        (RingSpec("r", _round(0.5), "mild", inside_across=0.25 * INCH), "inside-too-small"),
        (RingSpec("r", _round(0.5), "mild", inside_across=-INCH), "inside-too-small"),
        (RingSpec("r", _round(0.5), "mild", outside_across=0.9 * INCH), "inside-too-small"),
        (RingSpec("r", _round(0.5), "mild", inside_across=2 * INCH, inside_long=INCH), "oval-wrong-way"),
        (_crane(length=INCH), "chain-too-short"),
        (_crane(links=1), "chain-too-short"),
        (_crane(), "chain-size"),
        (_crane(links=4, length=INCH), "chain-size"),
        (
            RingSpec("r", _round(0.5), "mild", 0.5 * INCH, inside_long=INCH, chain=ChainSpec(links=4)),
            "link-will-not-enter",
        ),
        (RingSpec("r", _round(0.5), "mild", 0.75 * INCH, chain=ChainSpec(links=4)), "link-too-short"),
    ],
)
def test_what_cannot_be_made_is_a_finding_and_has_no_value(spec: RingSpec, name: str):
    read = reckon_ring(spec, RingRules(), STEEL)
    assert read.value is None
    assert any(f.name == name and f.stops and f.says and f.try_this for f in read.findings)


@pytest.mark.parametrize(
    ("spec", "name"),
    [
        (RingSpec("r", _round(0.5), "mild", inside_across=INCH), "too-stiff-cold"),
        (RingSpec("r", _round(0.25), "mild", inside_across=2 * INCH), "close-hot"),
        (RingSpec("r", _round(0.25), "mild", inside_across=24 * INCH), "springs-open"),
        (RingSpec("r", _round(0.04), "mild", inside_across=60 * INCH), "too-springy"),
        (RingSpec("r", _round(0.25), "mild", INCH, inside_long=2 * INCH, wound=True), "oval-coil"),
    ],
)
def test_what_wants_care_is_said_and_still_reckoned(spec: RingSpec, name: str):
    assert _made(spec).bare > 0
    assert name in _names(spec)


def test_opening_is_asked_about_where_the_shops_limit_is_low():
    # a ring as tight as its own bar is strained by just under 5 % when opened sideways: the default never asks
    tight = RingSpec("r", _round(0.5), "mild", inside_across=0.5 * INCH)
    assert "open-hot" not in _names(tight)
    assert "open-hot" in {f.name for f in reckon_ring(tight, RingRules(cold_limit=0.03), STEEL).findings}


def test_a_welded_ring_is_closed_hot_anyway():
    assert not _names(RingSpec("r", _round(0.5), "mild", inside_across=INCH, closing=Closing.WELDED))


def test_findings_know_the_place_in_the_job():
    here = Where("lantern.yaml", 12, 3)
    spec = RingSpec("r", _round(0.5), "mild", inside_across=0.1 * INCH, where=here)
    assert [f.where for f in reckon_ring(spec, RingRules(), STEEL).findings] == [here]


BY_HOLE = RingRules(length="3 1/7 x the hole")


def test_every_rule_for_the_length_is_taken_as_it_is_printed():
    spec = RingSpec("r", _round(0.5), "mild", inside_across=3 * INCH, closing=Closing.WELDED)
    for rule in RING_RULES:
        made = reckon_ring(spec, RingRules(weld="none", length=rule.name), STEEL).value
        assert made is not None
        assert made.stock.value == pytest.approx(ring_length(rule.name, 3 * INCH, 0.5 * INCH))
        assert made.taken + made.weld == pytest.approx(made.stock.value)
        assert made.stock.low <= made.stock.value <= made.stock.high
        assert rule.name not in {name for name, _, _ in made.also}


def test_a_ring_by_the_hole_is_asked_as_before_and_comes_out_small():
    spec = RingSpec("r", _round(0.5), "mild", inside_across=3 * INCH)
    usual, short = _made(spec), reckon_ring(spec, BY_HOLE, STEEL).value
    assert short is not None
    for name in ("inside_across", "outside_across", "strain", "opening_strain", "bare"):
        assert getattr(short, name) == getattr(usual, name)
    assert short.taken / INCH == pytest.approx(3 * 22 / 7)
    assert short.mass / usual.mass == pytest.approx(short.taken / usual.taken)
    assert [f.name for f in short.findings if "rule" in f.says] == ["ring-comes-small"]
    assert "ring-comes-small" not in {f.name for f in usual.findings}


def test_the_rule_leaves_the_straights_of_a_link_alone():
    link = RingSpec("l", _round(0.375), "mild", inside_across=1.5 * INCH, inside_long=4 * INCH)
    made = reckon_ring(link, BY_HOLE, STEEL).value
    assert made is not None
    assert made.taken / INCH == pytest.approx(1.5 * 22 / 7 + 2 * 2.5)


def test_a_chain_by_the_hole_says_how_much_it_hangs_short():
    spec = _crane(links=13)
    made = reckon_ring(spec, BY_HOLE, STEEL).value
    assert made is not None
    assert made.chain is not None
    assert made.chain.pitch / INCH == pytest.approx(1.375)
    (said,) = [f.says for f in made.findings if f.name == "ring-comes-small"]
    # by hand: 0.3125 less 0.75 x (22/7 / pi - 1) = 0.3122 a link, 13 of them 4.058
    assert "13 links of it hang 4 1/16 in" in said


def test_a_rule_that_leaves_no_hole_stops():
    for across in (0.5, 0.75, 0.99):
        read = reckon_ring(RingSpec("r", _round(0.5), "mild", inside_across=across * INCH), BY_HOLE, STEEL)
        assert read.value is None
        assert [f.name for f in read.findings if f.stops] == ["rule-closes-ring"]
    assert reckon_ring(RingSpec("r", _round(0.5), "mild", inside_across=INCH), BY_HOLE, STEEL).value is not None


def test_what_is_wound_asks_for_no_rule():
    spec = RingSpec("jump", _round(3 / 16), "mild", inside_across=0.75 * INCH, wound=True, make=12)
    assert reckon_ring(spec, BY_HOLE, STEEL).value == _made(spec)


def test_a_half_round_goes_by_the_middle_of_its_own_metal():
    band = Section(Shape.HALF_ROUND, INCH, 0.5 * INCH)
    spec = RingSpec("b", band, "mild", inside_across=6 * INCH)
    usual, by = _made(spec), reckon_ring(spec, RingRules(length="3 1/7 x mean diameter"), STEEL).value
    assert by is not None
    assert by.taken / usual.taken == pytest.approx(22 / 7 / pi)
