"""What runs through what, as the set is put together: against every line with every triangle, one by one."""

import math

import numpy as np
import pytest

from bickern.desk.reckon import reckon_text
from bickern.geometry.pose import Pose, put_all, turning
from bickern.geometry.solid.solid import Fineness
from bickern.geometry.space import unit
from bickern.parts.set.room import Room, room_of, run_through
from bickern.parts.set.solids import kept_solid, piece_solid
from bickern.parts.sheet.allowances import SheetRules

JOB = """
job: Two bars
units: mm
pieces:
  hook:
    bar: 12 sq
    metal: [{keep: rest, name: all}]
    path: [{straight: 60}, {bend: 180, inside radius: 20, turn: left}, {straight: 60}]
  rod:
    bar: 8 rd
    metal: [{keep: 150, name: all}]
    path: [{straight: 150}]
"""


def rooms() -> list[Room]:
    copy = reckon_text(JOB, "job.yaml").copy
    assert copy is not None
    return [room_of(piece, SheetRules()) for piece in copy.pieces]


def crossings(liner: Room, lies: Pose, skin: Room, skin_lies: Pose) -> int:
    """Signed volumes tell whether a straight goes through a triangle (exact mathematics)."""
    corners = put_all(skin_lies, skin.skin.points)[skin.skin.faces]
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]

    def side(p, q, r, s):
        return np.sign(np.einsum("ij,ij->i", np.cross(q - p, r - p), s - p))

    count = 0
    for start, end in put_all(lies, liner.lines.reshape(-1, 3)).reshape(-1, 2, 3):
        s, e = np.broadcast_to(start, a.shape), np.broadcast_to(end, a.shape)
        apart = side(a, b, c, s) != side(a, b, c, e)
        ways = [side(s, e, p, q) for p, q in ((a, b), (b, c), (c, a))]
        count += int((apart & (ways[0] == ways[1]) & (ways[1] == ways[2])).sum())
    return count


@pytest.mark.parametrize("seed", range(12))
def test_lines_go_through_skins_as_often_as_one_by_one(seed):
    rng = np.random.default_rng(seed)
    hook, rod = rooms()
    turn = turning((0.03, 0.01, 0.0), unit(tuple(rng.normal(size=3).tolist())), rng.uniform(0, 2 * math.pi))
    lies = Pose(tuple((np.array(turn.origin) + rng.uniform(-0.02, 0.02, 3)).tolist()), turn.x, turn.y)
    here = turning((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), rng.uniform(0, 6))
    wanted = crossings(hook, here, rod, lies) + crossings(rod, lies, hook, here)
    assert run_through(hook, here, rod, lies) == wanted
    assert run_through(rod, lies, hook, here) == wanted


def test_some_of_those_go_through_and_what_lies_clear_does_not():
    hook, rod = rooms()
    assert run_through(hook, Pose(), rod, Pose((0.0, 0.0, 0.0))) > 0
    assert run_through(hook, Pose(), rod, Pose((0.0, 0.0, 0.2))) == 0
    assert run_through(hook, Pose(), rod, Pose((-0.05, 0.026, 0.0))) == 0  # between the two arms of the hook


def test_a_skin_is_made_once_and_kept_as_it_is():
    copy = reckon_text(JOB, "job.yaml").copy
    assert copy is not None
    first, again = kept_solid(copy.pieces[0]), kept_solid(copy.pieces[0])
    assert again is first
    made = piece_solid(copy.pieces[0], Fineness.PREVIEW)
    assert np.array_equal(first.points, made.points)
    with pytest.raises(ValueError, match="read-only"):
        first.points[0, 0] = 1.0
