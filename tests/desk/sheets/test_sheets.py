"""The packet: what is refused, how many pages, what is written, and JSON."""

import json
from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_text
from bickern.desk.sheets.sheets import MOST_PAGES, as_json, many_pages, packet_of, pattern_page_count, write_packet
from bickern.measure.finding import Finding, Weight
from bickern.paper.pens.page import PAPERS

CONE = """\
job: Hood
units: mm
pieces:
  hood:
    sheet: 2 mm
    surface: {{cone: {{base: {base}, top: {top}, height: {height}, sizes: mean}}}}
"""


def cone(base: float, top: float, height: float) -> str:
    return CONE.format(base=base, top=top, height=height)


def test_unknown_paper_and_audience_are_findings():
    done = reckon_text(cone(200, 50, 100), "hood.yaml")
    for paper, audience, name in (("napkin", "shop", "unknown-paper"), ("letter", "king", "unknown-audience")):
        found = packet_of(done, paper, audience)
        assert isinstance(found, Finding)
        assert found.name == name


def test_a_job_that_cannot_be_read_is_not_printed():
    found = packet_of(reckon_text("job: [", "bad.yaml"), "letter", "shop")
    assert isinstance(found, Finding)
    assert found.name == "nothing-to-print"


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_hood_takes_no_fewer_pages_than_its_area_needs(paper: str):
    done = reckon_text(cone(1500, 500, 750), "hood.yaml")
    page = PAPERS[paper]
    # slant of the frustum sqrt(500^2 + 750^2) = 901.4 mm; its skin pi x (750 + 250) x 901.4 = 2.832 m2, exact
    least = 2.832 / (page.width * page.height)
    pages = pattern_page_count(done, page)
    assert pages >= least
    found = many_pages(done, paper)
    assert pages > MOST_PAGES
    assert [(f.name, f.weight) for f in found] == [("many-pages", Weight.WARN)]
    assert str(pages) in found[0].says


def test_a_small_hood_brings_no_warning():
    done = reckon_text(cone(200, 50, 100), "hood.yaml")
    assert 0 < pattern_page_count(done, PAPERS["letter"]) <= MOST_PAGES
    assert many_pages(done, "letter") == ()


def test_a_slip_of_the_unit_does_not_print_for_hours():
    found = packet_of(reckon_text(cone(20_000, 5_000, 10_000), "hood.yaml"), "letter", "shop")
    assert isinstance(found, Finding)
    assert found.name == "too-many-pages"
    assert found.stops


def test_a_packet_is_written_whole_and_leaves_nothing_half_done(tmp_path: Path):
    files = {"a.txt": b"one", "patterns/b.dxf": b"two"}
    written = write_packet(files, tmp_path / "out")
    assert {p.relative_to(tmp_path / "out").as_posix(): p.read_bytes() for p in written} == files
    assert not list(tmp_path.rglob("*.part"))
    write_packet({"a.txt": b"new"}, tmp_path / "out")
    assert (tmp_path / "out" / "a.txt").read_bytes() == b"new"


def test_json_holds_every_piece_and_is_the_file_of_the_packet():
    done = reckon_text(cone(200, 50, 100), "hood.yaml")
    text = as_json(done)
    told = json.loads(text)
    assert [p["spec"]["name"] for p in told["pieces"]] == ["hood"]
    files = packet_of(done, "letter", "shop")
    assert isinstance(files, dict)
    assert files["reckoning.json"].decode() == text


def test_json_of_a_job_that_cannot_be_read_holds_its_findings_in_the_same_form():
    told = json.loads(as_json(reckon_text("job: [", "bad.yaml")))
    assert "pieces" not in told
    assert told["findings"][0]["where"]["file"] == "bad.yaml"
    good = json.loads(as_json(reckon_text(cone(200, 50, 100) + "use: [foods]\n", "hood.yaml")))
    assert told["schema"] == good["schema"]
    assert told["findings"][0].keys() == good["findings"][0].keys()
