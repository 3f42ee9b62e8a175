"""A question asked on a page: each finding at the word that it is about, and the figure to cut before all others."""

import re
import shlex
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from bickern.desk.answer import Answer, Row
from bickern.desk.ask.question import Asked, Question, Word, answer_to
from bickern.desk.ask.questions import QUESTIONS
from bickern.desk.ask.wording import as_asked
from bickern.iron.section import Section
from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.measure.units.words import Read, System

Said = str | tuple[str, ...] | bool
"""What was said for a word: text, several texts, or that it was said at all."""
T = TypeVar("T")

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Bent round: rings, eyes, bends", ("ring", "eye", "curve", "scroll", "coil", "chain")),
    ("Drawn, upset, twisted", ("taper", "draw", "stock", "twist")),
    ("Holes and what goes through", ("slit", "hole", "through")),
    ("Held together", ("collar", "wrap", "tenon", "rivet")),
    ("Sheet: patterns and folds", ("cone", "pyramid", "pipe", "bowl", "pan", "bend", "edge")),
    ("Weight, gauge, measures", ("weight", "plate", "gauge", "convert")),
)
"""Questions as a smith would look for them, by what is done to the metal."""
FIRST: dict[str, tuple[str, ...]] = {
    "coil": ("bar",),
    "chain": ("bar for the chain", "bar for a link"),
    "draw": ("even, less what the fire takes", "taper, less what the fire takes"),
    "scroll": ("length",),
    "twist": ("corner line",),
    "wrap": ("bar",),
    "through": ("hole needed",),
    "hole": ("medium",),
    "bowl": ("disc",),
    "weight": ("weighs",),
    "plate": ("weighs",),
}
"""The rows that a question is asked for, the first that is there, where it is neither cut nor by this shop's rule."""
CUT = ("CUT THIS", "CUT BLANK")
SHOPS_RULE = "(this shop's rule)"
EVEN = ("gauge",)
"""Questions whose rows all say the same with equal right: none of them comes before the others."""
ALSO = "also: "
"""How a row begins that says the same by another printed rule."""


@dataclass(frozen=True, slots=True)
class Heard:
    """A question as far as it is asked.

    `missing`: words that must still be said; `answer` is None until all are. `at`: findings by the word that they are
    about; `rest`: those about no one word. `first`: the row that it is asked for; `rows`: the others; `also`: the same
    by other printed rules.
    """

    missing: tuple[str, ...]
    answer: Answer | None = None
    at: Mapping[str, tuple[Finding, ...]] = field(default_factory=dict)
    rest: tuple[Finding, ...] = ()
    first: Row | None = None
    rows: tuple[Row, ...] = ()
    also: tuple[Row, ...] = ()


def question_named(name: str) -> Question | None:
    """The question of that name."""
    return next((q for q in QUESTIONS if q.name == name), None)


def grouped() -> tuple[tuple[str, tuple[Question, ...]], ...]:
    """Every question under the head where a smith would look for it."""
    named = {q.name: q for q in QUESTIONS}
    return tuple((head, tuple(named[name] for name in names)) for head, names in GROUPS)


def fits(question: Question, sought: str) -> bool:
    """Whether every word that is sought stands in a question, what it answers, or what it wants to know."""
    told = " ".join((question.name, question.says, *(f"{w.name} {w.means}" for w in question.words))).casefold()
    return all(word in told for word in sought.casefold().split())


def example_of(question: Question, system: System = System.INCH) -> dict[str, Said]:
    """The words of its example by name: the same sizes, also to somebody for whom a bare number is millimetres."""
    words = _example(question)
    if system is System.INCH:
        return words
    sizes: list[str] = []
    answer_to(question, words, Shop(), System.INCH, lambda said, who, units: _Listening(said, who, units, [], sizes))
    return {name: _in_inches(said) if name in sizes else said for name, said in words.items()}


def _in_inches(said: Said) -> Said:
    """A size with its unit told; one that tells it already, or is none, stays."""
    if isinstance(said, tuple):
        return tuple(str(_in_inches(one)) for one in said)
    return said if isinstance(said, bool) else _BARE.sub(r"\1 in\2", said)


_BARE = re.compile(r"^([\d /.x-]*\d)( (?:rd|sq|hex|oct))?$")
"""A size or a section without a unit."""


def _example(question: Question) -> dict[str, Said]:
    given = shlex.split(question.example)
    needed = [w for w in question.words if w.usual is None and not w.flag]
    by_name = {f"--{w.name}": w for w in question.words}
    said: dict[str, list[str]] = {}
    at: Word | None = None
    for one in given:
        if one in by_name:
            at = by_name[one]
            said[at.name] = []
            continue
        word = at or _next(needed, said)
        said.setdefault(word.name, []).append(one)
        at = at if at is not None and at.many else None
    return {w.name: _as_said(w, said[w.name]) for w in question.words if w.name in said}


def _next(needed: list[Word], said: Mapping[str, list[str]]) -> Word:
    """The first that was not said yet; the last of all may be said several times."""
    return next((w for w in needed if w.name not in said), needed[-1])


