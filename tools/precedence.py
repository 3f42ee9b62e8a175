"""Writes `docs/precedence.md`: what must be done before what, each rule with its reason and where it is known from."""

import sys
from pathlib import Path

from bickern.making.heats.rules import PRECEDENCE, Precedence
from bickern.measure.source import COMMON_PRACTICE

PAGE = Path(__file__).parents[1] / "docs" / "precedence.md"
ANYTHING = "anything else"
"""How the rules' star is told."""
HEAD = """# What is done before what

The order of work is not written down anywhere in bickern: it follows from the rules below. They stand in their order of
strength; where two of them would pull the same works both ways, the upper one holds. Written from the source by
`tools/precedence.py`.

| first | then | where | because | known from |
|---|---|---|---|---|
"""


def row(rule: Precedence) -> str:
    """One rule as a row of the table."""
    first, then = (", ".join(ANYTHING if does == "*" else does for does in side) for side in (rule.first, rule.then))
    known = "common practice" if rule.source == COMMON_PRACTICE else str(rule.source)
    return f"| {first} | {then} | {rule.where} | {rule.because} | {known} |\n"


def page() -> str:
    """The whole page."""
    return HEAD + "".join(row(rule) for rule in PRECEDENCE)


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"docs/{PAGE.name}\n")
