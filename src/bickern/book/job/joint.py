"""Joints from their words; whom they speak of is looked up in `who`."""

import re

from bickern.book.forms import Takes
from bickern.book.job.material import ask_weld
from bickern.book.job.who import Who, how_many, look_up_name, split_name
from bickern.book.told import Told
from bickern.measure.finding import stop
from bickern.measure.units.read import read_length
from bickern.measure.units.words import INCH, Read, System
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.sheet.spec import SheetSpec

_ROUND = ("collar", "wrap")
PLACES = {"weld": "weld", "collar": "round", "wrap": "round", "hook": "on"}
"""Behind which word the places of a joint stand, where that is not `through`."""
_COUNTED = (JointKind.RIVET, JointKind.PIN, JointKind.SCREW, JointKind.TENON)


def read_joint(told: Told, who: Who) -> JointSpec | None:
    """One joint, or None where it does not say of what kind it is."""
    word = told.which()
    if not word:
        return None
    through = _through(told, word, who)
    ring = told.text(word) if word in ("ring", "hook") else ""
    if word in ("ring", "hook"):
        look_up_name(told, word, ring, who)
        _CHECKS[word](told, ring, through, who)
    if word == "weld":
        for steel in sorted({s.steel for n in through if (s := who.specs.get(split_name(n, who)[0])) is not None}):
            ask_weld(told, "weld", steel)
    size = told.length(word) if word in ("rivet", "tenon", "pin") else _screw(told) if word == "screw" else None
    section = told.section(word) if word in _ROUND else None
    kind = JointKind.RING if word == "hook" else JointKind(word)
    number = told.count("turns") if word == "wrap" else _number(told, kind, through, who)
    return JointSpec(kind, through, ring, size or 0.0, section, told.length("grip"), number, told.where)


def _through(told: Told, word: str, who: Who) -> tuple[str, ...]:
    """The places, from `through`, `round`, `on` or the weld itself."""
    key = PLACES.get(word, "through")
    for other in ("through", "round", "on"):
        if other != key and told.has(other):
            told.fault("unknown-word", f"a {word} does not take `{other}`", f"write `{key}:`", other)
    if not told.has(key):
        told.fault("missing", f"`{key}` is not told: what does the {word} join?", f"add `{key}: [a.end, b.start]`")
    words = told.list_of_words(key, Takes.LINKS)
    for w in words:
        look_up_name(told, key, " ".join(w.text.split()), who, w.where)
    if told.has(key) and len(words) < (2 if word in ("weld", *_ROUND) else 1):
        told.fault("joins-nothing", f"a {word} joins two things or more", f"write `{key}: [a.end, b.start]`", key)
    return tuple(" ".join(w.text.split()) for w in words)


def _check_ring(told: Told, ring: str, through: tuple[str, ...], who: Who) -> None:
    """What joins as a ring is one, named as a whole, and is not closed through itself."""
    piece, _, part = split_name(ring, who)
    spec = who.specs.get(piece)
    if isinstance(spec, SheetSpec) or (isinstance(spec, BarSpec) and not spec.closed):
        says = f"`{piece}` is no ring: its ends do not meet"
        tries = "name a piece made as `ring:`, or a bar with `closed:`"
        if isinstance(spec, BarSpec) and part:
            tries = f"a hook is told so: `hook: {ring}, on: ...`"
        told.fault("not-a-ring", says, tries, "ring")
    elif part and spec is not None:
        says = f"`{ring}` is a place on a ring, and it is the whole of it that joins"
        told.fault("not-a-ring", says, f"write `ring: {ring.partition('.')[0]}`", "ring")
    if ring in through:
        told.fault(
            "ring-through-itself", f"`{ring}` is to be closed through itself", "name what it goes through", "through"
        )


def _check_hook(told: Told, hook: str, through: tuple[str, ...], who: Who) -> None:
    """What hooks on is a named place of an open bar, and does not hang on its own bar."""
    piece, number, part = split_name(hook, who)
    spec = who.specs.get(piece)
    if spec is not None and (not isinstance(spec, BarSpec) or spec.closed):
        says = f"`{piece}` is no hook: it is not a bar with two ends"
        told.fault("not-a-hook", says, f"a ring is told so: `ring: {hook.partition('.')[0]}, through: ...`", "hook")
    elif spec is not None and not part:
        says = f"which bend of `{hook}` hooks on is not said"
        told.fault("which-bend", says, f"name that bend, and write `hook: {hook}.its name`", "hook")
    if any(split_name(place, who)[:2] == (piece, number) for place in through):
        told.fault("hook-on-itself", f"`{hook}` is to hang on its own bar", "name what it hangs on", "on")


_CHECKS = {"ring": _check_ring, "hook": _check_hook}


def _screw(told: Told) -> float | None:
    """Diameter [m]: `10` in an inch job is the number of a wood or machine screw, `M5` a metric one, else a length."""
    return told.read("screw", Takes.TEXT, lambda t: screw_size(t, told.reading.system))


def screw_size(text: str, system: System | None) -> Read[float]:
    """Number screws: 0.060 in + 0.013 in for each number (ASME B18.6.3), from memory."""
    said = text.strip().lower()
    metric = re.fullmatch(r"m ?(\d{1,2}(?:\.\d)?)", said)
    if metric is not None:
        return read_length(f"{metric.group(1)} mm", system)
    number = re.fullmatch(r"(?:no\.? ?|# ?|number )?(\d{1,2})", said)
    if number is not None and (system is not System.MM or said[0] in "n#"):
        if int(number.group(1)) > 30:
            return Read(
                None, (stop("no-such-screw", f"there is no number {number.group(1)} screw", "write its diameter"),)
            )
        return Read((0.060 + 0.013 * int(number.group(1))) * INCH)
    return read_length(text, system)


def _number(told: Told, kind: JointKind, through: tuple[str, ...], who: Who) -> int:
    """How many there are: as told, or as many as each piece has holes there; these must agree."""
    told_number = told.count("number")
    if kind not in _COUNTED:
        return told_number
    counts: dict[str, int] = {}
    for name in dict.fromkeys(through):
        piece, which, _ = split_name(name, who)
        one = f"{piece} {which}" if which else piece
        # a place named twice is gone through twice by each of them: one rivet holds both halves of a pair of tongs
        each, before = how_many(name, who) // through.count(name), counts.get(one, 0)
        # one pin goes through both cheeks of a clevis, whatever their holes are called
        counts[one] = max(before, each) if kind is JointKind.PIN else before + each
    counts = {piece: n for piece, n in counts.items() if n > 0}
    if told.has("number"):
        counts["number"] = told_number
    if len(set(counts.values())) > 1:
        said = ", ".join(f"{n} in `{name}`" if name != "number" else f"{n} told" for name, n in counts.items())
        told.fault("counts-differ", f"the {kind}s and what they go through do not match: {said}",
                   "make the numbers the same", "number")  # fmt: skip
    return max(counts.values(), default=1)
