"""The scale of a drawing: full size where there is room, else the largest of the scales that a rule is made for."""

from bickern.paper.glyphs import plain
from bickern.paper.marks import Box, Drawing, bounds, moved, scaled

SCALES = (1.0, 3 / 4, 1 / 2, 3 / 8, 1 / 4, 3 / 16, 1 / 8, 1 / 10, 3 / 32, 1 / 16, 1 / 20, 1 / 32, 1 / 50, 1 / 100)
"""Scales tried, largest first."""
ENLARGED = (4.0, 3.0, 2.0, 1.5)
"""Scales tried first for small things that nobody needs at full size."""
_NAMES = {1.0: "full size", 0.75: "three quarters of full size", 0.5: "half size", 0.25: "quarter size"}


def fitting(wide: float, high: float, room: tuple[float, float], enlarge: bool = False) -> float:
    """The largest scale at which `wide` x `high` [m] goes into the room (width, height) [m]."""
    tried = (*ENLARGED, *SCALES) if enlarge else SCALES
    fits = (scale for scale in tried if wide * scale <= room[0] + 1e-9 and high * scale <= room[1] + 1e-9)
    exact = min(room[0] / max(wide, 1e-9), room[1] / max(high, 1e-9))
    return next(fits, exact)


def say_scale(scale: float) -> str:
    """`full size`, `half size`, `1/8 of full size`, `2 times full size`."""
    if scale in _NAMES:
        return _NAMES[scale]
    if scale > 1:
        return f"{scale:g} times full size"
    share = next((f"{top}/{round(top / scale)}" for top in (1, 3) if abs(top / scale - round(top / scale)) < 1e-6), "")
    return f"{share} of full size" if share else "not to a whole scale"


def at_corner(picture: Drawing) -> Drawing:
    """The drawing moved so that its lower left corner is the origin."""
    return moved(picture, -picture.bounds.left, -picture.bounds.bottom)


def shown_at(picture: Drawing, scale: float) -> Drawing:
    """Marks made `scale` times as large, lettering unchanged, lower left at the origin."""
    return at_corner(scaled(picture, scale))


def trimmed(picture: Drawing, margin: float = 0.0004) -> Drawing:
    """The drawing in the smallest frame that holds all its strokes and lettering, and `margin` [m] round them."""
    return Drawing(picture.marks, bounds(plain(picture.marks)).grown(margin))


def fixed(picture: Drawing, wide: float, high: float) -> Drawing:
    """The drawing in the middle of a frame of this size [m]; a larger drawing keeps its own size."""
    box = picture.bounds
    w, h = max(wide, box.width), max(high, box.height)
    x, y = box.centre
    return Drawing(picture.marks, Box(x - w / 2, y - h / 2, x + w / 2, y + h / 2))
