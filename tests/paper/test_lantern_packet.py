"""The lantern's own packet, as a smith would get it, measured with a rule laid on the printed pages.

The hood is a frustum of mean diameters 8 and 1 1/2 in, 4 in high. Exact mathematics: the slant is the hypotenuse of
4 in and half the difference of the diameters, sqrt(4^2 + 3.25^2) = 5.154 in; by similar triangles the pattern is a
sector from r = 5.154 x 0.75 / 3.25 = 1.189 in to R = 5.154 x 4 / 3.25 = 6.343 in.
"""

import io
import math
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pdfplumber
import pytest

from bickern.desk.reckon import reckon_file
from bickern.measure.units.words import INCH
from bickern.paper.packet import packet
from bickern.paper.pens.page import A4, LETTER, compile_pdf
from bickern.paper.sheets import wording
from bickern.paper.sheets.shop import shop_sheet

POINT = 25.4 / 72 / 1000
"""Metres in a PDF point (ISO 32000-1:2008, 8.3.2.3) [from memory]."""
EXACT = 0.00005
"""What a page may be out by [m]."""
EXAMPLES = Path(__file__).parents[2] / "examples"
PAPERS = pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
SLANT = math.hypot(4.0, 3.25) * INCH
RADII = {"outer": SLANT * 4 / 3.25, "inner": SLANT * 0.75 / 3.25}


@cache
def files(paper):
    copy = reckon_file(EXAMPLES / "porch-lantern.yaml").copy
    assert copy is not None
    return packet(copy, paper, "shop")


def book(data):
    return pdfplumber.open(io.BytesIO(data)).pages


def bezier(points, t):
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return tuple(sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1))


def arcs(page):
    """Runs of points [m] along the cubic curves of a page's heavy lines, a run for each unbroken row of curves."""
    for curve in page.curves:
        if abs(curve["linewidth"] * POINT - 0.0006) > 1e-5:
            continue
        here, run = None, []
        for step in curve["path"]:
            points = [(x * POINT, y * POINT) for x, y in step[1:]]
            if step[0] == "c":
                run += [bezier((here, *points), t / 10) for t in range(11)]
            elif run:
                yield run
                run = []
            here = points[-1] if points else here
        if run:
            yield run


def circle_through(points):
    """Radius of the circle that fits points best (least squares), and how far the worst point lies off it [m]."""
    xy = np.array(points)
    middle = xy.mean(axis=0)
    x, y = (xy - middle).T
    (a, b, c), *_ = np.linalg.lstsq(np.column_stack([x, y, np.ones_like(x)]), x * x + y * y, rcond=None)
    radius = math.sqrt(c + a * a / 4 + b * b / 4)
    return radius, float(np.abs(np.hypot(x - a / 2, y - b / 2) - radius).max())


@PAPERS
@pytest.mark.parametrize("name", RADII)
def test_the_hoods_radii_fitted_on_the_printed_pages_are_those_of_the_frustum(paper, name):
    assert RADII[name] / INCH == pytest.approx({"outer": 6.343, "inner": 1.189}[name], abs=5e-4)
    fits = [circle_through(run) for page in book(files(paper)["patterns.pdf"]) for run in arcs(page)]
    near = [(radius, off) for radius, off in fits if abs(radius - RADII[name]) < 0.001]
    assert near
    for radius, off in near:
        assert radius == pytest.approx(RADII[name], abs=EXACT)
        assert off < EXACT


def straights(page):
    high = float(page.height)
    for line in page.lines:
        (x0, y0), (x1, y1) = line["pts"][0], line["pts"][-1]
        yield (x0 * POINT, (high - y0) * POINT), (x1 * POINT, (high - y1) * POINT)


