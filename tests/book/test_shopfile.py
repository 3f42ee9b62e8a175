"""The shop file: every figure of the shop can be told, rules only by a name that has a row, and faults are findings."""

from dataclasses import fields
from math import pi
from pathlib import Path

import pytest

from bickern.book.shopfile import FORMS, read_shop
from bickern.book.text import read_page
from bickern.iron.flame import Flame
from bickern.making.shop import (
    CUTTING_SOURCES,
    FIRE_SOURCES,
    HAND_SOURCES,
    TERMS_SOURCES,
    Cutting,
    Fire,
    Hand,
    Shop,
    Terms,
)
from bickern.measure.units.words import GaugeSystem, System
from bickern.parts.weld import weld_rule_names

WHOLE = """\
shop: Bridge forge
units: mm
english: UK
gauge: SWG
print: {fractions: 32, fit fractions: 128, millimetres: 1, fit millimetres: 0.2, decimal comma: yes}
fire: {name: coke, longest heat: 150, opening: 200, temperature: 2200 F, flame: near neutral, irons: 3}
hand:
  hammer: 2 lb
  speed in m/s: 7
  useful blow in J: 4
  blows a second: 2
  contact in W/m2K: 80
  carry in seconds: 2
  colours: Babcock and Wilcox 1919
tools: [leg vise, swage block]
drifts: [12, 6, 10]
tongs: [6, 10]
currency: GBP
rate: 45
cutting:
  {kerf: 1, hot cut: yes, dress: 2, grip: 50, shortest drop: 150, narrowest drop: 120, gap: 4, margin: 5,
   weld short ones: yes, unknown steel: yes, sold in: [6 m, 3 m]}
prices:
  fuel: 4.50
  metal: 1.20 a lb
  bars: {3/8 in sq: 1.20 a foot, 25 x 6: 2 a kg}
  metals: {copper: 14 a kg}
  fixed: 40
  each: £0.80
  waste: 12 %
  failed: 5 %
  finishing in minutes: 10
  margin: 120 %
  learning: 90 %
  lighting in minutes: 20
  round to: 0.50
  counts: [12, 2]
bars:
  bend: DIN 6935
  weld: half a thickness
  slit: 3/4 of the opening
  eye: 3 1/7 x the hole
  corners full: 97 %
  twist shortening: 1 %
  scale worked: [1 %, 2 %, 4 %]
  scale kept: [0 %, 1 %, 2 %]
  upset corner: 0.3
  tape: 1
  kerf: 2
rings:
  {length: 3 1/7 x the hole, weld: none, kerf: 1.5, cold limit: 6 %, tape: 2, cold yield in MPa: 350,
   stiffness in GPa: 210}
sheet:
  fold: middle
  groove: one width on one edge, two on the other
  smallest radius: 1.5
  groove widths: 3.2
  groove extra: 1
  hem: 1.1
  double hem: 2.2
  wire: 2 wires + 4 sheets
  rivet edge: 2.5
  rivet pitch: 4
  rivet clearance: 0.3
  eye straight: 3
  kerf: 1
joints: {rivet: grip + 1 d, rivet head: 1.4, collar: perimeter + 1 t, tenon: grip + 1/2 d, weld: chain link}
"""


LEARNT = {"doubt", "slow", "slow_at", "scale_times", "scale_doubt", "weld_times", "collar_more"}
"""Figures that only the day book moves."""


def names(text: str) -> list[tuple[str, int]]:
    return [(f.name, f.where.line) for f in read_shop(text, "shop.yaml")[1]]


def test_a_whole_shop_file_is_read():
    shop, found = read_shop(WHOLE, "shop.yaml")
    assert found == ()
    assert shop.name == "Bridge forge"
    assert shop.style.first is System.MM
    assert (shop.style.inch_denominator, shop.style.fit_denominator, shop.style.comma) == (32, 128, True)
    assert (shop.style.mm_step, shop.style.fit_mm_step) == pytest.approx((1.0, 0.2))
    assert shop.gauge is GaugeSystem.SWG
    assert shop.drifts == pytest.approx((0.006, 0.010, 0.012))
    assert shop.bar.scale_worked == pytest.approx((0.01, 0.02, 0.04))
    assert shop.ring.yield_strength == pytest.approx(350e6)
    assert shop.rate == "45"