def _as_said(word: Word, texts: list[str]) -> Said:
    if word.flag:
        return True
    return tuple(texts) if word.many else " ".join(texts)


def hear(question: Question, words: Mapping[str, Said], shop: Shop, system: System) -> Heard:
    """The answer to a question as far as its words were said."""
    said = {name: value for name, value in words.items() if _there(value)}
    missing = tuple(w.name for w in question.words if w.usual is None and not w.flag and w.name not in said)
    if missing:
        return Heard(missing)
    ear: list[tuple[str, Finding]] = []
    answer = answer_to(question, said, shop, system, lambda said, who, system: _Listening(said, who, system, ear))
    at: dict[str, tuple[Finding, ...]] = {}
    for finding in answer.findings:
        word = _about(question, said, finding, ear)
        at[word] = (*at.get(word, ()), finding)
    first = None if question.name in EVEN else _first(question.name, answer.rows)
    also = tuple((name.removeprefix(ALSO), says) for name, says in answer.rows if name.startswith(ALSO))
    rows = tuple(row for row in answer.rows if row is not first and not row[0].startswith(ALSO))
    return Heard((), answer, at, at.pop("", ()), first, rows, also)


def _there(said: Said) -> bool:
    return bool(said.strip()) if isinstance(said, str) else bool(said)


def _first(question: str, rows: tuple[Row, ...]) -> Row | None:
    """The row that is asked for: by the question's own list, what to cut, by this shop's rule, or the first."""
    wanted = FIRST.get(question, CUT)
    by_name = (next((row for row in rows if row[0] == name), None) for name in wanted)
    by_rule = (row for row in rows if SHOPS_RULE in row[0])
    return next((row for row in (*by_name, *by_rule, *rows[:1]) if row is not None), None)


def _about(question: Question, said: Mapping[str, Said], finding: Finding, ear: list[tuple[str, Finding]]) -> str:
    """The word that a finding is about; "" where it is about none, or about several of them together."""
    heard = {name for name, one in ear if as_asked(one) == finding}
    if len(heard) == 1:
        return heard.pop()
    quoted = [name for name, value in said.items() if any(_quotes(finding.says, text) for text in _texts(value))]
    if len(quoted) == 1:
        return quoted[0]
    needed = [w.name for w in question.words if w.usual is None and not w.flag]
    return needed[0] if len(needed) == 1 and finding.stops else ""


def _quotes(says: str, text: str) -> bool:
    return f"“{text}”" in says or f"`{text}`" in says


def _texts(said: Said) -> tuple[str, ...]:
    if isinstance(said, bool):
        return ()
    return tuple(text.strip() for text in ((said,) if isinstance(said, str) else said))


@dataclass(frozen=True, slots=True)
class _Listening(Asked):
    """Who asks, with an ear for which word each finding came from."""

    ear: list[tuple[str, Finding]]
    sizes: list[str] = field(default_factory=list)

    def many(self, name: str) -> tuple[str, ...]:
        self.sizes.append(name)
        return Asked.many(self, name)

    def length(self, name: str) -> Read[float]:
        return self._size(name, Asked.length(self, name))

    def size(self, name: str) -> Read[float]:
        return self._size(name, Asked.size(self, name))

    def section(self, name: str) -> Read[Section]:
        return self._size(name, Asked.section(self, name))

    def bar(self, name: str) -> Read[Section]:
        return self._size(name, Asked.bar(self, name))

    def bent_bar(self, name: str) -> Read[Section]:
        return self._size(name, Asked.bent_bar(self, name))

    def angle(self, name: str) -> Read[float]:
        return self._hear(name, Asked.angle(self, name))

    def turns(self, name: str) -> Read[float]:
        return self._hear(name, Asked.turns(self, name))

    def number(self, name: str) -> Read[float]:
        return self._hear(name, Asked.number(self, name))

    def density(self, name: str) -> Read[float]:
        return self._hear(name, Asked.density(self, name))

    def sheet(self, name: str, *, bent: bool = True) -> Read[float]:
        return self._hear(name, Asked.sheet(self, name, bent=bent))

    def _size(self, name: str, read: Read[T]) -> Read[T]:
        self.sizes.append(name)
        return self._hear(name, read)

    def _hear(self, name: str, read: Read[T]) -> Read[T]:
        self.ear.extend((name, one) for one in read.findings)
        return read


def on_page(text: str) -> str:
    """Words of a question as they stand beside a field: without the marks that a command line wants."""
    for theirs, ours in PAGE_PHRASES:
        text = text.replace(theirs, ours)
    named = re.sub(r"`--([a-z]+)((?: [^`]*)?)`", lambda found: f"“{found[1]}”{found[2]}", text)
    plain = re.sub(r"(?<![\w“])'([^']+)'", r"\1", named.replace("' '", "', '"))
    return re.sub(r"`([^`]*)`", r"“\1”", plain)


PAGE_PHRASES = (("(millimetres with `--units mm`)", "(or millimetres, as chosen under Looks)"),)
"""Words of a command line, and what a page says instead."""
