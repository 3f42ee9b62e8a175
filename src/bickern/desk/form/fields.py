"""A job as a form to fill in: every value that is written, where it stands, and what may be added.

Made from the table of words that reads the job, and from the text alone: a job with faults has a form all the same.
"""

from dataclasses import dataclass, replace

from bickern.book.forms import NO, YES, Form, Key, Takes
from bickern.book.job.edit import one_line_list
from bickern.book.job.fits import fits, kind_of, wanted
from bickern.book.job.spots import child_span, last_sign, one_blank, page_of, piece_form
from bickern.book.job.words import FORMS, JOB, PIECES
from bickern.book.text import Entry, Group, Items, Page, Value, Word
from bickern.desk.form.titles import title_of
from bickern.measure.finding import stop
from bickern.measure.units.words import Read

SEVERAL_LINES = "text of several lines"
"""What a value takes that a form cannot show in one line: it is changed in the text."""

_FIRST_WORDS = tuple(replace(form.keys[0], needed=False) for form in PIECES)
_UNCLEAR = Form("piece", "A piece that does not say yet what it is made from.", _FIRST_WORDS, ("bar", "ring", "sheet"))


@dataclass(frozen=True, slots=True)
class Field:
    """One value as it is written ("" where a needed word is not written yet).

    `only_in_text`: it runs over several lines or is no single value; the form shows it, the text changes it.
    """

    path: str
    word: str
    says: str
    takes: str
    value: str
    choices: tuple[str, ...] = ()
    needed: bool = False
    line: int = 0
    column: int = 0
    only_in_text: bool = False


@dataclass(frozen=True, slots=True)
class Offer:
    """A word that can be added, or what an entry of a list can be; `value` is what it is usually begun with."""

    word: str
    says: str
    takes: str
    choices: tuple[str, ...] = ()
    value: str = ""


@dataclass(frozen=True, slots=True)
class Fields:
    """A group of words: its values in the order of the table, the groups and lists in it, and what can be added.

    `kind`: the word that says what it is (`over`, `bend`, `cone`), if it has one. `written`: it is in the text.
    """

    path: str
    title: str
    says: str
    fields: tuple[Field, ...]
    groups: "tuple[Fields | Entries, ...]" = ()
    offers: tuple[Offer, ...] = ()
    line: int = 0
    last_line: int = 0
    kind: str = ""
    word: str = ""
    written: bool = True


@dataclass(frozen=True, slots=True)
class Entries:
    """A list of entries (a track), or things by their names (`named`): then each entry's title is its name."""

    path: str
    word: str
    says: str
    entries: tuple[Fields, ...]
    kinds: tuple[Offer, ...]
    named: bool = False
    written: bool = True
    line: int = 0


@dataclass(frozen=True, slots=True)
class PieceForm:
    """One piece of the job: `kind` is bar, ring or sheet ("" where it does not say)."""

    name: str
    kind: str
    form: Fields
    like: str = ""


@dataclass(frozen=True, slots=True)
class _Reading:
    """The page in hand, and its top group (pieces that are like others are looked up there)."""

    page: Page
    top: Group


def piece_names(text: str) -> tuple[tuple[str, str, int], ...]:
    """Every piece by its name, with its kind ("bar", "ring", "sheet", "" where that is not said) and its line."""
    top = page_of(text).top
    pieces = top.get("pieces") if top is not None else None
    if top is None or not isinstance(pieces, Group):
        return ()
    return tuple((one_blank(e.key.text), _kind_name(e.value, top), e.key.where.line) for e in pieces.entries)


def _kind_name(piece: Value, top: Group) -> str:
    form = piece_form(piece, top)
    return form.name if form is not None else ""


def form_of(text: str, piece: str) -> Read[PieceForm]:
    """The form of one piece; a piece that is like another shows what is written in it, and offers the rest."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    pieces = page.top.get("pieces")
    entries = pieces.entries if isinstance(pieces, Group) else ()
    entry = next((e for e in entries if one_blank(e.key.text) == one_blank(piece)), None)
    if entry is None:
        says = f"no piece is named `{piece[:60]}`"
        return Read(None, (stop("unknown-piece", says, "was it renamed or taken out?"),))
    kind, path = _kind_name(entry.value, page.top), f"pieces.{entry.key.text}"
    form = FORMS.get(kind) or _UNCLEAR
    like = entry.value.get("like") if isinstance(entry.value, Group) else None
    made = _group(_Reading(page, page.top), entry.value, form, path, one_blank(entry.key.text), entry.key)
    return Read(PieceForm(one_blank(entry.key.text), kind, made, like.text if isinstance(like, Word) else ""))


def job_form(text: str) -> Read[Fields]:
    """The form of the job's own words, its joins and how it hangs; its pieces have forms of their own."""
    page = page_of(text)
    if page.top is None:
        return Read(None, page.findings)
    keys = tuple(k for k in JOB.keys if k.word != "pieces")
    title = page.top.get("job")
    form = Form(JOB.name, JOB.says, keys)
    said = title.text if isinstance(title, Word) else ""
    return Read(_group(_Reading(page, page.top), page.top, form, "", said, None, passed=("pieces",)))