def test_every_figure_of_a_shop_can_be_told():
    """Each field of the shop and of its rules differs from the plain one when the whole file is read."""
    shop, plain = read_shop(WHOLE, "shop.yaml")[0], Shop()
    for part in ("style", "fire", "hand", "bar", "ring", "sheet", "joint", "cutting", "terms"):
        told, usual = getattr(shop, part), getattr(plain, part)
        same = [f.name for f in fields(told) if getattr(told, f.name) == getattr(usual, f.name)]
        # set by who asks at the anvil, not by the shop file
        same = [name for name in same if (part, name) not in {("style", "feet"), ("style", "imperial")}]
        same = [name for name in same if name not in LEARNT]
        assert same == [], part
    assert [f.name for f in fields(Shop) if getattr(shop, f.name) == getattr(plain, f.name)] == []


def test_a_shop_that_tells_nothing_is_the_plain_one():
    shop, found = read_shop("shop: mine\nunits: in\n", "shop.yaml")
    assert found == ()
    assert shop == Shop(name="mine")


@pytest.mark.parametrize(
    ("name", "line", "text"),
    [
        ("not-a-choice", 2, "shop: a\nbars: {weld: half a thicknes}\n"),
        ("unknown-word", 2, "shop: a\ndrift: [1/4 in]\n"),
        ("missing", 1, "units: in\n"),
        ("no-units", 2, "shop: a\ndrifts: [1/4]\n"),
        ("no-percent", 2, "shop: a\nbars: {corners full: 0.98}\n"),
        ("not-a-choice", 2, "shop: a\nbars: {corners full: fully}\n"),
        ("not-a-choice", 2, "shop: a\nsheet: {wire: two wires}\n"),
        ("not-a-choice", 2, "shop: a\nrings: {length: 3 1/7 x the whole}\n"),
        ("not-a-choice", 2, "shop: a\nbars: {eye: pi x mean}\n"),
        ("one-value", 2, "shop: a\nsheet: {wire: [1, 2]}\n"),
        ("three-shares", 2, "shop: a\nbars: {scale worked: [5 %, 1 %, 2 %]}\n"),
        ("negative-size", 3, "shop: a\nunits: mm\nsheet: {kerf: -1}\n"),
        ("not-money", 2, "shop: a\nrate: plenty\n"),
        ("currency-not-told", 1, "shop: a\nrate: 45\n"),
        ("not-a-currency", 2, "shop: a\ncurrency: dollars\nrate: 45\n"),
        ("not-a-currency", 2, "shop: a\ncurrency: $\nrate: 45\n"),
        ("other-currency", 3, "shop: a\ncurrency: USD\nrate: 45 EUR\n"),
        ("other-currency", 3, "shop: a\ncurrency: USD\nprices: {fuel: £4}\n"),
        ("money-out-of-range", 3, "shop: a\ncurrency: USD\nprices: {fuel: -4}\n"),
        ("decimal-comma", 4, "shop: a\ncurrency: USD\nprices:\n  fuel: 4,50\n"),
        ("price-of-what", 3, "shop: a\ncurrency: USD\nprices: {metal: 4}\n"),
        ("price-by-length", 3, "shop: a\ncurrency: USD\nprices: {metal: 4 a foot}\n"),
        ("price-by-length", 3, "shop: a\ncurrency: USD\nprices: {metals: {copper: 4 a foot}}\n"),
        ("no-such-steel", 3, "shop: a\ncurrency: USD\nprices: {metals: {mithril: 4 a kg}}\n"),
        ("no-shape", 4, "shop: a\nunits: in\ncurrency: USD\nprices: {bars: {3/8: 4 a foot}}\n"),
        ("open-size", 4, "shop: a\nunits: in\ncurrency: USD\nprices: {bars: {1 x ?: 4 a foot}}\n"),
        ("one-value", 4, "shop: a\nunits: in\ncurrency: USD\nprices: {bars: {3/8 sq: [4]}}\n"),
        ("not-a-group", 3, "shop: a\ncurrency: USD\nprices: {bars: 4 a foot}\n"),
        ("no-percent", 2, "shop: a\nprices: {waste: 0.1}\n"),
        ("figure-out-of-range", 2, "shop: a\nprices: {waste: 60 %}\n"),
        ("figure-out-of-range", 2, "shop: a\nprices: {learning: 20 %}\n"),
        ("figure-out-of-range", 2, "shop: a\nprices: {learning: 105 %}\n"),
        ("figure-out-of-range", 2, "shop: a\nprices: {failed: 95 %}\n"),
        ("figure-out-of-range", 2, "shop: a\nprices: {margin: 501 %}\n"),
        ("figure-out-of-range", 2, "shop: a\nprices: {lighting in minutes: 900}\n"),
        ("no-step", 3, "shop: a\ncurrency: USD\nprices: {round to: 0}\n"),
        ("no-step", 3, "shop: a\ncurrency: USD\nprices: {round to: 0.025}\n"),
        ("no-step", 3, "shop: a\ncurrency: JPY\nprices: {round to: 0.5}\n"),
        ("no-step", 3, "shop: a\ncurrency: KWD\nprices: {round to: 0.0005}\n"),
        ("count-out-of-range", 2, "shop: a\nprices: {counts: [0, 6]}\n"),
        ("too-many-counts", 2, "shop: a\nprices: {counts: [1, 2, 3, 4, 5, 6, 7]}\n"),
        ("figure-out-of-range", 3, "shop: a\nunits: mm\ncutting: {kerf: 30}\n"),
        ("figure-out-of-range", 3, "shop: a\nunits: mm\ncutting: {kerf: -1}\n"),
        ("no-units", 2, "shop: a\ncutting: {sold in: [20]}\n"),
        ("yes-or-no", 2, "shop: a\ncutting: {hot cut: maybe}\n"),
        ("figure-out-of-range", 2, "shop: a\nhand: {hammer: 100 lb}\n"),
        ("mass-out-of-range", 2, "shop: a\nhand: {hammer: 0 kg}\n"),
        ("no-units", 2, "shop: a\nhand: {hammer: 2}\n"),
        ("figure-out-of-range", 2, "shop: a\nhand: {speed in m/s: 0}\n"),
        ("negative-number", 2, "shop: a\nhand: {speed in m/s: -5}\n"),
        ("figure-out-of-range", 2, "shop: a\nhand: {useful blow in J: 0}\n"),
        ("more-than-the-blow", 2, "shop: a\nhand: {useful blow in J: 23}\n"),
        ("figure-out-of-range", 2, "shop: a\nhand: {blows a second: 20}\n"),
        ("figure-out-of-range", 2, "shop: a\nhand: {contact in W/m2K: 9999}\n"),
        ("figure-out-of-range", 2, "shop: a\nhand: {carry in seconds: 300}\n"),
        ("not-a-choice", 2, "shop: a\nhand: {colours: Ilgen}\n"),
        ("no-degrees", 2, "shop: a\nfire: {temperature: 1250}\n"),
        ("figure-out-of-range", 2, "shop: a\nfire: {temperature: 300 C}\n"),
        ("figure-out-of-range", 3, "shop: a\nunits: mm\nfire: {longest heat: 6}\n"),
        ("not-a-choice", 2, "shop: a\nfire: {flame: blue}\n"),
        ("count-out-of-range", 2, "shop: a\nfire: {irons: 0}\n"),
        ("one-value", 2, "shop: a\ntools: [{vise: leg}]\n"),
        ("not-a-job", 1, "just words\n"),
        ("alias", 2, "shop: a\nfire: &x {}\n"),
    ],
)
def test_slips_are_findings(name: str, line: int, text: str):
    assert (name, line) in names(text)


