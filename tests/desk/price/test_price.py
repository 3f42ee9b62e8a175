"""Jobs priced end to end: the S-hook by hand, the coat hooks as a lot, what is not told, a rack with prices."""

from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import ceil, pi
from pathlib import Path

import pytest

from bickern.book.database.open import open_book
from bickern.book.rack.change import add
from bickern.book.shopfile import read_shop
from bickern.desk.price.price import NO_RACK, Pricing, counts_of, priced, priced_file
from bickern.desk.reckon import Reckoning, reckon_file, reckon_job, reckon_text
from bickern.desk.sheets.sheets import as_json, packet_of
from bickern.desk.stock.stock import ways
from bickern.desk.work.heats import planned
from bickern.geometry.polygon import bounds
from bickern.iron.section import Section, area
from bickern.making.quote.result import Costs, Quote
from bickern.making.stock.rack import Rack, StockBar
from bickern.measure.finding import Finding
from bickern.measure.money import Money
from bickern.measure.units.words import FOOT, INCH, Shape
from bickern.paper.sheets.price_words import NOT_TOLD, amounts, guesses

EXAMPLES = Path(__file__).parents[3] / "examples"
SHOP = """\
shop: Bridge forge
units: in
currency: USD
rate: 45
prices:
  fuel: 4.50
  metal: 1.20 a lb
  fixed: 40
  each: 0.80
  waste: 10 %
  failed: 5 %
  finishing in minutes: 5
  margin: 20 %
  lighting in minutes: 15
  round to: 1
"""


def example(name: str, text: str = SHOP, folder: Path | None = None) -> Reckoning:
    """An example reckoned with that shop."""
    assert folder is not None
    path = folder / "shop.yaml"
    path.write_text(text)
    return reckon_file(EXAMPLES / f"{name}.yaml", path)


def priced_example(
    name: str, folder: Path, counts: tuple[int, ...] = (), text: str = SHOP, rack: Rack = NO_RACK
) -> Pricing:
    found = priced(example(name, text, folder), counts, rack)
    assert isinstance(found, Pricing)
    return found


def cent(amount: Fraction) -> Decimal:
    """To the cent, half up, by whole numbers."""
    cents = (amount * 200 + 1) // 2
    return Decimal(int(cents)) / 100


def test_the_s_hook_by_hand(tmp_path: Path):
    """Project 1: 4 13/16 in of 1/4 round to cut. All but its seconds is worked out here again, with fractions."""
    done = example("rail-s-hook", SHOP, tmp_path)
    (quote,) = priced_example("rail-s-hook", tmp_path, (1,)).quotes
    plan = planned(done).copy.plan
    assert plan is not None
    hot = sum(
        lot.seconds.value - sum(s.wants.value for s in one.spells if not s.hot)
        for one, lot in ((one, one.lot) for one in plan.pieces)
    )
    seconds = Fraction(str(round(plan.seconds.value, 3)))
    burning = Fraction(str(round(hot, 3))) + 900
    (bar,) = planned(done).copy.pieces
    assert bar.cut_this == pytest.approx((4 + 13 / 16) * INCH)
    # 4 13/16 in of 1/4 round: pi/4 x 1/16 x 4.8125 cubic inches, at 7850 kg/m3
    inches = Fraction("3.14159265358979") / 4 / 16 * Fraction("4.8125")
    pounds = inches * Fraction("0.0254") ** 3 * 7850 / Fraction("0.45359237")
    metal = cent(pounds * Fraction("1.20") * Fraction("1.1"))
    fuel, work = cent(burning / 3600 * Fraction("4.5")), cent(seconds / 3600 * 45)
    again = cent(Fraction(metal + fuel + work + Decimal("3.75")) / 20)
    cost = metal + fuel + work + Decimal("3.75") + Decimal("0.80") + 40 + again
    margin = cent(Fraction(cost) / 5)
    by_hand = [metal, fuel, work, Decimal("3.75"), Decimal("0.80"), Decimal(40), again, margin]
    assert [line.cost.amount for line in quote.lines if line.cost is not None] == by_hand
    assert quote.cost.amount == cost
    assert quote.offer is not None
    assert quote.offer.each.amount == ceil(cost + margin)


