"""Whether a piece of stock may go in a fire, by what is told of it. What is not told is never taken for clean."""

from bickern.iron.coating import coating_finding
from bickern.iron.steel import families_of, find_steel
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.measure.finding import Finding, stop, warn


def may_be_heated(piece: StockBar | StockSheet) -> Finding | None:
    """What stands against heating it; None for bare metal of a known kind.

    Coated, sealed and leaded pieces stop, and what cannot be forged; a surface or a metal that is not known warns.
    """
    return _on_it(piece) or _of_metal(piece)


def _on_it(piece: StockBar | StockSheet) -> Finding | None:
    """By its coating; by whatever else was written of it too, for a slip of one word must not send zinc into a fire."""
    told = coating_finding(piece.coating)
    if told is not None and told.stops:
        return told
    by_name = coating_finding(piece.steel)
    if by_name is not None and by_name.stops and "leaded" not in families_of(piece.steel):
        return by_name
    by_gauge = coating_finding(piece.gauge) if isinstance(piece, StockSheet) else None
    if by_gauge is not None and by_gauge.stops:
        return by_gauge
    by_remark = coating_finding(piece.remark) if told is not None else None
    return by_remark if by_remark is not None and by_remark.stops else told


def _of_metal(piece: StockBar | StockSheet) -> Finding | None:
    found = find_steel(piece.steel)
    if found.value is None:
        called = f": `{piece.steel[:40]}` is no metal that is known here" if piece.steel else ""
        says = f"What metal this is, is not known{called}."
        return warn("stock-metal-unknown", says, "Test it (spark, file, quench), or write its `steel` if it is known.")
    if "leaded" in families_of(piece.steel):
        says = f"{found.value.name} has lead in it, whose fume is poison. It never goes in the fire."
        return stop("leaded-stock", says, "Use it cold, for turned pins and screws; forge plain mild bar.")
    stops = next((f for f in found.findings if f.stops), None)
    return stops or next(iter(found.findings), None)
