"""The part of a sheet on fit, swing and hang, with results filled by hand: apart from how they are found."""

import io
import json
import math
from dataclasses import replace

import numpy as np
import pdfplumber
import pytest

from bickern.geometry.pose import HERE
from bickern.geometry.solid.solid import Named, Solid
from bickern.measure.units.words import INCH
from bickern.paper import export
from bickern.paper.packet import packet
from bickern.paper.pens.page import LETTER, compile_pdf
from bickern.paper.sheets.lesson import class_sheet
from bickern.paper.sheets.shop import shop_sheet
from bickern.paper.sheets.together import hangs_from
from bickern.parts.fit.result import FitResult, FitRow, FitWord, Swing
from bickern.parts.hang.result import Change, HangResult, Tilt, Touch
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.set.result import Body, Held, Link, Part, Seat, SetResult, Spot, SpotKind

JOINT = JointSpec(JointKind.RING, ("arm.hole", "links 2"), ring="links 1")
FROM = (0.0, 0.0, 0.1)


def block(name, size, at=(0.0, 0.0, 0.0)):
    corners = np.array([(x, y, z) for z in (0, 1) for x, y in ((0, 0), (1, 0), (1, 1), (0, 1))], float)
    sides = ((0, 3, 2, 1), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7))
    faces = [corner for a, b, c, d in sides for corner in ((a, b, c), (a, c, d))]
    return Named(name, Solid(corners * size + at, np.array(faces, np.int32)))


def seat(name):
    row = np.array([(0.0, 0.0, 0.0), (0.01, 0.0, 0.0)])
    return Seat(name, row, row, row, np.zeros((2, 2)))


def the_set(copy):
    spot = Spot("hole", SpotKind.OPENING, HERE, 0.01, 0.005, seat("hole"))
    arm, links = copy.pieces[0], copy.pieces[2]
    parts = (Part("arm", arm, 0, HERE, 0.4, (0.1, 0.0, 0.0)), Part("links 1", links, 1, HERE, 0.02, (0.0, 0.0, 0.0)))
    bodies = (Body("arm", (0,), 0.4, (0.1, 0.0, 0.0)), Body("links 1", (1,), 0.02, (0.0, 0.0, 0.0)))
    link = Link(0, 1, (0, 1), (seat("hole"), seat("links 1")), (spot, spot), JOINT)
    return SetResult(parts, bodies, (link,), (), Held(0, 0, spot, "wall"))


def hang():
    tilt = Tilt(0, "arm, bottom", "level", math.radians(0.7), "left end low", math.radians(-1), math.radians(2))
    touch = Touch(0, 1, FROM, "hole", "links 1")
    change = Change("one ring more", (replace(tilt, angle=0.0),), 0.02)
    return HangResult((HERE, HERE), (touch,), (tilt,), (change,), 0.5, 0.15, ("The wall is plumb.",))


@pytest.fixture
def hung(lantern):
    row = FitRow(
        JOINT, "links 1 through arm.hole", "the hole", FitWord.BINDS, 0.01, 0.0102, 0.0002, "9/16 drift: swings"
    )
    fit = FitResult((row,), ("Punch the hole first.", "Thread links 1, then close it."))
    axis = ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    swing = Swing("links 1", "to and fro", *axis, math.radians(-70), math.radians(70), "arm", "arm", 0.002, "hood")
    solids = (block("arm", (0.25, 0.02, 0.03)), block("links 1", (0.02, 0.005, 0.03), (0.1, 0.0, -0.03)))
    made = (block("arm", (0.25, 0.02, 0.03)), block("hood <1>", (0.1, 0.1, 0.1)))
    new = {
        "fit": fit,
        "set": the_set(lantern),
        "swings": (swing,),
        "hang": hang(),
        "solids": solids,
        "shown": (solids,),
        "made": made,
    }
    return replace(lantern, **new)


def text_of(write, copy):
    source, files = write(copy, LETTER)
    with pdfplumber.open(io.BytesIO(compile_pdf(source, files, 0))) as book:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in book.pages)


