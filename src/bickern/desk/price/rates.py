"""A person's own rates, tried on a job for this look alone, read as a shop file is read."""

import json
import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from bickern.book.shopfile import FORMS, read_shop
from bickern.desk.reckon import Reckoning
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, Where, stop
from bickern.measure.units.words import System

OF_SHOP = ("currency", "rate")
"""Words of a shop file that stand at its top; the others stand under `prices`."""
OF_PRICES = ("fuel", "metal", "margin", "fixed", "each", "waste")
WORDS = (*OF_SHOP, *OF_PRICES, "counts")
"""What a person may try, in the order in which a shop file tells it."""
TITLES = {
    "currency": "Money",
    "rate": "An hour of work",
    "fuel": "An hour of fire",
    "metal": "Metal",
    "margin": "Margin",
    "fixed": "Once a job",
    "each": "On every set",
    "waste": "Metal lost",
    "counts": "How many sets",
}
HINTS = {
    "currency": "USD, GBP, EUR",
    "metal": "1.20 a lb, or 2.60 a kg",
    "margin": "20 %",
    "waste": "10 %",
    "counts": "1, 6, 24",
}
_PLAIN = re.compile(r"[A-Za-z0-9.][A-Za-z0-9.% ]*")
NAME = "shop.yaml"
"""What a new shop file beside a job is called."""
FILE = "your own rates"
"""Stands for the file in findings about what is typed."""


@dataclass(frozen=True, slots=True)
class RateWord:
    """One rate that can be tried: its word in the shop file, its name, what it is, how it is written, as it is told."""

    word: str
    title: str
    says: str
    hint: str
    value: str


def rate_words(shop: Shop) -> tuple[RateWord, ...]:
    """The rates that can be tried, with what this shop tells of each ("" where nothing).

    The money itself only where the shop tells none: amounts of one currency are none of another.
    """
    told = _told(shop)
    words = WORDS[1:] if shop.currency else WORDS
    return tuple(RateWord(word, TITLES[word], _says(word), HINTS.get(word, ""), told[word]) for word in words)


def _says(word: str) -> str:
    return next(key.says for form in FORMS if form.name in ("shop", "prices") for key in form.keys if key.word == word)


def _told(shop: Shop) -> dict[str, str]:
    terms = shop.terms
    return {
        "currency": shop.currency,
        "rate": shop.rate,
        "fuel": terms.fuel,
        "metal": terms.metal,
        "margin": f"{terms.margin * 100:g} %",
        "fixed": terms.fixed,
        "each": terms.each,
        "waste": f"{terms.waste * 100:g} %",
        "counts": ", ".join(map(str, terms.counts)),
    }


@dataclass(frozen=True, slots=True)
class Tried:
    """The shop with the rates that were tried, and what is wrong with any of them, by its word."""

    shop: Shop
    wrong: tuple[tuple[str, Finding], ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All that is wrong."""
        return tuple(fault for _, fault in self.wrong)


def tried(shop: Shop, said: Mapping[str, str]) -> Tried:
    """The shop with these rates over its own; what stays empty, or is at fault, stays as the shop has it."""
    told = _typed(said)
    if not told:
        return Tried(shop)
    own = {"currency": shop.currency} if shop.currency else {}
    read, found = read_shop(_text(told | own), FILE)
    wrong = tuple((word, replace(f, where=Where(path=word))) for f in found if (word := _word(f.where.path)))
    faulty = {word for word, fault in wrong if fault.stops}
    return Tried(_over(shop, read, {word for word in told if word not in faulty}), wrong)


def _typed(said: Mapping[str, str]) -> dict[str, str]:
    """What was typed, without what stays empty."""
    told = {word: " ".join(said.get(word, "").split()) for word in WORDS}
    return {word: words for word, words in told.items() if words}


def _word(path: str) -> str:
    """The word that a finding is about: the last of its path that can be tried, else the money's."""
    return next((part for part in reversed(re.split(r"[.\[\]]", path)) if part in WORDS), "currency")


def _over(shop: Shop, read: Shop, words: set[str]) -> Shop:
    """One shop with some words of another."""
    terms = {name: getattr(read.terms, name) for name in (*OF_PRICES, "counts") if name in words}
    top = {name: getattr(read, name) for name in OF_SHOP if name in words}
    return replace(shop, terms=replace(shop.terms, **terms), **top)


def with_shop(done: Reckoning, shop: Shop) -> Reckoning:
    """The job priced by another shop's rates: they change nothing else of it."""
    return done if done.copy is None else replace(done, copy=replace(done.copy, shop=shop))


# ---- as lines of a shop file


def lines_of(said: Mapping[str, str]) -> str:
    """What was typed as lines for a shop file, to be copied into it; "" where nothing was typed."""
    return "".join(f"{line}\n" for line in _lines(_typed(said)))


def _lines(told: Mapping[str, str]) -> Iterator[str]:
    yield from (f"{word}: {_quoted(told[word])}" for word in OF_SHOP if told.get(word))
    prices = [word for word in (*OF_PRICES, "counts") if told.get(word)]
    if prices:
        yield "prices:"
    for word in prices:
        yield f"  {word}: {_list(told[word]) if word == 'counts' else _quoted(told[word])}"


def _list(words: str) -> str:
    return f"[{', '.join(_quoted(one) for one in re.split(r'[,; ]+', words) if one)}]"


def _quoted(words: str) -> str:
    """The words as they stand where YAML reads them so, else in quotes: nothing typed becomes anything but a word."""
    return words if _PLAIN.fullmatch(words) else json.dumps(words, ensure_ascii=False)


def _text(told: Mapping[str, str]) -> str:
    return "\n".join(["shop: tried", *_lines(told), ""])


def new_shop_file(folder: Path, said: Mapping[str, str], units: System, name: str = NAME) -> str | Finding:
    """Writes the rates into a new shop file beside the jobs, and gives its name; one that is there is never touched."""
    there = stop("file-there", f"`{name}` is there already, and is not written over", "copy the lines into it")
    text = f"shop: My forge\nunits: {units.value}\n{lines_of(said)}"
    try:
        with os.fdopen(os.open(folder / name, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o644), "w") as file:
            file.write(text)
    except FileExistsError:
        return there
    except OSError as bad:
        return stop("not-written", f"`{name}` cannot be written ({bad.strerror})", "look at the folder")
    return name
