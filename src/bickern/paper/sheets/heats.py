"""The order of work on paper: a card for each heat, to be read at arm's length and ticked; rows for the bench."""

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate

from bickern.making.heats.result import PiecePlan, Plan, Spell
from bickern.paper.copy import Copy
from bickern.paper.marks import Drawing
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets.heat_amounts import count_of
from bickern.paper.sheets.heat_pictures import drawing_of
from bickern.paper.sheets.heat_words import (
    NOT_PROVED,
    GroupWords,
    SpellWords,
    groups,
    head_lines,
    total_says,
)
from bickern.paper.sheets.setting import (
    BODY,
    FINE,
    SMALL,
    Part,
    Sign,
    beside,
    bullets,
    heading,
    keep,
    picture,
    row,
    ruled,
    stack,
    ticked,
    words,
)
from bickern.paper.sheets.work_words import WorkWords
from bickern.paper.views.scale import trimmed

NUMBER = 16.0
"""Type of a heat's number [pt]: found again with the iron in the other hand."""
PULL = 12.0
"""Type of the colour to pull at [pt]."""
AT_ONCE = 6
"""Most works at the bench that are kept together on a page."""
MOST_BOXES = 6
"""Boxes to tick before the number of a heat that comes several times, one for each; of more there is one for all."""
PICTURE, SIDE, BRIEF_SIDE, TICK = 0.070, 0.020, 0.046, 0.005
"""Width of the picture of a heat, of the column beside bench work, of that beside single lines of it, of a box [m]."""
HIGH, ABREAST = 0.024, 0.120
"""Height from which before and after are also tried abreast, and the width they then have [m]."""


def heats_parts(copy: Copy, paper: Paper, lots: bool = True) -> tuple[Part, ...]:
    """The whole plan as pieces of a page that are each kept whole; nothing for a job without a plan.

    `lots`: also how the copies of a piece are made together.
    """
    if copy.plan is None or not copy.plan.pieces:
        return ()
    wide = paper.width - 2 * MARGIN
    found: list[Part] = [_head(copy, copy.plan)]
    for group in groups(copy, copy.plan, lots):
        found += _group_parts(group, copy, wide)
    return tuple(_with_next(found))


def _with_next(parts: Sequence[Part]) -> list[Part]:
    """The head and what follows it are one: a heading never stands alone at the foot of a page."""
    return [stack(*parts[:2], gap=0), *parts[2:]] if len(parts) > 1 else list(parts)


def _head(copy: Copy, plan: Plan) -> Part:
    lines = [_named(name, says, FINE if name == NOT_PROVED else SMALL) for name, says in head_lines(copy, plan)]
    return stack(heading("The order of work, one heat at a time", total_says(plan)), bullets(lines), gap=1.5)


def _named(name: str, says: str, size: float = SMALL) -> Part:
    return row(words(f"{name}: ", size, bold=True), words(says, size))


def _group_parts(group: GroupWords, copy: Copy, wide: float) -> list[Part]:
    """A piece's title with its first step, and each step after it, all kept whole."""
    lines = [_named(name, says) for name, says in group.lines]
    title = stack(heading(group.title, group.aside), bullets(lines), gap=1.5)
    steps = [keep(one) for one in _steps(group, copy, wide)]
    return [stack(title, *steps[:1], gap=2), *steps[1:]]


def _steps(group: GroupWords, copy: Copy, wide: float) -> Iterator[Part]:
    """Each step; heats without a picture that follow one another stand two abreast."""
    plain: list[SpellWords] = []
    of = group.of.piece if group.of and len(copy.pieces) > 1 else ""
    for one in group.spells:
        pictured = one.spell.hot and not one.like
        drawn = _drawings(one.spell, group.of, copy) if pictured else ()
        if pictured and not drawn:
            plain.append(one)
            continue
        yield from _plain_cards(plain, of)
        plain = []
        yield from [_card(one, of, drawn, wide)] if drawn else [_like(one, of)] if one.like else _bench(one, wide)
    yield from _plain_cards(plain, of)


