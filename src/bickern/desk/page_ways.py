"""What to try, told to somebody who has a page before them: where a terminal names a command, a page names a place."""

from collections.abc import Iterable
from dataclasses import replace

from bickern.measure.finding import Finding

WAYS = {
    "no-rack": "put a bar in, or bring a list in, on the page of the rack: that begins it",
    "not-a-rack": "look at its name; a list of stock is brought in on the page of the rack",
    "no-such-stock": "look in the rack as it is now",
    "stock-gone": "look in the rack as it is now",
    "ids-given-anew": "paint the new ids on; the rack prints labels",
    "stock-for-cold-work": "the rack says why beside each",
    "stock-very-long": "look for a slip of its unit, and mend it in the rack",
    "too-many-labels": "find fewer pieces first: labels are printed of what is found",
    "no-rate": "write the shop's rates in its shop file, or try your own on this page",
    "shops-cut-otherwise": "let all jobs name one shop file",
    "nest-pages-left-out": "draw it on the sheet from its DXF or SVG, or take larger paper",
    "no-bar-in-the-rack": "the page of the job's stock says why of each bar",
    "no-such-record": "the day book of the job shows its records with their numbers",
}
"""Name of a finding -> what to try on the page."""
NO_RACK = "nothing lies in the rack yet"
"""What is said of a rack that is not there; where it would lie is nobody's business but the server's."""


def on_page(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings with what to try on a page."""
    return tuple(_on_page(one) for one in found)


def _on_page(fault: Finding) -> Finding:
    if fault.name not in WAYS:
        return fault
    says = NO_RACK if fault.name == "no-rack" else fault.says
    return replace(fault, says=says, try_this=WAYS[fault.name])
