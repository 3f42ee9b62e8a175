"""What a group of a job file tells: one reader for each kind of value, and the faults it finds."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import pi
from typing import TypeVar

from bickern.book.files import Fetch, no_files
from bickern.book.forms import NO, YES, Form, Takes
from bickern.book.text import Group, Items, Value, Word
from bickern.iron.section import Section, section_from
from bickern.measure.finding import Finding, Where, stop
from bickern.measure.units.read import (
    read_angle,
    read_count,
    read_length,
    read_number,
    read_section,
    read_sizes,
    read_turns,
)
from bickern.measure.units.words import GaugeSystem, Read, SectionWords, Shape, System
from bickern.parts.bar.tracks import Amount, Blank, SectionGoal

T = TypeVar("T")
LONGEST_TEXT = 1000
"""Characters in one text."""
LONGEST_NAME = 40

_VAGUE = re.compile(
    r"%|per ?cent|\bas (thick|thin|wide|long)\b|^[^\d?]*\b(half|third|quarter|twice|double|triple|long(er)?|short(er)?"
    r"|thin(ner)?|thick(er)?|wide(r)?|narrow(er)?|some|about|roughly|a (bit|little|lot)|big(ger)?|small(er)?|enough"
    r")\b[^\d?]*$",
    re.IGNORECASE,
)
_SHAPED = re.compile(r"half[ -](round|rnd|rd)\b", re.IGNORECASE)
TURNS = {"left": 0.0, "up": pi / 2, "right": pi, "down": 3 * pi / 2}
"""Which way a bend turns [rad], seen along the bar with the reference face up."""


@dataclass(slots=True)
class Reading:
    """One reading of one job: what bare numbers and gauges mean, where files come from, and the findings so far.

    `gauge_told`: the job itself names the gauge system, so that a bare gauge is not in doubt. `forms`: the tables that
    groups within groups are read by.
    """

    system: System | None = None
    gauge: GaugeSystem = GaugeSystem.US
    gauge_told: bool = False
    fetch: Fetch = no_files
    findings: list[Finding] = field(default_factory=list)
    forms: Mapping[str, Form] = field(default_factory=dict)

    def say(self, finding: Finding, where: Where) -> None:
        """Keep a finding, with its place."""
        placed = finding.at(where)
        if placed not in self.findings:
            self.findings.append(placed)

    def take(self, read: Read[T], where: Where) -> T | None:
        """The value of what was read; its findings are kept with the place."""
        for finding in read.findings:
            self.say(finding, where)
        return read.value

    def stops(self) -> int:
        """How many findings stop the work so far."""
        return sum(f.stops for f in self.findings)


@dataclass(frozen=True, slots=True)
class Told:
    """A group read by the table of its form. Each reader gives None where nothing is told, or where it is at fault."""

    group: Group
    form: Form
    reading: Reading
    on_edge: bool = False

    @property
    def where(self) -> Where:
        """Where the group stands."""
        return self.group.where

    def at(self, word: str) -> Where:
        """Where that word stands (the group itself when it is not told)."""
        entry = next((e for e in self.group.entries if e.key.text == word), None)
        if entry is None:
            return self.group.where
        key = entry.key.where
        return Where(key.file, key.line, key.column, entry.value.where.path)

    def has(self, word: str) -> bool:
        """Whether the word is written."""
        return self.group.get(word) is not None

    def which(self) -> str:
        """The word that says what this group is: the first of the form's `one_of` that is written."""
        return next((w for w in self.form.one_of if self.has(w)), "")

    def fault(self, name: str, says: str, try_this: str = "", word: str = "") -> None:
        """Keep a stop at that word, or at the group."""
        self.reading.say(stop(name, says, try_this), self.at(word))

    def value(self, word: str, takes: Takes) -> Value | None:
        """What is written behind a word, which the table must say takes this."""
        key = self.form.key(word)
        if key is None or key.takes is not takes:
            raise LookupError(f"{self.form.name}: {word} does not take {takes}")
        return self.group.get(word)

    def word(self, word: str, takes: Takes) -> Word | None:
        """The one value behind a word; a list or a group there is a finding."""
        value = self.value(word, takes)
        if value is None or isinstance(value, Word):
            return value
        self.fault("one-value", f"`{word}` takes {takes}, not a list", f"write `{word}: ...` with one value", word)
        return None

    def read(self, word: str, takes: Takes, reader: Callable[[str], Read[T]]) -> T | None:
        """A value that holds a number, after the traps that every number has."""
        value = self.word(word, takes)
        return None if value is None else self.reading.take(sized(value, reader), value.where)

    def text(self, word: str, default: str = "") -> str:
        """A text."""
        value, key = self.word(word, Takes.TEXT), self.form.key(word)
        if value is not None and not value.text.strip() and key is not None and key.needed:
            self.fault("empty", f"nothing is written behind `{word}` ({key.says})", f"write `{word}: ...`", word)
        return default if value is None else self.checked(value)

    def checked(self, value: Word) -> str:
        """A text that is not too long."""
        if len(value.text) > LONGEST_TEXT:
            says = f"this text is {len(value.text)} letters long"
            self.reading.say(stop("too-long", says, f"keep it under {LONGEST_TEXT}"), value.where)
        return value.text.strip()

    def name(self, word: str = "name") -> str:
        """A name that places can speak of."""
        value = self.word(word, Takes.TEXT)
        return "" if value is None else named(self.reading, value)

    def texts(self, word: str) -> tuple[str, ...]:
        """One text, or several."""
        return tuple(self.checked(w) for w in self.list_of_words(word, Takes.TEXTS))

    def list_of_words(self, word: str, takes: Takes) -> tuple[Word, ...]:
        """One value, or a list of single values."""
        value = self.value(word, takes)
        if value is None:
            return ()
        found = value.items if isinstance(value, Items) else (value,)
        for item in found:
            if not isinstance(item, Word):
                says = f"`{word}` takes {takes}: here is a group"
                self.reading.say(stop("one-value", says, "put quotes round a text that has a colon in it"), item.where)
        return tuple(i for i in found if isinstance(i, Word))

    def choice(self, word: str, default: str) -> str:
        """One of the words that the table names."""
        value = self.word(word, Takes.CHOICE)
        if value is None:
            return default
        key = self.form.key(word)
        choices = key.choices if key else ()
        said = {c.lower(): c for c in choices}.get(value.text.strip().lower())
        if said is None:
            says = f"`{word}` is one of {', '.join(choices)}; here it is `{value.text}`"
            self.reading.say(stop("not-a-choice", says, guess(value.text, choices)), value.where)
        return said or default

    def yes(self, word: str, default: bool = False) -> bool:
        """Yes or no."""
        value = self.word(word, Takes.YES)
        if value is None:
            return default
        said = value.text.strip().lower()
        if said not in (*YES, *NO):
            self.reading.say(
                stop("yes-or-no", f"`{word}` is yes or no; here it is `{value.text}`", "write yes or no"), value.where
            )
        return said in YES

    def count(self, word: str, default: int = 1) -> int:
        """A whole number from 1."""
        found = self.read(word, Takes.COUNT, read_count)
        return default if found is None else found

    def length(self, word: str) -> float | None:
        """A length [m] above 0."""
        return self.read(word, Takes.LENGTH, self.length_of)

    def length_of(self, text: str) -> Read[float]:
        """Reads a length above 0 in the job's units."""
        return read_length(text, self.reading.system)

    def any_length(self, word: str) -> float | None:
        """A length [m] that may be 0 or less."""
        return self.read(word, Takes.ANY_LENGTH, lambda t: read_length(t, self.reading.system, signed=True))

    def amount(self, word: str) -> Amount | None:
        """A length [m], or what stands for one."""
        return self.read(word, Takes.AMOUNT, self.amount_of)

    def amount_of(self, text: str) -> Read[Amount]:
        """Reads a length, `rest` or `?`."""
        blank = {"rest": Blank.REST, "?": Blank.OPEN}.get(text.strip().lower())
        if blank is not None:
            return Read(blank)
        found = self.length_of(text)
        return Read(found.value, found.findings)

    def angle(self, word: str) -> float | None:
        """An angle [rad]."""
        return self.read(word, Takes.ANGLE, read_angle)

    def turns(self, word: str) -> float | None:
        """A number of turns."""
        return self.read(word, Takes.TURNS, read_turns)

    def turn(self, default: float) -> float:
        """Which way a bend turns [rad]."""
        found = self.read("turn", Takes.TURN, turn_of)
        return default if found is None else found

    def section(self, word: str) -> Section | None:
        """A section with all its sizes."""
        goal = self.read(word, Takes.SECTION, self.goal_of)
        if goal is None or not goal.open_size:
            return goal.section if goal else None
        self.fault(
            "open-size", f"a size of `{word}` is left open, and here it must be known", "write it in place of `?`", word
        )
        return None

    def goal(self, word: str) -> SectionGoal | None:
        """A section where a size may be open."""
        return self.read(word, Takes.GOAL, self.goal_of)

    def goal_of(self, text: str) -> Read[SectionGoal]:
        """Reads a section; `on edge` or `lying flat` behind a flat says how it lies."""
        said = " ".join(text.lower().split())
        bare, edge = _lying(said)
        read = read_section(bare, self.reading.system)
        if read.value is None:
            return Read(None, read.findings)
        goal = goal_from(read.value)
        on_edge = self.on_edge if not edge else edge == "on edge"
        section = _upright(goal) if on_edge and goal.value is not None else goal
        return Read(section.value, (*read.findings, *goal.findings))

    def pair(self, word: str) -> tuple[float, float]:
        """Two lengths [m], either of which may be 0 or less."""
        value = self.value(word, Takes.PAIR)
        if value is None:
            return (0.0, 0.0)
        return self.pair_of(value, self._signed) or (0.0, 0.0)

    def shift(self, word: str) -> tuple[float, float]:
        """Two lengths [m], or one alone: that far along, and not across."""
        value = self.value(word, Takes.SHIFT)
        if isinstance(value, Word):
            return (self.reading.take(sized(value, self._signed), value.where) or 0.0, 0.0)
        return (0.0, 0.0) if value is None else self.pair_of(value, self._signed) or (0.0, 0.0)

    def _signed(self, text: str) -> Read[float]:
        return read_length(text, self.reading.system, signed=True)

    def pair_of(self, value: Value, reader: Callable[[str], Read[float]]) -> tuple[float, float] | None:
        """Two numbers out of a list of two."""
        words = [i for i in value.items if isinstance(i, Word)] if isinstance(value, Items) else []
        if len(words) != 2 or not isinstance(value, Items) or len(value.items) != 2:
            says = "two numbers are wanted here, as [1/2, 0]"
            self.reading.say(stop("two-numbers", says, "write 0 for the one that is nothing"), value.where)
            return None
        x, y = (self.reading.take(sized(w, reader), w.where) for w in words)
        return None if x is None or y is None else (x, y)

    def pairs(self, word: str, takes: Takes) -> tuple[tuple[float, float], ...]:
        """Points [m], or pairs of shares."""
        value = self.value(word, takes)
        if value is None:
            return ()
        if not isinstance(value, Items):
            self.fault("not-a-list", f"`{word}` takes {takes}", "write it as [[0, 0], [4, 0], [2, 3]]", word)
            return ()
        reader = read_number if takes is Takes.SHARES else self._signed
        found = [self.pair_of(i, reader) for i in value.items]
        return tuple(p for p in found if p is not None)

    def sizes(self, word: str) -> tuple[float, ...] | None:
        """One or two sizes [m]."""
        found = self.read(word, Takes.SIZES, lambda t: read_sizes(t, self.reading.system))
        if found is None or len(found) in (1, 2):
            return found
        self.fault("sizes", f"`{word}` takes one size, or two joined by x", "", word)
        return None

    def group_of(self, word: str) -> "Told | None":
        """The group behind a word."""
        value = self.value(word, Takes.GROUP)
        key = self.form.key(word)
        return (
            None
            if value is None or key is None
            else tell(self.reading, value, self.reading.forms[key.form], word, self.on_edge)
        )

    def list_of(self, word: str) -> "tuple[Told, ...]":
        """The groups in the list behind a word; one group alone counts as a list of one."""
        value = self.value(word, Takes.LIST)
        key = self.form.key(word)
        if value is None or key is None:
            return ()
        items = value.items if isinstance(value, Items) else (value,)
        found = [tell(self.reading, i, self.reading.forms[key.form], word, self.on_edge) for i in items]
        return tuple(t for t in found if t is not None)


