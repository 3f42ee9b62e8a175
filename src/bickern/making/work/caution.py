"""Cautions as data: which operations, metals and uses call for which words."""

from dataclasses import dataclass

from bickern.measure.source import Source


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution. It applies where any of `operations` is in the plan, and (if given) a metal and a use match.

    Empty `operations`, `metals` or `uses` mean: any. `says` is printed as it stands.
    """

    key: str
    says: str
    source: Source
    operations: tuple[str, ...] = ()
    metals: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()