def test_twenty_four_hooks_cost_less_each_than_one(tmp_path: Path):
    """Project 2: fixed costs are shared, several irons lie in the fire. Nobody learns here."""
    quotes = priced_example("leaf-coat-hook", tmp_path).quotes
    assert [quote.count for quote in quotes] == [1, 6, 24]
    each = [quote.offer.each.amount for quote in quotes if quote.offer is not None]
    assert each[0] > each[1] > each[2]
    for what in (Costs.FUEL, Costs.WORK, Costs.FIXED):
        a, b, c = (line.cost.amount / q.count for q in quotes if (line := q.line(what)) is not None and line.cost)
        assert a > b > c, what
    metal = [line.cost.amount / q.count for q in quotes if (line := q.line(Costs.METAL)) is not None and line.cost]
    assert max(metal) - min(metal) <= Decimal("0.02")  # the same metal each, but for a mark of the tape and a cent


def test_whoever_learns_asks_less_for_a_lot_and_no_less_for_one(tmp_path: Path):
    learns = SHOP + "  learning: 85 %\n"
    plain, quick = (priced_example("leaf-coat-hook", tmp_path, (1, 24), text).quotes for text in (SHOP, learns))
    assert plain[0] == quick[0]
    assert quick[1].cost.amount < plain[1].cost.amount
    work = [q[1].line(Costs.WORK) for q in (plain, quick)]
    assert work[1].seconds.value < work[0].seconds.value


@pytest.mark.parametrize("name", sorted(path.stem for path in EXAMPLES.glob("*.yaml")))
def test_every_example_has_a_price_or_says_what_lacks(name: str, tmp_path: Path):
    """Project 8, the lantern, among them. The price of more sets is never below that of fewer."""
    found = priced_example(name, tmp_path, (1, 6))
    one, six = found.quotes
    if one.offer is None or six.offer is None:
        assert found.stops
        assert one.lacks or one.without
        return
    assert six.offer.each.amount <= one.offer.each.amount
    assert six.offer.whole.amount >= one.offer.whole.amount
    assert one.low is not None
    assert one.high is not None
    assert one.low.amount <= one.offer.each.amount <= one.high.amount
    assert one.cost.amount > 40


def test_the_lantern_pays_for_all_its_metal(tmp_path: Path):
    """Project 8: what is charged is never less than the metal in the finished set."""
    found = priced_example("porch-lantern", tmp_path, (1, 12))
    for quote in found.quotes:
        line = quote.line(Costs.METAL)
        assert line is not None
        assert line.cost is not None
        mass = found.done.copy.mass * quote.count
        assert line.mass > mass
        assert line.cost.amount > Decimal(mass / 0.45359237) * Decimal("1.20")


def money_of(value: object) -> list[object]:
    """Every amount of money anywhere in a value."""
    if isinstance(value, Money):
        return [value.amount]
    if is_dataclass(value):
        return [one for f in fields(value) for one in money_of(getattr(value, f.name))]
    return [one for each in value for one in money_of(each)] if isinstance(value, tuple) else []


def test_no_amount_is_ever_a_float(tmp_path: Path):
    amounts = money_of(priced_example("porch-lantern", tmp_path, (1, 12)).quotes)
    assert len(amounts) > 30
    assert all(type(amount) is Decimal for amount in amounts)


@pytest.mark.parametrize(
    ("left_out", "lacks"),
    [
        ("rate: 45\n", ["the price of an hour of work is not told"]),
        ("  fuel: 4.50\n", ["the price of an hour of fire is not told"]),
        ("  metal: 1.20 a lb\n", ["the price of metal is not told"]),
        ("currency: USD\n", ["nor in which money"]),
    ],
)
def test_no_rate_in_the_shop_file_is_a_finding_and_the_rest_is_shown(left_out: str, lacks: list[str], tmp_path: Path):
    """One of the inputs that must end in a finding."""
    found = priced(example("rail-s-hook", SHOP.replace(left_out, ""), tmp_path), (1, 6), shop_file="shop.yaml")
    assert isinstance(found, Pricing)
    (finding,) = [f for f in found.findings if f.name == "no-rate"]
    assert finding.stops
    assert finding.where.file == "shop.yaml"
    assert all(says in finding.says for says in lacks)
    assert found.stops
    assert all(quote.offer is None and len(quote.lines) >= 5 for quote in found.quotes)
    line = found.quotes[0].line(Costs.WORK)
    assert line is not None
    assert line.seconds.value > 0


