"""The desk puts a set together only where it is asked for, and only where nothing stops the job."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from bickern.desk.reckon import Reckoning, reckon_file, reckon_text
from bickern.desk.sheets.sheets import packet_of
from bickern.desk.whole.assemble import FIT_UNPROVED, HANG_UNPROVED, for_packet, hung, put_together, wrong_hold
from bickern.measure.units.words import INCH

EXAMPLES = Path(__file__).parents[3] / "examples"


@cache
def reckoned(name: str) -> Reckoning:
    return reckon_file(EXAMPLES / f"{name}.yaml")


@cache
def together(name: str) -> Reckoning:
    return put_together(reckoned(name))


def size_of(name: str) -> np.ndarray:
    copy = together(name).copy
    assert copy is not None
    points = np.vstack([one.solid.points for one in copy.solids])
    return (points.max(axis=0) - points.min(axis=0)) / INCH


def test_a_plain_reckoning_has_fit_and_no_set():
    copy = reckoned("ring-pull").copy
    assert copy is not None
    assert copy.fit.rows
    assert (copy.set, copy.hang, copy.swings, copy.solids, copy.made) == (None, None, (), (), ())


def test_a_set_that_hangs_has_a_solid_for_each_part_that_hangs():
    copy = together("dinner-triangle").copy
    assert copy is not None
    assert copy.set is not None
    assert [one.name for one in copy.solids] == ["triangle"]  # the striker hangs on nothing
    assert {part.name for part in copy.set.parts} == {"triangle", "striker"}


def test_the_triangle_hangs_upright():
    """Three sides of 10 in with round corners: between 8 and 9 in high, half an inch of bar thick."""
    long, thick, high = size_of("dinner-triangle")
    assert long == pytest.approx(10, abs=0.5)
    assert 8 < high < 9
    assert thick == pytest.approx(0.5, abs=0.01)


def test_a_set_that_stands_is_put_together_without_hanging():
    """The trivet: a band 7 in inside of 1/4 stock on legs 1 1/2 high."""
    copy = together("trivet").copy
    assert copy is not None
    assert copy.hang is None
    assert [one.name for one in copy.solids] == ["hoop", "leg 1", "leg 2", "leg 3", "rivet 1", "rivet 2", "rivet 3"]
    assert max(size_of("trivet")) == pytest.approx(7.5, abs=0.75)


def test_what_no_print_confirms_is_told():
    copy, plain = together("dinner-triangle").copy, reckoned("dinner-triangle").copy
    assert copy is not None
    assert plain is not None
    assert set(copy.not_validated) - set(plain.not_validated) == {HANG_UNPROVED}
    pull = together("ring-pull").copy
    assert pull is not None
    assert FIT_UNPROVED in pull.not_validated


def test_findings_of_the_set_stand_among_the_others_in_order():
    done = together("ladle")
    assert done.copy is not None
    assert done.findings == done.copy.findings
    lines = [one.where.line for one in done.findings]
    assert lines == sorted(lines)
    assert set(reckoned("ladle").findings) <= set(done.findings)


def test_a_job_that_stops_stays_as_it_was():
    bad = reckon_text(
        "job: Bad\nunits: in\npieces:\n  a:\n    bar: 3.8 rd\nhang: {from: a.start, on: hook}\n", "bad.yaml"
    )
    assert bad.stops
    assert put_together(bad) is bad
    assert hung(bad) is bad
    assert for_packet(bad, "shop") is bad


def test_a_job_with_neither_joints_nor_hold_has_no_set_but_its_pieces_as_solids():
    done = for_packet(reckoned("forge-hood"), "shop")
    assert done.copy is not None
    assert done.copy.set is None
    assert [one.name for one in done.copy.made] == ["hood"]


def test_a_customers_packet_is_not_put_together():
    assert for_packet(reckoned("dinner-triangle"), "customer") is reckoned("dinner-triangle")


def test_a_packet_has_the_solids_under_plain_names():
    done = for_packet(reckoned("trivet"), "shop")
    files = packet_of(done, "letter", "shop")
    assert isinstance(files, dict)
    assert {"set.glb", "set.3mf", "solids/hoop.glb", "solids/hoop.3mf", "solids/leg.glb", "solids/leg.3mf"} <= set(
        files
    )


def test_held_at_an_angle_is_held_in_the_hand_whatever_the_job_says():
    level, raised = (hung(reckoned("ladle"), angle).copy for angle in (0.0, 30.0))
    assert level is not None
    assert raised is not None
    assert level.set is not None
    assert level.set.held is not None
    assert level.set.held.on == "hand"
    assert level.hang != raised.hang


@pytest.mark.parametrize("angle", [-91.0, 90.5, float("nan"), float("inf")])
def test_an_angle_beyond_upright_is_refused(angle: float):
    found = wrong_hold(angle)
    assert found is not None
    assert found.name == "held-beyond-upright"


@pytest.mark.parametrize("angle", [None, -90.0, 0.0, 90.0])
def test_an_angle_that_can_be_held_is_not(angle: float | None):
    assert wrong_hold(angle) is None


def test_a_set_weighs_what_its_pieces_and_joints_weigh():
    copy = together("trivet").copy
    assert copy is not None
    assert copy.set is not None
    assert sum(body.mass for body in copy.set.bodies) == pytest.approx(copy.mass, rel=0.02)


def test_a_chain_longer_than_any_that_hangs_is_not_put_together_and_says_so():
    links = "{ring: 1/4 rd, inside across: 1/2, inside long: 1, chain: {links: 700}}"
    pieces = f"pieces:\n  links: {links}\n  top: {{ring: 3/8 rd, inside across: 2}}\n"
    joins = "joins:\n  - {ring: links 1, through: [top]}\nhang: {from: top, on: nail}\n"
    text = f"job: Long\nunits: in\n{pieces}{joins}"
    done = put_together(reckon_text(text, "long.yaml"))
    assert "set-too-large" in {f.name for f in done.findings}
    assert done.copy is not None
    assert done.copy.set is None
