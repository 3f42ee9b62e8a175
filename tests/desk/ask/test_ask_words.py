"""What answers at the anvil say: slips of unit and gauge, assumptions, other rules beside the shop's, long lengths."""

import re
from dataclasses import replace
from math import pi, sqrt

import pytest

from bickern.cli.asking import answer_of
from bickern.desk.answer import Answer
from bickern.desk.ask.question import answer_to
from bickern.desk.ask.questions import QUESTIONS
from bickern.making.shop import Shop
from bickern.measure.units.words import INCH, System
from bickern.parts.bar.allowances import BarRules, BendRule
from bickern.parts.sheet.allowances import SheetRules

MM = 0.001


def asked(name: str, shop: Shop, system: System = System.INCH, **words: str) -> Answer:
    question = next(q for q in QUESTIONS if q.name == name)
    return answer_to(question, words, shop, system)


def found(words: str) -> set[str]:
    return {f.name for f in answer_of(words).findings}


def value(words: str, name: str) -> float:
    figure = answer_of(words).figure(name)
    assert figure is not None
    return figure.value


def row(words: str, name: str) -> str:
    return dict(answer_of(words).rows)[name]


@pytest.mark.parametrize(
    "words",
    [
        "bend 16 90 1/16",
        "bend 4 90 1",
        "bend 40 90 1",
        "plate 16 12 24",
        "cone 8 2 4 --sheet 20",
        "bowl 8 4 --sheet 16 --units mm",
        "pan 300 200 50 --sheet 18 --units mm",
    ],
)
def test_a_bare_number_of_sheet_that_looks_like_a_gauge_is_asked_about(words: str):
    answer = answer_of(words)
    assert not answer.rows
    (slip,) = (f for f in answer.findings if f.stops)
    assert slip.name == "looks-like-gauge"
    assert re.search(r"Did you mean `\d+ ga`\?", slip.try_this)


@pytest.mark.parametrize(
    "words",
    [
        "bend '16 in' 90 1/16",
        "bend '16 ga' 90 1/16",
        "plate '2 in' 12 24",
        "plate 2 12 24",
        "plate 16 300 600 --units mm",  # plate of 16 mm is sold
        "plate 50 300 600 --units mm",
        "bend 12 90 12 --units mm",
        "bend 41 90 41 --units mm",
    ],
)
def test_what_says_its_unit_or_is_plate_is_answered(words: str):
    assert answer_of(words).rows


def test_thick_plate_that_is_bent_is_a_word_unless_its_unit_is_said():
    assert "thick-for-sheet" in found("bend 2 90 3")
    assert "thick-for-sheet" not in found("bend '2 in' 90 3")
    assert "thick-for-sheet" not in found("bend 1/2 90 3")
    assert "thick-for-sheet" not in found("plate 2 12 24")


def test_a_bowl_has_no_small_end():
    (stop,) = (f for f in answer_of("bowl 8 4 --sheet '16 mm' --units mm").findings if f.stops)
    assert stop.name == "too-tight"
    assert "hollow" in stop.says
    assert "small end" not in stop.says + stop.try_this


def test_bends_without_a_radius_are_told():
    assert "sharp-bend" in found("bend '16 US ga' 90 0")
    assert "sharp-bend" not in found("bend '16 US ga' 90 1/64")
    by_middle = Shop(sheet=SheetRules(fold=type(SheetRules().fold)("middle")))
    told = asked("bend", by_middle, sheet="16 US ga", angle="90", radius="0")
    assert "sharp-bend" not in {f.name for f in told.findings}


def test_a_pan_of_no_radius_keeps_one_and_says_so():
    kept = found("pan 8 5 1 --radius 0")
    assert "fold-radius-kept" in kept
    assert "fold-radius-taken" not in kept
    assert "fold-radius-taken" in found("pan 8 5 1")
    assert value("pan 8 5 1 --radius 0", "inside radius of the folds") == value(
        "pan 8 5 1", "inside radius of the folds"
    )


def test_a_sharp_curve_is_answered():
    # its middle goes round half a thickness; DIN 6935 takes k = 0 there
    assert value("curve '1/2 sq' 0 90", "along the middle") == pytest.approx(pi / 8 * INCH)
    assert value("curve '1/2 sq' 0 90", "by DIN 6935") == 0.0
    assert "no-inside-radius" in found("curve '1/2 sq' 0 90")


