"""The order of work in words: each heat, each turn at the bench, each piece; the same for paper and terminal."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from bickern.iron.colour import colour_word
from bickern.making.heats.lots import lot_of
from bickern.making.heats.result import PiecePlan, Plan, Spell, ToolFirst
from bickern.making.heats.unproved import ABOUT_HEATS
from bickern.making.shop import Shop
from bickern.making.work.caution import Caution
from bickern.making.work.faults import Fault
from bickern.making.work.result import Work
from bickern.measure.units.say import say_both, say_temperature
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy
from bickern.paper.sheets import heat_amounts, wording
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.heat_amounts import alike, duration, numbered, ranged
from bickern.paper.sheets.mark_words import (
    AGAIN,
    Again,
    again,
    at_says,
    first_marks,
    length_says,
    marking_of,
    on_longer_bar,
    with_marks,
)
from bickern.paper.sheets.where_words import NEAR, hold_says, lengths_of, where_says
from bickern.paper.sheets.wording import sentence
from bickern.paper.sheets.work_words import WorkWords, faults_say, new_faults, own_cautions, work_words


@dataclass(frozen=True, slots=True)
class SpellWords:
    """One heat or one turn at the bench, in words; what does not apply is empty.

    `like`: the heats of another piece that these are the same as (`heats 2 to 14 (poker)`), but for what is told here.
    """

    spell: Spell
    number: str
    count: str
    pull: str
    stop: str
    where: str
    hold: str
    cold: str
    gives: str
    time: str
    works: tuple[WorkWords, ...]
    like: str = ""


@dataclass(frozen=True, slots=True)
class GroupWords:
    """A piece, the joining or the finish: its title, how much it is, what to know before, and its spells in order."""

    title: str
    aside: str
    lines: tuple[tuple[str, str], ...]
    spells: tuple[SpellWords, ...]
    of: PiecePlan | None = None


def groups(copy: Copy, plan: Plan, lots: bool = True, whole: bool = False) -> tuple[GroupWords, ...]:
    """The whole plan in the order to work in: pieces, joining, finish; a fault is told once, a caution once a group.

    `lots`: also how the copies of a piece are made together. `whole`: each heat and each work at the bench is told by
    itself and in full, with its faults and cautions, as for whoever sees no other beside it.
    """
    said = _Said(copy, whole)
    found = [_piece(number, piece, said, lots) for number, piece in enumerate(in_order(plan), start=1)]
    found += [_group(title, spells, said) for title, spells in _rest(plan) if spells]
    return tuple(found)


def in_order(plan: Plan) -> tuple[PiecePlan, ...]:
    """The pieces in the order to make them: that of the plan."""
    return plan.pieces


def _rest(plan: Plan) -> tuple[tuple[str, tuple[Spell, ...]], ...]:
    return ("Joining", plan.joining), ("Finishing", plan.finish)


def faults_told(copy: Copy, plan: Plan) -> frozenset[Fault]:
    """The faults that stand at a step of the plan, and need no place at the end of the sheet."""
    said = _Said(copy)
    for spells in (*(piece.spells for piece in in_order(plan)), *(spells for _, spells in _rest(plan))):
        said.words_of(spells, "")
    return frozenset(said.faults)


class _Said:
    """What has been said so far on this sheet: a fault is told once in all, a caution once for each piece."""

    def __init__(self, copy: Copy, whole: bool = False) -> None:
        self.whole = whole
        self.shop: Shop = copy.shop
        self.sets = copy.job.make
        self.cautions: tuple[Caution, ...] = copy.cautions
        self.long = lengths_of(copy.pieces)
        self.marking = marking_of(copy.pieces, copy.shop)
        self.stops = tuple(one for one in copy.findings if one.stops and one.where)
        self.faults: list[Fault] = []
        self.cold: Told = {}
        self.heats: dict[tuple[str, ...], tuple[str, SpellWords]] = {}

    def words_of(self, spells: Sequence[Spell], of: str, plan: PiecePlan | None = None) -> tuple[SpellWords, ...]:
        """All spells of one piece (with its `plan`), or of the joining or the finish."""
        cautioned: set[str] = set()
        hot: Told = {}
        found = []
        told = again(spells, self.marking)
        longer = on_longer_bar(work for spell in spells for work in spell.works)
        for spell in (_single if self.whole else _merged)(with_marks(spells, told)):
            if self.whole:  # nobody sees what was said before
                cautioned, hot, self.faults, self.cold, self.heats = set(), {}, [], {}, {}
            said = _spell(spell, self, self._works(spell, cautioned, told, longer))
            like = self._like(said, of) if plan is not None and spell.hot else None
            found.append(like or _shortened(said, hot if spell.hot else self.cold, of))
        return tuple(found)

    def stops_of(self, piece: str) -> tuple[str, ...]:
        """The first thing found that stops a piece, in the shop's English; nothing where none is known by its place."""
        place = f"pieces.{piece}"
        found = [f.says for f in self.stops if f.where and f"{f.where.path}.".startswith(f"{place}.")]
        return tuple(in_english(says, self.shop.english) for says in found[:1])

    def _like(self, said: SpellWords, of: str) -> SpellWords | None:
        """The same told by the heats of an earlier piece, where they are done in the same way on the same sections.

        What is hot, by what it is held and where it must measure otherwise is still told in full.
        """
        there, first = self.heats.setdefault(_way_of_heat(said, self.shop), (of, said))
        if there == of:
            return None
        works = [
            replace(work, tools="", how="", check="" if work.check == told.check else work.check)
            for work, told in zip(said.works, first.works, strict=True)
        ]
        return replace(said, works=tuple(works), like=f"{_lower(first.number)} ({there})")

    def _at(self, work: Work, told: Again, longer: bool) -> str:
        """Where a work is on its bar, by the marks of this sheet; or what is marked first, or to what it is cut."""
        at = at_says(work, self.marking, told)
        if at and work.key in told.hot:
            at = f"{at}, measured in this heat"
        says = at or length_says(work, self.marking) or first_marks(work, self.marking, told, longer and not work.child)
        return in_english(sentence(says), self.shop.english)

    def _works(self, spell: Spell, cautioned: set[str], told: Again, longer: bool) -> tuple[WorkWords, ...]:
        english, style = self.shop.english, self.shop.style
        found = []
        for work in spell.works:
            own = [one for one in own_cautions(work.does, self.cautions) if one.key not in cautioned]
            cautioned |= {one.key for one in own}
            faults = new_faults(work.does, self.faults)
            self.faults += faults
            warned = in_english(" ".join(one.says for one in own), english)
            at, fault = self._at(work, told, longer), faults_say(faults, english)
            words = work_words(work, style, english)
            if work.case == AGAIN:  # with the same tools, and checked in the same way, as at first
                words = replace(words, tools="", check="")
            found.append(replace(words, fault=fault, caution=warned, at=at))
        return tuple(found)


