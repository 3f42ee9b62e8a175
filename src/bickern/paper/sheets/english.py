"""Shop words as they are said on either side of the water; a person's own words are never touched."""

import re

from bickern.measure.source import Kind, Source

ENGLISH_SOURCE = Source("", "trade words in US and UK shops", None, "", Kind.COMMON)
UK: dict[str, str] = {
    "drawn out": "drawn down",
    "draws out": "draws down",
    "draw out": "draw down",
    "drawing out": "drawing down",
    "an upset": "a jump up",
    "upsetting": "jumping up",
    "upset": "jump up",
    "horn": "bick",
    "hardy": "hardie",
    "vise": "vice",
    "slack tub": "bosh",
    "slug": "burr",
    "forge welding": "fire welding",
    "forge welds": "fire welds",
    "forge weld": "fire weld",
    "drill press": "pillar drill",
    "traveler": "traveller",
    "steel wool": "wire wool",
}
"""US words as they stand in the tables, and what a UK shop says."""
_WORDS = re.compile(rf"(\"[^\"]*\"|`[^`]*`)|\b({'|'.join(map(re.escape, UK))})\b", re.IGNORECASE)


def in_english(says: str, english: str) -> str:
    """Our own words in the shop's English; what stands in quotes is a name that a person gave, and stays."""
    return _WORDS.sub(_uk, says) if english == "UK" else says


def _uk(found: re.Match[str]) -> str:
    if found[1]:
        return found[1]
    said = UK[found[2].lower()]
    return said[:1].upper() + said[1:] if found[2][:1].isupper() else said
