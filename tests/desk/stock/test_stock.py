"""What the rack has for a job: which bar, how much of it, what it takes more, and what is never taken."""

import time
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from bickern.desk.reckon import Reckoning, reckon_file, reckon_job, reckon_text
from bickern.desk.sheets.sheets import packet_of
from bickern.desk.stock.any_bar import chosen
from bickern.desk.stock.stock import ways, ways_of
from bickern.desk.whole.assemble import for_packet
from bickern.desk.work.heats import planned
from bickern.geometry.polygon import rectangle
from bickern.iron.section import Section, area, section_from
from bickern.making.shop import Shop
from bickern.making.stock.become import How, PieceWays, Way, replaced
from bickern.making.stock.rack import Rack, StockBar, StockSheet
from bickern.making.stock.steel_match import Match
from bickern.measure.finding import Finding
from bickern.measure.money import Money
from bickern.measure.units.bars import read_section
from bickern.measure.units.words import INCH, MILLIMETRE, System
from bickern.parts.bar.allowances import BarRules, without_fire
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec

EXAMPLES = Path(__file__).parents[3] / "examples"
JOBS = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))


def section(words: str) -> Section:
    read = read_section(words, System.INCH).value
    assert read is not None
    found = section_from(read).value
    assert found is not None
    return found


def lies(*told: str) -> Rack:
    """Bars as `B1 1/2 sq * 72`, perhaps with `; steel; coating` behind; plain bare mild bar else."""
    bars = []
    for one in told:
        first, steel, coating, *_ = (*(part.strip() for part in one.split(";")), "S235JR", "none")[:3]
        name, _, rest = first.partition(" ")
        words, _, length = rest.partition("*")
        bars.append(StockBar(name, section(words.strip()), float(length) * INCH, steel, coating))
    return Rack(tuple(bars))


def job(text: str, shop: Shop | None = None) -> Reckoning:
    done = reckon_text("job: Trial\nunits: in\npieces:\n" + text, "trial.yaml")
    assert done.job is not None
    return done if shop is None else reckon_job(done.job, shop)


def example(name: str, **shop: object) -> Reckoning:
    done = reckon_file(EXAMPLES / f"{name}.yaml")
    assert done.job is not None
    assert done.copy is not None
    return reckon_job(done.job, replace(done.copy.shop, **shop)) if shop else done  # type: ignore[arg-type]


def only(done: Reckoning, name: str, rack: Rack, **more: int) -> PieceWays:
    assert done.job is not None
    spec = done.job.piece(name)
    assert spec is not None
    return ways_of(done, spec, rack, **more)


def by_id(found: PieceWays, name: str) -> Way:
    way = next((w for w in found.ways if w.stock[0].id == name), None)
    assert way is not None, [(n.stock[0].id, n.why) for n in found.none]
    return way


def why_not(found: PieceWays, name: str) -> str:
    return next(no.why for no in found.none if any(one.id == name for one in no.stock))


STEM = "  stem:\n    bar: 1/2 sq\n    metal: [{keep: 9, name: stem}, {to: 1/8 sq, over: 3, name: point}]\n"


# -- the ways


def test_as_it_is_takes_no_more_and_the_cut_is_that_of_the_heats():
    found = only(job(STEM), "stem", lies("B1 1/2 sq * 72"))
    way = by_id(found, "B1")
    assert way.how is How.AS_IS
    assert way.heats.value == way.seconds.value == 0.0
    done = planned(job(STEM)).copy
    assert done is not None
    assert isinstance(done.pieces[0], BarResult)
    assert way.cuts == (done.pieces[0].cut_this,)


def test_a_heavier_bar_takes_a_shorter_cut_more_heats_and_more_time():
    rack = lies("B1 1/2 sq * 72", "B2 5/8 sq * 72", "B3 3/4 sq * 72", "B4 1 sq * 72")
    found = only(job(STEM), "stem", rack)
    assert [w.stock[0].id for w in found.ways] == ["B1", "B2", "B3", "B4"]
    drawn = found.ways[1:]
    assert all(w.how is How.DRAWN for w in drawn)
    assert all(w.heats.value > 0 for w in drawn)
    for lighter, heavier in zip(found.ways, drawn, strict=False):
        assert heavier.cuts[0] < lighter.cuts[0]
        assert heavier.seconds.value > lighter.seconds.value
        assert heavier.seconds.low <= heavier.seconds.value <= heavier.seconds.high


