"""A text with pieces put in and cut out: done only where it then says exactly what was meant, every remark kept."""

import json
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from bickern.book.job.spots import (
    BREAK,
    Spot,
    break_of,
    child_span,
    line_end,
    line_start,
    page_of,
    past_break,
    remarks,
    same,
)
from bickern.book.text import Entry, Group, Items, Page, Value, Word
from bickern.measure.finding import NOWHERE, Finding, stop
from bickern.measure.units.words import Read

Plain = str | list["Plain"] | dict[str, "Plain"]
"""Words that are not in a text yet: one value, a list, or a group."""


class AsTyped(str):
    """A list in brackets, to be put in letter for letter."""

    __slots__ = ()


Splice = tuple[int, int, str]
"""From where to where of a text, and what is put there."""

_ODD_IN_BRACES = re.compile(r"[,\[\]{}:]")
_ODD = re.compile(r":(\s|\Z)|\s#|[\x00-\x1f\x7f-\x9f\ufeff]|\A(---|\.\.\.)")
_ODD_START = re.compile(r"\A([,\[\]{}:#&*!|>'\"%@`\s]|-([\s,\[\]{}]|\Z))")


def value_of(plain: Plain) -> Value:
    """The value as if it had been read."""
    if isinstance(plain, AsTyped):
        return brackets(plain) or Word(plain, NOWHERE, 0, 0)
    if isinstance(plain, str):
        return Word(plain, NOWHERE, 0, 0)
    if isinstance(plain, list):
        return Items(tuple(value_of(p) for p in plain), NOWHERE, 0, 0, True)
    return Group(tuple(entry_of(k, v) for k, v in plain.items()), NOWHERE, 0, 0, True)


def brackets(said: str) -> Items | None:
    """The list that a text in brackets is, if it is one and nothing more."""
    top = page_of(f"x: {said}").top if said.startswith("[") and not BREAK.search(said) else None
    value = top.get("x") if top is not None else None
    whole = isinstance(value, Items) and value.flow and value.end == len(said) + 3
    return value if whole and isinstance(value, Items) else None


def entry_of(word: str, plain: Plain) -> Entry:
    """A word and its value as if they had been read."""
    return Entry(Word(word, NOWHERE, 0, 0), value_of(plain))


def fitting(said: str, in_braces: bool = True) -> str:
    """A text so that YAML reads it back: as it is where that can be, else in double quotes."""
    odd = not said or said[-1].isspace() or _ODD_START.search(said) or _ODD.search(said)
    if not odd and not (in_braces and _ODD_IN_BRACES.search(said)):
        return said
    return json.dumps(said, ensure_ascii=False).translate({0x85: "\\u0085", 0xFEFF: "\\ufeff", 0x7F: "\\u007f"})


def on_one_line(plain: Plain) -> str:
    """A value that is new to the text, in braces and brackets."""
    if isinstance(plain, str):
        return plain if isinstance(plain, AsTyped) else fitting(plain)
    if isinstance(plain, list):
        return "[" + ", ".join(on_one_line(p) for p in plain) + "]"
    return "{" + ", ".join(f"{fitting(k)}: {on_one_line(v)}" for k, v in plain.items()) + "}"


def as_lines(word: str, plain: Plain, newline: str) -> str:
    """A word with its value, as it stands on a line; groups in a list stand below, each behind its dash."""
    if isinstance(plain, list) and plain and all(isinstance(p, dict) for p in plain):
        return f"{fitting(word)}:" + "".join(f"{newline}  - {on_one_line(p)}" for p in plain)
    bare = isinstance(plain, str) and not isinstance(plain, AsTyped)
    return f"{fitting(word)}: {fitting(str(plain), False) if bare else on_one_line(plain)}"


def cannot(path: str) -> Read[str]:
    """No text, and the finding that it cannot be done from here."""
    says = f"the value at `{path[:80]}` cannot be changed alone"
    return Read(None, (stop("cannot-change", says, "change it in the file"),))


def nothing_there(path: str) -> Finding:
    """The finding that a path leads nowhere."""
    return stop("no-such-place", f"there is nothing at `{path[:80]}` to change", "look at the path")


def spliced(
    page: Page, source: str, splices: Sequence[Splice], meant: Value, path: str, gone: bool = False
) -> Read[str]:
    """The source with the splices done, if that says what is meant and keeps every remark.

    `gone`: remarks that stand in what is cut out go with it.
    """
    text, shift = page.text, len(source) - len(page.text)
    for start, end, new in sorted(splices, reverse=True):
        text = text[:start] + new + text[end:]
    after = page_of(text)
    if after.top is None or not same(after.top, meant):
        return cannot(path)
    cut = [(s, e) for s, e, _ in splices if gone]
    kept = Counter(r for at, r in remarks(page) if not any(s <= at < e for s, e in cut))
    if kept - Counter(r for _, r in remarks(after)):
        return cannot(path)
    return Read(source[:shift] + text)


