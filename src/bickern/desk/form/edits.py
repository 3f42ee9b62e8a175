"""Every edit of a job's text that a form makes: text in, text out, all that is not meant stays letter for letter.

Each gives the new text, or no text and the finding that says why not. What a person types goes into the text as it is
typed, half a size too (`3 1/`): the findings say what is wrong with it, and nothing that was typed is lost.
"""

from bickern.book.forms import Form, Key, Takes
from bickern.book.job import edit, pieces
from bickern.book.job.fits import beginning, blank, kind_of, wanted
from bickern.book.job.spots import Spot, inside, page_of, spot
from bickern.book.job.words import FORMS
from bickern.book.text import Group
from bickern.measure.units.words import Read


def put(text: str, path: str, value: str) -> Read[str]:
    """The value at that path (`pieces.arm.metal[2].over`) is now this; nothing takes the word out.

    A word that must be there stays, with nothing behind it, so that a finding asks for it. Texts that stand below one
    another as a list (`notes`) are put as lines.
    """
    if not value and not _must_stay(text, path):
        return edit.take_out(text, path)
    return edit.put(text, path, value)


def _must_stay(text: str, path: str) -> bool:
    """Whether a word stays though it has no value: it is needed, says what its group is, or is one of a list."""
    top = page_of(text).top
    at = spot(top, path) if top is not None else None
    if top is None or at is None or at.rest or not isinstance(at.parent, Group):
        return False
    holder = _holder(top, path, at)
    words, word = at.parent.words(), at.parent.entries[at.way[-1]].key.text
    if holder.form is None or at.key is None or "like" in words:
        return False
    return word in wanted(holder.form, kind_of(holder.form, words), words)


def _holder(top: Group, path: str, at: Spot) -> Spot:
    """The spot of the group that holds what stands at the path."""
    if not isinstance(at.parent, Group):
        return at
    word = at.parent.entries[at.way[-1]].key.text
    return spot(top, path.removesuffix(word).removesuffix("."))


def drop(text: str, path: str) -> Read[str]:
    """The word, entry or list at that path is taken out, with the remarks on its lines."""
    return edit.take_out(text, path)


def add_word(text: str, path: str, word: str, value: str = "") -> Read[str]:
    """A word is added to the group at that path ("": the job), at its place in the table of words.

    A word that holds a group or a list begins with the words it must have; `yes` is taken for words that say yes or no.
    """
    top = page_of(text).top
    if top is None:
        return edit.add_word(text, path, word, value)
    at = spot(top, path)
    key, form, named = inside(at, word, None, top) if not at.rest else _missing(at, word)
    if key is None and form is not None and not named:
        return edit.add_word(text, path, word, dict(beginning(form)))  # a name: a limb or a branch
    return edit.add_word(text, path, word, blank(key) if key is not None and not value else value)


def _missing(at: Spot, word: str) -> tuple[Key | None, None, bool]:
    """The table's word where the group that is to hold it is not there yet."""
    form = at.form
    for step in at.rest.removeprefix(".").split("."):
        key = form.key(step) if form is not None else None
        form = FORMS.get(key.form) if key is not None else None
    return (form.key(word) if form is not None else None), None, False


def add_entry(text: str, path: str, kind: str, value: str = "") -> Read[str]:
    """An entry of that kind (`over`, `bend`, `rivet`) is added to the list at that path, which is made if need be.

    In `split` and `weld on` the kind is the new one's name.
    """
    top = page_of(text).top
    if top is None:
        return edit.add_entry(text, path, {kind: value})
    at = spot(top, path)
    form, named = _list_there(at)
    if named and form is not None:
        return edit.add_word(text, path, kind, dict(beginning(form)))
    if form is None:
        return edit.add_entry(text, path, {kind: value})
    words = beginning(form, kind if kind in form.one_of else "", value)
    if value and kind not in form.one_of and form.key(kind) is not None:
        words[kind] = value
    return edit.add_entry(text, path, words or {kind: value})


def _list_there(at: Spot) -> tuple[Form | None, bool]:
    """The table of a list's entries, there or not."""
    if not at.rest:
        return at.form, at.named
    key = at.form.key(at.rest.removeprefix(".")) if at.form is not None else None
    return FORMS.get(key.form) if key is not None else None, key is not None and key.takes is Takes.NAMED


def move_entry(text: str, path: str, by: int) -> Read[str]:
    """The entry (or piece) at that path stands so many places further down among its brothers (below 0: up)."""
    return edit.move(text, path, by)


def add_piece(text: str, name: str, kind: str) -> Read[str]:
    """A new piece of that kind (bar, ring, sheet) behind the others, with sizes to begin from."""
    return pieces.add_piece(text, name, kind)


def copy_piece(text: str, name: str, new: str) -> Read[str]:
    """All that is written of a piece once more, under another name, behind it."""
    return pieces.copy_piece(text, name, new)


def rename_piece(text: str, name: str, new: str) -> Read[str]:
    """A piece under another name, in every place that names it: joins, the hanger, `like`."""
    return pieces.rename_piece(text, name, new)


def drop_piece(text: str, name: str) -> Read[str]:
    """The job without that piece; joins that name it stay, and findings say so."""
    return pieces.drop_piece(text, name)