def _lying(said: str) -> tuple[str, str]:
    """A section's words, and how it lies if that is said behind them."""
    ending = next((e for e in ("on edge", "lying flat") if said.endswith(e)), "")
    return said.removesuffix(ending).strip(), ending


def goal_from(words: SectionWords) -> Read[SectionGoal]:
    """A section where each open size is 0 and named."""
    if None not in words.sizes:
        section = section_from(words)
        return Read(SectionGoal(section.value) if section.value else None, section.findings)
    sizes = tuple(s or 0.0 for s in words.sizes)
    if words.shape in (Shape.TUBE, Shape.SQUARE_TUBE) or (not any(sizes) and len(sizes) > 1):
        says = "only one size can be left open, and none of a tube"
        return Read(None, (stop("open-size", says, "write the other size"),))
    if len(sizes) == 1:
        return Read(SectionGoal(Section(words.shape, 0.0, 0.0), "both"))
    open_size = "width" if words.sizes[0] is None else "thick"
    return Read(SectionGoal(Section(words.shape, sizes[0], sizes[1]), open_size))


def _upright(read: Read[SectionGoal]) -> Read[SectionGoal]:
    """The same section standing on edge, if it is a flat or an oval."""
    goal = read.value
    if goal is None or goal.section.shape not in (Shape.FLAT, Shape.OVAL):
        return read
    section = Section(goal.section.shape, goal.section.thick, goal.section.width)
    swapped = {"width": "thick", "thick": "width"}.get(goal.open_size, goal.open_size)
    return Read(SectionGoal(section, swapped), read.findings)


