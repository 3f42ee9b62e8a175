"""Whole pieces of a job put in, copied, renamed and taken out; what names a piece follows its new name."""

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from bickern.book.job.edit import insert_word, take_out
from bickern.book.job.like import LIMBS, TRACKS
from bickern.book.job.splice import Plain, Splice, cannot, fitting, newline_at, put_in, spliced, value_of, with_child
from bickern.book.job.spots import (
    BREAK,
    Spot,
    break_of,
    child_span,
    entry_end,
    line_end,
    line_start,
    one_blank,
    page_of,
    spot,
)
from bickern.book.text import Entry, Group, Items, Page, Value, Word
from bickern.book.told import Reading, named
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read, System

_ONE_OF = re.compile(r"(.+) (\d{1,6})")
_EMPTY_LINE = re.compile(r"(\r\n|[\r\n\x85])[ \t]*(\r\n|[\r\n\x85])\Z")
_LINKS = ("through", "round", "on", "weld", "ring", "hook")
"""Words of a join that name pieces or places on them."""

BEGINNINGS: dict[System, dict[str, dict[str, Plain]]] = {
    System.INCH: {
        "bar": {"bar": "1/2 sq", "metal": [{"keep": "12", "name": "stem"}]},
        "ring": {"ring": "1/4 rd", "inside across": "2", "closed": "butted"},
        "sheet": {"sheet": "1/16", "surface": {"cylinder": {"across": "4", "height": "6", "sizes": "mean"}}},
    },
    System.MM: {
        "bar": {"bar": "12 sq", "metal": [{"keep": "300", "name": "stem"}]},
        "ring": {"ring": "6 rd", "inside across": "50", "closed": "butted"},
        "sheet": {"sheet": "1.5", "surface": {"cylinder": {"across": "100", "height": "150", "sizes": "mean"}}},
    },
}
"""What a new piece is until it is changed: sizes to begin from, in the job's own units."""


def add_piece(text: str, name: str, kind: str) -> Read[str]:
    """The text with a new piece of that kind (bar, ring or sheet) behind the others."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    fault = _unfit(page.top, name) or _no_kind(kind)
    if fault is not None:
        return Read(None, (fault,))
    plain = _beginning(page.top, kind)
    at = spot(page.top, "pieces")
    path = f"pieces.{name}"
    if at.rest:
        return insert_word(page, text, at, "pieces", {name: plain}, path)
    if isinstance(at.value, Word) and not at.value.text:
        return _first_piece(page, text, at, name, plain)
    if not isinstance(at.value, Group):
        return cannot("pieces")
    if at.value.flow or not at.value.entries:
        if not at.value.entries and at.value.flow and not page.text[at.value.start + 1 : at.value.end - 1].strip():
            return _first_piece(page, text, at, name, plain)
        return insert_word(page, text, at, name, plain, path)
    newline = newline_at(page.text, at.value.entries[0].key.start)
    return _put_behind(page, text, at.value, len(at.value.entries), _lines(name, plain, newline),
                       Entry(_word(name), value_of(plain)))  # fmt: skip


def _first_piece(page: Page, text: str, at: Spot, name: str, plain: dict[str, Plain]) -> Read[str]:
    """The first piece of a job whose `pieces` is empty."""
    top, old = at.chain[0], at.value
    key = top.entries[at.way[-1]].key if isinstance(top, Group) else None
    if key is None or not isinstance(top, Group):
        return cannot("pieces")
    newline = newline_at(page.text, key.start) + "  "
    start, end = (old.start, old.end) if old.end > old.start else (old.end, old.end)
    while page.text[start - 1] == " ":
        start -= 1
    rest = page.text[end : line_end(page.text, end)]
    splices = [(start, end + len(rest), rest + newline + _lines(name, plain, newline))]
    entries = tuple(replace(e, value=value_of({name: plain})) if e.key is key else e for e in top.entries)
    return spliced(page, text, splices, replace(top, entries=entries), "pieces")


def _word(text: str) -> Word:
    from bickern.measure.finding import NOWHERE

    return Word(text, NOWHERE, 0, 0)


def _lines(name: str, plain: dict[str, Plain], newline: str) -> str:
    """A piece as lines below its name."""
    from bickern.book.job.splice import as_lines

    inner = newline + "  "
    return f"{fitting(name)}:" + "".join(f"{inner}{as_lines(w, v, inner)}" for w, v in plain.items())


def _put_behind(page: Page, text: str, group: Group, i: int, new: str, entry: Entry) -> Read[str]:
    """A piece put in before the one numbered i, with an empty line before it where the others have one."""
    at, _, put = put_in(page, group, i, new)
    gap = break_of(page.text) if not group.flow and _apart(page, group) else ""
    top = page.top
    if top is None:
        return cannot("pieces")
    entries = tuple(replace(e, value=with_child(e.value, i, entry)) if e.value is group else e for e in top.entries)
    return spliced(page, text, [(at, at, gap + put)], replace(top, entries=entries), f"pieces.{entry.key.text}")


def _apart(page: Page, group: Group) -> bool:
    """Whether empty lines stand between the pieces, or before `pieces` where there is but one."""
    text = page.text
    spans = [child_span(group, i, text) for i in range(len(group.entries))]
    between = [text[a[1] : b[0]] for a, b in pairwise(spans)]
    if not between:
        between = [text[: group.start]]
    return any(re.search(r"(\r\n|[\r\n\x85])[ \t]*(\r\n|[\r\n\x85])", gap) for gap in between)


def copy_piece(text: str, name: str, new: str) -> Read[str]:
    """The text with all that is written of a piece, remarks too, once more under a new name, behind it."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    group, i = _piece(page.top, name)
    fault = _unfit(page.top, new)
    if group is None or fault is not None:
        return Read(None, (fault or _unknown(name),))
    entry = group.entries[i]
    end = entry_end(entry, page.text)
    written = page.text[entry.key.end : end if group.flow else line_end(page.text, end)]
    copied = Entry(_word(one_blank(new)), entry.value)
    return _put_behind(page, text, group, i + 1, fitting(one_blank(new), group.flow) + written, copied)