def test_heats_and_time_more_are_those_of_the_two_plans_of_one_copy_in_its_lot():
    """Four stems from 5/8 sq, planned by themselves, beside four from 1/2 sq."""
    four = STEM.replace("    bar: 1/2 sq\n", "    bar: 1/2 sq\n    make: 4\n")
    way = by_id(only(job(four), "stem", lies("B2 5/8 sq * 72")), "B2")
    forged = four.replace("bar: 1/2 sq", "bar: 5/8 sq").replace("{keep: 9,", "{as: 1/2 sq, over: 9,")
    plans = [planned(job(text)).copy.plan.pieces[0] for text in (four, forged)]
    assert [plan.make for plan in plans] == [4, 4]
    heats, seconds = ([plan.heats.value for plan in plans], [plan.lot.seconds.value / 4 for plan in plans])
    assert way.heats.value == pytest.approx(heats[1] - heats[0])
    assert way.seconds.value == pytest.approx(seconds[1] - seconds[0])


def test_the_cut_of_a_heavier_bar_holds_the_metal_and_what_more_fire_takes():
    found = only(job(STEM), "stem", lies("B1 1/2 sq * 72", "B3 3/4 sq * 72"))
    a, b = by_id(found, "B1"), by_id(found, "B3")
    bare = (9 * 0.25 + 3 * (0.25 + 0.015625 + 0.0625) / 3) / 0.5625 * INCH
    assert bare < b.cuts[0] < bare * 1.08
    assert b.cuts[0] * area(section("3/4 sq")) > a.cuts[0] * area(section("1/2 sq"))


def test_metric_bar_near_the_inch_one_stands_in_and_says_what_it_is():
    found = by_id(only(job(STEM), "stem", lies("B1 12 mm sq * 72")), "B1")
    assert found.how is How.NEAR
    assert "“stem” is 12 mm sq (15/32 in), not 1/2 in sq (12.7 mm)" in found.says
    assert isinstance(found.spec, BarSpec)
    assert found.spec.stock == section("12 mm sq")


def test_a_size_that_comes_out_otherwise_is_told_so_that_it_reads_otherwise():
    """84.5 mm for 83.5 reads 3 5/16 in both times on a tape: nobody could see what is said."""
    done = example("rail-s-hook-metric")
    way = by_id(only(done, "hook", lies("B1 1/4 rd * 40")), "B1")
    told = next(says for says in way.says if "comes out" in says)
    now, _, then = told.partition("comes out ")[2].partition(", not ")
    assert now.split(" / ")[0] != then.split(" / ")[0]
    assert now.split()[0] != then.split()[0]
    assert now.index("mm") < now.index("in")  # a metric job: millimetres first


def test_what_is_replaced_reckons_to_the_cut_that_was_told():
    done = job(STEM)
    assert done.job is not None
    assert done.copy is not None
    for rack in (lies("B1 5/8 rd * 60"), lies("B1 12 mm sq * 60"), lies("B1 3/4 sq * 60")):
        way = by_id(only(done, "stem", rack), "B1")
        again = replace(done.job, pieces=(replaced(done.job.pieces[0], way),))
        made = planned(reckon_job(again, done.copy.shop)).copy
        assert made is not None
        assert isinstance(made.pieces[0], BarResult)
        assert made.pieces[0].cut_this == pytest.approx(way.cuts[0])
        assert made.pieces[0].stock_section == way.stock[0].section  # type: ignore[union-attr]


def test_too_short_is_told_with_what_is_wanted():
    found = only(job(STEM), "stem", lies("B1 1/2 sq * 6", "B2 3/4 sq * 4"))
    assert not found.ways
    assert "too short" in why_not(found, "B1")
    assert "too short" in why_not(found, "B2")


def test_bar_too_wide_for_the_fire_is_not_offered():
    shop = Shop(fire=replace(Shop().fire, opening=INCH))
    found = only(job(STEM, shop), "stem", lies("B1 1 1/4 sq * 20"))
    assert not found.ways
    assert "does not enter the fire" in why_not(found, "B1")


def test_heavier_kinds_past_those_that_are_counted_are_named():
    rack = lies(*(f"B{n} {n}/16 sq * 72" for n in range(9, 17) if n % 2), "B10 5/8 sq * 72", "B20 1 1/4 sq * 30")
    found = only(job(STEM), "stem", rack, most=2)
    assert sum(w.how is How.DRAWN for w in found.ways) == 2
    assert found.heavier
    every = only(job(STEM), "stem", rack, most=99)
    assert not every.heavier
    assert len(every.ways) == len(found.ways) + len(found.heavier)