def _group(
    reading: _Reading, value: Value | None, form: Form, path: str, title: str, key: Word | None,
    passed: tuple[str, ...] = (), word: str = "",
) -> Fields:  # fmt: skip
    """A group by its table; one that is no group, or not there, has no fields yet."""
    group = value if isinstance(value, Group) else None
    words = group.words() if group is not None else ()
    kind = kind_of(form, words)
    must = () if "like" in words else wanted(form, kind, words)
    entries = {e.key.text: e for e in group.entries if e.key.text not in passed} if group is not None else {}
    fields, groups = _read_words(reading, entries, form, path, must)
    if isinstance(value, Word) and (value.text or key is None):
        fields = (_field(reading.page, path, form.keys[0], value, True), *fields)
    line = key.where.line if key is not None else value.where.line if value is not None else 0
    last = _last_line(reading.page, value, line) if value is not None else line
    return Fields(
        path, title, form.says, fields, groups, _offers(form, kind, (*words, *must)), line, last, kind, word,
        value is not None,
    )  # fmt: skip


def _read_words(
    reading: _Reading, entries: dict[str, Entry], form: Form, path: str, must: tuple[str, ...]
) -> tuple[tuple[Field, ...], "tuple[Fields | Entries, ...]"]:
    """Every word that is written or must be, needed ones first, then in the order of the table; unknown ones last."""
    ranked = sorted(form.keys, key=lambda k: k.word not in must)
    fields: list[Field] = []
    groups: list[Fields | Entries] = []
    for key in ranked:
        entry = entries.get(key.word)
        if entry is None and key.word not in must:
            continue
        below = f"{path}.{key.word}" if path else key.word
        made = _one(reading, key, entry, below, key.word in must)
        groups += [made] if not isinstance(made, Field) else []
        fields += [made] if isinstance(made, Field) else []
    for word, entry in entries.items():
        if form.key(word) is None:
            unknown = Key(word, Takes.TEXT, "a word that is not known here")
            below = f"{path}.{word}" if path else word
            fields.append(_field(reading.page, below, unknown, entry.value, False, entry.key))
    return tuple(fields), tuple(groups)


def _one(reading: _Reading, key: Key, entry: Entry | None, path: str, needed: bool) -> "Field | Fields | Entries":
    """What stands behind one word: a value, a group, or a list."""
    value, said = (entry.value, entry.key) if entry is not None else (None, None)
    holds = isinstance(value, Group | Items) or value is None or not value.text
    if key.takes is Takes.GROUP and holds:
        return _group(reading, value, FORMS[key.form], path, key.word, said, word=key.word)
    if key.takes in (Takes.LIST, Takes.OFFERED) and holds:
        return _list(reading, key, value, path, said)
    if key.takes is Takes.NAMED and holds:
        return _named(reading, key, value, path, said)
    return _field(reading.page, path, key, value, needed, said)


def _list(reading: _Reading, key: Key, value: Value | None, path: str, said: Word | None) -> Entries:
    form = FORMS[key.form]
    items = [(f"{path}[{i}]", v) for i, v in enumerate(value.items, 1)] if isinstance(value, Items) else []
    if isinstance(value, Group):
        items = [(path, value)]
    entries = tuple(_group(reading, v, form, p, title_of(v, form), None) for p, v in items)
    line = said.where.line if said is not None else 0
    return Entries(path, key.word, key.says, entries, kinds_of(form), written=value is not None, line=line)


def _named(reading: _Reading, key: Key, value: Value | None, path: str, said: Word | None) -> Entries:
    form = FORMS[key.form]
    found = value.entries if isinstance(value, Group) else ()
    entries = tuple(_group(reading, e.value, form, f"{path}.{e.key.text}", e.key.text, e.key) for e in found)
    line = said.where.line if said is not None else 0
    return Entries(path, key.word, key.says, entries, (), True, value is not None, line)


def kinds_of(form: Form) -> tuple[Offer, ...]:
    """What an entry read by that table can be."""
    first = form.one_of or tuple(k.word for k in form.keys if k.needed)[:1]
    return tuple(_offer(k) for w in first if (k := form.key(w)) is not None)


def _offers(form: Form, kind: str, there: tuple[str, ...]) -> tuple[Offer, ...]:
    return tuple(_offer(k) for k in form.keys if k.word not in there and fits(form, kind, k.word, there))


def _offer(key: Key) -> Offer:
    return Offer(key.word, key.says, str(key.takes), _choices(key), "yes" if key.takes is Takes.YES else "")


def _choices(key: Key) -> tuple[str, ...]:
    return (YES[0], NO[0]) if key.takes is Takes.YES else key.choices


def _field(page: Page, path: str, key: Key, value: Value | None, needed: bool, said: Word | None = None) -> Field:
    """One value as it is written."""
    where = value.where if isinstance(value, Items | Word) and value.end > value.start else None
    where = where or (said.where if said is not None else value.where if value is not None else None)
    written, several = _written(page, value)
    return Field(
        path, key.word, key.says, SEVERAL_LINES if several else str(key.takes), written, _choices(key), needed,
        where.line if where is not None else 0, where.column if where is not None else 0, several,
    )  # fmt: skip


def _written(page: Page, value: Value | None) -> tuple[str, bool]:
    """A value as written, and whether it is more than one line of a form can hold."""
    if value is None:
        return "", False
    raw = page.text[value.start : last_sign(value, page.text)]
    if isinstance(value, Word):
        return value.text, "\n" in value.text or len(raw.splitlines()) > 1
    if isinstance(value, Items) and one_line_list(value, page.text):
        return raw, False
    if isinstance(value, Items) and all(isinstance(i, Word) for i in value.items):
        return "\n".join(i.text for i in value.items if isinstance(i, Word)), True
    return raw, True


def _last_line(page: Page, value: Value, line: int) -> int:
    start, end = value.start, last_sign(value, page.text)
    if isinstance(value, Group) and not value.flow and value.entries:
        start = child_span(value, 0, page.text)[0]
        line = value.entries[0].key.where.line
    elif end > start:
        line = value.where.line
    return line + page.text.count("\n", start, end)
