"""A job file edited by hand's breadth: words, entries and pieces put in, taken out and moved; all else stays.

Every edit gives the new text, or no text and a finding. What it gives has been read again: it says what was meant and
nothing else, and every remark that is not part of what was taken out is still there, letter for letter.
"""

from dataclasses import replace

from bickern.book.forms import Takes
from bickern.book.job.splice import (
    AsTyped,
    Plain,
    Splice,
    as_lines,
    brackets,
    cannot,
    cut_out,
    entry_of,
    fitting,
    newline_at,
    nothing_there,
    on_one_line,
    place_by_table,
    put_in,
    spliced,
    value_of,
    with_child,
    without_child,
)
from bickern.book.job.spots import (
    Spot,
    altered,
    at_way,
    break_of,
    child_span,
    dash_before,
    last_sign,
    line_end,
    line_start,
    page_of,
    spot,
)
from bickern.book.job.words import FORMS
from bickern.book.text import Entry, Group, Items, Page, Value, Word
from bickern.measure.units.words import Read

IN_BRACKETS = (
    Takes.TEXTS, Takes.PAIR, Takes.PAIRS, Takes.SHARES, Takes.SHIFT, Takes.SIDES, Takes.LINKS, Takes.LENGTHS,
    Takes.COUNTS, Takes.SHARES_OF_THREE, Takes.OFFERED,
)  # fmt: skip
"""What may be written as a list in brackets."""


def put(text: str, path: str, said: str) -> Read[str]:
    """The text with that value at the path; a word that is not there is added to its group, and groups to hold it.

    `[1/2, 0]` behind a word that takes several values is a list; all else is one value, in quotes where need be.
    """
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    at = spot(page.top, path)
    if at.rest:
        return _grown(page, text, at, path, said)
    value: Plain = AsTyped(said) if _takes_several(at) and brackets(said) is not None else said
    old = at.value
    if isinstance(old, Items) and one_line_list(old, page.text):
        new = on_one_line(value) if _in_braces(at) or isinstance(value, AsTyped) else fitting(said, False)
        return _replaced(page, text, at, (old.start, old.end, new), value, path)
    if isinstance(old, Items) and not old.flow and all(isinstance(i, Word) for i in old.items):
        return _put_lines(text, path, len(old.items), said)
    if not isinstance(old, Word):
        return cannot(path)
    end = last_sign(old, page.text)
    written = (
        value if isinstance(value, AsTyped) else _as_before(page.text[old.start : end], old.text, said, _in_braces(at))
    )
    return _replaced(page, text, at, (old.start, end, _behind(page, at, old, written)), value, path)


def _put_lines(text: str, path: str, count: int, said: str) -> Read[str]:
    """A list of texts that stand below one another, told as lines: each line is one of them, from the first on."""
    lines = said.rstrip("\n").split("\n")
    done = Read(text)
    for i in range(max(count, len(lines)), 0, -1):
        if done.value is not None and i > len(lines):
            done = take_out(done.value, f"{path}[{i}]")
    for i, line in enumerate(lines, 1):
        if done.value is not None:
            done = put(done.value, f"{path}[{i}]", line) if i <= count else add_entry(done.value, path, line)
    return done


def _takes_several(at: Spot) -> bool:
    return at.key is not None and at.key.takes in IN_BRACKETS


def one_line_list(value: Items, text: str) -> bool:
    """Whether a list stands in brackets on one line and holds values, not groups: then a form can show it as one."""
    return (
        value.flow and not any(isinstance(i, Group) for i in value.items) and line_end(text, value.start) >= value.end
    )


def _in_braces(at: Spot) -> bool:
    return any(isinstance(v, Group | Items) and v.flow for v in at.chain[:-1])


def _behind(page: Page, at: Spot, old: Word, written: str) -> str:
    """The value with the blank, and the colon, that an empty place still lacks."""
    if old.start != old.end:
        return written
    holder = at.parent
    if isinstance(holder, Group) and page.text[old.start - 1] != ":":
        return f": {written}"
    return written if page.text[old.start - 1] == " " else f" {written}"


def _as_before(raw: str, old: str, said: str, in_braces: bool) -> str:
    """In quotes where it must be, or where the old value had them and did not need them: then a person wanted them."""
    bare = fitting(said, in_braces)
    if raw[:1] == "'" and old:
        return "'" + said.replace("'", "''") + "'" if said.isprintable() else bare
    if raw[:1] == '"' and old and bare == said and fitting(old, in_braces) == old:
        return f'"{said}"' if "\\" not in said and '"' not in said else bare
    return bare


def _replaced(page: Page, text: str, at: Spot, splice: Splice, value: Plain, path: str) -> Read[str]:
    meant = altered(at.chain[0], at.way, lambda _: value_of(value))
    return spliced(page, text, [splice], meant, path)


