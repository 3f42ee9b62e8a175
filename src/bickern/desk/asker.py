"""Who asks: which shop's rules, and what a bare number means."""

from dataclasses import dataclass
from pathlib import Path

from bickern.making.shop import Shop, millimetres_first
from bickern.measure.finding import Finding
from bickern.measure.units.words import System


@dataclass(frozen=True, slots=True)
class Asker:
    """The shop that asks, its units, and what was found in its shop file."""

    shop: Shop
    system: System
    findings: tuple[Finding, ...] = ()


def asker(units: str | None, shop_path: Path | None) -> Asker | None:
    """An asker, by the shop's own units where none are told; None where `units` is neither `in` nor `mm`."""
    if units is not None and units not in {s.value for s in System}:
        return None
    shop, findings = shop_at(shop_path)
    system = shop.style.first if units is None else System(units)
    # without a shop file there is no tape to go by but that of the units told
    return Asker(millimetres_first(shop) if system is System.MM and shop_path is None else shop, system, findings)


def shop_at(path: Path | None) -> tuple[Shop, tuple[Finding, ...]]:
    """The shop in a shop file (the house's defaults without one), and what was found in it."""
    if path is None:
        return Shop(), ()
    # read late: most questions at the anvil are asked without a shop file, and the answer must come at once
    from bickern.book.files import read_file
    from bickern.book.shopfile import read_shop
    from bickern.book.text import LARGEST

    text = read_file(path, LARGEST)
    if isinstance(text, Finding):
        return Shop(), (text,)
    return read_shop(text, str(path))
