"""One-click fixes of findings: only where it is certain what to write, each named by what it does.

Where two or three things can be meant and nothing else, each of them is a fix to choose from.
"""

import re
from collections.abc import Callable
from decimal import Decimal
from difflib import SequenceMatcher
from fractions import Fraction
from functools import partial

from bickern.book.job import edit
from bickern.book.job.spots import Spot, page_of, spot
from bickern.book.job.words import PIECES
from bickern.book.text import Group, Items, Word
from bickern.desk.form import slips
from bickern.desk.form.slips import Fix
from bickern.measure.finding import Finding
from bickern.measure.units.numbers import mixed
from bickern.measure.units.words import Read

__all__ = ["Fix", "fix_for", "fixes_for"]

NEAR = 0.6
"""How alike a word and the one that was meant must be (2 x letters in common / letters of both)."""
_IN_TICKS = re.compile(r"`([^`]+)`")
_MEANT = re.compile(r"did you mean `([^`]+)`\?", re.IGNORECASE)
Makes = Callable[[Finding, str], tuple[Fix, ...]]


def fix_for(finding: Finding, text: str) -> Fix | None:
    """The one certain fix of a finding; None where there is none, or where a person must choose."""
    found = fixes_for(finding, text)
    return found[0] if len(found) == 1 else None


def fixes_for(finding: Finding, text: str) -> tuple[Fix, ...]:
    """Every fix of a finding that a person may choose from; one alone is certain."""
    makes = _FIXES.get(finding.name, ())
    return next((found for make in makes if (found := make(finding, text))), ())


def _spot(text: str, path: str) -> Spot | None:
    top = page_of(text).top
    at = spot(top, path) if top is not None and path else None
    return at if at is not None and not at.rest else None


def _written(text: str, path: str) -> str | None:
    at = _spot(text, path)
    return at.value.text if at is not None and isinstance(at.value, Word) else None


def _value_fix(path: str, value: str) -> Fix:
    return Fix(f"Write {value}", partial(edit.put, path=path, said=value))


def _instead(found: Finding, text: str, news: tuple[str, ...], old: str = "") -> tuple[Fix, ...]:
    """The value of the finding, or the part of it that the finding speaks of, written in one of those ways."""
    said = old or next(iter(_IN_TICKS.findall(found.says)), "")
    whole = _written(text, found.where.path)
    if whole is None or not said or whole.count(said) != 1:
        return ()
    values = dict.fromkeys(whole.replace(said, new) for new in news)
    return tuple(_value_fix(found.where.path, v) for v in values if v != whole)


def _as_tried(found: Finding, text: str) -> tuple[Fix, ...]:
    """Every way to write it that the finding itself names."""
    return _instead(found, text, tuple(_IN_TICKS.findall(found.try_this)))


def _first_tried(found: Finding, text: str) -> tuple[Fix, ...]:
    return _instead(found, text, tuple(_IN_TICKS.findall(found.try_this)[:1]))


def _nought(found: Finding, text: str) -> tuple[Fix, ...]:
    """`012`: 12, or 0.12."""
    said = re.search(r"is it (\S+), or ([\d.]+)", found.says)
    whole = _written(text, found.where.path)
    if said is None or whole is None:
        return ()
    return tuple(_value_fix(found.where.path, v) for v in (said[1], said[2]))


def _dash(found: Finding, text: str) -> tuple[Fix, ...]:
    """`3 - 1/4`: three and a quarter, or a quarter less than three."""
    said = next(iter(_IN_TICKS.findall(found.says)), "")
    parts = re.fullmatch(r"(\d+) *[-−–—] *(\d+)/(\d+)", said)
    if parts is None or not 0 < int(parts[2]) < int(parts[3]):
        return ()
    less = mixed(int(parts[1]) - Fraction(int(parts[2]), int(parts[3])))
    return _instead(found, text, (f"{parts[1]} {parts[2]}/{parts[3]}", less), said)


def _power(found: Finding, text: str) -> tuple[Fix, ...]:
    """`1e1`: 10."""
    said = next(iter(_IN_TICKS.findall(found.says)), "")
    number = re.match(r"[\d.]+e[+-]?\d{1,2}(?![\d.])", said, re.IGNORECASE)
    if number is None or number.group().count(".") > 1:
        return ()
    return _instead(found, text, (f"{Decimal(number.group()):f}",), number.group())


