"""One length by every published rule, side by side: the shop's own choice marked, the others with their sources."""

from collections.abc import Callable, Iterable

from bickern.desk.answer import Row
from bickern.making.shop import Shop
from bickern.measure.figure import Figure
from bickern.measure.source import Kind, Rule
from bickern.measure.units.say import say_both

MARK = "  (this shop's rule)"
SAME = 1e-6
"""Lengths nearer than this are one [m]: both rules say the same."""


def by_rule(rules: Iterable[Rule], length: Callable[[str], float]) -> tuple[Figure, ...]:
    """The length [m] by each published rule."""
    return tuple(Figure(r.name, length(r.name), "m") for r in rules)


def said(rules: Iterable[Rule], lengths: tuple[Figure, ...], chosen: str, shop: Shop) -> tuple[Row, ...]:
    """The shop's own rule first, then each other that says something else, all rounded alike."""
    values = {f.name: f.value for f in lengths}
    by_name = {r.name: r for r in rules}
    others = (r for r in by_name.values() if r.name != chosen and r.source.kind is not Kind.SHOP)
    return (
        (f"{chosen}{MARK}", f"{_fit(values[chosen], shop)}: {_why(by_name[chosen])}"),
        *(also(r, values[r.name], shop) for r in others if abs(values[r.name] - values[chosen]) > SAME),
    )


def also(rule: Rule, value: float, shop: Shop) -> Row:
    """What one other rule says [m], how it reckons, and where it stands."""
    return f"also: {rule.name}", f"{_fit(value, shop)}: {_why(rule)}"


def _why(rule: Rule) -> str:
    return f"{rule.formula}; {rule.source}"


def _fit(value: float, shop: Shop) -> str:
    return say_both(value, shop.style, fit=True)
