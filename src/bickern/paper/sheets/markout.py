"""Paper rules at full size to lay on the bar: one for the stock as cut, one for the bar drawn out and straight."""

import math
from collections.abc import Sequence

from bickern.paper.copy import Copy
from bickern.paper.marks import Drawing, merge, moved
from bickern.paper.pens.page import Paper, Sheet, sideways
from bickern.paper.strips import strips
from bickern.paper.tiling import drawing_area
from bickern.paper.views.strip import named_marks, rule_strip
from bickern.parts.bar.result import BarResult

APART = 0.003
"""Between two rules on one page [m]."""


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


def rules_of(bar: BarResult, copy: Copy) -> tuple[Drawing, ...]:
    """A bar's two rules; a rule without marks is left out."""
    style, name = copy.shop.style, bar.spec.name
    before = named_marks(bar.marks_on_stock)
    after = named_marks(bar.marks_on_drawn, len(before) + 1)
    rules = []
    if before:
        rules.append(rule_strip(f"{name}, stock before the fire", bar.cut_this, before, style))
    if after:
        rules.append(rule_strip(f"{name}, drawn out and straight", bar.length, after, style, "ends here"))
    return tuple(rules)


def markout_pages(copy: Copy, paper: Paper) -> tuple[Sheet, ...]:
    """All rules of the job, several to a page where they fit."""
    rules = [rule for bar in bars_of(copy) for rule in rules_of(bar, copy)]
    pages: list[Sheet] = []
    for group in _groups(rules, paper):
        pages += strips(_stacked(group), paper, f"{copy.job.title}: mark-out").sheets
    return tuple(pages)


def _groups(rules: Sequence[Drawing], paper: Paper) -> list[list[Drawing]]:
    """Rules in order, gathered as long as one page holds all of their lengths."""
    area = drawing_area(sideways(paper))
    groups: list[list[Drawing]] = []
    for rule in rules:
        if groups and _fits([*groups[-1], rule], area.width, area.height):
            groups[-1].append(rule)
        else:
            groups.append([rule])
    return groups


def _fits(rules: Sequence[Drawing], wide: float, high: float) -> bool:
    rows = math.ceil(max(rule.bounds.width for rule in rules) / (wide - 0.07))
    return rows * sum(rule.bounds.height + APART + 0.008 for rule in rules) <= high


def _stacked(rules: Sequence[Drawing]) -> Drawing:
    placed, level = [], 0.0
    for rule in rules:
        placed.append(moved(rule, -rule.bounds.left, level - rule.bounds.top))
        level -= rule.bounds.height + APART
    return merge(*placed)