def _other_unit(unit: str) -> Makes:
    """A size that looks as if it were told in another unit, with that unit behind it."""

    def makes(found: Finding, text: str) -> tuple[Fix, ...]:
        said = next(iter(_IN_TICKS.findall(found.says)), "")
        parts = re.fullmatch(r"([\d./]+(?: \d+/\d+)?(?: *x *[\d./]+(?: \d+/\d+)?)*)( +[a-z ]+)?", said)
        return () if parts is None else _instead(found, text, (f"{parts[1]} {unit}{parts[2] or ''}",), said)

    return makes


def _curly(found: Finding, text: str) -> tuple[Fix, ...]:
    """A value in curly quotes, which are no quotes to YAML: they go."""
    whole = _written(text, found.where.path)
    inside = re.fullmatch('[“„”]([^“„”"]+)[”“]', whole or "")
    return () if inside is None else (_value_fix(found.where.path, inside[1]),)


def _units(found: Finding, text: str) -> tuple[Fix, ...]:
    """The job's units, which are not told yet."""
    if _written(text, "units"):
        return ()
    names = (("in", "inches"), ("mm", "millimetres"))
    return tuple(Fix(f"All bare numbers are {n}", partial(edit.put, path="units", said=u)) for u, n in names)


def _nearest(found: Finding, text: str) -> tuple[Fix, ...]:
    """The word that was meant, where one is near enough."""
    meant = _MEANT.search(found.try_this)
    ticks = _IN_TICKS.findall(found.says)
    if meant is None or not ticks:
        return ()
    said = ticks[0] if found.name in ("unknown-word", "no-such-steel") else ticks[-1]
    if SequenceMatcher(None, said.lower(), meant[1].lower()).ratio() < NEAR:
        return ()
    if found.name == "unknown-word":
        return _renamed(found, text, meant[1])
    path = found.where.path
    whole = _written(text, path)
    if whole is not None:
        return _instead(found, text, (meant[1],), said) if whole.count(said) == 1 else ()
    return _in_list(text, path, said, meant[1])


def _in_list(text: str, path: str, said: str, new: str) -> tuple[Fix, ...]:
    """The one item of a list that names what is not there."""
    at = _spot(text, path)
    items = at.value.items if at is not None and isinstance(at.value, Items) else ()
    fits = [(i, w.text) for i, w in enumerate(items, 1) if isinstance(w, Word) and said in w.text]
    if len(fits) != 1 or fits[0][1].count(said) != 1:
        return ()
    return (_value_fix(f"{path}[{fits[0][0]}]", fits[0][1].replace(said, new)),)


def _renamed(found: Finding, text: str, new: str) -> tuple[Fix, ...]:
    """Another word before the colon."""
    at = _spot(text, found.where.path)
    if at is None or not isinstance(at.parent, Group) or new in at.parent.words():
        return ()
    return (Fix(f"Write {new}:", partial(edit.rename_word, path=found.where.path, word=new)),)


def _word_tried(found: Finding, text: str) -> tuple[Fix, ...]:
    """``write `round:` ``: the word that the finding names, in place of the one written."""
    tried = re.fullmatch(r"write `([a-z ]+):`(?: in place of `([a-z ]+):`)?", found.try_this)
    if tried is None or (tried[2] and not found.where.path.endswith(f".{tried[2]}")):
        return ()
    return _renamed(found, text, tried[1])


def _what_it_is(found: Finding, text: str) -> tuple[Fix, ...]:
    """`bra: 1/2 sq`: the word that says what a piece is made from, slightly wrong."""
    meant = _MEANT.search(found.try_this)
    at = _spot(text, found.where.path)
    if meant is None or at is None or not isinstance(at.value, Group) or not at.value.entries:
        return ()
    word, path = at.value.entries[0].key.text, found.where.path
    known = any(form.key(word) for form in PIECES)
    if known or SequenceMatcher(None, word.lower(), meant[1]).ratio() < NEAR:
        return ()
    return (Fix(f"Write {meant[1]}:", partial(edit.rename_word, path=f"{path}.{word}", word=meant[1])),)