Told = dict[str, tuple[str, str, str]]
"""How a work is done -> where that was told (a heat, a piece), at which work, and its check."""


def _shortened(spell: SpellWords, told: Told, of: str) -> SpellWords:
    """The same; what is done as at the bench before, or at a heat of this piece, is told by where that stands."""
    here = f"at {_lower(spell.number)}" if spell.spell.hot else f"for {of}"
    works = []
    for work in spell.works:
        key = f"{work.tools} {work.how}"
        place, title, check = told.get(key, ("", "", ""))
        how = f'As for "{title}" above.' if place == here else f"As {place}."
        if key in told and 3 * len(how) < 2 * len(key):  # else it is sooner said again
            work = replace(work, tools="", how=how, check="" if work.check == check else work.check)
        else:
            told[key] = (here, work.title.partition(",")[0].rstrip("."), work.check)
        works.append(work)
    return replace(spell, works=tuple(works))


def _way_of_heat(said: SpellWords, shop: Shop) -> tuple[str, ...]:
    """What two heats have in common that are done alike on bars that look alike where they are worked."""
    spell, style = said.spell, shop.style
    found = [spell.told_from, spell.hold.end, said.pull, said.stop, said.cold]
    for one, work in zip(said.works, spell.works, strict=True):
        sections = [wording.section(each, style) if each else "" for each in (work.before, work.after)]
        found += [one.tools, one.how, one.title if work.name else work.does, *sections]
        found += [f"{work.amount:.6f}", f"{work.radius:.6f}"]
    return tuple(found)