@pytest.mark.parametrize("write", [shop_sheet, class_sheet])
def test_the_sheet_tells_fit_swing_and_hang(hung, write):
    text = text_of(write, hung)
    for says in (
        "Fit and swing",
        "links 1 through arm.hole: the hole",
        "will bind",
        "9/16 drift: swings",
        "Punch the hole first.",
        "70° either way until it meets the arm",
        "How it hangs",
        "tips 0.7° off level: left end low;",
        "one ring more: arm, bottom lies level",
        "The wall is plumb.",
        "to measure",
    ):
        assert says in text, says


def test_a_copy_that_is_not_put_together_has_none_of_it(lantern):
    text = text_of(shop_sheet, lantern)
    assert "Fit and swing" not in text
    assert "How it hangs" not in text


def test_a_set_that_stands_is_put_together_and_has_no_plumb_line(hung):
    text = text_of(shop_sheet, replace(hung, hang=None, swings=()))
    assert "Put together" in text
    assert "plumb line" not in text


def test_the_plumb_line_starts_where_it_is_held_from_above(hung):
    assert hangs_from(hung) == FROM
    above = replace(hung.hang, touches=(*hung.hang.touches, Touch(-1, 0, (0.2, 0.0, 0.3), "", "arm")))
    assert hangs_from(replace(hung, hang=above)) == (0.2, 0.0, 0.3)
    assert hangs_from(replace(hung, hang=replace(hung.hang, touches=()))) == (0.0, 0.0, 0.0)
    assert hangs_from(replace(hung, hang=None)) is None


def test_the_json_tells_it_all_but_the_shapes_of_places(hung):
    data = json.loads(export.reckoning(hung))
    assert data["fit"]["rows"][0]["word"] == "will bind"
    assert data["fit"]["rows"][0]["margin_m"] == pytest.approx(0.0002)
    assert data["fit"]["order"][0] == "Punch the hole first."
    assert data["swings"][0]["low_rad"] == pytest.approx(math.radians(-70))
    assert data["hang"]["tilts"][0]["angle_said"] == "0.7°"
    assert data["hang"]["touches"][0]["point_m"] == list(FROM)
    assert data["set"]["parts"][1]["piece"] == "links"
    assert data["set"]["links"][0]["spots"][0]["name"] == "hole"
    assert "seat" not in data["set"]["links"][0]["spots"][0]
    assert "seats" not in data["set"]["links"][0]
    assert "solids" not in data
    assert "shown" not in data
    assert "made" not in data


def test_sizes_that_were_tried_are_told_with_their_words(hung):
    row = replace(hung.fit.rows[0], sizes=((9 / 16 * INCH, "swings"),))
    data = json.loads(export.reckoning(replace(hung, fit=FitResult((row,)))))
    told = data["fit"]["rows"][0]["sizes"]
    assert told == [{"size_m": pytest.approx(0.0142875), "size_said": "9/16 in (.563) / 14.3 mm", "does": "swings"}]


def test_the_packet_holds_the_set_and_each_piece_as_solids(hung):
    files = packet(hung, LETTER, "shop")
    ends = sorted(name for name in files if name.endswith((".glb", ".3mf")))
    assert ends == ["set.3mf", "set.glb", "solids/arm.3mf", "solids/arm.glb", "solids/hood-1.3mf", "solids/hood-1.glb"]
    assert all(files[name] for name in ends)


def test_each_lot_has_its_own_figure_and_says_what_it_is(hung):
    """Two lots that are joined to nothing: each is drawn by itself, under the names of its pieces."""
    copy = replace(hung, hang=None, swings=(), shown=(hung.solids[:1], hung.solids[1:]))
    text = text_of(shop_sheet, copy)
    assert text.count("Put together") == 2
    assert "Put together arm" in text
    assert "Put together links" in text


def test_what_is_not_shown_has_no_figure_but_is_in_the_files(hung):
    copy = replace(hung, hang=None, swings=(), shown=())
    assert "Put together" not in text_of(shop_sheet, copy)
    assert "set.glb" in packet(copy, LETTER, "shop")


def test_a_customer_gets_no_solids(hung):
    assert set(packet(hung, LETTER, "customer")) == {"customer-sheet.pdf"}


def test_a_set_of_one_part_is_not_written_twice(hung):
    files = packet(replace(hung, solids=hung.solids[:1]), LETTER, "shop")
    assert "set.glb" not in files