@pytest.mark.parametrize(
    "text",
    ["just words\n", "", "[1, 2]\n", "shop: a\n---\nshop: b\n", "shop: a\nfire: &x {}\n", "shop: !x a\n",
     "shop: a\n<<: {units: in}\n", "x" * 1_000_001],
)  # fmt: skip
def test_what_is_no_shop_file_is_not_spoken_of_as_a_job(text: str):
    found = read_shop(text, "s")[1]
    assert found
    assert not any("job" in f"{f.says} {f.try_this}" for f in found)
    assert any("shop" in f"{f.says} {f.try_this}" or f.name == "alias" for f in found)


def test_a_job_that_is_none_is_still_spoken_of_as_a_job():
    assert read_page("just words\n", "t").findings[0].says.startswith("a job file is")


def test_the_nearest_rule_is_named():
    (finding,) = read_shop("shop: a\nbars: {weld: half a thicknes}\n", "s")[1]
    assert "half a thickness" in finding.try_this
    assert "half a thickness" in weld_rule_names()


def test_every_word_stands_on_the_page_that_explains_shop_files():
    page = (Path(__file__).parents[2] / "docs" / "shop-file.md").read_text()
    missing = [f"{f.name}: {k.word}" for f in FORMS for k in f.keys if k.word not in page]
    rules = [c for f in FORMS for k in f.keys for c in k.choices if c not in page]
    assert missing + rules == []