def _one_of_few(found: Finding, text: str) -> tuple[Fix, ...]:
    """Where a word takes one of a few words: each of them."""
    at = _spot(text, found.where.path)
    choices = at.key.choices if at is not None and at.key is not None and isinstance(at.value, Word) else ()
    return tuple(_value_fix(found.where.path, c) for c in choices) if len(choices) <= 4 else ()


def _yes_or_no(found: Finding, text: str) -> tuple[Fix, ...]:
    said = (_written(text, found.where.path) or "").strip().lower()
    sure = {"y": ("yes",), "n": ("no",), "none": ("no",)}.get(said, ("yes", "no"))
    return tuple(_value_fix(found.where.path, v) for v in sure) if _spot(text, found.where.path) else ()


def _surface(found: Finding, text: str) -> tuple[Fix, ...]:
    """Of which surface the sizes are told."""
    at = _spot(text, found.where.path)
    if at is None or not isinstance(at.value, Group):
        return ()
    path = f"{found.where.path}.sizes"
    names = (("inside", "inside"), ("outside", "outside"), ("mean", "along the middle"))
    return tuple(Fix(f"These sizes are {n}", partial(edit.put, path=path, said=w)) for w, n in names)


def _which_size(found: Finding, text: str) -> tuple[Fix, ...]:
    """A bare `across`: each of the words that say which size it is."""
    tried = re.fullmatch(r"write one of: (.+)", found.try_this)
    words = tried[1].split(", ") if tried is not None else []
    said = found.where.path.rpartition(".")[2].lower()
    alike = [w for w in words if said in w.split()] or words
    return tuple(f for w in alike[:4] for f in _renamed(found, text, w))


def _one_goes(found: Finding, text: str) -> tuple[Fix, ...]:
    """Two words that cannot both be told: either of them goes; one that says nothing here goes."""
    both = re.match(r"`([^`]+)` and `([^`]+)` cannot both be told", found.says)
    alone = re.match(r"`([^`]+)` (says nothing about|speaks of holes that are divided)", found.says)
    group = found.where.path.rpartition(".")[0]
    words = both.groups() if both else (alone[1],) if alone and "take it out" in found.try_this else ()
    paths = [f"{group}.{w}" for w in words]
    if not all(_spot(text, p) for p in paths):
        return ()
    return tuple(Fix(f"Take out {w}", partial(edit.take_out, path=p)) for w, p in zip(words, paths, strict=True))


def _swap(one: str, other: str) -> Makes:
    """Two values in each other's place."""

    def makes(found: Finding, text: str) -> tuple[Fix, ...]:
        group = found.where.path.rpartition(".")[0]
        paths = f"{group}.{one}", f"{group}.{other}"
        values = _written(text, paths[0]), _written(text, paths[1])
        if found.try_this != "swap them" or values[0] is None or values[1] is None:
            return ()

        def does(t: str) -> Read[str]:
            first = edit.put(t, paths[0], values[1] or "")
            return first if first.value is None else edit.put(first.value, paths[1], values[0] or "")

        return (Fix(f"Swap them: {one} {values[1]}, {other} {values[0]}", does),)

    return makes


def _brackets(found: Finding, text: str) -> tuple[Fix, ...]:
    """`a.end, b.start` without brackets is read as one name: it becomes a list."""
    at, whole = _spot(text, found.where.path), _written(text, found.where.path)
    several = at is not None and at.key is not None and at.key.takes in edit.IN_BRACKETS
    if whole is None or not several or not re.fullmatch(r"[\w ./+-]+(,\s*[\w ./+-]+)+", whole):
        return ()
    return (_value_fix(found.where.path, f"[{', '.join(p.strip() for p in whole.split(','))}]"),)


def _single(found: Finding, text: str) -> tuple[Fix, ...]:
    """A list of one value where one value is wanted."""
    at = _spot(text, found.where.path)
    items = at.value.items if at is not None and isinstance(at.value, Items) else ()
    one = items[0] if len(items) == 1 else None
    return (_value_fix(found.where.path, one.text),) if isinstance(one, Word) and one.text else ()