def drop_piece(text: str, name: str) -> Read[str]:
    """The text without that piece, and without one of two empty lines round it; joins that name it stay."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    group, i = _piece(page.top, name)
    if group is None:
        return Read(None, (_unknown(name),))
    done = take_out(text, f"pieces.{group.entries[i].key.text}")
    if done.value is None or group.flow or len(group.entries) < 2:
        return done
    # the empty line before the piece and the one behind it would now stand together: one of them goes
    at = line_start(page.text, child_span(group, i, page.text)[0]) + len(text) - len(page.text)
    head, tail = done.value[:at], done.value[at:]
    blank = re.match(r"[ \t]*(\r\n|[\r\n\x85])", tail)
    if blank is None or not _EMPTY_LINE.search(head):
        return done
    return Read(head + tail[blank.end() :])


def rename_piece(text: str, name: str, new: str) -> Read[str]:
    """The text with a piece under another name, in joins, the hanger and every `like` that names it too."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    group, i = _piece(page.top, name)
    old, now = one_blank(name), one_blank(new)
    fault = _unknown(name) if group is None else None if old == now else _unfit(page.top, now)
    if group is None or fault is not None:
        return Read(None, (fault or _unknown(name),))
    names = tuple(one_blank(e.key.text) for e in group.entries)
    after = tuple(now if n == old else n for n in names)
    changed: dict[int, tuple[Word, str]] = {group.entries[i].key.start: (group.entries[i].key, now)}
    for word, kind in _naming(page.top):
        said = _renamed(word.text, kind, old, now, names)
        if _whom(said or word.text, kind, after) != _whom(word.text, kind, names, old, now):
            return Read(None, (_means_another(now, word.text),))
        if said is not None:
            changed[word.start] = (word, said)
    return _all_put(page, text, changed, f"pieces.{name}")


def _all_put(page: Page, text: str, changed: dict[int, tuple[Word, str]], path: str) -> Read[str]:
    """Words of the text, by where they stand, each with another in its place."""
    splices: list[Splice] = [(w.start, w.end, fitting(said)) for w, said in changed.values()]
    if page.top is None:
        return cannot(path)
    return spliced(page, text, splices, _with(page.top, {at: said for at, (_, said) in changed.items()}), path)


def _with(value: Value, said: dict[int, str]) -> Value:
    if isinstance(value, Word):
        return replace(value, text=said.get(value.start, value.text)) if value.end > value.start else value
    if isinstance(value, Items):
        return replace(value, items=tuple(_with(v, said) for v in value.items))
    entries = (replace(e, key=replace(e.key, text=said.get(e.key.start, e.key.text)), value=_with(e.value, said))
               for e in value.entries)  # fmt: skip
    return replace(value, entries=tuple(entries))


