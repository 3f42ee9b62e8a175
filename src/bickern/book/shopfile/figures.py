"""What stands behind the words of a shop file: figures, shares, lengths and named rules, each with its plain figure."""

from collections.abc import Callable, Mapping
from typing import TypeVar

from bickern.book.forms import Form, Takes
from bickern.book.text import Items, Word
from bickern.book.told import Told, guess, sized, tell
from bickern.measure.finding import stop
from bickern.measure.units.read import read_length, read_number, read_share
from bickern.measure.units.words import ZERO_C, Read

T = Takes
V = TypeVar("V")
Ranges = Mapping[str, tuple[float, float, str]]


def below(told: Told, form: Form) -> Told | None:
    """The group behind the word that is the form's name; None where it is not told."""
    value = told.value(form.name, T.GROUP)
    return None if value is None else tell(told.reading, value, form, form.name)


SENSIBLE: Ranges = {
    "longest heat": (0.02, 2.0, "from 3/4 in to 6 ft (20 mm to 2 m)"),
    "temperature": (800 + ZERO_C, 1700 + ZERO_C, "from 800 to 1700 C"),
    "hammer": (0.1, 15.0, "from 1/4 lb to 33 lb (0.1 to 15 kg)"),
    "speed in m/s": (1.0, 15.0, "from 1 to 15 m/s"),
    "useful blow in J": (0.1, 1000.0, "from 0.1 to 1000 J"),
    "blows a second": (0.2, 5.0, "from 0.2 to 5 a second"),
    "contact in W/m2K": (0.0, 5000.0, "from 0 to 5000 W/m2K"),
    "carry in seconds": (0.0, 60.0, "from 0 to 60 s"),
}
"""Least and greatest that can be meant by a figure of a fire or a hand: choices of ours, wide on purpose."""


def sensible(
    told: Told, word: str, takes: Takes, reader: Callable[[str], Read[float]], ranges: Ranges = SENSIBLE
) -> float | None:
    """A figure that a smith can mean; None where it is not told, and with a finding where it cannot be meant."""
    value, (least, most, says) = told.word(word, takes), ranges[word]
    if value is None:
        return None
    found = told.reading.take(reader(value.text) if takes is T.SHARE else sized(value, reader), value.where)
    if found is None or least <= found <= most:
        return found
    told.fault("figure-out-of-range", f"`{word}` is {says}", "look for a slipped digit or another unit", word)
    return None


def or_plain(value: V | None, default: V) -> V:
    """The plain figure where none is told."""
    return default if value is None else value


def number(told: Told, word: str, default: float) -> float:
    """A number without a unit."""
    return or_plain(told.read(word, T.NUMBER, read_number), default)


def length(told: Told, word: str, default: float) -> float:
    """A length that may be nothing."""
    found = told.any_length(word)
    if found is not None and found < 0:
        told.fault("negative-size", f"`{word}` is less than nothing", "", word)
        return default
    return or_plain(found, default)


def share(told: Told, word: str, default: float, takes: Takes = T.SHARE) -> float:
    """A percentage, as a share."""
    value = told.word(word, takes)
    return default if value is None else or_plain(told.reading.take(read_share(value.text), value.where), default)


def rule(told: Told, word: str, takes: Takes) -> str:
    """The rule that is named where a figure may stand as well; "" where nothing is told, or a figure."""
    value, key = told.word(word, takes), told.form.key(word)
    if value is None or key is None:
        return ""
    return {c.lower(): c for c in key.choices}.get(" ".join(value.text.lower().split()), "")


def no_figure(told: Told, word: str, takes: Takes) -> bool:
    """Whether what is told is neither a rule with a row nor any figure; a finding then says so."""
    value, key = told.word(word, takes), told.form.key(word)
    if value is None or key is None or any(c.isdigit() for c in value.text):
        return False
    says = f"`{word}` is {takes} ({', '.join(key.choices)}); here it is `{value.text}`"
    told.fault("not-a-choice", says, guess(value.text, key.choices), word)
    return True


def three(told: Told, word: str, default: tuple[float, float, float]) -> tuple[float, float, float]:
    """Three shares, the least first."""
    found = each(told, word, T.SHARES_OF_THREE, read_share)
    if not told.has(word):
        return default
    if len(found) == 3 and found[0] <= found[1] <= found[2]:
        return (found[0], found[1], found[2])
    told.fault(
        "three-shares", f"`{word}` wants three percentages, low, likely and high", "write `[0.8 %, 2.5 %, 5 %]`", word
    )
    return default


SIZES = "[1/4, 3/8]"


def each(told: Told, word: str, takes: Takes, reader: Callable[[str], Read[V]], as_in: str = SIZES) -> tuple[V, ...]:
    """Each of a list, or the one that stands there alone; `as_in` shows how a list is written."""
    value = told.value(word, takes)
    items = () if value is None else value.items if isinstance(value, Items) else (value,)
    found = []
    for item in items:
        if not isinstance(item, Word):
            told.reading.say(stop("one-value", f"`{word}` takes {takes}", f"write `{as_in}`"), item.where)
            continue
        one = told.reading.take(reader(item.text), item.where)
        if one is not None:
            found.append(one)
    return tuple(found)


def lengths(told: Told, word: str) -> tuple[float, ...]:
    """A list of lengths [m], the shortest first."""

    def one(text: str) -> Read[float]:
        return sized(Word(text, told.where, 0, 0), lambda t: read_length(t, told.reading.system))

    return tuple(sorted(each(told, word, T.LENGTHS, one)))
