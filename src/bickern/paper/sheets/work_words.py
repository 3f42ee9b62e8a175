"""One work in words: what it is called, with what and where, how, how that is checked, what goes wrong."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from bickern.iron.section import Section
from bickern.making.work.caution import Caution
from bickern.making.work.faults import Fault, faults_of
from bickern.making.work.finish_works import TOO_WIDE, too_wide_seconds
from bickern.making.work.result import Work
from bickern.making.work.ways import Datum, Way, data_of, fields_in, way_of
from bickern.measure.units.say import say_angle, say_both, say_turns
from bickern.measure.units.words import Style
from bickern.paper.sheets import wording
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.heat_amounts import ranged
from bickern.paper.sheets.wording import sentence

FITTED = frozenset({"punch", "drill", "drift", "slit", "pin"})
"""Operations whose size is a fit, told as fine as one."""


@dataclass(frozen=True, slots=True)
class WorkWords:
    """What is said of one work; `fault` and `caution` are empty where they were said before.

    `at`: where on the bar, by marks and distances, or to what length; "" where the work has no such place.
    """

    key: str
    title: str
    tools: str
    how: str
    check: str
    fault: str = ""
    caution: str = ""
    at: str = ""


def work_words(work: Work, style: Style, english: str) -> WorkWords:
    """A work in the shop's English and notation; its faults and cautions are for whoever knows what was said before."""
    way, filled = way_of(work), filled_in(work, style)

    def says(template: str) -> str:
        return " ".join(in_english(template, english).format(**filled).split())

    tools = "; ".join(says(one) for one in (way.tool, way.place) if one)
    more = (says(way.how), _stop_size(work, way, style), in_english(_says(work), english), _too_wide(work, style))
    how = " ".join(sentence(one) for one in more if one)
    return WorkWords(work.key, sentence(says(way.title)), sentence(tools), how, sentence(says(way.check)))


def _too_wide(work: Work, style: Style) -> str:
    """What it costs where it is spread too wide; nothing of other works."""
    seconds = too_wide_seconds(work)
    if seconds.value <= 0:
        return ""
    return f"{say_both(TOO_WIDE, style)} too wide is {ranged(seconds)} of filing"


def filled_in(work: Work, style: Style) -> dict[str, str]:
    """What stands in a way's gaps for this very work, sizes in both systems."""
    said = {gap: _datum_says(gap, datum, work, style) for gap, datum in data_of(work).items()}
    return said | {"name": _named(work, said["name"])}


def _datum_says(gap: str, datum: Datum, work: Work, style: Style) -> str:
    """A name, names, a section, an angle, turns or a length in words."""
    if isinstance(datum, str):
        return datum
    if isinstance(datum, tuple):
        return " and ".join(datum)
    if isinstance(datum, Section):
        return wording.section(datum, style)
    if gap in ("angle", "turns"):
        return say_angle(datum, style) if gap == "angle" else say_turns(datum, style)
    return say_both(datum, style, fit=gap == "size" and work.does in FITTED)


def _named(work: Work, name: str) -> str:
    """What is worked: an entry by its name, of a split end or branch that too; never "bend bend" or "twist twist 1"."""
    of = " of ".join(reversed(work.child))
    if not of:
        return "it" if name.lower() == work.does else f"the {name}" if _says_again(work.does, name) else name
    return f"{work.name} of {of}" if work.name and work.name != of else of


def _says_again(does: str, name: str) -> bool:
    """Whether a name says once more what is done: `twist` and `twisted part`, `bend` and `hook bend`."""
    return any(word.lower().startswith(does) for word in name.split())


def _says(work: Work) -> str:
    """What is special to a work, places of pieces told as words: `scroll of arm` from `arm.scroll`."""
    says = work.says
    for name in (work.piece, *work.with_pieces):
        says = re.sub(rf"\b{re.escape(name)}\.(\w[\w -]*?)(?= and |[,;.]|$)", rf"\1 of {name}", says)
    return says


def _stop_size(work: Work, way: Way, style: Style) -> str:
    """The size to stop at, where there is a new one and the way does not tell it."""
    if work.after is None or work.after == work.before or "after" in fields_in(way):
        return ""
    return f"Stop at {wording.section(work.after, style)}"


def own_cautions(does: str, cautions: Sequence[Caution]) -> tuple[Caution, ...]:
    """The cautions of one operation, without those that go for every heat: these stand at the end of the sheet."""
    return tuple(one for one in cautions if does in one.operations and "heat" not in one.operations)


def new_faults(does: str, told: Sequence[Fault]) -> tuple[Fault, ...]:
    """The faults of an operation that have not been told yet, the commonest first."""
    return tuple(one for one in faults_of(frozenset({does})) if one not in told)


def faults_say(faults: Sequence[Fault], english: str) -> str:
    """How each fault shows, and after a dash its cure."""
    return in_english(" ".join(f"{sentence(one.shows)[:-1]} – {sentence_end(one.cure)}" for one in faults), english)


def sentence_end(says: str) -> str:
    """Words with a stop at their end."""
    return says if says.endswith((".", "!", "?")) else f"{says}."
