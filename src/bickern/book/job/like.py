"""Repeats: a piece like another, a limb like its brother, stretches of a track like another's, written out in full."""

from dataclasses import dataclass, field, replace

from bickern.book.forms import YES
from bickern.book.text import Entry, Group, Items, Value, Word
from bickern.book.told import Reading, guess
from bickern.measure.finding import stop

TRACKS = ("metal", "path", "twist", "holes")
LIMBS = ("split", "weld on")
MOST_COPIES = 2000
"""Entries and limbs that `like` may write out in one job."""
LONGEST_CHAIN = 20
"""Pieces like one another in a row."""
_OWN = ("like", "make", "mirror")
"""Words of a piece that a copy does not take over as they are."""


@dataclass(slots=True)
class _Copies:
    """The pieces as written, and those written out so far."""

    pieces: dict[str, Group]
    reading: Reading
    whole: dict[str, Group] = field(default_factory=dict)
    tracks: dict[tuple[str, str], tuple[Value, ...]] = field(default_factory=dict)
    copied: int = 0
    kind: str = "piece"


def written_out(pieces: dict[str, Group], reading: Reading) -> dict[str, Group]:
    """The same pieces with what they are like; only where that fails `like` stays, and a finding says why."""
    copies = _Copies(pieces, reading)
    return {name: _with_limbs(copies, _with_tracks(copies, name, _whole(copies, name, ())))[0] for name in pieces}


def _whole(copies: _Copies, name: str, before: tuple[str, ...]) -> Group:
    """A piece with all that it takes over from the piece it is like."""
    if name in copies.whole:
        return copies.whole[name]
    own = copies.pieces[name]
    other = own.get("like")
    if other is None:
        return own
    base = _base(copies, name, other, before)
    copies.whole[name] = own if base is None else _put_in_place(base, own)
    return copies.whole[name]


def _base(copies: _Copies, name: str, other: Value, before: tuple[str, ...]) -> Group | None:
    if not isinstance(other, Word):
        says = f"`like` takes the name of one {copies.kind}"
        copies.reading.say(stop("one-value", says, "write `like: NAME`"), other.where)
        return None
    said = " ".join(other.text.split())
    if said not in copies.pieces:
        says = f"no {copies.kind} is named `{said}`"
        copies.reading.say(stop("unknown-piece", says, guess(said, tuple(copies.pieces))), other.where)
        return None
    if said == name or said in before or len(before) > LONGEST_CHAIN:
        says = f"`{name}` is like `{said}`, which is like `{name}` in the end: none of them says what it is"
        copies.reading.say(stop("like-cycle", says, "write one of them out"), other.where)
        return None
    return _whole(copies, said, (*before, name))


def _put_in_place(base: Group, own: Group) -> Group:
    """The base's entries, with the piece's own in their place or behind them."""
    mine = {e.key.text: e for e in own.entries if e.key.text != "like"}
    kept = [mine.pop(e.key.text, e) for e in base.entries if e.key.text not in _OWN or e.key.text in mine]
    twice = _says_yes(base) and _says_yes(own)
    found = [*kept, *mine.values(), *([m] if (m := _mirror(base)) and "mirror" not in own.words() else [])]
    return replace(own, entries=tuple(e for e in found if not (twice and e.key.text == "mirror")))


def _mirror(group: Group) -> Entry | None:
    return next((e for e in group.entries if e.key.text == "mirror"), None)


def _says_yes(group: Group) -> bool:
    entry = _mirror(group)
    return entry is not None and isinstance(entry.value, Word) and entry.value.text.strip().lower() in YES


def _without(group: Group, word: str) -> Group:
    return replace(group, entries=tuple(e for e in group.entries if e.key.text != word))


def _with_tracks(copies: _Copies, name: str, group: Group) -> Group:
    entries = tuple(
        Entry(e.key, replace(items, items=_track(copies, name, e.key.text, ())))
        if e.key.text in TRACKS and (items := _as_items(e.value)) is not None
        else e
        for e in group.entries
    )
    return replace(group, entries=entries)


def _as_items(value: Value) -> Items | None:
    """A track as a list: one group alone is a list of one."""
    if isinstance(value, Group):
        return Items((value,), value.where, value.start, value.end, value.flow)
    return value if isinstance(value, Items) else None


