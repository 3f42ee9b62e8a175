"""What metal a piece is of, and what is on it."""

from bickern.book.told import Told
from bickern.iron.coating import coating_finding
from bickern.iron.steel import find_steel, fire_weld_finding
from bickern.measure.finding import warn


def steel_of(told: Told, default: str = "mild") -> str:
    """The metal's name as the table of metals spells it; an unknown one is a finding."""
    said = told.text("steel", default)
    found = told.reading.take(find_steel(said), told.at("steel"))
    return said if found is None else found.name


def coating_of(told: Told, hot: bool, default: str = "") -> str:
    """What is on the metal, as written; what must not go in the fire stops a piece that does."""
    said = told.text("coating", default)
    finding = coating_finding(said) if told.has("coating") and said else None
    if finding is not None and (hot or not finding.stops):
        told.reading.say(finding, told.at("coating"))
    elif finding is not None:
        says = f"this sheet is marked `{said}`: it is worked cold only, and never heated, welded or brazed"
        told.reading.say(
            warn("coated-metal", says, "take bare sheet if any part of it will be hot"), told.at("coating")
        )
    return said


def zinc_on(coating: str) -> bool:
    """Whether sheet so marked is sold by the galvanised gauge."""
    said = coating.lower()
    return any(w in said for w in ("galv", "zinc", "hdg", "dip")) and "not" not in said and "ungalv" not in said


def ask_weld(told: Told, word: str, steel: str) -> None:
    """A finding where a metal is to be fire welded that does not take it, or only with care."""
    found = find_steel(steel).value
    finding = fire_weld_finding(found) if found is not None else None
    if finding is not None:
        told.reading.say(finding, told.at(word))
