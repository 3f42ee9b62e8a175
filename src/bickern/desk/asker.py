"""Who asks: which shop's rules, and what a bare number means."""

from dataclasses import dataclass
from pathlib import Path

from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.measure.units.words import System


@dataclass(frozen=True, slots=True)
class Asker:
    """The shop that asks, its units, and what was found in its shop file."""

    shop: Shop
    system: System
    findings: tuple[Finding, ...] = ()


def asker(units: str, shop_path: Path | None) -> Asker | None:
    """An asker; None where `units` is neither `in` nor `mm`."""
    if units not in {s.value for s in System}:
        return None
    shop, findings = shop_at(shop_path)
    return Asker(shop, System(units), findings)


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