def test_a_job_without_any_shop_file_says_so():
    found = priced_file(EXAMPLES / "rail-s-hook.yaml", (1,))
    (finding,) = [f for f in found.findings if f.name == "no-rate"]
    assert "metal" in finding.says
    assert "fire" in finding.says
    assert "work" in finding.says
    assert "currency: USD" in finding.try_this


BRASS = "job: Plate\nunits: in\npieces:\n  plate: {bar: 1 x 1/4, steel: brass, metal: [{keep: 4}]}\n"


def test_brass_is_not_sold_as_iron(tmp_path: Path):
    path = tmp_path / "plate.yaml"
    path.write_text(BRASS)
    shop = tmp_path / "shop.yaml"
    shop.write_text(SHOP)
    (finding,) = [f for f in priced_file(path, (1,), shop).findings if f.name == "no-rate"]
    assert "the price of brass" in finding.says
    shop.write_text(SHOP + "  metals: {brass: 10 a lb}\n")
    assert not [f for f in priced_file(path, (1,), shop).findings if f.name == "no-rate"]


REFUSED = """\
job: Hood
units: in
pieces:
  bar: {bar: 1/2 sq, metal: [{keep: 3}, {to: 1/4 sq, over: 2}]}
  old: {bar: 1/2 sq, coating: galvanised, metal: [{keep: 3}, {to: 1/4 sq, over: 2}]}
"""


def test_a_piece_that_may_not_be_heated_has_no_price(tmp_path: Path):
    path, shop = tmp_path / "job.yaml", tmp_path / "shop.yaml"
    path.write_text(REFUSED)
    shop.write_text(SHOP)
    found = priced_file(path, (1,), shop)
    assert found.stops
    assert all(quote.offer is None for quote in found.quotes)
    assert "no-work-no-price" in {f.name for f in found.findings}


def test_nothing_to_price_is_a_finding():
    done = reckon_text("job: x\nunits: in\npieces: {}\n", "x.yaml")
    found = priced(done)
    assert isinstance(found, Finding)
    assert found.name == "nothing-to-price"


def bar(name: str, price: str | None, **more: object) -> StockBar:
    section = Section(Shape.ROUND, INCH / 4, INCH / 4)
    money = None if price is None else Money(Decimal(price), "USD")
    return StockBar(name, section, 12 * FOOT, "mild", "none", price=money, **more)


UNTOLD = SHOP.replace("  metal: 1.20 a lb\n", "")
"""The shop that tells no price of metal."""


def test_a_bar_in_the_rack_tells_what_the_next_one_costs_where_the_shop_does_not(tmp_path: Path):
    """The dearest that may be heated: 12 ft at 14.40 is 10 cents an inch, and 4 13/16 in with a tenth is 53 cents."""
    galvanised = replace(bar("B4", "99"), coating="galvanised")
    square = replace(bar("B5", "99"), section=Section(Shape.SQUARE, INCH / 4, INCH / 4))
    rack = Rack((bar("B1", "7.20"), bar("B2", "14.40"), bar("B3", None), galvanised, square))
    (quote,) = priced_example("rail-s-hook", tmp_path, (1,), UNTOLD, rack).quotes
    line = quote.line(Costs.METAL)
    assert line is not None
    assert line.cost == Money(Decimal("0.53"), "USD")
    assert line.prices == ("14.40 USD for 144 in (B2)",)
    told = priced_example("rail-s-hook", tmp_path, (1,), SHOP, rack).quotes
    assert told == priced_example("rail-s-hook", tmp_path, (1,), SHOP).quotes  # the shop's own price goes first


@pytest.mark.parametrize("text", [SHOP, UNTOLD], ids=["by the shop file", "by the rack"])
def test_the_same_bar_costs_the_same_to_buy_in_the_price_and_beside_other_stock(tmp_path: Path, text: str):
    """`bickern price` for one set, waste left out, and what `bickern stock` sets beside a heavier bar: one rule."""
    text = text.replace("waste: 10 %", "waste: 0 %")
    heavier = replace(bar("B9", None), section=Section(Shape.SQUARE, INCH / 2, INCH / 2))
    rack = Rack((bar("B1", "7.20"), bar("B2", "14.40"), heavier))
    (quote,) = priced_example("rail-s-hook", tmp_path, (1,), text, rack).quotes
    metal = quote.line(Costs.METAL)
    (found,) = ways(example("rail-s-hook", text, tmp_path), rack)
    beside = next(way.buy for way in found.ways if way.stock[0].id == "B9")
    assert metal is not None
    assert beside is not None
    assert beside.rounded() == metal.cost


