"""Places along a bar as a smith names them: `3`, `3 from the end`, `middle of palm - 3/8`."""

import re

from bickern.book.forms import Takes
from bickern.book.text import Word
from bickern.book.told import Told, guess, sized
from bickern.measure.finding import stop
from bickern.measure.units.read import read_length
from bickern.measure.units.words import Read, System
from bickern.parts.bar.tracks import Anchor, Place

_DASHES = str.maketrans("−–—", "---")
_OF = re.compile(r"(start|beginning|middle|end) of (.+)", re.IGNORECASE)
_FROM_END = re.compile(r"(.+) from (?:the )?end", re.IGNORECASE)
_FROM_START = re.compile(r"(.+) from (?:the )?(?:start|datum|datum end)", re.IGNORECASE)
_ANCHORS = {"start": Anchor.START_OF, "beginning": Anchor.START_OF, "middle": Anchor.MIDDLE_OF, "end": Anchor.END_OF}
_ENDS = {
    "start": Anchor.DATUM,
    "datum": Anchor.DATUM,
    "datum end": Anchor.DATUM,
    "end": Anchor.END,
    "the end": Anchor.END,
}


def place_at(told: Told, word: str = "at") -> Place | None:
    """The place behind a word."""
    value = told.word(word, Takes.PLACE)
    if value is None:
        return None
    return told.reading.take(read_place(value.text, told.reading.system), value.where)


def read_place(text: str, system: System | None) -> Read[Place]:
    """A place; the names in it are looked up later."""
    said = " ".join(text.translate(_DASHES).split())
    head, sign, tail = _plus(said)
    anchor = _anchor(head)
    if anchor is not None:
        return _moved(anchor, sign, tail, system)
    from_end = _FROM_END.fullmatch(said)
    if from_end is not None:
        found = sized(_as_word(from_end.group(1)), lambda t: read_length(t, system, signed=True))
        return Read(None if found.value is None else Place(Anchor.END, "", -found.value), found.findings)
    from_start = _FROM_START.fullmatch(said)
    found = sized(_as_word(from_start.group(1) if from_start else said), lambda t: read_length(t, system, signed=True))
    if found.value is not None:
        return Read(Place(Anchor.DATUM, "", found.value), found.findings)
    if re.search(r"\d", said):
        return Read(None, found.findings)
    says = f"`{said[:60]}` is not a place along the bar"
    return Read(None, (stop("not-a-place", says, "write `3`, `3 from the end` or `middle of palm - 3/8`"),))


def _as_word(text: str) -> Word:
    from bickern.measure.finding import NOWHERE

    return Word(text, NOWHERE, 0, 0)


def _plus(said: str) -> tuple[str, str, str]:
    """`middle of palm - 3/8` as its place, its sign and its length."""
    found = re.fullmatch(r"(.+?) ([+-]) ?(.+)", said)
    return (found.group(1), found.group(2), found.group(3)) if found else (said, "", "")


def _anchor(head: str) -> Place | None:
    of = _OF.fullmatch(head)
    if of is not None:
        return Place(_ANCHORS[of.group(1).lower()], of.group(2))
    end = _ENDS.get(head.lower())
    return None if end is None else Place(end)


def _moved(place: Place, sign: str, tail: str, system: System | None) -> Read[Place]:
    if not sign:
        return Read(place)
    found = sized(_as_word(tail), lambda t: read_length(t, system, signed=True))
    if found.value is None:
        return Read(None, found.findings)
    return Read(Place(place.anchor, place.name, -found.value if sign == "-" else found.value), found.findings)


def look_up(told: Told, word: str, place: Place | None, known: tuple[str, ...]) -> None:
    """A finding where a place speaks of a name that no entry of this bar has."""
    if place is None or not place.name or place.name in known:
        return
    says = f"no part of this bar is named `{place.name}`"
    told.fault("unknown-place", says, guess(place.name, known) if known else "give the entry a `name:`", word)