def turn_of(text: str) -> Read[float]:
    """Reads left, right, up, down or degrees from left toward up [rad]."""
    said = text.strip().lower()
    if said in TURNS:
        return Read(TURNS[said])
    found = read_angle(said, signed=True)
    if found.value is not None:
        return Read(found.value % (2 * pi), found.findings)
    says = f"`turn` is left, right, up, down or degrees; here it is `{text[:60]}`"
    return Read(None, (stop("not-a-choice", says, guess(text, tuple(TURNS))),))


def sized(value: Word, reader: Callable[[str], Read[T]]) -> Read[T]:
    """Read one value with a number in it; vague words and leading noughts are asked about."""
    text = value.text.strip()
    if _VAGUE.search(_SHAPED.sub("", text)):
        return Read(None, (vague(text),))
    if re.match(r"0\d", text):
        says = f"`{text}` begins with a nought: is it {text.lstrip('0') or 0}, or 0.{text[1:]}?"
        return Read(None, (stop("leading-zero", says, "write it without the nought, or with the point"),))
    if re.fullmatch(r"\d+:\d+.*", text):
        says = f"`{text}` has a colon where a size is wanted"
        return Read(None, (stop("not-a-size", says, "write `1 1/2` or `1.5`"),))
    return reader(text)


def vague(text: str) -> Finding:
    """The finding that asks how much."""
    says = f"`{text[:60]}` does not say how much: by width, thickness or area, and to what size?"
    return stop("ask-how-much", says, "give the size it comes to, as `to: 1/8 rd` and `over: 4`")


