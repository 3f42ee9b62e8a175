"""A job in, everything reckoned out: order, masses, shop file, uses."""

from pathlib import Path

import pytest

from bickern.desk.reckon import mass_of, reckon_file, reckon_text
from bickern.measure.units.words import INCH

CHAIN = """\
job: Chain
units: in
make: 3
pieces:
  links:
    ring: 1/4 rd
    inside across: 1/2
    inside long: 1
    closed: welded
    chain: {links: 5}
"""
BAR = "job: Bar\nunits: in\npieces:\n  bar:\n    bar: 1/2 sq\n    metal: [{keep: 10}]\n"


def test_a_chain_weighs_as_much_as_its_links():
    done = reckon_text(CHAIN, "chain.yaml")
    assert done.copy is not None
    piece = done.copy.pieces[0]
    assert mass_of(piece) == pytest.approx(5 * piece.mass)
    assert done.copy.mass == pytest.approx(5 * piece.mass)  # of one set, not of three


def test_a_bar_weighs_what_its_volume_does():
    done = reckon_text(BAR, "bar.yaml")
    assert done.copy is not None
    # 1/2 sq x 10 in of steel at 7850 kg/m3 (EN 1993-1-2, 3.2.2)
    assert done.copy.mass == pytest.approx(0.5 * 0.5 * 10 * INCH**3 * 7850)


def test_findings_come_in_the_order_of_the_file():
    text = BAR + "  next:\n    bar: 10 rd\n    metal: [{keep: 3}]\n  last:\n    bar: 3.8 rd\n    metal: [{keep: 0}]\n"
    lines = [f.where.line for f in reckon_text(text, "bad.yaml").findings]
    assert len(lines) >= 3
    assert lines == sorted(lines)


def test_a_fault_is_told_once():
    text = BAR.replace("{keep: 10}", "{keep: -1}")
    found = reckon_text(text, "bad.yaml").findings
    assert len(found) == len(set(found))


def test_one_bad_piece_does_not_hide_the_good_one():
    done = reckon_text(BAR + "  bad:\n    bar: pudding\n    metal: [{keep: 3}]\n", "two.yaml")
    assert done.stops
    assert done.copy is not None
    assert [p.spec.name for p in done.copy.pieces] == ["bar"]


def test_a_use_without_a_caution_is_told():
    found = reckon_text(BAR.replace("units: in", "units: in\nuse: [foods]"), "bar.yaml").findings
    assert [f.name for f in found] == ["unknown-use"]
    assert "food" in found[0].try_this
    assert not reckon_text(BAR.replace("units: in", "units: in\nuse: [food]"), "bar.yaml").findings


def test_the_shop_file_that_a_job_names_lies_beside_it(tmp_path: Path):
    (tmp_path / "shop.yaml").write_text("shop: Mine\nbars: {scale kept: [1 %, 2 %, 3 %]}\n")
    (tmp_path / "bar.yaml").write_text(BAR.replace("units: in", "units: in\nshop: shop.yaml"))
    with_shop = reckon_file(tmp_path / "bar.yaml").copy
    (tmp_path / "plain.yaml").write_text(BAR)
    without = reckon_file(tmp_path / "plain.yaml").copy
    assert with_shop is not None
    assert without is not None
    assert with_shop.shop.name == "Mine"
    # a bar left as it comes loses no length unless the shop file says so
    assert with_shop.pieces[0].stock.value > 10.1 * INCH
    assert without.pieces[0].stock.value == pytest.approx(10 * INCH)


def test_a_shop_file_that_is_not_there_is_a_finding(tmp_path: Path):
    (tmp_path / "bar.yaml").write_text(BAR.replace("units: in", "units: in\nshop: none.yaml"))
    done = reckon_file(tmp_path / "bar.yaml")
    assert "no-file" in {f.name for f in done.findings}
    assert done.stops


def test_what_no_print_confirms_is_said_only_of_what_is_there():
    bars = reckon_text(BAR, "bar.yaml").copy
    surface = "    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}\n"
    sheet = "job: Pan\nunits: in\npieces:\n  pan:\n    sheet: 1/16\n" + surface
    pans = reckon_text(sheet, "pan.yaml").copy
    assert bars is not None
    assert pans is not None
    assert len(bars.not_validated) == 2
    assert pans.not_validated == ()


def test_a_file_of_a_hundred_megabytes_is_refused_unread(tmp_path: Path):
    big = tmp_path / "big.yaml"
    with big.open("wb") as file:
        file.truncate(100_000_000)
    assert [f.name for f in reckon_file(big).findings] == ["too-large"]


def test_a_job_cannot_have_any_file_read_as_its_shop_file(tmp_path: Path):
    (tmp_path / "bar.yaml").write_text(BAR.replace("units: in", "units: in\nshop: ../../etc/passwd"))
    done = reckon_file(tmp_path / "bar.yaml")
    assert "not-a-shop-file" in {f.name for f in done.findings if f.stops}
