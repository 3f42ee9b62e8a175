"""Metals that a smith works, as rows: what they weigh, what they stand cold, and whether they can be fire welded.

Nothing here says what a finished piece may carry: a yield figure is for bending cold, never for a load.
"""

import difflib
from dataclasses import dataclass
from enum import StrEnum

from bickern.measure.finding import Finding, stop, warn
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.units.words import INCH, POUND, Read

CUBIC_FOOT = (12 * INCH) ** 3


class MetalClass(StrEnum):
    """Families that behave alike in the fire."""

    WROUGHT = "wrought iron"
    MILD = "mild steel"
    MEDIUM = "medium carbon steel"
    SPRING = "spring steel"
    TOOL = "tool steel"
    STAINLESS = "stainless steel"
    COPPER = "copper alloy"
    CAST = "cast iron"


class FireWeld(StrEnum):
    """Whether two pieces can be joined in the fire."""

    YES = "yes"
    WITH_CARE = "with care"
    NO = "no"


@dataclass(frozen=True, slots=True)
class Steel:
    """One metal: density, cold yield (None where it hangs on the treatment), carbon as a share of the mass."""

    name: str
    family: MetalClass
    density: Known
    yield_cold: Known | None
    carbon: tuple[float, float]
    fire_weld: FireWeld
    notes: str
    aliases: tuple[str, ...]
    source: Source


def _memory(where: str) -> Source:
    return Source("", where, None, "", Kind.MEMORY)


_EN_DENSITY = Known(
    7850.0, "kg/m3",
    Source("CEN", "EN 1993-1-2 Design of steel structures: fire", 2005, "density of steel, cl. 3.2.2", Kind.STANDARD),
)  # fmt: skip
_WROUGHT_DENSITY = Known(
    480 * POUND / CUBIC_FOOT, "kg/m3",
    Source("W. L. Ilgen", "Forge Work", 1912, "table 1, 480 lb a cubic foot", Kind.HANDBOOK),
)  # fmt: skip
_CAST_DENSITY = Known(
    450 * POUND / CUBIC_FOOT, "kg/m3",
    Source("American School of Correspondence", "Cyclopedia of Modern Shop Practice", 1906, "vol. 2, forging",
           Kind.HANDBOOK),
)  # fmt: skip
_PRACTICE = Source("", "common practice in the trade", None, "family, carbon range, fire welding", Kind.COMMON)


def _density(value: float, where: str) -> Known:
    return Known(value, "kg/m3", _memory(where))


def _yield(megapascals: float, where: str) -> Known:
    return Known(megapascals * 1e6, "Pa", _memory(where))


_MILD, _MEDIUM, _SPRING, _TOOL = MetalClass.MILD, MetalClass.MEDIUM, MetalClass.SPRING, MetalClass.TOOL
_SURE, _CARE, _NEVER = FireWeld.YES, FireWeld.WITH_CARE, FireWeld.NO