def guess(said: str, known: tuple[str, ...]) -> str:
    """`did you mean ...?` with the nearest known word, or all of them."""
    import difflib

    near = difflib.get_close_matches(said[:60].lower(), [k.lower() for k in known], 1, 0.5)
    word = next((k for k in known if near and k.lower() == near[0]), "")
    return f"did you mean `{word}`?" if word else f"known here: {', '.join(known[:16])}"


def named(reading: Reading, value: Word) -> str:
    """A name: letters, digits, spaces and single dashes, so that places can be written with it."""
    text = " ".join(value.text.split())
    if not text or len(text) > LONGEST_NAME or re.search(r"[.\[\]{}:,+\"]|(^|\s)-|-(\s|$)", text):
        says = f"`{text[:60]}` cannot be a name"
        reading.say(stop("bad-name", says, "use letters, digits and spaces, without points or brackets"), value.where)
    return text


BARE_SIZES = ("inside", "outside", "across", "radius", "diameter", "dia", "size", "width across", "id", "od")
"""Words that do not say which size is meant."""


def tell(reading: Reading, value: Value, form: Form, word: str = "", on_edge: bool = False) -> Told | None:
    """A group ready to be read by the table of its form: unknown, missing and contradicting words are findings."""
    if not isinstance(value, Group):
        _not_a_group(reading, value, form, word)
        return None
    told = Told(value, form, reading, on_edge)
    for entry in value.entries:
        if form.key(entry.key.text) is None:
            _unknown(told, entry.key.text, entry.value)
    for key in form.keys:
        if key.needed and not told.has(key.word):
            told.fault("missing", f"`{key.word}` is not told here ({key.says})", f"add `{key.word}: ...`")
    _one_of(told)
    return told


def _not_a_group(reading: Reading, value: Value, form: Form, word: str) -> None:
    if isinstance(value, Word) and _VAGUE.search(value.text):
        reading.say(vague(value.text), value.where)
        return
    says = f"`{word or form.name}` wants words with values: {form.says.lower().rstrip('.')}"
    reading.say(stop("not-a-group", says, f"write it as {{{form.keys[0].word}: ...}}"), value.where)


def _unknown(told: Told, word: str, value: Value) -> None:
    known = told.form.words()
    sized_by = tuple(k for k in known if k.startswith(("inside", "mean", "outside")))
    if sized_by and word.lower() in BARE_SIZES:
        says = f"a bare `{word}` does not say which size it is"
        told.fault("which-size", says, f"write one of: {', '.join(sized_by)}", word)
    elif isinstance(value, Word) and _VAGUE.search(value.text) and told.form.name in ("metal", "path"):
        told.reading.say(vague(f"{word}: {value.text}"), told.at(word))
    else:
        told.fault("unknown-word", f"`{word}` is not a word of {told.form.name}", guess(word, known), word)


def _one_of(told: Told) -> None:
    """Exactly one of the words that say what a group is must stand in it."""
    said = [w for w in told.form.one_of if told.has(w)]
    if len(said) > 1:
        says = f"`{said[0]}` and `{said[1]}` cannot both be told here"
        told.fault("two-kinds", says, "keep one of them", said[1])
    elif not said and told.form.one_of and all(told.form.key(w) for w in told.group.words()):
        says = f"this does not say what it is: one of {', '.join(told.form.one_of)} is wanted"
        told.fault("missing", says, "add one of them")