def _lower(says: str) -> str:
    """Words without a capital at their head."""
    return f"{says[:1].lower()}{says[1:]}"


BENCH = "Bench"
"""What stands before cold work."""


def _merged(spells: Iterable[Spell]) -> list[Spell]:
    """The same with turns at the bench that follow one another taken together."""
    found: list[Spell] = []
    for one in spells:
        if found and not one.hot and not found[-1].hot:
            last = found[-1]
            found[-1] = replace(last, works=(*last.works, *one.works), wants=last.wants + one.wants)
        else:
            found.append(one)
    return found


def _single(spells: Iterable[Spell]) -> list[Spell]:
    """The same with each work at the bench by itself."""
    found: list[Spell] = []
    for one in spells:
        found += [one] if one.hot else [replace(one, works=(work,), wants=work.seconds) for work in one.works]
    return found


def _spell(spell: Spell, said: _Said, works: tuple[WorkWords, ...]) -> SpellWords:
    shop, style = said.shop, said.shop.style
    if not spell.hot:
        return SpellWords(spell, BENCH, "", "", "", "", "", "", "", _bench_time(spell), works)
    return SpellWords(
        spell,
        numbered(spell.number, spell.times),
        alike(spell.times),
        heat_says(spell.start, shop),
        heat_says(spell.stop, shop),
        where_says(spell, shop, said.long),
        in_english(hold_says(spell.hold, style), shop.english),
        in_english("; ".join(spell.cool), shop.english),
        gives_says(spell),
        time_says(spell),
        works,
    )


def heat_says(kelvin: float, shop: Shop) -> str:
    """A heat by the shop's table of colours, with both degrees: `orange, 1900 °F (1040 °C)`."""
    return f"{colour_word(shop.hand.colours, kelvin)}, {say_temperature(kelvin, shop.style)}"


def gives_says(spell: Spell) -> str:
    """How long one heat gives: `gives 25 s (18 to 35)`."""
    if spell.gives.value <= 0:
        return ""
    return f"{'each gives' if _is_many(spell) else 'gives'} {ranged(spell.gives)}"


def _is_many(spell: Spell) -> bool:
    return heat_amounts.count_of(spell.times)[0] > 1


def time_says(spell: Spell) -> str:
    """How much work there is, and how long the iron lies in the fire."""
    in_all = " in all" if _is_many(spell) else ""
    said = [f"work for {ranged(spell.wants)}{in_all}"] if spell.wants.value > 0 else []
    said += [f"warms in {ranged(spell.warms)}"] if spell.warms.value > 0 else []
    return "; ".join(said)


def _bench_time(spell: Spell) -> str:
    return ranged(spell.wants) if spell.wants.value > 0 else ""


def _piece(number: int, plan: PiecePlan, said: _Said, lots: bool) -> GroupWords:
    title = f"{number}. {plan.piece}"
    if plan.refused:
        lines = (("Why", sentence(plan.refused)), *(("Found", sentence(says)) for says in said.stops_of(plan.piece)))
        return GroupWords(title, "no heats are offered", lines, (), plan)
    aside = f"{heat_amounts.heats(plan.heats)}, about {ranged(plan.seconds)}{' each' if plan.make > 1 else ''}"
    return GroupWords(title, aside, _before(plan, said.shop, lots), said.words_of(plan.spells, plan.piece, plan), plan)


def _before(plan: PiecePlan, shop: Shop, lots: bool) -> tuple[tuple[str, str], ...]:
    """What to know of a piece before its first step."""
    named = (
        ("Make", lot_says(plan) if lots and plan.make > 1 else ""),
        ("Test piece first", sentence(plan.test_first)),
        (_takes(plan), cut_says(plan, shop.style)),
    )
    return tuple((name, in_english(says, shop.english)) for name, says in named if says)


