"""A question and its words: one table for every door that asks."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from bickern.desk.answer import Answer, Inputs
from bickern.desk.ask.wording import as_asked
from bickern.iron.gauge import resolve
from bickern.iron.section import Section, area, section_from
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, note, stop
from bickern.measure.units.read import (
    read_angle,
    read_density,
    read_length,
    read_number,
    read_section,
    read_thickness,
    read_turns,
)
from bickern.measure.units.words import GaugeWords, Read, System

Words = Mapping[str, str | tuple[str, ...] | bool]
"""What was typed for each word: text, several texts, or whether it was said."""


@dataclass(frozen=True, slots=True)
class Word:
    """One thing that a question wants to know.

    `usual` None: it must be said. `one_of`: the words it may be. `many`: it may be said several times. `flag`: said or
    not. Words that must be said come in their order; the others by name.
    """

    name: str
    means: str
    usual: str | None = None
    one_of: tuple[str, ...] = ()
    many: bool = False
    flag: bool = False


_NOUGHT = frozenset(("0", "0.0"))


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed for each word, and who asks."""

    words: Words
    shop: Shop
    system: System

    def text(self, name: str) -> str:
        """A word as typed."""
        said = self.words[name]
        assert isinstance(said, str)
        return said

    def said(self, name: str) -> bool:
        """Whether a word that may be left out was said."""
        return bool(self.words[name])

    def many(self, name: str) -> tuple[str, ...]:
        """All that was typed for a word that may be said several times."""
        said = self.words[name]
        assert isinstance(said, tuple)
        return said

    def length(self, name: str) -> Read[float]:
        """A length [m]; `0` is one."""
        text = self.text(name)
        return Read(0.0) if text.strip() in _NOUGHT else read_length(text, self.system)

    def size(self, name: str) -> Read[float]:
        """A length [m] above nothing."""
        return read_length(self.text(name), self.system)

    def section(self, name: str) -> Read[Section]:
        """A bar's section."""
        if self.text(name).strip() in _NOUGHT:
            return Read(None, (stop("nothing-is-a-point", "An end of no size is a point.", "Say `point`."),))
        return read_bar(self.text(name), self.system)

    def bar(self, name: str) -> Read[Section]:
        """A bar's section that holds metal: no point, and no edge."""
        return with_metal(self.section(name))

    def bent_bar(self, name: str) -> Read[Section]:
        """A bar that is bent over the second size told; a flat that so stands on edge is a note."""
        bar = with_metal(read_bar(self.text(name), self.system, as_lies=True))
        if bar.value is None or bar.value.thick <= bar.value.width:
            return bar
        says = f"“{self.text(name)}” is bent over its second size, the hard way."
        return Read(
            bar.value,
            (*bar.findings, note("bent-on-edge", says, "Write the sizes the other way round to bend it flat.")),
        )

    def angle(self, name: str) -> Read[float]:
        """An angle [rad]; a bare number is degrees."""
        return read_angle(self.text(name))

    def turns(self, name: str) -> Read[float]:
        """How many turns."""
        return read_turns(self.text(name))

    def number(self, name: str) -> Read[float]:
        """A plain number."""
        return read_number(self.text(name))

    def density(self, name: str) -> Read[float]:
        """A density [kg/m3], such as `489.6 lb/ft3`."""
        return read_density(self.text(name))

    def sheet(self, name: str, *, bent: bool = True) -> Read[float]:
        """Thickness [m] of sheet: a gauge in the shop's system or one named with it, or a size; `bent`: no plate."""
        read = read_thickness(self.text(name), self.system, bent=bent)
        if isinstance(read.value, GaugeWords):
            meant = resolve(read.value, self.shop.gauge)
            return Read(meant.value, (*read.findings, *meant.findings))
        return Read(read.value, read.findings)


@dataclass(frozen=True, slots=True)
class Question:
    """A question by its name, what it answers, the words it wants, what answers it, and an example of its words."""

    name: str
    says: str
    words: tuple[Word, ...]
    does: Callable[[Asked], Answer]
    example: str


def read_bar(text: str, system: System, *, as_lies: bool = False) -> Read[Section]:
    """A bar's section as typed; `as_lies`: the first size of a flat is its width, whichever is greater."""
    words = read_section(text, system, as_lies=as_lies)
    if words.value is None:
        return Read(None, words.findings)
    made = section_from(words.value)
    return Read(made.value, (*words.findings, *made.findings))


def with_metal(read: Read[Section]) -> Read[Section]:
    """The section, or a finding where it has come to nothing."""
    if read.value is None or area(read.value) > 0:
        return read
    says = f"A {read.value.shape} of no thickness is no bar."
    return Read(None, (*read.findings, stop("no-bar", says, "Write a section, such as `1/2 sq`.")))


def section_at(read: Inputs, index: int) -> Section:
    """What was read at that place, where it is a section (a fault in us otherwise)."""
    value = read.values[index]
    assert isinstance(value, Section)
    return value


def answer_to(
    question: Question,
    words: Mapping[str, str | tuple[str, ...] | bool],
    shop: Shop,
    system: System,
    asks: Callable[[Words, Shop, System], Asked] = Asked,
) -> Answer:
    """The answer; words left out are taken as usual, and a word that is not among the known ones is a finding.

    `asks`: what the words are read by, for a door that wants to hear what is read on the way.
    """
    whole = {w.name: words.get(w.name, False if w.flag else w.usual or "") for w in question.words}
    faults = tuple(f for w in question.words for f in _not_one_of(w, whole[w.name]))
    if faults:
        return Answer(question.name.capitalize(), (), faults)
    answer = question.does(asks(whole, _asking(shop), system))
    return replace(answer, findings=tuple(dict.fromkeys(as_asked(f) for f in answer.findings)))


def _asking(shop: Shop) -> Shop:
    """The same shop, long lengths told in feet as well, and what a vessel holds in the measures of its country."""
    return replace(shop, style=replace(shop.style, feet=True, imperial=shop.english == "UK"))


def _not_one_of(word: Word, said: object) -> tuple[Finding, ...]:
    if not word.one_of or said in word.one_of:
        return ()
    return (stop("unknown-word", f"{word.name} cannot be “{said}”", f"say {', '.join(word.one_of)}"),)
