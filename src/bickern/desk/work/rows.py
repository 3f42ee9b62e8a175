"""The order of work told in words: the same for a terminal and a page."""

from bickern.desk.answer import Row
from bickern.paper.copy import Copy
from bickern.paper.sheets.heat_words import GroupWords, SpellWords, groups, head_lines, total_says
from bickern.paper.sheets.heats import heat_facts
from bickern.paper.sheets.work_words import WorkWords


def heats_told(copy: Copy) -> tuple[tuple[str, tuple[Row, ...]], ...]:
    """Titles with their rows: the whole, each piece in the order to make them, joining, finish; none without a plan."""
    if copy.plan is None or not copy.plan.pieces:
        return ()
    head = (("in all", total_says(copy.plan)), *((name.lower(), says) for name, says in head_lines(copy, copy.plan)))
    return (("The order of work, one heat at a time", head), *(_told(one) for one in groups(copy, copy.plan)))


def _told(group: GroupWords) -> tuple[str, tuple[Row, ...]]:
    title = f"{group.title}: {group.aside}" if group.aside else group.title
    rows = [(name.lower(), says) for name, says in group.lines]
    return title, (*rows, *(row for one in group.spells for row in _spell(one)))


def _spell(said: SpellWords) -> tuple[Row, ...]:
    """One heat: its number with colour and time, where, how it is held, what stays cold, then each work."""
    works = tuple(row for one in said.works for row in _work(one))
    if not said.spell.hot:
        return ((said.number, said.time), *works)
    told = (f"pull at {said.pull}", f"stop at {said.stop}", said.gives, said.time, said.count)
    head = "; ".join(one for one in told if one)
    facts = tuple((name.lower(), says) for name, says in heat_facts(said) if says)
    return ((said.number, head), *facts, *works, *((("as", said.like),) if said.like else ()))


def _work(one: WorkWords) -> tuple[Row, ...]:
    main = ("do", " ".join(each for each in (one.title, one.at, one.tools, one.how) if each))
    more = (("check", one.check), ("usual fault", one.fault), ("caution", one.caution))
    return (main, *(row for row in more if row[1]))
