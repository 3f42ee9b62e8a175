"""What was reckoned, in words: both systems everywhere, cuts rounded up, nothing said twice."""

import re
from pathlib import Path

import pytest

from bickern.desk.piece_rows import rows_of
from bickern.desk.reckon import reckon_file, reckon_text
from bickern.desk.summary import Summary, summary
from bickern.measure.units.words import INCH
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


def test_a_job_that_cannot_be_read_has_no_summary():
    assert summary(reckon_text("job: [", "bad.yaml")) is None