def _grown(page: Page, text: str, at: Spot, path: str, plain: Plain) -> Read[str]:
    """A word that is not there yet put in, with the groups that are to hold it."""
    first, *more = at.rest.removeprefix(".").split(".")
    if "[" in at.rest or not all((first, *more)) or not _may_hold(at, (first, *more)):
        return Read(None, (nothing_there(path),))
    for word in reversed(more):
        plain = {word: plain}
    if isinstance(at.value, Word) and not at.value.text and at.parent is not None:
        new = _behind(page, at, at.value, on_one_line({first: plain}))
        end = last_sign(at.value, page.text)
        return _replaced(page, text, at, (at.value.start, end, new), {first: plain}, path)
    if not isinstance(at.value, Group):
        return Read(None, (nothing_there(path),))
    if isinstance(plain, str) and at.form is not None and not at.named:
        key = at.form.key(first)
        plain = AsTyped(plain) if key and key.takes in IN_BRACKETS and brackets(plain) is not None else plain
    return insert_word(page, text, at, first, plain, path)


def _may_hold(at: Spot, words: tuple[str, ...]) -> bool:
    """Whether each word but the last is one that holds a group, by the table."""
    form, named = at.form, at.named
    for word in words[:-1]:
        key = form.key(word) if form is not None and not named else None
        if key is None or key.takes not in (Takes.GROUP, Takes.NAMED):
            return False
        form, named = FORMS.get(key.form), key.takes is Takes.NAMED
    return True


def insert_word(page: Page, text: str, at: Spot, word: str, plain: Plain, path: str) -> Read[str]:
    """A new word put into the group at that spot, where the table of words has it."""
    group = at.value
    if not isinstance(group, Group) or word in group.words():
        return cannot(path)
    i = place_by_table(at, word)
    if group.flow or not group.entries:
        new = f"{fitting(word)}: {on_one_line(plain)}"
    else:
        new = as_lines(word, plain, newline_at(page.text, group.entries[0].key.start))
    meant = altered(at.chain[0], at.way, lambda v: with_child(v, i, entry_of(word, plain)))
    return spliced(page, text, [put_in(page, group, i, new)], meant, path)


def add_word(text: str, path: str, word: str, plain: Plain) -> Read[str]:
    """The text with a new word in the group at the path ("": the job itself), in the way that group is written."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    at = spot(page.top, path)
    if at.rest or not isinstance(at.value, Group):
        at = replace(at, rest=f"{at.rest}.{word}") if path else at
        return _grown(page, text, at, path, plain)
    return insert_word(page, text, at, word, plain, f"{path}.{word}")


def add_entry(text: str, path: str, plain: Plain) -> Read[str]:
    """The text with an entry more in the list at the path, in that list's own way; a list not there is added."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    at = spot(page.top, path)
    if at.rest:
        return _grown(page, text, at, path, [plain])
    if isinstance(at.value, Items):
        return _one_more(page, text, at, plain, path)
    if isinstance(at.value, Word) and not at.value.text:
        new = _behind(page, at, at.value, on_one_line([plain]))
        return _replaced(page, text, at, (at.value.start, last_sign(at.value, page.text), new), [plain], path)
    return _two_of_one(page, text, at, plain, path)


def _one_more(page: Page, text: str, at: Spot, plain: Plain, path: str) -> Read[str]:
    items = at.value
    if not isinstance(items, Items):
        return cannot(path)
    count = len(items.items)
    meant = altered(at.chain[0], at.way, lambda v: with_child(v, count, value_of(plain)))
    if not count and not _in_braces(at):
        return _replaced(page, text, at, _first_below(page, at, items, plain), [plain], path)
    last = items.items[-1] if count else None
    if items.flow or last is None:
        return spliced(page, text, [put_in(page, items, count, on_one_line(plain))], meant, path)
    dash = dash_before(last, page.text)
    new = f"- {fitting(plain, False) if isinstance(plain, str) else on_one_line(plain)}"
    if isinstance(last, Group) and not last.flow and isinstance(plain, dict):
        newline = newline_at(page.text, dash) + "  "
        new = "- " + newline.join(as_lines(w, v, newline) for w, v in plain.items())
    return spliced(page, text, [put_in(page, items, count, new)], meant, path)


def _first_below(page: Page, at: Spot, items: Items, plain: Plain) -> Splice:
    """The first entry of a list that is empty, `[]`: on a line of its own below its word."""
    holder = at.parent
    if not isinstance(holder, Group) or not isinstance(plain, dict):
        return items.start, items.end, on_one_line([plain])
    key = holder.entries[at.way[-1]].key
    begin = items.start - 1 if page.text[items.start - 1] == " " else items.start
    return begin, items.end, f"{newline_at(page.text, key.start)}  - {on_one_line(plain)}"


def _two_of_one(page: Page, text: str, at: Spot, plain: Plain, path: str) -> Read[str]:
    """A group that stands alone where a list may stand becomes the first of two."""
    one = at.value
    if not isinstance(one, Group) or not one.flow or at.named:
        return cannot(path)
    meant = altered(at.chain[0], at.way, lambda v: with_child(with_child(value_of([]), 0, v), 1, value_of(plain)))
    return spliced(
        page, text, [(one.start, one.start, "["), (one.end, one.end, f", {on_one_line(plain)}]")], meant, path
    )


