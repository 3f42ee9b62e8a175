"""A ring in the hole that it is put through, from the job's text: project 3's own figures (exact mathematics).

Hole = wire + R - sqrt(R^2 - (plate/2)^2) for a 1/2 rd ring of 3 1/2 inside across through 5/8 of metal: 0.528 in.
"""

import pytest

from bickern.desk.reckon import Reckoning, reckon_text
from bickern.measure.finding import Finding, Weight

JOB = """\
job: Pull
units: in
pieces:
  ring:
    ring: {wire}
    inside across: {inside}
    closed: welded
  boss:
    bar: 3/4 sq
    metal:
      - {{as: 3/4 x 5/8, over: 1, name: eye}}
      - {{keep: 1 1/2, name: tail}}
    holes:
      - {{size: {hole}, by: slit and drift, at: middle of eye, face: {face}, name: hole}}
joins:
  - {{ring: ring, through: [boss.hole]}}
"""
LINE = 16


def pull(hole: str, wire: str = "1/2 rd", inside: str = "3 1/2", face: str = "front") -> Reckoning:
    return reckon_text(JOB.format(hole=hole, wire=wire, inside=inside, face=face), "pull.yaml")


def of_ring(job: Reckoning) -> list[Finding]:
    return [f for f in job.findings if f.name.startswith("ring-")]


def test_a_half_inch_hole_is_filled_by_the_half_inch_ring():
    found = of_ring(pull("1/2"))
    assert [(f.name, f.weight, f.where.line) for f in found] == [("ring-fills-hole", Weight.STOP, LINE)]


def test_a_hole_of_33_64_is_bigger_than_the_wire_and_still_jams_on_the_curve():
    found = of_ring(pull("33/64"))
    assert [(f.name, f.weight) for f in found] == [("ring-jams", Weight.STOP)]
    assert ".528" in found[0].says


def test_17_32_just_clears_by_three_thousandths():
    found = of_ring(pull("17/32"))
    assert [(f.name, f.weight) for f in found] == [("ring-just-clears", Weight.WARN)]
    assert ".003" in found[0].says


def test_9_16_swings():
    assert of_ring(pull("9/16")) == []


@pytest.mark.parametrize(("face", "names"), [("front", []), ("left", ["ring-just-clears"])])
def test_the_metal_is_as_thick_as_the_way_the_hole_goes(face: str, names: list[str]):
    # from the front the hole goes through 5/8, from the side through 3/4; with 3 inside: 1/2 + 1.5 - sqrt(1.5^2 - ...)
    # = 0.533 and 0.548; a hole of 0.5645 leaves 0.0315 (over 1/32, swings) and 0.0165 (just clears)
    assert [f.name for f in of_ring(pull("0.5645", inside="3", face=face))] == names


def test_a_ring_smaller_than_the_metal_is_thick_cannot_go_round_it():
    found = of_ring(pull("1/2", wire="1/8 rd", inside="5/8"))
    assert [f.name for f in found] == ["ring-too-small-for-plate"]


LINKS = """\
job: Links
units: in
pieces:
  big:
    ring: 1/2 rd
    inside across: {big}
    closed: butted
  small:
    ring: 1/4 rd
    inside across: 3/8
    closed: butted
    make: 2
joins:
  - {{ring: big, through: [small 2]}}
"""


def test_a_link_too_thick_for_its_neighbour_is_found_by_the_name_of_one_of_several():
    job = reckon_text(LINKS.format(big=2), "links.yaml")
    assert [(f.name, f.where.line) for f in of_ring(job)] == [("ring-fills-hole", 14)]
