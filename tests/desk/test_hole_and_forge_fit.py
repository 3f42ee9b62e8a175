"""What does not enter its hole, and what this forge cannot make."""

import pytest

from bickern.book.shopfile import read_shop
from bickern.desk.forge_fit import forge_findings
from bickern.desk.reckon import reckon_piece, reckon_text
from bickern.making.shop import Shop
from bickern.measure.finding import Weight

TWO = """\
job: Trial
units: in
pieces:
  strap:
    bar: 1 x 1/4
    metal: [{{keep: 6, name: all}}]
    holes: [{{size: {hole}, by: drill, at: 3, face: front, name: h}}]
joins:
  - {{{joint}, through: [strap.h], grip: 1/4}}
"""
LINE = 9


@pytest.mark.parametrize(
    ("hole", "joint", "name", "weight"),
    [
        ("1/4", "rivet: 5/16", "rivet-fills-hole", Weight.STOP),
        ("1/4", "pin: 5/16", "pin-fills-hole", Weight.STOP),
        ("1/4", "pin: 1/4", "pin-fills-hole", Weight.WARN),
        ("6 mm", "screw: M8", "screw-fills-hole", Weight.STOP),
        ("1/4", "tenon: 3/8", "tenon-fills-hole", Weight.STOP),
        # a hole not over 1/32 in bigger than a small rivet: a note on boiler rivets, read in the source
        ("1/4", "rivet: 3/16", "rivet-slack", Weight.WARN),
    ],
)
def test_what_fills_a_hole_or_is_slack_in_it(hole: str, joint: str, name: str, weight: Weight):
    found = reckon_text(TWO.format(hole=hole, joint=joint), "t.yaml").findings
    assert [(f.name, f.weight, f.where.line) for f in found if f.name.split("-")[0] in joint] == [(name, weight, LINE)]


@pytest.mark.parametrize(
    ("hole", "joint"),
    [("3/16", "rivet: 3/16"), ("7/32", "rivet: 3/16"), ("3/8", "tenon: 3/8"), ("6.6 mm", "screw: M6"),
     ("5/16", "pin: 1/4")],
)  # fmt: skip
def test_what_fits(hole: str, joint: str):
    assert reckon_text(TWO.format(hole=hole, joint=joint), "t.yaml").findings == ()


BAR = """\
job: Trial
units: in
pieces:
  bar:
    bar: {bar}
    metal: [{{keep: 6}}, {{to: 1/8 rd, over: 2}}]
    holes: [{{size: 1/4, by: slit and drift, at: 3, face: front, name: h}}]
"""


def shop(words: str) -> Shop:
    made, findings = read_shop(f"shop: Mine\nunits: in\n{words}\n", "shop.yaml")
    assert findings == ()
    return made


def lacks(words: str, bar: str = "3/4 sq") -> list[tuple[str, Weight, int]]:
    job = reckon_text(BAR.format(bar=bar), "t.yaml").job
    assert job is not None
    here = shop(words)
    piece = reckon_piece(job.pieces[0], here).value
    assert piece is not None
    return [(f.name, f.weight, f.where.line) for f in forge_findings(piece, here)]


def test_what_the_shop_does_not_tell_is_not_asked_for():
    assert lacks("") == []


def test_a_bar_that_does_not_enter_the_fire_stops():
    assert lacks("fire: {opening: 1/2}") == [("too-big-for-fire", Weight.STOP, 5)]
    assert lacks("fire: {opening: 3/4}") == []


def test_tongs_and_drifts_of_another_size_are_told():
    assert lacks("tongs: [3/8, 1/2]") == [("no-tongs", Weight.WARN, 5)]
    assert lacks("tongs: [3/8, 3/4]") == []
    assert lacks("drifts: [5/16]") == [("no-drift", Weight.WARN, 7)]
    assert lacks("drifts: [1/4]") == []


def test_what_is_not_heated_needs_no_tongs():
    text = "job: T\nunits: in\npieces:\n  bar:\n    bar: 3/4 sq\n    metal: [{keep: 6}]\n"
    job = reckon_text(text, "t.yaml").job
    assert job is not None
    here = shop("tongs: [3/8]\nfire: {opening: 1/2}")
    piece = reckon_piece(job.pieces[0], here).value
    assert piece is not None
    assert forge_findings(piece, here) == ()
