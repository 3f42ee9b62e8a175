"""The words of a piece as fields in shop notation, in the order along the bar; each key goes into the file at once."""

from collections.abc import Iterator
from functools import partial
from html import escape

from nicegui import ui
from nicegui.element import Element

from bickern.desk.form.edits import add_entry, add_word, drop, move_entry, put
from bickern.desk.form.fields import Entries, Fields, Offer, form_of, job_form
from bickern.desk.form.fields import Field as Told
from bickern.measure.finding import Finding, Weight
from bickern.web.bench.window import JOB, Window
from bickern.web.field import Field, hears
from bickern.web.parts import able, button, heading, words
from bickern.web.shown import Shown

Shape = tuple[object, ...]
"""What a form is made of, without its values: where that changes it is laid out anew."""
LONG = 15
"""Signs in a value that gets room for two."""


class Form:
    """The form of what is looked at; fields keep what is typed, and are told what is wrong with it."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self.fields: dict[str, Field] = {}
        self.heads: dict[str, Shown] = {}
        self.shape: Shape = ()
        self.emptied: set[str] = set()
        self.box = ui.element("div").classes("form")
        window.shows.append(lambda _: self.show())
        window.shows.append(lambda _: self.mark())
        self.show()

    def show(self) -> None:
        """Values where only they changed; the whole laid out anew where words came or went."""
        read = (
            job_form(self.window.doc.text)
            if self.window.piece == JOB
            else form_of(self.window.doc.text, self.window.piece)
        )
        form = read.value if isinstance(read.value, Fields) else read.value.form if read.value is not None else None
        if form is None:
            return  # what cannot be read as a file keeps its last form: the findings say why
        shape = (self.window.piece, *_shape(form, self.emptied))
        if shape == self.shape:
            for told in every_field(form):
                if told.path in self.fields:
                    self.fields[told.path].show(told.value)
            for path, says in every_title(form):
                if path in self.heads:
                    self.heads[path].put(escape(says))
            return
        self.shape = shape
        self.emptied.clear()
        self.fields.clear()
        self.heads.clear()
        self.box.clear()
        with self.box:
            self._group(form, top=True)

    def mark(self) -> None:
        """Says at each field what is wrong with it, the worst first; what is wrong with no field, at its group."""
        worst: dict[str, Finding] = {}
        for found in sorted(self.window.found, key=lambda one: one.weight):
            if found.weight is not Weight.NOTE:
                worst[self._nearest(found.where.path)] = found
        for path, one in self.fields.items():
            one.wrong(self.window.said(worst[path].says) if path in worst else "")

    def _nearest(self, path: str) -> str:
        return path if path in self.fields else ""

    def go(self, path: str) -> bool:
        """Moves the cursor to the field at that place, or the first one in it; whether there is one."""
        inside = [at for at in self.fields if at == path or at.startswith((f"{path}.", f"{path}["))]
        if not path or not inside:
            return False
        self.fields[inside[0]].go()
        return True

    # ---- laid out

    def _group(self, told: Fields, *, top: bool = False, entry: bool = False) -> None:
        with ui.element("div").classes("fields"):
            for one in told.fields:
                self._field(one)
        for inner in told.groups:
            if isinstance(inner, Entries):
                self._entries(inner)
            else:
                with ui.element("fieldset").classes("inner"):
                    with ui.element("legend"):
                        ui.label(inner.title)
                    self._group(inner)
        if told.offers and not entry:
            self._more(told.path, told.offers, "the piece" if top else told.title)

    def _field(self, told: Told) -> None:
        options = [("", "not said"), *((one, one) for one in told.choices)] if told.choices else ()
        made = Field(
            told.word, told.value, hears(partial(self._put, told.path)), hint=told.says, options=options,
            needed=told.needed, name=told.path, lines=told.value.count("\n") + 2 if told.only_in_text else 1,
            keeps=True,
        )  # fmt: skip
        self.fields[told.path] = made.classes("long") if len(told.value) > LONG else made

    def _put(self, path: str, value: str) -> None:
        if not value.strip():
            self.emptied.add(path)
        self.window.changed(lambda text: put(text, path, value), step=path)

    def _entries(self, told: Entries) -> None:
        with ui.element("section").classes("track"):
            heading(told.word, 3)
            words(told.says, quiet=True)
            for at, entry in enumerate(told.entries, 1):
                self._entry(entry, at, len(told.entries), told.word)
            self._new_entry(told)

    def _entry(self, entry: Fields, at: int, count: int, word: str) -> None:
        with ui.element("fieldset").classes("entry"):
            with ui.element("legend"):
                self.heads[entry.path] = Shown("span", escape(entry.title))
            self._group(entry, entry=True)
            with ui.element("details").classes("more"):
                ui.html(f"more of {word} {at}", tag="summary", sanitize=False)
                if entry.offers:
                    self._more(entry.path, entry.offers, f"{word} {at}")
                with ui.element("div").classes("row"):
                    for says, by, can in (("Earlier", -1, at > 1), ("Later", 1, at < count)):
                        able(self._does(says, f"{says}: {word} {at}", partial(move_entry, path=entry.path, by=by)), can)
                    self._does("Take out", f"Take out {word} {at}", partial(drop, path=entry.path))

    def _does(self, says: str, about: str, edit: object) -> Element:
        return button(says, lambda: self.window.changed(edit), small=True, about=about)  # type: ignore[arg-type]  # a partial

    def _new_entry(self, told: Entries) -> None:
        def add(kind: str) -> None:
            if kind:
                self.window.changed(lambda text: add_entry(text, told.path, kind))

        if told.named:
            with ui.element("div").classes("row"):
                called = Field(f"One more in {told.word}: its name")
                button("Put it in", lambda: add(called.value.strip()), small=True, about=f"Put it in {told.word}")
        elif told.kinds:
            options = [("", "choose"), *((one.word, f"{one.word}: {one.says}") for one in told.kinds)]
            Field(f"One more in {told.word}", "", hears(add), options=options)

    def _more(self, path: str, offers: tuple[Offer, ...], of: str) -> None:
        def add(word: str) -> None:
            if word:
                self.window.changed(lambda text: add_word(text, path, word))

        options = [("", "choose"), *((one.word, f"{one.word}: {one.says}") for one in offers)]
        Field(f"Say more of {of}", "", hears(add), options=options)


def every_field(form: Fields) -> Iterator[Told]:
    """All fields of a form, those of its groups and lists too."""
    yield from form.fields
    for inner in form.groups:
        for group in inner.entries if isinstance(inner, Entries) else (inner,):
            yield from every_field(group)


def every_title(form: Fields) -> Iterator[tuple[str, str]]:
    """What stands above each entry of its lists, by its place."""
    for inner in form.groups:
        for group in inner.entries if isinstance(inner, Entries) else (inner,):
            yield group.path, group.title
            yield from every_title(group)


def _shape(form: Fields, emptied: set[str]) -> Iterator[object]:
    """The places of a form in order; a field that was emptied here a moment ago still counts as there."""
    told = {one.path for one in form.fields}
    yield form.path
    yield frozenset(told | {path for path in emptied if path.rsplit(".", 1)[0] == form.path})
    for inner in form.groups:
        if isinstance(inner, Entries):
            yield inner.path, len(inner.entries)
        for group in inner.entries if isinstance(inner, Entries) else (inner,):
            yield from _shape(group, emptied)
