"""Paper rules at full size to lay on the bar: one for the stock as cut, one for the bar drawn out and straight."""

from bickern.paper.copy import Copy
from bickern.paper.pens.page import Paper, Sheet
from bickern.paper.sheets.english import in_english
from bickern.paper.strips import Rule, strip_pages
from bickern.paper.views.profile import as_drawn
from bickern.paper.views.strip import named_marks, rule_strip
from bickern.parts.bar.result import BarResult


def bars_of(copy: Copy) -> tuple[BarResult, ...]:
    """Every bar of the job, split ends and branches after the bar that they belong to."""
    found: list[BarResult] = []

    def add(bar: BarResult) -> None:
        found.append(bar)
        for child in bar.children:
            add(child)

    for piece in copy.pieces:
        if isinstance(piece, BarResult):
            add(piece)
    return tuple(found)


def rules_of(bar: BarResult, copy: Copy) -> tuple[Rule, ...]:
    """A bar's two rules; a rule without marks is left out."""
    style, name = copy.shop.style, bar.spec.name
    before = named_marks(bar.marks_on_stock)
    after = named_marks(bar.marks_on_drawn, len(before) + 1)
    drawn = in_english("drawn out", copy.shop.english)
    rules = []
    if before:
        rules.append(Rule(rule_strip(f"{name}, stock before the fire", bar.cut_this, before, style), f"{name}, stock"))
    if after:
        title = f"{name}, {drawn} and straight"
        rules.append(Rule(rule_strip(title, as_drawn(bar).length, after, style, "ends here"), f"{name}, {drawn}"))
    return tuple(rules)


def markout_pages(copy: Copy, paper: Paper) -> tuple[Sheet, ...]:
    """All rules of the job, strips of several pieces to a page."""
    rules = [rule for bar in bars_of(copy) for rule in rules_of(bar, copy)]
    return strip_pages(rules, paper, f"{copy.job.title}: mark-out")