# -- steel and what is on it


def test_no_coated_bar_ever_comes_near_a_fire():
    rack = lies(
        "B1 1/2 sq * 72; S235JR; galvanised", "B2 1/2 sq * 72; S235JR; chrome", "B3 5/8 sq * 72; S235JR; painted"
    )
    found = only(job(STEM), "stem", rack)
    assert not found.ways
    assert all("never goes in the fire" in no.why for no in found.none)


def test_a_coating_that_nobody_told_is_doubted_and_taken_after_bare_bar():
    found = only(job(STEM), "stem", lies("B1 1/2 sq * 30; S235JR; ", "B2 1/2 sq * 72"))
    assert [w.stock[0].id for w in found.ways] == ["B2", "B1"]
    assert "not told" in by_id(found, "B1").doubt
    assert not by_id(found, "B2").doubt


def test_cold_work_takes_coated_wire_as_it_is_and_no_heavier_one():
    cold = "  ring:\n    ring: 1/8 rd\n    inside across: 4\n"
    found = only(job(cold), "ring", lies("B1 1/8 rd * 72; mild; galvanised", "B2 1/4 rd * 72; mild; galvanised"))
    assert by_id(found, "B1").doubt == "never in the fire: for cold work only"
    assert by_id(found, "B1").spec.coating == "galvanised"
    assert "never goes in the fire" in why_not(found, "B2")


def test_steel_is_matched_by_grade_and_family():
    rack = lies("B1 1/2 sq * 72; A36", "B2 1/2 sq * 72; 5160", "B3 1/2 sq * 72; ", "B4 1/2 sq * 72; wrought iron",
                "B5 1/2 sq * 72; mild")  # fmt: skip
    found = only(job(STEM), "stem", rack)
    assert [w.stock[0].id for w in found.ways] == ["B5", "B1"]
    assert by_id(found, "B1").spec.steel == "A36"
    assert "both mild steel" in by_id(found, "B1").says[0]
    assert "unknown steel: yes" in why_not(found, "B3")
    assert "spring steel" in why_not(found, "B2")


def test_unknown_steel_is_the_last_of_all_where_the_shop_takes_it():
    shop = Shop(cutting=replace(Shop().cutting, unknown=True))
    found = only(job(STEM, shop), "stem", lies("B1 1/2 sq * 72; ; none", "B2 3/4 sq * 72"))
    assert [w.stock[0].id for w in found.ways] == ["B2", "B1"]
    assert by_id(found, "B1").match is Match.UNKNOWN
    assert by_id(found, "B1").spec.steel == "unknown"
    assert "test piece" in by_id(found, "B1").says[-1]


# -- rings, and what they go through


def test_links_of_another_bar_are_judged_with_the_whole_chain():
    done = example("crane-chain")
    found = only(done, "links", lies("B1 5/16 rd * 100", "B2 8 mm rd * 100", "B3 3/8 rd * 100", "B4 1/4 rd * 100"))
    assert found.copies == 13
    assert by_id(found, "B1").how is How.AS_IS
    assert by_id(found, "B2").how is How.NEAR
    drawn = by_id(found, "B3")
    assert drawn.how is How.DRAWN
    assert drawn.first is not None
    assert drawn.heats.value >= 1
    assert "too thin" in why_not(found, "B4")


def test_a_near_ring_that_jams_in_its_hole_is_not_offered():
    """A ring of 1/2 rd through a boss: the hole is made for it, and 13.5 mm no longer goes through (exact geometry)."""
    text = (EXAMPLES / "ring-pull.yaml").read_text(encoding="utf-8")
    tight = text.replace("size: 9/16", "size: 17/32")
    assert tight != text
    done = reckon_text(tight, "ring-pull.yaml")
    assert not done.stops
    found = only(done, "ring", lies("B1 1/2 rd * 40", "B2 13.5 mm rd * 40"))
    assert by_id(found, "B1").how is How.AS_IS
    assert [w.stock[0].id for w in found.ways] == ["B1"]
    assert "jam" in why_not(found, "B2") or "hole" in why_not(found, "B2")


def test_rings_that_are_wound_are_cut_as_one_length_of_wire():
    """Wound, three rings want four turns, for one is lost at the ends: four mean circumferences (exact mathematics)."""
    text = "  links:\n    ring: 1/8 rd\n    inside across: 1\n    wound: yes\n    make: 3\n"
    found = only(job(text), "links", lies("B1 1/8 rd * 72"))
    assert found.copies == 1
    assert found.cut == pytest.approx(4 * 3.1416 * (1 + 1 / 8) * INCH, rel=0.02)


