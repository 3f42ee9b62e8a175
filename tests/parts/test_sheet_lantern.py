"""The porch lantern's sheet, from the job file to the figures that the smith strikes it with.

Expected figures are worked here by hand from the sizes told (exact mathematics); the tray's folds by the factor of
DIN 6935, k = 0.65 + 0.5 log10(r/s) (read on a page that quotes the standard).
"""

import math
from pathlib import Path

import pytest

from bickern.book import examples
from bickern.desk.reckon import reckon_file
from bickern.measure.units.words import INCH
from bickern.parts.sheet.result import SheetResult

JOB = """
job: Porch lantern
units: in
pieces:
  hood:
    sheet: 20 US ga
    surface: {cone: {base: 8, top: 1 1/2, height: 4, sizes: SIZES}}
    seam: SEAM
  tray:
    sheet: 18 US ga
    surface: {pan: {long: 5, wide: 5, high: 1/2, inside radius: 1/16, sizes: outside}}
"""
EXAMPLE = Path(next(iter(examples.__path__))) / "porch-lantern.yaml"


def pieces(file: Path) -> dict[str, SheetResult]:
    done = reckon_file(file)
    assert done.copy is not None
    assert not done.stops, [f.says for f in done.findings]
    return {p.spec.name: p for p in done.copy.pieces if isinstance(p, SheetResult)}


def job(folder: Path, sizes: str = "mean", seam: str = "{butt: yes}") -> Path:
    file = folder / "lantern.yaml"
    file.write_text(JOB.replace("SIZES", sizes).replace("SEAM", seam))
    return file


def figures(piece: SheetResult) -> dict[str, float]:
    return {f.name: f.value if f.unit == "rad" else f.value / INCH for f in piece.figures}


def test_hood_struck_from_mean_sizes(tmp_path: Path) -> None:
    found = figures(pieces(job(tmp_path))["hood"])
    slant = math.hypot(3.25, 4)
    assert found["slant"] == pytest.approx(5.154, abs=5e-4)
    assert found["slant"] == pytest.approx(slant, rel=1e-12)
    assert found["large radius R"] == pytest.approx(6.343, abs=5e-4)  # 5.154 x 4 / 3.25
    assert found["small radius r"] == pytest.approx(1.189, abs=5e-4)  # 5.154 x .75 / 3.25
    assert math.degrees(found["angle"]) == pytest.approx(227.0, abs=0.05)  # 360 x 3.25 / 5.154
    # past half a round the widest chord is the whole circle: 2 R by R (1 + cos(180 - 113.5))
    assert found["laid evenly, wide"] == pytest.approx(2 * 6.343, abs=1e-3)
    assert found["laid evenly, high"] == pytest.approx(6.343 * (1 + math.cos(math.radians(66.5))), abs=5e-3)


def test_hood_s_blank_before_and_after_its_lap(tmp_path: Path) -> None:
    bare = pieces(job(tmp_path))["hood"]
    wide, high = sorted((x / INCH for x in bare.blank), reverse=True)
    assert wide == pytest.approx(12 + 11 / 16, abs=1 / 64)
    assert high == pytest.approx(8 + 7 / 8, abs=1 / 64)
    lapped = pieces(job(tmp_path, seam="{riveted lap: 1/2, rivets: 1/8, pitch: 1}"))["hood"]
    assert lapped.blank == pytest.approx(bare.blank)
    # the lap is half an inch beside a seam of 5.154, its outer edge a little less since both ends follow the rims
    more = (lapped.area - bare.area) / INCH**2 + 2 * 6 * math.pi / 4 * (1 / 8 + 0.4 / 25.4) ** 2
    assert 0.5 * 5.154 * 0.96 < more < 0.5 * 5.154


def test_hood_told_by_its_inside(tmp_path: Path) -> None:
    """Half of .0359 square to the wall: R and r longer by .01795 / tan of the half angle, both."""
    found = figures(pieces(job(tmp_path, "inside"))["hood"])
    longer = 0.0359 / 2 * 4 / 3.25
    assert found["large radius R"] == pytest.approx(6.343 + longer, abs=6e-4)
    assert found["small radius r"] == pytest.approx(1.189 + longer, abs=6e-4)


def test_tray_by_din_6935(tmp_path: Path) -> None:
    r, s = 1 / 16, 0.0478
    k = 0.65 + 0.5 * math.log10(r / s)
    fold = math.pi / 2 * (r + k * s / 2)
    flat = 5 - 2 * (r + s) + 2 * (fold + 0.5 - (r + s))
    tray = pieces(job(tmp_path))["tray"]
    assert [x / INCH for x in tray.blank] == pytest.approx([flat, flat], abs=1e-5)
    assert flat == pytest.approx(5.81, abs=0.005)
    # weighed as a cross of bottom and four walls; the notches of its corners are part of what is lost
    cross = 5**2 + 4 * 5 * (0.5 - 2 * (r + s) + fold)
    assert tray.area / INCH**2 == pytest.approx(cross, rel=0.02)


def test_the_example_agrees_with_the_job_written_here(tmp_path: Path) -> None:
    """The example carries lugs and holes besides: what it is struck with is the same."""
    shown, here = pieces(EXAMPLE), pieces(job(tmp_path))
    for name in ("slant", "large radius R", "small radius r", "angle"):
        assert figures(shown["hood"])[name] == pytest.approx(figures(here["hood"])[name], rel=1e-9)
    assert shown["tray"].blank == pytest.approx(here["tray"].blank)
    assert shown["hood"].seam_gap < 1e-6
    assert len([h for h in shown["hood"].patterns[0].holes if h.says == "post holes"]) == 4