@pytest.mark.parametrize(("size", "most"), [("1/2", 0.5 + 1 / 25.4), ("1/4", 9 / 32), ("7/32", 0.25)])
def test_at_most_is_never_rounded_up(size: str, most: float):
    for words, name in ((f"hole {size}", "for a rivet, at most"), (f"rivet {size} 1", "hole, at most")):
        told = row(words, name)
        whole, fraction = re.match(r"(?:(\d+) )?(\d+/\d+) in", told).groups()  # type: ignore[union-attr]
        top, under = fraction.split("/")
        inches = int(whole or 0) + int(top) / int(under)
        assert most - 1 / 64 < inches <= most + 1e-9
        mm = float(re.search(r"([\d.]+) mm", told).group(1))  # type: ignore[union-attr]
        assert most * 25.4 - 0.1 < mm <= most * 25.4 + 1e-9


def test_a_seam_of_sheet_goes_by_the_shops_own_clearance():
    shop = Shop(sheet=SheetRules(rivet_clearance=1 * MM))
    for name, words in (("hole", {"size": "1/8"}), ("rivet", {"across": "1/8", "grip": "1/8"})):
        told = asked(name, shop, **words)
        seam = next(f for f in told.figures if "seam" in f.name)
        assert seam.value == pytest.approx(INCH / 8 + 1 * MM)
        assert "loose-rivet" in {f.name for f in told.findings}  # more than 1/32 over
        usual = asked(name, Shop(), **words)
        assert next(f for f in usual.figures if "seam" in f.name).value == pytest.approx(INCH / 8 + 0.4 * MM)
        assert "loose-rivet" not in {f.name for f in usual.findings}


def test_a_curve_stars_the_shops_rule():
    words = {"bar": "1/2 sq", "radius": "2", "angle": "90"}
    for bend, name in ((BendRule.CENTRE, "along the middle"), (BendRule.DIN_6935, "by DIN 6935")):
        told = asked("curve", Shop(bar=BarRules(bend=bend)), **words)
        assert [r for r, _ in told.rows if "this shop's rule" in r] == [f"{name}  (this shop's rule)"]


def test_other_rules_for_edges_and_pans_stand_beside():
    # 2 x 1/8 + 4 x 0.0359
    told = row("edge wired 1/8 --sheet '20 US ga'", "also: wired free edge by 2 wires + 4 sheets")
    assert told.startswith("25/64 in (.394)")
    assert "Atkins" in told
    grooved = dict(answer_of("edge grooved 1/4").rows)
    assert [v.split(" in")[0] for n, v in grooved.items() if n.startswith("also")] == ["1/4", "1/2"]
    assert not [n for n, _ in answer_of("edge hem 1/4").rows if n.startswith("also")]
    pan = [n for n, _ in answer_of("pan 8 5 1").rows if n.startswith("also")]
    assert len(pan) == 4


RULED = ["slit 1/2", "collar 1/8 '1/2 sq' '1/2 sq'", "rivet 1/4 1/2", "bend 1/16 90 1/16", "tenon '3/8 rd' 1/2",
         "eye '1/2 rd' 1", "ring '1/2 rd' 3"]  # fmt: skip


@pytest.mark.parametrize("words", RULED)
def test_every_other_rule_has_its_source_and_none_says_what_the_shop_says(words: str):
    answer = answer_of(words)
    others = {name.removeprefix("also: "): text for name, text in answer.rows if name.startswith("also: ")}
    assert others
    assert all(re.search(r" mm: .+\[[a-z ]+\]$", text) for text in others.values())
    chosen = next((n.split("  (")[0] for n, _ in answer.rows if "this shop's rule" in n), None)
    figures = {f.name: f.value for f in answer.figures}
    ours = figures[chosen] if chosen else figures["along the middle"]
    assert all(abs(figures[name] - ours) > 1e-7 for name in others)


def test_rivet_rules_say_their_head():
    told = dict(answer_of("rivet 1/4 1/2").rows)
    assert "snap head" in told["grip + 1 1/2 d  (this shop's rule)"]
    assert "round head" in told["also: grip + 1 1/8 d"]
    assert "also: shop's own" not in told