# -- two short ones


SHORT = ("B1 1/2 sq * 7", "B2 1/2 sq * 8")


def test_two_short_ones_are_welded_only_where_the_shop_says_so():
    found = only(job(STEM), "stem", lies(*SHORT))
    assert not found.ways
    assert "weld short ones: yes" in why_not(found, "B1")
    shop = Shop(cutting=replace(Shop().cutting, weld_short=True))
    (way,) = only(job(STEM, shop), "stem", lies(*SHORT)).ways
    assert way.how is How.WELDED
    assert len(way.stock) == len(way.cuts) == 2
    assert all(cut <= one.length for cut, one in zip(way.cuts, way.stock, strict=True))  # type: ignore[union-attr]
    assert way.heats.value >= 2
    assert way.seconds.value > 60
    assert "the weld comes to lie" in way.says[0]
    single = by_id(only(job(STEM, shop), "stem", lies("B1 1/2 sq * 72")), "B1")
    assert sum(way.cuts) == pytest.approx(single.cuts[0] + INCH / 2)  # one thickness, by the shop's rule


def test_coated_bars_are_not_welded_though_the_piece_itself_is_cold():
    shop = Shop(cutting=replace(Shop().cutting, weld_short=True))
    cold = "  stay:\n    bar: 1/2 sq\n    metal: [{keep: 12, name: stem}]\n"
    coated = ("B1 1/2 sq * 9; mild; galvanised", "B2 1/2 sq * 8; mild; galvanised")
    found = only(job(cold, shop), "stay", lies(*coated))
    assert not found.ways
    assert "too short" in why_not(found, "B1")
    (way,) = only(job(cold, shop), "stay", lies(*coated, "B3 1/2 sq * 7; mild; ", "B4 1/2 sq * 7; mild; none")).ways
    assert {one.id for one in way.stock} == {"B3", "B4"}
    assert "not told" in way.doubt
    assert by_id(only(job(cold, shop), "stay", lies("B1 1/2 sq * 20; mild; galvanised")), "B1").how is How.AS_IS


def test_steel_that_welds_badly_is_not_made_of_two():
    shop = Shop(cutting=replace(Shop().cutting, weld_short=True))
    text = STEM.replace("bar: 1/2 sq", "bar: 1/2 sq\n    steel: 1045")
    found = only(job(text, shop), "stem", lies("B1 1/2 sq * 7; 1045", "B2 1/2 sq * 8; 1045"))
    assert not found.ways
    assert "does not fire weld" in why_not(found, "B1")


# -- what it eats


def priced(shop: Shop, **terms: str) -> Shop:
    return replace(shop, rate="36", currency="GBP", terms=replace(shop.terms, **terms))


def test_free_stock_is_priced_by_the_time_and_fire_that_it_eats():
    """36 an hour and 7.20 of fuel are 0.012 a second: the money is that times the seconds told, to a thousandth."""
    found = only(job(STEM, priced(Shop(), fuel="7.20")), "stem", lies("B3 3/4 sq * 72"))
    way = by_id(found, "B3")
    assert way.eats is not None
    assert way.eats.amount == pytest.approx(Decimal("0.012") * Decimal(str(round(way.seconds.value, 3))))
    assert isinstance(way.eats.amount, Decimal)
    assert way.buy is None
    assert not way.buying_is_cheaper


def test_buying_the_right_bar_is_set_beside_it_and_said_where_it_is_cheaper():
    shop = priced(Shop(), fuel="7.20", metal="2.00")
    way = by_id(only(job(STEM, shop), "stem", lies("B3 3/4 sq * 72")), "B3")
    done = planned(job(STEM, shop)).copy
    assert done is not None
    assert isinstance(done.pieces[0], BarResult)
    assert way.buy is not None
    assert float(way.buy.amount) == pytest.approx(2.0 * done.pieces[0].stock_mass, rel=1e-6)
    assert way.buying_is_cheaper
    dear = replace(shop, terms=replace(shop.terms, metal="900"))
    assert not by_id(only(job(STEM, dear), "stem", lies("B3 3/4 sq * 72")), "B3").buying_is_cheaper


