"""The order of work as cards to stand beside the anvil: one a heat or a turn at the bench, each told in full.

The words are those of the sheet; nothing is worded anew here. A card is known by what is done in it, so that a tick
goes on speaking of the same work when the job is edited elsewhere.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from hashlib import sha256
from itertools import groupby

from bickern.desk.answer import Row
from bickern.desk.reckon import Reckoning
from bickern.desk.work.makeable import joints_left_out
from bickern.making.heats.result import PiecePlan, Plan, Spell
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.finding import Finding
from bickern.measure.spread import Spread
from bickern.measure.units.say import say_up_both
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.heat_words import GroupWords, SpellWords, groups, head_lines, tool_says, total_says, unproved
from bickern.paper.sheets.heats import heat_facts
from bickern.paper.sheets.mark_words import Marking, marking_of
from bickern.paper.sheets.work_words import WorkWords
from bickern.parts.bar.result import BarResult

WIDE = 0.070
"""Width that the picture of a heat is drawn to [m], as on the sheet; a page shows it as large as it has room."""
SAME = 1e-4
"""Lengths this near to one another are the same work [m]: no tape shows it."""
KEY = 16
"""Letters of a card's key: enough that no two of any job are alike by chance."""


class Kind(StrEnum):
    """What a card is: a tool to make first, a heat, a turn at the bench, a piece that no heats are offered for."""

    TOOL = "tool"
    HEAT = "heat"
    BENCH = "bench"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing done: its name, where on the piece, with what and how, what to measure, what goes wrong, the caution.

    What does not apply is empty.
    """

    title: str
    at: str = ""
    how: str = ""
    check: str = ""
    fault: str = ""
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Card:
    """One card. `place` counts all cards from 1, `first` and `last` those of heats of the job ("Heats 4 to 6").

    `group`: the piece with its number, or "Joining", "Finishing"; `aside`: how much that is in all. `piece`: its name
    ("" of none). `pull`, `stop`: colour word with both degrees; `start_at`, `stop_at`: the same [K]. `gives`: seconds
    [s] of work that one heat gives once the iron is at the anvil, `carry`: seconds [s] from the fire to there; `wants`:
    seconds [s] that the work takes. `make`: how many are made alike, `irons` of them in the fire at once, `together`:
    this card for all of them before the next card; `lot`: the same in words ("" of one alone). `before`: what to know
    before the first card of its group.
    """

    key: str
    kind: Kind
    place: int
    group: str
    title: str
    piece: str = ""
    aside: str = ""
    number: str = ""
    count: str = ""
    pull: str = ""
    stop: str = ""
    start_at: float = 0.0
    stop_at: float = 0.0
    gives: Spread = NO_TIME
    carry: float = 0.0
    wants: Spread = NO_TIME
    gives_says: str = ""
    time_says: str = ""
    facts: tuple[Row, ...] = ()
    steps: tuple[Step, ...] = ()
    before: tuple[Row, ...] = ()
    make: int = 1
    irons: int = 1
    together: bool = False
    lot: str = ""

    @property
    def ticks(self) -> bool:
        """Whether there is anything to tick off."""
        return self.kind is not Kind.REFUSED

    @property
    def cautions(self) -> tuple[str, ...]:
        """The cautions for what is done on this very card, each once."""
        return tuple(dict.fromkeys(step.caution for step in self.steps if step.caution))


@dataclass(frozen=True, slots=True)
class Turn:
    """One visit to the anvil or the bench: the `place` of its card, and which of the copies, from 1."""

    place: int
    copy: int


@dataclass(frozen=True)
class Cards:
    """All cards in the order to work in; `total` in words, `head`: what is said once of them all.

    `cautions`: of the whole job, for before the fire is lit. `left_out`: joints that are not in it, and why.
    """

    cards: tuple[Card, ...] = ()
    total: str = ""
    head: tuple[Row, ...] = ()
    cautions: tuple[str, ...] = ()
    not_validated: tuple[str, ...] = ()
    left_out: tuple[Finding, ...] = ()
    copy: Copy | None = None
    shown: "Mapping[str, _Shown] | None" = None

    def card(self, key: str) -> Card | None:
        """The card with that key; None where the plan has none (any more)."""
        return self.by_key.get(key)

    @cached_property
    def by_key(self) -> dict[str, Card]:
        """All cards by their keys."""
        return {card.key: card for card in self.cards}

    @cached_property
    def turns(self) -> tuple[Turn, ...]:
        """All that is to be ticked off, in order: each card for all copies in turn, or copy by copy."""
        return tuple(_turns(self.cards))


def heat_cards(done: Reckoning) -> Cards:
    """The cards of a job with its order of work (`desk.heats.planned`); none where it has none."""
    copy = done.copy
    if copy is None or copy.plan is None or not copy.plan.pieces:
        return Cards()
    made = [*_tools(copy, copy.plan), *_of_groups(copy, copy.plan)]
    keys = _keys_apart([card.key for card, _ in made])
    cards = tuple(replace(card, key=key, place=i) for i, (key, (card, _)) in enumerate(zip(keys, made, strict=True), 1))
    shown = {key: told for key, (_, told) in zip(keys, made, strict=True) if told is not None}
    return Cards(
        cards,
        total_says(copy.plan),
        tuple((name, says) for name, says in head_lines(copy, copy.plan) if name not in _TOLD_APART),
        tuple(in_english(one.says, copy.shop.english) for one in copy.cautions),
        tuple(dict.fromkeys((*unproved(copy), *copy.not_validated))),
        joints_left_out(copy),
        copy,
        shown,
    )


_TOLD_APART = ("Make or find first", "Not proved")
"""Lines of the head that have a place of their own here."""


def picture(cards: Cards, card: Card, wide: float = WIDE) -> str:
    """The bar before and after a heat, as SVG; "" where a heat leaves nothing to be seen on one bar.

    Drawn when it is asked for: one card is looked at at a time, and a drawing costs more than all its words.
    """
    told = (cards.shown or {}).get(card.key)
    if told is None or cards.copy is None or not told.spell.hot:
        return ""
    from bickern.paper.pens.svg import ON_SCREEN, svg
    from bickern.paper.sheets.heat_pictures import drawing_of
    from bickern.paper.views.scale import trimmed

    drawn = drawing_of(told.spell, told.plan, cards.copy, wide)
    return svg(trimmed(drawn), look=ON_SCREEN) if drawn is not None else ""


@dataclass(frozen=True, slots=True)
class _Shown:
    """What a card's picture is drawn from."""

    spell: Spell
    plan: PiecePlan | None