def test_with_a_rack_an_open_bar_is_chosen_and_priced_and_another_file_is_a_finding(tmp_path: Path):
    job, shop, rack = tmp_path / "job.yaml", tmp_path / "shop.yaml", tmp_path / "rack.sqlite"
    job.write_text(
        "job: Peg\nunits: in\npieces:\n  peg: {bar: any, metal: [{from: 1/8 rd, to: 1/4 rd, over: 2}, {keep: 3}]}\n"
    )
    shop.write_text(UNTOLD)
    book = open_book(rack)
    assert not isinstance(book, Finding)
    assert not isinstance(add(book, [replace(bar("", "14.40"), id="")], "me"), Finding)
    book.close()
    found = priced_file(job, (1,), shop, rack, own=True)
    line = found.quotes[0].line(Costs.METAL)
    assert line is not None
    assert line.prices[0].startswith("14.40 USD for 144 in")
    assert found.quotes[0].offer is not None
    missing = priced_file(EXAMPLES / "rail-s-hook.yaml", (1,), shop, tmp_path / "none.sqlite")
    assert missing.stops
    assert missing.quotes


def test_what_the_day_book_has_taught_counts(tmp_path: Path):
    """A hand that is found to be twice as slow asks more, and the sheet says whose times they are."""
    done = example("leaf-coat-hook", SHOP, tmp_path)
    shop = done.copy.shop
    slow = reckon_job(done.job, replace(shop, hand=replace(shop.hand, slow=2.0)))
    one, two = (priced(each, (1,)) for each in (done, slow))
    assert isinstance(one, Pricing)
    assert isinstance(two, Pricing)
    assert two.quotes[0].line(Costs.WORK).cost.amount > one.quotes[0].line(Costs.WORK).cost.amount
    assert "day book" in " ".join(guesses(two.done.copy, two.quotes))
    assert "day book" not in " ".join(guesses(one.done.copy, one.quotes))


def test_free_scrap_is_charged_at_what_it_costs_to_replace(tmp_path: Path):
    """A bar that cost nothing has no price in the rack, or one of 0: the shop's own price of metal stands in."""
    for price in (None, "0"):
        free = priced_example("rail-s-hook", tmp_path, (1,), SHOP, Rack((bar("B1", price),))).quotes
        assert free == priced_example("rail-s-hook", tmp_path, (1,)).quotes


def test_counts_are_read_as_they_are_typed():
    assert counts_of("24, 1,6,6") == (1, 6, 24)
    assert counts_of("") == ()
    names = [found.name for text in ("0", "x", "1,2,3,4,5,6,7") if isinstance(found := counts_of(text), Finding)]
    assert len(names) == 3
    assert names[-1] == "too-many-counts"


def test_the_job_itself_is_left_as_it_was(tmp_path: Path):
    done = example("leaf-coat-hook", SHOP, tmp_path)
    found = priced(done, (1, 6))
    assert isinstance(found, Pricing)
    assert found.done.job == done.job
    assert found.done.copy.job.make == done.copy.job.make == 24


def test_no_other_packet_holds_a_price(tmp_path: Path):
    """The ordinary packet of a shop that tells its prices: neither class nor customer learns of them."""
    done = example("rail-s-hook", SHOP, tmp_path)
    for audience in ("class", "customer"):
        files = packet_of(done, "letter", audience)
        assert isinstance(files, dict)
        assert not {"price-sheet.pdf", "reckoning.json"} & set(files)
    assert '"quotes": []' in as_json(planned(done))


def test_the_price_is_one_whatever_the_job_says_to_make(tmp_path: Path):
    text = (EXAMPLES / "leaf-coat-hook.yaml").read_text()
    shop, _ = read_shop(SHOP, "shop.yaml")
    found: list[Quote] = []
    for make in (24, 3):
        path = tmp_path / f"hook{make}.yaml"
        path.write_text(text.replace("make: 24", f"make: {make}"))
        (tmp_path / "shop.yaml").write_text(SHOP)
        found.append(priced_file(path, (6,), tmp_path / "shop.yaml").quotes[0])
    assert found[0] == found[1]
    assert shop.currency == "USD"