def _track(copies: _Copies, name: str, track: str, before: tuple[str, ...]) -> tuple[Value, ...]:
    """The entries of one track of one piece, each `like` replaced by what it speaks of."""
    known = copies.tracks.get((name, track))
    if known is not None:
        return known
    value = _whole(copies, name, ()).get(track)
    items = value.items if isinstance(value, Items) else (value,) if value is not None else ()
    found = _written_items(copies, items, (name, track), before)
    copies.tracks[(name, track)] = found
    return found


def _like_entries(
    copies: _Copies, item: Group, like: Value, here: tuple[str, str], before: tuple[str, ...]
) -> tuple[Value, ...]:
    name, track = here
    piece, _, part = (like.text if isinstance(like, Word) else "").strip().partition(".")
    if piece not in copies.pieces or not part:
        says = "`like` in a track wants a piece and the name of its entries, as `poker.handle`"
        copies.reading.say(stop("unknown-piece", says, guess(piece, tuple(copies.pieces))), like.where)
        return ()
    if piece == name or piece in before or len(before) > LONGEST_CHAIN:
        says = f"the {track} of `{name}` is like that of `{piece}`, and that one like this"
        copies.reading.say(stop("like-cycle", says, "write one of them out"), like.where)
        return ()
    theirs = _track(copies, piece, track, (*before, name))
    found = [e for e in theirs if isinstance(e, Group) and part in (_said(e, "name"), _said(e, "group"))]
    if not found:
        names = tuple(n for e in theirs if isinstance(e, Group) for n in (_said(e, "name"), _said(e, "group")) if n)
        says = f"no entry in the {track} of `{piece}` is named `{part}`"
        copies.reading.say(
            stop("unknown-place", says, guess(part, names) if names else "give it a `name:`"), like.where
        )
    copies.copied += len(found)
    if copies.copied > MOST_COPIES:
        copies.reading.say(stop("too-large", f"`like` writes out more than {MOST_COPIES} entries", ""), like.where)
        return ()
    own = _without(item, "like")
    return tuple(_put_in_place(e, own) for e in found)


def _said(group: Group, word: str) -> str:
    value = group.get(word)
    return " ".join(value.text.split()) if isinstance(value, Word) else ""


def _with_limbs(copies: _Copies, group: Group) -> tuple[Group, int]:
    """A bar with its limbs and branches written out, and how many there are, those within limbs too."""
    entries, count = [], 0
    for entry in group.entries:
        value = entry.value
        if entry.key.text in LIMBS and isinstance(value, Group):
            value, more = _written_limbs(copies, value)
            count += more
        entries.append(Entry(entry.key, value))
    return replace(group, entries=tuple(entries)), count


def _written_limbs(copies: _Copies, limbs: Group) -> tuple[Group, int]:
    """Limbs of one bar, each with what it is like among its brothers and with the tracks it takes over."""
    brothers = {" ".join(e.key.text.split()): e.value for e in limbs.entries if isinstance(e.value, Group)}
    near = _Copies(brothers, copies.reading, kind="limb beside it")
    found, count = [], 0
    for entry in limbs.entries:
        value = entry.value
        if isinstance(value, Group):
            name = " ".join(entry.key.text.split())
            value, inside = _with_limbs(copies, _limb_tracks(copies, _whole(near, name, ())))
            count += 1 + inside
            copies.copied += 1 + inside if brothers[name].get("like") is not None else 0
        if copies.copied > MOST_COPIES:
            says = f"`like` writes out more than {MOST_COPIES} limbs"
            copies.reading.say(stop("too-large", says, ""), limbs.where)
            return replace(limbs, entries=()), 0
        found.append(Entry(entry.key, value))
    return replace(limbs, entries=tuple(found)), count


def _limb_tracks(copies: _Copies, limb: Group) -> Group:
    entries = []
    for entry in limb.entries:
        track = _as_items(entry.value) if entry.key.text in TRACKS else None
        if track is not None:
            track = replace(track, items=_written_items(copies, track.items, ("", entry.key.text), ()))
        entries.append(Entry(entry.key, track or entry.value))
    return replace(limb, entries=tuple(entries))


def _written_items(
    copies: _Copies, items: tuple[Value, ...], here: tuple[str, str], before: tuple[str, ...]
) -> tuple[Value, ...]:
    found: list[Value] = []
    for item in items:
        like = item.get("like") if isinstance(item, Group) else None
        if isinstance(item, Group) and like is not None:
            found += _like_entries(copies, item, like, here, before)
        else:
            found.append(item)
    return tuple(found)
