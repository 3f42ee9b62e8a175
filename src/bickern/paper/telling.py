"""Everything reckoned as plain data: every number carries its unit in its key, lengths are told in words beside it."""

import dataclasses
from collections.abc import Mapping, Sequence
from decimal import Decimal
from enum import Enum
from typing import Any

from bickern.making.work.result import Work
from bickern.measure.figure import Figure
from bickern.measure.finding import Weight
from bickern.measure.spread import Spread
from bickern.measure.units.say import say_angle, say_both, say_mass_both, say_up_both, say_volume_both
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy
from bickern.parts.fit.result import FitRow
from bickern.parts.set.result import Part

SCHEMA = "bickern reckoning"
VERSION = 1
"""Goes up when a key is renamed, dropped or changes its meaning; new keys do not change it."""
FIGURES = 12
"""Significant figures kept: beyond them machines differ."""

_METRES = """
    across at bar bare base base_long blank blank_cut centre centre_of_mass clearance coil_length corner_tabs
    cut_this depth developed dress drifts drop end end_radius end_to_end eye eye_straight first_cut gap grip has
    height high inside_across inside_after_cut inside_long inside_radius kerf last_cut least_drop least_sheet length
    lengths long longest low mandrel margin mean_across metal needed now offset offset_a offset_b opening origin
    outside outside_across outside_long outside_radius over pitch plate plus point radius reach rim rise rivet
    rivet_clearance seam_gap short_high short_wide shoulder size slit spacing start start_radius stock stock_bare
    stock_length stray taken tape thick thin tongs top top_long up wall weld wide width wire zone
"""
_PLAIN = """
    axis blows cold_limit collar_more corner_fullness corner_strain double_hem doubt failed finish_minutes first
    friction fullness groove_extra groove_widths heats hem learns loss opening_strain profile rivet_edge rivet_head
    rivet_pitch scale_doubt scale_kept scale_times scale_worked share slow slow_at smallest_radius strain times
    turns twist_shortening upset_corner useful waste weld_times wire_sheets
"""
UNITS: dict[str, str] = {
    **dict.fromkeys(_METRES.split(), "m"),
    **dict.fromkeys(_PLAIN.split(), ""),
    **dict.fromkeys(("angle", "aside", "least", "most", "roll", "start_angle", "sweep", "tilt", "turn"), "rad"),
    **dict.fromkeys(("mass", "stock_mass"), "kg"),
    **dict.fromkeys(("volume", "slug"), "m3"),
    **dict.fromkeys(("yield_strength", "stiffness"), "Pa"),
    **dict.fromkeys(("mm_step", "fit_mm_step"), "mm"),
    **dict.fromkeys(("carry", "gives", "light", "seconds", "wants", "warms"), "s"),
    "area": "m2",
    "contact": "W/m2K",
    "energy": "J",
    "hammer": "kg",
    "pace": "1/s",
    "speed": "m/s",
    "temperature": "K",
}
"""The unit of each number by the name of its field; "" is a plain number (shares, turns, multiples)."""
OWN_UNITS: dict[str, str] = {
    "Cylinder.cut": "rad",
    "Solved.value": "m",
    "Spread.value": "",  # a spread's unit stands in the key that holds it
    "Spread.low": "",
    "Spread.high": "",
    "Figure.value": "",  # told by the figure's own unit
    "SheetRules.wire": "",
    "SheetRules.hem": "",
    "Terms.margin": "",
    "Pose.x": "",  # directions
    "Pose.y": "",
    "FitRow.sizes": "m",
    "Swing.low": "rad",
    "Swing.high": "rad",
    "Spell.start": "K",
    "Spell.stop": "K",
    "Work.start": "K",
    "Work.stop": "K",
    "Work.metal": "m3",
    "Work.amount": "",  # told by what is done
}
"""Where one field's unit differs from what its name means elsewhere."""
_SILENT = ("Line", "ArcSeg", "Straight", "Arc", "Spiral", "Kink", "Turned", "Style", "Spread", "PatternHole", "Section")
"""Values whose numbers are not told in words too: geometry, and what is told where it stands."""


_UNTOLD = ("seat", "seats", "solids", "shown", "made")
"""Rows of points for drawing and hanging: the names of places are told, their shapes are not."""


_FITS = ("FitRow", "Swing")
"""Values whose lengths are told as fine as a fit: to 1/64 with thousandths, or 0.1 mm."""
_CUT = ("cut_this", "first_cut", "last_cut")
"""What is cut: told rounded up, as on the sheet."""