def test_amounts_that_name_their_own_currency_are_no_prices_of_a_shop_that_names_none(tmp_path: Path):
    text = "shop: a\nunits: in\nrate: 45 USD\nprices: {fuel: 4 USD, metal: 1.20 USD a lb, fixed: 40 USD}\n"
    found = priced_example("rail-s-hook", tmp_path, (1,), text)
    assert {"currency-not-told", "no-rate"} <= {f.name for f in found.findings}
    assert found.quotes[0].offer is None


def test_rivets_are_not_left_out_where_only_the_bars_have_a_price(tmp_path: Path):
    """Bolt tongs: the reins are priced by their section, the rivet by nothing; it is not given away unsaid."""
    by_section = SHOP.replace("  metal: 1.20 a lb\n", "  bars: {5/8 sq: 1.2 a foot}\n")
    assert by_section != SHOP
    (quote,) = priced_example("bolt-tongs", tmp_path, (1,), by_section).quotes
    assert quote.lacks == ("the price of metal",)
    (quote,) = priced_example("bolt-tongs", tmp_path, (1,), by_section + "  metal: 1.20 a lb\n").quotes
    assert not quote.lacks
    assert quote.line(Costs.METAL).prices == ("1.2 a foot", "1.20 a lb")


def test_the_metal_of_all_sets_is_that_of_their_bars_and_their_rivets(tmp_path: Path):
    """Bolt tongs: two halves and a rivet in each pair; every set has its own."""
    for quote in priced_example("bolt-tongs", tmp_path, (1, 6)).quotes:
        done = example("bolt-tongs", SHOP, tmp_path)
        job = replace(done.copy.job, make=quote.count)
        copy = planned(replace(done, job=job, copy=replace(done.copy, job=job))).copy
        (half,), (joint,) = copy.pieces, copy.joints
        bars = half.cut_this * 2 * area(half.stock_section) * 7850
        assert joint.mass > 0.01
        line = quote.line(Costs.METAL)
        assert line.mass == pytest.approx(quote.count * (bars + joint.mass))
        assert line.cost.amount == cent(Fraction(line.mass) / Fraction("0.45359237") * Fraction("1.32"))


def test_wound_rings_pay_for_the_turn_that_is_lost_in_each_coil(tmp_path: Path):
    """Three rings of 1 in inside want four turns of 1/8 wire: 4 pi 1 1/8 in and a little, not three (exact)."""
    path, shop = tmp_path / "rings.yaml", tmp_path / "shop.yaml"
    path.write_text("job: Rings\nunits: in\npieces:\n  links: {ring: 1/8 rd, inside across: 1, wound: yes, make: 3}\n")
    shop.write_text(SHOP)
    for quote in priced_file(path, (1, 5), shop).quotes:
        inches = quote.line(Costs.METAL).mass / 7850 / (pi / 4 * (INCH / 8) ** 2) / INCH
        assert inches / quote.count == pytest.approx(4 * pi * 1.125, rel=0.02)


def test_every_pattern_of_a_sheet_piece_is_charged_by_the_box_round_it(tmp_path: Path):
    """The forge hood: two halves alike."""
    found = priced_example("forge-hood", tmp_path, (1, 3))
    (hood,) = found.done.copy.pieces
    (half,) = hood.patterns
    assert half.make == 2
    (left, low), (right, high) = bounds(half.outline)
    for quote in found.quotes:
        mass = 2 * quote.count * (right - left) * (high - low) * hood.spec.thick * 7850
        line = quote.line(Costs.METAL)
        assert line.mass == pytest.approx(mass)
        assert line.cost.amount == cent(Fraction(line.mass) / Fraction("0.45359237") * Fraction("1.20"))


def test_a_bar_that_is_priced_in_another_money_leaves_it_to_the_shops_own_price(tmp_path: Path):
    other = replace(bar("B1", None), price=Money(Decimal(99), "EUR"))
    found = priced_example("rail-s-hook", tmp_path, (1,), SHOP, Rack((other,))).quotes
    assert found == priced_example("rail-s-hook", tmp_path, (1,)).quotes


def test_no_sum_is_shown_as_the_cost_of_all_where_a_piece_lacks_its_time(tmp_path: Path):
    path, shop = tmp_path / "job.yaml", tmp_path / "shop.yaml"
    path.write_text(REFUSED)
    shop.write_text(SHOP)
    found = priced_file(path, (1,), shop)
    rows = dict(amounts(found.quotes, found.done.copy.shop))
    assert rows["work"] != NOT_TOLD
    assert rows["cost of all"] == rows["price of all"] == NOT_TOLD
