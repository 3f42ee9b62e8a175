"""When one is made before the rest: only where a figure is in doubt, and in words a smith would use."""

from dataclasses import replace

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.heats import trust
from bickern.making.shop import Shop
from bickern.parts.set.pieces import PieceResult, parts_in

HEAD = "job: Trial\nunits: in\npieces:\n  it:\n"
PLAIN = Shop()
BAR = HEAD + "    bar: 1/2 sq\n"


def piece(text: str) -> PieceResult:
    done = reckon_text(text, "trial.yaml")
    assert done.copy is not None
    assert done.copy.pieces, done.findings
    return done.copy.pieces[0]


def told(text: str, shop: Shop = PLAIN) -> str:
    it = piece(text)
    return trust.test_first(it, shop, parts_in(it))


TAPER = "    metal: [{keep: 9}, {to: 1/8 rd, over: 4}]\n"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (BAR + "    make: 6\n" + TAPER, "what the fire takes"),
        (BAR + "    make: 2\n    metal: [{keep: 9}, {as: 3/8 sq, over: 4}]\n", "how full the corners come out"),
        (BAR + "    make: 2\n    metal: [{keep: 9}]\n    twist: [{turns: 1, over: 6, at: 1}]\n", "in the twist"),
        (BAR + "    make: 2\n    metal: [{keep: 9}, {leaf: 3, width: 1, thick: 1/8}]\n", "how far the end spreads"),
        (HEAD + "    ring: 1/4 rd\n    inside across: 2\n    closed: welded\n    make: 2\n", "what the weld takes up"),
        (HEAD + "    sheet: 1/16\n    make: 2\n    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}\n", "the dish"),
    ],
)
def test_a_lot_that_leans_on_a_figure_nobody_measured_begins_with_one(text: str, words: str):
    assert words in told(text)
    assert told(text.replace("make: 2", "make: 1").replace("make: 6", "make: 1")) == ""


@pytest.mark.parametrize(
    "text",
    [
        BAR + "    make: 6\n    metal: [{keep: 9}]\n",
        HEAD + "    ring: 1/4 rd\n    inside across: 2\n    closed: butted\n    make: 40\n",
        HEAD + "    sheet: 1/16\n    make: 2\n    surface: {cone: {base: 8, top: 2, height: 4, sizes: mean}}\n",
    ],
)
def test_what_geometry_alone_decides_needs_no_test_piece(text: str):
    assert told(text) == ""


def test_a_shop_that_measured_its_own_figures_needs_no_test_piece():
    shop = Shop()
    own = replace(shop, bar=replace(shop.bar, scale_worked=(0.01, 0.015, 0.02), corner_fullness=0.95))
    lot = BAR + "    make: 6\n    metal: [{keep: 9}, {as: 3/8 sq, over: 4}]\n"
    assert told(lot)
    assert told(lot, own) == ""


def test_a_weld_in_steel_that_welds_with_care_is_tried_first_even_for_one():
    text = HEAD + "    ring: 1/4 rd\n    steel: 1045\n    inside across: 2\n    closed: welded\n"
    assert told(text) == trust.WELD_CARE
    assert told(text.replace("    steel: 1045\n", "")) == ""


def test_sets_of_one_are_a_lot_too():
    assert trust.test_first(piece(BAR + TAPER), PLAIN, make=24)
    assert trust.test_first(piece(BAR + TAPER), PLAIN, make=1) == ""


def test_doubts_are_listed_as_people_speak():
    said = told(BAR + "    make: 6\n    metal: [{keep: 9}, {as: 3/8 sq, over: 4}]\n")
    assert said.endswith("what the fire takes or how full the corners come out")
