"""What was reckoned, in words: both systems everywhere, cuts rounded up, nothing said twice."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from bickern.desk.beside import Beside, also_each, also_in_short
from bickern.desk.piece_rows import rows_of, said_spread
from bickern.desk.reckon import reckon_file, reckon_job, reckon_text
from bickern.desk.summary import BEFORE_HEATS, Summary, summary
from bickern.making.shop import Shop
from bickern.measure.spread import Spread
from bickern.measure.units.words import INCH, Style
from bickern.parts.sheet.result import SheetResult

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))


def told(path: Path) -> Summary:
    made = summary(reckon_file(path))
    assert made is not None
    return made


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_every_length_is_told_in_both_systems(path: Path):
    made = told(path)
    said = [value for _, rows in made.pieces for _, value in rows] + [cell for line in made.cut_list for cell in line]
    for text in said:
        assert bool(re.search(r"\d in\b", text)) == bool(re.search(r"\d mm\b", text)), text


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_no_row_stands_twice_and_none_is_empty(path: Path):
    for _, rows in told(path).pieces:
        assert len(rows) == len(set(rows))
        assert all(name and value for name, value in rows)


def inches(text: str) -> float:
    """`8 7/16 in (213 mm)` in inches."""
    found = re.match(r"(?:(\d+) )?(\d+)/(\d+) in|(\d+) in", text)
    assert found is not None
    whole, top, under, plain = found.groups()
    return float(plain) if plain else float(whole or 0) + float(top) / float(under)


def test_a_blank_is_never_cut_smaller_than_its_pattern():
    done = reckon_file(next(p for p in EXAMPLES if p.stem == "fire-set"))
    assert done.copy is not None
    pan = next(p for p in done.copy.pieces if isinstance(p, SheetResult))
    said = dict(rows_of(pan, done.copy.shop.style))["CUT BLANK"].split(" x ")
    for true, text in zip(pan.blank_cut, said, strict=True):
        assert true / INCH <= inches(text) < true / INCH + 1 / 16


def test_the_cut_list_counts_links_sets_and_halves():
    chain = {line[0]: line[1] for line in told(next(p for p in EXAMPLES if p.stem == "crane-chain")).cut_list}
    assert chain == {"links": "13", "top ring": "1", "hook": "1"}
    hooks = told(next(p for p in EXAMPLES if p.stem == "leaf-coat-hook"))
    assert hooks.cut_list[0][1] == "24"
    assert hooks.title.endswith("24 sets")
    assert told(next(p for p in EXAMPLES if p.stem == "forge-hood")).cut_list[0][1] == "2"


def test_what_a_tenon_takes_is_not_cut():
    made = told(next(p for p in EXAMPLES if p.stem == "fire-set"))
    rows = dict(next(rows for title, rows in made.pieces if title == "joint: tenon"))
    assert "CUT THIS" not in rows
    assert rows["past its shoulder"].startswith("7/8 in")  # grip 1/2 + 3/8 by the shop's rule


def test_a_cut_told_before_heats_are_counted_says_so_where_the_fire_takes_of_it():
    by_name = {path.stem: path for path in EXAMPLES}
    assert ("lengths to cut", BEFORE_HEATS) in told(by_name["rail-s-hook"]).together
    assert "lengths to cut" not in dict(told(by_name["forge-hood"]).together)  # sheet, cold
    job = reckon_file(by_name["rail-s-hook"]).job
    assert job is not None
    own = summary(reckon_job(job, replace(Shop(), bar=replace(Shop().bar, scale_worked=(0.01, 0.02, 0.03)))))
    assert own is not None
    assert "lengths to cut" not in dict(own.together)


def test_a_job_that_cannot_be_read_has_no_summary():
    assert summary(reckon_text("job: [", "bad.yaml")) is None


RULED = """
job: All that goes by a rule
units: in
pieces:
  hook:
    bar: 1/2 sq
    metal:
      - {keep: rest}
    path:
      - {eye: 1, name: eye}
      - {straight: 6}
    holes:
      - {size: 1/2, by: slit and drift, at: 9}
  tray:
    sheet: 18 US ga
    surface: {pan: {long: 8, wide: 5, high: 1, inside radius: 1/16, sizes: outside}}
    edges:
      - {wired: 1/8, on: walls}
"""


def test_every_rule_that_is_a_choice_has_a_row_of_its_own():
    done = reckon_text(RULED, "ruled.yaml")
    full = summary(done, every_rule=True)
    assert full is not None, done.findings
    rows = {
        title: {name.removeprefix("also: "): text for name, text in rows if name.startswith("also: ")}
        for title, rows in full.pieces
    }
    assert "length along the bar, eyes by 3 1/7 x the hole" in rows["hook"]
    assert {"left to right by middle", "wired walls edge by 2 wires + 4 sheets"} <= set(rows["tray"])
    # by hand: three quarters of 1/2; 2 x 1/8 + 4 x 0.0478
    assert rows["hook"]["slit for the hole by 3/4 of the opening"].startswith("3/8 in (.375)")
    assert rows["tray"]["wired walls edge by 2 wires + 4 sheets"].startswith("7/16 in (.441)")
    assert all("[" in text for also in rows.values() for text in also.values())


def test_rules_are_rounded_like_the_cut_and_finer_where_they_would_look_alike():
    also = (("far", 11.30 * INCH, "s"), ("same", 11.40 * INCH, "s"))
    told = dict(also_each(Beside(also, 11.40 * INCH, cut=True), Style()))
    assert told == {"also: far": "11 5/16 in (287.5 mm): s"}
    near = (("near", 11.42 * INCH, "s"), ("far", 11.30 * INCH, "s"))
    told = dict(also_each(Beside(near, 11.40 * INCH, cut=True), Style()))
    assert told["also: near"] == "11 27/64 in (11.420) / 290.1 mm: s"
    assert told["also: far"] == "11 19/64 in (11.300) / 287 mm: s"
    assert also_in_short(Beside(also, 11.40 * INCH, cut=True), Style()) == (("also: far", "11 5/16 in (287.5 mm)"),)
    (short,) = also_in_short(Beside(near, 11.40 * INCH, cut=True), Style())
    assert short == ("2 other rules say", "11 19/64 in (11.300) / 287 mm to 11 27/64 in (11.420) / 290.1 mm")


def test_what_the_fire_takes_is_not_rounded_away():
    text = said_spread(Spread(1.028 * INCH, 1.009 * INCH, 1.057 * INCH, ()), Style())
    assert text == "1 1/32 in (1.028) / 26.1 mm, between 1 1/64 in (1.009) / 25.6 mm and 1 1/16 in (1.057) / 26.8 mm"
