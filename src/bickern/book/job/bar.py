"""A bar piece from its words: stock, tracks, splits and branches."""

from dataclasses import replace

from bickern.book.forms import Takes
from bickern.book.job.material import ask_weld, coating_of, steel_of
from bickern.book.job.metal import metal_entry
from bickern.book.job.path import Ways, default_turn, path_leg
from bickern.book.job.places import look_up, place_at, read_place
from bickern.book.job.words import FORMS
from bickern.book.text import Group
from bickern.book.told import Told, named, tell
from bickern.iron.section import Section
from bickern.measure.finding import note, stop
from bickern.measure.units.words import Read
from bickern.parts.bar.tracks import (
    Anchor,
    BarSpec,
    Blank,
    Branch,
    EyeLeg,
    Face,
    Hole,
    HoleBy,
    Metal,
    Overall,
    OverallGoal,
    PathLeg,
    Place,
    Twist,
)


def read_bar(told: Told, name: str, steel: str, coating: str) -> BarSpec:
    """The whole piece; where a value is at fault its default stands in, and the finding stops the piece."""
    told = Told(told.group, told.form, told.reading, told.choice("lying", "flat") == "on edge")
    stock = _stock(told)
    spec = read_tracks(told, name, stock, steel, coating)
    if told.choice("closed", "") == "welded":
        ask_weld(told, "closed", steel)
    return replace(
        spec,
        stock_length=told.amount("stock length") or Blank.OPEN,
        closed=told.has("closed"),
        welded=told.choice("closed", "welded") == "welded",
        overall=_overall(told, spec),
        grip=told.length("grip") or 0.0,
        make=told.count("make"),
    )


def _stock(told: Told) -> Section | None:
    value = told.word("bar", Takes.SECTION)
    if value is not None and value.text.strip().lower() in ("any", "?"):
        return None
    return told.section("bar")


def read_tracks(
    told: Told, name: str, stock: Section | None, steel: str, coating: str, ways: Ways | None = None
) -> BarSpec:
    """The four tracks and the branches, which a bar, a limb and a branch have alike.

    `ways`: which way bends turn with nothing said, where that does not follow from `stock` (a limb of a split bar).
    """
    default = ways or default_turn(stock)
    metal = tuple(m for t in told.list_of("metal") if (m := metal_entry(t)) is not None)
    path = tuple(p for t in told.list_of("path") if (p := path_leg(t, default)) is not None)
    if any(isinstance(leg, EyeLeg) and leg.welded for leg in path):
        ask_weld(told, "path", steel)
    known = _names(told, metal, path)
    twists = tuple(w for t in told.list_of("twist") if (w := _twist(t, known)) is not None)
    holes = tuple(h for t in told.list_of("holes") if (h := _hole(t, known)) is not None)
    branches = (*_limbs(told, steel, coating, default), *_branches(told, steel, coating, known))
    return BarSpec(
        name, stock, steel, metal, path, twists, holes, branches=branches,
        hand=_hand(told), coating=coating, where=told.where,
    )  # fmt: skip


def _hand(told: Told) -> str:
    hand = told.choice("hand", "right")
    mirrored = told.form.key("mirror") is not None and told.yes("mirror")
    return {"right": "left", "left": "right"}[hand] if mirrored else hand


def _names(told: Told, metal: tuple[Metal, ...], path: tuple[PathLeg, ...]) -> tuple[str, ...]:
    names = [entry.name for entry in (*metal, *path) if entry.name]
    for track in (metal, path):
        own = [e.name for e in track if e.name]
        twice = next((n for n in own if own.count(n) > 1), None)
        if twice is not None:
            says = f"two entries are named `{twice}`: places speak of the first"
            told.reading.say(note("same-name", says, "give them different names"), told.where)
    return tuple(dict.fromkeys(names))


def _twist(told: Told, known: tuple[str, ...]) -> Twist | None:
    turns, over, place = told.turns("turns"), told.length("over"), _twist_place(told)
    word = told.which()
    look_up(told, word, place, known)
    if over is None and word != "all of" and not told.has("over"):
        told.fault("missing", "`over` is not told: how long is the twist?", "add `over: 4`, or write `all of: NAME`")
    if word == "all of" and told.has("over"):
        told.fault("two-kinds", "`all of` is the whole of that entry: `over` cannot stand with it",
                   "write `middle of:` in place of `all of:`", "over")  # fmt: skip
    if turns is None or place is None:
        return None
    signed = -turns if told.choice("hand", "right") == "left" else turns
    return Twist(signed, None if word == "all of" else over, place, told.name(), where=told.where)


def _twist_place(told: Told) -> Place | None:
    word = told.which()
    if word == "at":
        return place_at(told)
    if word == "from":
        begin = told.read("from", Takes.LENGTH, lambda t: _from(told, t))
        return None if begin is None else Place(Anchor.DATUM, "", begin)
    if word == "all of":
        name = " ".join(told.text(word).split())
        if not name:
            told.fault("empty", "`all of` names no entry", "write `all of: NAME`", word)
        return Place(Anchor.START_OF, name)
    value = told.word(word, Takes.TEXT) if word else None
    if value is None or word == "like":
        return None
    return told.reading.take(read_place(f"{word} {value.text}", told.reading.system), value.where)