def _naming(top: Group) -> Iterator[tuple[Word, str]]:
    """Every word that names a piece: `whole` (a piece alone), `track` (piece.entry), `link` (also one of several)."""
    joins, hang, pieces = top.get("joins"), top.get("hang"), top.get("pieces")
    for join in joins.items if isinstance(joins, Items) else (joins,):
        for word in _LINKS if isinstance(join, Group) else ():
            yield from ((w, "link") for w in _words(join.get(word) if isinstance(join, Group) else None))
    if isinstance(hang, Group):
        yield from ((w, "link") for w in _words(hang.get("from")))
    for entry in pieces.entries if isinstance(pieces, Group) else ():
        if isinstance(entry.value, Group):
            yield from ((w, "whole") for w in _words(entry.value.get("like")))
            yield from _in_tracks(entry.value)


def _in_tracks(bar: Group) -> Iterator[tuple[Word, str]]:
    for track in TRACKS:
        items = bar.get(track)
        for item in items.items if isinstance(items, Items) else (items,):
            if isinstance(item, Group):
                yield from ((w, "track") for w in _words(item.get("like")))
    for word in LIMBS:
        limbs = bar.get(word)
        for entry in limbs.entries if isinstance(limbs, Group) else ():
            if isinstance(entry.value, Group):
                yield from _in_tracks(entry.value)


def _words(value: Value | None) -> tuple[Word, ...]:
    if isinstance(value, Word):
        return (value,)
    return tuple(i for i in value.items if isinstance(i, Word)) if isinstance(value, Items) else ()


def _whom(said: str, kind: str, names: tuple[str, ...], old: str = "", new: str = "") -> tuple[str, str, str]:
    """The piece, which one of several, and the part that a word names; `old` is told by its new name."""
    piece, _, part = one_blank(said).partition(".") if kind != "whole" else (one_blank(said), "", "")
    number = ""
    one = _ONE_OF.fullmatch(piece)
    if kind == "link" and piece not in names and one is not None and one.group(1) in names:
        piece, number = one.groups()
    return (new if old and piece == old else piece), number, part


def _renamed(said: str, kind: str, old: str, new: str, names: tuple[str, ...]) -> str | None:
    """The same place on the renamed piece; None where it is on another."""
    piece, number, _ = _whom(said, kind, names)
    if piece != old:
        return None
    _, dot, part = said.partition(".") if kind != "whole" else ("", "", "")
    return f"{new}{f' {number}' if number else ''}{dot}{part}"


def _piece(top: Group, name: str) -> tuple[Group | None, int]:
    pieces = top.get("pieces")
    for i, entry in enumerate(pieces.entries if isinstance(pieces, Group) else ()):
        if one_blank(entry.key.text) == one_blank(name) and isinstance(pieces, Group):
            return pieces, i
    return None, 0


def _unknown(name: str) -> Finding:
    return stop("unknown-piece", f"no piece is named `{name[:60]}`", "was it renamed or taken out?")


def _means_another(new: str, said: str) -> Finding:
    says = f"`{said}` would then mean another piece than it does now"
    return stop("bad-name", says, f"give another name than `{new}`")


def _unfit(top: Group, name: str) -> Finding | None:
    """Why a new piece cannot have that name."""
    reading = Reading()
    said = named(reading, _word(name))
    if reading.findings or BREAK.search(name):
        return reading.findings[0] if reading.findings else stop("bad-name", "a name stands on one line", "")
    if _piece(top, said)[0] is not None:
        return stop("said-twice", f"two pieces are named `{said}`", "give another name")
    return None


def _no_kind(kind: str) -> Finding | None:
    known = tuple(BEGINNINGS[System.INCH])
    if kind in known:
        return None
    return stop("not-a-choice", f"a piece is made from {', '.join(known)}, not from `{kind[:40]}`", "choose one")


def _beginning(top: Group, kind: str) -> dict[str, Plain]:
    """In the job's units; with the unit on every size where the job does not say any."""
    said = top.get("units")
    word = said.text.strip().lower() if isinstance(said, Word) else ""
    if word in [str(s) for s in System]:
        return BEGINNINGS[System(word)][kind]
    return {w: _with_unit(v) for w, v in BEGINNINGS[System.MM][kind].items()}


def _with_unit(plain: Plain) -> Plain:
    if isinstance(plain, dict):
        return {w: _with_unit(v) for w, v in plain.items()}
    if isinstance(plain, list):
        return [_with_unit(p) for p in plain]
    return re.sub(r"^([\d.]+)", r"\1 mm", plain)
