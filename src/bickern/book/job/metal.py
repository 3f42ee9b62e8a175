"""One stretch of the metal track from its words."""

from bickern.book.forms import Takes
from bickern.book.told import Told
from bickern.measure.finding import note
from bickern.parts.bar.tracks import Amount, Blank, EndOutline, EndShape, Face, Metal, SectionGoal

_ENDS = ("leaf", "spade", "spoon", "free")


def metal_entry(told: Told) -> Metal | None:
    """The stretch, or None where its length is not told (a `like` that could not be written out has none)."""
    word = told.which()
    if not word or word == "like":
        return None
    length = told.amount(word)
    start, end = _sections(told)
    entry = Metal(
        Blank.OPEN if length is None else length, start, end, told.name(),
        told.length("shoulder") or 0.0, _flush(told), told.pair("offset"), told.angle("roll") or 0.0,
        _outline(told, word), where=told.where,
    )  # fmt: skip
    _check(told, word, entry, length)
    return entry


def _sections(told: Told) -> tuple[SectionGoal | None, SectionGoal | None]:
    """The sections it begins and ends with; `as` is one all along."""
    start, end = told.goal("from"), told.goal("to")
    if not told.has("as"):
        return start, end
    if told.has("from") or told.has("to"):
        told.fault("two-kinds", "`as` is one section all along: `from` and `to` cannot stand with it", "keep one", "as")
    return told.goal("as"), None


def _flush(told: Told) -> Face | None:
    return Face(told.choice("flush", "front")) if told.has("flush") else None


def _check(told: Told, word: str, entry: Metal, length: Amount | None) -> None:
    if word == "keep" and (entry.start is not None or entry.end is not None):
        told.fault("two-kinds", "`keep` leaves the section as it is: `from`, `to` and `as` cannot stand with it",
                   "write `over:` in place of `keep:`", "keep")  # fmt: skip
    if isinstance(length, float) and entry.shoulder > length:
        told.fault("shoulder-too-long", "the shoulder is longer than the stretch it begins", "", "shoulder")
    if word == "over" and not any(told.has(w) for w in ("from", "to", "as", "flush", "offset")):
        says = "no section is told: it is left as it is"
        told.reading.say(note("section-not-told", says, "write `keep:`, or add `to:` or `as:`"), told.where)


def _outline(told: Told, word: str) -> EndOutline | None:
    """A leaf, spade, spoon or free end."""
    if word not in _ENDS:
        for extra in ("width", "thick", "widths"):
            if told.has(extra):
                told.fault("unknown-word", f"`{extra}` belongs to a leaf, spade, spoon or free end", "", extra)
        return None
    if told.has("from") or told.has("to") or told.has("as") or told.has("shoulder"):
        told.fault("two-kinds", f"a {word} end has its own section", "take `from`, `to`, `as` and `shoulder` out", word)
    thick = told.length("thick")
    if not told.has("thick"):
        told.fault("missing", "`thick` is not told", "add `thick: 3/32`")
    shape = EndShape(word)
    profile = told.pairs("widths", Takes.SHARES)
    width = _widest(told, shape, profile)
    return EndOutline(shape, width or 0.0, thick or 0.0, profile)


def _widest(told: Told, shape: EndShape, profile: tuple[tuple[float, float], ...]) -> float | None:
    if shape is EndShape.FREE:
        _check_profile(told, profile)
    elif told.has("widths"):
        told.fault("unknown-word", "`widths` belongs to a free end", "write `free:`", "widths")
    width = told.length("width")
    if not told.has("width"):
        told.fault("missing", "`width` is not told: how wide is it at the widest?", "add `width: 1`")
    return width


def _check_profile(told: Told, profile: tuple[tuple[float, float], ...]) -> None:
    """Shares of the length must run from 0 to 1, and shares of the width lie between 0 and 1."""
    along = [p[0] for p in profile]
    fits = along == sorted(set(along)) and along[:1] == [0.0] and along[-1:] == [1.0]
    if len(profile) < 2 or not fits or any(not 0 <= p[1] <= 1 for p in profile):
        says = "`widths` wants pairs of shares: along from 0 to 1 in order, and the width there from 0 to 1"
        told.fault("widths", says, "write `widths: [[0, 0], [1/2, 1], [1, 1/4]]`", "widths")
