"""Job and shop files as text: read safely into words, lists and groups that remember where they stand.

Every value stays text (`no`, `1:30`, `2026-11-25` and `012` are never turned into something else by YAML); the rooms
above say what a word means. Anchors, aliases, tags and second documents are refused.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from bickern.book.traps import syntax_fault, value_traps
from bickern.measure.finding import Finding, Where, stop

LARGEST = 1_000_000
"""Bytes: more than this is not a job file."""
DEEPEST = 40
"""Levels of lists and groups inside one another."""
MOST = 20_000
"""Words in one file."""
QUESTION = "\ue000"
"""Stands for `?` while the text is parsed: YAML gives `? ` a meaning of its own, a smith another (`to: ? rd`)."""

UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ue000\ufffe\uffff\u2028\u2029]")


@dataclass(frozen=True, slots=True)
class Word:
    """One value as written. `start` and `end` are offsets in the text; `plain` says that it is not quoted."""

    text: str
    where: Where
    start: int
    end: int
    plain: bool = True


@dataclass(frozen=True, slots=True)
class Items:
    """A list of values."""

    items: "tuple[Value, ...]"
    where: Where
    start: int
    end: int
    flow: bool


@dataclass(frozen=True, slots=True)
class Entry:
    """A key and its value."""

    key: Word
    value: "Value"


@dataclass(frozen=True, slots=True)
class Group:
    """Keys with values, in the order written; a key stands once."""

    entries: tuple[Entry, ...]
    where: Where
    start: int
    end: int
    flow: bool

    def get(self, word: str) -> "Value | None":
        """The value of that key."""
        return next((e.value for e in self.entries if e.key.text == word), None)

    def words(self) -> tuple[str, ...]:
        """The keys in order."""
        return tuple(e.key.text for e in self.entries)


Value = Word | Items | Group


@dataclass(frozen=True, slots=True)
class Page:
    """A file read: its top group (None where it cannot be read), its text without a byte-order mark, findings."""

    top: Group | None
    text: str
    findings: tuple[Finding, ...] = ()


def read_page(source: str | bytes, file: str, kind: str = "job") -> Page:
    """The text as groups, lists and words with their places; never raises, whatever the bytes are.

    `kind`: which file it is, `job` or `shop`, for what is said of a file that is not one.
    """
    text, fault = decode(source, file, kind)
    if fault is not None:
        return Page(None, text, (fault,))
    return _parse(text, file, kind)


def decode(source: str | bytes, file: str, kind: str = "job") -> tuple[str, Finding | None]:
    """The characters of a file (UTF-8, byte-order mark taken off), or the finding that says why there are none."""
    where = Where(file)
    if len(source) > LARGEST:
        return "", stop("too-large", f"this file is {len(source) / 1e6:.1f} MB; a {kind} file is a few kB of text",
                        "is it the right file?", where)  # fmt: skip
    if isinstance(source, bytes):
        try:
            text = source.decode("utf-8-sig")
        except UnicodeDecodeError as bad:
            return "", stop("not-text", f"this is not plain text (byte {bad.start + 1} cannot be read as UTF-8)",
                            "save it as plain text, UTF-8", where)  # fmt: skip
    else:
        text = source.removeprefix("\ufeff")
    strange = UNPRINTABLE.search(text)
    if strange is not None:
        return "", _strange(text, strange, file)
    if not text.strip():
        return text, stop("empty", f"this {kind} file is empty", _begin(kind), where)
    return text, None


def _begin(kind: str) -> str:
    return f"begin with `{kind}:` and {'a title' if kind == 'job' else 'its name'}"


def _strange(text: str, found: re.Match[str], file: str) -> Finding:
    line = text.count("\n", 0, found.start()) + 1
    column = found.start() - (text.rfind("\n", 0, found.start()) + 1) + 1
    says = f"there is a character that cannot be printed (code {ord(found.group()):#06x})"
    return stop("not-text", says, "is this a text file? take the character out", Where(file, line, column))


def _parse(text: str, file: str, kind: str) -> Page:
    # libyaml's events come in a twentieth of the time of a parser written in Python; words are resolved here, not there
    from yaml import CSafeLoader, MarkedYAMLError, YAMLError, parse

    builder = _Builder(file, text, kind)
    try:
        top = builder.document(parse(text.replace("?", QUESTION), Loader=CSafeLoader))
    except _ReadingError as refused:
        return Page(None, text, (*builder.findings, refused.finding))
    except MarkedYAMLError as bad:
        mark = bad.problem_mark or bad.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
        if "depth" in str(bad.problem):  # the parser looks ahead and met its own limit first
            return Page(None, text, (*builder.findings, _too_deep(Where(file, line, column))))
        return Page(None, text, (*builder.findings, syntax_fault(text, str(bad.problem), Where(file, line, column))))
    except (YAMLError, ValueError, OverflowError, IndexError) as bad:
        # a fault of the text that the parser has no place for, such as a bad escape or an impossible code point
        return Page(None, text, (*builder.findings, syntax_fault(text, str(bad).split("\n")[0], Where(file))))
    if not isinstance(top, Group):
        says = f"a {kind} file is a list of `word: value` lines, and this is not"
        return Page(None, text, (*builder.findings, stop("not-a-job", says, _begin(kind), Where(file, 1, 1))))
    return Page(top, text, tuple(builder.findings))


def _too_deep(where: Where) -> Finding:
    return stop("too-deep", f"lists inside lists more than {DEEPEST} deep", "a bracket too many?", where)


class _ReadingError(Exception):
    """Ends the reading at once; carries the finding to report."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.says)
        self.finding = finding