_ROWS: tuple[Steel, ...] = (
    Steel(
        "S235JR", _MILD, _EN_DENSITY, _yield(235, "EN 10025-2, up to 16 mm"), (0.0, 0.0017), _SURE,
        "The plain structural bar of Europe.",
        ("mild", "mild steel", "s235", "st37", "1.0038", "black bar", "hot rolled"),
        _PRACTICE,
    ),
    Steel(
        "S355J2", _MILD, _EN_DENSITY, _yield(355, "EN 10025-2, up to 16 mm"), (0.0, 0.0020), _SURE,
        "Stiffer under the hammer than S235JR.", ("s355", "st52", "s355jr"), _PRACTICE,
    ),
    Steel(
        "A36", _MILD, _EN_DENSITY, _yield(250, "ASTM A36, 36 ksi"), (0.0015, 0.0029), _SURE,
        "Sold by strength, not by what is in it: some bars have hard spots.", ("astm a36", "hot rolled a36"), _PRACTICE,
    ),
    Steel(
        "1018", _MILD, _EN_DENSITY, _yield(220, "hot rolled, SAE J1397"), (0.0015, 0.0020), _SURE,
        "Mostly sold cold rolled: cold bends can crack until it is annealed.",
        ("aisi 1018", "sae 1018", "c1018", "cold rolled"), _PRACTICE,
    ),
    Steel(
        "1020", _MILD, _EN_DENSITY, _yield(205, "hot rolled, SAE J1397"), (0.0018, 0.0023), _SURE,
        "", ("aisi 1020", "sae 1020", "c20"), _PRACTICE,
    ),
    Steel(
        "12L14", _MILD, _EN_DENSITY, None, (0.0, 0.0015), _NEVER,
        "Free-cutting bar with lead in it: it tears when hot, and the fume is poison.",
        ("leaded", "leaded steel", "free cutting", "11smnpb30"), _PRACTICE,
    ),
    Steel(
        "1045", _MEDIUM, _EN_DENSITY, _yield(310, "hot rolled, SAE J1397"), (0.0043, 0.0050), _CARE,
        "Hardens in water: let it cool slowly after forging.", ("aisi 1045", "sae 1045", "c45", "1.0503"), _PRACTICE,
    ),
    Steel(
        "4140", _MEDIUM, _EN_DENSITY, _yield(415, "annealed"), (0.0038, 0.0043), _NEVER,
        "Chromium keeps a fire weld from taking; hardens in air when thin.", ("aisi 4140", "42crmo4", "chrome moly"),
        _PRACTICE,
    ),
    Steel(
        "5160", _SPRING, _EN_DENSITY, _yield(275, "annealed"), (0.0056, 0.0064), _CARE,
        "Leaf springs. Never bend it cold, never quench it hot by mistake.",
        ("aisi 5160", "spring", "spring steel"),
        _PRACTICE,
    ),
    Steel(
        "W1", _TOOL, _EN_DENSITY, None, (0.0070, 0.0150), _CARE,
        "Burns at a lower heat than mild steel: keep under a bright orange.",
        ("tool steel", "water hardening", "silver steel"),
        _PRACTICE,
    ),
    Steel(
        "O1", _TOOL, _EN_DENSITY, None, (0.0085, 0.0100), _NEVER,
        "Cool it slowly in ash: it hardens in oil and partly in air.", ("oil hardening", "1.2510"), _PRACTICE,
    ),
    Steel(
        "wrought iron", MetalClass.WROUGHT, _WROUGHT_DENSITY, _yield(185, "old bar along the grain, about 27 ksi"),
        (0.0, 0.0010), _SURE, "Has a grain: work it at a welding heat or it splits.",
        ("wrought", "puddled iron"), _PRACTICE,
    ),
    Steel(
        "304", MetalClass.STAINLESS, _density(7900.0, "EN 10088-1, 1.4301"), _yield(205, "ASTM A240"), (0.0, 0.0008),
        _NEVER, "Stiff when hot, and its fume is to be kept out of the lungs.",
        ("stainless", "1.4301", "aisi 304", "18/8"),
        _PRACTICE,
    ),
    Steel(
        "copper", MetalClass.COPPER, _density(8930.0, "pure copper, handbooks"), _yield(69, "annealed, about 10 ksi"),
        (0.0, 0.0), _NEVER, "Worked cold and annealed, or at a dull red.", ("cu", "c110"), _PRACTICE,
    ),
    Steel(
        "brass", MetalClass.COPPER, _density(8500.0, "70/30 and 60/40 brass, handbooks"), _yield(100, "annealed"),
        (0.0, 0.0), _NEVER, "Gives off zinc fume when overheated; leaded brass is not for the fire.", ("cz108", "c260"),
        _PRACTICE,
    ),
    Steel(
        "cast iron", MetalClass.CAST, _CAST_DENSITY, None, (0.02, 0.045), _NEVER,
        "Cannot be forged: it crumbles under the hammer.", ("cast", "grey iron"), _PRACTICE,
    ),
)  # fmt: skip

STEELS: dict[str, Steel] = {row.name: row for row in _ROWS}
_NAMES: dict[str, str] = {n.lower(): row.name for row in _ROWS for n in (row.name, *row.aliases)}
_LEADED = "12L14"
_MEANT = {"iron": "wrought iron", "black iron": "mild", "ironwork": "mild"}
"""Names that are no metal of their own -> what is most likely meant."""
SCRAP_SOURCE = Source("", "common practice in the trade", None, "what such scrap mostly is", Kind.COMMON)
SCRAP: dict[str, str] = {
    "leaf spring": "5160",
    "coil spring": "5160",
    "axle": "1045",
    "rebar": "1045",
    "reinforcing bar": "1045",
    "rail spike": "1020",
    "file": "W1",
}
"""What scrap is called by what it was -> the metal that it is taken for: a guess, for nobody knows its maker."""
_SCRAP_FILL = frozenset(
    ("old", "used", "scrap", "car", "truck", "lorry", "tractor", "railway", "steel", "bar", "a", "from")
)
DEFAULT_STEEL = STEELS["S235JR"]
"""What is taken where a job names no metal: plain mild bar."""


