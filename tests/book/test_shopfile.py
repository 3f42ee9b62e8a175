"""The shop file: every figure of the shop can be told, rules only by a name that has a row, and faults are findings."""

from dataclasses import fields
from math import pi
from pathlib import Path

import pytest

from bickern.book.shopfile import FORMS, read_shop
from bickern.book.text import read_page
from bickern.iron.flame import Flame
from bickern.making.shop import FIRE_SOURCES, HAND_SOURCES, Fire, Hand, Shop
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
    for part in ("style", "fire", "hand", "bar", "ring", "sheet", "joint"):
        told, usual = getattr(shop, part), getattr(plain, part)
        same = [f.name for f in fields(told) if getattr(told, f.name) == getattr(usual, f.name)]
        # set by who asks at the anvil, not by the shop file
        same = [name for name in same if (part, name) not in {("style", "feet"), ("style", "imperial")}]
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
        ("not-a-number", 2, "shop: a\nrate: plenty\n"),
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


def test_the_shop_file_on_the_page_is_read_and_tells_the_plain_figures():
    page = (Path(__file__).parents[2] / "docs" / "shop-file.md").read_text()
    shop, found = read_shop(page.split("```yaml\n")[1].split("```")[0], "shop.yaml")
    assert found == ()
    plain = Shop()
    for part in ("hand", "bar", "ring", "sheet", "joint", "style"):
        told, usual = getattr(shop, part), getattr(plain, part)
        for f in fields(told):
            a, b = getattr(told, f.name), getattr(usual, f.name)
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
    assert set(HAND_SOURCES) == {f.name for f in fields(Hand)}
    told = {f.name for f in fields(Fire) if getattr(Fire(), f.name) not in ("", 0.0, 0)}
    assert set(FIRE_SOURCES) == told
    assert all(s.title and s.where for s in (*HAND_SOURCES.values(), *FIRE_SOURCES.values()))


def test_a_slip_leaves_the_plain_figure_and_names_the_nearest_rule():
    shop, found = read_shop("shop: a\nbars: {corners full: a fifth longer}\nsheet: {wire: 2 wires}\n", "s")
    assert [f.name for f in found] == ["not-a-choice", "not-a-number"]
    assert "a fifth longer when rounded" in found[0].try_this
    assert (shop.bar, shop.sheet) == (Shop().bar, Shop().sheet)
