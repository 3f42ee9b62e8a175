"""Where things stand in the text of a job, and which table of words reads them."""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from bickern.book.forms import Form, Key, Takes
from bickern.book.job.words import FORMS, JOB, PIECES
from bickern.book.text import Entry, Group, Items, Page, Value, Word, read_page

BREAK = re.compile("\r\n|[\r\n\x85]")
"""What ends a line for YAML."""
_REMARK = re.compile("#[^\n\r\x85]*")
DEEPEST_LIKE = 20
"""Pieces like one another in a row that are followed to find what kind they are."""


@lru_cache(maxsize=24)
def page_of(text: str) -> Page:
    """The text read; the last are kept, as many windows ask for the same ones in turn."""
    return read_page(text, "")


@dataclass(frozen=True, slots=True)
class Spot:
    """What stands at a path: `chain` from the top group to it, `way` the number of each among its brothers.

    `key`: the word of the table that it stands behind. `form`: the table that reads it, if it is a group or a list of
    groups; `named`: it holds names, each with a group of `form`. `rest`: what of the path is not there.
    """

    chain: tuple[Value, ...]
    way: tuple[int, ...] = ()
    key: Key | None = None
    form: Form | None = None
    named: bool = False
    rest: str = ""

    @property
    def value(self) -> Value:
        """The value reached."""
        return self.chain[-1]

    @property
    def parent(self) -> Value | None:
        """The group or list that holds it; None at the top."""
        return self.chain[-2] if len(self.chain) > 1 else None


def spot(top: Group, path: str) -> Spot:
    """Follows a path as findings write it (`pieces.arm.metal[2].over`) as far as it leads."""
    found = Spot((top,), form=JOB, rest=path)
    while found.rest:
        deeper = _one_step(found, top)
        if deeper is None:
            return found
        found = deeper
    return found


def _one_step(at: Spot, top: Group) -> Spot | None:
    value, rest = at.value, at.rest
    if isinstance(value, Items):
        number = re.match(r"\[(\d{1,6})\]", rest)
        if number is None or not 0 < int(number.group(1)) <= len(value.items):
            return None
        i = int(number.group(1)) - 1
        return replace(at, chain=(*at.chain, value.items[i]), way=(*at.way, i), key=None, rest=rest[number.end() :])
    if not isinstance(value, Group):
        return None
    rest = rest.removeprefix(".")
    fits = [i for i, e in enumerate(value.entries) if _begins(rest, e.key.text)]
    if not fits:
        return None
    i = max(fits, key=lambda n: len(value.entries[n].key.text))
    entry = value.entries[i]
    key, form, named = inside(at, entry.key.text, entry.value, top)
    return Spot((*at.chain, entry.value), (*at.way, i), key, form, named, rest[len(entry.key.text) :])


def _begins(rest: str, word: str) -> bool:
    return bool(word) and rest.startswith(word) and rest[len(word) : len(word) + 1] in ("", ".", "[")


def inside(at: Spot, word: str, value: Value | None, top: Group) -> tuple[Key | None, Form | None, bool]:
    """The table's word, the table and whether it holds names, of what stands (or would stand) behind a word there."""
    if at.named:
        return None, piece_form(value, top) if at.form is None else at.form, False
    key = at.form.key(word) if at.form is not None else None
    if key is None or not key.form:
        return key, None, False
    return key, FORMS.get(key.form), key.takes is Takes.NAMED


def piece_form(piece: Value | None, top: Group, depth: int = 0) -> Form | None:
    """The table of a piece: by its word `bar`, `ring` or `sheet`, or that of the piece it is like."""
    if not isinstance(piece, Group):
        return None
    said = next((f for f in PIECES if f.name in piece.words()), None)
    like, pieces = piece.get("like"), top.get("pieces")
    if said is not None or not isinstance(like, Word) or not isinstance(pieces, Group) or depth > DEEPEST_LIKE:
        return said
    name = one_blank(like.text)
    other = next((e.value for e in pieces.entries if one_blank(e.key.text) == name), None)
    return piece_form(other, top, depth + 1)


def one_blank(text: str) -> str:
    """A name as it is compared: one blank between its words."""
    return " ".join(text.split())