def test_a_price_on_the_right_bar_in_the_rack_serves_where_the_shop_tells_none():
    (bar,) = lies("B1 1/2 sq * 60").bars
    rack = Rack((replace(bar, price=Money(Decimal("6.00"), "GBP")), *lies("B3 3/4 sq * 72").bars))
    found = only(job(STEM, priced(Shop())), "stem", rack)
    buy = by_id(found, "B3").buy
    assert buy is not None
    assert float(buy.amount) == pytest.approx(6.0 * found.cut / (60 * INCH), rel=1e-4)


def test_what_a_galvanised_or_a_brass_bar_costs_is_not_what_the_right_one_costs():
    (bar,) = lies("B1 1/2 sq * 60").bars
    priced_one = replace(bar, price=Money(Decimal("6.00"), "GBP"))
    free = replace(priced_one, price=Money(Decimal(0), "GBP"))
    for wrong in (replace(priced_one, coating="galvanised"), replace(priced_one, steel="brass"), free):
        rack = Rack((wrong, *lies("B3 3/4 sq * 72").bars))
        assert by_id(only(job(STEM, priced(Shop())), "stem", rack), "B3").buy is None


def test_as_it_is_eats_nothing():
    assert by_id(only(job(STEM, priced(Shop())), "stem", lies("B1 1/2 sq * 60")), "B1").eats is None


# -- sheet


def sheet(name: str, wide: float, high: float, thick: float, coating: str = "none") -> StockSheet:
    return StockSheet(name, thick * INCH, rectangle(wide * INCH, high * INCH), steel="mild", coating=coating)


def test_the_forge_hoods_galvanised_sheet_is_refused_and_the_bare_one_offered():
    """The rack of the ninth project: a bare 48 x 24 of 18 ga and a galvanised sheet that would fit."""
    rack = Rack(sheets=(sheet("S1", 48, 24, 0.0478), sheet("S2", 60, 48, 0.0478, "galvanised"),
                        sheet("S3", 60, 48, 0.0598), sheet("S4", 10, 10, 0.0478)))  # fmt: skip
    done = example("forge-hood")
    (found,) = (p for p in ways(done, rack) if p.asked is None)
    assert [w.stock[0].id for w in found.ways] == ["S1"]
    assert "never goes in the fire" in why_not(found, "S2")
    assert "thicker" in why_not(found, "S3")
    assert "pattern" in why_not(found, "S4")


# -- any bar


ANY = """  hook:
    bar: any
    make: 4
    metal:
      - {from: 1/8 rd, to: 3/8 sq, over: 3, name: tip}
      - {keep: 4, name: stem}
      - {to: 1 x 1/8, over: 1, name: neck}
      - {keep: 1, name: palm}
"""


def names(done: Reckoning) -> list[str]:
    return [f.name for f in done.findings]


def test_any_bar_is_given_the_best_of_the_rack_with_enough_for_every_copy():
    done = chosen(job(ANY), lies("B1 3/8 sq * 9", "B2 3/8 sq * 72", "B3 3/4 sq * 72"))
    assert not done.stops
    assert done.job is not None
    (spec,) = done.job.pieces
    assert isinstance(spec, BarSpec)
    assert spec.stock == section("3/8 sq")
    assert "bar-from-the-rack" in names(done)
    assert "rack-short" not in names(done)


def test_a_kind_that_does_not_reach_gives_way_to_one_that_does():
    done = chosen(job(ANY), lies("B1 3/8 sq * 9", "B3 1/2 sq * 72"))
    (note,) = (f for f in done.findings if f.name == "bar-from-the-rack")
    assert "B3" in note.says
    assert done.copy is not None
    assert isinstance(done.copy.pieces[0], BarResult)
    assert done.copy.pieces[0].stock_section == section("1/2 sq")


def test_what_is_short_is_told_in_pieces():
    done = chosen(job(ANY), lies("B1 3/8 sq * 17"))
    (short,) = (f for f in done.findings if f.name == "rack-short")
    assert "for 2 of 4" in short.says
    assert "2 short" in short.says


def test_where_none_will_do_the_finding_stays():
    before = job(ANY)
    done = chosen(before, lies("B1 1/4 sq * 72", "B2 3/8 sq * 3"))
    assert [f for f in before.findings if f.name == "no-stock"] == [f for f in done.findings if f.name == "no-stock"]
    assert "no-bar-in-the-rack" in names(done)
    assert done.stops


def test_a_piece_that_keeps_any_bar_tells_nothing():
    found = only(job("  peg:\n    bar: any\n    metal: [{keep: 4}]\n"), "peg", lies("B1 3/8 sq * 72"))
    assert not found.ways
    assert "keeps the bar's own section" in found.says


