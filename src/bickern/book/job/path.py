"""One straight or bend of the path track from its words."""

from dataclasses import dataclass, replace
from math import pi

from bickern.book.told import Told
from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.tracks import (
    BendLeg,
    Blank,
    Corner,
    EyeLeg,
    HoopLeg,
    PathLeg,
    ScrollLeg,
    StraightLeg,
    Way,
)

LEFT = 0.0
UP = pi / 2
DOWN = 3 * pi / 2
MOST_CURL = 20 * pi
"""[rad] Ten turns: more than that in one bend is a coil."""


_BENDS = ("inside radius", "inside across", "turn", "way")
OWN = {
    "straight": ("to corners",),
    "bend": _BENDS,
    "curl": _BENDS,
    "corner": (*_BENDS, "forged"),
    "eye": ("centred", "welded", "turn", "way"),
    "scroll": ("turn", "way"),
    "hoop": ("turn", "way"),
}
"""The words that each kind of leg has beside its name."""
_INSTEAD: dict[tuple[str, str], str] = {
    ("bend", "forged"): "write `corner:` in place of `bend:`",
    ("scroll", ""): "write it inside `scroll: {...}`",
    ("hoop", ""): "write it inside `hoop: {...}`",
}
ALL_OWN = frozenset(w for words in OWN.values() for w in words)


@dataclass(frozen=True, slots=True)
class Ways:
    """Which way a bend turns [rad] with nothing said, by the stock: the easy way and the hard way; sideways is left."""

    plain: float
    easy: float
    hard: float
    aside: float = LEFT


def default_turn(stock: Section | None) -> Ways:
    """Flats bend over their thin way, half-rounds with their flat inside, all else to the left."""
    if stock is not None and stock.shape is Shape.HALF_ROUND:
        return Ways(DOWN, DOWN, LEFT)
    if stock is None or stock.shape not in (Shape.FLAT, Shape.OVAL):
        return Ways(LEFT, UP, LEFT)
    return Ways(UP, UP, LEFT) if stock.thick <= stock.width else Ways(LEFT, LEFT, UP)


def path_leg(told: Told, ways: Ways) -> PathLeg | None:
    """The leg, or None where it does not say what it is."""
    word = told.which()
    way = Way(told.choice("way", "easy")) if told.has("way") else None
    turn = told.turn({None: ways.plain, Way.EASY: ways.easy, Way.HARD: ways.hard}[way])
    aside = None if told.has("turn") or (told.has("way") and word in ("eye", "scroll")) else ways.aside
    if word in OWN:
        _only_its_own(told, word)
    if word == "straight":
        return StraightLeg(_or_open(told), told.name(), told.choice("to corners", ""), where=told.where)
    if word in ("bend", "curl", "corner"):
        return replace(_bend(told, word, turn, way), aside=aside)
    if word == "eye":
        return _eye(told, turn, aside)
    found = _scroll(told, turn) if word == "scroll" else _hoop(told, turn, way) if word == "hoop" else None
    return None if found is None else replace(found, aside=aside)


def _eye(told: Told, turn: float, aside: float | None) -> EyeLeg:
    across, centred = told.length("eye") or 0.0, told.yes("centred", True)
    return EyeLeg(across, turn, centred, told.name(), told.where, aside, told.yes("welded"))


def _or_open(told: Told) -> float | Blank:
    length = told.amount("straight")
    return Blank.OPEN if length is None else length


def _only_its_own(told: Told, word: str) -> None:
    """Words that say nothing about a leg of this kind."""
    for extra in (w for w in told.group.words() if w in ALL_OWN and w not in OWN[word]):
        try_this = _INSTEAD.get((word, extra)) or _INSTEAD.get((word, "")) or "take it out"
        told.fault(
            "two-kinds", f"`{extra}` says nothing about {'an' if word == 'eye' else 'a'} {word}", try_this, extra
        )


def _bend(told: Told, word: str, turn: float, way: Way | None) -> BendLeg:
    angle, radius = told.angle(word), _inside_radius(told)
    corner = Corner(told.choice("forged", "square")) if word == "corner" else Corner.NONE
    if radius is None and word != "corner" and not _any_radius(told):
        told.fault(
            "which-radius", "the bend's radius is not told", "add `inside radius:` (to the inside face of the bar)"
        )
    if angle is not None and angle > (pi * 0.999 if word == "corner" else MOST_CURL):
        told.fault("too-big", f"that is more than one {word} can turn", "", word)
    return BendLeg(angle or 0.0, radius or 0.0, turn, way, corner, told.name(), where=told.where)


def _any_radius(told: Told) -> bool:
    return any(w.endswith(("radius", "across")) or w in ("inside", "outside") for w in told.group.words())


def _inside_radius(told: Told) -> float | None:
    """From `inside radius` or half of `inside across`."""
    radius, across = told.length("inside radius"), told.length("inside across")
    if told.has("inside radius") and told.has("inside across"):
        told.fault(
            "two-kinds", "`inside radius` and `inside across` cannot both be told here", "keep one", "inside across"
        )
    return radius if radius is not None or across is None else across / 2


def _scroll(told: Told, turn: float) -> ScrollLeg | None:
    inner = told.group_of("scroll")
    if inner is None:
        return None
    words = ("turns", "inside radius", "outside radius", "length")
    said = [w for w in words if inner.has(w)]
    if len(said) != 3:
        says = f"a scroll is fixed by three of {', '.join(words)}; here are {len(said)}"
        inner.fault("scroll-sizes", says, "tell three: the fourth follows")
    small, large = inner.length("inside radius"), inner.length("outside radius")
    if small is not None and large is not None and small >= large:
        inner.fault(
            "scroll-sizes", "the inside radius is not smaller than the outside radius", "swap them", "inside radius"
        )
    return ScrollLeg(
        inner.turns("turns"), small, large, inner.amount("length"),
        inner.choice("kind", "even") == "equiangular", inner.choice("starts", "centre") == "centre",
        turn, told.name(), where=told.where,
    )  # fmt: skip


def _hoop(told: Told, turn: float, way: Way | None) -> HoopLeg | None:
    inner = told.group_of("hoop")
    if inner is None:
        return None
    radius = inner.length("inside radius")
    inside = inner.length("inside across") if radius is None else 2 * radius
    mean, outside = inner.length("mean across"), inner.length("outside across")
    return HoopLeg(inside, mean, outside, turn, way, told.name(), where=told.where)