_Made = tuple[Card, _Shown | None]


# ---- the cards of each group


def _tools(copy: Copy, plan: Plan) -> Iterator[_Made]:
    """What is made or found before the fire is lit: a card each."""
    for tool in plan.tools:
        says = in_english(tool_says(tool, copy.shop.style), copy.shop.english)
        key = _digest("tool", tool.what, _near(tool.size), tool.of, tool.section)
        title = f"{says[:1].upper()}{says[1:]}"
        yield Card(key, Kind.TOOL, 0, "Make or find first", title), None


def _of_groups(copy: Copy, plan: Plan) -> Iterator[_Made]:
    marking = marking_of(copy.pieces, copy.shop)
    for group in groups(copy, plan, whole=True):
        if group.of is not None and group.of.refused:
            yield _refused(group, group.of), None
            continue
        for i, said in enumerate(group.spells):
            card = _card(group, said, copy, marking)
            before = tuple(line for line in group.lines if i == 0 and line[1] != card.lot)
            yield replace(card, before=before), _Shown(said.spell, group.of)


def _refused(group: GroupWords, plan: PiecePlan) -> Card:
    """A piece that no heats are offered for, with the reason."""
    key = _digest("refused", plan.piece)
    title = f"{group.aside[:1].upper()}{group.aside[1:]}"
    return Card(key, Kind.REFUSED, 0, group.title, title, plan.piece, facts=group.lines, make=plan.make)