def _bench(said: SpellWords, wide: float) -> Iterator[Part]:
    """Cold work: each work with its box, in two columns where there are several; a few at a time, that pages fill."""
    many = min(2, len(said.works))
    room = (wide - BRIEF_SIDE) / many - TICK
    if len(said.works) <= AT_ONCE and all(_high(_letters(one), SMALL, room) < 2 * SMALL * POINT for one in said.works):
        yield _brief_bench(said, many)
        return
    lines = [stack(_work(one), *_fine_parts(_fine(one)), gap=0.5) for one in said.works]
    time = [words(said.time, FINE)] if said.time else []
    side = stack(words(said.number, BODY, bold=True), *time, gap=1)
    each = math.ceil(len(lines) / math.ceil(len(lines) / AT_ONCE))
    for i in range(0, len(lines), each):
        shown = bullets(lines[i : i + each], 2 if len(lines) > 1 else 1, Sign.BOX)
        part = beside([side if i == 0 else words(""), shown], [_mm(SIDE), "1fr"], gap=4)
        yield ruled(part) if i == 0 else part


def _brief_bench(said: SpellWords, columns: int) -> Part:
    """Cold work that takes a line each: beside its time, and what goes wrong below over the whole width."""
    side = row(words(f"{said.number}  ", BODY, bold=True), words(said.time, FINE))
    shown = bullets([_work(one) for one in said.works], columns, Sign.BOX)
    fine = _fine_parts([line for one in said.works for line in _fine(one)])
    return ruled(stack(beside([side, shown], [_mm(BRIEF_SIDE), "1fr"], gap=4), *fine, gap=1))


def _plain_cards(said: Sequence[SpellWords], of: str) -> Iterator[Part]:
    """Heats without a picture, two by two; a single one over the whole width."""
    for i in range(0, len(said), 2):
        if len(said) > i + 1:
            yield beside([_plain_card(one, of, narrow=True) for one in said[i : i + 2]], ["1fr", "1fr"], gap=12)
        else:
            yield _plain_card(said[i], of, narrow=False)


def _plain_card(said: SpellWords, of: str, narrow: bool) -> Part:
    """A heat without a picture: all in one column, or in a wide one with what is hot and how it is held at the left."""
    told = [_fact(name, says) for name, says in heat_facts(said) if says]
    fine = _fine_parts([line for one in said.works for line in _fine(one)])
    works = [_work(one) for one in said.works]
    number, top = _top(said, of)
    if narrow:
        return ruled(stack(number, top, *told, *works, *fine, gap=1.5))
    sides = [stack(number, *told, gap=1.5), stack(top, *works, gap=1.5)]
    return ruled(stack(beside(sides, [_mm(PICTURE), "1fr"]), *fine, gap=1.5))


def _drawings(spell: Spell, plan: PiecePlan | None, copy: Copy) -> tuple[Drawing, ...]:
    """The picture of a heat; where it is high also with before and after abreast."""
    drawn = drawing_of(spell, plan, copy, PICTURE)
    if drawn is None:
        return ()
    if trimmed(drawn).bounds.height < HIGH:
        return (drawn,)
    other = drawing_of(spell, plan, copy, ABREAST, abreast=True)
    return (drawn, other) if other is not None else (drawn,)


def _card(said: SpellWords, of: str, drawn: Sequence[Drawing], wide: float) -> Part:
    """A heat: its number and colour over the whole width, the picture at the left, the words at the right.

    Of several pictures that one which makes the lower card. What goes wrong stands beside the picture where that is
    high enough, else below over the whole width.
    """
    facts = [(name, says) for name, says in heat_facts(said) if says]
    told = [*(_fact(*one) for one in facts), *(_work(one) for one in said.works)]
    lengths = [*(len(name + says) for name, says in facts), *(_letters(one) for one in said.works)]
    fine = [line for work in said.works for line in _fine(work)]
    one, there = min((_placed(trimmed(one), lengths, fine, wide) for one in drawn), key=lambda each: each[0])[1:]
    body = beside([picture(one), stack(*told, *_fine_parts(fine[:there]), gap=1.5)], [_mm(_room(one)), "1fr"])
    return ruled(stack(beside(_top(said, of), [_mm(PICTURE), "1fr"]), body, *_fine_parts(fine[there:]), gap=1.5))