def _hook_or_ring(found: Finding, text: str) -> tuple[Fix, ...]:
    """What joins is told as a ring and is a hook, or the other way round."""
    group, _, word = found.where.path.rpartition(".")
    other = {"ring": "hook", "hook": "ring"}.get(word, "")
    told = re.search(r"`(hook|ring): [^`]*, (on|through): \.\.\.`", found.try_this)
    if told is None or told[1] != other:
        whole = re.fullmatch(r"write `ring: ([^`]+)`", found.try_this)
        return (_value_fix(found.where.path, whole[1]),) if whole is not None else ()
    places = ("through", "on") if other == "hook" else ("on", "through")
    if not _spot(text, f"{group}.{places[0]}"):
        return ()

    def does(t: str) -> Read[str]:
        first = edit.rename_word(t, f"{group}.{word}", other)
        return first if first.value is None else edit.rename_word(first.value, f"{group}.{places[0]}", places[1])

    return (Fix(f"Write {other}: and {places[1]}:", does),)


def _kept(found: Finding, text: str) -> tuple[Fix, ...]:
    """A stretch whose section is left as it is: `keep` says so."""
    path = f"{found.where.path}.over"
    at = _spot(text, path)
    return (Fix("Write keep:", partial(edit.rename_word, path=path, word="keep")),) if at is not None else ()


def _lug_width(found: Finding, text: str) -> tuple[Fix, ...]:
    """The width that is taken, written down."""
    eye, path = _written(text, f"{found.where.path}.eye"), f"{found.where.path}.width"
    return (Fix(f"Write width: {eye}", partial(edit.put, path=path, said=eye or "")),) if eye else ()


def _equal_area(found: Finding, text: str) -> tuple[Fix, ...]:
    if found.where.path.endswith(".thinning") and "equal area" in found.try_this:
        return (_value_fix(found.where.path, "equal area"),)
    return ()


def _turn(found: Finding, text: str) -> tuple[Fix, ...]:
    """The way a bend is taken to go, written down."""
    way = re.search(r": it goes (left|right|up|down), ", found.says)
    at, path = _spot(text, found.where.path), f"{found.where.path}.turn"
    if way is None or at is None or not isinstance(at.value, Group):
        return ()
    return (Fix(f"Write turn: {way[1]}", partial(edit.put, path=path, said=way[1])),)


def _closed(found: Finding, text: str) -> tuple[Fix, ...]:
    """How the ends of a hoop may meet."""
    path = f"{found.where.path}.closed"
    if not _spot(text, found.where.path):
        return ()
    return tuple(Fix(f"The ends are {w}", partial(edit.put, path=path, said=w)) for w in ("welded", "butted"))


_FIXES: dict[str, tuple[Makes, ...]] = {
    "alias": (slips.quotes,), "tag": (slips.quotes,), "starts-badly": (slips.quotes,), "tab": (slips.tabs,),
    "colon": (slips.second_colon,), "indent": (slips.second_colon,), "comment": (slips.number_sign,),
    "no-space": (slips.space,), "said-twice": (slips.twice,), "decimal-comma": (slips.comma, _first_tried),
    "improper-fraction": (_as_tried,), "leading-zero": (_nought,), "spaced-dash": (_dash,), "power-of-ten": (_power,),
    "looks-like-fraction": (_as_tried,), "fraction-in-mm-job": (_first_tried,), "feet-and-inches": (_first_tried,),
    "looks-like-gauge": (_as_tried,), "looks-like-mm": (_other_unit("mm"),), "looks-like-inches": (_other_unit("in"),),
    "no-shape": (_as_tried,), "unit-on-one-size": (_first_tried,),
    "not-a-number": (_curly,), "no-units": (_units,), "unknown-word": (_nearest, _word_tried),
    "unknown-piece": (_brackets, _nearest), "unknown-place": (_brackets, _nearest), "no-such-steel": (_nearest,),
    "not-a-choice": (_nearest, _equal_area, _one_of_few), "missing": (_what_it_is,), "yes-or-no": (_yes_or_no,),
    "which-surface": (_surface,), "which-size": (_which_size,), "two-kinds": (_one_goes, _word_tried),
    "scroll-sizes": (_swap("inside radius", "outside radius"),), "slot-sizes": (_swap("size", "long"),),
    "joins-nothing": (_brackets,), "two-numbers": (_brackets,), "one-value": (_single,),
    "not-a-ring": (_hook_or_ring,), "not-a-hook": (_hook_or_ring,), "section-not-told": (_kept,),
    "lug-width": (_lug_width,), "turn-not-told": (_turn,), "hoop-left-open": (_closed,),
}  # fmt: skip
"""By the name of a finding, the ways to mend it: the first that finds something."""