@PAPERS
@pytest.mark.parametrize("name", ["patterns.pdf", "mark-out.pdf", "templates.pdf"])
def test_every_page_at_full_size_has_its_check_rule_of_four_inches_and_a_hundred_millimetres(paper, name):
    for page in book(files(paper)[name]):
        low = [line for line in straights(page) if line[0][1] < 0.030]
        flat = [line for line in low if abs(line[0][1] - line[1][1]) < 1e-6]
        base = max(flat, key=lambda line: abs(line[0][0] - line[1][0]))
        zero, level = min(base[0][0], base[1][0]), base[0][1]
        assert abs(base[0][0] - base[1][0]) == pytest.approx(4 * INCH, abs=EXACT)
        upright = [line for line in low if abs(line[0][0] - line[1][0]) < 1e-6 and abs(line[0][1] - level) < 1e-6]
        above = sorted(a[0] - zero for a, b in upright if b[1] > level)
        below = sorted(a[0] - zero for a, b in upright if b[1] < level)
        assert above == pytest.approx([i * INCH / 4 for i in range(17)], abs=EXACT)
        assert below == pytest.approx([i * 0.005 for i in range(21)], abs=EXACT)


def uprights(page):
    """Places across the page [m] of all upright strokes, single ones and those that are part of a longer line."""
    rows = [mark["pts"] for mark in (*page.lines, *page.curves)]
    return [a[0] * POINT for row in rows for a, b in pairwise(row) if abs(a[0] - b[0]) < 0.001 < abs(a[1] - b[1])]


@PAPERS
def test_marks_on_the_posts_printed_rules_lie_at_their_places(paper):
    """The post goes on one strip: every mark lies at its distance from the strip's left edge, which is the datum."""
    copy = reckon_file(EXAMPLES / "porch-lantern.yaml").copy
    post = next(piece for piece in copy.pieces if piece.spec.name == "post")
    upright = [uprights(page) for page in book(files(paper)["mark-out.pdf"])]
    for marks, end in ((post.marks_on_stock, post.cut_this), (post.marks_on_drawn, post.length)):
        wanted = [mark.at for mark in marks] + [end]
        found = [
            datum
            for xs in upright
            for datum in set(xs)
            if all(any(abs(x - datum - at) < EXACT for x in xs) for at in wanted)
        ]
        assert found


@PAPERS
@pytest.mark.parametrize(("name", "most"), [("porch-lantern", 5), ("rail-s-hook", 2), ("leaf-coat-hook", 2)])
def test_the_shop_sheet_goes_on_few_sides_and_leaves_no_page_half_empty_but_the_last(paper, name, most):
    copy = reckon_file(EXAMPLES / f"{name}.yaml").copy
    pages = book(compile_pdf(*shop_sheet(copy, paper), 0))
    assert len(pages) <= most
    for page in pages[:-1]:
        lowest = max(char["bottom"] for char in page.chars if char["bottom"] < page.height - 45)
        assert lowest > 0.66 * page.height


def test_what_to_cut_is_one_figure_on_table_strip_rule_and_list():
    from bickern.measure.units.say import say_up_both
    from bickern.measure.units.words import Style

    copy = reckon_file(EXAMPLES / "porch-lantern.yaml").copy
    arm = copy.pieces[0]
    inches, millimetres = say_up_both(arm.cut_this, Style())[:-1].split(" (")
    made = files(LETTER)
    text = " ".join(" ".join(page.extract_text().split()) for page in book(made["shop-sheet.pdf"]))
    assert text.count(millimetres) >= 2  # under CUT THIS, and at the end of the strip
    assert f"cut here {inches} ({millimetres})" in " ".join(
        " ".join(page.extract_text().split()) for page in book(made["mark-out.pdf"])
    )
    assert millimetres.removesuffix(" mm") in made["cut-list.csv"].decode("utf-8-sig").splitlines()[1]


@pytest.mark.parametrize("name", ["fire-set", "forge-hood"])
def test_no_marks_round_words_of_the_job_file_stand_on_paper(name):
    copy = reckon_file(EXAMPLES / f"{name}.yaml").copy
    assert any("`" in one.says + one.try_this for one in wording.told(copy))
    source, _ = shop_sheet(copy, LETTER)
    assert "`" not in source