WITHOUT_DEFAULT = {
    ("cutting", "lengths"), *(("terms", name) for name in ("fuel", "metal", "fixed", "each", "sections", "metals")),
}  # fmt: skip
"""What the page shows an example of, since there is no plain figure."""


def test_the_shop_file_on_the_page_is_read_and_tells_the_plain_figures():
    page = (Path(__file__).parents[2] / "docs" / "shop-file.md").read_text()
    shop, found = read_shop(page.split("```yaml\n")[1].split("```")[0], "shop.yaml")
    assert found == ()
    plain = Shop()
    for part in ("hand", "bar", "ring", "sheet", "joint", "style", "cutting", "terms"):
        told, usual = getattr(shop, part), getattr(plain, part)
        for f in fields(told):
            a, b = getattr(told, f.name), getattr(usual, f.name)
            if (part, f.name) in WITHOUT_DEFAULT:
                continue
            assert a == (b if isinstance(b, str) else pytest.approx(b)), (part, f.name)


def test_a_rule_or_a_figure_of_the_shops_own():
    def bars(text: str) -> float:
        shop, found = read_shop(f"shop: a\nbars: {{corners full: {text}}}\n", "s")
        assert found == ()
        return shop.bar.corner_fullness

    def wire(text: str) -> tuple[float, float]:
        shop, found = read_shop(f"shop: a\nsheet: {{wire: {text}}}\n", "s")
        assert found == ()
        return shop.sheet.wire, shop.sheet.wire_sheets

    assert (bars("full"), bars("97 %")) == pytest.approx((1.0, 0.97))
    assert bars("A fifth longer  when rounded") == pytest.approx(3 * pi / 10)
    assert (wire("2 1/2 d"), wire("2.6"), wire("2 wires + 4 sheets")) == ((2.5, 0.0), (2.6, 0.0), (2.0, 4.0))


def test_the_hand_and_the_fire_are_read_in_their_own_units():
    shop, found = read_shop(WHOLE, "shop.yaml")
    assert found == ()
    assert shop.hand.hammer == pytest.approx(2 * 0.45359237)
    assert (shop.hand.speed, shop.hand.pace, shop.hand.contact, shop.hand.carry) == (7.0, 2.0, 80.0, 2.0)
    assert shop.hand.blow == pytest.approx(4.0)
    assert shop.hand.colours == "Babcock and Wilcox 1919"
    assert shop.fire.temperature == pytest.approx(1477.594, abs=0.001)
    assert (shop.fire.flame, shop.fire.irons) == (Flame.NEUTRAL, 3)
    assert shop.tools == ("leg vise", "swage block")


