"""What is done to a bar stays done; what is thin is watched, and what is stout is not."""

from bickern.making.heats.cool import kept_cold
from bickern.making.heats.lies import done_by
from bickern.making.heats.warmth import heats_of
from bickern.making.work.result import Work

FIRST = Work("a: taper", "a", "taper", "tip", (0.0, 0.1), True, 1400.0, 1100.0, runs=(0,), bends=(1,))
SECOND = Work("a: twist", "a", "twist", "", (0.1, 0.2), True, 1350.0, 1100.0, twists=(0,), holes=(2,))


def test_what_was_done_before_stays_done():
    done = done_by([SECOND], done_by([FIRST]))
    assert done == done_by([FIRST, SECOND])
    assert done_by([FIRST], done) == done
    assert (done.runs, done.bends, done.twists, done.holes) == ({0}, {1}, {0}, {2})


def test_only_a_thin_tip_is_cooled_and_only_thin_metal_is_pulled_lower():
    """Thin: area over girth under 1 mm, as 4 mm square."""
    stout, thin = (Work("a", "a", "taper", "tip", (0.0, 0.1), True, 1350.0, 1100.0, thin=x) for x in (0.003, 0.0005))
    beside = Work("b", "a", "draw", "neck", (0.1, 0.2), True, 1400.0, 1100.0, thin=0.004)
    assert kept_cold(None, [stout], (0.0, 0.1)) == ()
    assert len(kept_cold(None, [thin], (0.0, 0.1))) == 1
    assert heats_of([stout, beside]) == (1400.0, 1100.0)
    assert heats_of([thin, beside]) == (1350.0, 1100.0)