def test_pi_is_never_shown_longer_than_22_over_7():
    told = dict(answer_of("ring '1/2 rd' '3 1/2'").rows)
    ours = re.search(r"\((\d+\.\d+)\)", told["along the middle of the bar"])
    other = re.search(r"\((\d+\.\d+)\)", told["also: 3 1/7 x mean diameter"])
    assert ours is not None
    assert other is not None
    assert float(ours[1]) < float(other[1])


def test_what_is_assumed_is_said():
    assert row("chain '1/4 rd' '1 1/4' 3/8", "ends of the links") == "butted"
    assert row("ring '1/2 rd' 3 --closed open", "ends") == "open"
    for words in ("cone 8 2 4", "pipe 6 24", "pyramid 4 8 2 5"):
        assert row(words, "seam").startswith("edge to edge")
    assert "seam" not in dict(answer_of("bowl 8 2").rows)
    assert "square ends" in row("slit 1/2 --long 1", "reckoned for")
    assert "reckoned for" not in dict(answer_of("slit 1/2").rows)
    assert "1/2 in rd" in answer_of("weight '1/2 rd' 12").title
    assert "12 in" in answer_of("weight '1/2 rd' 12").title


def test_an_odd_pyramid_says_what_across_is():
    assert "odd-sides" in found("pyramid 5 8 2 5")
    assert "odd-sides" in found("pyramid 3 8 2 5 --of corners")
    assert "odd-sides" not in found("pyramid 6 8 2 5")
    assert "odd-sides" not in found("pyramid 5 8 2 5 --of sides")
    # a triangle 8 across has an inside circle of radius 4: its side is 8 sqrt(3)
    assert value("pyramid 3 8 0 5", "side at the base") == pytest.approx(8 * sqrt(3) * INCH)


def test_sheet_by_gauge_has_the_weight_of_its_standard_too():
    # 40 oz a square foot: the US standard tells weight
    assert row("plate '16 US ga' 12 24", "weight by its standard").startswith("2.5 lb/sq ft")
    for words in ("plate 1/16 12 24", "plate '16 SWG' 12 24", "plate '16 US ga' 12 24 --density '480 lb/ft3'"):
        assert "weight by its standard" not in dict(answer_of(words).rows)


def test_long_lengths_are_told_in_feet_too():
    # 10.3 turns of mean radius 6 1/2 are 420.7, and a little for opening: 35 ft and under an inch
    assert " in (420.870) = 35 ft 7/8 in / " in row("scroll 1 12 10.3", "length")
    assert "ft" not in row("scroll 1 2 1", "length")
    assert row("coil '1/4 rd' 2 6", "bar").count(" ft") == 0
    metric = replace(Shop(), style=replace(Shop().style, first=System.MM))
    told = dict(asked("scroll", metric, System.MM, first="25", last="300", turns="10").rows)
    assert "ft" not in told["length"]


def test_a_shop_in_britain_measures_vessels_by_its_own_gallon():
    uk = dict(asked("bowl", Shop(english="UK"), across="8", depth="2").rows)
    us = dict(asked("bowl", Shop(), across="8", depth="2").rows)
    # a cap of 52 pi/3 cubic inches: 892 ml, which is 1.57 of the 568 ml of a pint and 30 of the 29.6 ml of a US ounce
    assert uk["volume"].startswith("1.6 UK pints")
    assert us["volume"].startswith("30 US fl oz")


def test_own_checks_are_left_out():
    pyramid = "pyramid 4 16 10 4 --long 22 10"
    for words in ("cone 8 2 4", "taper '1/2 sq' point 3", "stock '1/2 rd' '1 sq' 1/2", pyramid):
        names = {name for name, _ in answer_of(words).rows}
        assert not names & {"seam gap when rolled up", "triangles stray at most", "overall"}


def test_an_upset_is_told_as_one_and_once():
    for words in ("stock '1/2 sq' '3/4 sq' 2", "draw '1/2 sq' 3 '3/4 sq'"):
        says = [f.says for f in answer_of(words).findings]
        assert len(says) == 1
        assert says[0].startswith("This is an upset: ")
        assert "buckles" in says[0]
    (short,) = answer_of("draw '1/2 sq' 1 '3/4 sq'").findings
    assert "2.0 thicknesses" in short.says
    assert "buckles" not in short.says
    assert not answer_of("draw '3/4 sq' 1 '1/2 sq'").findings


