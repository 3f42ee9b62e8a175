"""One length by every published rule, side by side, the shop's own choice marked."""

from collections.abc import Callable

from bickern.desk.answer import Row
from bickern.making.shop import Shop
from bickern.measure.figure import Figure
from bickern.measure.source import Rule
from bickern.measure.units.say import say_both


def by_rule(rules: tuple[Rule, ...], length: Callable[[str], float]) -> tuple[Figure, ...]:
    """The length [m] by each published rule."""
    return tuple(Figure(r.name, length(r.name), "m") for r in rules)


def said(lengths: tuple[Figure, ...], chosen: str, shop: Shop) -> tuple[Row, ...]:
    """Lengths by rule in words; the shop's own rule is marked."""
    star = {chosen: "  (this shop's rule)"}
    return tuple((f.name + star.get(f.name, ""), say_both(f.value, shop.style)) for f in lengths)
