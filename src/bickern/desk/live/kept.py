"""Pieces reckoned once and kept: a piece that did not change is not reckoned again, wherever its lines have gone.

Only so many are kept; the one not asked for the longest goes first. Every thread may ask.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import fields, is_dataclass, replace
from threading import Lock
from typing import Any, Generic, TypeVar

from bickern.book.job.asked import Spec
from bickern.desk.reckon import reckon_piece
from bickern.making.shop import Shop
from bickern.measure.finding import NOWHERE, Where
from bickern.measure.units.words import Read
from bickern.paper.copy import PieceResult
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.ring.spec import RingSpec

T = TypeVar("T")
MOST = 120
"""Pieces that are kept."""


class Few(Generic[T]):
    """The last few things made, by what they were made from."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._made: OrderedDict[Hashable, T] = OrderedDict()
        self._lock = Lock()

    def __len__(self) -> int:
        return len(self._made)

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """What was made from `key`; made now where it is not there. While it is made nobody has to wait."""
        with self._lock:
            if key in self._made:
                self._made.move_to_end(key)
                return self._made[key]
        made = make()
        with self._lock:
            self._made[key] = made
            self._made.move_to_end(key)
            while len(self._made) > self._most:
                self._made.popitem(last=False)
        return made


_BARE: Few[tuple[Spec, tuple[Where, ...]]] = Few(MOST)
_BY_PLACE: Few[Read[PieceResult]] = Few(MOST)
_BY_WHAT: Few[Read[PieceResult]] = Few(MOST)


def known_as(spec: Spec, shop: Shop) -> Hashable:
    """What a piece reckoned is known by, wherever its lines have gone: all that its figures and pictures hang on."""
    return (without_places(spec)[0], _rules(spec, shop))


def kept_piece(spec: Spec, shop: Shop) -> Read[PieceResult]:
    """The piece reckoned, as `reckon_piece` does it; every finding at the line where its fault is now."""
    rules = _rules(spec, shop)
    return _BY_PLACE.get((spec, rules), lambda: _placed(spec, rules, shop))


def _placed(spec: Spec, rules: Hashable, shop: Shop) -> Read[PieceResult]:
    bare, places = without_places(spec)
    read = _BY_WHAT.get((bare, rules), lambda: reckon_piece(bare, shop))
    return _mapped(read, lambda where: places[where.line - 1] if where != NOWHERE else where)


def _rules(spec: Spec, shop: Shop) -> Hashable:
    """The shop's rules that a piece of this kind goes by."""
    if isinstance(spec, BarSpec):
        return shop.bar
    return shop.ring if isinstance(spec, RingSpec) else shop.sheet


def without_places(spec: Spec) -> tuple[Spec, tuple[Where, ...]]:
    """The piece asked with its places numbered in order, from line 1 on, and the places by those numbers."""
    return _BARE.get(spec, lambda: _numbered(spec))


def _numbered(spec: Spec) -> tuple[Spec, tuple[Where, ...]]:
    found: dict[Where, Where] = {}

    def number(where: Where) -> Where:
        return where if where == NOWHERE else found.setdefault(where, Where("", len(found) + 1))

    return _mapped(spec, number), tuple(found)


def _mapped(value: T, put: Callable[[Where], Where]) -> T:
    """The same value with every place in it changed; parts without a place stay the very same."""
    new: T = _new(value, put)
    return new


def _new(value: Any, put: Callable[[Where], Where]) -> Any:
    if isinstance(value, Where):
        return put(value)
    if isinstance(value, tuple):
        if not value or isinstance(value[0], float):
            return value
        parts = [_new(part, put) for part in value]
        return value if all(a is b for a, b in zip(parts, value, strict=True)) else tuple(parts)
    names = _names(type(value))
    if not names:
        return value
    new = {name: (old, _new(old, put)) for name in names if (old := getattr(value, name)) is not None}
    changed = {name: after for name, (before, after) in new.items() if after is not before}
    return replace(value, **changed) if changed else value


def _names(kind: type) -> tuple[str, ...]:
    """The parts of a kind of value in which a place may lie."""
    if kind not in _PARTS:
        _PARTS[kind] = tuple(field.name for field in fields(kind) if field.init) if is_dataclass(kind) else ()
    return _PARTS[kind]


_PARTS: dict[type, tuple[str, ...]] = {}