def find_steel(name: object) -> Read[Steel]:
    """A metal by name or trade name (`mild`, `A36`, `1045`); an unknown one is a finding with the nearest known."""
    asked = " ".join(str(name if name is not None else "").lower().split())[:40]
    if asked in ("", "unknown", "?", "scrap"):
        says = "What metal this is, is not known."
        return Read(None, (stop("steel-unknown", says, "Test it (spark, file, quench) or use known bar."),))
    known = _NAMES.get(asked) or _NAMES.get(asked.removesuffix(" steel"))
    if known is not None:
        return Read(STEELS[known], _faults(STEELS[known]))
    if (was := _scrap(asked)) is not None:
        return Read(STEELS[SCRAP[was]], (_guessed(was), *_faults(STEELS[SCRAP[was]])))
    return Read(None, (_no_such(asked),))


def _scrap(asked: str) -> str | None:
    """The name in `SCRAP` that is meant: `axles` and `old truck leaf spring` are found, `stainless axle` is not."""
    words = [w if w in _SCRAP_FILL else w.removesuffix("s") for w in asked.split()]
    for name in SCRAP:
        parts = name.split()
        if all(p in words for p in parts) and all(w in parts or w in _SCRAP_FILL for w in words):
            return name
    return None


def _guessed(was: str) -> Finding:
    says = f"`{was}` is scrap: that it is {SCRAP[was]} is a guess."
    return warn(
        "scrap-steel", says, "Forge and quench a test piece first, and look it over for cracks: old work has fatigue."
    )


def taken_for(name: object) -> Steel:
    """The metal of that name; plain mild bar where the name is not known (`find_steel` says so)."""
    return find_steel(name).value or DEFAULT_STEEL


def density_of(name: object) -> float:
    """Density [kg/m3] of a metal by name, or of what it is taken for."""
    return taken_for(name).density.value


_CAUTION_WORDS = {
    MetalClass.WROUGHT: "wrought",
    MetalClass.MILD: "mild",
    MetalClass.MEDIUM: "medium",
    MetalClass.SPRING: "spring",
    MetalClass.TOOL: "tool",
    MetalClass.STAINLESS: "stainless",
    MetalClass.CAST: "cast",
}


def families_of(name: object) -> frozenset[str]:
    """The words by which cautions know a metal: mild, tool, spring, stainless, brass, copper, leaded ...

    A metal that is not known is looked on as tool steel too, since it may harden.
    """
    steel = find_steel(name).value
    if steel is None:
        return frozenset(("unknown", "tool"))
    word = _CAUTION_WORDS.get(steel.family, steel.name)
    return frozenset((word, "leaded")) if steel is STEELS[_LEADED] else frozenset((word,))


def _faults(steel: Steel) -> tuple[Finding, ...]:
    if steel.family is MetalClass.CAST:
        return (stop("not-forgeable", f"{steel.name} cannot be forged.", "Take wrought iron or mild steel."),)
    if steel.name == _LEADED:
        return (warn("leaded-steel", f"{steel.name}: {steel.notes}", "Take plain mild bar."),)
    return ()


def _no_such(asked: str) -> Finding:
    near = [_NAMES[n] for n in difflib.get_close_matches(asked, _NAMES, n=1, cutoff=0.5)]
    likely = [_MEANT[asked]] if asked in _MEANT else near
    meant = f"Did you mean `{likely[0]}`? " if likely else ""
    return stop("no-such-steel", f"`{asked}` is not a metal that is known here.", f"{meant}Known: {', '.join(STEELS)}.")


def fire_weld_finding(steel: Steel) -> Finding | None:
    """What there is to say before this metal is fire welded; None for wrought iron and mild steel."""
    if steel.fire_weld is FireWeld.NO:
        says = f"{steel.name} cannot be fire welded with what a small forge has. {steel.notes}".strip()
        return stop("no-fire-weld", says, "Rivet it, collar it, or make the piece of mild steel.")
    if steel.fire_weld is FireWeld.WITH_CARE:
        says = f"{steel.name} fire welds only at a low heat, with flux, and not every time."
        return warn("fire-weld-with-care", says, "Make a test piece first.")
    return None
