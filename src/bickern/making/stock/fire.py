"""Whether a piece of stock may go in a fire, by what is told of it. What is not told is never taken for clean."""

from functools import lru_cache

from bickern.iron.coating import coating_finding, in_remark
from bickern.iron.steel import families_of, find_steel
from bickern.making.stock.rack import Stock, StockSheet
from bickern.measure.finding import Finding, stop, warn


def may_be_heated(piece: Stock) -> Finding | None:
    """What stands against heating it; None for bare metal of a known kind.

    Coated, sealed and leaded pieces stop, and what cannot be forged; a surface or a metal that is not known warns.
    """
    gauge = piece.gauge if isinstance(piece, StockSheet) else ""
    return _by_words(piece.coating, piece.steel, gauge, piece.remark)


def never_heated(piece: Stock) -> bool:
    """Whether it never goes in a fire, by what is told of it."""
    found = may_be_heated(piece)
    return found is not None and found.stops


@lru_cache(maxsize=4096)
def _by_words(coating: str, steel: str, gauge: str, remark: str) -> Finding | None:
    """By what is told of it; kept, for a rack holds many pieces of few kinds."""
    return _on_it(coating, steel, gauge, remark) or _of_metal(steel)


def _on_it(coating: str, steel: str, gauge: str, remark: str) -> Finding | None:
    """By its coating; by whatever else was written of it too, for a slip of one word must not send zinc into a fire."""
    told = coating_finding(coating)
    others = [] if "leaded" in families_of(steel) else [steel]
    others += [gauge, *([remark] if told is not None else [])]
    found = (told, *(coating_finding(other) for other in others), in_remark(remark))
    return next((f for f in found if f is not None and f.stops), told)


def _of_metal(steel: str) -> Finding | None:
    found = find_steel(steel)
    if found.value is None:
        called = f": `{steel[:40]}` is no metal that is known here" if steel else ""
        says = f"What metal this is, is not known{called}."
        return warn("stock-metal-unknown", says, "Test it (spark, file, quench), or write its `steel` if it is known.")
    if "leaded" in families_of(steel):
        says = f"{found.value.name} has lead in it, whose fume is poison. It never goes in the fire."
        return stop("leaded-stock", says, "Use it cold, for turned pins and screws; forge plain mild bar.")
    stops = next((f for f in found.findings if f.stops), None)
    return stops or next(iter(found.findings), None)