@dataclass(slots=True)
class _Builder:
    """Builds the tree from parser events, so that depth, size and anchors are met before they cost anything."""

    file: str
    text: str
    kind: str = "job"
    findings: list[Finding] = field(default_factory=list)
    count: int = 0

    def document(self, events: Iterator[Any]) -> Value | None:
        """The one document of the stream."""
        top: Value | None = None
        for event in events:
            kind = type(event).__name__
            if kind == "DocumentStartEvent" and top is not None:
                says = "the file holds more than one document (a line of `---`)"
                raise _ReadingError(
                    stop("two-documents", says, f"keep one {self.kind} in one file", self.at(event, ""))
                )
            if kind in ("ScalarEvent", "SequenceStartEvent", "MappingStartEvent", "AliasEvent"):
                top = self.value(event, events, "", 0)
        return top

    def at(self, event: Any, path: str) -> Where:
        """Where an event starts."""
        return Where(self.file, event.start_mark.line + 1, event.start_mark.column + 1, path)

    def value(self, event: Any, events: Iterator[Any], path: str, depth: int) -> Value:
        """The value that starts with this event."""
        self.guard(event, path, depth)
        kind = type(event).__name__
        if kind == "ScalarEvent":
            return self.word(event, path)
        if kind == "SequenceStartEvent":
            return self.items(event, events, path, depth)
        return self.group(event, events, path, depth)

    def guard(self, event: Any, path: str, depth: int) -> None:
        """Refuse what no job needs: aliases, anchors, tags, very deep or very long files."""
        where = self.at(event, path)
        self.count += 1
        if self.count > MOST:
            raise _ReadingError(
                stop(
                    "too-large",
                    f"this file holds more than {MOST} words",
                    "split it into several jobs" if self.kind == "job" else "is it the right file?",
                    where,
                )
            )
        if depth > DEEPEST:
            raise _ReadingError(_too_deep(where))
        if type(event).__name__ == "AliasEvent" or getattr(event, "anchor", None):
            says = f"`&{event.anchor}` or `*{event.anchor}` (a YAML alias) is not used in {self.kind} files"
            again = "write `like: ...` to repeat a piece" if self.kind == "job" else "write it out"
            raise _ReadingError(stop("alias", says, f"{again}, or put quotes round the text", where))
        if getattr(event, "tag", None):
            says = f"`!` tags ({event.tag}) are not used in {self.kind} files"
            raise _ReadingError(stop("tag", says, "take the tag out, or put quotes round the text", where))

    def word(self, event: Any, path: str) -> Word:
        """A scalar, as text."""
        text = event.value.replace(QUESTION, "?")
        word = Word(text, self.at(event, path), event.start_mark.index, event.end_mark.index, not event.style)
        strange = UNPRINTABLE.search(text)
        if strange is not None:
            says = f"there is a character that cannot be printed (code {ord(strange.group()):#06x})"
            raise _ReadingError(stop("not-text", says, "take it out", word.where))
        return word

    def items(self, event: Any, events: Iterator[Any], path: str, depth: int) -> Items:
        """A list; its items are numbered from 1 in paths."""
        found: list[Value] = []
        for inner in events:
            if type(inner).__name__ == "SequenceEndEvent":
                end = inner.end_mark.index
                break
            found.append(self.value(inner, events, f"{path}[{len(found) + 1}]", depth + 1))
        items = Items(tuple(found), self.at(event, path), event.start_mark.index, end, bool(event.flow_style))
        self.findings += value_traps(
            self.text, [(i.text, i.where, i.start, i.end) for i in found if isinstance(i, Word) and i.plain]
        )
        return items

    def group(self, event: Any, events: Iterator[Any], path: str, depth: int) -> Group:
        """Keys and values; a key that stands twice is a finding and its first value is kept."""
        found: dict[str, Entry] = {}
        for inner in events:
            if type(inner).__name__ == "MappingEndEvent":
                end = inner.end_mark.index
                break
            key = self.value(inner, events, path, depth + 1)
            if not isinstance(key, Word):
                says = "a list or a group cannot stand before a colon"
                raise _ReadingError(stop("yaml", says, "look for a bracket in the wrong place", key.where))
            below = f"{path}.{key.text}" if path else key.text
            entry = Entry(key, self.placed(key, self.value(next(events), events, below, depth + 1)))
            self.keep(entry, found, below, bool(event.flow_style))
        return Group(tuple(found.values()), self.at(event, path), event.start_mark.index, end, bool(event.flow_style))

    def placed(self, key: Word, value: Value) -> Value:
        """A value that is not there stands behind its key's colon, not where the parser went on."""
        if not isinstance(value, Word) or value.text or not value.plain:
            return value
        colon = self.text.find(":", key.end)
        at = key.end if colon < 0 or self.text[key.end : colon].strip() else colon + 1
        where = replace(value.where, line=key.where.line, column=key.where.column)
        return replace(value, where=where, start=at, end=at)

    def keep(self, entry: Entry, found: dict[str, Entry], path: str, flow: bool) -> None:
        """Take one entry in, after the traps."""
        key, value = entry.key, entry.value
        where = Where(self.file, key.where.line, key.where.column, path)
        if key.text == "<<":
            says = f"`<<` (a YAML merge) is not used in {self.kind} files"
            again = "write `like: ...`" if self.kind == "job" else "write it out"
            raise _ReadingError(stop("alias", says, again, where))
        split = split_value(entry, list(found.values()), flow)
        if split is not None:
            self.findings.append(split.at(where))
            return
        if key.text in found:
            first = found[key.text].key.where.line
            says = f"`{key.text}` stands twice here (first on line {first})"
            self.findings.append(stop("said-twice", says, "keep one of them", where))
            return
        found[key.text] = entry
        if isinstance(value, Word) and value.plain:
            self.findings += value_traps(self.text, [(value.text, value.where, value.start, value.end)])


def split_value(entry: Entry, before: list[Entry], flow: bool) -> Finding | None:
    """The trap of `{over: 1,5 mm}`: the comma splits it in two; and of `{over:4}`, where the space is missing."""
    value = entry.value
    if not flow or not isinstance(value, Word) or value.text or not value.plain:
        return None
    key = entry.key.text
    last = before[-1].value if before else None
    if re.match(r"\d+(\s|$|[a-z\"'])", key) and isinstance(last, Word) and re.search(r"\d$", last.text):
        says = f"`{last.text},{key}` inside braces is read as two things, split at the comma"
        return stop("decimal-comma", says, f"write `{last.text}.{key}` with a point")
    if ":" in key:
        word, _, rest = key.partition(":")
        return stop(
            "no-space", f"`{key}` is read as one word: a space is missing after the colon", f"write `{word}: {rest}`"
        )
    return None
