"""The rack and the shop that come with the examples: what the demo tells of the lantern must be whole."""

from pathlib import Path

from bickern.desk.cut.cut import cut_plan
from bickern.desk.price.price import priced_file
from bickern.desk.rack.rack import import_list, keeper, rack_at
from bickern.making.stock.fire import may_be_heated, never_heated
from bickern.making.stock.rack import StockBar, StockSheet

EXAMPLES = Path(__file__).parents[2] / "examples"
LANTERN, SHOP, LIST = EXAMPLES / "porch-lantern.yaml", EXAMPLES / "shop" / "bridge-forge.yaml", EXAMPLES / "rack.csv"


def test_the_lantern_is_cut_from_the_demo_rack_and_priced(tmp_path: Path):
    place = tmp_path / "rack.sqlite"
    done = import_list(keeper(place, SHOP), LIST)
    assert not done.stops, done.findings
    plan = cut_plan([LANTERN], place, SHOP)
    assert plan.copy is not None
    assert not plan.stops
    assert not any(one.lacks for one in (*plan.copy.bars, *plan.copy.sheets))
    price = priced_file(LANTERN, (), SHOP, place)
    assert not price.stops, price.findings
    assert [quote.count for quote in price.quotes] == [1, 6, 24]


def test_the_demo_rack_shows_what_no_plan_heats(tmp_path: Path):
    place = tmp_path / "rack.sqlite"
    import_list(keeper(place, SHOP), LIST)
    rack, _ = rack_at(place)
    pieces: list[StockBar | StockSheet] = [*rack.bars, *rack.sheets]
    assert any(never_heated(piece) for piece in pieces)
    assert any(may_be_heated(piece) is not None and not never_heated(piece) for piece in pieces)
    plan = cut_plan([LANTERN], place, SHOP)
    used = {use.id for use in plan.taking.uses}
    assert not used & {piece.id for piece in pieces if may_be_heated(piece) is not None}