def test_a_chosen_bar_goes_on_to_heats_and_sheets():
    done = chosen(job(ANY), lies("B3 5/8 rd * 72"))
    assert planned(done).copy is not None
    files = packet_of(for_packet(done, "shop"), "letter", "shop")
    assert not isinstance(files, Finding)


def test_a_job_without_any_bar_is_left_alone():
    done = job(STEM)
    assert chosen(done, lies("B1 1/2 sq * 72")) is done


def test_what_eats_more_than_the_right_bar_costs_is_told_when_it_is_chosen():
    done = chosen(job(ANY, priced(Shop(), fuel="7.20", metal="2.00")), lies("B3 1 sq * 72"))
    (note,) = (f for f in done.findings if f.name == "bar-from-the-rack")
    assert "buying the right bar is cheaper" in note.says
    assert "GBP" in note.says


# -- whole jobs


@pytest.mark.parametrize("name", ["bolt-tongs", "rail-s-hook", "leaf-coat-hook", "ring-pull", "trivet"])
def test_every_way_of_the_examples_holds_its_metal(name):
    rack = lies("B1 1/4 rd * 72", "B2 3/8 sq * 72", "B3 1/2 sq * 72", "B4 12 mm sq * 72", "B5 5/8 sq * 72",
                "B6 3/4 sq * 72", "B7 1/2 rd * 72", "B8 3/4 x 1/4 * 72", "B9 20 x 6 mm * 72")  # fmt: skip
    found = ways(example(name), rack)
    assert any(p.ways for p in found)
    for piece in found:
        for way in piece.ways:
            stock = way.stock[0]
            assert isinstance(stock, StockBar)
            assert 0 < way.cuts[0] <= stock.length
            assert way.copies >= 1
            if way.how is How.DRAWN:
                assert piece.asked is not None
                least = 0.95 * piece.cut * area(piece.asked) / area(stock.section)
                assert way.cuts[0] > least


def test_poker_of_five_eighths_round_where_half_square_is_asked():
    """The seventh project, reckoned by hand before scale and weld: 15.9 in of 1/2 sq or 12.9 of 5/8 rd.

    The hand stopped the shaft at the outside of the eye; a centred eye takes 3/16 in of 3/8 rd more. Half a tenth is
    what the targets are told to.
    """
    more = 3 / 16 * area(section("3/8 rd"))
    found = only(example("fire-set"), "poker", lies("B1 1/2 sq * 72", "B2 5/8 rd * 72"))
    for name, printed in (("B1", 15.9), ("B2", 12.9)):
        way = by_id(found, name)
        assert isinstance(way.spec, BarSpec)
        assert isinstance(way.stock[0], StockBar)
        made = reckon_bar(way.spec, without_fire(BarRules()), 7850.0).value
        assert made is not None
        assert made.stock_bare / INCH == pytest.approx(printed + more / area(way.stock[0].section), abs=0.05)


def test_a_rack_of_five_thousand_is_looked_through_by_kinds():
    """As many kinds as a rack of twenty bars, so as long but for the looking; generous, for a slow machine."""
    kinds = [section(f"{n}/16 sq") for n in (5, 7, 9, 11, 13)] + [
        section("3/8 sq"),
        section("1/2 rd"),
        section("3/8 rd"),
    ]
    many = tuple(
        StockBar(f"B{n}", kinds[n % len(kinds)], (200 + n % 1500) * MILLIMETRE, ("S235JR", "A36", "")[n % 3], "none",
                 remark=f"note {n}")
        for n in range(5000)
    )  # fmt: skip
    done = example("leaf-coat-hook")
    few = Rack(many[:48])
    only(done, "hook", few)
    began = time.process_time()
    a = only(done, "hook", few)
    first = time.process_time() - began
    began = time.process_time()
    b = only(done, "hook", Rack(many))
    second = time.process_time() - began
    assert len(b.ways) > 20 * len(a.ways) / 2
    assert second < first + 1.0


def test_a_job_that_cannot_be_read_has_no_ways():
    assert ways(reckon_text("pieces: [", "x.yaml"), lies("B1 1/2 sq * 72")) == ()
    stopped = job("  bad:\n    bar: 1/2 sq\n    metal: [{keep: 3}]\n    path: [{straight: 5}]\n")
    (found,) = ways(stopped, lies("B1 1/2 sq * 72"))
    assert not found.ways
    assert "stops" in found.says


def test_an_empty_rack_has_nothing():
    (found,) = ways(job(STEM), Rack())
    assert not found.ways
    assert not found.none
    assert found.copies == 1
