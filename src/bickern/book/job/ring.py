"""Rings, links and chain from their words."""

from bickern.book.forms import NO, YES, Takes
from bickern.book.job.material import ask_weld
from bickern.book.told import BARE_SIZES, Told
from bickern.iron.section import Section
from bickern.measure.finding import stop
from bickern.measure.units.words import Shape
from bickern.parts.ring.spec import ChainSpec, Closing, RingSpec

_ACROSS = ("inside across", "inside radius", "mean across", "outside across")


def read_ring(told: Told, name: str, steel: str, coating: str) -> RingSpec:
    """Rings of one kind; a size that does not say inside, mean or outside is a finding."""
    _one_size(told)
    radius = told.length("inside radius")
    if told.choice("closed", "") == "welded":
        ask_weld(told, "closed", steel)
    wound, mandrel = _wound(told)
    return RingSpec(
        name, told.section("ring") or Section(Shape.ROUND, 0.0, 0.0), steel,
        told.length("inside across") if radius is None else 2 * radius,
        told.length("mean across"), told.length("outside across"), told.length("inside long"),
        Closing(told.choice("closed", "butted")), _chain(told), wound, mandrel,
        told.count("make"), coating, told.where,
    )  # fmt: skip


def _one_size(told: Told) -> None:
    said = [w for w in _ACROSS if told.has(w)]
    if len(said) > 1:
        told.fault("two-kinds", f"`{said[0]}` and `{said[1]}` cannot both be told", "keep one of them", said[1])
    if not said and not any(w.lower() in BARE_SIZES for w in told.group.words()):
        told.fault("which-size", "no size across is told", f"add one of: {', '.join(_ACROSS)}")


def _wound(told: Told) -> tuple[bool, float]:
    """Whether it is wound from a coil, and on what [m] (0: the mandrel is to be found)."""
    value = told.word("wound", Takes.TEXT)
    if value is None:
        return False, 0.0
    said = value.text.strip().lower()
    if said in (*YES, *NO):
        return said in YES, 0.0
    if not said.startswith("on "):
        told.reading.say(
            stop("not-a-choice", f"`wound` cannot be `{value.text[:60]}`", "write yes, or `on 3/4`"), value.where
        )
        return False, 0.0
    found = told.reading.take(told.length_of(said.removeprefix("on ")), value.where)
    return True, found or 0.0


def _chain(told: Told) -> ChainSpec | None:
    inner = told.group_of("chain")
    if inner is None:
        return None
    links = inner.count("links") if inner.has("links") else None
    return ChainSpec(links, inner.length("length"), inner.where)
