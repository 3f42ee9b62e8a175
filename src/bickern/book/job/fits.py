"""Which words of an entry fit beside the one that says what it is, and what a new entry begins with."""

from bickern.book.forms import Form, Key, Takes
from bickern.book.job.joint import PLACES
from bickern.book.job.path import ALL_OWN, OWN
from bickern.book.job.splice import Plain
from bickern.book.job.words import FORMS

_SECTIONS = ("from", "to", "as")
_END_WORDS = ("width", "thick", "widths")
_NOT_AT_AN_END = (*_SECTIONS, "shoulder")
_NOT_BESIDE = {
    "over": _END_WORDS,
    "keep": (*_SECTIONS, *_END_WORDS),
    "leaf": (*_NOT_AT_AN_END, "widths"),
    "spade": (*_NOT_AT_AN_END, "widths"),
    "spoon": (*_NOT_AT_AN_END, "widths"),
    "free": _NOT_AT_AN_END,
}
_SAYS_NOTHING = {("twist", "all of"): ("over",), ("outline", "points"): ("units",), ("cut out", "points"): ("at",)}
_ONE_ALONE = {
    "ring": (("inside across", "inside radius", "mean across", "outside across"),),
    "path": (("inside across", "inside radius"),),
    "hole": (("divide", "number"), ("divide", "spacing")),
    "metal": (("as", "from"), ("as", "to")),
}
"""Words of which one alone can be told."""
_BEGINS_WITH = {
    "scroll": ("turns", "inside radius", "outside radius"),
    "hoop": ("inside across",),
    "rim": ("round",),
    "chain": ("links",),
    "bend": ("inside radius",),
    "curl": ("inside radius",),
}
"""What a new group or leg of that name is usually told by, where the table leaves a choice."""
_PLACE_WORDS = ("through", "round", "on")
_ENDS = ("leaf", "spade", "spoon", "free")


def kind_of(form: Form, words: tuple[str, ...]) -> str:
    """The word that says what a group is: the first of the table's own that is written."""
    return next((w for w in form.one_of if w in words), "")


def fits(form: Form, kind: str, word: str, there: tuple[str, ...] = ()) -> bool:
    """Whether a word says anything beside that kind of entry, and beside the words that are there."""
    if word in form.one_of:
        return not kind
    if any(word in alike and not set(alike).isdisjoint(there) for alike in _ONE_ALONE.get(form.name, ())):
        return False
    if kind == "like" or not kind:
        return True
    if form.name == "metal":
        return word not in _NOT_BESIDE.get(kind, ())
    if form.name == "path":
        return word not in ALL_OWN or word in OWN.get(kind, ())
    if form.name == "join":
        return _fits_joint(kind, word)
    if form.name == "seam":
        return kind == "riveted lap"
    return word not in _SAYS_NOTHING.get((form.name, kind), ())


def _fits_joint(kind: str, word: str) -> bool:
    if word in _PLACE_WORDS:
        return word == PLACES.get(kind, "through")
    return word != ("number" if kind == "wrap" else "turns")


def wanted(form: Form, kind: str, there: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The words that an entry of that kind must have beside those that are there, in the order of the table."""
    own: tuple[str, ...] = (kind,) if kind else ()
    if form.name == "join" and kind and kind not in PLACES:
        own = (kind, "through")
    elif form.name == "join" and kind in ("collar", "wrap", "hook"):
        own = (kind, PLACES[kind])
    elif form.name == "metal" and kind in _ENDS:
        own = (kind, "width", "thick", *(("widths",) if kind == "free" else ()))
    elif form.name == "twist" and kind and kind not in ("all of", "like"):
        own = (kind, "over")
    elif form.name == "hole" and kind == "size" and "divide" not in there:
        own = (kind, "at")
    if kind == "like":
        return own
    return tuple(k.word for k in form.keys if k.word in own or k.needed)


def beginning(form: Form, kind: str = "", value: str = "") -> dict[str, Plain]:
    """What a new group of that table holds: every word that it must or will have, empty but for the one told."""
    usual = _BEGINS_WITH.get(kind if form.name == "path" else form.name, ())
    words: dict[str, Plain] = {}
    for key in form.keys:
        if key.word in wanted(form, kind) or key.word in usual:
            words[key.word] = value if value and key.word == kind else blank(key)
    return words


def blank(key: Key) -> Plain:
    """What stands behind a word that was just added: nothing, `yes`, or a group with the words it must have."""
    if key.takes is Takes.YES:
        return "yes"
    if key.takes in (Takes.LIST, Takes.OFFERED):
        return []
    if key.takes is Takes.NAMED:
        return {}
    return dict(beginning(FORMS[key.form])) if key.takes is Takes.GROUP else ""