def _from(told: Told, text: str) -> Read[float]:
    from bickern.measure.units.read import read_length

    return read_length(text, told.reading.system, signed=True)


def _hole(told: Told, known: tuple[str, ...]) -> Hole | None:
    size, place = told.length("size"), place_at(told)
    if place is None and not told.has("at"):
        place = Place() if told.has("divide") else None
        if place is None:
            told.fault("missing", "`at` is not told: where is the hole?", "add `at: middle of ...` or a length")
    look_up(told, "at", place, known)
    number, spacing = _several(told)
    _check_slot(told, size)
    if size is None or place is None:
        return None
    by = told.choice("by", "drill")
    return Hole(
        size, HoleBy(by), place, Face(told.choice("face", "front")), told.length("long"), number, spacing,
        first_of(told), told.name(), where=told.where,
    )  # fmt: skip


def _check_slot(told: Told, size: float | None) -> None:
    long = told.length("long")
    if size is not None and long is not None and long < size:
        told.fault("slot-sizes", "`long` is less than `size`, which is the width of the slot", "swap them", "long")
    if told.has("first") and not told.has("divide"):
        told.fault(
            "two-kinds", "`first` speaks of holes that are divided evenly", "add `divide:`, or take it out", "first"
        )


def _several(told: Told) -> tuple[int, float | None]:
    """How many holes, and their spacing (None: divided evenly)."""
    if told.has("divide"):
        if told.has("number") or told.has("spacing"):
            told.fault("two-kinds", "`divide` and `number` or `spacing` cannot both be told", "keep one", "divide")
        return told.count("divide"), None
    number, spacing = told.count("number"), told.length("spacing")
    if told.has("spacing") and not told.has("number"):
        told.fault("missing", "`number` is not told: how many stand at that spacing?", "add `number:`", "spacing")
    if number > 1 and not told.has("spacing"):
        told.fault(
            "missing", "`spacing` is not told: how far apart are they?", "add `spacing:`, or write `divide:`", "number"
        )
    return number, spacing


def first_of(told: Told) -> float:
    """How many spaces the first stands from the joint, the seam or the start."""
    value = told.word("first", Takes.FIRST)
    found = told.reading.take(_first(value.text), value.where) if value is not None else None
    return 0.5 if found is None else found


def _first(text: str) -> Read[float]:
    from bickern.measure.units.read import read_number

    said = " ".join(text.lower().split())
    for tail in ("the joint", "the seam", "the start"):
        if said == f"at {tail}":
            return Read(0.0)
        said = said.removesuffix(f" from {tail}")
    if said == "half a space":
        return Read(0.5)
    found = read_number(said.removesuffix("of a space").removesuffix("spaces").removesuffix("space").strip())
    if found.value is not None:
        return found
    return Read(
        None, (stop("not-a-choice", f"`first` cannot be `{text[:60]}`", "write `half a space` or `at the joint`"),)
    )


def _overall(told: Told, spec: BarSpec) -> tuple[OverallGoal, ...]:
    """Overall sizes, each with the entry that gives way."""
    known = tuple(dict.fromkeys(e.name for e in (*spec.metal, *spec.path) if e.name))
    found = []
    for t in told.list_of("overall"):
        axis, by = t.which(), t.text("by")
        size = t.length(axis) if axis else None
        look_up(t, "by", Place(Anchor.START_OF, by) if by else None, known)
        if size is not None:
            found.append(OverallGoal(Overall(axis), size, by, where=t.where))
    return tuple(found)


def _named_groups(told: Told, word: str) -> list[tuple[str, Told]]:
    value, key = told.value(word, Takes.NAMED), told.form.key(word)
    if value is None or key is None:
        return []
    if not isinstance(value, Group):
        told.fault(
            "not-a-group",
            f"`{word}` wants names, each with its words",
            f"{word}: {{left: {{...}}, right: {{...}}}}",
            word,
        )
        return []
    found = []
    for entry in value.entries:
        inner = tell(told.reading, entry.value, FORMS[key.form], word, told.on_edge)
        if inner is not None:
            on_edge = inner.choice("lying", "on edge" if told.on_edge else "flat") == "on edge"
            found.append((named(told.reading, entry.key), Told(inner.group, inner.form, told.reading, on_edge)))
    return found


def _limbs(told: Told, steel: str, coating: str, ways: Ways) -> tuple[Branch, ...]:
    limbs = _named_groups(told, "split")
    if told.has("split") and not 2 <= len(limbs) <= 4:
        told.fault("split", f"a bar is split in two, three or four; here are {len(limbs)}", "", "split")
    return tuple(Branch(name, read_tracks(t, name, None, steel, coating, ways)) for name, t in limbs)


def _branches(told: Told, steel: str, coating: str, known: tuple[str, ...]) -> tuple[Branch, ...]:
    found = []
    for name, t in _named_groups(told, "weld on"):
        place = place_at(t)
        look_up(t, "at", place, known)
        own = steel_of(t, steel), coating_of(t, True, coating)
        for metal in sorted({steel, own[0]}):
            ask_weld(t, "steel", metal)
        found.append(Branch(name, read_tracks(t, name, t.section("bar"), *own), place or Place()))
    return tuple(found)
