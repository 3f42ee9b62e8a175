"""How one person wants a job shown: which tape comes first, whose words. It changes nothing that is reckoned."""

from dataclasses import dataclass, replace

from bickern.making.shop import Shop
from bickern.measure.units.words import System


@dataclass(frozen=True, slots=True)
class Seen:
    """`first`: "in" or "mm" ("": as the shop has it). `english`: "US" or "UK" words ("": as the shop has it)."""

    first: str = ""
    english: str = ""


AS_SHOP = Seen()
"""As the shop file has it."""


def as_seen(shop: Shop, seen: Seen) -> Shop:
    """The shop as this person wants to read it."""
    if seen.english:
        shop = replace(shop, english=seen.english)
    return replace(shop, style=replace(shop.style, first=System(seen.first))) if seen.first else shop
