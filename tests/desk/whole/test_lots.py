"""A set that nobody says how to hang, set out for its picture: exact places of blocks, and the examples' tools."""

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from bickern.desk.reckon import Reckoning, reckon_file, reckon_text
from bickern.desk.whole.assemble import put_together
from bickern.desk.whole.lots import APART, lots_of
from bickern.measure.units.words import INCH

EXAMPLES = Path(__file__).parents[3] / "examples"


@cache
def together(name: str) -> Reckoning:
    return put_together(reckon_file(EXAMPLES / f"{name}.yaml"))


def box_of(solids):
    points = np.vstack([one.solid.points for one in solids])
    return points.min(axis=0), points.max(axis=0)


def test_tongs_lie_shut_on_their_rivet():
    """Two halves 17 1/2 in long, each 3/8 in thick at the boss, turned one over the other on one rivet."""
    copy = together("bolt-tongs").copy
    assert copy is not None
    assert copy.set is not None
    assert lots_of(copy.set) == ((0, 1),)
    assert [one.name for one in copy.shown[0]] == ["half 1", "rivet 1", "half 2"]
    low, high = box_of(copy.shown[0])
    assert (high - low)[0] == pytest.approx(17.5 * INCH, rel=0.01)
    halves = [box_of([one]) for one in copy.solids if one.name.startswith("half")]
    assert np.abs(halves[0][0] - halves[1][0])[0] < 0.02 * INCH  # end beside end: shut


def test_lots_stand_side_by_side_on_one_ground():
    copy = together("fire-set").copy
    assert copy is not None
    assert copy.set is not None
    lots = lots_of(copy.set)
    assert sorted(body for lot in lots for body in lot) == list(range(len(copy.set.bodies)))
    names = {part.name: next(i for i, lot in enumerate(lots) if part.body in lot) for part in copy.set.parts}
    boxes = [box_of([one for one in copy.solids if names.get(one.name) == i]) for i in range(len(lots))]
    assert all(after[0][0] >= before[1][0] + 0.9 * APART for before, after in pairwise(boxes))
    assert [low[2] for low, _ in boxes] == pytest.approx([0.0] * len(lots), abs=0.003)  # a rivet's head may be lower


def test_what_is_linked_hangs_from_the_first_piece():
    """A ring in a boss that nobody says how to hang: nothing is said of how it hangs, but the ring lies in its hole."""
    text = (EXAMPLES / "ring-pull.yaml").read_text(encoding="utf-8")
    copy = put_together(reckon_text(re.sub(r"(?m)^hang:.*$", "", text), "pull.yaml")).copy
    assert copy is not None
    assert copy.set is not None
    assert copy.hang is None
    assert len(copy.shown) == 1
    (ring_low, ring_high), (boss_low, boss_high) = (
        box_of([one for one in copy.solids if one.name == name]) for name in ("ring", "boss")
    )
    assert (ring_low < boss_high).all()  # the one's box reaches into the other's: they are not set apart
    assert (boss_low < ring_high).all()
    low, _ = box_of(copy.shown[0])
    assert low[2] == pytest.approx(0.0, abs=1e-9)


def test_a_pan_lies_with_its_open_side_up():
    """The shovel's pan: walls 1 in high on a bottom 7 1/2 in long; most of its metal, and so its balance, is low."""
    copy = together("fire-set").copy
    assert copy is not None
    pan = next(one for one in copy.solids if one.name == "pan")
    low, high = box_of([pan])
    corners = pan.solid.points[pan.solid.faces]
    areas = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1)
    assert np.average(corners[:, :, 2].mean(axis=1), weights=areas) < (low[2] + high[2]) / 2