def take_out(text: str, path: str) -> Read[str]:
    """The text without the word, entry or piece at the path, its lines and the remarks on them.

    The last entry of a list takes the list's word with it; the last word of a group leaves `{}`.
    """
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    at = spot(page.top, path)
    if at.rest or at.parent is None:
        return Read(None, (nothing_there(path),))
    chain, way = at.chain, at.way
    while isinstance(chain[-2], Items) and len(chain[-2].items) == 1 and len(chain) > 2:
        chain, way = chain[:-1], way[:-1]
    holder = chain[-2]
    if not isinstance(holder, Group | Items):
        return cannot(path)
    alone = isinstance(holder, Group) and len(holder.entries) == 1
    splices = _emptied(page, chain, way) if alone else cut_out(page, holder, way[-1])
    meant = altered(chain[0], way[:-1], lambda v: without_child(v, way[-1]))
    return spliced(page, text, splices, meant, path, gone=True)


def _emptied(page: Page, chain: tuple[Value, ...], way: tuple[int, ...]) -> list[Splice]:
    """The only word of a group taken out: braces stay."""
    group, holder = chain[-2], chain[-3] if len(chain) > 2 else None
    if not isinstance(group, Group):
        return []
    start, end = child_span(group, 0, page.text)
    if group.flow:
        return [(start, end, "")]
    if not isinstance(holder, Group) or line_start(page.text, start) <= holder.entries[way[-2]].key.start:
        return [(start, end, "{}")]
    key = holder.entries[way[-2]].key
    colon = page.text.index(":", key.end) + 1
    return [(colon, colon, " {}"), *cut_out(page, group, 0)]


def move(text: str, path: str, by: int) -> Read[str]:
    """The text with the entry, word or piece at the path so many places further down (up: below 0) among its brothers.

    The lines of remarks right above it, in its own column, go with it. At the end of the list it stays there.
    """
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    at = spot(page.top, path)
    holder = at.parent
    if at.rest or not isinstance(holder, Group | Items):
        return Read(None, (nothing_there(path),))
    count = len(holder.entries if isinstance(holder, Group) else holder.items)
    i = at.way[-1]
    way = at.way
    for _ in range(abs(max(-i, min(by, count - 1 - i)))):
        done = _swapped(text, way, i if by > 0 else i - 1, path)
        if done.value is None:
            return done
        i += 1 if by > 0 else -1
        text = done.value
    return Read(text)


def _swapped(text: str, way: tuple[int, ...], i: int, path: str) -> Read[str]:
    """Two neighbours, numbered i and i + 1, in each other's place."""
    page = page_of(text)
    holder = None if page.top is None else at_way(page.top, way[:-1])
    if page.top is None or not isinstance(holder, Group | Items):
        return cannot(path)
    (a, b), (c, d) = _chunk(page, holder, i), _chunk(page, holder, i + 1)
    new = page.text[c:d] + page.text[b:c] + page.text[a:b]
    meant = altered(page.top, way[:-1], lambda v: _exchanged(v, i))
    return spliced(page, text, [(a, d, new)], meant, path)


def _exchanged(holder: Value, i: int) -> Value:
    if isinstance(holder, Items):
        first, second = holder.items[i : i + 2]
        return replace(holder, items=(*holder.items[:i], second, first, *holder.items[i + 2 :]))
    if isinstance(holder, Group):
        one, two = holder.entries[i : i + 2]
        return replace(holder, entries=(*holder.entries[:i], two, one, *holder.entries[i + 2 :]))
    return holder


def _chunk(page: Page, holder: Group | Items, i: int) -> tuple[int, int]:
    """An entry with the remark lines right above it, to the end of its last line."""
    text = page.text
    start, end = child_span(holder, i, text)
    if holder.flow:
        return start, end
    begin, column = start, start - line_start(text, start)
    if text[line_start(text, start) : start].strip():
        return start, line_end(text, end)
    while line_start(text, begin) > 0:
        above = line_start(text, line_start(text, begin) - len(break_of(text)))
        line = text[above : line_end(text, above)]
        if not line.startswith(" " * column + "#"):
            break
        begin = above + column
    return begin, line_end(text, end)


def entry_named(entry: Entry, word: str) -> Entry:
    """The same entry under another word."""
    return replace(entry, key=replace(entry.key, text=word))


def rename_word(text: str, path: str, word: str) -> Read[str]:
    """The text with another word before the colon of what stands at the path."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    at = spot(page.top, path)
    holder = at.parent
    if at.rest or not isinstance(holder, Group) or word in holder.words():
        return Read(None, (nothing_there(path),)) if at.rest else cannot(path)
    i = at.way[-1]
    entries = (*holder.entries[:i], entry_named(holder.entries[i], word), *holder.entries[i + 1 :])
    meant = altered(page.top, at.way[:-1], lambda v: replace(v, entries=entries) if isinstance(v, Group) else v)
    key = holder.entries[i].key
    return spliced(page, text, [(key.start, key.end, fitting(word, holder.flow))], meant, path)