def _card(group: GroupWords, said: SpellWords, copy: Copy, marking: Marking) -> Card:
    """One heat or one turn at the bench."""
    spell, steps = said.spell, tuple(_step(one) for one in said.works)
    make, irons, together = (copy.job.make, 1, False) if group.of is None else _lot(group.of)
    return Card(
        _key(spell, marking),
        Kind.HEAT if spell.hot else Kind.BENCH,
        0,
        group.title,
        "; ".join(step.title.removesuffix(".") for step in steps),
        group.of.piece if group.of is not None else "",
        group.aside,
        said.number,
        said.count,
        said.pull,
        said.stop,
        spell.start if spell.hot else 0.0,
        spell.stop if spell.hot else 0.0,
        spell.gives,
        copy.shop.hand.carry if spell.hot else 0.0,
        spell.wants,
        said.gives,
        said.time,
        tuple((name, says) for name, says in heat_facts(said) if says),
        steps,
        (),
        make,
        irons,
        together,
        dict(group.lines).get("Make", ""),
    )


def _lot(plan: PiecePlan) -> tuple[int, int, bool]:
    """How many copies, how many irons in the fire at once, and whether each card is for all of them in turn."""
    return max(1, plan.make), max(1, plan.lot.irons), plan.lot.together


def _step(one: WorkWords) -> Step:
    how = " ".join(says for says in (one.tools, one.how) if says)
    return Step(one.title, one.at, how, one.check, one.fault, one.caution)


# ---- by what a card is known


def _key(spell: Spell, marking: Marking) -> str:
    """What is done in a heat: the works with their sizes and places, and how hot; not how long it takes."""
    heat = (round(spell.start), round(spell.stop)) if spell.hot else ()
    return _digest(spell.piece, heat, *(_done(work, marking) for work in spell.works))


def _done(work: Work, marking: Marking) -> tuple[object, ...]:
    """One work as far as a smith would do it otherwise if that were otherwise."""
    return (
        work.does, work.name, work.child, work.case, work.with_pieces, work.says, work.before, work.after,
        _near(work.amount), _near(work.radius), *(_near(at) for at in work.zone), *_laid_out(work, marking),
    )  # fmt: skip


def _laid_out(work: Work, marking: Marking) -> tuple[object, ...]:
    """To what it is cut, and where it is marked: neither stands in the work itself."""
    if work.does not in ("cut bar", "mark"):
        return ()
    bar = marking.bars.get((work.piece, *work.child))
    if not isinstance(bar, BarResult):
        return (_near(marking.rings.get(work.piece, 0.0)),)
    cut = say_up_both(bar.cut_this, Style())
    if work.does == "cut bar":
        return (cut,)
    places = [hole.at for hole in bar.holes]
    places += [at for twist in bar.twists for at in (twist.start, twist.end)]
    places += [at for bend in bar.bends for at in (bend.start, bend.end)]
    return (cut, *(_near(at) for at in places))


def _near(value: float) -> int:
    return round(value / SAME)


def _digest(*what: object) -> str:
    return sha256(repr(what).encode()).hexdigest()[:KEY]


def _keys_apart(keys: Sequence[str]) -> list[str]:
    """Keys that all differ: the second of two heats that do the very same is told as the second."""
    seen: dict[str, int] = {}
    made = []
    for key in keys:
        seen[key] = number = seen.get(key, 0) + 1
        made.append(key if number == 1 else f"{key}.{number}")
    return made


# ---- the order of the turns


def _turns(cards: Sequence[Card]) -> Iterator[Turn]:
    """Cards of one group stand together; a group is gone through once, or once for each copy."""
    for _, group in groupby(cards, key=lambda card: card.group):
        able = [card for card in group if card.ticks]
        if any(card.together for card in able):
            yield from (Turn(card.place, copy) for card in able for copy in range(1, card.make + 1))
        else:
            many = max((card.make for card in able), default=0)
            yield from (Turn(card.place, copy) for copy in range(1, many + 1) for card in able)
