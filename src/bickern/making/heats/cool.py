"""What must be kept cold in a heat, in words."""

from collections.abc import Sequence

from bickern.making.heats.lies import FRAIL, Lying, thickness
from bickern.making.work.fire import THIN
from bickern.making.work.result import Work
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE

REACH = Known(0.050, "m", COMMON_PRACTICE)
"""How far beyond the hot zone thin metal is still endangered by the fire."""
_OF_WORK = {
    "twist": "the bar on both sides of the twist, up to the marks",
    "bend": "both sides of the bend, up to the marks",
    "upset": "the bar beside the stretch that is upset",
    "punch": "the punch: in water every few blows",
    "slit": "the slitting chisel: in water every few blows",
    "split": "the chisel: in water every few blows",
}


def kept_cold(lying: Lying | None, works: Sequence[Work], hot: tuple[float, float]) -> tuple[str, ...]:
    """What to cool or keep out of the fire for these works, `hot` [m] along the bar as it lies."""
    own = [_OF_WORK[w.does] for w in works if w.does in _OF_WORK and (lying is not None or w.does != "bend")]
    tips = [_tip(w) for w in works if w.does == "taper" and 0 < w.thin < THIN.value]
    thin = _thin_beside(lying, hot) if lying is not None else ()
    return tuple(dict.fromkeys((*own, *tips, *thin)))


def _tip(work: Work) -> str:
    return f"the tip of the {work.name or 'taper'}, if it runs ahead of the rest"


def _thin_beside(lying: Lying, hot: tuple[float, float]) -> tuple[str, ...]:
    """Thin finished stretches near the fire that the heat is not for."""
    near = (hot[0] - REACH.value, hot[1] + REACH.value)
    found = []
    for run, (start, end) in lying.finished():
        thin = min(thickness(run.a), thickness(run.b))
        outside = end <= hot[0] + 1e-6 or start >= hot[1] - 1e-6
        if thin < FRAIL.value and outside and end > near[0] and start < near[1]:
            found.append(f"the {run.name or 'thin end'}")
    return tuple(found)