_AMOUNT: dict[str, str] = {
    **dict.fromkeys(("bend", "curl", "hoop", "scroll", "fold"), "rad"),
    "twist": "",  # turns
}
"""The unit of what a work is told by: the angle of a bend, the turns of a twist; else the size of a hole or a rivet."""


def unit_of(owner: str, field: str) -> str | None:
    """The unit of a number by the class that holds it and its field; None where no row says."""
    return OWN_UNITS.get(f"{owner}.{field}", UNITS.get(field))


def told(copy: Copy) -> dict[str, Any]:
    """The whole copy as dicts, lists, strings and numbers, ready to be written as JSON."""
    return {"schema": SCHEMA, "schema_version": VERSION, **_value(copy, copy.shop.style)}


def _value(value: Any, style: Style) -> Any:
    if isinstance(value, Weight):
        return value.name.lower()
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Figure):
        return _figure(value, style)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return _fields(value, style)
    if isinstance(value, float):
        return _number(value)
    if isinstance(value, Decimal):
        return str(value)  # money: no digit of it is lost in a float
    if isinstance(value, Mapping):
        return {str(key): _value(one, style) for key, one in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [_value(one, style) for one in value]
    return value


def _number(value: float) -> float:
    return float(f"{value:.{FIGURES}g}") + 0.0


def _fields(value: Any, style: Style) -> dict[str, Any]:
    owner = type(value).__name__
    data: dict[str, Any] = {"is": _spaced(owner)}
    for field in dataclasses.fields(value):
        held = getattr(value, field.name)
        if field.name in _UNTOLD:
            continue
        if field.name == "also":
            data["also"] = [_also(one, style) for one in held]
        elif isinstance(value, FitRow) and field.name == "sizes":
            data["sizes"] = [_size(one, style) for one in held]
        elif isinstance(value, Work) and field.name == "amount":
            data |= _measured(owner, field.name, held, style, _AMOUNT.get(value.does, "m"))
        elif isinstance(value, Part) and field.name == "piece":
            data["piece"] = held.spec.name  # it is told whole among the pieces
        elif _numeric(held):
            data |= _measured(owner, field.name, held, style)
        else:
            data[field.name] = _value(held, style)
    return data


def _spaced(name: str) -> str:
    """`BarResult` as `bar result`."""
    return "".join(f" {c.lower()}" if c.isupper() else c for c in name).strip()


def _also(one: tuple[str, float, str], style: Style) -> dict[str, Any]:
    label, value, why = one
    return {"rule": label, "value_m": _number(value), "value_said": say_both(value, style), "why": why}


def _size(one: tuple[float, str], style: Style) -> dict[str, Any]:
    """A drift or drill that was tried, and how the joint goes with it."""
    return {"size_m": _number(one[0]), "size_said": say_both(one[0], style, fit=True), "does": one[1]}


def _numeric(held: Any) -> bool:
    """Whether a field holds a number, a spread, or a row of numbers."""
    if isinstance(held, float | Spread):
        return True
    return isinstance(held, tuple) and bool(held) and all(isinstance(one, float) for one in held)


def _measured(owner: str, name: str, held: Any, style: Style, unit: str | None = None) -> dict[str, Any]:
    """A number under a key that ends in its unit, and where it is not mere geometry, its words."""
    unit = unit_of(owner, name) if unit is None else unit
    key = f"{name}_{unit}" if unit else name
    data: dict[str, Any] = {key: _value(held, style)}
    if unit and owner not in _SILENT and not isinstance(held, tuple):
        data |= _words(name, unit, held.value if isinstance(held, Spread) else held, style, fit=owner in _FITS)
        if name in _CUT:
            data[f"{name}_said"] = say_up_both(held, style)
    return data


def _words(name: str, unit: str, value: float, style: Style, *, fit: bool = False) -> dict[str, Any]:
    match unit:
        case "m":
            return {f"{name}_said": say_both(value, style, fit=fit)}
        case "kg":
            return {f"{name}_said": say_mass_both(value, style)}
        case "rad":
            return {f"{name}_said": say_angle(value, style)}
    return {}


def _figure(figure: Figure, style: Style) -> dict[str, Any]:
    """A figure's key takes the figure's own unit."""
    key = f"value_{figure.unit}" if figure.unit else "value"
    data: dict[str, Any] = {"is": "figure", "name": figure.name, key: _number(figure.value)}
    if figure.unit == "m3":
        return data | {"value_said": say_volume_both(figure.value, style)}
    return data | _words("value", figure.unit, figure.value, style)