def _takes(plan: PiecePlan) -> str:
    """What the length is for: cut before anything, or part of the longer bar that the piece is forged on."""
    return "Of the longer bar" if on_longer_bar(work for spell in plan.spells for work in spell.works) else "Cut"


NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


def lot_says(plan: PiecePlan) -> str:
    """`3: two irons in the fire, each step for all of them before the next, about 80 min for all`."""
    lot = plan.lot
    many = NUMBERS[lot.irons] if lot.irons < len(NUMBERS) else str(lot.irons)
    irons = f"{many} {'iron' if lot.irons == 1 else 'irons'} in the fire, " if plan.heats.value > 0 else ""
    turn = "each step for all of them before the next" if lot.together else "piece by piece"
    why = f" ({lot.why})" if lot.why else ""
    return f"{lot.make}: {irons}{turn}, about {duration(lot.seconds.value)} for all{why}"


def cut_says(plan: PiecePlan, style: Style) -> str:
    """What was to cut before the heats were counted, and with what they take; nothing where it is the same."""
    if plan.last_cut <= 0 or abs(plan.last_cut - plan.first_cut) < NEAR or plan.first_cut <= 0:
        return ""
    before, now = say_both(plan.first_cut, style), say_both(plan.last_cut, style)
    return f"{before} reckoned before the heats were counted, {now} with what they take"


def _group(title: str, spells: Sequence[Spell], said: _Said) -> GroupWords:
    hot = [spell for spell in spells if spell.hot]
    many = sum(max(1, heat_amounts.count_of(spell.times)[0]) for spell in hot)
    seconds = lot_of(1, spells, said.shop).seconds.value  # the fire is waited for: nothing else is in hand
    heats = f"{many} {'heat' if many == 1 else 'heats'}, " if many else ""
    each = " each set" if said.sets > 1 else ""
    aside = f"{heats}about {duration(seconds)}{each}" if seconds > 0 else ""
    return GroupWords(title, aside, (), said.words_of(spells, title.lower()))


def head_lines(copy: Copy, plan: Plan) -> tuple[tuple[str, str], ...]:
    """What is said once for the whole plan: tools first, the order, the table of colours, what is not proved."""
    style, english = copy.shop.style, copy.shop.english
    order = ", ".join(piece.piece for piece in in_order(plan))
    hot = any(spell.hot for spell in every_spell(plan))
    named = (
        ("Make or find first", in_english("; ".join(tool_says(one, style) for one in plan.tools), english)),
        ("Order", f"{order}, then join" if plan.joining else order if len(plan.pieces) > 1 else ""),
        ("Heat colours", f"by {copy.shop.hand.colours}; books differ: go by your own eye and fire" if hot else ""),
        ("Hot", "told on the iron as it lies at that heat; the datum end is the one with the flag" if hot else ""),
        (NOT_PROVED, " ".join(unproved(copy))),
    )
    return tuple((name, says) for name, says in named if says)


def total_says(plan: Plan) -> str:
    """All heats, and the time in all."""
    return f"{heat_amounts.heats(plan.heats)}, about {ranged(plan.seconds)} in all"


def every_spell(plan: Plan) -> tuple[Spell, ...]:
    """All spells of the plan, in the order to work in."""
    return (*(spell for piece in in_order(plan) for spell in piece.spells), *plan.joining, *plan.finish)


def tool_says(tool: ToolFirst, style: Style) -> str:
    """`drift 1/4 in (6.5 mm) for arm (none on the wall)`."""
    size = f" {say_both(tool.size, style)}" if tool.size > 0 else ""
    size = f" {wording.section(tool.section, style)}" if tool.section is not None else size
    of = f" for {tool.of}" if tool.of else ""
    return f"{tool.what}{size}{of}{f' ({tool.why})' if tool.why else ''}"


NOT_PROVED = "Not proved"
"""What stands before the lines that no print confirms."""


def unproved(copy: Copy) -> tuple[str, ...]:
    """The lines of what no print confirms that are about heats, blows and minutes."""
    return tuple(one for one in copy.not_validated if one in ABOUT_HEATS)