@pytest.mark.parametrize(
    ("words", "cure"),
    [
        ("taper '1/2 sq' 0 3", "`point`"),
        ("rivet 1/4 0", "holds together"),
        ("bend 1/16 -- -90 1/16", "without a minus"),
        ("curve '1/2 sq' 0 90", "radius above 0"),
        ("pan 8 5 0", "above 0"),
        ("weight '1/2 sq' 12 --steel iron", "Did you mean `wrought iron`?"),
        ("weight '1 x 1 x 1/8 angle' 12", "two flats"),
        ("weight '2 angle iron' 12", "two flats"),
        ("bend 3/8 90 3 --units mm", "Write `3/8 in`"),
    ],
)
def test_what_to_try_is_said_in_words_of_a_question(words: str, cure: str):
    assert any(cure in f.try_this for f in answer_of(words).findings)


def test_a_gallon_is_told_for_both_countries():
    for words in ("1 gal", "1 gallon", "1gal"):
        answer = answer_of(f"convert '{words}'")
        assert [f.value for f in answer.figures] == [pytest.approx(231 * INCH**3), pytest.approx(4.54609e-3)]
        assert "us-or-uk" in {f.name for f in answer.findings}
    (pint_us, pint_uk) = answer_of("convert '2 pints'").figures
    assert pint_uk.value / pint_us.value == pytest.approx(4.54609e-3 / (231 * INCH**3))
    assert answer_of("convert '1 UK gal'").figures[0].value == pytest.approx(4.54609e-3)
    assert answer_of("convert '20 UK fl oz'").figures[0].value == pytest.approx(4.54609e-3 / 8)


EXACT = [
    # the bar goes round the middle of the eye, pi x 1 1/2; welded, a thickness more
    ("eye '1/2 rd' 1", "mean diameter", 1.5 * pi * INCH),
    ("eye '1/2 rd' 1", "3 1/7 x the hole", 22 / 7 * INCH),
    ("eye '1/2 rd' 1 --welded", "mean diameter", (1.5 * pi + 0.5) * INCH),
    # a quarter circle back on to the line: its middle is half of 1 1/2 past the mark, and 1 more to its far side
    ("eye '1/2 rd' 1", "past its mark", 1.75 * INCH),
    ("eye '1/2 rd' 1 --lies beside", "past its mark", 1 * INCH),
    ("eye '1 x 1/4' 1", "mean diameter", 1.25 * pi * INCH),
    # 3 round two 1/2 square, and pi x 1/4 more a turn
    ("wrap '1/4 rd' 4 '1/2 sq' '1/2 sq'", "bar", 4 * (3 + pi / 4) * INCH),
    ("wrap '1/4 rd' 2.5 '1/2 sq' '1/2 sq'", "covers", 0.625 * INCH),
    ("wrap '1/4 x 1/8' 4 '1/2 sq' '1/2 sq'", "a turn", (3 + pi / 8) * INCH),
    ("tenon '3/8 rd' 1/2", "grip + 1 d", 7 / 8 * INCH),
    ("tenon '3/8 rd' 1/2", "grip + 1/2 d", 11 / 16 * INCH),
    ("tenon '1/4 x 1/2' 1/2", "grip + 1 1/2 d", 7 / 8 * INCH),  # a flat tenon goes by its thickness
    # 7/8 of 3/8 round out of 3/4 square: a circle of half its side is pi/16 of the square
    ("tenon '3/8 rd' 1/2 --from '3/4 sq'", "bar taken", 7 / 8 * pi / 16 * INCH),
]


@pytest.mark.parametrize(("words", "name", "worth"), EXACT)
def test_eyes_wraps_and_tenons_by_hand(words: str, name: str, worth: float):
    assert value(words, name) == pytest.approx(worth, rel=1e-9)


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("eye '1/2 rd' 0", "zero-size"),
        ("eye point 1", "no-bar"),
        ("wrap '1/4 rd' 0 '1/2 sq'", "zero-angle"),
        ("wrap '1/4 rd' 3 point", "no-bar"),
        ("tenon '3/8 rd' 0", "zero-size"),
        ("tenon point 1/2", "no-bar"),
        ("tenon '3/8 rd' 1/2 --from point", "no-bar"),
    ],
)
def test_eyes_wraps_and_tenons_that_cannot_be(words: str, name: str):
    answer = answer_of(words)
    assert name in {f.name for f in answer.findings if f.stops}
    assert answer.rows == ()