def test_a_useful_blow_is_kept_whatever_the_hammer_and_the_speed():
    for hammer, speed in (("1 kg", 5), ("3 lb", 4), ("900 g", 7)):
        text = f"shop: a\nhand: {{hammer: {hammer}, speed in m/s: {speed}, useful blow in J: 3}}\n"
        shop, found = read_shop(text, "s")
        assert found == ()
        assert shop.hand.blow == pytest.approx(3.0)


@pytest.mark.parametrize(
    "slip",
    ["hammer: 100 lb", "speed in m/s: 0", "useful blow in J: 23", "blows a second: 20", "contact in W/m2K: 9999"],
)
def test_a_figure_of_the_hand_that_cannot_be_meant_leaves_the_plain_one(slip: str):
    shop, found = read_shop(f"shop: a\nhand: {{{slip}}}\n", "s")
    assert len(found) == 1
    assert shop.hand == Hand()


def test_one_tool_needs_no_list():
    assert read_shop("shop: a\ntools: leg vise\n", "s")[0].tools == ("leg vise",)


def test_every_default_of_hand_and_fire_says_where_it_comes_from():
    assert set(HAND_SOURCES) == {f.name for f in fields(Hand)} - LEARNT
    told = {f.name for f in fields(Fire) if getattr(Fire(), f.name) not in ("", 0.0, 0)}
    assert set(FIRE_SOURCES) == told - LEARNT
    assert all(s.title and s.where for s in (*HAND_SOURCES.values(), *FIRE_SOURCES.values()))


def test_every_default_of_cutting_and_terms_says_where_it_comes_from():
    """But for what is plainly off or empty, and the step and the counts that are no figure of the world."""
    told = {f.name for f in fields(Cutting) if getattr(Cutting(), f.name) not in (False, ())} | {"grip"}
    assert set(CUTTING_SOURCES) == told
    shares = {f.name for f in fields(Terms) if getattr(Terms(), f.name) not in ("", ())} | {"failed", "margin"}
    assert set(TERMS_SOURCES) == shares - {"round_to", "counts", "finish_minutes"}
    assert all(s.title for s in (*CUTTING_SOURCES.values(), *TERMS_SOURCES.values()))


def test_prices_are_kept_as_they_are_written():
    shop, found = read_shop(WHOLE, "shop.yaml")
    assert found == ()
    terms = shop.terms
    assert (terms.fuel, terms.metal, terms.each, terms.round_to) == ("4.50", "1.20 a lb", "£0.80", "0.50")
    assert [one.price for one in terms.sections] == ["1.20 a foot", "2 a kg"]
    assert terms.sections[0].section.width == pytest.approx(0.009525)
    assert terms.metals == (("copper", "14 a kg"),)
    assert (terms.margin, terms.learns, terms.light) == pytest.approx((1.2, 0.9, 1200.0))
    assert terms.counts == (2, 12)
    assert shop.cutting.lengths == pytest.approx((3.0, 6.0))


@pytest.mark.parametrize(("said", "code"), [("usd", "USD"), ("£", "GBP"), ("€", "EUR"), ("CAD", "CAD")])
def test_a_currency_is_three_letters_or_a_sign_that_means_one(said: str, code: str):
    assert read_shop(f"shop: a\ncurrency: {said}\n", "s")[0].currency == code


def test_a_slip_leaves_the_plain_figure_and_names_the_nearest_rule():
    shop, found = read_shop("shop: a\nbars: {corners full: a fifth longer}\nsheet: {wire: 2 wires}\n", "s")
    assert [f.name for f in found] == ["not-a-choice", "not-a-number"]
    assert "a fifth longer when rounded" in found[0].try_this
    assert (shop.bar, shop.sheet) == (Shop().bar, Shop().sheet)
