"""Shop notation made plain before it is read: one spelling for quotes, dashes, spaces and one-sign fractions."""

import unicodedata
from decimal import Decimal

from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read

LONGEST = 60
"""Characters: no size written by hand is longer; longer text is not searched at all."""
BIGGEST = 10**9
SMALLEST = Decimal("1e-9")

_SAME_SIGN: dict[str, str] = {
    **dict.fromkeys("”“„″‟", '"'),
    **dict.fromkeys("’‘‚′‛´", "'"),
    **dict.fromkeys("−–—‐‑‒", "-"),
    **dict.fromkeys("\u00a0\u2000\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000", " "),
    **dict.fromkeys("\u200b\u2060\ufeff", ""),
    **dict.fromkeys("×✕⨯", " x "),
    **dict.fromkeys("°º˚", " deg "),
    **dict.fromkeys("Øø⌀∅", " dia "),
    "⁄": "/",
    "∕": "/",
    "％": "%",
    "℃": " c",
    "℉": " f",
    **{sign: f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')}" for sign in "½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒"},
}
_PLAIN = str.maketrans(_SAME_SIGN)


def shown(raw: object) -> str:
    """The user's own words as they may be printed inside a sentence: short, on one line, in quotes."""
    if isinstance(raw, int) and abs(raw) >= BIGGEST:
        return "a number of very many digits"
    if not isinstance(raw, str | int | float | Decimal):
        return f"a {type(raw).__name__}"
    raw = raw[: LONGEST + 1] if isinstance(raw, str) else raw
    text = "".join(c if c.isprintable() else " " for c in str(raw)).strip()
    return f"`{text}`" if len(text) <= LONGEST else f"`{text[:LONGEST]}...`"


def plain_text(raw: object) -> Read[str]:
    """What a job file gave (text or a number), as lower-case ASCII-like text with single spaces."""
    if raw is None:
        return _unread("empty", "Nothing is written here.", "Write a size, for instance `3/8 in` or `10 mm`.")
    if isinstance(raw, bool) or not isinstance(raw, str | int | float | Decimal):
        return _unread("not-a-size", f"{shown(raw)} is not a size or a number.", "Write one value, as on a drawing.")
    return _from_text(raw) if isinstance(raw, str) else _from_number(raw)


def _from_text(raw: str) -> Read[str]:
    if len(raw) > LONGEST:
        return _unread("too-long", f"{shown(raw)} is too long to be one value.", "Write one value, as on a drawing.")
    text = raw if raw.isascii() else raw.translate(_PLAIN)
    text = " ".join(text.lower().split()).replace("''", '"').replace(" /", "/").replace("/ ", "/")
    if not text:
        return _unread("empty", "Nothing is written here.", "Write a size, for instance `3/8 in` or `10 mm`.")
    return Read(text)


def _from_number(raw: int | float | Decimal) -> Read[str]:
    number = Decimal(raw) if isinstance(raw, int) else Decimal(str(raw))
    if not number.is_finite():
        return _unread("not-a-number", f"{shown(raw)} is not a number that can be measured.", "Write a plain number.")
    size = number.copy_abs()
    if size >= BIGGEST:
        return _unread("too-big", f"{shown(raw)} is too big to be meant.", "Look for a slipped digit.")
    if 0 < size < SMALLEST:
        return _unread("too-small", f"{shown(raw)} is too small to be meant.", "Look for a slipped digit.")
    return _from_text(format(number, "f"))


def _unread(name: str, says: str, try_this: str) -> Read[str]:
    return Read(None, (stop(name, says, try_this),))


def tidied(findings: "tuple[Finding, ...] | list[Finding]") -> tuple[Finding, ...]:
    """The findings in their order, each said once."""
    return tuple(dict.fromkeys(findings))