def put_in(page: Page, holder: Group | Items, i: int, new: str) -> Splice:
    """New text put before the entry numbered i of a list or group, or behind the last."""
    text, count = page.text, len(holder.entries if isinstance(holder, Group) else holder.items)
    if holder.flow and not count:
        return holder.start + 1, holder.start + 1, new
    if i < count and (holder.flow or i == 0):
        start = child_span(holder, i, text)[0]
        return start, start, f"{new}, " if holder.flow else f"{new}{newline_at(text, start)}"
    end = child_span(holder, i - 1, text)[1]
    if holder.flow:
        return end, end, f", {new}"
    at = line_end(text, end)
    return at, at, f"{newline_at(text, child_span(holder, 0, text)[0])}{new}"


def newline_at(text: str, at: int) -> str:
    """A line break, and the blanks that bring a line under that place."""
    return break_of(text) + " " * (at - line_start(text, at))


def cut_out(page: Page, holder: Group | Items, i: int) -> list[Splice]:
    """What takes the entry numbered i out of a list or group that holds others too."""
    text, count = page.text, len(holder.entries if isinstance(holder, Group) else holder.items)
    start, end = child_span(holder, i, text)
    if holder.flow:
        return _cut_from_braces(page, holder, i, count)
    begin, finish = line_start(text, start), line_end(text, end)
    if not text[begin:start].strip():
        if past_break(text, finish) > finish:
            return [(begin, past_break(text, finish), "")]
        return [(line_end(text, _before_break(text, begin)), finish, "")]
    after = child_span(holder, i + 1, text)[0] if i + 1 < count else finish
    if text[finish:after].strip() or after < finish:
        return [(start, finish, "")]
    return [(start, after, "")]


def _before_break(text: str, begin: int) -> int:
    return begin - (2 if text[:begin].endswith("\r\n") else 1)


def _cut_from_braces(page: Page, holder: Group | Items, i: int, count: int) -> list[Splice]:
    text = page.text
    start, end = child_span(holder, i, text)
    if i + 1 < count:
        comma = _comma(page, end, child_span(holder, i + 1, text)[0])
        after = comma + 1
        while text[after] == " ":
            after += 1
        return [(start, end, ""), (end, comma, ""), (comma, after if text[after] not in "#\r\n" else comma + 1, "")]
    comma = _comma(page, child_span(holder, i - 1, text)[1], start)
    between = text[comma + 1 : start]
    if not between.strip(" "):
        return [(comma, end, "")]
    return [(comma, comma + 1, ""), (start, end, "")]


def _comma(page: Page, start: int, end: int) -> int:
    """The comma between two entries in braces, not one in a remark."""
    notes = [(at, at + len(r)) for at, r in remarks(page)]
    at = page.text.find(",", start, end)
    while at >= 0 and any(s <= at < e for s, e in notes):
        at = page.text.find(",", at + 1, end)
    return at if at >= 0 else start


def with_child(holder: Value, i: int, child: Value | Entry) -> Value:
    """The list or group with one more entry, before the one numbered i."""
    if isinstance(holder, Items) and not isinstance(child, Entry):
        return replace(holder, items=(*holder.items[:i], child, *holder.items[i:]))
    if isinstance(holder, Group) and isinstance(child, Entry):
        return replace(holder, entries=(*holder.entries[:i], child, *holder.entries[i:]))
    return holder


def without_child(holder: Value, i: int) -> Value:
    """The list or group without its entry numbered i."""
    if isinstance(holder, Items):
        return replace(holder, items=(*holder.items[:i], *holder.items[i + 1 :]))
    if isinstance(holder, Group):
        return replace(holder, entries=(*holder.entries[:i], *holder.entries[i + 1 :]))
    return holder


def place_by_table(at: Spot, word: str) -> int:
    """Where a new word of a group goes: behind those that stand before it in the table."""
    group = at.value
    if not isinstance(group, Group):
        return 0
    if at.form is None or at.named or at.form.key(word) is None:
        return len(group.entries)
    order = {k: n for n, k in enumerate(at.form.words())}
    before = [i for i, e in enumerate(group.entries) if order.get(e.key.text, -1) < order[word]]
    return max(before, default=-1) + 1
