"""Whom joins and hangers speak of: pieces, single ones of several, and the named parts of them."""

import re
from dataclasses import dataclass

from bickern.book.job.asked import Spec
from bickern.book.text import Group, Items, Value, Word
from bickern.book.told import Told, guess
from bickern.measure.finding import Where, stop
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.ring.spec import RingSpec
from bickern.parts.sheet.spec import SheetSpec

_BAR_PARTS = ("start", "end", "middle", "bar")
_RING_PARTS = ("inside", "joint")
_SHEET_PARTS = ("top", "bottom", "seam", "rim", "middle", "edge", "front", "back", "left", "right")
_WHERE_MADE = ("holes", "lugs")
"""Places that are there only where the piece tells of some."""
_ONE_OF = re.compile(r"(.+) (\d{1,6})")
_PART_OF = re.compile(r"(?:start|middle|end) of (.+)")


@dataclass(frozen=True, slots=True)
class Who:
    """Every piece's parts by name, how many of it there are (0: not known), and the pieces that could be read."""

    parts: dict[str, tuple[str, ...]]
    counts: dict[str, int]
    specs: dict[str, Spec]


def who_is_there(groups: dict[str, Group], specs: dict[str, Spec]) -> Who:
    """From the pieces as written (so that a fault in one does not make its names unknown) and as read."""
    counts = {name: _count(specs[name]) if name in specs else 0 for name in groups}
    return Who({name: _parts(group) for name, group in groups.items()}, counts, specs)


def _count(spec: Spec) -> int:
    """Pieces there are of a kind; a chain told by its length has a number of links not known yet."""
    if isinstance(spec, RingSpec) and spec.chain is not None:
        return (spec.chain.links or 0) * spec.make
    return spec.make


def _parts(group: Group) -> tuple[str, ...]:
    words = group.words()
    own = _SHEET_PARTS if "sheet" in words else _RING_PARTS if "ring" in words else _BAR_PARTS
    found = [*own, *(word for word in _WHERE_MADE if word in words)]
    for word in ("metal", "path", "twist", "holes", "lugs"):
        found += _names_in(group.get(word))
    for word in ("split", "weld on"):
        limbs = group.get(word)
        for entry in limbs.entries if isinstance(limbs, Group) else ():
            found.append(entry.key.text)
            found += _parts(entry.value) if isinstance(entry.value, Group) else ()
    return tuple(dict.fromkeys(found))


def _names_in(track: Value | None) -> list[str]:
    items = track.items if isinstance(track, Items) else () if track is None else (track,)
    words = [i.get(w) for i in items if isinstance(i, Group) for w in ("name", "group")]
    return [" ".join(w.text.split()) for w in words if isinstance(w, Word)]


def split_name(name: str, who: Who) -> tuple[str, int, str]:
    """`links 2` -> (links, 2, ""), `leg.foot` -> (leg, 0, foot); the piece as written where there is none such."""
    piece, _, part = name.partition(".")
    if piece in who.parts:
        return piece, 0, part
    numbered = _ONE_OF.fullmatch(piece)
    if numbered is not None and numbered.group(1) in who.parts:
        return numbered.group(1), int(numbered.group(2)), part
    return piece, 0, part


def look_up_name(told: Told, word: str, name: str, who: Who, where: Where | None = None) -> None:
    """A finding where the piece, the one of several, or the part is not there."""
    piece, number, part = split_name(name, who)
    at = where or told.at(word)
    if piece not in who.parts:
        says = f"no piece is named `{piece[:60]}`"
        told.reading.say(stop("unknown-piece", says, guess(piece, tuple(who.parts))), at)
        return
    count, whole = who.counts[piece], name.partition(".")[0]
    if (number and count and number > count) or (_ONE_OF.fullmatch(whole) and whole not in who.parts and number < 1):
        says = f"`{name}` is asked for, and there are {count} of `{piece}`"
        told.reading.say(stop("not-so-many", says, f"write `make: {number}` there, or a smaller number here"), at)
    if part and not _has_part(part, who.parts[piece]):
        says = f"no part of `{piece}` is named `{part[:60]}`"
        told.reading.say(stop("unknown-place", says, guess(part, who.parts[piece])), at)
    elif part and (many := _fewer_than_asked(part, who.specs.get(piece), who.parts[piece])):
        says = f"`{name}` is asked for, and there are {many} there"
        told.reading.say(stop("not-so-many", says, f"write a number from 1 to {many}"), at)


def _fewer_than_asked(part: str, spec: Spec | None, parts: tuple[str, ...]) -> int:
    """How many holes or lugs there are where one of them is asked for by a number that is not among them; else 0."""
    numbered = _ONE_OF.fullmatch(part)
    if numbered is None or part in parts or spec is None or isinstance(spec, RingSpec):
        return 0
    many = _holes_at(spec, numbered.group(1)) + _lugs_at(spec, numbered.group(1))
    return many if many and not 1 <= int(numbered.group(2)) <= many else 0


def _lugs_at(spec: BarSpec | SheetSpec, name: str) -> int:
    return 0 if isinstance(spec, BarSpec) else sum(g.number for g in spec.lugs if name in ("lugs", g.name) and name)


def _has_part(part: str, parts: tuple[str, ...]) -> bool:
    of, numbered = _PART_OF.fullmatch(part), _ONE_OF.fullmatch(part)
    names = {part, of.group(1) if of else part, numbered.group(1) if numbered else part}
    return not names.isdisjoint(parts)


def how_many(name: str, who: Who) -> int:
    """Holes at that place in all the pieces meant; 0 where none are told there."""
    piece, number, part = split_name(name, who)
    spec = who.specs.get(piece)
    if spec is None or isinstance(spec, RingSpec):
        return 0
    one = _ONE_OF.fullmatch(part)
    if one is not None and part not in who.parts[piece]:
        return min(1, _holes_at(spec, one.group(1))) * (1 if number else spec.make)
    return _holes_at(spec, part) * (1 if number else spec.make)


def _holes_at(spec: BarSpec | SheetSpec, part: str) -> int:
    of = _PART_OF.fullmatch(part)
    name = of.group(1) if of else part
    if isinstance(spec, BarSpec):
        return sum(h.number for h in spec.holes if name in ("holes", h.name, h.at.name) and name)
    return sum(h.number for h in spec.holes if name in ("holes", h.name) and name)
