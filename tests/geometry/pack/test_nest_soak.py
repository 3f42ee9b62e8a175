"""All open sets of sheets, and twenty mixes at 65 and 70 % (`make soak`). Where the sets come from: `bench/sheets.py`.

The times are those of two calm processors: on a busy machine these fail, and say by how much.
"""

import sys
import time
from pathlib import Path

import pytest

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.nest import nest

from .mixes import SPACING, metal, mix

sys.path.insert(0, str(Path(__file__).parents[3] / "bench"))

import sheets

PLANTED = sorted(sheets.folder().glob("*_d??.json"))
EASY = [path for path in PLANTED if path.stem.endswith(("_d75", "_d80"))]
DENSE = [path for path in PLANTED if path.stem.endswith("_d85")]


def laid_in(parts: list[Part], remnants: list[Remnant], spacing: Spacing, seconds: float, breaches) -> float:  # type: ignore[no-untyped-def]
    """Share of the parts' metal that is laid, the nest measured by other means than the nester's."""
    start = time.monotonic()
    made = nest(parts, remnants, spacing, keep_going=lambda: time.monotonic() - start < seconds)
    assert breaches(made, parts, remnants, spacing) == []
    short = dict(made.short)
    return 1 - sum(metal(p) * short.get(p.key, 0) for p in parts) / sum(metal(p) * p.count for p in parts)


@pytest.mark.soak
def test_open_sets_are_there() -> None:
    if not PLANTED:
        pytest.skip("the open sets are not here: BICKERN_PACKING names their folder")
    assert len(EASY) >= 10
    assert len(DENSE) >= 6


@pytest.mark.soak
@pytest.mark.parametrize("path", EASY, ids=lambda path: path.stem)
def test_planted_and_rectangular_sets_are_laid_whole_in_five_seconds(path: Path, breaches) -> None:  # type: ignore[no-untyped-def]
    assert laid_in(*sheets.asked(path), Spacing(), 5.0, breaches) == pytest.approx(1.0)


@pytest.mark.soak
def test_dense_sets_are_laid_for_the_most_part_in_thirty_seconds(breaches) -> None:  # type: ignore[no-untyped-def]
    if not DENSE:
        pytest.skip("the open sets are not here: BICKERN_PACKING names their folder")
    shares = [laid_in(*sheets.asked(path), Spacing(), 30.0, breaches) for path in DENSE]
    assert sum(shares) / len(shares) >= 0.965


@pytest.mark.soak
@pytest.mark.parametrize(("fill", "seconds"), [(0.65, 5.0), (0.70, 30.0)])
@pytest.mark.parametrize("seed", range(20))
def test_mixes_are_laid_whole(seed: int, fill: float, seconds: float, breaches) -> None:  # type: ignore[no-untyped-def]
    parts, remnants = mix(seed, fill)
    assert laid_in(parts, remnants, SPACING, seconds, breaches) == pytest.approx(1.0)