def _placed(
    drawn: Drawing, lengths: Sequence[int], fine: Sequence[tuple[str, str]], wide: float
) -> tuple[float, Drawing, int]:
    """How high a card comes with this picture, the picture, and how many lines in fine type stand beside it."""
    room, high = wide - _room(drawn), drawn.bounds.height
    words = sum(_high(letters, SMALL, room) for letters in lengths)
    tall = accumulate(_high(len(name + says), FINE, room) for name, says in fine)
    there = sum(words + one <= high for one in tall)
    below = sum(_high(len(name + says), FINE, wide) for name, says in fine[there:])
    return max(high, words) + below, drawn, there


def _room(drawn: Drawing) -> float:
    """The column for a picture: the same for most, that words begin under one another [m]."""
    return max(PICTURE, drawn.bounds.width)


def _mm(size: float) -> str:
    return f"{size * 1000:.1f}mm"


def _letters(one: WorkWords) -> int:
    return sum(len(says) for says in (one.title, one.at, one.tools, one.how, one.check)) + len(" Check: ")


def _high(letters: int, size: float, wide: float) -> float:
    """Height that so many letters of a size [pt] take in a column [m], near enough to choose a place by."""
    lines = math.ceil(letters * LETTER * size * POINT / wide)
    return lines * LEADING * size * POINT


POINT = 0.0254 / 72
"""A point of type [m]."""
LETTER, LEADING = 0.49, 1.16
"""Width of a letter and height of a line over the size of the type [-], measured on our pages."""


def heat_facts(said: SpellWords) -> tuple[tuple[str, str], ...]:
    """What is hot, by what it is held, and what must stay cold."""
    return ("Hot", said.where), ("Hold", said.hold), ("Keep cold", said.cold)


def _fact(name: str, says: str) -> Part:
    return row(words(f"{name}  ", SMALL, bold=True), words(says, SMALL))


def _top(said: SpellWords, of: str) -> list[Part]:
    """Number with its boxes over the piece and how many heats alike; and the colours over the seconds."""
    pull = row(words("Pull at ", SMALL), words(said.pull, PULL, bold=True), words(f"; stop at {said.stop}", SMALL))
    time = row(words(f"{said.gives}  ", BODY, bold=True), words(said.time, FINE))
    return [_number(said, of), stack(pull, time, gap=1)]


def _number(said: SpellWords, of: str) -> Part:
    """A heat's number with a box to tick for each, over the piece and how many heats alike."""
    heats = count_of(said.spell.times)[0]
    many = heats if 1 <= heats <= MOST_BOXES else 1
    more = ", ".join(one for one in (of, said.count) if one)
    number = ticked(words(said.number, NUMBER, bold=True), many)
    return stack(number, words(more, SMALL), gap=0) if more else number


def _like(said: SpellWords, of: str) -> Part:
    """Heats that are the same as those of an earlier piece: how hot, where, how it is held, what measures otherwise."""
    pull = row(words("Pull at ", SMALL), words(said.pull, PULL, bold=True), words(f"  {said.gives}", BODY, bold=True))
    title = words(" ".join(f"{work.title} {work.at}".strip() for work in said.works), SMALL, bold=True)
    facts = [_fact(f"  {name}", f"{says}.") for name, says in heat_facts(said) if says]
    checks = [_fact("  Check:", work.check) for work in said.works if work.check]
    told = row(title, words(f" As at {said.like}.", SMALL), *facts, *checks)
    fine = _fine_parts([line for one in said.works for line in _fine(one)])
    body = beside([_number(said, of), stack(pull, told, gap=1)], [_mm(PICTURE), "1fr"])
    return ruled(stack(body, *fine, gap=1))


def _work(one: WorkWords) -> Part:
    """One work: its name, with what and where, how, and the check."""
    main = [words(f"{one.title} {one.at} ".replace("  ", " "), SMALL, bold=True)]
    main.append(words(f"{one.tools} {one.how}".strip(), SMALL))
    main += [words(" Check: ", SMALL, bold=True), words(one.check, SMALL)] if one.check else []
    return row(*main)


def _fine(one: WorkWords) -> list[tuple[str, str]]:
    """What goes wrong, and the caution: told in finer type."""
    return [(name, says) for name, says in (("Usual fault", one.fault), ("Caution", one.caution)) if says]


def _fine_parts(lines: Sequence[tuple[str, str]]) -> list[Part]:
    """Such lines run on, each with its name in bold; nothing where there are none."""
    return [row(*(_named(name, f"{says}  ", FINE) for name, says in lines))] if lines else []
