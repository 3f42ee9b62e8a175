"""What cannot be laid as it is asked: a part or sheet with such a fault is left out and named, the rest is laid."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import CHORD
from bickern.geometry.polygon import ArcSeg, Loop, Seg, area, bounds, closed_gap, points, to_shapely

CLOSES = 1e-6
"""[m] A loop whose ends lie further apart is open."""

T = TypeVar("T", Part, Remnant)


@dataclass(frozen=True, slots=True)
class Fair:
    """What of all that is asked can be laid, and in words what is left out. `spacing` None: no distance can be kept."""

    parts: tuple[Part, ...]
    remnants: tuple[Remnant, ...]
    spacing: Spacing | None
    says: tuple[str, ...]


def fair(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Fair:
    """Parts and sheets that are sound, and distances that are none or more."""
    kept, left = _sound(parts, _part_fault, "part")
    sheets, off = _sound(remnants, _sheet_fault, "sheet")
    out = [f"left out: {'; '.join([*left, *off])}"] if left or off else []
    if not (math.isfinite(spacing.gap) and math.isfinite(spacing.margin)):
        return Fair(kept, sheets, None, (*out, "the gap or the margin is no length: nothing is laid"))
    for name, value in (("gap", spacing.gap), ("margin", spacing.margin)):
        out += [f"a {name} of {value * 1000:.3f} mm is less than none: none is kept"] if value < 0 else []
    return Fair(kept, sheets, Spacing(max(0.0, spacing.gap), max(0.0, spacing.margin)), tuple(out))


def _sound(every: Sequence[T], fault: Callable[[T], str], what: str) -> tuple[tuple[T, ...], list[str]]:
    """Those without a fault, and the faults of the others; of two with one key the second is left out."""
    kept: dict[str, T] = {}
    wrong: list[str] = []
    for one in every:
        said = f"{one.key} is the key of two {what}s" if one.key in kept else fault(one)
        if said:
            wrong.append(said)
        else:
            kept[one.key] = one
    return tuple(kept.values()), wrong


def _part_fault(part: Part) -> str:
    if part.turns is not None and not (part.turns and all(map(math.isfinite, part.turns))):
        return f"the turns of {part.key} are none that it can lie at"
    return _outline_fault(part)


def _sheet_fault(sheet: Remnant) -> str:
    if not (math.isfinite(sheet.cost) and sheet.cost >= 0):
        return f"the cost of {sheet.key} is none"
    return _outline_fault(sheet)


def _outline_fault(one: Part | Remnant) -> str:
    """What makes an outline with its holes none ("": nothing): in the words of the exact check where it knows it."""
    loops = (one.outline, *one.cutouts)
    if not all(loop.segs and all(map(_finite, loop.segs)) for loop in loops):
        return f"the outline of {one.key} has a number that is none"
    if any(closed_gap(loop) > CLOSES for loop in loops):
        return f"the outline of {one.key} is open"
    if any(_is_flat(loop) for loop in loops):
        return f"the outline of {one.key} goes round nothing"
    if not to_shapely(one.outline, CHORD, one.cutouts).is_valid:
        return f"the outline of {one.key} crosses itself"
    return "" if area(one.outline) else f"the outline of {one.key} goes round nothing"


def _is_flat(loop: Loop) -> bool:
    (left, low), (right, top) = bounds(loop)
    return min(right - left, top - low) < 1e-9 or len(points(loop, CHORD)) < 3


def _finite(seg: Seg) -> bool:
    if isinstance(seg, ArcSeg):
        return all(map(math.isfinite, (*seg.centre, seg.radius, seg.start_angle, seg.sweep)))
    return all(map(math.isfinite, (*seg.start, *seg.end)))
