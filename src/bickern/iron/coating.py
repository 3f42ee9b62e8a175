"""What is on a bar before it goes in the fire: some of it must never go in."""

import re

from bickern.measure.finding import Finding, stop, warn
from bickern.measure.source import Kind, Source

COATING_SOURCE = Source(
    "American Welding Society", "Safety and Health Fact Sheet 25, metal fume fever", 2002,
    "for zinc; the other rows are common practice", Kind.HANDBOOK,
)  # fmt: skip

_ZINC = "gives off zinc fume in the fire, and the fume makes you ill"
_DIPPED = "has a coat of another metal, mostly zinc, whose fume in the fire makes you ill"
_POISON = "gives off poisonous fume in the fire"
_BURSTS = "is closed: what is shut in it bursts when it is heated"
COATINGS: dict[str, str] = {
    **dict.fromkeys(
        ("galvanised", "galvanized", "galv", "zinc", "zinced", "sherardised", "electroplated", "passivated"), _ZINC
    ),
    **dict.fromkeys(("zincked", "zp", "bzp", "galvannealed", "electrogalvanised", "electrogalvanized"), _ZINC),
    **dict.fromkeys(("hdg", "dip", "dipped", "hotdip", "hotdipped"), _DIPPED),
    **dict.fromkeys(("cadmium", "chrome", "chromed", "chromium", "nickel", "plated"), _POISON),
    **dict.fromkeys(("lead", "leaded", "tinned", "terne", "enamelled", "enameled"), _POISON),
    **dict.fromkeys(("painted", "paint", "primer", "primed", "powder", "lacquered", "plastic", "coated"), _POISON),
    **dict.fromkeys(("sealed", "closed", "hydraulic", "shock", "cylinder"), _BURSTS),
}
"""Word on a label -> what it does in the fire. All of these stop the work."""
CLEAN = frozenset(
    (
        "bare",
        "none",
        "no",
        "black",
        "clean",
        "scale",
        "mill",
        "rust",
        "rusty",
        "bright",
        "ground",
        "pickled",
        "rolled",
        "drawn",
        "oiled",
        "unpainted",
        "uncoated",
        "ungalvanised",
        "ungalvanized",
    )
)
"""Words for a surface that may go in the fire."""
_NOTHING_ON_IT = frozenset(("bare", "clean", "uncoated", "unpainted", "ungalvanised", "ungalvanized", "none"))
"""Words that say so; with `not` before them, something is on it that is not told."""
_NO_COAT = frozenset(("leaded", *(word for word, does in COATINGS.items() if does is _BURSTS)))
"""Words that tell of the metal or of its shape: a clean surface says nothing against them."""
_FILL = frozenset(("steel", "bar", "tube", "surface", "with", "and", "light", "hot", "cold"))


def coating_finding(text: object) -> Finding | None:
    """What stands against heating a bar with this on it; None for bare metal. Unknown is a warning, never a pass."""
    if text is False:
        return None
    said = "unknown" if text is None or text is True else str(text)
    named = re.findall(r"[\w?]+", said.lower())
    words = " ".join(named)
    bad = next((w for w in named if w in COATINGS and not _denied(w, words)), None)
    if bad is not None:
        return _never(bad)
    known = [w for w in named if w in CLEAN or w in COATINGS]
    strange = [w for w in named if w not in CLEAN and w not in _FILL and w not in COATINGS and w != "not"]
    strange += [w for w in named if w in _NOTHING_ON_IT and _denied(w, words)]  # "not bare"
    if known and not strange:
        return None
    says = f"What is on this metal is not known: `{' '.join(named)[:40]}`." if named else "What is on it is not told."
    return warn("coating-unknown", says, "Look at it and write `coating: none`, or do not heat it.")


def in_remark(text: str) -> Finding | None:
    """What a remark says against heating a bar whose surface is told as clean: shut metal bursts, lead is no coat."""
    named = re.findall(r"[\w?]+", text.lower())
    bad = next((w for w in named if w in _NO_COAT and not _denied(w, " ".join(named))), None)
    return None if bad is None else _never(bad)


def _denied(word: str, words: str) -> bool:
    """`not galvanised`, `no paint`, `unpainted` are said of clean bars."""
    return any(f" {no} {word} " in f" {words} " for no in ("not", "no", "not hot", "no hot"))


def _never(word: str) -> Finding:
    says = f"This metal is marked `{word}`: it {COATINGS[word]}. It never goes in the fire."
    return stop("coated-metal", says, "Take bare metal. Do not burn the coating off.")