def last_sign(value: Value, text: str, at_least: int = 0) -> int:
    """Where a value really ends: the parser puts the end of lines of words where it went on, remarks later."""
    if isinstance(value, Word):
        end = value.end
        while not value.plain and end > value.start and text[value.start] in "|>" and text[end - 1].isspace():
            end -= 1
        return max(end, at_least)
    if value.flow:
        return value.end
    if isinstance(value, Items):
        return max((last_sign(i, text) for i in value.items), default=at_least)
    return max((entry_end(e, text) for e in value.entries), default=at_least)


def entry_end(entry: Entry, text: str) -> int:
    """Where a word with its value ends; behind its colon if it has no value."""
    return last_sign(entry.value, text, entry.key.end)


def child_span(holder: Items | Group, i: int, text: str) -> tuple[int, int]:
    """From where to where one entry of a list or group stands; in a list of lines it begins with its dash."""
    if isinstance(holder, Group):
        return holder.entries[i].key.start, entry_end(holder.entries[i], text)
    item = holder.items[i]
    if holder.flow:
        return item.start, last_sign(item, text)
    start = dash_before(item, text)
    return start, last_sign(item, text, start + 1)


def dash_before(item: Value, text: str) -> int:
    """Where the dash of an item in a list of lines stands."""
    gap = re.compile(r"-(?:\s|#[^\n\r\x85]*)*\Z")
    at = text.rfind("-", 0, item.start)
    while at > 0 and not gap.match(text, at, item.start):
        at = text.rfind("-", 0, at)
    return at


def line_start(text: str, at: int) -> int:
    """Where the line of a place begins."""
    return max((text.rfind(sign, 0, at) for sign in "\n\r\x85"), default=-1) + 1


def line_end(text: str, at: int) -> int:
    """Where the line of a place ends, before what breaks it."""
    found = BREAK.search(text, at)
    return len(text) if found is None else found.start()


def past_break(text: str, at: int) -> int:
    """Behind the line break that stands there, if one does."""
    found = BREAK.match(text, at)
    return at if found is None else found.end()


def break_of(text: str) -> str:
    """What ends the lines of this text."""
    found = BREAK.search(text)
    return found.group() if found else "\n"


def remarks(page: Page) -> tuple[tuple[int, str], ...]:
    """Every remark of the text, in order: where its `#` stands, and all from there to the end of its line."""
    if page.top is None:
        return ()
    taken = sorted((w.start, last_sign(w, page.text)) for w in _words(page.top))
    found: list[tuple[int, str]] = []
    at = 0
    for start, end in (*taken, (len(page.text), len(page.text))):
        found += [(m.start(), m.group()) for m in _REMARK.finditer(page.text, at, start)]
        at = max(at, end)
    return tuple(found)


def _words(value: Value) -> list[Word]:
    if isinstance(value, Word):
        return [value]
    inner = value.items if isinstance(value, Items) else [v for e in value.entries for v in (e.key, e.value)]
    return [w for v in inner for w in _words(v)]


def at_way(value: Value, way: tuple[int, ...]) -> Value:
    """What stands at that way: the number of each entry among its brothers, from the top down."""
    for i in way:
        value = (
            value.items[i]
            if isinstance(value, Items)
            else value.entries[i].value
            if isinstance(value, Group)
            else value
        )
    return value


def altered(value: Value, way: tuple[int, ...], does: Callable[[Value], Value]) -> Value:
    """The same tree with what stands at that way replaced."""
    if not way:
        return does(value)
    i, rest = way[0], way[1:]
    if isinstance(value, Items):
        items = list(value.items)
        items[i] = altered(items[i], rest, does)
        return replace(value, items=tuple(items))
    if isinstance(value, Group):
        entries = list(value.entries)
        entries[i] = replace(entries[i], value=altered(entries[i].value, rest, does))
        return replace(value, entries=tuple(entries))
    return value


def same(one: Value, other: Value) -> bool:
    """Whether two trees say the same words in the same order, wherever they stand and however they are quoted."""
    if isinstance(one, Word) and isinstance(other, Word):
        return one.text == other.text
    if isinstance(one, Items) and isinstance(other, Items):
        return len(one.items) == len(other.items) and all(map(same, one.items, other.items))
    if not isinstance(one, Group) or not isinstance(other, Group):
        return False
    return one.words() == other.words() and all(
        same(a.value, b.value) for a, b in zip(one.entries, other.entries, strict=True)
    )
